//! Which needle to try next: a rule of thumb, never a promise. Only a new swatch tells.

use crate::ground::units::Length;
use crate::piece::schedule::bounds::is_positive;

/// Needles as sold, in millimetres. The American ladder (from memory) with the metric sizes that fill its gaps.
pub const SOLD_MM: [f64; 25] = [
    1.5, 1.75, 2.0, 2.25, 2.5, 2.75, 3.0, 3.25, 3.5, 3.75, 4.0, 4.5, 5.0, 5.5, 6.0, 6.5, 7.0, 8.0,
    9.0, 10.0, 12.0, 12.75, 15.0, 19.0, 25.0,
];

/// How much of its stitches a gauge loses for each millimetre of needle: one stitch of twenty for half a millimetre.
/// Common practice, no source.
const LOSS_PER_MM: f64 = 0.1;

/// A needle to try.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeedleGuess {
    /// Its size.
    pub needle: Length,
    /// Stitches to 10 cm that the rule of thumb expects of it.
    pub gauge: f64,
    /// Sizes up (positive) or down the ladder as sold.
    pub steps: isize,
}

/// The needle as sold whose expected gauge is nearest to `wanted` stitches to 10 cm, within 2 mm of the present one;
/// of equals the one nearer to the present.
///
/// The rule: half a millimetre changes the gauge by a twentieth. Common practice, no source.
/// `None` if a number is not above zero, or if the present needle is the best.
#[must_use]
pub fn needle_for(present: Length, gauge: f64, wanted: f64) -> Option<NeedleGuess> {
    let now = present.to_mm();
    if !(is_positive(now) && is_positive(gauge) && is_positive(wanted)) {
        return None;
    }
    let expected = |mm: f64| gauge * (1.0 - LOSS_PER_MM * (mm - now));
    let miss = |mm: f64| (expected(mm) - wanted).abs();
    let best = SOLD_MM
        .into_iter()
        .filter(|mm| (mm - now).abs() <= 2.0)
        .min_by(|a, b| {
            let by_miss = miss(*a).total_cmp(&miss(*b));
            by_miss.then((a - now).abs().total_cmp(&(b - now).abs()))
        })?;
    if miss(best) >= miss(now) {
        return None;
    }
    let place = |mm: f64| SOLD_MM.iter().filter(|sold| **sold < mm).count();
    let steps = isize::try_from(place(best)).ok()? - isize::try_from(place(now)).ok()?;
    Some(NeedleGuess {
        needle: Length::mm(best),
        gauge: expected(best),
        steps,
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests may panic")]
mod tests {
    use super::*;

    #[test]
    fn half_a_millimetre_is_one_stitch_of_twenty() {
        let guess = needle_for(Length::mm(4.5), 20.0, 19.0).unwrap();
        assert_eq!(guess.needle, Length::mm(5.0));
        assert_eq!((guess.gauge, guess.steps), (19.0, 1));
        let guess = needle_for(Length::mm(4.5), 20.0, 21.1).unwrap();
        assert_eq!((guess.needle, guess.steps), (Length::mm(4.0), -1));
        assert_eq!(needle_for(Length::mm(4.5), 20.0, 20.2), None);
        assert_eq!(needle_for(Length::mm(f64::NAN), 20.0, 20.2), None);
        assert_eq!(needle_for(Length::mm(400.0), 20.0, 1.0), None);
    }
}
