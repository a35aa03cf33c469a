//! The line in which technique drawings are made: yarn with an edge of ink, stitches from their front and their back.

use crate::picture::{Anchor, Drawing, Paint, Path, Point, Seg, Stroke, Weight};

/// Yarn is so thick, and its edge.
const YARN: f64 = 1.6;
const EDGE: f64 = 0.35;

/// The size of words in a drawing: the floor of print.
const WORDS: f64 = 8.5;

/// A yarn: dark, pale, or between for a third one. All are told apart in black.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Yarn {
    Dark,
    Pale,
    Third,
}

impl Yarn {
    const fn paint(self) -> Paint {
        match self {
            Self::Dark => Paint::Estuary,
            Self::Pale => Paint::White,
            Self::Third => Paint::Mid,
        }
    }
}

/// A smooth line through places.
fn smooth(points: &[Point]) -> Path {
    let mut path = Path::default();
    let at = |i: usize| {
        points
            .get(i.min(points.len().saturating_sub(1)))
            .copied()
            .unwrap_or_default()
    };
    path.0.extend(points.first().map(|first| Seg::Move(*first)));
    for i in 1..points.len() {
        let (before, from, to, after) = (at(i.saturating_sub(2)), at(i - 1), at(i), at(i + 1));
        let bend = |a: Point, b: Point, by: f64| ((b.0 - a.0) * by, (b.1 - a.1) * by);
        let (out, back) = (bend(before, to, 1.0 / 6.0), bend(from, after, 1.0 / 6.0));
        path.0.push(Seg::Curve(
            (from.0 + out.0, from.1 + out.1),
            (to.0 - back.0, to.1 - back.1),
            to,
        ));
    }
    path
}

/// A length of yarn through places, lying over all that is drawn already.
pub(super) fn strand(drawing: &mut Drawing, points: &[Point], yarn: Yarn) {
    let path = smooth(points);
    let line = |paint: Paint, width: f64| Stroke {
        round: true,
        ..Stroke::new(paint, width)
    };
    drawing.line(path.clone(), line(Paint::Ink, YARN));
    drawing.line(path, line(yarn.paint(), YARN - 2.0 * EDGE));
}

/// A stitch from its back: a bump over its two feet, in a cell from `x` on, its feet at `y`.
pub(super) fn bump(drawing: &mut Drawing, (x, y): Point, width: f64, yarn: Yarn) {
    let at = |dx: f64, dy: f64| (x + dx * width, y - dy * 3.2);
    strand(
        drawing,
        &[
            at(0.02, 0.0),
            at(0.2, 0.85),
            at(0.5, 1.05),
            at(0.8, 0.85),
            at(0.98, 0.0),
        ],
        yarn,
    );
}

/// A stitch from its front: two leaves that meet at their foot, in a cell whose upper left corner is at `at`.
pub(super) fn front(drawing: &mut Drawing, at: Point, (width, height): Point, yarn: Yarn) {
    let mut path = crate::picture::fabric::leaf(false);
    path.0.extend(crate::picture::fabric::leaf(true).0);
    let path = path.placed(at, (width, height));
    drawing.fill(path.clone(), yarn.paint());
    drawing.line(path, Stroke::new(Paint::Ink, 0.25));
}

/// A needle from its end to its point.
pub(super) fn needle(drawing: &mut Drawing, from: Point, to: Point) {
    let path = Path::line(&[from, to]);
    let line = |paint: Paint, width: f64| Stroke {
        round: true,
        ..Stroke::new(paint, width)
    };
    drawing.line(path.clone(), line(Paint::Ink, 2.4));
    drawing.line(path, line(Paint::Wash, 1.7));
}

/// A finger: a rounded stump from its root to its tip.
pub(super) fn finger(drawing: &mut Drawing, from: Point, to: Point) {
    let path = Path::line(&[from, to]);
    let line = |paint: Paint, width: f64| Stroke {
        round: true,
        ..Stroke::new(paint, width)
    };
    drawing.line(path.clone(), line(Paint::Ink, 6.4));
    drawing.line(path, line(Paint::White, 5.7));
}

/// A ball of yarn.
pub(super) fn ball(drawing: &mut Drawing, (x, y): Point, yarn: Yarn) {
    let r = 3.2;
    drawing.fill(Path::circle(x, y, r), yarn.paint());
    drawing.line(Path::circle(x, y, r), Stroke::new(Paint::Ink, EDGE));
    let ink = match yarn {
        Yarn::Dark => Paint::White,
        Yarn::Pale | Yarn::Third => Paint::Ink,
    };
    for by in [-1.2, 0.2, 1.6] {
        let path = smooth(&[(x - 2.3, y + by), (x, y + by - 0.9), (x + 2.3, y + by)]);
        drawing.line(path, Stroke::new(ink, 0.25));
    }
}

/// Words under or beside what they name.
pub(super) fn name(drawing: &mut Drawing, at: Point, words: &str, anchor: Anchor) {
    drawing.label(at, words, WORDS, Weight::SemiBold, anchor);
}

/// A thin arrow that points to something.
pub(super) fn pointer(drawing: &mut Drawing, from: Point, to: Point) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypot(dy).max(0.1);
    let (ux, uy) = (dx / length, dy / length);
    drawing.line(Path::line(&[from, to]), Stroke::new(Paint::Buoy, 0.35));
    let back = (to.0 - 1.8 * ux, to.1 - 1.8 * uy);
    let head = [
        to,
        (back.0 - 0.8 * uy, back.1 + 0.8 * ux),
        (back.0 + 0.8 * uy, back.1 - 0.8 * ux),
    ];
    drawing.fill(Path::polygon(&head), Paint::Buoy);
}
