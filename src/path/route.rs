//! The way to a goal through a library: the smallest possible largest step, then the fewest stops.
//!
//! The first is exact: whatever can be reached with steps of at most b is found by always taking the smallest step, for
//! the reason that holds for the order of a course. The second is a search by number of stops through all states worth
//! keeping; while none had to be dropped for want of room, its answer is proven.

use std::collections::BTreeMap;

use crate::course::Weights;
use crate::path::{State, technique_points};
use crate::rows::grade::{Demand, is_of_doorstep};

/// A thing that the way may lead through.
#[derive(Clone, Debug)]
pub struct Stop<'a> {
    /// What it asks.
    pub demand: &'a Demand,
    /// Stops (by index) that must come first.
    pub needs: Vec<usize>,
}

/// A step on the way, as far as a budget sees it.
#[derive(Clone, Copy, Debug)]
pub struct Stride {
    /// Points.
    pub size: f64,
    /// New techniques.
    pub techniques: usize,
    /// Whether it is the first that brings two colours.
    pub doorstep: bool,
}

/// A way to the goal, which is its last stop.
#[derive(Clone, Debug, PartialEq)]
pub struct Route {
    /// Stops in order, by index.
    pub stops: Vec<usize>,
    /// Whether fewer stops are proven impossible.
    pub proven: bool,
}

/// Most states kept for each number of stops.
const MOST_STATES: usize = 400;
/// Forgiven when two steps are compared: sums of the same points in another order.
const SLACK: f64 = 1e-9;

/// The stops in numbers: techniques as bits, and after them one bit for each stop that another one needs.
pub struct Map {
    weights: Weights,
    parts: Vec<[f64; 5]>,
    gives: Vec<Bits>,
    needs: Vec<Bits>,
    technique_words: usize,
    /// Of each technique's bit.
    points: Vec<f64>,
    two_colours: Bits,
    start: Place,
}

type Bits = Box<[u64]>;

#[derive(Clone, PartialEq)]
struct Place {
    parts: [f64; 5],
    bits: Bits,
}

impl Map {
    /// A map of `stops`, starting at `state` with the stops of `done` behind.
    #[must_use]
    pub fn new(stops: &[Stop<'_>], state: &State, done: &[bool], weights: Weights) -> Self {
        let mut names: BTreeMap<&str, usize> = BTreeMap::new();
        let all = stops.iter().flat_map(|stop| &stop.demand.techniques);
        for name in all.chain(&state.techniques) {
            let next = names.len();
            names.entry(name).or_insert(next);
        }
        let technique_words = names.len().div_ceil(64);
        let mut points = vec![0.0; names.len()];
        for (name, &bit) in &names {
            if let Some(place) = points.get_mut(bit) {
                *place = technique_points(name);
            }
        }
        let mut needed: BTreeMap<usize, usize> = BTreeMap::new();
        for need in stops.iter().flat_map(|stop| &stop.needs) {
            let next = technique_words * 64 + needed.len();
            needed.entry(*need).or_insert(next);
        }
        let words = technique_words + needed.len().div_ceil(64);
        let set = |bits: &mut Bits, bit: usize| {
            if let Some(word) = bits.get_mut(bit / 64) {
                *word |= 1 << (bit % 64);
            }
        };
        let empty = || vec![0_u64; words].into_boxed_slice();
        let techniques = |demand: &std::collections::BTreeSet<String>| {
            let mut bits = empty();
            for name in demand {
                if let Some(&bit) = names.get(name.as_str()) {
                    set(&mut bits, bit);
                }
            }
            bits
        };
        let mut start = Place {
            parts: state.parts,
            bits: techniques(&state.techniques),
        };
        let (mut gives, mut needs) = (Vec::new(), Vec::new());
        for (i, stop) in stops.iter().enumerate() {
            let mut give = techniques(&stop.demand.techniques);
            if let Some(&bit) = needed.get(&i) {
                set(&mut give, bit);
                if done.get(i) == Some(&true) {
                    set(&mut start.bits, bit);
                }
            }
            gives.push(give);
            let mut need = empty();
            for bit in stop.needs.iter().filter_map(|n| needed.get(n)) {
                set(&mut need, *bit);
            }
            needs.push(need);
        }
        let mut two_colours = empty();
        for (_, &bit) in names.iter().filter(|(name, _)| is_of_doorstep(name)) {
            set(&mut two_colours, bit);
        }
        Self {
            weights,
            parts: stops.iter().map(|stop| stop.demand.parts).collect(),
            gives,
            needs,
            technique_words,
            points,
            two_colours,
            start,
        }
    }

    /// The step to a stop, if it is open.
    fn stride(&self, place: &Place, stop: usize) -> Option<Stride> {
        let need = self.needs.get(stop)?;
        if need.iter().zip(&*place.bits).any(|(n, b)| n & !b != 0) {
            return None;
        }
        let parts = self.parts.get(stop)?;
        let asked = self.weights.0.iter().zip(parts.iter().zip(&place.parts));
        let size: f64 = asked
            .map(|(weight, (part, met))| weight * (part - met).max(0.0))
            .sum();
        let gives = self.gives.get(stop)?;
        let fresh = gives.iter().zip(&*place.bits).map(|(g, b)| g & !b);
        let (points, techniques) = self.points_of(fresh);
        let has = |bits: &Bits| {
            let mut both = bits.iter().zip(&*self.two_colours);
            both.any(|(bits, two)| bits & two != 0)
        };
        let doorstep = has(gives) && !has(&place.bits);
        Some(Stride {
            size: size + points,
            techniques,
            doorstep,
        })
    }

    /// Points and number of the techniques among these bits.
    fn points_of(&self, bits: impl Iterator<Item = u64>) -> (f64, usize) {
        let (mut points, mut number) = (0.0, 0);
        for (at, mut word) in bits.take(self.technique_words).enumerate() {
            while word != 0 {
                let bit = at * 64 + word.trailing_zeros() as usize;
                points += self.points.get(bit).copied().unwrap_or(0.0);
                number += 1;
                word &= word - 1;
            }
        }
        (points, number)
    }

    fn after(&self, place: &Place, stop: usize) -> Place {
        let mut next = place.clone();
        if let (Some(parts), Some(gives)) = (self.parts.get(stop), self.gives.get(stop)) {
            for (met, asked) in next.parts.iter_mut().zip(parts) {
                *met = met.max(*asked);
            }
            for (met, given) in next.bits.iter_mut().zip(&**gives) {
                *met |= given;
            }
        }
        next
    }

    /// The smallest possible largest step of any way to the goal; `None` when it can never be open.
    #[must_use]
    pub fn smallest_largest(&self, goal: usize) -> Option<f64> {
        let mut place = self.start.clone();
        let mut left: Vec<usize> = (0..self.parts.len()).collect();
        let mut largest: f64 = 0.0;
        loop {
            let open = left
                .iter()
                .filter_map(|&i| Some((self.stride(&place, i)?.size, i)));
            let (size, next) = open.min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)))?;
            largest = largest.max(size);
            if let Some(stride) = self.stride(&place, goal)
                && stride.size <= largest
            {
                return Some(largest);
            }
            left.retain(|&i| i != next);
            place = self.after(&place, next);
        }
    }

    /// The fewest stops to the goal by steps that are `allowed`.
    #[must_use]
    pub fn shortest(&self, goal: usize, allowed: &dyn Fn(Stride) -> bool) -> Option<Route> {
        let mut level: Vec<(Place, Vec<usize>)> = vec![(self.start.clone(), Vec::new())];
        let mut seen: Vec<Place> = Vec::new();
        let mut proven = true;
        loop {
            let arrived = level
                .iter()
                .find(|(place, _)| self.stride(place, goal).is_some_and(allowed));
            if let Some((_, stops)) = arrived {
                let mut stops = stops.clone();
                stops.push(goal);
                return Some(Route { stops, proven });
            }
            seen.extend(level.iter().map(|(place, _)| place.clone()));
            // Only numbers until it is known which are wanted: most are not.
            let mut next: Vec<(f64, usize, usize)> = Vec::new();
            for (from, (place, _)) in level.iter().enumerate() {
                for stop in (0..self.parts.len()).filter(|stop| *stop != goal) {
                    let open = self.stride(place, stop).is_some_and(allowed);
                    if open && self.grows(place, stop) {
                        next.push((self.distance(place, stop, goal), from, stop));
                    }
                }
            }
            next.sort_by(|a, b| a.0.total_cmp(&b.0).then((a.1, a.2).cmp(&(b.1, b.2))));
            let mut kept: Vec<(Place, Vec<usize>)> = Vec::new();
            for (_, from, stop) in next {
                let Some((before, stops)) = level.get(from) else {
                    continue;
                };
                let place = self.after(before, stop);
                let better = |other: &Place| covers(other, &place);
                if kept.iter().any(|(other, _)| better(other)) || seen.iter().any(better) {
                    continue;
                }
                if kept.len() == MOST_STATES {
                    proven = false;
                    break;
                }
                let mut stops = stops.clone();
                stops.push(stop);
                kept.push((place, stops));
            }
            if kept.is_empty() {
                return None;
            }
            // What has more of everything makes the rest needless, whichever was found first.
            let needless = |i: usize| {
                kept.iter().enumerate().any(|(j, (other, _))| {
                    kept.get(i).is_some_and(|(place, _)| {
                        j != i && covers(other, place) && *other != *place
                    })
                })
            };
            let keep: Vec<bool> = (0..kept.len()).map(|i| !needless(i)).collect();
            level = kept
                .into_iter()
                .zip(keep)
                .filter_map(|(state, keep)| keep.then_some(state))
                .collect();
        }
    }

    /// Whether a stop adds anything.
    fn grows(&self, place: &Place, stop: usize) -> bool {
        let parts = self.parts.get(stop).into_iter().flatten();
        let bits = self.gives.get(stop).into_iter().flat_map(|bits| &**bits);
        parts.zip(&place.parts).any(|(asked, met)| asked > met)
            || bits.zip(&*place.bits).any(|(give, has)| give & !has != 0)
    }

    /// The step that the goal would be after a stop, open or not, and one more for each stop it still needs: how
    /// promising the stop is.
    fn distance(&self, place: &Place, stop: usize, goal: usize) -> f64 {
        let (Some(parts), Some(gives)) = (self.parts.get(stop), self.gives.get(stop)) else {
            return f64::MAX;
        };
        let (Some(asked), Some(wanted), Some(needs)) = (
            self.parts.get(goal),
            self.gives.get(goal),
            self.needs.get(goal),
        ) else {
            return f64::MAX;
        };
        let mut far = 0.0;
        for i in 0..5 {
            far += self.weights.0[i] * (asked[i] - place.parts[i].max(parts[i])).max(0.0);
        }
        let open = || {
            place
                .bits
                .iter()
                .zip(&**gives)
                .map(|(has, gives)| !(has | gives))
        };
        let (points, _) = self.points_of(wanted.iter().zip(open()).map(|(w, open)| w & open));
        let needs = needs
            .iter()
            .zip(open())
            .map(|(n, open)| (n & open).count_ones());
        far + points + f64::from(needs.sum::<u32>())
    }
}

/// The route with the smallest possible largest step and, of those, the fewest stops found.
#[must_use]
pub fn route(map: &Map, goal: usize) -> Option<(Route, f64)> {
    let largest = map.smallest_largest(goal)?;
    let route = map.shortest(goal, &|stride| stride.size <= largest + SLACK)?;
    Some((route, largest))
}

/// Whether `a` has met all that `b` has.
fn covers(a: &Place, b: &Place) -> bool {
    a.parts.iter().zip(&b.parts).all(|(a, b)| a >= b)
        && a.bits.iter().zip(&*b.bits).all(|(a, b)| b & !a == 0)
}
