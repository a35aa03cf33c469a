//! Flat work: at which edge each yarn lies, and on which side a chart begins.

use std::collections::{BTreeMap, BTreeSet};

use crate::course::chart::{Chart, Worked};
use crate::course::{AcrossPart, Band, Lesson};
use crate::rows::measure::is_cut;
use crate::rows::{across, drawn};

/// A row that needs a yarn which lies at its other edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FarEdge {
    /// The row, from 0: of a lesson among all its rows that are no rib.
    pub row: usize,
    /// The yarn (of a bare chart the ink) by index.
    pub colour: usize,
    /// Of a lesson the band and its row, from 0.
    pub band: Option<(usize, usize)>,
}

/// The colours of a row; of a lesson, where it is of a band, that and its row there.
type Coloured = (BTreeSet<usize>, Option<(usize, usize)>);

/// Which yarns lie at the wrong edge, given the colours of each row from the first right-side row on.
fn far_edges(rows: &[Coloured]) -> Vec<FarEdge> {
    // Rows run to and fro: an even one begins at the right edge and ends at the left one. Each colour lies where the row
    // ended in which it was used last.
    let mut last: BTreeMap<usize, usize> = BTreeMap::new();
    let mut found = Vec::new();
    for (row, (colours, band)) in rows.iter().enumerate() {
        for &colour in colours {
            let there = last
                .get(&colour)
                .is_none_or(|last| is_cut(*last, row) || (row - last) % 2 == 1);
            if !there {
                found.push(FarEdge {
                    row,
                    colour,
                    band: *band,
                });
            }
            last.insert(colour, row);
        }
    }
    found
}

/// The yarns of a flat lesson that lie at the wrong edge.
#[must_use]
pub fn of_lesson(lesson: &Lesson) -> Vec<FarEdge> {
    if !lesson.turns() {
        return Vec::new();
    }
    far_edges(&rows_of(lesson))
}

/// The colours of every row from the first band that is no rib.
fn rows_of(lesson: &Lesson) -> Vec<Coloured> {
    let mut rows = Vec::new();
    for (index, band) in lesson.bands.iter().enumerate() {
        match band {
            Band::Rib { extent, yarn, .. } | Band::Plain { extent, yarn, .. } => {
                if matches!(band, Band::Rib { .. }) && rows.is_empty() {
                    continue;
                }
                let one = (BTreeSet::from([*yarn]), None);
                rows.extend(std::iter::repeat_n(one, extent.rows(lesson.plain_gauge())));
            }
            Band::Chart { what, times } => {
                rows.extend(drawn::rows_worked(&what.chart, *times).map(|row| {
                    let columns =
                        (0..what.chart.width).filter(|x| drawn::stands(&what.chart, row, *x));
                    let colours = columns.map(|column| what.yarn_at(row, column)).collect();
                    (colours, Some((index, row)))
                }));
            }
            Band::Across(parts) => rows.extend(across_rows(parts, index, lesson.round_stitches())),
            Band::Decrease => {}
        }
    }
    rows
}

fn across_rows(parts: &[AcrossPart], index: usize, round: f64) -> Vec<Coloured> {
    let times = across::times(parts, round);
    (0..across::height(parts))
        .map(|row| {
            let line = across::row(parts, &times, row);
            (
                line.iter().map(|stitch| stitch.yarn).collect(),
                Some((index, row)),
            )
        })
        .collect()
}

/// The inks of a flat chart that lie at the wrong edge; where it repeats upwards, in two repeats.
#[must_use]
pub fn of_chart(chart: &Chart) -> Vec<FarEdge> {
    if chart.worked != Worked::Flat {
        return Vec::new();
    }
    let times = if chart.declares_rows { 2 } else { 1 };
    let rows: Vec<_> = drawn::rows_worked(chart, times)
        .map(|row| {
            (
                drawn::stitches(chart, row).map(usize::from).collect(),
                Some((0, row)),
            )
        })
        .collect();
    let mut found = far_edges(&rows);
    // A row that is met twice is told once.
    found.retain(|far| far.row <= chart.height);
    found
}

/// Charts of a flat lesson whose first row comes on a wrong side, by band.
#[must_use]
pub fn begins_on_wrong_side(lesson: &Lesson) -> Vec<usize> {
    if !lesson.turns() {
        return Vec::new();
    }
    let rows = rows_of(lesson);
    let firsts = rows.iter().enumerate().filter_map(|(at, (_, band))| {
        let (band, row) = (*band)?;
        // Only where the band before ends.
        let begins = at == 0
            || rows
                .get(at - 1)
                .is_none_or(|(_, before)| before.is_none_or(|(b, _)| b != band));
        (begins && row == 0 && at % 2 == 1).then_some(band)
    });
    firsts.collect()
}
