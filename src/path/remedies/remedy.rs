//! What closes a gap.

use crate::path::library::{Thing, ThingKind};

/// A change that closes a gap.
#[derive(Clone, Debug, PartialEq)]
pub enum Remedy {
    /// Something easier first: one thing, or the fewest that lead there.
    Between {
        /// The things in order.
        things: Vec<Stepping>,
        /// The step to each of them, then the step from there.
        steps: Vec<f64>,
    },
    /// Shorter floats in the lesson's charts: the longest that fits the budget; with plain rows where floats alone do
    /// not do it, or only shorter ones would.
    Tame {
        /// Charts to change.
        charts: Vec<String>,
        /// The longest float, in stitches; `None` when only rest is put in.
        longest: Option<usize>,
        /// Cells recoloured in all.
        cells: usize,
        /// Rows without rest, and plain rows put in, if any are.
        rest: Option<(usize, usize)>,
        /// The step that is left.
        step: f64,
    },
    /// A lesson need not wait for another one.
    Needs {
        /// The lesson whose `needs` is shortened.
        lesson: String,
        /// What it need not wait for.
        need: String,
        /// The step that is left.
        step: f64,
        /// Whether that is within the budget.
        closes: bool,
    },
}

/// A thing put in between.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stepping {
    /// Its id.
    pub id: String,
    /// The course it comes from.
    pub course: String,
    /// Lesson or chart.
    pub kind: ThingKind,
}

impl Stepping {
    pub(super) fn of(thing: &Thing) -> Self {
        Self {
            id: thing.id.clone(),
            course: thing.course.clone(),
            kind: thing.kind,
        }
    }
}
