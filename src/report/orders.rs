//! `order --json`.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::course::Order;
use crate::lesson::{Budget, Part};
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
    remedies: Vec<String>,
}

impl OrderReport {
    /// From an order and, by candidate index, each lesson's id and grade.
    #[must_use]
    pub fn new(order: &Order, lessons: &[(&str, f64)], budget: Budget) -> Self {
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
                .filter_map(|gap| {
                    let placed = order.placed.get(gap.place)?;
                    Some(GapEntry {
                        id: of(placed.index).0.to_owned(),
                        step: placed.step.size,
                        cause: words::gap_cause(gap, placed, budget),
                        remedies: Vec::new(),
                    })
                })
                .collect(),
        }
    }
}
