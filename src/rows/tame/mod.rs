//! Taming a chart: the fewest cells to recolour so that no float is longer than asked, and plain rows for rest.
//!
//! Rows do not bear on each other, so each is solved by itself, exactly (see `solve` for the bound). What counts as
//! a float is what is measured: rings in the round, lines in flat work, both copies of a repeat between its edges.

mod ages;
mod beam;
mod eased;
mod path;
mod relief;
mod solve;
mod steps;
mod strip;

pub use relief::rest_after;

use std::collections::BTreeMap;

use crate::course::chart::Chart;
use crate::rows::drawn;
use crate::rows::tame::steps::Steps;
use crate::rows::tame::strip::{Strip, strip};

/// What is asked of a tamed chart.
#[derive(Clone, Copy, Debug, Default)]
pub struct Request {
    /// The longest float, in stitches.
    pub longest: usize,
    /// Keep the left-right axis that every row has.
    pub mirror: bool,
    /// Leave the outermost stitches of a line alone.
    pub keep_edges: bool,
    /// Into how many parts the work that a chart may take is cut for this one: 0 and 1 are all of it.
    pub share: usize,
}

/// A cell with a new colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Recoloured {
    /// Row, from 0.
    pub row: usize,
    /// Column, from 0 at the right.
    pub column: usize,
    /// Index of the old colour.
    pub from: u8,
    /// Index of the new one.
    pub to: u8,
}

/// A tamed chart.
#[derive(Clone, Debug)]
pub struct Tamed {
    /// The chart with its new colours.
    pub chart: Chart,
    /// What changed, by row from the bottom, then by stitch.
    pub cells: Vec<Recoloured>,
    /// Whether fewer cells are proven impossible; else this is the best found.
    pub exact: bool,
    /// The axis that was kept: i ↦ a − i mod n, counted from 1.
    pub axis: Option<usize>,
}

/// Why a chart cannot be tamed so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// No axis that every row has.
    NoAxis,
    /// The row (from 0) that asks for the longest floats, and the smallest longest float that works for all rows.
    TooShort {
        /// The row.
        row: usize,
        /// The smallest longest float of the whole chart.
        smallest: usize,
    },
}

/// Recolours the fewest cells so that no float passes more than `request.longest` stitches.
///
/// # Errors
/// When there is no axis to keep, or some row has too few stitches for its colours.
pub fn tame(chart: &Chart, request: Request) -> Result<Tamed, Refusal> {
    let axis = if request.mirror {
        Some(strip::axis(chart).ok_or(Refusal::NoAxis)?)
    } else {
        None
    };
    let strip_of = |row| strip(chart, row, axis, request.keep_edges);
    let mut solved: BTreeMap<RowKey<'_>, Option<eased::Eased>> = BTreeMap::new();
    let mut tamed = chart.clone();
    let mut cells = Vec::new();
    let mut exact = true;
    let mut refused: Option<(usize, usize)> = None;
    let mut steps = Steps::of(chart.height, request.share);
    for row in 0..chart.height {
        // A row that is fine stays as it is, whatever else is asked.
        let drawn = strip(chart, row, None, false).map_or(0, |strip| solve::longest(&strip));
        if drawn <= request.longest {
            continue;
        }
        let Some(strip) = strip_of(row) else { continue };
        let eased = solved
            .entry(row_key(chart, row))
            .or_insert_with(|| solve::ease(&strip, request.longest, &mut steps));
        let Some(eased) = eased else {
            let smallest = solve::smallest(&strip, request.longest + 1, &mut steps);
            refused = refused.max(Some((smallest, row)));
            continue;
        };
        exact &= eased.exact;
        for &(column, colour) in &eased.cells {
            let place = row * chart.width + column;
            let (Some(cell), Some(&to)) = (tamed.cells.get_mut(place), strip.inks.get(colour))
            else {
                continue;
            };
            cells.push(Recoloured {
                row,
                column,
                from: *cell,
                to,
            });
            *cell = to;
        }
    }
    match refused {
        Some((smallest, row)) => Err(Refusal::TooShort { row, smallest }),
        None => Ok(Tamed {
            chart: tamed,
            cells,
            exact,
            axis,
        }),
    }
}

/// All that tells two rows of a chart apart.
type RowKey<'a> = (&'a [u8], Vec<bool>);

fn row_key(chart: &Chart, row: usize) -> RowKey<'_> {
    let stands = match &chart.marks {
        None => Vec::new(),
        Some(_) => (0..chart.width)
            .map(|c| drawn::stands(chart, row, c))
            .collect(),
    };
    (chart.row(row), stands)
}

/// The longest float of the chart, in stitches, as it is measured: what taming to this leaves as it is.
#[must_use]
pub fn longest_float(chart: &Chart) -> usize {
    (0..chart.height)
        .filter_map(|row| strip(chart, row, None, false))
        .map(|strip: Strip| solve::longest(&strip))
        .max()
        .unwrap_or(0)
}
