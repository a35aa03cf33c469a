//! A drawing as a mark of a slice, and taken apart into marks once its page is known.

use std::sync::Arc;

use crate::page::pdf::face::Face;
use crate::page::pdf::flow::slice::Slice;
use crate::page::pdf::frame::{Item, PageMark, Placed};
use crate::page::pdf::text::{Run, Style, Typesetter};
use crate::picture::{Anchor, Drawing, Label, Path, Point, Seg, Shape, Stroke};

/// Puts a drawing at a place, scaled. Its shapes belong to the figure `node`; its labels, which the alternative text
/// stands for, are furniture.
pub(super) fn put(
    slice: &mut Slice,
    drawing: &Arc<Drawing>,
    at: Point,
    scale: f64,
    node: Option<usize>,
) {
    let placed = Placed {
        drawing: Arc::clone(drawing),
        at,
        scale,
        turned: false,
    };
    slice.mark(PageMark::Drawing(placed), node);
}

/// Items with every drawing in them taken apart.
pub(in crate::page::pdf) fn taken_apart(
    items: Vec<Item>,
    typesetter: &mut Typesetter,
) -> Vec<Item> {
    let mut all = Vec::with_capacity(items.len());
    for item in items {
        match &item.mark {
            PageMark::Drawing(placed) => marks_of(placed, item.node, typesetter, &mut all),
            _ => all.push(item),
        }
    }
    all
}

impl Placed {
    /// A point of the drawing on the page.
    fn point(&self, (x, y): Point) -> Point {
        match self.turned {
            false => (self.at.0 + x * self.scale, self.at.1 + y * self.scale),
            true => (self.at.0 + y * self.scale, self.at.1 - x * self.scale),
        }
    }

    /// A path of the drawing on the page.
    fn path(&self, path: &Path) -> Path {
        let mut placed = Path(Vec::with_capacity(path.0.len()));
        self.stamp(path, (0.0, 0.0), (1.0, 1.0), &mut placed);
        placed
    }

    /// A path, set at a place of the drawing, added to one on the page.
    fn stamp(&self, unit: &Path, (x, y): Point, (sx, sy): Point, all: &mut Path) {
        let at = |(px, py): Point| self.point((x + px * sx, y + py * sy));
        all.0.extend(unit.0.iter().map(|seg| match *seg {
            Seg::Move(p) => Seg::Move(at(p)),
            Seg::Line(p) => Seg::Line(at(p)),
            Seg::Curve(a, b, c) => Seg::Curve(at(a), at(b), at(c)),
            Seg::Close => Seg::Close,
        }));
    }
}

fn marks_of(
    placed: &Placed,
    node: Option<usize>,
    typesetter: &mut Typesetter,
    all: &mut Vec<Item>,
) {
    let line = |stroke: &Stroke| Stroke {
        width: stroke.width * placed.scale,
        ..*stroke
    };
    for shape in &placed.drawing.shapes {
        let mark = match shape {
            Shape::Fill(path, paint) => PageMark::Fill(placed.path(path), *paint),
            Shape::Line(path, _) if path.0.is_empty() => continue,
            Shape::Line(path, stroke) => PageMark::Line(placed.path(path), line(stroke)),
            Shape::Stamps {
                path: unit,
                fill,
                outline,
                at: places,
                scale,
            } => {
                // All stamps of one look as one path: small files, quick pages.
                let mut path = Path(Vec::with_capacity(places.len() * unit.0.len()));
                for place in places {
                    placed.stamp(unit, *place, *scale, &mut path);
                }
                if path.0.is_empty() {
                    continue;
                }
                match (fill, outline) {
                    (Some(fill), Some(stroke)) => PageMark::Both(path, *fill, line(stroke)),
                    (Some(fill), None) => PageMark::Fill(path, *fill),
                    (None, Some(stroke)) => PageMark::Line(path, line(stroke)),
                    (None, None) => continue,
                }
            }
            Shape::Label(label) => {
                let run = run(label, placed, typesetter);
                // Furniture that is drawn with a node's content: figures in a picture.
                all.push(Item {
                    mark: PageMark::Run(run),
                    node: None,
                    near: node,
                });
                continue;
            }
        };
        let near = node;
        all.push(Item { mark, node, near });
    }
}

fn run(label: &Label, placed: &Placed, typesetter: &mut Typesetter) -> Run {
    let face = Face::from(label.weight);
    let size = label.size * placed.scale;
    let style = Style {
        tabular: true,
        ..Style::new(face, size)
    };
    let width = typesetter.width(&label.text, style);
    let glyphs = typesetter.shape(&label.text, face, true);
    let shift = match label.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => width / 2.0,
        Anchor::End => width,
    };
    let (x, y) = placed.point(label.at);
    let (x, y) = match placed.turned {
        false => (x - shift, y),
        true => (x, y + shift),
    };
    Run {
        face,
        size,
        paint: label.paint,
        x,
        y,
        glyphs,
        turned: placed.turned,
    }
}
