//! A chart to be looked at, not worked from: repeated until it fills its place, without numbers.

use std::borrow::Cow;

use crate::course::Reads;
use crate::course::chart::{Chart, Mark};
use crate::picture::cells;
use crate::picture::frame::{ABOVE, Frame, LEFT};
use crate::picture::shown::{ChartPicture, InkLook};
use crate::picture::{Drawing, Paint, Path, Stroke, WIDEST};
use crate::words::labels::RELIEF;

/// Room for it, in millimetres.
struct Room {
    width: f64,
    height: f64,
}

/// Two stand side by side, in large print across all of the page.
const HALF: Room = Room {
    width: 80.0,
    height: 54.0,
};
const WHOLE: Room = Room {
    width: 88.0,
    height: 60.0,
};

/// Fewest and most columns that are shown: fewer would not show a pattern, more would be too small to see.
const COLUMNS: (usize, usize) = (24, 60);

/// Columns in which two charts are seen at one scale: as many as the wider repeat has, within bounds.
#[must_use]
pub fn shared_columns(a: &Chart, b: &Chart) -> usize {
    let wider = a.repeat_stitches.len().max(b.repeat_stitches.len());
    wider.clamp(COLUMNS.0, COLUMNS.1)
}

/// Draws a chart again and again over its place, `across` columns wide: colours alone, no number, symbol or heavy line.
#[must_use]
pub fn glance(
    chart: &Chart,
    looks: &[InkLook],
    (across, large): (usize, bool),
    alt: impl Into<String>,
) -> Drawing {
    let room = if large { WHOLE } else { HALF };
    let columns = chart.repeat_stitches.clone();
    let rows = chart.repeat_rows.clone();
    let cell = room.width / across as f64;
    let aspect = 20.0 / 26.0;
    let up = ((room.height / (cell * aspect)).floor() as usize).max(1);
    let at = |row: usize, column: usize| {
        (
            rows.start + row % rows.len().max(1),
            columns.start + column % columns.len().max(1),
        )
    };
    let each = || (0..up).flat_map(|row| (0..across).map(move |column| (row, column)));
    let tiled = Chart {
        cells: each()
            .map(|(row, column)| {
                let (row, column) = at(row, column);
                chart.row(row).get(column).copied().unwrap_or(0)
            })
            .collect(),
        marks: chart.marks.as_ref().map(|_| {
            let marks = each().map(|(row, column)| {
                let (row, column) = at(row, column);
                match chart.mark(row, column) {
                    Mark::NoStitch => Mark::NoStitch,
                    _ => Mark::Plain,
                }
            });
            marks.collect()
        }),
        width: across,
        height: up,
        repeat_stitches: 0..across,
        repeat_rows: 0..up,
        ..chart.clone()
    };
    let picture = ChartPicture {
        chart: Cow::Borrowed(&tiled),
        looks: looks.to_vec(),
        aspect,
        reads: Reads::of_chart(chart.worked),
        one_colour_row: Some(RELIEF),
        catches: Vec::new(),
        tags: Vec::new(),
        strands: Vec::new(),
        changed: Vec::new(),
        fills: true,
        large: false,
        from_left: false,
        widest: WIDEST,
        turned: false,
        alt: String::new(),
    };
    let frame = Frame {
        before: LEFT,
        above: ABOVE,
        rows: 0..up,
        first_column: 0,
        period: across,
        columns: across,
        cell_width: cell,
        cell_height: cell * aspect,
    };
    let (_, _, right, bottom) = frame.bounds();
    let mut drawing = Drawing::new(right - LEFT, bottom + 0.6, alt);
    let mut inner = Drawing::new(right, bottom + 0.6, "");
    cells::fills(&mut inner, &picture, &frame);
    thin_lines(&mut inner, &frame);
    cells::frame_line(&mut inner, &frame);
    drawing.shapes = inner
        .shapes
        .into_iter()
        .map(|shape| crate::picture::transform::moved(shape, (-LEFT, 0.0)))
        .collect();
    drawing
}

/// The same thin line between all cells.
fn thin_lines(drawing: &mut Drawing, frame: &Frame) {
    let (left, top, right, bottom) = frame.bounds();
    let mut lines = Path::default();
    for x in 1..frame.columns {
        let line = frame.left(x - 1);
        lines.add_line(&[(line, top), (line, bottom)]);
    }
    for row in frame.rows.clone().skip(1) {
        let line = frame.top(row) + frame.cell_height;
        lines.add_line(&[(left, line), (right, line)]);
    }
    drawing.line(lines, Stroke::new(Paint::CellLine, 0.1));
}
