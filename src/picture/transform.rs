//! Drawings moved, seen in a mirror, or seen through a glass.

use crate::picture::{Anchor, Drawing, Label, Point, Shape, Stroke};

impl Drawing {
    /// The same drawing as a mirror shows it. Words stay readable: only their places change sides.
    #[must_use]
    pub fn mirrored(self) -> Self {
        let width = self.width;
        let shapes = self.shapes.into_iter().map(|shape| match shape {
            Shape::Label(label) => Shape::Label(Label {
                at: (width - label.at.0, label.at.1),
                anchor: match label.anchor {
                    Anchor::Start => Anchor::End,
                    Anchor::Middle => Anchor::Middle,
                    Anchor::End => Anchor::Start,
                },
                ..label
            }),
            other => placed(other, (width, 0.0), (-1.0, 1.0)),
        });
        let areas = self.areas.iter();
        let areas = areas.map(|(n, [x, y, w, h])| (*n, [width - x - w, *y, *w, *h]));
        Self {
            shapes: shapes.collect(),
            areas: areas.collect(),
            ..self
        }
    }

    /// The same drawing `factor` times as large, lines and words too.
    #[must_use]
    pub fn magnified(self, factor: f64) -> Self {
        let stroke = |stroke: Stroke| Stroke {
            width: stroke.width * factor,
            dash: stroke.dash.map(|(on, off)| (on * factor, off * factor)),
            ..stroke
        };
        let shapes = self.shapes.into_iter().map(|shape| {
            match placed(shape, (0.0, 0.0), (factor, factor)) {
                Shape::Line(path, line) => Shape::Line(path, stroke(line)),
                Shape::Label(label) => Shape::Label(Label {
                    size: label.size * factor,
                    ..label
                }),
                Shape::Stamps {
                    path,
                    fill,
                    outline,
                    at,
                    scale,
                } => Shape::Stamps {
                    path,
                    fill,
                    outline: outline.map(stroke),
                    at,
                    scale,
                },
                fill @ Shape::Fill(..) => fill,
            }
        });
        Self {
            width: self.width * factor,
            height: self.height * factor,
            shapes: shapes.collect(),
            alt: self.alt,
            areas: self
                .areas
                .iter()
                .map(|(n, area)| (*n, area.map(|mm| mm * factor)))
                .collect(),
        }
    }
}

/// The shape somewhere else.
pub(super) fn moved(shape: Shape, by: Point) -> Shape {
    placed(shape, by, (1.0, 1.0))
}

/// The shape scaled, then moved; widths of lines and sizes of words stay.
fn placed(shape: Shape, (dx, dy): Point, (sx, sy): Point) -> Shape {
    let to = |(x, y): Point| (dx + x * sx, dy + y * sy);
    match shape {
        Shape::Fill(path, paint) => Shape::Fill(path.placed((dx, dy), (sx, sy)), paint),
        Shape::Line(path, stroke) => Shape::Line(path.placed((dx, dy), (sx, sy)), stroke),
        Shape::Label(label) => Shape::Label(Label {
            at: to(label.at),
            ..label
        }),
        Shape::Stamps {
            path,
            fill,
            outline,
            at,
            scale,
        } => Shape::Stamps {
            path,
            fill,
            outline,
            at: at.into_iter().map(to).collect(),
            scale: (scale.0 * sx, scale.1 * sy),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::{Paint, Path, Weight};

    fn sample() -> Drawing {
        let mut drawing = Drawing::new(20.0, 10.0, "a sample");
        drawing.fill(Path::rect(1.0, 2.0, 3.0, 4.0), Paint::Ink);
        drawing.label((18.0, 9.0), "3", 9.0, Weight::Bold, Anchor::End);
        drawing
    }

    #[test]
    fn two_mirrors_show_the_thing_itself() {
        let once = sample().mirrored();
        assert_eq!(
            once.shapes[0],
            Shape::Fill(
                Path::polygon(&[(19.0, 2.0), (16.0, 2.0), (16.0, 6.0), (19.0, 6.0)]),
                Paint::Ink,
            )
        );
        let Shape::Label(label) = &once.shapes[1] else {
            unreachable!()
        };
        assert_eq!((label.at, label.anchor), ((2.0, 9.0), Anchor::Start));
        assert_eq!(once.mirrored(), sample());
    }

    #[test]
    fn a_glass_enlarges_places_and_words() {
        let large = sample().magnified(2.0);
        assert_eq!((large.width, large.height), (40.0, 20.0));
        let Shape::Label(label) = &large.shapes[1] else {
            unreachable!()
        };
        assert_eq!((label.at, label.size), ((36.0, 18.0), 18.0));
    }
}
