//! Courses and charts, studied on all cores.

use rayon::prelude::*;

use crate::course::Course;
use crate::course::chart::Chart;
use crate::ground::units::{FloatLimit, Gauge};
use crate::path::{self, StudiedCourse};
use crate::rows::walk::BareSettings;
use crate::study::{self, Studied};

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

    pub(super) fn settings(&self, course: &Course) -> BareSettings {
        let gauge = Gauge::BARE_CHART;
        BareSettings {
            gauge: Gauge {
                stitches: self.gauge.unwrap_or(gauge.stitches),
                ..gauge
            },
            limit: FloatLimit {
                stitches: self.limit_stitches.unwrap_or(course.limit.stitches),
                length: self
                    .limit_mm
                    .map_or(course.limit.length, crate::ground::units::Length::mm),
            },
        }
    }
}

/// Studies all lessons of a course and orders them.
#[must_use]
pub fn study_course(course: &Course) -> StudiedCourse<'_> {
    let lessons: Vec<Studied<'_>> = course
        .lessons
        .par_iter()
        .map(|lesson| study::lesson(lesson, course))
        .collect();
    path::in_order(course, lessons)
}

/// Studies a chart by itself with the course's limit, weights and levels.
#[must_use]
pub fn study_chart<'a>(chart: &'a Chart, options: BareOptions, course: &Course) -> Studied<'a> {
    study::chart(chart, options.settings(course), course)
}
