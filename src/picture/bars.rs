//! A measure bar: how much of a part is asked, and the most met so far.

use crate::picture::{Drawing, Paint, Path, Stroke};

const WIDTH: f64 = 46.0;
const HEIGHT: f64 = 4.6;

/// A bar filled to `value`, with a triangle below at `met`; both 0 to 1.
#[must_use]
pub fn measure_bar(value: f64, met: Option<f64>, alt: impl Into<String>) -> Drawing {
    let mut drawing = Drawing::new(WIDTH, HEIGHT + 2.4, alt);
    let filled = WIDTH * value.clamp(0.0, 1.0);
    drawing.fill(Path::rect(0.0, 0.0, filled, HEIGHT), Paint::Estuary);
    for tenth in 1..10 {
        let x = WIDTH * f64::from(tenth) / 10.0;
        let tall = if tenth == 5 { 1.6 } else { 1.0 };
        let paint = if x < filled { Paint::White } else { Paint::Ink };
        drawing.line(
            Path::line(&[(x, HEIGHT), (x, HEIGHT - tall)]),
            Stroke::new(paint, 0.2),
        );
    }
    drawing.line(
        Path::rect(0.0, 0.0, WIDTH, HEIGHT),
        Stroke::new(Paint::Rule, 0.2),
    );
    if let Some(met) = met {
        let x = WIDTH * met.clamp(0.0, 1.0);
        // At an end of the bar half of it stands, its tip where it belongs.
        let foot = HEIGHT + 2.3;
        let (left, right) = ((x - 1.35).max(0.0), (x + 1.35).min(WIDTH));
        let triangle = [(x, HEIGHT + 0.3), (right, foot), (left, foot)];
        drawing.fill(Path::polygon(&triangle), Paint::Ink);
    }
    drawing
}
