//! Where the cells of a chart lie on its picture.

use std::ops::Range;

use crate::picture::shown::ChartPicture;
use crate::rows::drawn::stands;

/// Room left of the grid for tags.
pub(super) const LEFT: f64 = 22.0;
/// Room above the grid for half of its frame line; more where an arrow stands above.
pub(super) const ABOVE: f64 = 0.4;

/// Where cells lie.
pub(super) struct Frame {
    /// Room left of the grid.
    pub(super) before: f64,
    /// Room above the grid.
    pub(super) above: f64,
    pub(super) rows: Range<usize>,
    pub(super) first_column: usize,
    /// Columns of one copy.
    pub(super) period: usize,
    /// Columns shown.
    pub(super) columns: usize,
    pub(super) cell_width: f64,
    pub(super) cell_height: f64,
}

impl Frame {
    /// Left, top, right, bottom of the grid.
    pub(super) fn bounds(&self) -> (f64, f64, f64, f64) {
        let right = self.before + self.cell_width * self.columns as f64;
        (
            self.before,
            self.above,
            right,
            self.above + self.cell_height * self.rows.len() as f64,
        )
    }

    /// Left edge of shown column `x`, counted from the right.
    pub(super) fn left(&self, x: usize) -> f64 {
        self.before + self.cell_width * (self.columns - 1).saturating_sub(x) as f64
    }

    pub(super) fn top(&self, row: usize) -> f64 {
        self.above + self.cell_height * (self.rows.end - 1).saturating_sub(row) as f64
    }

    pub(super) fn middle(&self, row: usize, x: usize) -> (f64, f64) {
        (
            self.left(x) + self.cell_width / 2.0,
            self.top(row) + self.cell_height / 2.0,
        )
    }

    /// The chart's column under shown column `x`.
    pub(super) fn column(&self, x: usize) -> usize {
        self.first_column + x % self.period.max(1)
    }

    /// The shown column of a chart's column in a copy, if it is shown.
    pub(super) fn place(&self, column: usize, copy: usize) -> Option<usize> {
        let x = column
            .checked_sub(self.first_column)
            .filter(|x| *x < self.period)?
            + copy * self.period;
        (x < self.columns).then_some(x)
    }

    /// The ink at a shown place; `None` where no stitch stands.
    pub(super) fn cell(&self, picture: &ChartPicture<'_>, row: usize, x: usize) -> Option<u8> {
        let column = self.column(x);
        if !stands(&picture.chart, row, column) {
            return None;
        }
        picture.chart.row(row).get(column).copied()
    }
}
