//! Decreases and increases spread evenly over a round or row.
//!
//! Each decrease works two stitches to one, so at most half of the stitches can go in one round; that is enough for
//! every rhythm of a yoke: "three to two" is one plain stitch before each, "five to three" is none and one in turn.
//! Plain gaps between two neighbours differ by at most one stitch.

use crate::piece::schedule::bounds::MOST_STITCHES;
use crate::piece::schedule::runs::{Group, groups};

/// Where a round or row ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// Worked in the round: the last gap meets the first decrease again.
    Round,
    /// Worked flat: half a gap stands at either edge.
    Flat,
}

/// One round or row that goes from `before` to `after` stitches.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spread {
    /// Stitches at the beginning: of decreases two for each and the gaps, of increases the gaps.
    pub before: usize,
    /// Stitches at the end.
    pub after: usize,
    /// Flat only: plain stitches before the very first decrease or increase, which stands before all groups.
    pub first: Option<usize>,
    /// The rest, in the order of work: none, one or two groups.
    pub groups: Vec<Group>,
    /// Plain stitches after the last decrease or increase.
    pub last: usize,
}

/// Why a count cannot be reached in one round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpreadError {
    /// No stitches to work over.
    Empty,
    /// More than [`MOST_STITCHES`].
    TooLarge,
    /// More than half would vanish, or more would come than there are stitches (flat: gaps between stitches).
    TooMany {
        /// Stitches that are there.
        before: usize,
        /// Stitches asked for.
        after: usize,
        /// The fewest that one round can leave.
        least: usize,
        /// The most that one round can leave.
        most: usize,
    },
}

/// Spreads the way from `before` to `after` stitches evenly; equal counts give a plain round.
///
/// # Errors
/// No stitches, more than [`MOST_STITCHES`], more than half to lose, or more to gain than one in each gap.
pub fn spread(before: usize, after: usize, ends: Ends) -> Result<Spread, SpreadError> {
    if before == 0 {
        return Err(SpreadError::Empty);
    }
    if before.max(after) > MOST_STITCHES {
        return Err(SpreadError::TooLarge);
    }
    let least = before.div_ceil(2);
    let most = match ends {
        Ends::Round => 2 * before,
        // An increase needs a stitch on either side.
        Ends::Flat => 2 * before - 1,
    };
    if after < least || after > most {
        return Err(SpreadError::TooMany {
            before,
            after,
            least,
            most,
        });
    }
    let parts = before.abs_diff(after);
    let plain = if after < before {
        before - 2 * parts
    } else {
        before
    };
    let mut spread = Spread {
        before,
        after,
        first: None,
        groups: Vec::new(),
        last: 0,
    };
    if parts == 0 {
        spread.last = plain;
    } else if ends == Ends::Round {
        spread.groups = groups(plain, parts);
    } else {
        // One gap, of the longer ones if there are any, is halved and stands at both edges.
        let halved = plain.div_ceil(parts);
        spread.first = Some(halved.div_ceil(2));
        spread.last = halved / 2;
        spread.groups = groups(plain - halved, parts - 1);
    }
    Ok(spread)
}

impl Spread {
    /// How many decreases or increases.
    #[must_use]
    pub fn changes(&self) -> usize {
        self.before.abs_diff(self.after)
    }

    /// Whether stitches are lost.
    #[must_use]
    pub fn is_decrease(&self) -> bool {
        self.after < self.before
    }

    /// Plain stitches before each decrease or increase, in the order of work.
    pub fn gaps(&self) -> impl Iterator<Item = usize> + '_ {
        self.first
            .into_iter()
            .chain(self.groups.iter().flat_map(Group::gaps))
    }

    /// Stitches before and after as the groups alone tell them: what a knitter would count.
    #[must_use]
    pub fn counted(&self) -> (usize, usize) {
        let plain = self.gaps().sum::<usize>() + self.last;
        let parts = self.gaps().count();
        if self.is_decrease() {
            (plain + 2 * parts, plain + parts)
        } else {
            (plain, plain + parts)
        }
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests may panic")]
mod tests {
    use super::*;

    #[test]
    fn runs_print_well() {
        let of = |before, after| {
            let groups = spread(before, after, Ends::Round).unwrap().groups;
            let runs = |g: &Group| g.runs.iter().map(|r| (r.gap, r.times)).collect::<Vec<_>>();
            groups
                .iter()
                .map(|g| (runs(g), g.times))
                .collect::<Vec<_>>()
        };
        assert_eq!(
            of(94, 84),
            [(vec![(8, 1)], 4), (vec![(7, 1)], 6)],
            "the example of every pattern book"
        );
        // The three rounds of the percentage yoke (Zimmermann, Knitting Around 1989, after readers' summaries):
        // knit 2, 2 together; knit 1, 2 together; 2 together, knit 1, 2 together.
        assert_eq!(of(268, 201), [(vec![(2, 1)], 67)]);
        assert_eq!(of(201, 134), [(vec![(1, 1)], 67)]);
        assert_eq!(of(135, 81), [(vec![(0, 1), (1, 1)], 27)]);
        assert_eq!(
            of(310, 273),
            [(vec![(6, 2), (7, 1)], 9), (vec![(6, 1), (7, 1)], 5)]
        );
    }

    #[test]
    fn flat_rows_have_half_a_gap_at_both_edges() {
        let row = spread(40, 36, Ends::Flat).unwrap();
        assert_eq!((row.first, row.last), (Some(4), 4));
        assert_eq!(row.gaps().collect::<Vec<_>>(), [4, 8, 8, 8]);
        let one = spread(9, 8, Ends::Flat).unwrap();
        assert_eq!((one.first, one.last, one.groups.len()), (Some(4), 3, 0));
    }

    #[test]
    fn too_much_is_refused() {
        let refused = |before, after, ends| spread(before, after, ends).is_err();
        assert!(refused(10, 4, Ends::Round) && !refused(10, 5, Ends::Round));
        assert!(refused(10, 21, Ends::Round) && !refused(10, 20, Ends::Round));
        assert!(refused(10, 20, Ends::Flat) && !refused(10, 19, Ends::Flat));
        assert!(refused(0, 0, Ends::Round) && refused(usize::MAX, 1, Ends::Round));
        assert!(refused(1, usize::MAX, Ends::Flat));
    }
}
