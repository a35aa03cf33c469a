//! Working schedules as numbers: counts of bands, even decreases, crowns, sleeves, thumbs and the circular yoke.
//!
//! Nothing here knows a lesson, a chart or a word. Counts are whole stitches; lengths and gauges come in as
//! [`Length`](crate::ground::units::Length) and [`Gauge`](crate::ground::units::Gauge). Every round is given by the count it starts
//! from and the count it leaves, so that whoever prints it can show that nothing is lost between two rounds.

pub mod counts;
pub mod crown;
pub mod even;
pub mod mitten;
pub mod multiple;
pub mod needle;
pub mod outcome;
pub mod runs;
pub mod sleeve;
pub mod thumb;
pub mod yoke;

use crate::piece::schedule::even::Spread;

/// The most stitches any schedule counts. Far above any garment; it keeps slips of the pen from filling the memory.
pub const MOST_STITCHES: usize = 5_000;

/// The most rounds any schedule counts.
pub const MOST_ROUNDS: usize = 5_000;

/// A round and what is done in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Round {
    /// Stitches at its beginning.
    pub before: usize,
    /// Stitches at its end.
    pub after: usize,
    /// What is done.
    pub work: Work,
}

/// What is done in a round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Work {
    /// Nothing but plain stitches.
    Plain,
    /// Decreases or increases spread evenly.
    Even(Spread),
    /// On palm and back alike: one stitch, a left-leaning decrease, `middle` stitches, a right-leaning decrease, one
    /// stitch.
    Sides {
        /// Plain stitches between the two decreases of one half.
        middle: usize,
    },
}

impl Round {
    /// A plain round over `stitches`.
    #[must_use]
    pub const fn plain(stitches: usize) -> Self {
        Self {
            before: stitches,
            after: stitches,
            work: Work::Plain,
        }
    }

    /// A round with these decreases or increases; plain if there are none.
    #[must_use]
    pub fn even(spread: Spread) -> Self {
        Self {
            before: spread.before,
            after: spread.after,
            work: if spread.changes() == 0 {
                Work::Plain
            } else {
                Work::Even(spread)
            },
        }
    }

    /// Whether nothing is gained or lost.
    #[must_use]
    pub fn is_plain(&self) -> bool {
        self.work == Work::Plain
    }
}

/// The nearest whole number, halves up; a half that binary numbers store a hair too low still goes up.
///
/// `None` for what is not finite, negative or above [`MOST_STITCHES`].
pub(crate) fn whole(value: f64) -> Option<usize> {
    let rounded = (value + 0.5 + 1e-9).floor();
    (rounded >= 0.0 && rounded <= MOST_STITCHES as f64).then_some(rounded as usize)
}

/// The nearest even number, ties to the larger. `None` as for [`whole`].
pub(crate) fn nearest_even(value: f64) -> Option<usize> {
    whole(value / 2.0)
        .map(|half| 2 * half)
        .filter(|n| *n <= MOST_STITCHES)
}

/// Whether a measure can be reckoned with: finite and above nothing.
pub(crate) fn is_positive(value: f64) -> bool {
    value.is_finite() && value > 0.0
}

#[cfg(test)]
mod tests {
    use super::{nearest_even, whole};

    #[test]
    fn halves_go_up() {
        // The published yoke rounds 49.5 to 50, 52.5 to 53 and 37.5 to 38 (percentage yoke at 5 stitches to the inch).
        assert_eq!([49.5, 52.5, 37.5].map(whole), [50, 53, 38].map(Some));
        assert_eq!(whole(0.33 * 150.0), Some(50));
        assert_eq!([f64::NAN, f64::INFINITY, -3.0, 1e300].map(whole), [None; 4]);
        assert_eq!([65.0, 66.9, 0.9].map(nearest_even), [66, 66, 0].map(Some));
    }
}
