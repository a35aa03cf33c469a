//! Lessons and bare charts of any number of courses as things to choose from, each with what it asks.

use std::collections::BTreeSet;

use crate::course::body::Makes;
use crate::course::chart::Chart;
use crate::course::{Course, Lesson, Terms};
use crate::piece::time::Hours;
use crate::rows::grade::Demand;
use crate::study::Studied;

/// Whether a thing is a whole lesson or a chart by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThingKind {
    /// A lesson.
    Lesson,
    /// A bare chart.
    Chart,
}

impl ThingKind {
    /// The word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Lesson => "lesson",
            Self::Chart => "chart",
        }
    }
}

/// A lesson or a bare chart.
#[derive(Clone, Debug)]
pub struct Thing {
    /// Its id, unique within its course.
    pub id: String,
    /// The id of its course; empty for a chart outside any.
    pub course: String,
    /// Its name on pages.
    pub title: String,
    /// Lesson or chart.
    pub kind: ThingKind,
    /// What comes off the needles; `None` for a chart.
    pub makes: Option<Makes>,
    /// Weight category of a lesson's yarn.
    pub yarn_weight: Option<u32>,
    /// Grams of each of a lesson's yarns that the middle size takes; `None` where no formula knows.
    pub grams: Vec<Option<f64>>,
    /// Hours of a fluent knitter at the middle size; `None` for a chart.
    pub hours: Option<Hours>,
    /// Ids of lessons that come first.
    pub needs: Vec<String>,
    /// Grade, 0 to 100.
    pub grade: f64,
    /// Parts and techniques.
    pub demand: Demand,
    /// Longest float in stitches.
    pub longest: usize,
    /// Rows with a float to catch.
    pub rows_over: usize,
    /// Which words its course uses.
    pub terms: Terms,
}

impl Thing {
    /// A lesson.
    #[must_use]
    pub fn lesson(lesson: &Lesson, studied: &Studied<'_>, course: &Course) -> Self {
        Self {
            makes: Some(lesson.makes),
            yarn_weight: lesson.yarn_weight,
            grams: grams(lesson, studied),
            hours: Some(studied.made().stitches.fluent()),
            needs: lesson.needs.clone(),
            ..Self::new(
                (&lesson.id, &lesson.title),
                ThingKind::Lesson,
                studied,
                course,
            )
        }
    }

    /// A chart by itself.
    #[must_use]
    pub fn chart(chart: &Chart, studied: &Studied<'_>, course: &Course) -> Self {
        Self::new((&chart.id, &chart.title), ThingKind::Chart, studied, course)
    }

    fn new((id, title): (&str, &str), kind: ThingKind, a: &Studied<'_>, course: &Course) -> Self {
        Self {
            id: id.to_owned(),
            course: course.id.clone(),
            title: title.to_owned(),
            kind,
            makes: None,
            yarn_weight: None,
            grams: Vec::new(),
            hours: None,
            needs: Vec::new(),
            grade: a.grade.grade,
            demand: a.demand.clone(),
            longest: a.measures.floats.longest,
            rows_over: a.measures.floats.rows_over,
            terms: course.terms,
        }
    }
}

/// What each yarn of a lesson weighs in its middle size.
fn grams(lesson: &Lesson, studied: &Studied<'_>) -> Vec<Option<f64>> {
    let amounts = studied.made().middle_amounts();
    let of = |yarn: usize| amounts.and_then(|(_, all)| all.get(yarn)?.grams);
    (0..lesson.yarns.len()).map(of).collect()
}

/// Ids of charts that some lesson of the course uses.
#[must_use]
pub fn charts_in_use(course: &Course) -> BTreeSet<&str> {
    let uses = course.lessons.iter().flat_map(Lesson::charts);
    uses.map(|what| what.chart.id.as_str()).collect()
}
