//! The thumb of mitts and mittens: its opening in the hand, the stitches picked up round it, and its own rounds.
//!
//! Rules, all common practice, no source: the thumb has 35 to 40 % of the hand's stitches, those picked up in the
//! corners included (3/8 is aimed at); one stitch is picked up in each corner; a closed thumb is three tenths of the
//! hand's girth long, the stub of a fingerless mitt an eighth (from memory); it closes by a third, then by halves.

use crate::ground::units::{Gauge, Length};
use crate::piece::schedule::bounds::{MOST_STITCHES, is_positive, whole};
use crate::piece::schedule::even::{Ends, spread};
use crate::piece::schedule::round::Round;

/// The thumb's share of the hand's stitches that is aimed at.
const SHARE: f64 = 0.375;

/// Stitches picked up in the two corners of the opening together.
const CORNERS: usize = 2;

/// The most stitches that are drawn up at the tip of a thumb.
const TIP: usize = 8;

/// The fewest stitches a hand may have.
const LEAST_HAND: usize = 12;

/// How the thumb ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tip {
    /// Closed, as on a mitten.
    Closed,
    /// Bound off, as on a fingerless mitt.
    Open,
}

/// A thumb.
#[derive(Clone, Debug, PartialEq)]
pub struct Thumb {
    /// Stitches of the hand that make the opening.
    pub opening: usize,
    /// Stitches picked up: the opening below and above, and one in each corner.
    pub picked_up: usize,
    /// Those in per cent of the hand.
    pub percent: f64,
    /// All rounds of the thumb.
    pub rounds: Vec<Round>,
    /// Stitches at its end, to draw up or to bind off.
    pub end: usize,
    /// How long its rounds are.
    pub length: Length,
}

/// Why there is no thumb.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThumbError {
    /// Fewer than twelve stitches in the hand.
    TooFew,
    /// More than [`MOST_STITCHES`], or as many rounds.
    TooLarge,
    /// A gauge or length that is not above zero.
    BadMeasure,
}

/// The thumb of a hand of `hand` stitches; `length` replaces the usual one.
///
/// A thumb is never shorter than one plain round and its closing.
///
/// # Errors
/// See [`ThumbError`].
pub fn thumb(
    hand: usize,
    gauge: Gauge,
    tip: Tip,
    length: Option<Length>,
) -> Result<Thumb, ThumbError> {
    if hand < LEAST_HAND {
        return Err(ThumbError::TooFew);
    }
    if hand > MOST_STITCHES {
        return Err(ThumbError::TooLarge);
    }
    let girth = gauge.width(hand as f64).to_mm();
    let usual = match tip {
        Tip::Closed => girth * 0.3,
        Tip::Open => girth / 8.0,
    };
    let length = length.map_or(usual, Length::to_mm);
    if ![gauge.stitches, gauge.rows, length]
        .into_iter()
        .all(is_positive)
    {
        return Err(ThumbError::BadMeasure);
    }
    let all = whole(gauge.rows_spanning(Length::mm(length))).ok_or(ThumbError::TooLarge)?;
    let held = whole((SHARE * hand as f64 - CORNERS as f64) / 2.0).ok_or(ThumbError::TooLarge)?;
    let held = held.max(1);
    let picked_up = 2 * held + CORNERS;
    let closing = match tip {
        Tip::Closed => closing(picked_up)?,
        Tip::Open => Vec::new(),
    };
    let plain = all.saturating_sub(closing.len()).max(1);
    let mut rounds = vec![Round::plain(picked_up); plain];
    rounds.extend(closing);
    Ok(Thumb {
        opening: held,
        picked_up,
        percent: 100.0 * picked_up as f64 / hand as f64,
        end: rounds.last().map_or(picked_up, |round| round.after),
        length: gauge.height(rounds.len() as f64),
        rounds,
    })
}

/// A round that takes a third, then rounds that take half, until few enough are left to draw up.
fn closing(stitches: usize) -> Result<Vec<Round>, ThumbError> {
    let mut rounds = Vec::new();
    let mut count = stitches;
    while count > TIP {
        let lost = if rounds.is_empty() {
            count / 3
        } else {
            count / 2
        };
        let round = spread(count, count - lost, Ends::Round).map_err(|_| ThumbError::TooLarge)?;
        count = round.after;
        rounds.push(Round::even(round));
    }
    Ok(rounds)
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
    fn a_hand_of_forty_eight_has_a_thumb_of_eighteen() {
        let found = thumb(48, GAUGE, Tip::Closed, None).unwrap();
        assert_eq!((found.opening, found.picked_up), (8, 18));
        assert_eq!(found.percent, 37.5);
        // 200 mm × 0.3 = 60 mm = 18 rounds, the last two from 18 to 12 and 6.
        let counts: Vec<usize> = found.rounds.iter().map(|r| r.after).collect();
        assert_eq!(counts.len(), 18);
        assert_eq!(counts[14..], [18, 18, 12, 6]);
    }

    #[test]
    fn every_hand_has_a_thumb() {
        for hand in 12..400 {
            for tip in [Tip::Closed, Tip::Open] {
                let found = thumb(hand, GAUGE, tip, None).unwrap();
                assert!(
                    hand < 40 || (35.0..=40.0).contains(&found.percent),
                    "{hand}"
                );
                assert!(found.opening * 2 < hand);
                let mut count = found.picked_up;
                for round in &found.rounds {
                    assert_eq!(round.before, count);
                    assert!(2 * round.after >= round.before);
                    count = round.after;
                }
                assert_eq!(count, found.end);
                assert!(tip == Tip::Open || count <= TIP);
            }
        }
    }

    #[test]
    fn nonsense_is_refused() {
        let of = |hand, length| thumb(hand, GAUGE, Tip::Open, Some(Length::mm(length)));
        assert_eq!(of(11, 20.0), Err(ThumbError::TooFew));
        assert_eq!(of(usize::MAX, 20.0), Err(ThumbError::TooLarge));
        assert_eq!(of(48, f64::NAN), Err(ThumbError::BadMeasure));
        assert_eq!(of(48, 1e300), Err(ThumbError::TooLarge));
    }
}
