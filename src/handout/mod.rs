//! Handouts: all that a page says, resolved. No names left to look up, no defaults, no paper.

mod build;
mod cards;
mod charts;
mod course;
mod fabric;
mod fits;
mod looks;
mod pitfalls;
mod print;
mod quiz;
mod shape;
mod teaching;

pub use build::{handout_of, handouts};
pub use cards::{BUILT_IN_CARDS, card_source};
pub use course::{CoursePlan, PlanLesson, PlanYarn, SkillRow, course_plan};
pub use looks::{grey_looks, looks, looks_anywhere};
pub use print::Print;
pub use quiz::{Question, Quiz, QuizChart, pair_drawings, quiz};

pub use shape::{FinishedPiece, YokeView};
pub use teaching::{Meeting, Stretch, Teaching, Trouble};

use std::borrow::Cow;

use crate::course::body::Source;
use crate::ground::colour::Rgb;
use crate::picture::{ChartPicture, Fabric, Rung};
use crate::piece::Piece;
use crate::words::Leans;
use crate::words::{Instruction, LongestFloat, NewThing, RoundTable, SizeTable, Wording};

/// A measure with its bar and words.
#[derive(Clone, Debug)]
pub struct MeasureLine {
    /// The part's name.
    pub name: String,
    /// 0 to 1.
    pub value: f64,
    /// The most met before; `None` in a first lesson.
    pub met: Option<f64>,
    /// A verdict.
    pub verdict: String,
    /// The fact.
    pub fact: String,
}

/// A yarn with its symbol's name.
#[derive(Clone, Debug)]
pub struct YarnLine {
    /// Its name.
    pub name: String,
    /// Its colour.
    pub rgb: Rgb,
    /// What else is said of it; mostly nothing.
    pub note: String,
}

/// A row of a chart in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowWords {
    /// `Round 5`.
    pub label: String,
    /// What is worked.
    pub words: String,
    /// How often it is worked in the lesson, each time to be ticked off; 0 where that is too often for boxes.
    pub boxes: usize,
}

/// A chart of a handout; `picture` is missing where it may not be printed.
#[derive(Clone, Debug)]
pub struct ChartSheet<'a> {
    /// The chart's id.
    pub id: String,
    /// Its name.
    pub title: String,
    /// The picture.
    pub picture: Option<ChartPicture<'a>>,
    /// Rows in words.
    pub rows: Vec<RowWords>,
    /// Which way to read it.
    pub reading: String,
    /// Whether it has catches.
    pub has_catches: bool,
    /// What is said of its catches that no chart before it asked for.
    pub catching: String,
    /// Rights and source in a sentence.
    pub rights: String,
}

/// A lesson's handout.
#[derive(Clone, Debug)]
pub struct Handout<'a> {
    /// Place in the order, from 1.
    pub number: usize,
    /// Lessons in the course.
    pub of: usize,
    /// The lesson's id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it is, in a sentence.
    pub lead: String,
    /// `How hard: 30 of 100`.
    pub grade: String,
    /// Its level.
    pub level: &'static str,
    /// What is new.
    pub new: Vec<NewThing>,
    /// What is said about it as a whole.
    pub new_intro: String,
    /// The four measures.
    pub measures: Vec<MeasureLine>,
    /// The climb of the course.
    pub climb: Vec<Rung>,
    /// The fabric at life size; `None` where the chart may not be printed or nothing is stranded.
    pub fabric: Option<Fabric>,
    /// The finished piece; `None` of flat things and where there are no counts.
    pub shape: Option<FinishedPiece>,
    /// The size that `shape` shows.
    pub shape_size: String,
    /// A yoke from above.
    pub yoke: Option<YokeView>,
    /// Charts.
    pub charts: Vec<ChartSheet<'a>>,
    /// Longest float.
    pub longest: Option<LongestFloat>,
    /// How to measure first.
    pub measure_first: String,
    /// The piece in every size.
    pub pieces: Cow<'a, [Piece]>,
    /// What is said of sizes that are more than 3 % off, and of those without counts.
    pub size_notes: Vec<String>,
    /// What to do between two sizes, where they leave a gap.
    pub between_sizes: Option<String>,
    /// Where the girths come from.
    pub size_sources: Vec<Source>,
    /// Yarns.
    pub yarns: Vec<YarnLine>,
    /// What stands over what is measured first.
    pub measure_title: &'static str,
    /// What it is made of: `Yarn`.
    pub stuff: &'static str,
    /// `needles` or `hook`.
    pub tool: &'static str,
    /// Yarn and needles in sentences.
    pub tools: String,
    /// Instructions.
    pub steps: Vec<Instruction>,
    /// Tables of rounds.
    pub tables: Vec<RoundTable>,
    /// All that differs from size to size before a stitch is worked, and the yarn.
    pub sizes: Option<SizeTable>,
    /// The teacher's own text.
    pub text: String,
    /// Technique cards: id and Markdown.
    pub cards: Vec<(String, String)>,
    /// What to check when finished.
    pub checks: Vec<String>,
    /// Cautions, each a short Markdown paragraph; the last defers to others.
    pub cautions: Vec<String>,
    /// Abbreviations used, each written out; empty where there are none.
    pub abbreviations: String,
    /// Source and rights.
    pub rights: String,
    /// What comes next.
    pub next: String,
    /// `round` or `row`.
    pub line: &'static str,
    /// What its decreases are called.
    pub leans: Leans,
    /// How it is printed.
    pub print: Print,
    /// The words of its course.
    pub wording: Wording,
}
