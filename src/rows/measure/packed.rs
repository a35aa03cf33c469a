//! Words of the exhaustive history of a text over few letters, packed into machine words.
//!
//! The longest earlier match of what follows is looked for among the places that begin with the same few letters; where
//! there is none, the two nearest of the beginnings seen, in the order of their letters, share most with it. Both are a
//! handful of machine instructions, several times faster than the automaton. Texts on
//! which the search would turn quadratic are given up and left to the automaton, which never does.

use std::ops::Range;

/// Longest text, in letters: several times the most cells that a chart may have.
const LONGEST: usize = 4_000_000;
/// Machine words compared, for each letter of the text, before the search is given up.
const PATIENCE: usize = 6;
/// End of a chain of places.
const END: u32 = u32::MAX;

/// Bits of a beginning: about as many beginnings as letters, so that few places share one. Letters take 1, 2 or 4 bits, of
/// which each divides these.
fn bits_of_beginning(letters: usize) -> usize {
    match letters {
        0..=30_000 => 12,
        30_001..=200_000 => 16,
        _ => 20,
    }
}

/// The number of words; `None` when the text does not suit this way.
pub(super) fn words(text: &[u8]) -> Option<usize> {
    let (letters, count) = numbered(text);
    let bits = match count {
        0..=2 => 1,
        3..=4 => 2,
        5..=16 => 4,
        _ => return None,
    };
    if text.len() > LONGEST {
        return None;
    }
    let packed = pack(text, &letters, bits);
    let n = text.len();
    let head = bits_of_beginning(n);
    let mut seen = Seen::new(n, head);
    let mut patience = PATIENCE * n;
    let (mut at, mut added, mut words) = (0, 0, 0);
    while at < n {
        seen.add(&packed, added..at, bits);
        added = at;
        let start = beginning(&packed, at * bits, head);
        let mut longest = 0;
        let mut place = seen.first[start];
        if place == END {
            longest = seen.shared(start) / bits;
        }
        while place != END {
            let before = place as usize;
            let shared = shared_bits(&packed, before * bits, at * bits, n * bits);
            patience = patience.checked_sub(1 + shared / 64)?;
            longest = longest.max(shared / bits);
            if at + longest >= n {
                break;
            }
            place = seen.next[before];
        }
        words += 1;
        at += longest + 1;
    }
    Some(words)
}

/// The letters of a text numbered from 0 in the order they come, and how many there are.
fn numbered(text: &[u8]) -> ([u8; 256], usize) {
    let mut numbers = [u8::MAX; 256];
    let mut count = 0_usize;
    for &c in text {
        let place = &mut numbers[usize::from(c)];
        if *place == u8::MAX && count < 255 {
            *place = u8::try_from(count).unwrap_or(u8::MAX);
            count += 1;
        }
    }
    (numbers, count)
}

/// The letters, `bits` bits each, the first at the top of the first machine word; two more words at the end.
fn pack(text: &[u8], letters: &[u8; 256], bits: usize) -> Vec<u64> {
    let each = 64 / bits;
    let mut packed = Vec::with_capacity(text.len() / each + 3);
    for chunk in text.chunks(each) {
        let mut word = 0;
        for &c in chunk {
            word = word << bits | u64::from(letters[usize::from(c)]);
        }
        packed.push(word << (bits * (each - chunk.len())));
    }
    packed.extend([0, 0]);
    packed
}

/// 64 bits from bit `at` on.
fn window(packed: &[u64], at: usize) -> u64 {
    let (word, shift) = (at / 64, at % 64);
    let high = packed[word] << shift;
    // A shift by 64 is no shift in this language, so by one and by the rest.
    high | (packed[word + 1] >> 1) >> (63 - shift)
}

/// The first `bits` bits from bit `at` on.
fn beginning(packed: &[u64], at: usize, bits: usize) -> usize {
    (window(packed, at) >> (64 - bits)) as usize
}

/// How many bits from `a` and from `b` on are equal, up to the end of the text after `b`, the later of the two.
fn shared_bits(packed: &[u64], a: usize, b: usize, end: usize) -> usize {
    let mut shared = 0;
    while b + shared < end {
        let differ = window(packed, a + shared) ^ window(packed, b + shared);
        if differ != 0 {
            return (shared + differ.leading_zeros() as usize).min(end - b);
        }
        shared += 64;
    }
    end - b
}

/// The beginnings seen, with their places.
struct Seen {
    /// Bits of a beginning.
    bits: usize,
    first: Vec<u32>,
    next: Vec<u32>,
    /// One bit for each beginning, so that neighbours are found by counting zeros.
    present: Vec<u64>,
}

impl Seen {
    fn new(n: usize, bits: usize) -> Self {
        Self {
            bits,
            first: vec![END; 1 << bits],
            next: vec![END; n],
            present: vec![0; (1 << bits) / 64],
        }
    }

    /// Adds the beginnings at these places, each letter of so many bits.
    fn add(&mut self, packed: &[u64], places: Range<usize>, bits: usize) {
        let shift = 64 - self.bits;
        let (first, present) = (self.first.as_mut_slice(), self.present.as_mut_slice());
        let new = self.next.get_mut(places.clone()).unwrap_or_default();
        for (place, next) in places.zip(new) {
            let beginning = (window(packed, place * bits) >> shift) as usize;
            // Below LONGEST, which fits.
            *next = std::mem::replace(&mut first[beginning], place as u32);
            present[beginning / 64] |= 1 << (beginning % 64);
        }
    }

    /// Most leading bits that a beginning seen shares with this one, which is not among them.
    fn shared(&self, beginning: usize) -> usize {
        let with = |other: usize| {
            let differ = (beginning ^ other) as u32;
            self.bits
                .saturating_sub((u32::BITS - differ.leading_zeros()) as usize)
        };
        let (word, bit) = (beginning / 64, beginning % 64);
        let below = self.present[word] & ((1 << bit) - 1);
        let below = if below != 0 {
            Some(word * 64 + below.ilog2() as usize)
        } else {
            let mut words = self.present[..word].iter().enumerate().rev();
            words
                .find(|(_, bits)| **bits != 0)
                .map(|(word, bits)| word * 64 + bits.ilog2() as usize)
        };
        let above = self.present[word] & !((1 << bit) | ((1 << bit) - 1));
        let above = if above != 0 {
            Some(word * 64 + above.trailing_zeros() as usize)
        } else {
            let mut words = self.present.iter().enumerate().skip(word + 1);
            words
                .find(|(_, bits)| **bits != 0)
                .map(|(word, bits)| word * 64 + bits.trailing_zeros() as usize)
        };
        below.map_or(0, with).max(above.map_or(0, with))
    }
}
