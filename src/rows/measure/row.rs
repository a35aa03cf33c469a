//! The measures of one row, and means over rows.

use crate::ground::units::Number;

/// A strand behind the work: a stretch of stitches not of its colour between two stitches of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct YarnFloat {
    /// The colour that floats.
    pub colour: u8,
    /// Drawn number of the first stitch floated over.
    pub start: Number,
    /// Place of that stitch in the worked row, from 0.
    pub from: usize,
    /// Stitches floated over.
    pub stitches: usize,
}

/// Length of the stretch over which a hard passage is looked for.
const STRETCH: usize = 16;

/// The measures of one worked row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RowMeasures {
    /// Colours it uses. One: a relief row.
    pub colours: usize,
    /// Colour changes all round; 0 for a relief row.
    pub changes: usize,
    /// Runs in one unit; 1 for a relief row.
    pub chunks: usize,
    /// Chunks to learn.
    pub learn: usize,
    /// Looks at the chart.
    pub looks: usize,
    /// Every colour's floats, sorted by start, then colour.
    pub floats: Vec<YarnFloat>,
    /// Whether a float is over the limit.
    pub over: bool,
    /// Catches needed.
    pub catches: usize,
}

/// How many cells differ from those at the same place of another line.
pub(super) fn differing(a: &[u8], b: &[u8]) -> usize {
    // Summed in bytes as far as these hold it, which takes many cells at a time.
    const MOST: usize = u8::MAX as usize;
    let parts = a.chunks(MOST).zip(b.chunks(MOST));
    let count = |(a, b): (&[u8], &[u8])| a.iter().zip(b).map(|(a, b)| u8::from(a != b)).sum::<u8>();
    parts.map(|part| usize::from(count(part))).sum()
}

/// How many cells of a line differ from their neighbours.
pub(super) fn changes_along(cells: &[u8]) -> usize {
    differing(cells, cells.get(1..).unwrap_or_default())
}

/// The largest mean over any 16 consecutive rows, over all rows if there are fewer, without wrapping.
pub(super) fn mean_16(values: impl Iterator<Item = usize>) -> f64 {
    let values: Vec<usize> = values.collect();
    let window = STRETCH.min(values.len());
    if window == 0 {
        return 0.0;
    }
    let mut sum: usize = values.iter().take(window).sum();
    let mut most = sum;
    for (leaving, entering) in values.iter().zip(values.iter().skip(window)) {
        sum = sum + entering - leaving;
        most = most.max(sum);
    }
    most as f64 / window as f64
}

/// The mean, 0 of nothing.
pub(super) fn mean(sum: usize, count: usize) -> f64 {
    if count == 0 {
        0.0
    } else {
        sum as f64 / count as f64
    }
}

#[cfg(test)]
mod tests {
    use super::mean_16;

    #[test]
    fn easy_rows_do_not_hide_a_hard_stretch() {
        let values = [0_usize; 20].into_iter().chain([4; 8]).chain([0; 20]);
        assert_eq!(mean_16(values), 2.0);
        assert_eq!(mean_16([3, 1].into_iter()), 2.0);
        assert_eq!(mean_16(std::iter::empty()), 0.0);
    }
}
