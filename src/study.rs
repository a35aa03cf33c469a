//! Joins the steps from a lesson or chart to its grade: worked rows, measures, catch plan, grade.

use crate::course::chart::Chart;
use crate::rows::catches::{self, Catch};

use crate::course::{Course, Lesson, Levels, Weights};
use crate::rows::grade::{self, Demand, Grade, Setting};
use crate::rows::measure::{self, Measures};
use crate::rows::walk::{self, BareSettings, Work};

/// A piece of work with all that is known about it.
#[derive(Clone, Debug)]
pub struct Assessed<'a> {
    /// Its worked rows.
    pub work: Work<'a>,
    /// Its measures.
    pub measures: Measures,
    /// Its catch plan, row by row.
    pub plan: Vec<Vec<Catch>>,
    /// Its grade.
    pub grade: Grade,
    /// What it asks of a learner.
    pub demand: Demand,
}

fn assess<'a>(
    work: Work<'a>,
    setting: Setting<'_>,
    weights: Weights,
    levels: Levels,
) -> Assessed<'a> {
    let measures = measure::measure(&work);
    let grade = grade::grade(&work, &measures, setting, weights, levels);
    let plan = catches::plan(&work, &measures);
    let demand = Demand {
        parts: grade.parts,
        techniques: grade.techniques.clone(),
    };
    Assessed {
        work,
        measures,
        plan,
        grade,
        demand,
    }
}

/// Assesses a lesson as worked.
#[must_use]
pub fn lesson<'a>(lesson: &'a Lesson, course: &Course) -> Assessed<'a> {
    assess(
        walk::lesson(lesson),
        Setting::of(lesson),
        course.weights,
        course.levels,
    )
}

/// Assesses a chart by itself.
#[must_use]
pub fn chart<'a>(chart: &'a Chart, settings: BareSettings, course: &Course) -> Assessed<'a> {
    assess(
        walk::bare_chart(chart, settings),
        Setting::BARE,
        course.weights,
        course.levels,
    )
}
