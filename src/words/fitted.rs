//! Whom a piece fits, and what a gauge or a finished piece tells of the next.

use crate::course::{Lesson, Units};
use crate::ground::units::Length;
use crate::piece::schedule::needle::NeedleGuess;
use crate::words::{Wording, length_text, needle_text, range_number, stitches_text, unit_name};

/// Whom a girth fits: `head 54–58 cm`.
#[must_use]
pub fn fits_text(lesson: &Lesson, range: Option<(Length, Length)>, units: Units) -> String {
    let size = lesson.middle_size();
    let part = size.map_or("body", |size| lesson.makes.girth_of(size).0);
    range.map_or_else(
        || "nobody in particular".to_owned(),
        |range| format!("{part} {} {}", range_number(range, units), unit_name(units)),
    )
}

/// The same for grown-ups or for children, who wear a piece with different ease.
#[must_use]
pub fn fits_whom(adult: bool, fits: &str) -> String {
    format!("fits {}: {fits}", if adult { "adults" } else { "children" })
}

/// The gauge of a finished piece beside the lesson's.
#[must_use]
pub fn own_gauge_text(
    (stitches, girth): (usize, Length),
    own: f64,
    lesson: &Lesson,
    wording: Wording,
) -> String {
    let units = wording.units();
    format!(
        "{stitches} stitches in {}: your {} is {}, the lesson's {}",
        length_text(girth, units),
        gauge_word(lesson, wording),
        stitches_text(own, units),
        stitches_text(lesson.colourwork.gauge.stitches, units)
    )
}

/// The needle to take after a finished piece; `None` where no other comes nearer.
#[must_use]
pub fn next_needle_text(needle: Option<Length>, units: Units) -> String {
    match needle {
        Some(needle) => format!(
            "next time try {} (a rule of thumb; only a swatch tells)",
            needle_text(needle, units)
        ),
        None => "the needle is right, as near as needles are sold".to_owned(),
    }
}

/// The needle that should reach a lesson's gauge from another one.
#[must_use]
pub fn reach_gauge_text(guess: Option<NeedleGuess>, gauge: f64, units: Units) -> String {
    match guess {
        Some(guess) => format!(
            "to reach {}, try {}: about {} (a rule of thumb; only a swatch tells)",
            stitches_text(gauge, units),
            needle_text(guess.needle, units),
            stitches_text(guess.gauge, units)
        ),
        None => "no other needle as sold comes nearer".to_owned(),
    }
}

/// Heads of a table of sizes at another gauge.
#[must_use]
pub fn fit_heads(lesson: &Lesson, wording: Wording) -> [String; 5] {
    let yours = at_your_gauge(lesson, wording);
    ["size", "stitches", "comes out", &yours, "to fit"].map(str::to_owned)
}

/// `at your tension`.
#[must_use]
pub fn at_your_gauge(lesson: &Lesson, wording: Wording) -> String {
    format!("at your {}", gauge_word(lesson, wording))
}

/// What stitches to 10 cm are called; stitches on cloth have no tension.
fn gauge_word(lesson: &Lesson, wording: Wording) -> &'static str {
    match lesson.craft.has_rows() {
        true => wording.tension(),
        false => "gauge",
    }
}
