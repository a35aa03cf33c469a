//! The way through a course: what a learner can do, how large a step each lesson is, and the best order.

mod order;
mod route;

pub use order::{Candidate, Gap, Order, Placed, Practice, order};
pub use route::{Map, Route, Stop, Stride, route};

use std::collections::BTreeSet;

use crate::lesson::{Part, Weights};

/// Points for each technique not met yet.
pub const TECHNIQUE_POINTS: f64 = 3.0;

/// What a learner has met: the part-wise maximum of all lessons done, and their techniques.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    /// The most met of each part.
    pub parts: [f64; 5],
    /// Techniques met.
    pub techniques: BTreeSet<String>,
}

/// What a lesson asks, as far as steps see it.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// Each part, 0 to 1.
    pub parts: [f64; 5],
    /// Its techniques.
    pub techniques: BTreeSet<String>,
}

/// A step from a state to a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Weighted growth of the parts + 3 for each new technique.
    pub size: f64,
    /// Weight × growth of each part.
    pub raised: [f64; 5],
    /// Techniques not met yet.
    pub new_techniques: Vec<String>,
}

impl State {
    /// The step that a lesson is from here.
    #[must_use]
    pub fn step(&self, demand: &Demand, weights: Weights) -> Step {
        let mut raised = [0.0; 5];
        for i in Part::ALL.map(Part::index) {
            raised[i] = weights.0[i] * (demand.parts[i] - self.parts[i]).max(0.0);
        }
        let new_techniques: Vec<String> = demand
            .techniques
            .difference(&self.techniques)
            .cloned()
            .collect();
        let size = raised.iter().sum::<f64>() + TECHNIQUE_POINTS * new_techniques.len() as f64;
        Step {
            size,
            raised,
            new_techniques,
        }
    }

    /// After the lesson is done.
    pub fn learn(&mut self, demand: &Demand) {
        for (met, asked) in self.parts.iter_mut().zip(demand.parts) {
            *met = met.max(asked);
        }
        self.techniques.extend(demand.techniques.iter().cloned());
    }
}
