//! `next --json` and `route --json`.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::course::Part;
use crate::course::log::Log;
use crate::ground::units::round_half_up;
use crate::path::learner::{Aim, History, Proposal};
use crate::path::library::Thing;
use crate::path::{State, Step};
use crate::report::{Parts, tenth};
use crate::words;

/// The whole document.
#[derive(Debug, Serialize)]
pub struct NextReport {
    format: &'static str,
    aim: AimEntry,
    state: StateEntry,
    proposals: Vec<ProposalEntry>,
}

#[derive(Debug, Serialize)]
struct AimEntry {
    #[serde(serialize_with = "tenth")]
    step: f64,
    basis: &'static str,
    results: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    range: Option<[f64; 2]>,
    text: String,
}

/// A learner's state.
#[derive(Debug, Serialize)]
struct StateEntry {
    parts: Parts,
    techniques: BTreeSet<String>,
}

impl StateEntry {
    fn new(state: &State) -> Self {
        Self {
            parts: Parts {
                values: state.parts,
                digits: 4,
            },
            techniques: state.techniques.clone(),
        }
    }
}

#[derive(Debug, Serialize)]
struct ProposalEntry {
    id: String,
    course: String,
    kind: &'static str,
    title: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    makes: Option<&'static str>,
    #[serde(serialize_with = "tenth")]
    grade: f64,
    #[serde(serialize_with = "tenth")]
    step: f64,
    #[serde(serialize_with = "tenth")]
    off: f64,
    new_techniques: Vec<String>,
    raised: BTreeMap<&'static str, f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hours: Option<[f64; 2]>,
    reasons: Vec<String>,
}

fn raised(step: &Step) -> BTreeMap<&'static str, f64> {
    Part::ALL
        .into_iter()
        .filter(|part| step.raised[part.index()] > 0.0)
        .map(|part| (part.name(), round_half_up(step.raised[part.index()], 1)))
        .collect()
}

impl NextReport {
    /// From a ranking.
    #[must_use]
    pub fn new(
        (aim, past, log): (Aim, &History, &Log),
        proposals: &[Proposal],
        things: &[Thing],
    ) -> Self {
        let (basis, range) = match aim {
            Aim::Smallest => ("smallest", None),
            Aim::Usual => ("usual", None),
            Aim::Fitted { target, .. } => (
                "fitted",
                Some([target.low, target.high].map(|v| round_half_up(v, 1))),
            ),
        };
        let one = |proposal: &Proposal| {
            let thing = things.get(proposal.thing)?;
            Some(ProposalEntry {
                id: thing.id.clone(),
                course: thing.course.clone(),
                kind: thing.kind.name(),
                title: thing.title.clone(),
                makes: thing.makes.map(crate::course::body::Makes::name),
                grade: thing.grade,
                step: proposal.step.size,
                off: proposal.off,
                new_techniques: proposal.step.new_techniques.clone(),
                raised: raised(&proposal.step),
                hours: thing
                    .hours
                    .map(|h| [h.from, h.to].map(|v| round_half_up(v, 1))),
                reasons: words::reasons(proposal, things, past, log),
            })
        };
        Self {
            format: "yokeward/next/1",
            aim: AimEntry {
                step: aim.step(),
                basis,
                results: past.results.len(),
                range,
                text: words::aim_text(aim, past.results.len()),
            },
            state: StateEntry::new(&past.state),
            proposals: proposals.iter().filter_map(one).collect(),
        }
    }
}

/// The way to a goal.
#[derive(Debug, Serialize)]
pub struct RouteReport {
    format: &'static str,
    to: String,
    #[serde(serialize_with = "tenth")]
    largest_step: f64,
    largest_proven: bool,
    shortest_proven: bool,
    lessons: Vec<StopEntry>,
}

#[derive(Debug, Serialize)]
struct StopEntry {
    id: String,
    course: String,
    title: String,
    #[serde(serialize_with = "tenth")]
    grade: f64,
    #[serde(serialize_with = "tenth")]
    step: f64,
    again: bool,
    new_techniques: Vec<String>,
    raised: BTreeMap<&'static str, f64>,
}

impl RouteReport {
    /// From the stops with the step to each, and whether it was made before.
    #[must_use]
    pub fn new(stops: &[(&Thing, Step, bool)], largest: f64, shortest_proven: bool) -> Self {
        Self {
            format: "yokeward/route/1",
            to: stops
                .last()
                .map(|(thing, ..)| thing.id.clone())
                .unwrap_or_default(),
            largest_step: largest,
            largest_proven: true,
            shortest_proven,
            lessons: stops
                .iter()
                .map(|(thing, step, again)| StopEntry {
                    id: thing.id.clone(),
                    course: thing.course.clone(),
                    title: thing.title.clone(),
                    grade: thing.grade,
                    step: step.size,
                    again: *again,
                    new_techniques: step.new_techniques.clone(),
                    raised: raised(step),
                })
                .collect(),
        }
    }
}
