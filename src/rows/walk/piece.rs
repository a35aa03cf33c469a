//! A lesson as worked at its middle size: all bands stacked, cut to the stretch of its colourwork.

use std::borrow::Cow;

use crate::course::chart::{Chart, Mark, Worked};
use crate::course::{Across, AcrossPart, Band, ChartUse, Lesson};
use crate::ground::units::nearest_at_least;
use crate::rows::walk::bare::{copies, is_closed, tile, worked_columns, worked_width};
use crate::rows::walk::{Origin, Row, RowKind, Stack, Tile, Work};

/// Lays out a lesson.
#[must_use]
pub fn lesson(lesson: &Lesson) -> Work<'_> {
    let mut piece = Piece {
        lesson,
        round: lesson.round_stitches(),
        stack: Stack::default(),
        charts: Vec::new(),
        sided: 0,
        started: false,
    };
    for (index, band) in lesson.bands.iter().enumerate() {
        piece.add(index + 1, band);
    }
    let Stack {
        rows,
        cells,
        drawn,
        marks,
        ..
    } = piece.stack;
    let rows = stretch_of_colourwork(rows, &cells);
    // Of equally wide charts the first counts; they stand equally often in the round.
    let widest = rows.iter().rev().max_by_key(|row| row.drawn_width);
    let gauge = lesson.colourwork.gauge;
    Work {
        stitches: widest.map_or(1, |row| row.drawn_width),
        repeats: widest.map_or(1, |row| row.repeats),
        rows,
        cells,
        drawn,
        marks,
        colours: lesson.yarns.iter().map(|yarn| yarn.role.clone()).collect(),
        charts: piece.charts,
        cyclic: false,
        gauge,
        limit: lesson.float_limit().in_stitches(gauge),
        craft: lesson.craft,
        round: piece.round,
        tiles: tiles(lesson),
    }
}

struct Piece<'a> {
    lesson: &'a Lesson,
    round: f64,
    stack: Stack,
    charts: Vec<String>,
    /// Rows since the first band that is not rib: decides right and wrong sides of flat work.
    sided: usize,
    started: bool,
}

/// Index of a yarn as a cell. The reader allows at most 256 yarns in use.
fn cell(yarn: usize) -> u8 {
    u8::try_from(yarn).unwrap_or(u8::MAX)
}

impl Piece<'_> {
    fn add(&mut self, number: usize, band: &Band) {
        self.started |= !matches!(band, Band::Rib { .. } | Band::Decrease);
        match band {
            Band::Rib { extent, yarn, .. } | Band::Plain { extent, yarn } => {
                for _ in 0..extent.rows(self.lesson.plain_gauge()) {
                    self.stack.stitch(cell(*yarn), 1, Mark::Plain);
                    let repeats = nearest_at_least(self.round, 1);
                    self.end_row(
                        repeats,
                        (1, 1),
                        true,
                        Origin {
                            band: number,
                            chart: None,
                            chart_row: 0,
                        },
                    );
                }
            }
            Band::Chart { what, times } => self.add_chart(number, what, *times),
            Band::Across(parts) => self.add_across(number, parts),
            Band::Decrease => {}
        }
    }

    fn end_row(
        &mut self,
        repeats: usize,
        (drawn_width, last_column): (usize, usize),
        closed: bool,
        origin: Origin,
    ) {
        let wrong_side = self.lesson.worked == Worked::Flat && self.started && self.sided % 2 == 1;
        self.sided += usize::from(self.started);
        self.stack.end_row(RowKind {
            repeats,
            drawn_width,
            last_column,
            closed,
            wrong_side,
            origin,
        });
    }

    fn name_chart(&mut self, id: &str) -> usize {
        self.charts
            .iter()
            .position(|known| known == id)
            .unwrap_or_else(|| {
                self.charts.push(id.to_owned());
                self.charts.len() - 1
            })
    }

    fn add_chart(&mut self, band: usize, what: &ChartUse, times: usize) {
        let chart = &*what.chart;
        let width = worked_width(chart);
        let closed = is_closed(chart, self.lesson.worked);
        let repeats = if closed {
            nearest_at_least(self.round / width as f64, 1)
        } else {
            1
        };
        let name = self.name_chart(&chart.id);
        for row in chart.rows_worked(times) {
            for column in worked_columns(chart, copies(chart)) {
                self.chart_stitch(what, row, column, column + 1);
            }
            let origin = Origin {
                band,
                chart: Some(name),
                chart_row: row + 1,
            };
            self.end_row(repeats, (width, chart.width), closed, origin);
        }
    }

    fn chart_stitch(&mut self, what: &ChartUse, row: usize, column: usize, drawn: usize) {
        let ink = what.chart.row(row).get(column).copied().unwrap_or(0);
        let yarn = what.yarns.get(usize::from(ink)).copied().unwrap_or(0);
        self.stack
            .stitch(cell(yarn), drawn, what.chart.mark(row, column));
    }

    /// Parts joined from the right, shorter ones repeated upwards, one joined row a round.
    fn add_across(&mut self, band: usize, parts: &[AcrossPart]) {
        let height = parts.iter().map(AcrossPart::rows).max().unwrap_or(0);
        let ids: Vec<&str> = parts
            .iter()
            .filter_map(|part| match part {
                AcrossPart::Chart(what, _) => Some(what.chart.id.as_str()),
                AcrossPart::Plain { .. } => None,
            })
            .collect();
        let name = (!ids.is_empty()).then(|| self.name_chart(&ids.join("+")));
        let closed = self.lesson.worked == Worked::Round;
        let times = across_times(parts, self.round);
        for row in 0..height {
            let mut drawn = 0;
            for (part, &times) in parts.iter().zip(&times) {
                match part {
                    AcrossPart::Plain { stitches, yarn } => {
                        for _ in 0..*stitches {
                            drawn += 1;
                            self.stack.stitch(cell(*yarn), drawn, Mark::Plain);
                        }
                    }
                    AcrossPart::Chart(what, _) => {
                        let chart_row = row_of_part(&what.chart, row, height);
                        for column in worked_columns(&what.chart, times) {
                            drawn += 1;
                            self.chart_stitch(what, chart_row, column, drawn);
                        }
                    }
                }
            }
            self.end_row(
                1,
                (drawn, drawn),
                closed,
                Origin {
                    band,
                    chart: name,
                    chart_row: row + 1,
                },
            );
        }
    }
}

/// The row of a part's chart in joined row `row`: as drawn in the tallest part, else its repeat again and again.
fn row_of_part(chart: &Chart, row: usize, height: usize) -> usize {
    if chart.height == height || row < chart.repeat_rows.start {
        return row.min(chart.height.saturating_sub(1));
    }
    let repeat = chart.repeat_rows.len().max(1);
    chart.repeat_rows.start + (row - chart.repeat_rows.start) % repeat
}

/// How often each part stands in the round; a part that fills takes what the others leave.
pub(crate) fn across_times(parts: &[AcrossPart], round: f64) -> Vec<usize> {
    let rest: usize = parts
        .iter()
        .map(|part| match part {
            AcrossPart::Plain { stitches, .. } => *stitches,
            AcrossPart::Chart(what, Across::Times(times)) => {
                let repeat = what.chart.repeat_stitches.len();
                what.chart.width - repeat + repeat * times
            }
            AcrossPart::Chart(what, Across::Fill) => {
                what.chart.width - what.chart.repeat_stitches.len()
            }
        })
        .sum();
    parts
        .iter()
        .map(|part| match part {
            AcrossPart::Chart(_, Across::Times(times)) => *times,
            AcrossPart::Chart(what, Across::Fill) => {
                let width = what.chart.repeat_stitches.len().max(1) as f64;
                nearest_at_least((round - rest as f64) / width, 1)
            }
            AcrossPart::Plain { .. } => 1,
        })
        .collect()
}

/// From the first to the last row of two or more colours; a lesson of stripes alone is taken whole.
fn stretch_of_colourwork(rows: Vec<Row>, cells: &[u8]) -> Vec<Row> {
    let is_stranded = |row: &Row| {
        let cells = cells.get(row.stitches.clone()).unwrap_or_default();
        cells.windows(2).any(|pair| pair[0] != pair[1])
    };
    let first = rows.iter().position(is_stranded);
    let last = rows.iter().rposition(is_stranded);
    match (first, last) {
        (Some(first), Some(last)) => rows.into_iter().take(last + 1).skip(first).collect(),
        _ => rows,
    }
}

/// What busyness looks at: each chart, and each unbroken stretch of plain bands and ribs as a chart one stitch wide.
fn tiles(lesson: &Lesson) -> Vec<Tile<'_>> {
    let mut tiles: Vec<Tile<'_>> = Vec::new();
    let mut plain: Vec<u8> = Vec::new();
    let end_plain = |plain: &mut Vec<u8>, tiles: &mut Vec<Tile<'_>>| {
        if !plain.is_empty() {
            tiles.push(Tile {
                width: 1,
                cells: Cow::Owned(std::mem::take(plain)),
                live: Vec::new(),
            });
        }
    };
    for band in &lesson.bands {
        match band {
            Band::Rib { extent, yarn, .. } | Band::Plain { extent, yarn } => {
                plain.extend(std::iter::repeat_n(
                    cell(*yarn),
                    extent.rows(lesson.plain_gauge()),
                ));
            }
            _ => end_plain(&mut plain, &mut tiles),
        }
    }
    end_plain(&mut plain, &mut tiles);
    for what in lesson.charts() {
        let colours: Vec<u8> = what.yarns.iter().map(|&yarn| cell(yarn)).collect();
        tiles.push(tile(&what.chart, Some(&colours)));
    }
    tiles
}
