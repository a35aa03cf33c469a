//! Rows of a chart as they are drawn: which stitches stand, which rows are of one colour, and in which order columns and
//! rows are worked. Whoever wants to know one of these asks here.

use crate::course::chart::{Chart, Mark, Worked};

/// Whether a stitch stands at a place; columns and rows from 0.
#[must_use]
pub fn stands(chart: &Chart, row: usize, column: usize) -> bool {
    chart.mark(row, column) != Mark::NoStitch
}

/// The columns of a row in which stitches stand, from the right.
pub fn columns_standing(chart: &Chart, row: usize) -> impl Iterator<Item = usize> + Clone + '_ {
    (0..chart.width).filter(move |&column| stands(chart, row, column))
}

/// The inks of a row's stitches, from the right.
pub fn stitches(chart: &Chart, row: usize) -> impl Iterator<Item = u8> + Clone + '_ {
    columns_standing(chart, row).filter_map(move |column| chart.row(row).get(column).copied())
}

/// The one ink of a row of one colour; `None` for a row of more, or of no stitch.
#[must_use]
pub fn one_colour(chart: &Chart, row: usize) -> Option<u8> {
    let mut inks = stitches(chart, row);
    let first = inks.next()?;
    inks.all(|ink| ink == first).then_some(first)
}

/// Whether the rows of a chart are rings when it is worked so: always in the round; flat only a declared repeat without
/// edges.
#[must_use]
pub fn is_closed(chart: &Chart, worked: Worked) -> bool {
    worked == Worked::Round || (chart.declares_stitches && !chart.has_edges())
}

/// Columns in the order in which one row works them: right edge, the repeat so many times, left edge.
pub fn columns_worked(chart: &Chart, repeats: usize) -> impl Iterator<Item = usize> + '_ {
    around(chart.repeat_stitches.clone(), repeats, chart.width)
}

/// Rows in the order of work when the repeat is worked so many times: what stands beneath it, the repeat again and again,
/// what stands above it.
pub fn rows_worked(chart: &Chart, times: usize) -> impl Iterator<Item = usize> + '_ {
    around(chart.repeat_rows.clone(), times, chart.height)
}

/// How many rows that makes.
#[must_use]
pub fn count_worked(chart: &Chart, times: usize) -> usize {
    rows_worked(chart, times).count()
}

fn around(repeat: std::ops::Range<usize>, times: usize, all: usize) -> impl Iterator<Item = usize> {
    let again = std::iter::repeat_n(repeat.clone(), times).flatten();
    (0..repeat.start).chain(again).chain(repeat.end..all)
}

#[cfg(test)]
mod tests {
    use super::around;

    #[test]
    fn edges_are_worked_once_and_what_lies_between_again() {
        assert_eq!(around(1..3, 2, 4).collect::<Vec<_>>(), [0, 1, 2, 1, 2, 3]);
        assert_eq!(around(0..2, 3, 2).collect::<Vec<_>>(), [0, 1, 0, 1, 0, 1]);
    }
}
