//! Which counts a band can have: so many repeats and, once only, edge stitches.

use crate::piece::schedule::bounds::MOST_STITCHES;

/// What a band asks of its count: `edges + multiple · r`, with at least one repeat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fit {
    /// Stitches of the repeat; 1 if any count will do.
    pub multiple: usize,
    /// Edge stitches, worked once.
    pub edges: usize,
}

impl Fit {
    /// Any count will do.
    pub const FREE: Self = Self {
        multiple: 1,
        edges: 0,
    };

    /// Whole repeats without edge stitches.
    #[must_use]
    pub const fn of(multiple: usize) -> Self {
        Self { multiple, edges: 0 }
    }

    /// Whether it asks nothing.
    #[must_use]
    pub const fn is_free(self) -> bool {
        self.multiple == 1 && self.edges == 0
    }

    /// Whether this many stitches fit.
    #[must_use]
    pub fn holds(self, stitches: usize) -> bool {
        self.repeats(stitches).is_some()
    }

    /// Repeats in this many stitches; `None` if they do not fit.
    #[must_use]
    pub fn repeats(self, stitches: usize) -> Option<usize> {
        let inner = stitches.checked_sub(self.edges)?;
        let times = inner.checked_div(self.multiple)?;
        (times > 0 && times.checked_mul(self.multiple) == Some(inner)).then_some(times)
    }

    /// The counts that fit. `None` for a repeat of nothing, or one wider than [`MOST_STITCHES`].
    #[must_use]
    pub fn counts(self) -> Option<Counts> {
        let first = self.edges.checked_add(self.multiple)?;
        (self.multiple > 0 && first <= MOST_STITCHES).then_some(Counts {
            first,
            step: self.multiple,
        })
    }
}

/// Counts in equal steps: `first`, `first + step`, … up to [`MOST_STITCHES`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Counts {
    /// The smallest.
    pub first: usize,
    /// From one to the next, at least 1.
    pub step: usize,
}

impl Counts {
    /// The largest count that is at most `limit` stitches.
    #[must_use]
    pub fn at_most(self, limit: f64) -> Option<usize> {
        if limit.is_nan() || limit < self.first as f64 {
            return None;
        }
        // A hair of forgiveness, as everywhere a measure becomes stitches.
        let limit = (limit + 1e-9).floor().min(MOST_STITCHES as f64) as usize;
        Some(self.first + limit.checked_sub(self.first)? / self.step.max(1) * self.step)
    }

    /// The smallest count above `count`, or the first.
    #[must_use]
    pub fn above(self, count: Option<usize>) -> Option<usize> {
        count
            .map_or(Some(self.first), |count| count.checked_add(self.step))
            .filter(|next| *next <= MOST_STITCHES)
    }

    /// The count nearest to `target` stitches, ties to the larger. `None` only if `target` is not a number.
    #[must_use]
    pub fn nearest(self, target: f64) -> Option<usize> {
        if target.is_nan() {
            return None;
        }
        let below = self.at_most(target);
        let above = self.above(below);
        match (below, above) {
            (Some(below), Some(above)) => {
                let nearer_below = target - (below as f64) + 1e-9 < above as f64 - target;
                Some(if nearer_below { below } else { above })
            }
            (one, other) => one.or(other),
        }
    }

    /// The counts that are in both. `None` if there are none up to [`MOST_STITCHES`].
    #[must_use]
    pub fn and(self, other: Self) -> Option<Self> {
        let (a, b) = (self.step.max(1), other.step.max(1));
        let shared = gcd(a, b);
        if !self.first.abs_diff(other.first).is_multiple_of(shared) {
            return None;
        }
        let step = (a / shared).checked_mul(b)?;
        // The walk is short: at most as many steps as the other repeat has stitches.
        let (slow, fast) = if a > b { (self, other) } else { (other, self) };
        let mut first = slow.first;
        while first < fast.first || (first - fast.first) % fast.step.max(1) != 0 {
            first = slow.above(Some(first))?;
        }
        (first <= MOST_STITCHES).then_some(Self { first, step })
    }
}

fn gcd(a: usize, b: usize) -> usize {
    if b == 0 { a.max(1) } else { gcd(b, a % b) }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests may panic")]
mod tests {
    use super::*;

    #[test]
    fn ties_go_to_the_larger_count() {
        let eights = Fit::of(8).counts().unwrap();
        assert_eq!(eights.nearest(100.0), Some(104));
        assert_eq!(eights.nearest(99.0), Some(96));
        assert_eq!(eights.nearest(-1e300), Some(8));
        assert_eq!(eights.nearest(f64::INFINITY), Some(MOST_STITCHES));
        assert_eq!(eights.nearest(f64::NAN), None);
    }

    #[test]
    fn edges_count_once_and_must_agree() {
        let with = |multiple, edges| Fit { multiple, edges }.counts().unwrap();
        assert_eq!(
            with(6, 1).and(with(4, 3)),
            Some(Counts { first: 7, step: 12 })
        );
        assert_eq!(with(6, 1).and(with(4, 2)), None);
        assert_eq!(
            with(8, 0).and(with(12, 0)),
            Some(Counts {
                first: 24,
                step: 24
            })
        );
        assert!(
            Fit {
                multiple: 8,
                edges: 1
            }
            .holds(17)
        );
        assert!(
            !Fit {
                multiple: 8,
                edges: 1
            }
            .holds(1)
        );
        assert!(!Fit::of(0).holds(0));
        assert_eq!(Fit::of(0).counts(), None);
        assert_eq!(
            Fit {
                multiple: usize::MAX,
                edges: 2
            }
            .counts(),
            None
        );
    }
}
