//! Lempel-Ziv complexity (1976) in near-linear time.
//!
//! The exhaustive history cuts a string into words, each the shortest that does not occur in what lies before its own
//! last letter (Lempel & Ziv, IEEE Trans. Inf. Theory 22, 75-81). A suffix automaton that grows letter by letter
//! answers "does it occur" in constant time, so the whole costs one pass.

use crate::rows::measure::packed;

/// No such transition.
const NONE: u32 = u32::MAX;

/// Words of the exhaustive history of `text`; an unfinished last word counts.
///
/// ```
/// assert_eq!(yokeward::rows::measure::lempel_ziv(b"0001101001000101"), 6);
/// assert_eq!(yokeward::rows::measure::lempel_ziv(b""), 0);
/// ```
#[must_use]
pub fn lempel_ziv(text: &[u8]) -> usize {
    let mut dense = [u8::MAX; 256];
    let mut letters = 0_usize;
    for &c in text {
        let place = &mut dense[usize::from(c)];
        if *place == u8::MAX && letters < 255 {
            *place = u8::try_from(letters).unwrap_or(u8::MAX);
            letters += 1;
        }
    }
    if let Some(words) = packed::words(text, &dense, letters) {
        return words;
    }
    let word = |c: u8| usize::from(dense[usize::from(c)]);
    match letters {
        0 | 1 => letters + usize::from(text.len() > 1),
        2 => count(text.iter().map(|&c| word(c)), Dense::<2>::new(text.len())),
        3 => count(text.iter().map(|&c| word(c)), Dense::<3>::new(text.len())),
        4 => count(text.iter().map(|&c| word(c)), Dense::<4>::new(text.len())),
        5..=8 => count(text.iter().map(|&c| word(c)), Dense::<8>::new(text.len())),
        _ => count(text.iter().map(|&c| word(c)), Sparse::new(text.len())),
    }
}

/// States of the automaton and their transitions.
trait States {
    fn next(&self, state: u32, letter: usize) -> u32;
    fn set(&mut self, state: u32, letter: usize, to: u32);
    fn push(&mut self, length: u32, link: u32) -> u32;
    /// A new state with the transitions of `of`.
    fn copy(&mut self, of: u32, length: u32) -> u32;
    fn length(&self, state: u32) -> u32;
    fn link(&self, state: u32) -> u32;
    fn relink(&mut self, state: u32, link: u32);
}

fn count<S: States>(text: impl Iterator<Item = usize>, mut states: S) -> usize {
    let root = states.push(0, NONE);
    let mut last = root;
    let (mut at, mut length) = (root, 0_u32);
    let mut words = 0;
    for letter in text {
        let to = states.next(at, letter);
        if to == NONE {
            words += 1;
            (at, length) = (root, 0);
        } else {
            at = to;
            length += 1;
        }
        last = extend(&mut states, last, letter);
        // A split may have moved the current word into the shorter of two states.
        while at != root && states.length(states.link(at)) >= length {
            at = states.link(at);
        }
    }
    words + usize::from(length > 0)
}

/// Adds a letter to the automaton; returns the state of the whole text so far.
fn extend<S: States>(states: &mut S, last: u32, letter: usize) -> u32 {
    let new = states.push(states.length(last) + 1, NONE);
    let mut from = last;
    while from != NONE && states.next(from, letter) == NONE {
        states.set(from, letter, new);
        from = states.link(from);
    }
    if from == NONE {
        states.relink(new, 0);
        return new;
    }
    let to = states.next(from, letter);
    if states.length(to) == states.length(from) + 1 {
        states.relink(new, to);
        return new;
    }
    let split = states.copy(to, states.length(from) + 1);
    states.relink(to, split);
    states.relink(new, split);
    while from != NONE && states.next(from, letter) == to {
        states.set(from, letter, split);
        from = states.link(from);
    }
    new
}

/// A state with room for every letter.
#[derive(Clone, Copy)]
struct Wide<const K: usize> {
    next: [u32; K],
    length: u32,
    link: u32,
}

struct Dense<const K: usize>(Vec<Wide<K>>);

impl<const K: usize> Dense<K> {
    fn new(letters: usize) -> Self {
        Self(Vec::with_capacity(2 * letters + 1))
    }
}

/// The number of a new state. Texts are at most a few million cells, far below 2³².
fn number(len: usize) -> u32 {
    u32::try_from(len).unwrap_or(NONE)
}

impl<const K: usize> States for Dense<K> {
    fn next(&self, state: u32, letter: usize) -> u32 {
        self.0[state as usize].next[letter]
    }
    fn set(&mut self, state: u32, letter: usize, to: u32) {
        self.0[state as usize].next[letter] = to;
    }
    fn push(&mut self, length: u32, link: u32) -> u32 {
        self.0.push(Wide {
            next: [NONE; K],
            length,
            link,
        });
        number(self.0.len() - 1)
    }
    fn copy(&mut self, of: u32, length: u32) -> u32 {
        let copied = Wide {
            length,
            ..self.0[of as usize]
        };
        self.0.push(copied);
        number(self.0.len() - 1)
    }
    fn length(&self, state: u32) -> u32 {
        self.0[state as usize].length
    }
    fn link(&self, state: u32) -> u32 {
        self.0[state as usize].link
    }
    fn relink(&mut self, state: u32, link: u32) {
        self.0[state as usize].link = link;
    }
}

/// States whose transitions are chained lists: for charts of many colours, where room for every letter is wasteful.
struct Sparse {
    states: Vec<(u32, u32, u32)>,
    edges: Vec<(usize, u32, u32)>,
}

impl Sparse {
    fn new(letters: usize) -> Self {
        Self {
            states: Vec::with_capacity(2 * letters + 1),
            edges: Vec::with_capacity(3 * letters),
        }
    }

    fn edge(&self, state: u32, letter: usize) -> Option<usize> {
        let mut edge = self.states[state as usize].2;
        while edge != NONE {
            if self.edges[edge as usize].0 == letter {
                return Some(edge as usize);
            }
            edge = self.edges[edge as usize].2;
        }
        None
    }
}

impl States for Sparse {
    fn next(&self, state: u32, letter: usize) -> u32 {
        self.edge(state, letter)
            .map_or(NONE, |edge| self.edges[edge].1)
    }
    fn set(&mut self, state: u32, letter: usize, to: u32) {
        if let Some(edge) = self.edge(state, letter) {
            self.edges[edge].1 = to;
            return;
        }
        let head = &mut self.states[state as usize].2;
        self.edges.push((letter, to, *head));
        *head = number(self.edges.len() - 1);
    }
    fn push(&mut self, length: u32, link: u32) -> u32 {
        self.states.push((length, link, NONE));
        number(self.states.len() - 1)
    }
    fn copy(&mut self, of: u32, length: u32) -> u32 {
        let (_, link, mut edge) = self.states[of as usize];
        let new = self.push(length, link);
        while edge != NONE {
            let (letter, to, next) = self.edges[edge as usize];
            self.set(new, letter, to);
            edge = next;
        }
        new
    }
    fn length(&self, state: u32) -> u32 {
        self.states[state as usize].0
    }
    fn link(&self, state: u32) -> u32 {
        self.states[state as usize].1
    }
    fn relink(&mut self, state: u32, link: u32) {
        self.states[state as usize].1 = link;
    }
}
