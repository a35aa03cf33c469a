//! What a learner can do, what a lesson asks, and the step between.

use std::collections::BTreeSet;

use crate::course::{Part, Weights};
use crate::rows::grade::{Demand, Skill};

/// Points of a technique not met yet.
#[must_use]
pub fn technique_points(technique: &str) -> f64 {
    3.0 * Skill::of(technique).map_or(1.0, |skill| f64::from(skill.weight()))
}

/// What a learner has met: the part-wise maximum of all lessons done, and their techniques.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    /// The most met of each part.
    pub parts: [f64; 5],
    /// Techniques met.
    pub techniques: BTreeSet<String>,
}

/// A step from a state to a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Weighted growth of the parts + the points of each new technique.
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
        let raised = self.raised(demand, weights);
        let new_techniques: Vec<String> = demand
            .techniques
            .difference(&self.techniques)
            .cloned()
            .collect();
        let points = new_techniques.iter().map(|new| technique_points(new));
        let size = raised.iter().sum::<f64>() + points.sum::<f64>();
        Step {
            size,
            raised,
            new_techniques,
        }
    }

    fn raised(&self, demand: &Demand, weights: Weights) -> [f64; 5] {
        let mut raised = [0.0; 5];
        for i in Part::ALL.map(Part::index) {
            raised[i] = weights.0[i] * (demand.parts[i] - self.parts[i]).max(0.0);
        }
        raised
    }

    /// The size of [`State::step`] alone.
    #[must_use]
    pub fn step_size(&self, demand: &Demand, weights: Weights) -> f64 {
        let new = demand.techniques.difference(&self.techniques);
        let raised = self.raised(demand, weights);
        raised.iter().sum::<f64>() + new.map(|new| technique_points(new)).sum::<f64>()
    }

    /// After the lesson is done.
    pub fn learn(&mut self, demand: &Demand) {
        for (met, asked) in self.parts.iter_mut().zip(demand.parts) {
            *met = met.max(asked);
        }
        self.techniques.extend(demand.techniques.iter().cloned());
    }
}
