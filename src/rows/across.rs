//! Several things side by side in one round: how often each stands there, and the joined row.

use crate::course::chart::Mark;
use crate::course::{Across, AcrossPart};
use crate::ground::units::nearest_at_least;
use crate::rows::drawn::columns_worked;

/// A stitch of a joined row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Joined {
    /// Index of the lesson's yarn.
    pub yarn: usize,
    /// What is done.
    pub mark: Mark,
}

/// Rows of the tallest part.
#[must_use]
pub fn height(parts: &[AcrossPart]) -> usize {
    parts.iter().map(AcrossPart::rows).max().unwrap_or(0)
}

/// How often each part stands in a round of so many stitches; a part that fills takes what the others leave.
#[must_use]
pub fn times(parts: &[AcrossPart], round: f64) -> Vec<usize> {
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

/// The stitches of joined row `row`, parts joined from the right, shorter ones repeated upwards; columns in which no
/// stitch stands are among them.
#[must_use]
pub fn row(parts: &[AcrossPart], times: &[usize], row: usize) -> Vec<Joined> {
    let tallest = height(parts);
    let mut line = Vec::new();
    for (part, &times) in parts.iter().zip(times) {
        match part {
            AcrossPart::Plain { stitches, yarn } => {
                let stitch = Joined {
                    yarn: *yarn,
                    mark: Mark::Plain,
                };
                line.extend(std::iter::repeat_n(stitch, *stitches));
            }
            AcrossPart::Chart(what, _) => {
                let chart_row =
                    row_of_part(what.chart.height, &what.chart.repeat_rows, row, tallest);
                line.extend(columns_worked(&what.chart, times).map(|column| Joined {
                    yarn: what.yarn_at(chart_row, column),
                    mark: what.chart.mark(chart_row, column),
                }));
            }
        }
    }
    line
}

/// The row of a part's chart in joined row `row`: as drawn in the tallest part, else its repeat again and again.
fn row_of_part(
    height: usize,
    repeat: &std::ops::Range<usize>,
    row: usize,
    tallest: usize,
) -> usize {
    if height == tallest || row < repeat.start {
        return row.min(height.saturating_sub(1));
    }
    repeat.start + (row - repeat.start) % repeat.len().max(1)
}
