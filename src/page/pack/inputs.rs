//! What a pack is made of.

use crate::course::Paper;
use crate::handout::{Print, Quiz};
use crate::page::pdf::Sheet;
use crate::path::StudiedCourse;
use crate::report::{GradeReport, OrderReport};

/// What a pack is made of.
#[derive(Debug)]
pub struct Inputs<'a> {
    /// The course, studied and in order.
    pub studied: &'a StudiedCourse<'a>,
    /// `grade --json`.
    pub grades: GradeReport,
    /// `order --json`.
    pub order: OrderReport,
    /// Paper.
    pub paper: Paper,
    /// Questions for the class.
    pub quiz: Quiz,
    /// Whether every PDF is made as a booklet, too.
    pub booklet: bool,
    /// Whether each learner whom the course names gets all handouts in her own size.
    pub for_all: bool,
    /// How pages are printed.
    pub print: Print,
}

impl Inputs<'_> {
    /// The sheet that everything is laid out on.
    #[must_use]
    pub fn sheet(&self) -> Sheet {
        Sheet {
            paper: self.paper,
            large: self.print.is_large(),
            black: self.print.is_black(),
        }
    }
}
