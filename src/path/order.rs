//! The order of lessons with the smallest possible largest step, and the gaps that remain.
//!
//! Always taking the open lesson with the smallest step is exactly minimal: states only grow, steps only shrink with
//! them, so a lesson that is small enough now never becomes too large later, and whatever order avoids a large step
//! can be reached by taking small ones first.

use std::cmp::{Ordering, Reverse};
use std::collections::{BTreeMap, BinaryHeap};

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
///
/// Steps are worked out anew only when a lesson has brought something; between, a heap gives the next. So it takes
/// n log n, and n for each lesson that asks more than all before it.
#[must_use]
pub fn order(candidates: &[Candidate<'_>], weights: Weights, budget: Budget) -> Order {
    let mut waiting = Waiting::new(candidates);
    let mut ready: BinaryHeap<Reverse<Next<'_>>> = BinaryHeap::new();
    let mut fresh: Vec<usize> = waiting.open();
    let mut state = State::default();
    let mut placed: Vec<Placed> = Vec::new();
    loop {
        let next = |index: usize| {
            let candidate = &candidates[index];
            Reverse(Next {
                size: state.step_size(candidate.demand, weights),
                grade: candidate.grade,
                id: candidate.id,
                index,
            })
        };
        ready.extend(fresh.drain(..).map(next));
        let Some(Reverse(Next { index, .. })) = ready.pop() else {
            break;
        };
        let demand = candidates[index].demand;
        let step = state.step(demand, weights);
        let before = state.clone();
        state.learn(demand);
        fresh = waiting.done(index);
        if state != before {
            fresh.extend(ready.drain().map(|Reverse(next)| next.index));
        }
        placed.push(Placed {
            index,
            step,
            before,
        });
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

/// An open lesson, by its step, then its grade, then its id.
struct Next<'a> {
    size: f64,
    grade: f64,
    id: &'a str,
    index: usize,
}

impl Ord for Next<'_> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.size
            .total_cmp(&other.size)
            .then(self.grade.total_cmp(&other.grade))
            .then(self.id.cmp(other.id))
            .then(self.index.cmp(&other.index))
    }
}

impl PartialOrd for Next<'_> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Next<'_> {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Next<'_> {}

/// Which lessons wait for which.
struct Waiting<'a> {
    ids: Vec<&'a str>,
    /// Needs of each lesson that are not met yet.
    unmet: Vec<usize>,
    /// The lessons that need an id; taken when it is met.
    followers: BTreeMap<&'a str, Vec<usize>>,
}

impl<'a> Waiting<'a> {
    fn new(candidates: &'a [Candidate<'a>]) -> Self {
        let mut followers: BTreeMap<&str, Vec<usize>> =
            candidates.iter().map(|c| (c.id, Vec::new())).collect();
        let mut unmet = vec![0; candidates.len()];
        for (i, candidate) in candidates.iter().enumerate() {
            for need in candidate.needs {
                if let Some(waiting) = followers.get_mut(need.as_str()) {
                    waiting.push(i);
                    unmet[i] += 1;
                }
            }
        }
        Self {
            ids: candidates.iter().map(|c| c.id).collect(),
            unmet,
            followers,
        }
    }

    /// Lessons that need nothing.
    fn open(&self) -> Vec<usize> {
        let open = |i: &usize| self.unmet.get(*i) == Some(&0);
        (0..self.unmet.len()).filter(open).collect()
    }

    /// Lessons that are open now that this one is done.
    fn done(&mut self, index: usize) -> Vec<usize> {
        let id = self.ids.get(index).copied().unwrap_or_default();
        let followers = self.followers.get_mut(id).map(std::mem::take);
        let mut open = Vec::new();
        for i in followers.unwrap_or_default() {
            if let Some(left) = self.unmet.get_mut(i) {
                *left -= 1;
                if *left == 0 {
                    open.push(i);
                }
            }
        }
        open
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
