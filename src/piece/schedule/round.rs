//! A round and what is done in it.

use crate::piece::schedule::even::Spread;

/// A round and what is done in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Round {
    /// Stitches at its beginning.
    pub before: usize,
    /// Stitches at its end.
    pub after: usize,
    /// What is done.
    pub work: RoundWork,
}

/// What is done in a round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RoundWork {
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
            work: RoundWork::Plain,
        }
    }

    /// A round with these decreases or increases; plain if there are none.
    #[must_use]
    pub fn even(spread: Spread) -> Self {
        Self {
            before: spread.before,
            after: spread.after,
            work: if spread.changes() == 0 {
                RoundWork::Plain
            } else {
                RoundWork::Even(spread)
            },
        }
    }

    /// Whether nothing is gained or lost.
    #[must_use]
    pub fn is_plain(&self) -> bool {
        self.work == RoundWork::Plain
    }
}
