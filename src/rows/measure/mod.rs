//! What a chart or lesson asks of the hands and eyes, as numbers.
//!
//! Measuring sees worked rows and tiles, a gauge and a limit, and nothing else: no sizes, no yarns, no words. That is
//! why one definition serves a bare chart and a whole lesson.

mod busyness;
mod colours;
mod complexity;
mod floats;
mod packed;
mod reading;
mod relief;

pub use busyness::busyness;
pub use colours::ColourMeasures;
pub use complexity::lempel_ziv;
pub use floats::{FloatMeasures, YarnFloat, catches_needed};
pub use reading::ReadingMeasures;
pub use relief::ReliefMeasures;

use crate::rows::walk::Work;

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

/// All measures of a piece of work.
#[derive(Clone, Debug, PartialEq)]
pub struct Measures {
    /// Floats.
    pub floats: FloatMeasures,
    /// Colours.
    pub colours: ColourMeasures,
    /// Reading.
    pub reading: ReadingMeasures,
    /// Relief.
    pub relief: ReliefMeasures,
    /// How hard it looks, 0 to 100.
    pub busyness: f64,
    /// Row by row.
    pub rows: Vec<RowMeasures>,
}

/// Measures a piece of work.
#[must_use]
pub fn measure(work: &Work<'_>) -> Measures {
    let mut rows = vec![RowMeasures::default(); work.rows.len()];
    colours::count(work, &mut rows);
    floats::find(work, &mut rows);
    reading::read(work, &mut rows);
    Measures {
        floats: floats::summarise(work, &rows),
        colours: colours::summarise(work, &rows),
        reading: reading::summarise(&rows),
        relief: relief::summarise(work, &rows),
        busyness: work.tiles.iter().map(busyness).fold(0.0, f64::max),
        rows,
    }
}

/// The largest mean over any 16 consecutive rows, over all rows if there are fewer, without wrapping.
fn mean_16(values: impl Iterator<Item = usize>) -> f64 {
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
fn mean(sum: usize, count: usize) -> f64 {
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
