//! How hard a chart *looks*: contrast from cell to cell, variety, colours. It grades nothing; the quiz lives on it.

use std::borrow::Cow;

use crate::rows::measure::complexity::lempel_ziv;
use crate::rows::measure::row::{changes_along, differing};
use crate::rows::walk::Tile;

/// A chart is tiled to at least this many columns and rows, so that small and large ones are compared fairly.
const COLUMNS: usize = 48;
const ROWS: usize = 24;

/// Busyness of a tile, 0 to 100: 20 × share of neighbouring pairs that differ + 60 × √min(1, c ÷ (n ÷ log₂ n)) +
/// 20 × min(1, (colours − 1) ÷ 5), with c the Lempel-Ziv complexity of the n tiled cells.
#[must_use]
pub fn busyness(tile: &Tile<'_>) -> f64 {
    let field = Field::tiled(tile);
    let differing = field.share_of_differing_pairs();
    let string: Cow<'_, [u8]> = if field.live.is_empty() {
        Cow::Borrowed(&field.cells)
    } else {
        let kept = field
            .cells
            .iter()
            .zip(field.live.iter())
            .filter(|(_, live)| **live);
        Cow::Owned(kept.map(|(cell, _)| *cell).collect())
    };
    let n = string.len() as f64;
    let mut seen = [false; 256];
    for &cell in string.iter() {
        seen[usize::from(cell)] = true;
    }
    let colours = seen.iter().filter(|&&used| used).count();
    let variety = if n > 1.0 {
        lempel_ziv(&string) as f64 / (n / n.log2())
    } else {
        0.0
    };
    let palette = colours.saturating_sub(1) as f64 / 5.0;
    20.0 * differing + 60.0 * variety.min(1.0).sqrt() + 20.0 * palette.min(1.0)
}

struct Field<'a> {
    width: usize,
    cells: Cow<'a, [u8]>,
    live: Cow<'a, [bool]>,
}

impl<'a> Field<'a> {
    fn tiled(tile: &'a Tile<'_>) -> Self {
        let width = tile.width.max(1);
        let height = tile.cells.len() / width;
        let across = COLUMNS.div_ceil(width);
        let up = ROWS.div_ceil(height.max(1));
        if across == 1 && up == 1 {
            return Self {
                width,
                cells: Cow::Borrowed(&tile.cells),
                live: Cow::Borrowed(&tile.live),
            };
        }
        Self {
            width: width * across,
            cells: Cow::Owned(spread(&tile.cells, width, across, up)),
            live: Cow::Owned(spread(&tile.live, width, across, up)),
        }
    }

    fn share_of_differing_pairs(&self) -> f64 {
        let width = self.width;
        if self.live.is_empty() {
            let across: usize = self.cells.chunks_exact(width).map(changes_along).sum();
            let up = differing(&self.cells, self.cells.get(width..).unwrap_or_default());
            let height = self.cells.len() / width;
            let pairs = (width - 1) * height + width * height.saturating_sub(1);
            return if pairs == 0 {
                0.0
            } else {
                (across + up) as f64 / pairs as f64
            };
        }
        let (mut pairs, mut differ) = (0_usize, 0_usize);
        for i in 0..self.cells.len() {
            let right = ((i + 1) % width != 0).then_some(i + 1);
            for j in [right, Some(i + width)].into_iter().flatten() {
                if let (Some(a), Some(b), Some(true), Some(true)) = (
                    self.cells.get(i),
                    self.cells.get(j),
                    self.live.get(i),
                    self.live.get(j),
                ) {
                    pairs += 1;
                    differ += usize::from(a != b);
                }
            }
        }
        if pairs == 0 {
            0.0
        } else {
            differ as f64 / pairs as f64
        }
    }
}

fn spread<T: Copy>(values: &[T], width: usize, across: usize, up: usize) -> Vec<T> {
    let mut field = Vec::with_capacity(values.len() * across * up);
    for _ in 0..up {
        for row in values.chunks_exact(width) {
            for _ in 0..across {
                field.extend_from_slice(row);
            }
        }
    }
    field
}
