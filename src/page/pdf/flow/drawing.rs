//! A drawing's shapes as marks of a slice.

use crate::page::pdf::face::Face;
use crate::page::pdf::flow::slice::Slice;
use crate::page::pdf::frame::PageMark;
use crate::page::pdf::text::{Run, Style, Typesetter};
use crate::picture::{Anchor, Drawing, Label, Path, Point, Shape, Stroke};

/// Puts a drawing at a place, scaled. Its shapes belong to the figure `node`; its labels, which the alternative text
/// stands for, are furniture.
pub(super) fn put(
    slice: &mut Slice,
    drawing: &Drawing,
    at: Point,
    scale: f64,
    node: Option<usize>,
    typesetter: &mut Typesetter,
) {
    let path = |path: &Path| path.placed(at, (scale, scale));
    let line = |stroke: &Stroke| Stroke {
        width: stroke.width * scale,
        ..*stroke
    };
    for shape in &drawing.shapes {
        match shape {
            Shape::Fill(p, paint) => slice.mark(PageMark::Fill(path(p), *paint), node),
            Shape::Line(p, stroke) => {
                if !p.0.is_empty() {
                    slice.mark(PageMark::Line(path(p), line(stroke)), node);
                }
            }
            Shape::Stamps {
                path: unit,
                fill,
                outline,
                at: places,
                scale: (sx, sy),
            } => {
                // All stamps of one look as one path: small files, quick pages.
                let mut all = Path::default();
                for (x, y) in places {
                    let place = (at.0 + x * scale, at.1 + y * scale);
                    all.0.extend(unit.placed(place, (sx * scale, sy * scale)).0);
                }
                if all.0.is_empty() {
                    continue;
                }
                let mark = match (fill, outline) {
                    (Some(fill), Some(stroke)) => PageMark::Both(all, *fill, line(stroke)),
                    (Some(fill), None) => PageMark::Fill(all, *fill),
                    (None, Some(stroke)) => PageMark::Line(all, line(stroke)),
                    (None, None) => continue,
                };
                slice.mark(mark, node);
            }
            Shape::Label(label) => {
                slice.mark_near(PageMark::Run(run(label, at, scale, typesetter)), node);
            }
        }
    }
}

fn run(label: &Label, at: Point, scale: f64, typesetter: &mut Typesetter) -> Run {
    let face = Face::from(label.weight);
    let size = label.size * scale;
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
    let (x, y) = (at.0 + label.at.0 * scale - shift, at.1 + label.at.1 * scale);
    Run {
        face,
        size,
        paint: label.paint,
        x,
        y,
        glyphs,
        turned: false,
    }
}
