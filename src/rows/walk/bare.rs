//! A chart by itself: its repeat, or with edge stitches right edge + repeat + repeat + left edge.

use std::borrow::Cow;

use crate::course::Craft;
use crate::course::chart::{Chart, Worked};
use crate::ground::units::{FloatLimit, Gauge, Number, nearest_at_least};
use crate::rows::drawn::{columns_worked, is_closed, stands};
use crate::rows::walk::{DrawnRow, Origin, RowKind, Stack, Tile, Work};

/// The round on which a bare chart is measured.
const BARE_ROUND: f64 = 96.0;

/// Gauge and limit of a bare chart.
#[derive(Clone, Copy, Debug)]
pub struct BareSettings {
    /// Gauge; 20 stitches and 26 rows unless asked otherwise.
    pub gauge: Gauge,
    /// Float limit.
    pub limit: FloatLimit,
}

/// How many copies of its repeat one worked row of a chart holds: two between edges, else one.
pub(super) fn copies(chart: &Chart) -> usize {
    if chart.has_edges() { 2 } else { 1 }
}

/// Drawn columns of one worked row.
pub(super) fn worked_width(chart: &Chart) -> usize {
    chart.width + chart.repeat_stitches.len() * (copies(chart) - 1)
}

/// The repeat of a chart for busyness, its cells renamed by `colour`.
pub(super) fn tile<'a>(chart: &'a Chart, colour: Option<&[u8]>) -> Tile<'a> {
    let (rows, columns) = (chart.repeat_rows.clone(), chart.repeat_stitches.clone());
    let whole = rows == (0..chart.height) && columns == (0..chart.width);
    let cells: Cow<'a, [u8]> = if whole && colour.is_none() {
        Cow::Borrowed(&chart.cells)
    } else {
        let rename = |cell: u8| {
            colour
                .and_then(|c| c.get(usize::from(cell)).copied())
                .unwrap_or(cell)
        };
        let each = rows.clone().flat_map(|row| {
            chart
                .row(row)
                .get(columns.clone())
                .unwrap_or_default()
                .iter()
                .map(|&cell| rename(cell))
        });
        Cow::Owned(each.collect())
    };
    let live = if chart.marks.is_some() {
        let each = rows.flat_map(|row| columns.clone().map(move |column| (row, column)));
        each.map(|(row, column)| stands(chart, row, column))
            .collect()
    } else {
        Vec::new()
    };
    Tile {
        width: columns.len(),
        cells,
        live,
    }
}

/// Lays out a chart by itself.
#[must_use]
pub fn bare_chart(chart: &Chart, settings: BareSettings) -> Work<'_> {
    let closed = is_closed(chart, chart.worked);
    let width = worked_width(chart);
    let repeats = if closed {
        nearest_at_least(BARE_ROUND / width as f64, 1)
    } else {
        1
    };
    let mut stack = Stack::default();
    for row in chart.repeat_rows.clone() {
        if chart.marks.is_none() && !chart.has_edges() {
            stack.plain_stitches(chart.row(row));
        } else {
            for column in columns_worked(chart, copies(chart)) {
                let cell = chart.row(row).get(column).copied().unwrap_or(0);
                stack.stitch(cell, column, chart.mark(row, column));
            }
        }
        stack.end_row(RowKind {
            repeats,
            drawn_width: width,
            last_column: chart.width,
            closed,
            wrong_side: chart.worked == Worked::Flat && row % 2 == 1,
            origin: Origin {
                band: None,
                drawn: Some(DrawnRow {
                    chart: 0,
                    row: Number::of_index(row),
                }),
            },
        });
    }
    Work {
        rows: stack.rows,
        cells: stack.cells,
        drawn: stack.drawn,
        marks: stack.marks,
        colours: chart
            .inks
            .iter()
            .map(|ink| ink.letter.to_string())
            .collect(),
        charts: vec![chart.id.clone()],
        cyclic: chart.declares_rows,
        gauge: settings.gauge,
        limit: settings.limit.in_stitches(settings.gauge),
        craft: Craft::USUAL,
        stitches: width,
        repeats,
        round: BARE_ROUND,
        tiles: vec![tile(chart, None)],
    }
}
