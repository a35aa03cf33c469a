//! A sleeve from the cuff to the upper arm: two increases a round, spread evenly over its length.

use crate::piece::schedule::bounds::{MOST_ROUNDS, MOST_STITCHES};
use crate::piece::schedule::runs::{GapRun, plain_runs};

/// A round in which the sleeve widens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    /// Its number, counted from 1 above the cuff.
    pub round: usize,
    /// Stitches at its beginning.
    pub before: usize,
    /// Stitches at its end.
    pub after: usize,
}

/// A sleeve between cuff and underarm.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sleeve {
    /// Stitches above the cuff.
    pub cuff: usize,
    /// Stitches at the upper arm.
    pub upper: usize,
    /// Rounds in all.
    pub rounds: usize,
    /// The rounds that increase: one stitch at each side of the seam line, in the first of them only one if the
    /// difference is odd.
    pub steps: Vec<Step>,
    /// The same for print: after the first of them, every so many rounds (`gap`), so many times. "Every 6th round 3
    /// times, then every 5th round 4 times" is the trade's way to say it.
    pub every: Vec<GapRun>,
}

/// Why there is no sleeve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SleeveError {
    /// No stitches at the cuff.
    Empty,
    /// More than [`MOST_STITCHES`] or [`MOST_ROUNDS`].
    TooLarge,
    /// The upper arm has fewer stitches than the cuff.
    Narrows,
    /// More increase rounds are needed than there are rounds.
    TooShort {
        /// Rounds that are needed at least.
        needed: usize,
        /// Rounds that there are.
        rounds: usize,
    },
}

/// Spreads the way from `cuff` to `upper` stitches over `rounds` rounds; half a gap lies before the first increase
/// and after the last, and gaps differ by at most one round. Common practice, no source.
///
/// # Errors
/// See [`SleeveError`].
pub fn sleeve(cuff: usize, upper: usize, rounds: usize) -> Result<Sleeve, SleeveError> {
    if cuff == 0 {
        return Err(SleeveError::Empty);
    }
    if cuff.max(upper) > MOST_STITCHES || rounds > MOST_ROUNDS {
        return Err(SleeveError::TooLarge);
    }
    let gained = upper.checked_sub(cuff).ok_or(SleeveError::Narrows)?;
    let needed = gained.div_ceil(2);
    if needed > rounds {
        return Err(SleeveError::TooShort { needed, rounds });
    }
    let mut sleeve = Sleeve {
        cuff,
        upper,
        rounds,
        steps: Vec::new(),
        every: Vec::new(),
    };
    if needed > 0 {
        let halved = rounds.div_ceil(needed);
        sleeve.every = plain_runs(rounds - halved, needed - 1);
        let mut step = Step {
            round: halved.div_ceil(2),
            before: cuff,
            after: cuff + if gained % 2 == 1 { 1 } else { 2 },
        };
        sleeve.steps.push(step);
        for gap in sleeve
            .every
            .iter()
            .flat_map(|run| std::iter::repeat_n(run.gap, run.times))
        {
            step = Step {
                round: step.round + gap,
                before: step.after,
                after: step.after + 2,
            };
            sleeve.steps.push(step);
        }
    }
    Ok(sleeve)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests may panic")]
mod tests {
    use super::*;

    #[test]
    fn the_percentage_sleeve_widens_evenly() {
        // Cuff 20 % and upper sleeve 33 % of 200 stitches (Zimmermann's percentages, after readers' summaries).
        let arm = sleeve(40, 66, 100).unwrap();
        let rounds: Vec<usize> = arm.steps.iter().map(|s| s.round).collect();
        // Half of 8 rounds below the first and above the last; 92 rounds between make 8 gaps of 8 and 4 of 7.
        assert_eq!(rounds, [4, 12, 20, 28, 36, 44, 52, 60, 68, 75, 82, 89, 96]);
        assert_eq!(arm.steps.last().map(|s| s.after), Some(66));
    }

    #[test]
    fn every_sleeve_adds_up() {
        for cuff in 1..60 {
            for upper in cuff..cuff + 50 {
                for rounds in [24, 25, 60, 101] {
                    let Ok(arm) = sleeve(cuff, upper, rounds) else {
                        assert!((upper - cuff).div_ceil(2) > rounds);
                        continue;
                    };
                    let mut count = cuff;
                    let mut round = 0;
                    for step in &arm.steps {
                        assert_eq!(step.before, count);
                        assert!(step.round > round && step.round <= rounds);
                        (count, round) = (step.after, step.round);
                    }
                    assert_eq!(count, upper);
                    let gaps = arm.steps.windows(2).map(|s| s[1].round - s[0].round);
                    let least = gaps.clone().min().unwrap_or(0);
                    assert!(gaps.into_iter().all(|gap| gap - least <= 1));
                }
            }
        }
    }

    #[test]
    fn nonsense_is_refused() {
        assert_eq!(sleeve(0, 4, 9), Err(SleeveError::Empty));
        assert_eq!(sleeve(6, 4, 9), Err(SleeveError::Narrows));
        let short = SleeveError::TooShort {
            needed: 10,
            rounds: 9,
        };
        assert_eq!(sleeve(4, 24, 9), Err(short));
        assert_eq!(sleeve(4, usize::MAX, 9), Err(SleeveError::TooLarge));
    }
}
