//! Floats: the strands carried behind the work, how long, how often too long.

use std::collections::BTreeMap;

use crate::ground::units::Number;
use crate::rows::measure::row::{RowMeasures, YarnFloat, mean, mean_16};
use crate::rows::walk::Work;

/// Floats of a piece, counted once over each worked row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FloatMeasures {
    /// The longest, in stitches.
    pub longest: usize,
    /// The longest, in millimetres.
    pub longest_mm: f64,
    /// Mean length in stitches.
    pub mean: f64,
    /// L: stitches that may float uncaught.
    pub limit: usize,
    /// Rows with a float over the limit; 0 where the strand is carried inside.
    pub rows_over: usize,
    /// Largest share of such rows in 16.
    pub share_over_16: f64,
    /// Catches in all; 0 where the strand is carried inside.
    pub catches: usize,
    /// Catches for 100 stitches, all round.
    pub catches_per_100: f64,
    /// Length in stitches -> how many floats.
    pub histogram: BTreeMap<usize, usize>,
}

/// Catches that a float of `stitches` needs so that no free stretch is longer than `limit`.
#[must_use]
pub fn catches_needed(stitches: usize, limit: usize) -> usize {
    stitches.saturating_sub(limit).div_ceil(limit + 1)
}

/// Finds the floats of each row.
pub(super) fn find(work: &Work<'_>, rows: &mut [RowMeasures]) {
    let rank = colour_rank(work);
    let mut places = Places::default();
    let free = !work.craft.carries_inside();
    for (row, measures) in work.rows.iter().zip(rows) {
        if measures.colours < 2 {
            continue;
        }
        let line = Line {
            cells: work.cells(row),
            drawn: work.drawn(row),
            closed: row.closed,
        };
        measures.floats = places.floats_of(line, measures.changes / row.repeats.max(1));
        let key = |float: &YarnFloat| {
            let rank = rank.get(usize::from(float.colour)).copied().unwrap_or(0);
            (u64::from(float.start.get()) << 16) | rank
        };
        // They mostly are in order: a float that starts over, or two strands from one stitch, is rare.
        if !measures.floats.is_sorted_by_key(key) {
            measures.floats.sort_by_key(key);
        }
        if free {
            let catches = |float: &YarnFloat| catches_needed(float.stitches, work.limit);
            measures.catches = measures.floats.iter().map(catches).sum();
            measures.over = measures.catches > 0;
        }
    }
}

/// Place of each colour in the order of names, so that sorting by colour means by its name.
fn colour_rank(work: &Work<'_>) -> Vec<u64> {
    let mut order: Vec<usize> = (0..work.colours.len()).collect();
    order.sort_by_key(|&i| work.colours.get(i));
    let mut rank = vec![0; order.len()];
    for (place, &colour) in order.iter().enumerate() {
        rank[colour] = place as u64;
    }
    rank
}

/// A row to find floats in.
#[derive(Clone, Copy)]
struct Line<'a> {
    cells: &'a [u8],
    drawn: &'a [Number],
    closed: bool,
}

/// The floats of a row that is no part of measured work: as many cells as there are stitches, from the right, in a ring or
/// a line. None in a row of one colour.
#[must_use]
pub fn floats_in(cells: &[u8], closed: bool) -> Vec<YarnFloat> {
    let ends = usize::from(closed && cells.first() != cells.last());
    let runs = ends + cells.windows(2).filter(|pair| pair[0] != pair[1]).count();
    if runs == 0 {
        return Vec::new();
    }
    let drawn: Vec<Number> = (0..cells.len()).map(Number::of_index).collect();
    let line = Line {
        cells,
        drawn: &drawn,
        closed,
    };
    Places::default().floats_of(line, runs + 1)
}

/// The next place of each colour while a row is walked backwards.
struct Places {
    next: [usize; 256],
}

/// No stitch of that colour follows.
const NOWHERE: usize = usize::MAX;

impl Default for Places {
    fn default() -> Self {
        Self {
            next: [NOWHERE; 256],
        }
    }
}

impl Places {
    /// The floats of a row of `runs` runs in the order of their first stitches. A strand begins to float where its
    /// colour ends, so each place begins at most one float.
    fn floats_of(&mut self, line: Line<'_>, runs: usize) -> Vec<YarnFloat> {
        let Line {
            cells,
            drawn,
            closed,
        } = line;
        let length = cells.len();
        for (i, &colour) in cells.iter().enumerate().rev() {
            // In a ring the next stitch after the last one is the first one, a whole round on.
            self.next[usize::from(colour)] = if closed { i + length } else { NOWHERE };
        }
        // Written without a branch on whether there is a float, which no processor could guess; one place to spare.
        let nothing = YarnFloat {
            colour: 0,
            start: Number::FIRST,
            from: 0,
            stitches: 0,
        };
        let mut floats = vec![nothing; runs + 1];
        let mut found = 0;
        for (i, &colour) in cells.iter().enumerate().rev() {
            let next = std::mem::replace(&mut self.next[usize::from(colour)], i);
            let from = if i + 1 == length { 0 } else { i + 1 };
            let start = drawn.get(from).copied().unwrap_or(Number::FIRST);
            if let Some(place) = floats.get_mut(found) {
                *place = YarnFloat {
                    colour,
                    start,
                    from,
                    stitches: next.wrapping_sub(i + 1),
                };
            }
            found += usize::from(next != NOWHERE && next > i + 1);
        }
        floats.truncate(found);
        floats.reverse();
        floats
    }
}

pub(super) fn summarise(work: &Work<'_>, rows: &[RowMeasures]) -> FloatMeasures {
    let mut histogram: BTreeMap<usize, usize> = BTreeMap::new();
    let mut counts: Vec<usize> = Vec::new();
    for float in rows.iter().flat_map(|row| &row.floats) {
        if counts.len() <= float.stitches {
            counts.resize(float.stitches + 1, 0);
        }
        counts[float.stitches] += 1;
    }
    histogram.extend(
        counts
            .iter()
            .copied()
            .enumerate()
            .filter(|(_, count)| *count > 0),
    );
    let number: usize = histogram.values().sum();
    let total: usize = histogram
        .iter()
        .map(|(stitches, count)| stitches * count)
        .sum();
    let longest = histogram.keys().next_back().copied().unwrap_or(0);
    let each = || work.rows.iter().zip(rows);
    let worked: usize = each()
        .map(|(row, _)| work.cells(row).len() * row.repeats)
        .sum();
    let caught: usize = each()
        .map(|(row, measures)| measures.catches * row.repeats)
        .sum();
    FloatMeasures {
        longest,
        longest_mm: work.gauge.width(longest as f64).to_mm(),
        mean: mean(total, number),
        limit: work.limit,
        rows_over: rows.iter().filter(|row| row.over).count(),
        share_over_16: mean_16(rows.iter().map(|row| usize::from(row.over))),
        catches: rows.iter().map(|row| row.catches).sum(),
        catches_per_100: 100.0 * mean(caught, worked),
        histogram,
    }
}

#[cfg(test)]
mod tests {
    use super::catches_needed;

    #[test]
    fn catches_split_a_float_into_short_spans() {
        // Catch from five when four may float: common practice, no source.
        assert_eq!(catches_needed(4, 4), 0);
        assert_eq!(catches_needed(5, 4), 1);
        assert_eq!(catches_needed(9, 4), 1);
        assert_eq!(catches_needed(10, 4), 2);
    }
}
