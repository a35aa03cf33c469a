//! Joins the steps from a lesson or chart to its grade: worked rows, measures, catch plan, grade.

use crate::catches::{self, Catch};
use crate::chart::Chart;
use crate::course::{Candidate, Demand, Order, order};
use crate::grade::{self, Grade, Setting};
use crate::lesson::{Course, Lesson, Levels, Weights};
use crate::measure::{self, Measures};
use crate::worked::{self, BareSettings, Work};

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
        worked::lesson(lesson),
        Setting::of(lesson),
        course.weights,
        course.levels,
    )
}

/// Assesses a chart by itself.
#[must_use]
pub fn chart<'a>(chart: &'a Chart, settings: BareSettings, course: &Course) -> Assessed<'a> {
    assess(
        worked::bare_chart(chart, settings),
        Setting::BARE,
        course.weights,
        course.levels,
    )
}

/// A course with every lesson assessed and put in order.
#[derive(Debug)]
pub struct AssessedCourse<'a> {
    /// The course.
    pub course: &'a Course,
    /// Its lessons' assessments, in the order of `course.lessons`.
    pub lessons: Vec<Assessed<'a>>,
    /// The order; its indices are those of `course.lessons`.
    pub order: Order,
}

/// Orders assessed lessons.
#[must_use]
pub fn in_order<'a>(course: &'a Course, lessons: Vec<Assessed<'a>>) -> AssessedCourse<'a> {
    let candidates: Vec<Candidate<'_>> = course
        .lessons
        .iter()
        .zip(&lessons)
        .map(|(lesson, assessed)| Candidate {
            id: &lesson.id,
            grade: assessed.grade.grade,
            demand: &assessed.demand,
            needs: &lesson.needs,
        })
        .collect();
    let order = order(&candidates, course.weights, course.budget);
    AssessedCourse {
        course,
        lessons,
        order,
    }
}
