//! Weights from judgements "A is harder than B".
//!
//! The model is that of Bradley and Terry (Biometrika 39, 324, 1952) with the strengths made of parts: A is judged harder
//! than B with probability 1 ÷ (1 + exp(−w·(a − b))), a and b being the parts of each. Fitted by maximum likelihood, with
//! a Gaussian prior if asked for; the sum to be maximised is concave, so Newton steps with halving find the one maximum.

use crate::ground::statistics::linear::solve;

/// A judgement: indices of the harder and the easier thing, and how often it was said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// The harder thing.
    pub harder: usize,
    /// The easier thing.
    pub easier: usize,
    /// How often.
    pub times: f64,
}

/// What is believed of the weights beforehand: −`strength` · Σ (w − centre)² is added to the log-likelihood.
#[derive(Clone, Debug, PartialEq)]
pub struct Prior {
    /// The weights believed in.
    pub centre: Vec<f64>,
    /// How firmly: 1 ÷ (2 · variance).
    pub strength: f64,
}

/// Fitted weights.
#[derive(Clone, Debug, PartialEq)]
pub struct Strengths {
    /// A weight for each part.
    pub weights: Vec<f64>,
    /// The log-likelihood, without the prior.
    pub log_likelihood: f64,
}

/// Odds of more than e to this for one judgement mean that some things were always judged one way: the fit climbs for
/// ever, and no finite weight is the best.
const UNBOUNDED: f64 = 20.0;
const MOST_STEPS: usize = 200;
/// A gradient this small is the top.
const FLAT: f64 = 1e-11;

/// The most likely weights of `parts` under these judgements. With `positive`, none is below 0.
///
/// `None` when there is no finite maximum (things judged always one way, without a prior), or a number is not finite.
#[must_use]
pub fn strengths(
    parts: &[Vec<f64>],
    judged: &[Judged],
    prior: Option<&Prior>,
    positive: bool,
) -> Option<Strengths> {
    let n = parts.iter().map(Vec::len).max().unwrap_or(0);
    let rows: Vec<(Vec<f64>, f64)> = judged
        .iter()
        .filter_map(|pair| {
            let (a, b) = (parts.get(pair.harder)?, parts.get(pair.easier)?);
            let at = |v: &[f64], i: usize| v.get(i).copied().unwrap_or(0.0);
            let differ = (0..n).map(|i| at(a, i) - at(b, i)).collect();
            Some((differ, pair.times))
        })
        .collect();
    let numbers = rows
        .iter()
        .flat_map(|(row, times)| row.iter().chain([times]));
    if n == 0 || !numbers.clone().all(|v| v.is_finite()) {
        return None;
    }
    let problem = Problem {
        n,
        rows: &rows,
        prior,
    };
    let mut weights = prior.map_or_else(|| vec![0.0; n], |prior| prior.centre.clone());
    weights.resize(n, 0.0);
    let clamp = |w: f64| if positive { w.max(0.0) } else { w };
    weights.iter_mut().for_each(|w| *w = clamp(*w));
    for _ in 0..MOST_STEPS {
        let (gradient, curve) = problem.slopes(&weights);
        // A weight at 0 that wants to sink further stays there.
        let free: Vec<usize> = (0..n)
            .filter(|&i| !(positive && weights[i] <= 0.0 && gradient[i] <= 0.0))
            .collect();
        if free.iter().all(|&i| gradient[i].abs() < FLAT) {
            break;
        }
        let part: Vec<Vec<f64>> = free
            .iter()
            .map(|&i| free.iter().map(|&j| curve[i][j]).collect())
            .collect();
        let right: Vec<f64> = free.iter().map(|&i| gradient[i]).collect();
        let step = solve(&part, &right)?;
        let now = problem.value(&weights);
        let mut share = 1.0;
        let better = std::iter::from_fn(|| {
            let mut next = weights.clone();
            for (&i, step) in free.iter().zip(&step) {
                next[i] = clamp(next[i] + share * step);
            }
            share *= 0.5;
            Some(next)
        })
        .take(60)
        .find(|next| problem.value(next) > now);
        match better {
            Some(next) => weights = next,
            // Nothing is better in any representable step: this is the top.
            None => break,
        }
    }
    if prior.is_none()
        && rows
            .iter()
            .any(|(row, _)| dot(row, &weights).abs() > UNBOUNDED)
    {
        return None;
    }
    Some(Strengths {
        log_likelihood: problem.likelihood(&weights),
        weights,
    })
}

struct Problem<'a> {
    n: usize,
    rows: &'a [(Vec<f64>, f64)],
    prior: Option<&'a Prior>,
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

impl Problem<'_> {
    fn likelihood(&self, weights: &[f64]) -> f64 {
        let one = |(row, times): &(Vec<f64>, f64)| {
            let z = dot(row, weights);
            // ln(1 / (1 + e^−z)), without overflow.
            let value = if z > 0.0 {
                -(-z).exp().ln_1p()
            } else {
                z - z.exp().ln_1p()
            };
            times * value
        };
        self.rows.iter().map(one).sum()
    }

    fn value(&self, weights: &[f64]) -> f64 {
        let believed = self.prior.map_or(0.0, |prior| {
            let apart = weights
                .iter()
                .zip(&prior.centre)
                .map(|(w, c)| (w - c).powi(2));
            prior.strength * apart.sum::<f64>()
        });
        self.likelihood(weights) - believed
    }

    /// Gradient, and the negated matrix of second derivatives.
    fn slopes(&self, weights: &[f64]) -> (Vec<f64>, Vec<Vec<f64>>) {
        let mut gradient = vec![0.0; self.n];
        let mut curve = vec![vec![0.0; self.n]; self.n];
        for (row, times) in self.rows {
            let p = 1.0 / (1.0 + (-dot(row, weights)).exp());
            for i in 0..self.n {
                gradient[i] += times * (1.0 - p) * row[i];
                for j in 0..self.n {
                    curve[i][j] += times * p * (1.0 - p) * row[i] * row[j];
                }
            }
        }
        // Without a prior a shift of all strengths changes nothing; a trace of it makes the equations solvable.
        let strength = self.prior.map_or(0.0, |prior| prior.strength);
        for i in 0..self.n {
            curve[i][i] += 2.0 * strength + 1e-9;
            if let Some(prior) = self.prior {
                let centre = prior.centre.get(i).copied().unwrap_or(0.0);
                gradient[i] -= 2.0 * strength * (weights[i] - centre);
            }
        }
        (gradient, curve)
    }
}

/// Share of judgements (by times said) in which the harder thing has the larger sum of weight × part; ties count half.
#[must_use]
pub fn agreement(parts: &[Vec<f64>], judged: &[Judged], weights: &[f64]) -> f64 {
    let (mut right, mut all) = (0.0, 0.0);
    for pair in judged {
        let (Some(a), Some(b)) = (parts.get(pair.harder), parts.get(pair.easier)) else {
            continue;
        };
        let (a, b) = (dot(a, weights), dot(b, weights));
        all += pair.times;
        right += pair.times
            * if (a - b).abs() < 1e-9 {
                0.5
            } else {
                f64::from(u8::from(a > b))
            };
    }
    if all > 0.0 { right / all } else { 0.0 }
}

/// Share of judgements told right by weights that were fitted to all the others.
#[must_use]
pub fn leave_one_out(parts: &[Vec<f64>], judged: &[Judged], prior: &Prior) -> f64 {
    let (mut right, mut all) = (0.0, 0.0);
    for (i, pair) in judged.iter().enumerate() {
        let mut others = judged.to_vec();
        others.remove(i);
        let weights = strengths(parts, &others, Some(prior), true)
            .map_or_else(|| prior.centre.clone(), |fit| fit.weights);
        right += pair.times * agreement(parts, &[*pair], &weights);
        all += pair.times;
    }
    if all > 0.0 { right / all } else { 0.0 }
}

/// Weights in the same proportions that sum to exactly 100 with one decimal: rounded down, and the tenths that are
/// missing go to those that lost most. `None` when all are 0.
#[must_use]
pub fn to_hundred(weights: &[f64]) -> Option<Vec<f64>> {
    let sum: f64 = weights.iter().map(|w| w.max(0.0)).sum();
    if !(sum > 0.0 && sum.is_finite()) {
        return None;
    }
    let exact: Vec<f64> = weights.iter().map(|w| w.max(0.0) / sum * 1000.0).collect();
    let mut tenths: Vec<f64> = exact.iter().map(|w| w.floor()).collect();
    let mut missing = 1000.0 - tenths.iter().sum::<f64>();
    let mut order: Vec<usize> = (0..exact.len()).collect();
    order.sort_by(|&a, &b| {
        let lost = |i: usize| exact[i] - exact[i].floor();
        lost(b).total_cmp(&lost(a)).then(a.cmp(&b))
    });
    for i in order {
        if missing >= 0.5 {
            tenths[i] += 1.0;
            missing -= 1.0;
        }
    }
    Some(tenths.into_iter().map(|t| t / 10.0).collect())
}
