//! How much the chart must be looked at.
//!
//! Working memory holds about four chunks (Cowan 2001, Behavioral and Brain Sciences 24): a unit of g groups of four
//! is by heart after g turns, so it costs g looks in each of the first g units of a round.

use std::collections::HashMap;

use crate::rows::measure::row::{RowMeasures, mean, mean_16};
use crate::rows::walk::{Row, Work};

/// Chunks that are kept in mind at once.
const CHUNKS_IN_MIND: usize = 4;

/// Reading of a piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ReadingMeasures {
    /// Mean looks a row.
    pub looks_mean: f64,
    /// Largest mean of 16 rows.
    pub looks_16: f64,
    /// Most looks in a row.
    pub looks_most: usize,
    /// Most chunks in a row.
    pub chunks_most: usize,
}

/// A row as it is compared with others.
#[derive(Clone, Copy)]
struct Seen<'a> {
    cells: &'a [u8],
    unit: &'a [u8],
    closed: bool,
    colours: usize,
}

impl<'a> Seen<'a> {
    /// What two rows are compared by: rows of one width whole, others by their units.
    fn against(self, other: Seen<'a>) -> (&'a [u8], &'a [u8]) {
        if self.cells.len() == other.cells.len() {
            (self.cells, other.cells)
        } else {
            (self.unit, other.unit)
        }
    }

    fn equals(self, other: Seen<'a>) -> bool {
        let (a, b) = self.against(other);
        a == b
    }

    /// The other row moved one stitch sideways, either way round the ring.
    fn is_shifted(self, other: Seen<'a>) -> bool {
        let (a, b) = self.against(other);
        let turned = |a: &[u8], b: &[u8]| match (a.split_first(), b.split_last()) {
            (Some((first, rest)), Some((last, most))) => first == last && rest == most,
            _ => false,
        };
        self.closed && other.closed && a.len() == b.len() && (turned(a, b) || turned(b, a))
    }

    /// The other row with its two colours swapped.
    fn is_swapped(self, other: Seen<'a>) -> bool {
        let (a, b) = self.against(other);
        let pair = |row: &[u8]| {
            let low = row.iter().min().copied();
            (low, row.iter().max().copied())
        };
        self.colours == 2
            && other.colours == 2
            && a.len() == b.len()
            && a.iter().zip(b).all(|(x, y)| x != y)
            && pair(a) == pair(b)
    }
}

impl Seen<'_> {
    /// Whether its unit reads the same both ways: a ring about some axis, a line from end to end.
    fn is_mirrored(self) -> bool {
        if !self.closed {
            return self.unit.iter().eq(self.unit.iter().rev());
        }
        if self.unit.len() <= SHORT_UNIT {
            return has_axis(self.unit);
        }
        let backwards: Vec<u8> = self.unit.iter().rev().copied().collect();
        let twice = [self.unit, self.unit].concat();
        holds(&twice, &backwards)
    }
}

/// Units up to so many cells are turned as the bits of a machine word, which is faster than a search.
const SHORT_UNIT: usize = 64;

/// Whether a ring of at most 64 cells reads the same both ways about some axis: turned by some stitches it is itself from
/// the end.
fn has_axis(ring: &[u8]) -> bool {
    let length = ring.len();
    let Some(first) = ring.first() else {
        return true;
    };
    // Where the first colour stands, and where it stands from the end.
    let (mut there, mut back) = (0_u64, 0_u64);
    for (i, cell) in ring.iter().enumerate() {
        let is = u64::from(cell == first);
        there |= is << i;
        back |= is << (length - 1 - i);
    }
    let whole = u64::MAX >> (64 - length);
    (0..length).any(|by| {
        // A shift by 64 is no shift in this language, so by one and by the rest.
        let turned = (there >> by | there << 1 << (length - 1 - by)) & whole;
        turned == back && {
            let turned = ring.iter().cycle().skip(by);
            turned.zip(ring.iter().rev()).all(|(a, b)| a == b)
        }
    })
}

/// Whether `part` stands somewhere in `text` (Knuth, Morris & Pratt, SIAM J. Comput. 6 (1977), 323-350: one pass).
fn holds(text: &[u8], part: &[u8]) -> bool {
    // For each beginning of the part: how long its longest other beginning is that it ends with.
    let mut border = vec![0_usize; part.len()];
    let mut length = 0;
    for i in 1..part.len() {
        while length > 0 && part.get(i) != part.get(length) {
            length = border[length - 1];
        }
        length += usize::from(part.get(i) == part.get(length));
        border[i] = length;
    }
    let mut met = 0;
    for cell in text {
        while met > 0 && (met == part.len() || part.get(met) != Some(cell)) {
            met = border[met - 1];
        }
        met += usize::from(part.get(met) == Some(cell));
        if met == part.len() {
            return true;
        }
    }
    part.is_empty()
}

/// Rows worked so far.
#[derive(Default)]
struct History<'a> {
    whole: HashMap<&'a [u8], usize>,
    /// Whether rows of several widths are worked, so that units must be compared, too.
    mixed: bool,
    units: HashMap<&'a [u8], Vec<(usize, usize)>>,
}

impl<'a> History<'a> {
    /// Adds a row; says how often it was worked before.
    fn work(&mut self, row: Seen<'a>) -> usize {
        let same_width = self.whole.entry(row.cells).or_default();
        let before = *same_width;
        *same_width += 1;
        if !self.mixed {
            return before;
        }
        let widths = self.units.entry(row.unit).or_default();
        let (mut others, mut known) = (0, false);
        for (width, count) in widths.iter_mut() {
            if *width == row.cells.len() {
                *count += 1;
                known = true;
            } else {
                others += *count;
            }
        }
        if !known {
            widths.push((row.cells.len(), 1));
        }
        before + others
    }
}

/// Reads each row as a maker does, from the bottom up.
pub(super) fn read(work: &Work<'_>, rows: &mut [RowMeasures]) {
    let see = |row: &Row, colours: usize| {
        let cells = work.cells(row);
        let period = if row.closed {
            cyclic_period(cells)
        } else {
            cells.len()
        };
        Seen {
            cells,
            unit: cells.get(..period).unwrap_or(cells),
            closed: row.closed,
            colours,
        }
    };
    let seen: Vec<Seen<'_>> = work
        .rows
        .iter()
        .zip(rows.iter())
        .map(|(row, m)| see(row, m.colours))
        .collect();
    let width = seen.first().map_or(0, |row| row.cells.len());
    let mut history = History {
        whole: HashMap::with_capacity(seen.len()),
        mixed: seen.iter().any(|row| row.cells.len() != width),
        ..History::default()
    };
    for (index, (row, measures)) in work.rows.iter().zip(rows.iter_mut()).enumerate() {
        let Some(&this) = seen.get(index) else {
            continue;
        };
        if measures.colours < 2 {
            measures.chunks = 1;
            continue;
        }
        let units_in_row = this.cells.len() / this.unit.len().max(1);
        let runs = measures.changes / row.repeats.max(1);
        measures.chunks = runs / units_in_row.max(1);
        let beneath = match index.checked_sub(1) {
            Some(below) => seen.get(below),
            None if work.cyclic => seen.last(),
            None => None,
        };
        let times = history.work(this);
        measures.learn = match beneath {
            Some(&beneath) if this.equals(beneath) => 0,
            _ if times >= 2 => 1,
            Some(&beneath) if this.is_shifted(beneath) || this.is_swapped(beneath) => 1,
            _ => {
                // A mirrored row is read to its middle and back.
                let chunks = if this.is_mirrored() {
                    measures.chunks / 2 + 1
                } else {
                    measures.chunks
                };
                if times == 1 {
                    chunks.div_ceil(2)
                } else {
                    chunks
                }
            }
        };
        let groups = measures.learn.div_ceil(CHUNKS_IN_MIND);
        measures.looks = groups * groups.min(row.repeats * units_in_row);
    }
}

/// The smallest shift that leaves a ring as it is; it divides the ring.
fn cyclic_period(cells: &[u8]) -> usize {
    let length = cells.len();
    (1..=length / 2)
        .filter(|period| length.is_multiple_of(*period))
        .find(|period| cells.get(*period..) == cells.get(..length - period))
        .unwrap_or(length)
}

pub(super) fn summarise(rows: &[RowMeasures]) -> ReadingMeasures {
    ReadingMeasures {
        looks_mean: mean(rows.iter().map(|row| row.looks).sum(), rows.len()),
        looks_16: mean_16(rows.iter().map(|row| row.looks)),
        looks_most: rows.iter().map(|row| row.looks).max().unwrap_or(0),
        chunks_most: rows.iter().map(|row| row.chunks).max().unwrap_or(0),
    }
}

#[cfg(test)]
mod tests {
    use super::{cyclic_period, has_axis, holds};

    #[test]
    fn parts_are_found_as_a_plain_search_finds_them() {
        let texts = ["", "a", "ab", "aabaab", "abababac", "aaaaab"];
        for (text, part) in texts.iter().flat_map(|t| texts.iter().map(move |p| (t, p))) {
            assert_eq!(holds(text.as_bytes(), part.as_bytes()), text.contains(part));
        }
    }

    #[test]
    fn an_axis_is_found_as_the_search_finds_it() {
        for length in 1..9_u32 {
            for bits in 0..3_u32.pow(length) {
                let ring: Vec<u8> = (0..length)
                    .map(|i| (bits / 3_u32.pow(i) % 3) as u8)
                    .collect();
                let backwards: Vec<u8> = ring.iter().rev().copied().collect();
                let found = holds(&[ring.as_slice(), &ring].concat(), &backwards);
                assert_eq!(has_axis(&ring), found, "{ring:?}");
            }
        }
    }

    #[test]
    fn periods_divide_the_ring() {
        let period = |text: &str| cyclic_period(text.as_bytes());
        assert_eq!(period("abab"), 2);
        assert_eq!(period("aaaa"), 1);
        assert_eq!(period("aabaa"), 5);
        assert_eq!(period("abcabc"), 3);
    }
}
