//! `order --json`.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::course::Order;
use crate::lesson::{Budget, Part};
use crate::library::Kind;
use crate::remedies::Remedy;
use crate::report::tenth;
use crate::units::round_half_up;
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
}

#[derive(Debug, Serialize)]
struct GapEntry {
    id: String,
    #[serde(serialize_with = "tenth")]
    step: f64,
    cause: String,
    remedies: Vec<RemedyEntry>,
}

#[derive(Debug, Default, Serialize)]
struct RemedyEntry {
    kind: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    course: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    charts: Option<Vec<String>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    longest: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cells: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    after: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    rows: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    lesson: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    need: Option<String>,
    steps: Vec<f64>,
    text: String,
}

impl RemedyEntry {
    fn new(remedy: &Remedy) -> Self {
        let text = words::remedy_text(remedy);
        let steps = |steps: &[f64]| steps.iter().map(|s| round_half_up(*s, 1)).collect();
        match remedy.clone() {
            Remedy::Between {
                id,
                course,
                kind,
                steps: both,
            } => Self {
                kind: match kind {
                    Kind::Lesson => "lesson-between",
                    Kind::Chart => "chart-between",
                },
                id: Some(id),
                course: Some(course),
                steps: steps(&both),
                text,
                ..Self::default()
            },
            Remedy::Tame {
                charts,
                longest,
                cells,
                step,
            } => Self {
                kind: "tame",
                charts: Some(charts),
                longest: Some(longest),
                cells: Some(cells),
                steps: steps(&[step]),
                text,
                ..Self::default()
            },
            Remedy::Rest {
                charts,
                after,
                rows,
                step,
            } => Self {
                kind: "rest",
                charts: Some(charts),
                after: Some(after),
                rows: Some(rows),
                steps: steps(&[step]),
                text,
                ..Self::default()
            },
            Remedy::Needs { lesson, need, step } => Self {
                kind: "needs",
                lesson: Some(lesson),
                need: Some(need),
                steps: steps(&[step]),
                text,
                ..Self::default()
            },
        }
    }
}

impl OrderReport {
    /// From an order and, by candidate index, each lesson's id and grade; `remedies` by gap.
    #[must_use]
    pub fn new(
        order: &Order,
        lessons: &[(&str, f64)],
        budget: Budget,
        remedies: &[Vec<Remedy>],
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
                .map(|placed| StepEntry {
                    id: of(placed.index).0.to_owned(),
                    grade: of(placed.index).1,
                    step: placed.step.size,
                    new_techniques: placed.step.new_techniques.clone(),
                    raised: raised(&placed.step.raised),
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
                        cause: words::gap_cause(gap, placed, budget),
                        remedies: remedies.get(i)?.iter().map(RemedyEntry::new).collect(),
                    })
                })
                .collect(),
        }
    }
}
