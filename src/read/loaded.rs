//! What comes of a path: a course, its texts, its faults, and what was asked for.

use std::sync::Arc;

use crate::course::chart::Chart;
use crate::course::{Course, Lesson};
use crate::ground::fault::{Fault, SourceMap};

/// What a path asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// The whole course.
    All,
    /// The chart of this id.
    Chart(String),
    /// The lesson of this id.
    Lesson(String),
    /// A file with faults: nothing can be had of it.
    Nothing,
}

/// A course as read, the texts it came from, and all faults.
#[derive(Debug)]
pub struct Loaded {
    /// The texts, for reports.
    pub sources: SourceMap,
    /// What could be understood.
    pub course: Course,
    /// What could not.
    pub faults: Vec<Fault>,
    /// What the path asked for.
    pub wanted: Wanted,
}

impl Loaded {
    /// Whether any fault is an error.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        self.faults.iter().any(Fault::is_error)
    }
}

impl Loaded {
    /// The lessons that the path asked for, by id.
    pub fn wanted_lessons(&self) -> impl Iterator<Item = &Lesson> {
        self.course
            .lessons
            .iter()
            .filter(|lesson| match &self.wanted {
                Wanted::All => true,
                Wanted::Lesson(id) => *id == lesson.id,
                _ => false,
            })
    }

    /// The charts that the path asked for, by id.
    pub fn wanted_charts(&self) -> impl Iterator<Item = &Arc<Chart>> {
        let charts = self
            .course
            .charts
            .iter()
            .filter(|(id, _)| match &self.wanted {
                Wanted::All => true,
                Wanted::Chart(wanted) => wanted == *id,
                _ => false,
            });
        charts.map(|(_, chart)| chart)
    }
}
