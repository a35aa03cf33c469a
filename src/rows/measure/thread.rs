//! Measures of counted thread: travels in place of floats, blocks of colour in place of looks, nothing of rows.

use std::collections::{BTreeMap, BTreeSet};

use crate::rows::measure::colours::ColourMeasures;
use crate::rows::measure::floats::FloatMeasures;
use crate::rows::measure::reading::ReadingMeasures;
use crate::rows::measure::row::{RowMeasures, mean, mean_16};
use crate::rows::thread::{FURTHEST, Field, gap, route};
use crate::rows::walk::Work;

/// What is measured on cloth: travels, colours, blocks, and rows that only know their colours.
pub(super) type OnCloth = (
    FloatMeasures,
    ColourMeasures,
    ReadingMeasures,
    Vec<RowMeasures>,
);

/// Measures work on cloth.
pub(super) fn measure(work: &Work<'_>) -> OnCloth {
    let field = Field::of(work);
    let pitch = work.gauge.width(1.0);
    let (threads, travels) = route(&field, pitch);
    let colours_of = |y: usize| {
        let row = (0..field.width).filter_map(|x| field.at((x, y)));
        row.collect::<BTreeSet<u8>>().len()
    };
    let rows: Vec<RowMeasures> = (0..field.height)
        .map(|y| RowMeasures {
            colours: colours_of(y),
            ..RowMeasures::default()
        })
        .collect();
    let far: Vec<f64> = travels.iter().map(|way| gap(way.from, way.to)).collect();
    let longest = far.iter().copied().fold(0.0, f64::max);
    let mut histogram = BTreeMap::new();
    for far in &far {
        *histogram.entry(far.ceil() as usize).or_insert(0) += 1;
    }
    let starts: usize = threads.iter().map(|thread| thread.starts.len()).sum();
    let (blocks, most) = field.blocks();
    let floats = FloatMeasures {
        longest: longest.ceil() as usize,
        longest_mm: longest * pitch.to_mm(),
        mean: far.iter().sum::<f64>() / far.len().max(1) as f64,
        limit: (FURTHEST.to_mm() / pitch.to_mm() + 1e-9) as usize,
        histogram,
        ..FloatMeasures::default()
    };
    let colours = ColourMeasures {
        total: threads.len(),
        most: rows.iter().map(|row| row.colours).max().unwrap_or(0),
        mean: mean(rows.iter().map(|row| row.colours).sum(), rows.len()),
        mean_16: mean_16(rows.iter().map(|row| row.colours)),
        changes: 0,
        ends: 2 * starts,
    };
    let reading = ReadingMeasures {
        looks_mean: blocks,
        looks_16: blocks,
        looks_most: most,
        chunks_most: 0,
    };
    (floats, colours, reading, rows)
}
