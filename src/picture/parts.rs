//! How much of a chart fits a page, and how large its cells are there.

use std::ops::Range;

use crate::course::Reads;
use crate::picture::shown::ChartPicture;

/// What a page leaves to a chart, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Room {
    /// The narrowest and the widest cell.
    pub(super) cells: (f64, f64),
    /// The widest and the tallest grid: a page less title, reading line, numbers and legend.
    pub(super) grid: (f64, f64),
}

/// A page of ordinary print.
const PAGE: Room = Room {
    cells: (4.0, WIDEST),
    grid: (140.0, 190.0),
};

/// The same when the page is turned.
const PAGE_TURNED: Room = Room {
    cells: (4.0, WIDEST),
    grid: (196.0, 128.0),
};

/// The widest cell of a chart in ordinary print, in millimetres.
pub const WIDEST: f64 = 9.0;

/// A page of large print, before it is magnified: cells of 8.1 to 14.9 mm, numbers of 14 pt.
const LARGE_PAGE: Room = Room {
    cells: (4.9, 9.0),
    grid: (69.0, 78.0),
};

/// The same when the page is turned: cells of 7 mm and more, so that a round is in one view.
const LARGE_PAGE_TURNED: Room = Room {
    cells: (4.25, 9.0),
    grid: (97.0, 62.0),
};

/// Room that the numbers of rows take at the left of a chart.
pub(super) const NUMBERS: f64 = 7.0;

/// Room beyond numbers at the right that the word at the bracket of a repeat of rows takes.
const BRACKET: f64 = 2.0;

/// How much larger a picture is in large print: 8.5 pt become 14.
pub const LARGE: f64 = 1.65;

/// The same for pictures other than charts, which have words: 8.5 pt become 16.
pub const LARGE_WORDS: f64 = 16.0 / 8.5;

/// A part of a chart that fits a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChartPart {
    /// Rows, from 0.
    pub rows: Range<usize>,
    /// Columns, from 0.
    pub columns: Range<usize>,
}

impl ChartPicture<'_> {
    pub(super) fn room(&self) -> Room {
        let room = match (self.large, self.turned) {
            (false, false) => PAGE,
            (false, true) => PAGE_TURNED,
            (true, false) => LARGE_PAGE,
            (true, true) => LARGE_PAGE_TURNED,
        };
        let (width, height) = room.grid;
        let (least, most) = room.cells;
        Room {
            cells: (least, most.min(self.widest).max(least)),
            grid: (width - self.numbers_before() - self.bracket_after(), height),
        }
    }

    /// Room for the word beside the bracket of a repeat of rows, more than numbers take.
    pub(super) fn bracket_after(&self) -> f64 {
        if self.chart.repeat_rows == (0..self.chart.height) {
            0.0
        } else {
            BRACKET
        }
    }

    /// Room for numbers of rows between the tags and the grid: where work turns, every second row begins there.
    pub(super) fn numbers_before(&self) -> f64 {
        if self.reads == Reads::Turning && !self.tags.is_empty() {
            NUMBERS
        } else {
            0.0
        }
    }
}

/// Width and height of a cell: as wide as `columns` and `rows` allow, in the shape of a stitch.
pub(super) fn cell_size(columns: usize, rows: usize, aspect: f64, room: Room) -> (f64, f64) {
    let by_width = room.grid.0 / columns.max(1) as f64;
    let by_height = room.grid.1 / (rows.max(1) as f64 * aspect);
    let width = by_width.min(by_height).clamp(room.cells.0, room.cells.1);
    (width, width * aspect)
}

/// Cuts a chart into parts that fit a page: by stitches where cells would be too narrow, by rows only when cells of
/// the least size would not fit either, with one row of overlap.
#[must_use]
pub fn parts_of(picture: &ChartPicture<'_>) -> Vec<ChartPart> {
    let (chart, room) = (&picture.chart, picture.room());
    let most_columns = (room.grid.0 / room.cells.0).floor() as usize;
    let groups = chart.width.div_ceil(most_columns).max(1);
    let columns = chart.width.div_ceil(groups).max(1);
    let least_height = room.cells.0 * picture.aspect;
    let most_rows = ((room.grid.1 / least_height + 1e-9).floor() as usize).max(4);
    // Parts of about equal height, each standing on the last row of the one beneath.
    let pieces = (chart.height.saturating_sub(1))
        .div_ceil(most_rows - 1)
        .max(1);
    let most_rows = (chart.height - 1).div_ceil(pieces) + 1;
    let mut parts = Vec::new();
    for group in 0..groups {
        let across = group * columns..((group + 1) * columns).min(chart.width);
        let mut start = 0;
        loop {
            let end = (start + most_rows).min(chart.height);
            parts.push(ChartPart {
                rows: start..end,
                columns: across.clone(),
            });
            if end == chart.height {
                break;
            }
            // The last row stands again at the foot of the next part.
            start = end - 1;
        }
    }
    parts
}
