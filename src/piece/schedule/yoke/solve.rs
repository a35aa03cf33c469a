//! The counts of the bands by dynamic programming.

use std::collections::VecDeque;

use crate::piece::schedule::multiple::Fit;
use crate::piece::schedule::yoke::layout::loss_at;
use crate::piece::schedule::yoke::{Loss, YokeBand, YokeWish};

/// One possible way up to the top of a band.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    /// Stitches in the band's first round, before any shaping in it.
    pub(super) count: usize,
    /// Stitches after its last round.
    pub(super) top: usize,
    /// Squared relative distance from the curve up to here, summed over the rounds of the bands.
    cost: f64,
    /// Index of the way beneath.
    from: usize,
}

/// For each band all the counts that can be reached, ascending; the first entry holds the joined rounds.
pub(super) type Reach = Vec<Vec<Way>>;

/// The fewest and the most stitches that may lie beneath `count` stitches.
pub(super) fn beneath(loss: Loss, count: usize) -> (usize, usize) {
    match loss {
        Loss::Keep => (count, count),
        Loss::Adjust => (count, 10 * count / 9),
        // Two fifths, rounded as the published rounds are: 134 stitches become 80.
        Loss::Decrease => (count, (10 * count).div_ceil(6)),
    }
}

/// Stitches of a band with this many repeats after each of its rounds.
pub(super) fn counts_in_band(
    fit: Fit,
    shaped: &[usize],
    rounds: usize,
    repeats: usize,
) -> Vec<usize> {
    let whole = fit.edges + fit.multiple * repeats;
    if shaped.is_empty() {
        return vec![whole; rounds];
    }
    let after = |live: &usize| fit.edges + live * repeats;
    shaped.iter().map(after).collect()
}

/// All ways up from these joined rounds, ascending, each with what it costs to begin there. `curve` holds the stitches wanted at each round of each band; an empty curve
/// costs nothing, which is enough to see what can be reached.
pub(super) fn reach(wish: &YokeWish, joined: &[(usize, f64)], curve: &[Vec<f64>]) -> Reach {
    let start = |(joined, cost): &(usize, f64)| Way {
        count: *joined,
        top: *joined,
        cost: *cost,
        from: 0,
    };
    let mut all: Reach = vec![joined.iter().map(start).collect()];
    for (at, band) in wish.bands.iter().enumerate() {
        let loss = loss_at(wish, at);
        let distance = Distance::new(curve.get(at).map_or(&[][..], Vec::as_slice));
        let ways = all.last().map_or(&[][..], Vec::as_slice);
        let most = ways.last().map_or(0, |way| way.top);
        let mut window = Window::new(ways);
        let mut next = Vec::new();
        for repeats in 1.. {
            let count = band.fit.edges + band.fit.multiple * repeats;
            if count > most {
                break;
            }
            let Some(from) = window.cheapest(beneath(loss, count)) else {
                continue;
            };
            let own = distance.of(band, repeats);
            let top = band
                .shaped
                .last()
                .map_or(count, |live| band.fit.edges + live * repeats);
            next.push(Way {
                count,
                top,
                cost: own + ways.get(from).map_or(0.0, |way| way.cost),
                from,
            });
        }
        all.push(next);
    }
    all
}

/// The squared relative distance of a band from what is wanted at its rounds.
struct Distance<'a> {
    wanted: &'a [f64],
    /// Σ 1 / w and Σ 1 / w²: a band that keeps its count c is n − 2 c Σ 1 / w + c² Σ 1 / w² away.
    inverse: f64,
    squared: f64,
}

impl<'a> Distance<'a> {
    fn new(wanted: &'a [f64]) -> Self {
        Self {
            wanted,
            inverse: wanted.iter().map(|w| 1.0 / w).sum(),
            squared: wanted.iter().map(|w| 1.0 / (w * w)).sum(),
        }
    }

    fn of(&self, band: &YokeBand, repeats: usize) -> f64 {
        if band.shaped.is_empty() {
            let count = (band.fit.edges + band.fit.multiple * repeats) as f64;
            let rounds = self.wanted.len() as f64;
            return (rounds - 2.0 * count * self.inverse + count * count * self.squared).max(0.0);
        }
        let counts = band
            .shaped
            .iter()
            .map(|live| band.fit.edges + live * repeats);
        let relative = |(count, wanted): (usize, &f64)| ((count as f64 - wanted) / wanted).powi(2);
        counts.zip(self.wanted).map(relative).sum()
    }
}

/// The cheapest way whose top lies between two bounds, both of which only grow.
struct Window<'a> {
    ways: &'a [Way],
    /// Ways inside, cheaper ones first; each is cheaper than all before its place in the row of ways.
    inside: VecDeque<usize>,
    next: usize,
}

impl<'a> Window<'a> {
    fn new(ways: &'a [Way]) -> Self {
        Self {
            ways,
            inside: VecDeque::new(),
            next: 0,
        }
    }

    fn cost(&self, index: usize) -> f64 {
        self.ways.get(index).map_or(f64::INFINITY, |way| way.cost)
    }

    /// Of equals the one with more stitches.
    fn cheapest(&mut self, (low, high): (usize, usize)) -> Option<usize> {
        while let Some(way) = self.ways.get(self.next).filter(|way| way.top <= high) {
            while self
                .inside
                .back()
                .is_some_and(|last| self.cost(*last) >= way.cost)
            {
                self.inside.pop_back();
            }
            self.inside.push_back(self.next);
            self.next += 1;
        }
        let gone = |index: &usize| self.ways.get(*index).is_none_or(|way| way.top < low);
        while self.inside.front().is_some_and(gone) {
            self.inside.pop_front();
        }
        self.inside.front().copied()
    }
}

/// Whether some way ends in `neck` stitches.
pub(super) fn reaches(wish: &YokeWish, reach: &Reach, neck: usize) -> bool {
    last_way(wish, reach, neck).is_some()
}

fn last_way(wish: &YokeWish, reach: &Reach, neck: usize) -> Option<usize> {
    let ways = reach.last()?;
    Window::new(ways).cheapest(beneath(loss_at(wish, wish.bands.len()), neck))
}

/// The cheapest way to `neck` stitches, one entry for the joined round and for each band, and its cost.
pub(super) fn cheapest(wish: &YokeWish, reach: &Reach, neck: usize) -> Option<(Vec<Way>, f64)> {
    let mut index = last_way(wish, reach, neck)?;
    let cost = reach.last()?.get(index)?.cost;
    let mut ways = Vec::with_capacity(reach.len());
    for band in reach.iter().rev() {
        let way = band.get(index)?;
        ways.push(*way);
        index = way.from;
    }
    ways.reverse();
    Some((ways, cost))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::units::{Gauge, Length};
    use crate::piece::schedule::yoke::Percentages;

    fn wish(bands: Vec<YokeBand>, neck_loss: Loss) -> YokeWish {
        YokeWish {
            chest: Length::mm(500.0),
            ease: Length::mm(0.0),
            head: None,
            neck_base: None,
            armhole: None,
            upper_sleeve: None,
            wrist: None,
            wrist_ease: Length::mm(40.0),
            plain: Gauge::BARE_CHART,
            colourwork: Gauge::BARE_CHART,
            percentages: Percentages::KNITTING_AROUND,
            bands,
            plain_before_neck: 1,
            neck_loss,
            rib: 1,
            clear: None,
        }
    }

    /// The smallest cost by trying every count of every band.
    fn by_trying(
        wish: &YokeWish,
        at: usize,
        beneath: usize,
        neck: usize,
        curve: &[Vec<f64>],
    ) -> Option<f64> {
        let may = |next: usize| match loss_at(wish, at) {
            Loss::Keep => next == beneath,
            Loss::Adjust => next <= beneath && 10 * next >= 9 * beneath,
            Loss::Decrease => next <= beneath && 10 * next + 5 >= 6 * beneath,
        };
        let Some(band) = wish.bands.get(at) else {
            return may(neck).then_some(0.0);
        };
        let all = (1..=beneath).filter(|count| band.fit.holds(*count) && may(*count));
        let costs = all.filter_map(|count| {
            let repeats = band.fit.repeats(count)?;
            let counts = counts_in_band(band.fit, &band.shaped, band.rounds, repeats);
            let pairs = counts.iter().zip(&curve[at]);
            let own: f64 = pairs.map(|(c, w)| ((*c as f64 - w) / w).powi(2)).sum();
            Some(own + by_trying(wish, at + 1, *counts.last()?, neck, curve)?)
        });
        costs.reduce(f64::min)
    }

    #[test]
    fn nothing_is_cheaper_than_what_is_found() {
        let mut seed = 7_u64;
        let mut random = |n: usize| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            (seed >> 33) as usize % n
        };
        let losses = [Loss::Keep, Loss::Adjust, Loss::Decrease, Loss::Decrease];
        let mut reached = 0;
        for _ in 0..400 {
            let mut bands = Vec::new();
            for _ in 0..1 + random(4) {
                let multiple = 1 + random(12);
                let rounds = 1 + random(3);
                let shaped = if multiple > 3 && random(3) == 0 {
                    (0..rounds).map(|i| multiple - 1 - i.min(1)).collect()
                } else {
                    Vec::new()
                };
                bands.push(YokeBand {
                    plain_before: random(3),
                    loss: losses[random(4)],
                    rounds,
                    fit: Fit {
                        multiple,
                        edges: random(3),
                    },
                    shaped,
                    plain: false,
                });
            }
            let wish = wish(bands, losses[random(4)]);
            let joined = 30 + random(60);
            let neck = 10 + random(joined - 10);
            let curve: Vec<Vec<f64>> = wish
                .bands
                .iter()
                .map(|band| {
                    (0..band.rounds)
                        .map(|_| (neck + random(joined)) as f64)
                        .collect()
                })
                .collect();
            let found = cheapest(&wish, &reach(&wish, &[(joined, 0.0)], &curve), neck);
            let tried = by_trying(&wish, 0, joined, neck, &curve);
            assert_eq!(found.is_some(), tried.is_some());
            if let (Some((_, found)), Some(tried)) = (found, tried) {
                assert!((found - tried).abs() < 1e-9);
                reached += 1;
            }
        }
        assert!(reached > 50, "{reached}");
    }
}
