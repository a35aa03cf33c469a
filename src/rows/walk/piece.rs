//! A lesson as worked at its middle size: all bands stacked, cut to the stretch of its colourwork.

use std::borrow::Cow;

use crate::course::chart::{Mark, Worked};
use crate::course::{AcrossPart, Band, ChartUse, Lesson};
use crate::ground::units::{Number, nearest_at_least};
use crate::rows::across;
use crate::rows::drawn::{columns_worked, is_closed, rows_worked};
use crate::rows::walk::bare::{copies, tile, worked_width};
use crate::rows::walk::{DrawnRow, Origin, Row, RowKind, Stack, Tile, Work, is_one};

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
        piece.add(index, band);
    }
    let Stack {
        rows,
        cells,
        drawn,
        marks,
        ..
    } = piece.stack;
    let rows = if lesson.craft.has_rows() {
        stretch_of_colourwork(rows, &cells)
    } else {
        rows
    };
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

/// Index of a yarn as a cell; the reader allows no more yarns than a byte counts.
fn cell(yarn: usize) -> u8 {
    u8::try_from(yarn).unwrap_or(u8::MAX)
}

impl Piece<'_> {
    fn add(&mut self, index: usize, band: &Band) {
        self.started |= !matches!(band, Band::Rib { .. } | Band::Decrease);
        match band {
            Band::Rib { extent, yarn, .. } | Band::Plain { extent, yarn, .. } => {
                for _ in 0..extent.rows(self.lesson.plain_gauge()) {
                    self.stack.stitch(cell(*yarn), 0, Mark::Plain);
                    let repeats = nearest_at_least(self.round, 1);
                    self.end_row(
                        repeats,
                        (1, 1),
                        true,
                        Origin {
                            band: Some(index),
                            drawn: None,
                        },
                    );
                }
            }
            Band::Chart { what, times } => self.add_chart(index, what, *times),
            Band::Across(parts) => self.add_across(index, parts),
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
        let wrong_side = self.lesson.turns() && self.started && self.sided % 2 == 1;
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
        for row in rows_worked(chart, times) {
            for column in columns_worked(chart, copies(chart)) {
                let mark = chart.mark(row, column);
                self.stack
                    .stitch(cell(what.yarn_at(row, column)), column, mark);
            }
            let origin = Origin {
                band: Some(band),
                drawn: Some(DrawnRow {
                    chart: name,
                    row: Number::of_index(row),
                }),
            };
            self.end_row(repeats, (width, chart.width), closed, origin);
        }
    }

    /// Parts joined from the right, shorter ones repeated upwards, one joined row a round.
    fn add_across(&mut self, band: usize, parts: &[AcrossPart]) {
        let ids: Vec<&str> = parts
            .iter()
            .filter_map(|part| match part {
                AcrossPart::Chart(what, _) => Some(what.chart.id.as_str()),
                AcrossPart::Plain { .. } => None,
            })
            .collect();
        let name = (!ids.is_empty()).then(|| self.name_chart(&ids.join("+")));
        let closed = self.lesson.worked == Worked::Round;
        let times = across::times(parts, self.round);
        for row in 0..across::height(parts) {
            let line = across::row(parts, &times, row);
            let drawn = line.len();
            for (place, stitch) in line.into_iter().enumerate() {
                self.stack.stitch(cell(stitch.yarn), place, stitch.mark);
            }
            self.end_row(
                1,
                (drawn, drawn),
                closed,
                Origin {
                    band: Some(band),
                    drawn: name.map(|chart| DrawnRow {
                        chart,
                        row: Number::of_index(row),
                    }),
                },
            );
        }
    }
}

/// From the first to the last row of two or more colours; a lesson of stripes alone is taken whole.
fn stretch_of_colourwork(rows: Vec<Row>, cells: &[u8]) -> Vec<Row> {
    let is_stranded = |row: &Row| !is_one(cells.get(row.stitches.clone()).unwrap_or_default());
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
            Band::Rib { extent, yarn, .. } | Band::Plain { extent, yarn, .. } => {
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
