//! Joins the steps for the commands; the one place that uses threads.

use rayon::prelude::*;

use crate::assess::{self, Assessed, AssessedCourse};
use crate::chart::Chart;
use crate::lesson::Course;
use crate::read::{Loaded, Wanted};
use crate::report::{Entry, GradeEntry, GradeReport, MeasureReport, OrderReport, entry};
use crate::units::{FloatLimit, Gauge};
use crate::worked::BareSettings;

/// Options of `measure` for bare charts.
#[derive(Clone, Copy, Debug, Default)]
pub struct BareOptions {
    /// Stitches to 10 cm.
    pub gauge: Option<f64>,
    /// Most stitches a float may pass.
    pub limit_stitches: Option<usize>,
    /// Longest free strand in millimetres.
    pub limit_mm: Option<f64>,
}

impl BareOptions {
    /// Whether any option is given.
    #[must_use]
    pub fn any(&self) -> bool {
        self.gauge.is_some() || self.limit_stitches.is_some() || self.limit_mm.is_some()
    }

    fn settings(&self, course: &Course) -> BareSettings {
        let gauge = Gauge::BARE_CHART;
        BareSettings {
            gauge: Gauge { stitches: self.gauge.unwrap_or(gauge.stitches), ..gauge },
            limit: FloatLimit {
                stitches: self.limit_stitches.unwrap_or(course.limit.stitches),
                length: self.limit_mm.map_or(course.limit.length, crate::units::Length::mm),
            },
        }
    }
}

/// Assesses all lessons of a course and orders them.
#[must_use]
pub fn assess_course(course: &Course) -> AssessedCourse<'_> {
    let lessons: Vec<Assessed<'_>> =
        course.lessons.par_iter().map(|lesson| assess::lesson(lesson, course)).collect();
    assess::in_order(course, lessons)
}

/// Assesses a chart by itself with the course's limit, weights and levels.
#[must_use]
pub fn assess_bare<'a>(chart: &'a Chart, options: BareOptions, course: &Course) -> Assessed<'a> {
    assess::chart(chart, options.settings(course), course)
}

/// The measures of all that the paths name: lessons and charts of folders by id, files in the order given.
#[must_use]
pub fn measure(loaded: &[Loaded], options: BareOptions) -> MeasureReport {
    let (mut lessons, mut charts) = (Vec::new(), Vec::new());
    for one in loaded {
        let course = &one.course;
        let lesson_entry = |index: usize| {
            let lesson = course.lessons.get(index)?;
            let a = assess::lesson(lesson, course);
            let size = lesson.middle_size().map(|size| size.id.clone());
            Some(entry(&lesson.id, &a.work, &a.measures, &a.grade, &a.plan, Some(size)))
        };
        let chart_entry = |id: &String| {
            let chart = course.charts.get(id)?;
            let a = assess_bare(chart, options, course);
            Some(entry(id, &a.work, &a.measures, &a.grade, &a.plan, None))
        };
        match &one.wanted {
            Wanted::All => {
                let indices: Vec<usize> = (0..course.lessons.len()).collect();
                lessons.extend(indices.into_par_iter().filter_map(lesson_entry).collect::<Vec<Entry>>());
                let ids: Vec<&String> = course.charts.keys().collect();
                charts.extend(ids.into_par_iter().filter_map(chart_entry).collect::<Vec<Entry>>());
            }
            Wanted::Lesson(id) => {
                let index = course.lessons.iter().position(|lesson| lesson.id == *id);
                lessons.extend(index.and_then(lesson_entry));
            }
            Wanted::Chart(id) => charts.extend(chart_entry(id)),
            Wanted::Nothing => {}
        }
    }
    MeasureReport::new(lessons, charts)
}

/// The grades of a course's lessons, by id.
#[must_use]
pub fn grade(assessed: &AssessedCourse<'_>) -> GradeReport {
    let each = assessed.course.lessons.iter().zip(&assessed.lessons);
    GradeReport::new(each.map(|(lesson, a)| GradeEntry::new(lesson, &a.grade, a.measures.busyness)).collect())
}

/// The order of a course.
#[must_use]
pub fn order(assessed: &AssessedCourse<'_>) -> OrderReport {
    let each = assessed.course.lessons.iter().zip(&assessed.lessons);
    let lessons: Vec<(&str, f64)> = each.map(|(lesson, a)| (lesson.id.as_str(), a.grade.grade)).collect();
    OrderReport::new(&assessed.order, &lessons, assessed.course.budget)
}
