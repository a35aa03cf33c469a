//! The step that suits a learner: where her results say that most, but not all, go well.
//!
//! Success against step is a logistic curve with a prior on its height at the usual step and on its slope. Few results
//! say little, so the answer is a range as well as a number. Both are read from the whole posterior, summed over a grid:
//! no search that could fail, and the same bytes on every machine.
//!
//! Aiming at 84 of 100 follows Wilson, Shenhav, Straccia and Cohen, "The Eighty Five Percent Rule for optimal learning",
//! Nature Communications 10, 4646 (2019): learning from two-way choices is fastest at an error of Φ(−1) = 15.87 %. Their
//! proof is for such choices, not for hands; here it is a sensible aim, no law.

/// The error rate of fastest learning: Φ(−1), the standard normal distribution one deviation below its middle.
pub const BEST_ERROR: f64 = 0.158_655_253_931_457_05;

/// The step that is aimed at for someone unknown; the prior has the best error just there.
const USUAL_STEP: f64 = 8.0;
/// Our own choice: at twice the usual step an average learner still succeeds in three of five cases, and most learners'
/// curves fall between half and twice as fast.
const SLOPE: f64 = -0.16;
const SLOPE_DEVIATION: f64 = 0.08;
/// How much learners differ in success at the usual step, in logits: from six to nineteen of twenty, nearly all.
const HEIGHT_DEVIATION: f64 = 1.0;
/// A curve that does not fall tells no step; it is taken to fall at least so fast.
const LEAST_SLOPE: f64 = -0.02;
/// Steps below and above which nobody is sent.
const STEPS: (f64, f64) = (1.0, 30.0);

/// The step to aim at and the range in which it lies with a probability of 80 %.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target {
    /// The middle of what is likely, in points.
    pub step: f64,
    /// One in ten that it is lower.
    pub low: f64,
    /// One in ten that it is higher.
    pub high: f64,
}

/// From results: each a step, and 1 if it went well, 0 if not. Results that are no numbers are passed over.
#[must_use]
pub fn target_of(results: &[(f64, f64)]) -> Target {
    let wanted = ((1.0 - BEST_ERROR) / BEST_ERROR).ln();
    let logistic = |z: f64| {
        if z > 0.0 {
            -(-z).exp().ln_1p()
        } else {
            z - z.exp().ln_1p()
        }
    };
    let results: Vec<(f64, f64)> = results
        .iter()
        .copied()
        .filter(|(step, went)| step.is_finite() && went.is_finite())
        .collect();
    let mut found: Vec<(f64, f64)> = Vec::new();
    for i in -60..=60_i32 {
        let above = f64::from(i) * 0.1;
        let height = wanted + above;
        for j in 0..60_i32 {
            let slope = LEAST_SLOPE - f64::from(j) * 0.01;
            let mut log = -0.5 * (above / HEIGHT_DEVIATION).powi(2)
                - 0.5 * ((slope - SLOPE) / SLOPE_DEVIATION).powi(2);
            for (step, went) in &results {
                let z = height + slope * (step - USUAL_STEP);
                log += went * logistic(z) + (1.0 - went) * logistic(-z);
            }
            let step = USUAL_STEP - above / slope;
            found.push((step.clamp(STEPS.0, STEPS.1), log));
        }
    }
    let most = found.iter().map(|(_, log)| *log).fold(f64::MIN, f64::max);
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    let total: f64 = found.iter().map(|(_, log)| (log - most).exp()).sum();
    let quantile = |share: f64| {
        let mut sum = 0.0;
        let reached = found.iter().find(|(_, log)| {
            sum += (log - most).exp();
            sum >= share * total
        });
        reached.map_or(USUAL_STEP, |(step, _)| *step)
    };
    Target {
        step: quantile(0.5),
        low: quantile(0.1),
        high: quantile(0.9),
    }
}
