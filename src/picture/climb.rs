//! The climb: one bar a lesson, as high as its grade, right of a lesson's title.

use crate::picture::{Anchor, Drawing, Paint, Path, Stroke, Weight};
use crate::words::pictures::climb_alt;

const WIDTH: f64 = 57.33;
const HEIGHT: f64 = 25.0;
const FOOT: f64 = 5.0;

/// One lesson of the course: its grade and whether it is behind, here or ahead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rung {
    /// Grade, 0 to 100.
    pub grade: f64,
}

/// The climb of a course, with the lesson at `here` (from 0) marked.
#[must_use]
pub fn climb(rungs: &[Rung], here: usize) -> Drawing {
    let alt = climb_alt(here + 1, rungs.len());
    let mut drawing = Drawing::new(WIDTH, HEIGHT, alt);
    let count = rungs.len().max(1) as f64;
    let pitch = WIDTH / count;
    let bar = (pitch * 0.77).min(6.0);
    let top = rungs.iter().map(|r| r.grade).fold(1.0, f64::max);
    let floor = HEIGHT - FOOT;
    for (i, rung) in rungs.iter().enumerate() {
        let x = pitch * i as f64 + (pitch - bar) / 2.0;
        let height = (rung.grade / top * (floor - 0.5)).max(0.6);
        let rect = Path::rect(x, floor - height, bar, height);
        match i.cmp(&here) {
            std::cmp::Ordering::Less => drawing.fill(rect, Paint::Mid),
            std::cmp::Ordering::Equal => drawing.fill(rect, Paint::Estuary),
            std::cmp::Ordering::Greater => drawing.line(rect, Stroke::new(Paint::Rule, 0.25)),
        }
        let weight = if i == here {
            Weight::Bold
        } else {
            Weight::Regular
        };
        // On a long climb only every fifth lesson and this one keep their numbers.
        if rungs.len() <= 14 || i == here || (i + 1) % 5 == 0 {
            drawing.label(
                (x + bar / 2.0, HEIGHT - 0.6),
                (i + 1).to_string(),
                8.5,
                weight,
                Anchor::Middle,
            );
        }
    }
    drawing.line(
        Path::line(&[(0.0, floor), (WIDTH, floor)]),
        Stroke::new(Paint::Ink, 0.5),
    );
    drawing
}
