//! The ranking of what to do next.

use crate::course::Weights;
use crate::course::body::Makes;
use crate::path::Step;
use crate::path::learner::History;
use crate::path::library::Thing;

/// The step aimed at while nothing is known of a learner: a little over half the budget of a step.
const USUAL_AIM: f64 = 8.0;
/// Results from which on the aim follows the learner.
const RESULTS_FOR_A_FIT: usize = 5;

/// The step to look for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Aim {
    /// The smallest: nothing was done yet.
    Smallest,
    /// The usual one: too few results to tell.
    Usual,
    /// The step at which this learner succeeds about 85 times of 100, and the range that her results leave open.
    Fitted {
        /// What her results say.
        target: crate::ground::statistics::Target,
        /// The largest step that her course allows: nobody is sent over it.
        most: f64,
    },
}

impl Aim {
    /// The step, in points.
    #[must_use]
    pub fn step(self) -> f64 {
        match self {
            Self::Smallest => 0.0,
            Self::Usual => USUAL_AIM,
            Self::Fitted { target, most } => target.step.min(most),
        }
    }
}

/// The step to look for after this past, never over `most`, the largest that the course allows.
#[must_use]
pub fn aim(past: &History, most: f64) -> Aim {
    if past.results.is_empty() {
        return Aim::Smallest;
    }
    if past.results.len() < RESULTS_FOR_A_FIT {
        return Aim::Usual;
    }
    let results: Vec<(f64, f64)> = past
        .results
        .iter()
        .map(|result| {
            let went_well = result.went != crate::course::log::Went::Hard;
            (result.step, if went_well { 1.0 } else { 0.0 })
        })
        .collect();
    Aim::Fitted {
        target: crate::ground::statistics::target_of(&results),
        most,
    }
}

/// What the learner will have.
#[derive(Clone, Debug, Default)]
pub struct Filter {
    /// Only lessons that make this.
    pub makes: Option<Makes>,
    /// Only lessons in yarn of this weight category.
    pub yarn_weight: Option<u32>,
    /// Only lessons that a fluent knitter finishes in so many hours on an average day.
    pub hours: Option<f64>,
}

impl Filter {
    fn lets(&self, thing: &Thing) -> bool {
        let fits = |wanted: Option<f64>| {
            wanted.is_none_or(|most| thing.hours.is_some_and(|h| h.usual() <= most))
        };
        self.makes.is_none_or(|makes| thing.makes == Some(makes))
            && self
                .yarn_weight
                .is_none_or(|weight| thing.yarn_weight == Some(weight))
            && fits(self.hours)
    }
}

/// A thing to do next.
#[derive(Clone, Debug)]
pub struct Proposal {
    /// Its index.
    pub thing: usize,
    /// The step to it.
    pub step: Step,
    /// How far that is from the aim.
    pub off: f64,
}

/// All things not done that the filter lets through, the best first: nearest to the aim, then the higher grade, then
/// by id and course.
#[must_use]
pub fn next(
    things: &[Thing],
    past: &History,
    aim: Aim,
    filter: &Filter,
    weights: Weights,
) -> Vec<Proposal> {
    let mut proposals: Vec<Proposal> = things
        .iter()
        .enumerate()
        .filter(|(index, thing)| !past.done.contains(index) && filter.lets(thing))
        .map(|(index, thing)| {
            let step = past.state.step(&thing.demand, weights);
            Proposal {
                thing: index,
                off: (step.size - aim.step()).abs(),
                step,
            }
        })
        .collect();
    let key = |proposal: &Proposal| things.get(proposal.thing);
    proposals.sort_by(|a, b| {
        a.off.total_cmp(&b.off).then_with(|| {
            let (Some(x), Some(y)) = (key(a), key(b)) else {
                return a.thing.cmp(&b.thing);
            };
            y.grade
                .total_cmp(&x.grade)
                .then_with(|| x.id.cmp(&y.id))
                .then_with(|| x.course.cmp(&y.course))
        })
    });
    proposals
}
