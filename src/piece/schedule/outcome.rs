//! What a band asks of its count, what a count comes out at, and what would help one that is too far off.

use crate::ground::units::{Length, stitches_in, stitches_per_10cm, width_of};
use crate::piece::schedule::even::Ends;
use crate::piece::schedule::multiple::Fit;
use crate::piece::schedule::needle::{NeedleGuess, needle_for};

/// Per cent of the girth aimed at that a count may miss.
pub const CLOSE: f64 = 3.0;

/// What a band asks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BandWish {
    /// Its repeat and edge stitches.
    pub fit: Fit,
    /// The girth (or width) aimed at.
    pub girth: Length,
    /// Stitches to 10 cm of its fabric.
    pub gauge: f64,
    /// Its needle, if known.
    pub needle: Option<Length>,
    /// Whether a plain round lies between it and the band beneath; of no account for the first band.
    pub plain_before: bool,
}

/// What a count comes out at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// Stitches.
    pub stitches: usize,
    /// What they measure.
    pub girth: Length,
    /// That less the girth aimed at.
    pub error: Length,
    /// The same in per cent of the girth aimed at.
    pub percent: f64,
}

/// What would help a band whose count is more than [`CLOSE`] per cent off.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedies {
    /// Stitches to 10 cm at which the count would hit exactly.
    pub gauge: f64,
    /// The needle to try for that gauge.
    pub needle: Option<NeedleGuess>,
    /// The next smaller count of its repeat.
    pub fewer: Option<Outcome>,
    /// The next larger count of its repeat.
    pub more: Option<Outcome>,
    /// Flat only: edge stitches to add, and the count that they make of the largest one below the target.
    pub edges: Option<(usize, Outcome)>,
}

/// Whether an error, in per cent and without its sign, is close.
pub(super) fn is_close(percent: f64) -> bool {
    percent <= CLOSE + 1e-9
}

/// What a band of so many stitches comes out at.
pub(super) fn outcome(band: &BandWish, stitches: usize) -> Outcome {
    let girth = width_of(stitches as f64, band.gauge);
    let error = girth.to_mm() - band.girth.to_mm();
    Outcome {
        stitches,
        girth,
        error: Length::mm(error),
        percent: 100.0 * error / band.girth.to_mm(),
    }
}

/// What would help this band, which now has so many stitches.
pub(super) fn remedies(band: &BandWish, stitches: usize, ends: Ends) -> Remedies {
    let target = stitches_in(band.girth, band.gauge);
    let gauge = stitches_per_10cm(stitches as f64, band.girth);
    let counts = band.fit.counts();
    let at = |count: Option<usize>| count.map(|count| outcome(band, count));
    let fewer = counts.and_then(|c| c.at_most(stitches as f64 - 0.5));
    let more = counts.and_then(|c| c.above(c.at_most(stitches as f64)));
    let edges = || {
        let below = counts?.at_most(target)?;
        let wanted = (target + 0.5).floor() as usize;
        let added = wanted.checked_sub(below).filter(|added| *added > 0)?;
        Some((added, outcome(band, wanted)))
    };
    Remedies {
        gauge,
        needle: band
            .needle
            .and_then(|now| needle_for(now, band.gauge, gauge)),
        fewer: at(fewer),
        more: at(more),
        edges: if ends == Ends::Flat { edges() } else { None },
    }
}
