//! How a course is graded, ordered, held and printed, with the defaults.

use crate::course::body::Body;

/// The five parts of a grade, in the order they are always shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// Length and frequency of long floats.
    Floats,
    /// Colours at a time and ends.
    Colours,
    /// How much the chart must be looked at.
    Reading,
    /// How long without a plain row.
    Relief,
    /// What the hands must do besides.
    Handling,
}

impl Part {
    /// All parts in order.
    pub const ALL: [Self; 5] = [
        Self::Floats,
        Self::Colours,
        Self::Reading,
        Self::Relief,
        Self::Handling,
    ];

    /// The key in files and JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Floats => "floats",
            Self::Colours => "colours",
            Self::Reading => "reading",
            Self::Relief => "relief",
            Self::Handling => "handling",
        }
    }

    /// Place in [`Part::ALL`].
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }
}

/// Points of each part; they sum to 100.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights(pub [f64; 5]);

impl Default for Weights {
    fn default() -> Self {
        Self([30.0, 20.0, 20.0, 15.0, 15.0])
    }
}

/// Grades at which Easy, Intermediate and Complex begin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Levels(pub [f64; 3]);

impl Default for Levels {
    fn default() -> Self {
        Self([15.0, 35.0, 60.0])
    }
}

/// How large a step may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Budget {
    /// Largest step.
    pub step: f64,
    /// Largest step of the first two-colour lesson.
    pub doorstep: f64,
    /// Most new techniques.
    pub techniques: usize,
}

impl Default for Budget {
    fn default() -> Self {
        Self {
            step: 15.0,
            doorstep: 28.0,
            techniques: 2,
        }
    }
}

/// How the workshop is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sessions {
    /// Meetings.
    pub count: u32,
    /// Hours of each.
    pub hours: f64,
    /// Weeks between two.
    pub weeks_between: f64,
    /// Hours of work at home that a learner has in a week.
    pub home_hours: f64,
    /// Share of the time spent explaining.
    pub teaching_share: f64,
    /// People; as many as the course names, if it does.
    pub learners: u32,
}

impl Sessions {
    /// Hours of work in class that each of so many lessons may have: all meetings less the time for explaining.
    #[must_use]
    pub fn class_hours(&self, lessons: usize) -> f64 {
        let all = f64::from(self.count) * self.hours * (1.0 - self.teaching_share);
        all / lessons.max(1) as f64
    }
}

/// A learner whom the course names.
#[derive(Clone, Debug)]
pub struct Learner {
    /// Her name.
    pub name: String,
    /// Her size.
    pub size: Body,
}

/// Units on pages.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "each variant is the word of the files")]
pub enum Units {
    #[default]
    Metric,
    Imperial,
    Both,
}

/// Paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "each variant is the word of the files")]
pub enum Paper {
    #[default]
    A4,
    Letter,
}

/// Which side of the ocean the trade words come from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "each variant is the word of the files")]
pub enum Terms {
    #[default]
    Uk,
    Us,
}

/// What the printer has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Printer {
    /// All colours.
    #[default]
    Colours,
    /// Black alone: symbols without fills, and no picture that lives of its colours.
    Black,
}

/// How large a page is set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TypeSize {
    /// As usual.
    #[default]
    Ordinary,
    /// Text of 18 pt, chart cells of 7 mm and more.
    Large,
}

/// The hand that a chart is read for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hand {
    /// From the bottom right.
    #[default]
    Right,
    /// From the bottom left; numbers, words and catches are mirrored, pictures are not. A lean is what the fabric
    /// shows: which decrease makes it, the cards say for either hand.
    Left,
}

/// Which sizes of a lesson are printed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum PrintedSizes {
    /// All of them.
    #[default]
    All,
    /// All of them, and the one with this id in bold wherever it stands among others.
    Marked(String),
    /// The one with this id alone, where the lesson has it.
    Only(String),
}

/// What becomes of the sheets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Binding {
    /// They stay as they are printed.
    #[default]
    Sheets,
    /// They are folded into booklets, too, in which nothing is at life size.
    Booklets,
}
