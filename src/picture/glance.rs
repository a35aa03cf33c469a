//! A chart to be looked at, not worked from: repeated until it fills its place, without numbers.

use std::borrow::Cow;

use crate::course::chart::{Chart, Mark};
use crate::picture::Drawing;
use crate::picture::cells;
use crate::picture::frame::{Frame, LEFT};
use crate::picture::shown::{ChartPicture, InkLook};

/// Room for it, and the least cell, in millimetres.
struct Room {
    width: f64,
    height: f64,
    cell: f64,
}

/// Two stand side by side; in large print one under the other.
const HALF: Room = Room {
    width: 80.0,
    height: 54.0,
    cell: 3.2,
};
const WHOLE: Room = Room {
    width: 176.0,
    height: 76.0,
    cell: 8.0,
};

/// Draws the repeat of a chart as often as fits, or as much of a large one as does.
#[must_use]
pub fn glance(
    chart: &Chart,
    looks: &[InkLook],
    (fills, large): (bool, bool),
    alt: impl Into<String>,
) -> Drawing {
    let room = if large { WHOLE } else { HALF };
    let columns = chart.repeat_stitches.clone();
    let rows = chart.repeat_rows.clone();
    let most = (room.width / room.cell).floor() as usize;
    // Whole repeats where one fits, at least 12 stitches and 8 rows so that the pattern shows.
    let across = if columns.len() >= most {
        most
    } else {
        (most / columns.len()).max(1) * columns.len()
    };
    let cell = room.width / across as f64;
    let aspect = 20.0 / 26.0;
    let most_rows = ((room.height / (cell * aspect)).floor() as usize).max(1);
    let up = if rows.len() >= most_rows {
        most_rows
    } else {
        (most_rows / rows.len()).max(1) * rows.len()
    };
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
        worked: chart.worked,
        catches: Vec::new(),
        tags: Vec::new(),
        strands: Vec::new(),
        changed: Vec::new(),
        fills,
        large: false,
        from_left: false,
        alt: String::new(),
    };
    let frame = Frame {
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
    cells::grid(&mut inner, &picture, &frame);
    cells::symbols(&mut inner, &picture, &frame);
    cells::frame_line(&mut inner, &frame);
    drawing.shapes = inner
        .shapes
        .into_iter()
        .map(|shape| crate::picture::transform::moved(shape, (-LEFT, 0.0)))
        .collect();
    drawing
}
