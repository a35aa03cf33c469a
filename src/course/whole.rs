//! A course as a whole.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::course::chart::Chart;
use crate::course::craft::Craft;
use crate::course::lesson::Lesson;
use crate::course::settings::{Budget, Learner, Levels, Paper, Sessions, Terms, Units, Weights};
use crate::ground::fault::Span;
use crate::ground::units::FloatLimit;

/// The templates that pages are made with; a course may have its own of each.
pub const TEMPLATES: [&str; 6] = [
    "handout.md",
    "course.md",
    "index.md",
    "quiz.md",
    "teacher.md",
    "compare.md",
];

/// A course with everything resolved. Lessons with errors are not in it.
#[derive(Clone, Debug)]
pub struct Course {
    /// Name of the output folder.
    pub id: String,
    /// Its name on pages.
    pub title: String,
    /// Who gives it.
    pub guild: Option<String>,
    /// Imprint and copy line.
    pub footer: Option<String>,
    /// Where it stands.
    pub footer_place: Option<Span>,
    /// Units on pages.
    pub units: Units,
    /// Paper.
    pub paper: Paper,
    /// Trade words.
    pub terms: Terms,
    /// Float limit of bare charts in this course and of lessons without one.
    pub limit: FloatLimit,
    /// Weights of the grade.
    pub weights: Weights,
    /// Levels of the grade.
    pub levels: Levels,
    /// How large a step may be.
    pub budget: Budget,
    /// How the workshop is held.
    pub sessions: Option<Sessions>,
    /// Learners by name, where the course names them.
    pub learners: Vec<Learner>,
    /// Crafts whose first steps the class has.
    pub assumes: Vec<Craft>,
    /// Lessons by id.
    pub lessons: Vec<Lesson>,
    /// Charts by id.
    pub charts: BTreeMap<String, Arc<Chart>>,
    /// The course's own technique cards: id and Markdown.
    pub cards: BTreeMap<String, String>,
    /// The course's own templates: name and text.
    pub templates: BTreeMap<String, String>,
}
