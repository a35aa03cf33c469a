//! From a log to a state: what was done, in which order, how large each step was and how it went.

use std::collections::BTreeSet;

use crate::course::Weights;
use crate::course::log::{Log, Went};
use crate::path::State;
use crate::path::library::Thing;
use crate::rows::grade::Demand;

/// A thing that went hard counts this much of its parts.
const HARD_COUNTS: f64 = 0.6;

/// A step taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Result {
    /// Index of the thing.
    pub thing: usize,
    /// The step that it was.
    pub step: f64,
    /// How it went.
    pub went: Went,
}

/// A learner's past in a library.
#[derive(Clone, Debug, Default)]
pub struct History {
    /// What she has met.
    pub state: State,
    /// Steps in the order of the log.
    pub results: Vec<Result>,
    /// Things done, by index.
    pub done: BTreeSet<usize>,
    /// Entries of the log (by index) that name nothing in the library.
    pub unknown: Vec<usize>,
}

/// Follows a log through a library.
#[must_use]
pub fn history(log: &Log, things: &[Thing], weights: Weights) -> History {
    let mut past = History::default();
    for (index, entry) in log.done.iter().enumerate() {
        let names = |thing: &Thing| {
            thing.id == entry.made
                && entry
                    .course
                    .as_ref()
                    .is_none_or(|course| *course == thing.course)
        };
        let Some(found) = things.iter().position(names) else {
            past.unknown.push(index);
            continue;
        };
        let Some(thing) = things.get(found) else {
            continue;
        };
        past.results.push(Result {
            thing: found,
            step: past.state.step(&thing.demand, weights).size,
            went: entry.went,
        });
        let met = match entry.went {
            Went::Easy | Went::Right => thing.demand.clone(),
            Went::Hard => Demand {
                parts: thing.demand.parts.map(|part| part * HARD_COUNTS),
                techniques: thing.demand.techniques.clone(),
            },
        };
        past.state.learn(&met);
        past.done.insert(found);
    }
    past
}
