//! The crown of a hat: wedges that lose one stitch each in every decrease round, down to a few on a thread.
//!
//! Rules, all common practice, no source: five to ten wedges, eight if nothing speaks against it; the shaping is as
//! high as a flat disc of that girth has radius, girth ÷ 2π; plain rounds lie between the earlier decrease rounds and
//! the last quarter (two at least) follow each other at once.

use std::f64::consts::TAU;

use crate::ground::units::{Gauge, Length};
use crate::piece::schedule::bounds::{MOST_STITCHES, is_positive, whole};
use crate::piece::schedule::even::{Ends, spread};
use crate::piece::schedule::round::Round;

/// The most stitches that are drawn up on a thread at the top of a hat.
pub const DRAWN_UP: usize = 10;

/// Numbers of wedges, the better liked first.
const WEDGES: [usize; 6] = [8, 7, 6, 9, 10, 5];

/// The most plain rounds between two decrease rounds.
const MOST_BETWEEN: usize = 3;

/// A hat's crown from the first shaping round to the thread.
#[derive(Clone, Debug, PartialEq)]
pub struct Crown {
    /// Wedges, each one stitch in the end.
    pub wedges: usize,
    /// Stitches lost in the first round so that the wedges come out whole.
    pub adjusted: usize,
    /// All rounds, each beginning with the count that the one before left.
    pub rounds: Vec<Round>,
    /// Stitches to draw up.
    pub end: usize,
    /// How high the rounds are.
    pub height: Length,
    /// How high the rule would have it.
    pub wanted: Length,
}

/// Why there is no crown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CrownError {
    /// No stitches.
    Empty,
    /// More than [`MOST_STITCHES`].
    TooLarge,
    /// A gauge that is not above zero, or that makes rounds without number.
    BadGauge,
}

/// The crown over `stitches` stitches of fabric at `gauge`.
///
/// The number of wedges is the one that loses the fewest stitches in the first, even round; of equals the better
/// liked. Wedges too few to close within the height by more than a round are left out. [`DRAWN_UP`] stitches or fewer need no shaping.
///
/// # Errors
/// See [`CrownError`].
pub fn crown(stitches: usize, gauge: Gauge) -> Result<Crown, CrownError> {
    if stitches == 0 {
        return Err(CrownError::Empty);
    }
    if stitches > MOST_STITCHES {
        return Err(CrownError::TooLarge);
    }
    if !is_positive(gauge.stitches) || !is_positive(gauge.rows) {
        return Err(CrownError::BadGauge);
    }
    let wanted = gauge.width(stitches as f64).to_mm() / TAU;
    let all = whole(gauge.rows_spanning(Length::mm(wanted))).ok_or(CrownError::BadGauge)?;
    let wedges = wedges(stitches, all);
    let mut shaping = Vec::new();
    let mut count = stitches;
    if stitches > DRAWN_UP {
        let whole_wedges = stitches - stitches % wedges;
        if whole_wedges < stitches {
            shaping.push(lose(&mut count, whole_wedges)?);
        }
        while count > wedges {
            let next = count - wedges;
            shaping.push(lose(&mut count, next)?);
        }
    }
    let rounds = with_rests(shaping, all);
    Ok(Crown {
        wedges,
        adjusted: if stitches > DRAWN_UP {
            stitches % wedges
        } else {
            0
        },
        end: count,
        height: gauge.height(rounds.len() as f64),
        wanted: Length::mm(wanted),
        rounds,
    })
}

/// The number of wedges for a crown of about `all` rounds.
fn wedges(stitches: usize, all: usize) -> usize {
    let fits = |wedges: &usize| {
        stitches / wedges + usize::from(!stitches.is_multiple_of(*wedges)) <= all + 2
    };
    // With equal remainders `min_by_key` keeps the first, which is the better liked.
    let best = WEDGES.into_iter().filter(fits).min_by_key(|w| stitches % w);
    // In fabric of very few rounds nothing fits, and the most wedges close fastest.
    best.unwrap_or(10)
}

/// A round that leaves `next` stitches.
fn lose(count: &mut usize, next: usize) -> Result<Round, CrownError> {
    let lost = spread(*count, next, Ends::Round).map_err(|_| CrownError::TooLarge)?;
    *count = next;
    Ok(Round::even(lost))
}

/// Puts plain rounds after the earlier shaping rounds, the more the earlier, until there are `all` rounds.
fn with_rests(shaping: Vec<Round>, all: usize) -> Vec<Round> {
    let places = shaping
        .len()
        .saturating_sub(2.max(shaping.len().div_ceil(4)));
    let rests = all.saturating_sub(shaping.len()).min(MOST_BETWEEN * places);
    let (each, over) = (
        rests.checked_div(places).unwrap_or(0),
        rests.checked_rem(places).unwrap_or(0),
    );
    let mut rounds = Vec::with_capacity(shaping.len() + rests);
    for (at, round) in shaping.into_iter().enumerate() {
        let after = round.after;
        rounds.push(round);
        if at < places {
            let plain = each + usize::from(at < over);
            rounds.extend((0..plain).map(|_| Round::plain(after)));
        }
    }
    rounds
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests may panic")]
mod tests {
    use super::*;
    use crate::piece::schedule::round::RoundWork;

    const GAUGE: Gauge = Gauge::BARE_CHART;

    #[test]
    fn ninety_six_stitches_make_eight_wedges() {
        let hat = crown(96, GAUGE).unwrap();
        assert_eq!((hat.wedges, hat.adjusted, hat.end), (8, 0, 8));
        // 480 mm ÷ 2π = 76.4 mm = 20 rounds: 11 decrease rounds and 9 plain ones, of which 8 places take them.
        assert_eq!(hat.rounds.len(), 20);
        let Some(RoundWork::Even(first)) = hat.rounds.first().map(|r| &r.work) else {
            panic!("a decrease round comes first");
        };
        assert_eq!(
            (first.groups[0].runs[0].gap, first.groups[0].times),
            (10, 8)
        );
        let last: Vec<usize> = hat.rounds.iter().rev().map(|r| r.after).take(3).collect();
        assert_eq!(last, [8, 16, 24]);
    }

    #[test]
    fn the_number_of_wedges_spares_stitches() {
        let of = |n| {
            let c = crown(n, GAUGE).unwrap();
            (c.wedges, c.adjusted, c.end)
        };
        assert_eq!(of(100), (10, 0, 10));
        assert_eq!(of(98), (7, 0, 7));
        assert_eq!(of(97), (8, 1, 8));
        assert_eq!(of(11), (10, 1, 10));
        assert_eq!(of(10), (10, 0, 10));
        assert_eq!(of(3).2, 3);
    }

    #[test]
    fn nonsense_is_refused() {
        assert_eq!(crown(0, GAUGE), Err(CrownError::Empty));
        assert_eq!(crown(usize::MAX, GAUGE), Err(CrownError::TooLarge));
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e-300] {
            let gauge = Gauge {
                stitches: bad,
                rows: 26.0,
            };
            assert_eq!(crown(96, gauge), Err(CrownError::BadGauge));
        }
    }
}
