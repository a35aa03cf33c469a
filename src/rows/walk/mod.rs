//! Rows as they are worked, of a bare chart or of a lesson at its middle size. All that is measured is here.

mod bare;
mod piece;

use std::borrow::Cow;
use std::ops::Range;

pub use bare::{BareSettings, bare_chart};
pub use piece::lesson;

use crate::course::Craft;
use crate::course::chart::Mark;
use crate::ground::units::{Gauge, Number};

/// Where a worked row comes from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Origin {
    /// Which band of the lesson; `None` for a bare chart.
    pub band: Option<usize>,
    /// Where in a chart; `None` for plain rows and ribs.
    pub drawn: Option<DrawnRow>,
}

/// A row of a chart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DrawnRow {
    /// Index into [`Work::charts`].
    pub chart: usize,
    /// Its number in the chart.
    pub row: Number,
}

/// One worked row: a sequence of live stitches.
#[derive(Clone, Debug)]
pub struct Row {
    stitches: Range<usize>,
    /// How often the sequence is worked in the round.
    pub repeats: usize,
    /// Drawn columns of the sequence, no-stitch columns included.
    pub drawn_width: usize,
    /// The highest drawn number: less than the width where the repeat is worked twice between edges.
    pub last_column: usize,
    /// A ring (true) or a line.
    pub closed: bool,
    /// A wrong-side row of flat work.
    pub wrong_side: bool,
    /// Whether a stitch of it changes their number.
    pub shaping: bool,
    /// Whether a stitch of it is purled by the chart.
    pub purls: bool,
    /// Where it comes from.
    pub origin: Origin,
}

/// The repeat of a chart, or a stretch of plain rows, for the measure of busyness.
#[derive(Clone, Debug)]
pub struct Tile<'a> {
    /// Columns.
    pub width: usize,
    /// Cells, row by row from the bottom, each from the right.
    pub cells: Cow<'a, [u8]>,
    /// For each cell whether a stitch stands there; empty when all do.
    pub live: Vec<bool>,
}

/// A piece of work to be measured.
#[derive(Clone, Debug)]
pub struct Work<'a> {
    /// Rows from the bottom.
    pub rows: Vec<Row>,
    cells: Vec<u8>,
    drawn: Vec<Number>,
    marks: Vec<Mark>,
    /// What each colour index is called in JSON: the chart's letter or the lesson's role.
    pub colours: Vec<String>,
    /// Ids of the charts that rows come from.
    pub charts: Vec<String>,
    /// Whether it repeats upwards (a bare chart that declares a repeat of rows): beneath row 1 lies the top row.
    pub cyclic: bool,
    /// Gauge of the colourwork.
    pub gauge: Gauge,
    /// L: stitches that may float uncaught.
    pub limit: usize,
    /// The craft: who carries inside has no free floats.
    pub craft: Craft,
    /// Drawn columns of the worked row (of a lesson: of its widest chart).
    pub stitches: usize,
    /// How often they stand in the round.
    pub repeats: usize,
    /// T, for lessons.
    pub round: f64,
    /// What busyness looks at.
    pub tiles: Vec<Tile<'a>>,
}

impl Work<'_> {
    /// The colours of a row's live stitches, from stitch 1 on.
    #[must_use]
    pub fn cells(&self, row: &Row) -> &[u8] {
        self.cells.get(row.stitches.clone()).unwrap_or_default()
    }

    /// The drawn number of each live stitch of a row.
    #[must_use]
    pub fn drawn(&self, row: &Row) -> &[Number] {
        self.drawn.get(row.stitches.clone()).unwrap_or_default()
    }

    /// The mark of each live stitch of a row.
    #[must_use]
    pub fn marks(&self, row: &Row) -> &[Mark] {
        self.marks.get(row.stitches.clone()).unwrap_or_default()
    }

    /// Whether a row is worked in one colour.
    #[must_use]
    pub fn is_relief(&self, row: &Row) -> bool {
        is_one(self.cells(row))
    }
}

/// Whether all stitches are of one colour.
fn is_one(cells: &[u8]) -> bool {
    cells.iter().all(|cell| Some(cell) == cells.first())
}

/// Collects rows into a [`Work`].
#[derive(Default)]
struct Stack {
    rows: Vec<Row>,
    cells: Vec<u8>,
    drawn: Vec<Number>,
    marks: Vec<Mark>,
    shaping: bool,
    purls: bool,
}

/// What a row shares with its neighbours of the same band.
#[derive(Clone, Debug)]
struct RowKind {
    repeats: usize,
    drawn_width: usize,
    last_column: usize,
    closed: bool,
    wrong_side: bool,
    origin: Origin,
}

impl Stack {
    /// Adds a stitch, drawn in a column, to the row that is being laid out.
    fn stitch(&mut self, cell: u8, column: usize, mark: Mark) {
        if mark == Mark::NoStitch {
            return;
        }
        self.cells.push(cell);
        self.drawn.push(Number::of_index(column));
        self.marks.push(mark);
        self.shaping |= mark.is_shaping();
        self.purls |= mark == Mark::Purl;
    }

    /// Adds a whole row of plain stitches, drawn in columns 1 to its length.
    fn plain_stitches(&mut self, cells: &[u8]) {
        self.cells.extend_from_slice(cells);
        self.drawn.extend((0..cells.len()).map(Number::of_index));
        self.marks.resize(self.cells.len(), Mark::Plain);
    }

    /// Closes the row that is being laid out.
    fn end_row(&mut self, kind: RowKind) {
        let start = self.rows.last().map_or(0, |row| row.stitches.end);
        self.rows.push(Row {
            stitches: start..self.cells.len(),
            repeats: kind.repeats,
            drawn_width: kind.drawn_width,
            last_column: kind.last_column,
            closed: kind.closed,
            wrong_side: kind.wrong_side,
            shaping: std::mem::take(&mut self.shaping),
            purls: std::mem::take(&mut self.purls),
            origin: kind.origin,
        });
    }
}
