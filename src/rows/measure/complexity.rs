//! Lempel-Ziv complexity (1976) in near-linear time.
//!
//! The exhaustive history cuts a string into words, each the shortest that does not occur in what lies before its own
//! last letter (Lempel & Ziv, IEEE Trans. Inf. Theory 22, 75-81). Texts over few letters, which charts are, go the
//! fast way of `packed`. Every other text, and one on which that way would be slow, goes the plain way: a suffix
//! automaton that grows letter by letter answers "does it occur" at once, so the whole costs one pass.

use crate::rows::measure::packed;

/// No such transition, no such state.
const NONE: u32 = u32::MAX;

/// Words of the exhaustive history of `text`; an unfinished last word counts.
///
/// ```
/// assert_eq!(yokeward::rows::measure::lempel_ziv(b"0001101001000101"), 6);
/// assert_eq!(yokeward::rows::measure::lempel_ziv(b""), 0);
/// ```
#[must_use]
pub fn lempel_ziv(text: &[u8]) -> usize {
    packed::words(text).unwrap_or_else(|| plain(text))
}

/// The same by the automaton.
fn plain(text: &[u8]) -> usize {
    let mut automaton = Automaton::new(text.len());
    let (mut last, mut at, mut length) = (0, 0, 0_u32);
    let mut words = 0;
    for &letter in text {
        match automaton.next(at, letter) {
            NONE => {
                words += 1;
                (at, length) = (0, 0);
            }
            to => {
                at = to;
                length += 1;
            }
        }
        last = automaton.extend(last, letter);
        // A split may have moved the current word into the shorter of two states.
        while at != 0 && automaton.state(automaton.state(at).link).length >= length {
            at = automaton.state(at).link;
        }
    }
    words + usize::from(length > 0)
}

/// A state: the longest text that leads to it, the state of its longest suffix that is another one, its transitions.
#[derive(Clone, Copy)]
struct State {
    length: u32,
    link: u32,
    /// The first of its transitions in the list of all.
    edge: u32,
}

/// A suffix automaton (Blumer et al., Theoretical Computer Science 40 (1985), 31-55); state 0 is the empty text.
struct Automaton {
    states: Vec<State>,
    /// Letter, target, the next transition of the same state.
    edges: Vec<(u8, u32, u32)>,
}

/// The number of a new state or transition. Texts are at most a few million cells, far below 2³².
fn number(len: usize) -> u32 {
    u32::try_from(len).unwrap_or(NONE)
}

impl Automaton {
    fn new(letters: usize) -> Self {
        let mut automaton = Self {
            states: Vec::with_capacity(2 * letters + 1),
            edges: Vec::with_capacity(3 * letters),
        };
        automaton.push(0, NONE);
        automaton
    }

    fn state(&self, state: u32) -> State {
        self.states[state as usize]
    }

    fn push(&mut self, length: u32, link: u32) -> u32 {
        self.states.push(State {
            length,
            link,
            edge: NONE,
        });
        number(self.states.len() - 1)
    }

    /// Place of a transition in the list; `None` where there is none.
    fn edge(&self, state: u32, letter: u8) -> Option<usize> {
        let mut edge = self.state(state).edge;
        while let Some(&(own, _, next)) = self.edges.get(edge as usize) {
            if own == letter {
                return Some(edge as usize);
            }
            edge = next;
        }
        None
    }

    fn next(&self, state: u32, letter: u8) -> u32 {
        self.edge(state, letter)
            .map_or(NONE, |edge| self.edges[edge].1)
    }

    fn set(&mut self, state: u32, letter: u8, to: u32) {
        if let Some(edge) = self.edge(state, letter) {
            self.edges[edge].1 = to;
            return;
        }
        let head = &mut self.states[state as usize].edge;
        self.edges.push((letter, to, *head));
        *head = number(self.edges.len() - 1);
    }

    /// Adds a letter; returns the state of the whole text so far.
    fn extend(&mut self, last: u32, letter: u8) -> u32 {
        let new = self.push(self.state(last).length + 1, 0);
        let mut from = last;
        while from != NONE && self.next(from, letter) == NONE {
            self.set(from, letter, new);
            from = self.state(from).link;
        }
        if from == NONE {
            return new;
        }
        let to = self.next(from, letter);
        let length = self.state(from).length + 1;
        if self.state(to).length == length {
            self.states[new as usize].link = to;
            return new;
        }
        let split = self.copy(to, length);
        self.states[to as usize].link = split;
        self.states[new as usize].link = split;
        while from != NONE && self.next(from, letter) == to {
            self.set(from, letter, split);
            from = self.state(from).link;
        }
        new
    }

    /// A shorter state with the transitions of `of`.
    fn copy(&mut self, of: u32, length: u32) -> u32 {
        let State { link, mut edge, .. } = self.state(of);
        let new = self.push(length, link);
        while let Some(&(letter, to, next)) = self.edges.get(edge as usize) {
            self.set(new, letter, to);
            edge = next;
        }
        new
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Both ways count the same, on texts that the fast one takes and on those it gives up.
    #[test]
    fn the_plain_way_counts_as_the_fast_one() {
        let mut state = 7_u64;
        for letters in [2, 3, 5, 16] {
            for length in [1, 2, 30, 500, 33_000] {
                let text: Vec<u8> = (0..length)
                    .map(|_| {
                        state = state
                            .wrapping_mul(6_364_136_223_846_793_005)
                            .wrapping_add(1);
                        (state >> 40) as u8 % letters
                    })
                    .collect();
                if let Some(words) = packed::words(&text) {
                    assert_eq!(plain(&text), words, "{text:?}");
                }
            }
        }
        // More letters than it packs are not its business.
        assert!(packed::words(&(0..40).collect::<Vec<u8>>()).is_none());
        assert_eq!(plain(&vec![0; 40_000]), 2);
    }
}
