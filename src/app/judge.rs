//! Weights from judgements, on the scale of grades.

use crate::course::Weights;
use crate::ground::statistics::{self, Judged, Prior};
use crate::path::library::Thing;

/// Grade points that make one thing be judged harder than another with odds of e to 1 (73 of 100). Our own choice:
/// a usual step.
const SCALE: f64 = 8.0;
/// How far, in points, a weight may well lie from the one it has: a handful of judgements moves it by a few points,
/// fifty overrule it. Our own choice.
const DEVIATION: f64 = 6.0;

/// Weights fitted to judgements.
#[derive(Clone, Copy, Debug)]
pub struct NewWeights {
    /// The new weights; they sum to 100.
    pub weights: Weights,
    /// Judgements that counted.
    pub judgements: usize,
    /// Share of them that agrees with the old weights.
    pub before: f64,
    /// Share that agrees with the new ones.
    pub after: f64,
    /// Share told right by weights fitted to the others.
    pub left_out: f64,
}

/// Fits the weights, starting from the belief that `old` are right. `None` when the judgements leave no weight above 0.
#[must_use]
pub fn judge(things: &[Thing], judged: &[Judged], old: Weights) -> Option<NewWeights> {
    // One unit of a part is worth its weight in points; the fit counts in units of SCALE.
    let parts: Vec<Vec<f64>> = things.iter().map(|t| t.demand.parts.to_vec()).collect();
    let deviation = DEVIATION / SCALE;
    let prior = Prior {
        centre: old.0.iter().map(|w| w / SCALE).collect(),
        strength: 1.0 / (2.0 * deviation * deviation),
    };
    let found = statistics::strengths(&parts, judged, Some(&prior), true)?;
    let hundred = statistics::to_hundred(&found.weights)?;
    let mut weights = Weights::default();
    for (place, value) in weights.0.iter_mut().zip(hundred) {
        *place = value;
    }
    Some(NewWeights {
        weights,
        judgements: judged.len(),
        before: statistics::agreement(&parts, judged, &old.0),
        after: statistics::agreement(&parts, judged, &weights.0),
        left_out: statistics::leave_one_out(&parts, judged, &prior),
    })
}
