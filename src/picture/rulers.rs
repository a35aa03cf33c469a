//! Things shown at life size: a float, and a line to check the printer by.

use crate::course::Units;
use crate::ground::units::Length;
use crate::picture::{Anchor, Drawing, Paint, Path, Stroke, Weight, letters};
use crate::words::labels::{check_line, check_line_words};
use crate::words::pictures::{bar_alt, check_line_alt};
use crate::words::short_text;

/// A float of `stitches` at life size, one block a stitch of `pitch` millimetres, its length beside it in type of
/// `points`.
#[must_use]
pub fn life_size_float(
    stitches: usize,
    pitch: f64,
    paint: Paint,
    (points, units): (f64, Units),
) -> Drawing {
    let length = pitch * stitches as f64;
    let words = short_text(Length::mm(length), units);
    let alt = bar_alt(&words, stitches);
    // Beside a long bar the words would push it out of its column, where it would no longer be life size.
    let grow = points / 11.0;
    let wide = letters(&words, points);
    let room = (wide + 2.0).max(20.0 * grow);
    let beside = length <= 36.0 / grow && length + room <= 56.0;
    let size = if beside {
        (length + room, 6.0)
    } else {
        (length.max(wide) + 0.5, 6.0 + 5.0 * grow)
    };
    let mut drawing = Drawing::new(size.0, size.1, alt);
    drawing.fill(Path::rect(0.0, 1.2, length, 3.4), paint);
    for i in 1..stitches {
        let x = pitch * i as f64;
        drawing.line(
            Path::line(&[(x, 1.2), (x, 4.6)]),
            Stroke::new(Paint::White, 0.3),
        );
    }
    for x in [0.0, length] {
        drawing.line(
            Path::line(&[(x, 0.2), (x, 5.8)]),
            Stroke::new(Paint::Ink, 0.35),
        );
    }
    let at = if beside {
        (length + 2.0, 4.2)
    } else {
        (0.0, 6.0 + 4.4 * grow)
    };
    drawing.label(at, words, points, Weight::Bold, Anchor::Start);
    drawing
}

/// A line of 50 mm, or of two inches.
#[must_use]
pub fn check_ruler(units: Units) -> Drawing {
    let (length, alt) = (
        check_line(units).to_mm(),
        check_line_alt(&check_line_words(units)),
    );
    let mut drawing = Drawing::new(length + 1.0, 6.0, alt);
    drawing.line(
        Path::line(&[(0.3, 3.0), (length + 0.3, 3.0)]),
        Stroke::new(Paint::Ink, 0.4),
    );
    for x in [0.3, length + 0.3] {
        drawing.line(
            Path::line(&[(x, 1.2), (x, 4.8)]),
            Stroke::new(Paint::Ink, 0.4),
        );
    }
    drawing
}
