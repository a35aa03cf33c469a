//! `grade --json`.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::course::{Lesson, Part};
use crate::report::{Parts, tenth};
use crate::rows::grade::Grade;
use crate::words::{self, RowNames, Wording};

/// The whole document.
#[derive(Debug, Serialize)]
pub struct GradeReport {
    format: &'static str,
    lessons: Vec<GradeEntry>,
}

impl GradeReport {
    /// Lessons in the order they are to be written.
    #[must_use]
    pub fn new(lessons: Vec<GradeEntry>) -> Self {
        Self {
            format: "yokeward/grade/1",
            lessons,
        }
    }
}

/// One lesson.
#[derive(Debug, Serialize)]
pub struct GradeEntry {
    id: String,
    title: String,
    makes: &'static str,
    needs: Vec<String>,
    parts: Parts,
    points: Parts,
    #[serde(serialize_with = "tenth")]
    grade: f64,
    level: &'static str,
    #[serde(serialize_with = "tenth")]
    busyness: f64,
    techniques: BTreeSet<String>,
    cause: BTreeMap<&'static str, CauseEntry>,
}

/// Why a part is as high as it is.
#[derive(Debug, Serialize)]
pub struct CauseEntry {
    #[serde(serialize_with = "tenth")]
    points: f64,
    row: Option<usize>,
    text: String,
}

impl GradeEntry {
    /// The entry of a lesson.
    #[must_use]
    pub fn new(lesson: &Lesson, grade: &Grade, busyness: f64, wording: Wording) -> Self {
        let names = RowNames::of_lesson(lesson, wording);
        Self {
            id: lesson.id.clone(),
            title: lesson.title.clone(),
            makes: lesson.makes.name(),
            needs: lesson.needs.clone(),
            parts: Parts {
                values: grade.parts,
                digits: 4,
            },
            points: Parts {
                values: grade.points,
                digits: 1,
            },
            grade: grade.grade,
            level: grade.level.name(),
            busyness,
            techniques: grade.techniques.clone(),
            cause: cause_entries(grade, &names),
        }
    }
}

/// For each part its points, the row that causes most, and both in a sentence.
#[must_use]
pub fn cause_entries(grade: &Grade, names: &RowNames) -> BTreeMap<&'static str, CauseEntry> {
    let each = Part::ALL.into_iter().zip(&grade.causes);
    each.map(|(part, cause)| {
        let entry = CauseEntry {
            points: grade.points[part.index()],
            row: cause.row.map(|row| row.index() + 1),
            text: words::cause_text(part, cause, names),
        };
        (part.name(), entry)
    })
    .collect()
}
