//! Counted thread: no rows are worked. Areas of one colour are filled one after another, and the thread travels behind
//! the cloth from each to the next.

use std::collections::VecDeque;

use crate::course::CLOTH;
use crate::ground::units::{Length, Number};
use crate::rows::walk::{Row, Work};

/// A thread travels no further behind the cloth. Common practice names 6 to 13 mm.
pub const FURTHEST: Length = Length::mm(12.0);
/// Reading is counting in squares of so many crosses each way, as they are printed with a heavier line.
pub const SQUARE: usize = 10;

/// The cloth with what is stitched on it.
#[derive(Clone, Debug)]
pub struct Field {
    /// Squares across.
    pub width: usize,
    /// Squares up.
    pub height: usize,
    /// Row by row from the bottom, each from the right; nothing where the cloth is bare.
    cells: Vec<Option<u8>>,
}

/// A square, from the right and from the bottom, both from 0.
pub type Square = (usize, usize);

impl Field {
    /// Of all rows of a lesson, its repeats side by side.
    #[must_use]
    pub fn of(work: &Work<'_>) -> Self {
        let bare = work.colours.iter().position(|role| role == CLOTH);
        let wide = |row: &Row| work.cells(row).len() * row.repeats;
        let width = work.rows.iter().map(wide).max().unwrap_or(0);
        let mut cells = vec![None; width * work.rows.len()];
        for (row, line) in work.rows.iter().zip(cells.chunks_mut(width.max(1))) {
            let stitched = work.cells(row);
            let places = line.iter_mut().take(wide(row));
            for (place, cell) in places.zip(stitched.iter().cycle()) {
                *place = Some(*cell).filter(|cell| Some(usize::from(*cell)) != bare);
            }
        }
        Self {
            width,
            height: work.rows.len(),
            cells,
        }
    }

    /// The colour of a square; nothing where the cloth is bare, or beyond it.
    #[must_use]
    pub fn at(&self, (x, y): Square) -> Option<u8> {
        if x >= self.width {
            return None;
        }
        self.cells.get(y * self.width + x).copied().flatten()
    }

    /// Squares that are stitched.
    #[must_use]
    pub fn crosses(&self) -> usize {
        self.cells.iter().flatten().count()
    }

    fn squares(&self) -> impl Iterator<Item = Square> + '_ {
        (0..self.height).flat_map(|y| (0..self.width).map(move |x| (x, y)))
    }

    /// Squares round one, its corners among them.
    fn around(&self, (x, y): Square, reach: usize) -> impl Iterator<Item = Square> + use<> {
        let (left, right) = (x.saturating_sub(reach), (x + reach + 1).min(self.width));
        let (low, high) = (y.saturating_sub(reach), (y + reach + 1).min(self.height));
        (low..high).flat_map(move |y| (left..right).map(move |x| (x, y)))
    }

    /// Areas of one colour, by the place of each square; squares that touch with a corner are one.
    fn areas(&self) -> Vec<Vec<Square>> {
        let mut seen = vec![false; self.cells.len()];
        let mut areas = Vec::new();
        for start in self.squares() {
            let Some(colour) = self.at(start) else {
                continue;
            };
            if std::mem::replace(&mut seen[start.1 * self.width + start.0], true) {
                continue;
            }
            let (mut area, mut next) = (vec![start], 0);
            while let Some(&square) = area.get(next) {
                next += 1;
                for other in self.around(square, 1) {
                    let place = other.1 * self.width + other.0;
                    if self.at(other) == Some(colour) && !std::mem::replace(&mut seen[place], true)
                    {
                        area.push(other);
                    }
                }
            }
            areas.push(area);
        }
        areas
    }

    /// Whether everything between two squares is stitched, so that a thread behind it does not show.
    #[must_use]
    pub fn is_covered(&self, from: Square, to: Square) -> bool {
        let steps = from.0.abs_diff(to.0).max(from.1.abs_diff(to.1));
        let at = |a: usize, b: usize, step: usize| {
            // Half up, in whole numbers.
            (a * (steps - step) * 2 + b * step * 2 + steps) / (steps * 2)
        };
        (1..steps).all(|step| {
            let between = (at(from.0, to.0, step), at(from.1, to.1, step));
            self.at(between).is_some()
        })
    }

    /// Squared distance of a square from the middle, in quarter squares.
    fn off_middle(&self, (x, y): Square) -> usize {
        let off = |at: usize, size: usize| (2 * at + 1).abs_diff(size).pow(2);
        off(x, self.width) + off(y, self.height)
    }

    /// Areas of colour in each square of ten by ten crosses: their mean over the squares that hold any, and the most.
    #[must_use]
    pub fn blocks(&self) -> (f64, usize) {
        let mut counts = Vec::new();
        for y in (0..self.height).step_by(SQUARE) {
            for x in (0..self.width).step_by(SQUARE) {
                let part = self.part((x, y));
                let count = part.areas().len();
                counts.extend((count > 0).then_some(count));
            }
        }
        let most = counts.iter().copied().max().unwrap_or(0);
        let sum: usize = counts.iter().sum();
        (sum as f64 / counts.len().max(1) as f64, most)
    }

    fn part(&self, (left, low): Square) -> Self {
        let width = SQUARE.min(self.width - left);
        let height = SQUARE.min(self.height - low);
        let squares = (low..low + height).flat_map(|y| (left..left + width).map(move |x| (x, y)));
        Self {
            width,
            height,
            cells: squares.map(|square| self.at(square)).collect(),
        }
    }
}

/// How far a thread runs free behind the cloth between two squares, in squares: 0 between such as touch.
#[must_use]
pub fn gap(from: Square, to: Square) -> f64 {
    let apart = |a: usize, b: usize| a.abs_diff(b).saturating_sub(1) as f64;
    apart(from.0, to.0).hypot(apart(from.1, to.1))
}

/// A thread begun anew.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Start {
    /// Row of the first square, from the bottom.
    pub row: Number,
    /// Its place in the row, from the right.
    pub stitch: Number,
    /// Crosses until it ends.
    pub crosses: usize,
}

/// A way of the thread from one area to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Travel {
    /// The thread.
    pub colour: u8,
    /// Where it leaves.
    pub from: Square,
    /// Where it comes up again.
    pub to: Square,
}

/// How one colour is stitched.
#[derive(Clone, Debug, PartialEq)]
pub struct Thread {
    /// The colour.
    pub colour: u8,
    /// Crosses in all.
    pub crosses: usize,
    /// Where it is begun, in order.
    pub starts: Vec<Start>,
}

/// Colours in the order of their numbers, and all travels.
#[must_use]
pub fn route(field: &Field, pitch: Length) -> (Vec<Thread>, Vec<Travel>) {
    let reach = FURTHEST.to_mm() / pitch.to_mm();
    let areas = field.areas();
    let mut area_of = vec![usize::MAX; field.cells.len()];
    for (number, area) in areas.iter().enumerate() {
        for (x, y) in area {
            area_of[y * field.width + x] = number;
        }
    }
    let mut done = vec![false; areas.len()];
    let (mut threads, mut travels) = (Vec::<Thread>::new(), Vec::new());
    // Areas by colour, those nearest to the middle first: where a thread is begun.
    let nearest = |area: &[Square]| area.iter().map(|square| field.off_middle(*square)).min();
    let mut order: Vec<usize> = (0..areas.len()).collect();
    order.sort_by_key(|&n| {
        let first = areas[n].first().copied().unwrap_or_default();
        (field.at(first), nearest(&areas[n]), n)
    });
    let mut left: VecDeque<usize> = order.into();
    let mut last: Option<(u8, Square)> = None;
    while let Some(first) = left.pop_front() {
        if done[first] {
            continue;
        }
        let at = |area: &[Square]| {
            let square = area.iter().copied();
            square.min_by_key(|square| (field.off_middle(*square), square.1, square.0))
        };
        let Some(colour) = areas[first].first().and_then(|square| field.at(*square)) else {
            continue;
        };
        // The first of a colour lies nearest to the middle, each later one nearest to where the last thread ended.
        let begun = match last.filter(|(other, _)| *other == colour) {
            Some((_, end)) if left.len() < FEW => {
                left.push_front(first);
                let same = |n: &usize| !done[*n] && field.at(areas[*n][0]) == Some(colour);
                let far = |n: usize| {
                    let squares = areas[n].iter();
                    squares.map(|square| squared(*square, end)).min()
                };
                let each = left.iter().copied().filter(same);
                each.min_by_key(|n| (far(*n), *n)).unwrap_or(first)
            }
            _ => first,
        };
        done[begun] = true;
        let at = at(&areas[begun]).unwrap_or_default();
        let (mut here, mut crosses) = (begun, areas[begun].len());
        let mut end = at;
        while let Some(travel) = next(field, (&areas[here], colour), (&area_of, &done), reach) {
            here = area_of[travel.to.1 * field.width + travel.to.0];
            done[here] = true;
            crosses += areas[here].len();
            end = travel.to;
            travels.push(travel);
        }
        last = Some((colour, end));
        let start = Start {
            row: Number::of_index(at.1),
            stitch: Number::of_index(at.0),
            crosses,
        };
        match threads.last_mut() {
            Some(thread) if thread.colour == colour => {
                thread.crosses += crosses;
                thread.starts.push(start);
            }
            _ => threads.push(Thread {
                colour,
                crosses,
                starts: vec![start],
            }),
        }
    }
    (threads, travels)
}

/// Areas up to which the nearest is looked for when a thread is begun anew; of more the next from the middle is taken.
const FEW: usize = 2000;

fn squared(a: Square, b: Square) -> usize {
    a.0.abs_diff(b.0).pow(2) + a.1.abs_diff(b.1).pow(2)
}

/// The shortest way from an area to another of its colour that is not yet done, within reach and behind stitches.
fn next(
    field: &Field,
    (area, colour): (&[Square], u8),
    (area_of, done): (&[usize], &[bool]),
    reach: f64,
) -> Option<Travel> {
    let window = reach.floor() as usize + 1;
    let mut best: Option<(f64, Travel)> = None;
    for &from in area {
        for to in field.around(from, window) {
            let place = to.1 * field.width + to.0;
            if field.at(to) != Some(colour) || done[area_of[place]] {
                continue;
            }
            let far = gap(from, to);
            let better = best.is_none_or(|(least, _)| far < least);
            if far <= reach && better && field.is_covered(from, to) {
                best = Some((far, Travel { colour, from, to }));
            }
        }
    }
    best.map(|(_, travel)| travel)
}
