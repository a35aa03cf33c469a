//! The top of a mitten: four decreases a round, at both sides of palm and back.
//!
//! Common practice, no source: "knit 1, a left-leaning decrease, knit to the last three, a right-leaning decrease,
//! knit 1" on each half, every round for a blunt top and every second round for a pointed one.

use crate::ground::units::{Gauge, Length};
use crate::piece::schedule::bounds::{MOST_STITCHES, is_positive, whole};
use crate::piece::schedule::even::{Ends, spread};
use crate::piece::schedule::round::{Round, RoundWork};

/// The fewest stitches that are left for the thread or the graft.
pub const LEFT: usize = 8;

/// A mitten's top from the first decrease round on.
#[derive(Clone, Debug, PartialEq)]
pub struct MittenTop {
    /// All rounds, each beginning with the count that the one before left.
    pub rounds: Vec<Round>,
    /// Stitches left: 8 or 10, fewer only if there were no more.
    pub end: usize,
    /// How high the rounds are.
    pub height: Length,
}

/// Why there is no top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MittenError {
    /// No stitches.
    Empty,
    /// More than [`MOST_STITCHES`].
    TooLarge,
    /// A gauge that is not above zero, or a height that is no length.
    BadMeasure,
}

/// The top over `stitches` stitches of hand. An odd count loses one stitch first.
///
/// # Errors
/// See [`MittenError`].
pub fn mitten_top(stitches: usize, gauge: Gauge, height: Length) -> Result<MittenTop, MittenError> {
    if stitches == 0 {
        return Err(MittenError::Empty);
    }
    if stitches > MOST_STITCHES {
        return Err(MittenError::TooLarge);
    }
    if !is_positive(gauge.rows) {
        return Err(MittenError::BadMeasure);
    }
    let mut rounds = Vec::new();
    let mut count = stitches;
    if count > LEFT + 2 && count % 2 == 1 {
        let one = spread(count, count - 1, Ends::Round).map_err(|_| MittenError::TooLarge)?;
        rounds.push(Round::even(one));
        count -= 1;
    }
    let shaping = if count > LEFT + 2 {
        (count - LEFT) / 4
    } else {
        0
    };
    let rests = whole(gauge.rows_spanning(height))
        .ok_or(MittenError::BadMeasure)?
        .saturating_sub(rounds.len() + shaping);
    for at in 0..shaping {
        rounds.push(Round {
            before: count,
            after: count - 4,
            work: RoundWork::Sides {
                middle: (count / 2).saturating_sub(6),
            },
        });
        count -= 4;
        if at < rests && at + 1 < shaping {
            rounds.push(Round::plain(count));
        }
    }
    Ok(MittenTop {
        end: count,
        height: gauge.height(rounds.len() as f64),
        rounds,
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests may panic")]
mod tests {
    use super::*;

    const GAUGE: Gauge = Gauge {
        stitches: 24.0,
        rows: 30.0,
    };

    #[test]
    fn forty_eight_stitches_close_in_ten_decrease_rounds() {
        let of = |height| mitten_top(48, GAUGE, height).unwrap();
        assert_eq!(of(Length::mm(1.0)).rounds.len(), 10);
        assert_eq!(of(Length::cm(100.0)).rounds.len(), 19);
        assert_eq!(of(Length::cm(5.0)).rounds.len(), 15);
        assert_eq!(of(Length::mm(1.0)).end, 8);
        assert_eq!(
            of(Length::mm(1.0)).rounds.first().map(|r| r.work.clone()),
            Some(RoundWork::Sides { middle: 18 })
        );
    }

    #[test]
    fn every_count_ends_on_a_thread() {
        for n in 1..300 {
            let top = mitten_top(n, GAUGE, Length::cm(100.0)).unwrap();
            let mut count = n;
            for round in &top.rounds {
                assert_eq!(round.before, count);
                if let RoundWork::Sides { middle } = round.work {
                    assert_eq!(2 * (middle + 6), round.before);
                    assert_eq!(2 * (middle + 4), round.after);
                }
                count = round.after;
            }
            assert_eq!(count, top.end);
            assert!(top.end <= 10 && (n < 8 || top.end >= 8), "{n}");
        }
    }

    #[test]
    fn nonsense_is_refused() {
        let height = Length::mm(f64::NAN);
        assert_eq!(mitten_top(48, GAUGE, height), Err(MittenError::BadMeasure));
        assert_eq!(
            mitten_top(0, GAUGE, Length::mm(1.0)),
            Err(MittenError::Empty)
        );
        assert_eq!(
            mitten_top(usize::MAX, GAUGE, Length::mm(1.0)),
            Err(MittenError::TooLarge)
        );
    }
}
