//! Verbs of shaping in the trade's short forms, and what decreases that lean are called.

use crate::course::Hand;

/// The verbs of plain stitches, two to one and one more: `k`, `k2tog`, `make 1`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verbs {
    /// So many plain stitches.
    plain: &'static str,
    /// Whether the number stands before the word.
    number_first: bool,
    /// Two to one.
    pub less: String,
    /// One more.
    pub more: String,
    /// Stitches beneath that one more takes: none where it is made of a strand, one where two are worked into one.
    more_takes: usize,
}

impl Verbs {
    /// `k 8`, `8 dc`.
    #[must_use]
    pub fn plain(&self, stitches: usize) -> String {
        if self.number_first {
            format!("{stitches} {}", self.plain)
        } else {
            format!("{} {stitches}", self.plain)
        }
    }

    /// Those of knitting.
    #[must_use]
    pub fn knitted() -> Self {
        Self::new("k", false, "k2tog", "make 1")
    }

    /// Knitting on the way back, where stitches are purled.
    #[must_use]
    pub fn purled() -> Self {
        Self::new("p", false, "p2tog", "make 1 purlwise")
    }

    /// One more is worked into a stitch beneath.
    pub(super) fn into_one(self) -> Self {
        Self {
            more_takes: 1,
            ..self
        }
    }

    /// An increase after a gap of so many stitches: its last stitch may be the one that is worked into.
    pub(in crate::words) const fn before_more(&self, gap: usize) -> usize {
        gap.saturating_sub(self.more_takes)
    }

    pub(super) fn new(plain: &'static str, number_first: bool, less: &str, more: &str) -> Self {
        Self {
            plain,
            number_first,
            less: less.to_owned(),
            more: more.to_owned(),
            more_takes: 0,
        }
    }
}

/// What the decreases are called that lean to the right and to the left in the fabric.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leans {
    /// Two to one, leaning right.
    pub right: String,
    /// Two to one, leaning left.
    pub left: String,
}

impl Leans {
    /// Those of knitting: a left-handed knitter's two knitted together lean to the left.
    #[must_use]
    pub fn knitted(hand: Hand) -> Self {
        let (right, left) = match hand {
            Hand::Right => ("k2tog", "ssk"),
            Hand::Left => ("ssk", "k2tog"),
        };
        Self {
            right: right.to_owned(),
            left: left.to_owned(),
        }
    }
}
