//! How many colours at a time, how often they change, and how many ends are left to weave in.

use crate::rows::measure::row::{RowMeasures, changes_along, mean, mean_16};
use crate::rows::walk::Work;

/// A colour not used for more than this many rows is cut: its next use begins with a new end.
pub const CARRIED_ROWS: usize = 6;

/// Colours of a piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ColourMeasures {
    /// Colours in all.
    pub total: usize,
    /// Most in a row.
    pub most: usize,
    /// Mean of a row.
    pub mean: f64,
    /// Largest mean of 16 rows.
    pub mean_16: f64,
    /// Colour changes all round, of all rows.
    pub changes: usize,
    /// Ends: two for each stretch of use of each colour.
    pub ends: usize,
}

/// The colours of a row as a set of bits.
#[derive(Clone, Copy, Debug, Default)]
struct ColourSet([u64; 4]);

impl ColourSet {
    fn of(cells: &[u8]) -> Self {
        let mut set = [0_u64; 4];
        for &cell in cells {
            set[usize::from(cell >> 6)] |= 1 << (cell & 63);
        }
        Self(set)
    }

    fn len(self) -> usize {
        self.0.iter().map(|bits| bits.count_ones() as usize).sum()
    }

    fn iter(self) -> impl Iterator<Item = usize> {
        self.0.into_iter().enumerate().flat_map(|(word, mut bits)| {
            std::iter::from_fn(move || {
                let bit = bits.trailing_zeros() as usize;
                bits &= bits.checked_sub(1)?;
                Some(word * 64 + bit)
            })
        })
    }
}

/// Colours in all, and the stretches of rows in which each is used.
#[derive(Clone, Copy, Debug)]
pub(super) struct Uses {
    colours: usize,
    stretches: usize,
}

/// Counts colours and changes of each row.
pub(super) fn count(work: &Work<'_>, rows: &mut [RowMeasures]) -> Uses {
    let mut last_use = [None::<usize>; 256];
    let mut stretches = 0;
    for (index, (row, measures)) in work.rows.iter().zip(rows).enumerate() {
        let cells = work.cells(row);
        let colours = ColourSet::of(cells);
        measures.colours = colours.len();
        if measures.colours > 1 {
            measures.changes = runs(cells, row.closed) * row.repeats;
        }
        for colour in colours.iter() {
            let last = last_use[colour].replace(index);
            stretches += usize::from(last.is_none_or(|last| is_cut(last, index)));
        }
    }
    Uses {
        colours: last_use.iter().filter(|last| last.is_some()).count(),
        stretches,
    }
}

/// Runs of one colour in a line, or in a ring of at least two colours.
fn runs(cells: &[u8], closed: bool) -> usize {
    let inside = changes_along(cells);
    if closed {
        inside + usize::from(cells.first() != cells.last())
    } else {
        inside + 1
    }
}

pub(super) fn summarise(uses: Uses, rows: &[RowMeasures]) -> ColourMeasures {
    ColourMeasures {
        total: uses.colours,
        most: rows.iter().map(|row| row.colours).max().unwrap_or(0),
        mean: mean(rows.iter().map(|row| row.colours).sum(), rows.len()),
        mean_16: mean_16(rows.iter().map(|row| row.colours)),
        changes: rows.iter().map(|row| row.changes).sum(),
        ends: 2 * uses.stretches,
    }
}

/// Whether a colour that was used in one row, and then not before another, is cut between them.
#[must_use]
pub const fn is_cut(last: usize, next: usize) -> bool {
    next.saturating_sub(last) > CARRIED_ROWS + 1
}

/// A colour that is cut because it rests too long to be carried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cut {
    /// The colour.
    pub colour: u8,
    /// The last row before its rest, by its place in the work.
    pub after: usize,
    /// The row in which it is joined anew.
    pub again: usize,
}

/// Colours that are cut and joined anew, in the order in which they are cut.
#[must_use]
pub fn cuts(work: &Work<'_>) -> Vec<Cut> {
    let mut last_use = [None::<usize>; 256];
    let mut found = Vec::new();
    for (index, row) in work.rows.iter().enumerate() {
        for colour in ColourSet::of(work.cells(row)).iter() {
            let last = last_use[colour].replace(index);
            if let (Some(after), Ok(colour)) = (last, u8::try_from(colour))
                && is_cut(after, index)
            {
                found.push(Cut {
                    colour,
                    after,
                    again: index,
                });
            }
        }
    }
    found.sort_by_key(|cut| (cut.after, cut.colour));
    found
}
