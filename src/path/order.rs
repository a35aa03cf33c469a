//! The order of lessons with the smallest possible largest step, and the gaps that remain.
//!
//! Always taking the open lesson with the smallest step is exactly minimal: states only grow, steps only shrink with
//! them, so a lesson that is small enough now never becomes too large later, and whatever order avoids a large step
//! can be reached by taking small ones first.

use crate::course::{Budget, Weights};
use crate::path::{State, Step};
use crate::rows::grade::{Demand, has_doorstep};

/// A lesson to be ordered.
#[derive(Clone, Debug)]
pub struct Candidate<'a> {
    /// Its id.
    pub id: &'a str,
    /// Its grade, for ties.
    pub grade: f64,
    /// What it asks.
    pub demand: &'a Demand,
    /// Ids of lessons that come first.
    pub needs: &'a [String],
}

/// A lesson in its place.
#[derive(Clone, Debug)]
pub struct Placed {
    /// Its index among the candidates.
    pub index: usize,
    /// The step to it.
    pub step: Step,
    /// What had been met before it.
    pub before: State,
}

/// A step over the budget.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// Place in the order, from 0.
    pub place: usize,
    /// The budget that holds for this step.
    pub budget: f64,
    /// Whether the step is larger.
    pub too_large: bool,
    /// Whether it brings more techniques than allowed.
    pub too_many: bool,
    /// Whether it is the first lesson in two colours.
    pub doorstep: bool,
}

/// A place where something new should be practised before more is added.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Practice {
    /// Place of the first of two lessons running with something new, from 0.
    pub place: usize,
    /// Techniques of that lesson which the next one does not repeat.
    pub techniques: Vec<String>,
}

/// A course in order.
#[derive(Clone, Debug, Default)]
pub struct Order {
    /// Lessons from first to last.
    pub placed: Vec<Placed>,
    /// Steps over the budget.
    pub gaps: Vec<Gap>,
    /// Place of the doorstep, the first lesson that brings two colours.
    pub doorstep: Option<usize>,
    /// Where to practise.
    pub practices: Vec<Practice>,
}

impl Order {
    /// The largest step; 0 of an empty course.
    #[must_use]
    pub fn largest_step(&self) -> f64 {
        self.placed
            .iter()
            .map(|placed| placed.step.size)
            .fold(0.0, f64::max)
    }
}

/// Orders lessons. A need that no candidate answers counts as met; lessons on a cycle of needs are left out.
#[must_use]
pub fn order(candidates: &[Candidate<'_>], weights: Weights, budget: Budget) -> Order {
    let mut open: Vec<usize> = (0..candidates.len()).collect();
    let mut state = State::default();
    let mut placed: Vec<Placed> = Vec::new();
    loop {
        let is_done = |need: &str| {
            let known = candidates.iter().any(|c| c.id == need);
            !known || placed.iter().any(|p| candidates[p.index].id == need)
        };
        let next = open
            .iter()
            .filter(|&&i| candidates[i].needs.iter().all(|need| is_done(need)))
            .map(|&i| (state.step(candidates[i].demand, weights), i))
            .min_by(|(a, i), (b, j)| {
                let (x, y) = (&candidates[*i], &candidates[*j]);
                a.size
                    .total_cmp(&b.size)
                    .then(x.grade.total_cmp(&y.grade))
                    .then(x.id.cmp(y.id))
            });
        let Some((step, index)) = next else { break };
        open.retain(|&i| i != index);
        placed.push(Placed {
            index,
            step,
            before: state.clone(),
        });
        state.learn(candidates[index].demand);
    }
    let doorstep = placed
        .iter()
        .position(|p| has_doorstep(&candidates[p.index].demand.techniques));
    let gaps = placed
        .iter()
        .enumerate()
        .filter_map(|(place, p)| gap(place, &p.step, doorstep, budget))
        .collect();
    let practices = practices(candidates, &placed);
    Order {
        placed,
        gaps,
        doorstep,
        practices,
    }
}

fn gap(place: usize, step: &Step, doorstep: Option<usize>, budget: Budget) -> Option<Gap> {
    let is_doorstep = doorstep == Some(place);
    let allowed = if is_doorstep {
        budget.doorstep
    } else {
        budget.step
    };
    let too_large = step.size > allowed;
    let too_many = step.new_techniques.len() > budget.techniques;
    (too_large || too_many).then_some(Gap {
        place,
        budget: allowed,
        too_large,
        too_many,
        doorstep: is_doorstep,
    })
}

/// Two lessons running that bring something new, the second without repeating what the first brought.
fn practices(candidates: &[Candidate<'_>], placed: &[Placed]) -> Vec<Practice> {
    let mut found = Vec::new();
    for (place, pair) in placed.windows(2).enumerate() {
        let [first, second] = pair else { continue };
        let again = &candidates[second.index].demand.techniques;
        let fresh = &first.step.new_techniques;
        if !fresh.is_empty()
            && !second.step.new_techniques.is_empty()
            && !fresh.iter().any(|t| again.contains(t))
        {
            found.push(Practice {
                place,
                techniques: fresh.clone(),
            });
        }
    }
    found
}
