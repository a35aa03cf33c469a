//! Rest: rows of one colour between the stranded ones.

use crate::rows::measure::row::{RowMeasures, mean};
use crate::rows::walk::Work;

/// A stretch without end counts as this many rows: a chart that repeats upwards and never rests.
const ENDLESS: usize = 24;
/// Of each run of relief rows this many count as rest.
const RESTFUL: usize = 3;

/// Relief of a piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ReliefMeasures {
    /// Rows of one colour.
    pub rows: usize,
    /// Rows of two or more colours.
    pub stranded: usize,
    /// Restful rows among restful and stranded ones.
    pub share: f64,
    /// Most rows on end without relief.
    pub stretch: usize,
}

pub(super) fn summarise(work: &Work<'_>, rows: &[RowMeasures]) -> ReliefMeasures {
    let relief: Vec<bool> = rows.iter().map(|row| row.colours < 2).collect();
    let count = relief.iter().filter(|&&is| is).count();
    let restful: usize = run_lengths(&relief, true, work.cyclic)
        .iter()
        .map(|run| run.min(&RESTFUL))
        .sum();
    let stranded = rows.len() - count;
    let longest = run_lengths(&relief, false, work.cyclic)
        .into_iter()
        .max()
        .unwrap_or(0);
    ReliefMeasures {
        rows: count,
        stranded,
        share: mean(restful, restful + stranded),
        stretch: if work.cyclic && count == 0 && stranded > 0 {
            ENDLESS
        } else {
            longest
        },
    }
}

/// Lengths of the runs of `wanted`; with `cyclic` a run over the end goes on at the start.
fn run_lengths(values: &[bool], wanted: bool, cyclic: bool) -> Vec<usize> {
    let mut runs: Vec<usize> = Vec::new();
    let mut inside = false;
    for &value in values {
        match (value == wanted, inside) {
            (true, true) => {
                if let Some(last) = runs.last_mut() {
                    *last += 1;
                }
            }
            (true, false) => runs.push(1),
            _ => {}
        }
        inside = value == wanted;
    }
    let wraps = cyclic
        && runs.len() > 1
        && values.first() == Some(&wanted)
        && values.last() == Some(&wanted);
    if wraps && let Some(last) = runs.pop() {
        runs[0] += last;
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::run_lengths;

    #[test]
    fn runs_join_over_the_end_of_a_ring() {
        let values = [true, false, true, true];
        assert_eq!(run_lengths(&values, true, true), [3]);
        assert_eq!(run_lengths(&values, true, false), [1, 2]);
        assert_eq!(run_lengths(&[true, true], true, true), [2]);
    }
}
