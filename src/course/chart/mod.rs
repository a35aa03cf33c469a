//! A chart: cells of colour, what repeats, shaping, and the right to copy it.
//!
//! Row 0 here is the chart's row 1 (the bottom line), column 0 its stitch 1 (the right-most). All numbers that
//! people see are one higher and count the same way.

mod build;
mod raw;
mod reflect;
mod shaping;
mod write;

use std::collections::BTreeSet;
use std::ops::Range;

use crate::ground::fault::Span;

pub use build::{build, is_seen};
pub use raw::{Line, RawChart, Spanned};
pub use reflect::Reflect;
pub use write::to_yaml;

/// How a piece or chart is worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Worked {
    /// In the round: every row from right to left.
    Round,
    /// Flat: odd rows right to left, even rows left to right.
    Flat,
}

impl Worked {
    /// The word of the files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Round => "round",
            Self::Flat => "flat",
        }
    }
}

/// What is done at a cell besides its colour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mark {
    /// A plain stitch.
    #[default]
    Plain,
    /// A decrease of two to one that leans right.
    RightDecrease,
    /// A decrease of two to one that leans left.
    LeftDecrease,
    /// A decrease of three to one.
    DoubleDecrease,
    /// One stitch made.
    MakeOne,
    /// A purl stitch.
    Purl,
    /// No stitch stands here.
    NoStitch,
}

impl Mark {
    /// The overlay's character.
    #[must_use]
    pub const fn from_char(c: char) -> Option<Self> {
        Some(match c {
            '.' => Self::Plain,
            '/' => Self::RightDecrease,
            '\\' => Self::LeftDecrease,
            '^' => Self::DoubleDecrease,
            '+' => Self::MakeOne,
            '-' => Self::Purl,
            '#' => Self::NoStitch,
            _ => return None,
        })
    }

    /// The mark as a mirror shows it.
    #[must_use]
    pub const fn mirrored(self) -> Self {
        match self {
            Self::RightDecrease => Self::LeftDecrease,
            Self::LeftDecrease => Self::RightDecrease,
            same => same,
        }
    }

    /// Whether the mark changes the number of stitches.
    #[must_use]
    pub const fn is_shaping(self) -> bool {
        matches!(
            self,
            Self::RightDecrease | Self::LeftDecrease | Self::DoubleDecrease | Self::MakeOne
        )
    }
}

/// Who may copy a chart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Rights {
    /// Drawn by the teacher or guild.
    Own,
    /// Free of rights.
    PublicDomain,
    /// Permission of `from` for `scope`.
    Permission {
        /// Who gave it.
        from: String,
        /// What for.
        scope: String,
    },
    /// Looked at, never printed.
    ReferenceOnly,
}

impl Rights {
    /// The word of the files.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Own => "own",
            Self::PublicDomain => "public-domain",
            Self::Permission { .. } => "permission",
            Self::ReferenceOnly => "reference-only",
        }
    }

    /// Whether the chart may stand on a page in any form.
    #[must_use]
    pub fn may_print(&self) -> bool {
        *self != Self::ReferenceOnly
    }
}

/// One colour of a chart: its role and the letter that stands for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ink {
    /// The first letter given to the role.
    pub letter: char,
    /// The free word that a lesson gives a yarn to.
    pub role: String,
}

/// A chart as read: complete, with every cell and mark understood.
#[derive(Clone, Debug)]
pub struct Chart {
    /// The stem of its file.
    pub id: String,
    /// Its name on pages.
    pub title: String,
    /// In the round or flat.
    pub worked: Worked,
    /// Its colours; a cell holds an index into this list.
    pub inks: Vec<Ink>,
    /// Columns.
    pub width: usize,
    /// Rows.
    pub height: usize,
    /// Cells, row by row from the bottom, each from the right.
    pub cells: Vec<u8>,
    /// The overlay, in the same order; `None` if there is none.
    pub marks: Option<Vec<Mark>>,
    /// Columns that repeat.
    pub repeat_stitches: Range<usize>,
    /// Rows that repeat.
    pub repeat_rows: Range<usize>,
    /// Whether the file names the columns.
    pub declares_stitches: bool,
    /// Whether the file declares a repeat of rows: only such a chart repeats upwards, others are worked once.
    pub declares_rows: bool,
    /// Who may copy it.
    pub rights: Rights,
    /// Where it comes from, in the teacher's words.
    pub source: Option<String>,
    /// Where each row stands in its file, from the bottom; empty for a chart that was not read from one.
    pub places: Vec<Span>,
    /// The place of each ink's letter in `colours`; none for a chart that was made.
    pub ink_places: Vec<Span>,
}

impl Chart {
    /// The cells of a row from stitch 1 on.
    ///
    /// # Panics
    /// Never for `row < height`, which every caller iterates over.
    #[must_use]
    pub fn row(&self, row: usize) -> &[u8] {
        &self.cells[row * self.width..(row + 1) * self.width]
    }

    /// The mark at a cell.
    #[must_use]
    pub fn mark(&self, row: usize, column: usize) -> Mark {
        self.marks
            .as_ref()
            .and_then(|marks| marks.get(row * self.width + column))
            .copied()
            .unwrap_or_default()
    }

    /// Stitches that stand in a row (all cells but "no stitch").
    #[must_use]
    pub fn live(&self, row: usize) -> usize {
        (0..self.width)
            .filter(|&column| self.mark(row, column) != Mark::NoStitch)
            .count()
    }

    /// Whether stitches stand outside the repeat.
    #[must_use]
    pub fn has_edges(&self) -> bool {
        self.repeat_stitches != (0..self.width)
    }

    /// Whether the number of stitches changes on the way up.
    #[must_use]
    pub fn is_shaped(&self) -> bool {
        self.marks
            .as_ref()
            .is_some_and(|marks| marks.iter().any(|mark| mark.is_shaping()))
    }

    /// The marks that stand in it, each once.
    #[must_use]
    pub fn marks_used(&self) -> BTreeSet<Mark> {
        let marks = self.marks.iter().flat_map(|marks| marks.iter().copied());
        marks.filter(|mark| *mark != Mark::Plain).collect()
    }

    /// The chart as somebody meets it who works every row from its other end. Marks stay what they are: a lean is what the
    /// fabric shows, whichever hand makes it.
    #[must_use]
    pub fn backwards(&self) -> Self {
        let backwards = |row: usize| (0..self.width).rev().map(move |column| (row, column));
        let marks = self.marks.as_ref().map(|_| {
            let each = (0..self.height).flat_map(backwards);
            each.map(|(row, column)| self.mark(row, column)).collect()
        });
        Self {
            cells: (0..self.height)
                .flat_map(|row| self.row(row).iter().rev().copied())
                .collect(),
            marks,
            repeat_stitches: self.width - self.repeat_stitches.end
                ..self.width - self.repeat_stitches.start,
            ..self.clone()
        }
    }

    /// The chart turned upside down, as it is worked from its top: the last stitch of its top row comes first. Of a chart
    /// without shaping.
    #[must_use]
    pub fn turned(&self) -> Self {
        Self {
            cells: self.cells.iter().rev().copied().collect(),
            marks: self
                .marks
                .as_ref()
                .map(|marks| marks.iter().rev().copied().collect()),
            repeat_stitches: self.width - self.repeat_stitches.end
                ..self.width - self.repeat_stitches.start,
            repeat_rows: self.height - self.repeat_rows.end..self.height - self.repeat_rows.start,
            ..self.clone()
        }
    }

    /// The letters of a row as drawn: left to right.
    #[must_use]
    pub fn drawn_line(&self, row: usize) -> String {
        self.row(row)
            .iter()
            .rev()
            .map(|&cell| {
                self.inks
                    .get(usize::from(cell))
                    .map_or('?', |ink| ink.letter)
            })
            .collect()
    }
}
