//! `order --json`.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::course::{Budget, Part};
use crate::ground::units::round_half_up;
use crate::path::Order;
use crate::path::Task;
use crate::path::remedies::{Found, Remedy};
use crate::report::tenth;
use crate::words;

/// The whole document.
#[derive(Debug, Serialize)]
pub struct OrderReport {
    format: &'static str,
    budget: BudgetEntry,
    #[serde(serialize_with = "tenth")]
    largest_step: f64,
    lessons: Vec<StepEntry>,
    gaps: Vec<GapEntry>,
}

#[derive(Debug, Serialize)]
struct BudgetEntry {
    #[serde(serialize_with = "tenth")]
    step: f64,
    #[serde(serialize_with = "tenth")]
    doorstep: f64,
    techniques: usize,
}

#[derive(Debug, Serialize)]
struct StepEntry {
    id: String,
    #[serde(serialize_with = "tenth")]
    grade: f64,
    #[serde(serialize_with = "tenth")]
    step: f64,
    new_techniques: Vec<String>,
    raised: BTreeMap<&'static str, f64>,
    hours: [f64; 2],
    by_far_the_largest: bool,
}

#[derive(Debug, Serialize)]
struct GapEntry {
    id: String,
    #[serde(serialize_with = "tenth")]
    step: f64,
    cause: String,
    remedies: Vec<RemedyEntry>,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    not_searched_further: bool,
}

/// A remedy; `kind` says which of the others are there.
#[derive(Debug, Default, Serialize)]
struct RemedyEntry {
    kind: &'static str,
    closes: bool,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    things: Vec<ThingEntry>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    charts: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    longest: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cells: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    rest_after: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    plain_rows: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lesson: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    need: Option<String>,
    steps: Vec<f64>,
    text: String,
}

#[derive(Debug, Serialize)]
struct ThingEntry {
    id: String,
    course: String,
    kind: &'static str,
}

impl RemedyEntry {
    fn new(remedy: &Remedy) -> Self {
        let base = |kind, steps: &[f64]| Self {
            kind,
            closes: true,
            steps: steps.iter().map(|s| round_half_up(*s, 1)).collect(),
            text: words::remedy_text(remedy),
            ..Self::default()
        };
        match remedy {
            Remedy::Between { things, steps } => Self {
                things: things
                    .iter()
                    .map(|thing| ThingEntry {
                        id: thing.id.clone(),
                        course: thing.course.clone(),
                        kind: thing.kind.name(),
                    })
                    .collect(),
                ..base("between", steps)
            },
            Remedy::Tame {
                charts,
                longest,
                cells,
                rest,
                step,
            } => Self {
                charts: charts.clone(),
                longest: *longest,
                cells: longest.map(|_| *cells),
                rest_after: rest.map(|(after, _)| after),
                plain_rows: rest.map(|(_, rows)| rows),
                ..base("tame", &[*step])
            },
            Remedy::Needs {
                lesson,
                need,
                step,
                closes,
            } => Self {
                lesson: Some(lesson.clone()),
                need: Some(need.clone()),
                closes: *closes,
                ..base("needs", &[*step])
            },
        }
    }
}

impl OrderReport {
    /// From an order and, by candidate index, each lesson's id and grade; `remedies` by gap; none were looked for where
    /// they are missing.
    #[must_use]
    pub fn new(
        order: &Order,
        (lessons, tasks): (&[(&str, f64)], &[Task]),
        budget: Budget,
        remedies: &[Found],
        wording: words::Wording,
    ) -> Self {
        let of = |index: usize| lessons.get(index).copied().unwrap_or(("", 0.0));
        let raised = |raised: &[f64; 5]| {
            Part::ALL
                .into_iter()
                .filter(|part| raised[part.index()] > 0.0)
                .map(|part| (part.name(), round_half_up(raised[part.index()], 1)))
                .collect()
        };
        Self {
            format: "yokeward/order/1",
            budget: BudgetEntry {
                step: budget.step,
                doorstep: budget.doorstep,
                techniques: budget.techniques,
            },
            largest_step: order.largest_step(),
            lessons: order
                .placed
                .iter()
                .zip(tasks)
                .map(|(placed, task)| StepEntry {
                    id: of(placed.index).0.to_owned(),
                    grade: of(placed.index).1,
                    step: placed.step.size,
                    new_techniques: placed.step.new_techniques.clone(),
                    raised: raised(&placed.step.raised),
                    hours: [task.hours.from, task.hours.to].map(|h| round_half_up(h, 1)),
                    by_far_the_largest: task.by_far_the_largest,
                })
                .collect(),
            gaps: order
                .gaps
                .iter()
                .enumerate()
                .filter_map(|(i, gap)| {
                    let placed = order.placed.get(gap.place)?;
                    Some(GapEntry {
                        id: of(placed.index).0.to_owned(),
                        step: placed.step.size,
                        cause: words::gap_cause(gap, placed, budget, wording),
                        remedies: remedies
                            .get(i)
                            .map(|found| found.remedies.iter().map(RemedyEntry::new).collect())
                            .unwrap_or_default(),
                        not_searched_further: remedies.get(i).is_some_and(|f| f.cut_short),
                    })
                })
                .collect(),
        }
    }
}
