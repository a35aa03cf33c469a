//! Bundles of lines: the direction in which the edges of a picture fall upon each other, and how they run together.
//!
//! The upright lines of a sheet seen aslant meet in one point; so the one that passes the middle of the picture at `a` has the
//! slope `lean + fan · a`. Of all leans and fans, those are right for which the edges, slid along such lines on to the middle
//! of the picture, lie in the fewest places.

use crate::trace::edges::{Edges, Point};

/// The most that lines lean, in pixels to a pixel: fifteen degrees.
const LEAN: f64 = 0.27;

/// The most that slopes differ from one side of the picture to the other.
const FAN: f64 = 0.36;

/// The most steps uphill at one fineness.
const STEPS: usize = 16;

/// How lines of a family lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bundle {
    /// Slope in the middle.
    pub(super) lean: f64,
    /// How slopes change, to a pixel.
    pub(super) fan: f64,
}

/// Points seen from the middle: across the lines, and along them.
struct Seen {
    points: Vec<(f32, f32, f32)>,
    /// Half of the picture, across the lines.
    half: f64,
    /// Half of it along them.
    reach: f64,
}

impl Bundle {
    /// The bundle of a family, 0 for upright lines and 1 for level ones.
    pub(super) fn of(edges: &Edges, family: usize) -> Self {
        let seen = |most: usize| {
            let middle = [edges.width as f32 / 2.0, edges.height as f32 / 2.0];
            let points = edges.points(family, most).into_iter();
            let turned = |p: Point| match family {
                0 => (p.x - middle[0], p.y - middle[1], p.weight),
                _ => (p.y - middle[1], p.x - middle[0], p.weight),
            };
            let [half, reach] = match family {
                0 => middle,
                _ => [middle[1], middle[0]],
            };
            Seen {
                points: points.map(turned).collect(),
                half: f64::from(half),
                reach: f64::from(reach),
            }
        };
        let few = seen(6_000);
        if few.points.is_empty() {
            return Self {
                lean: 0.0,
                fan: 0.0,
            };
        }
        // All leans and fans, so finely that a line is smeared over two of the bins at most.
        let bin = (few.half.max(few.reach) / 200.0).max(1.0);
        let step = 1.6 * bin / few.reach.max(1.0);
        let leans = (LEAN / step).ceil() as i32;
        let fans = (FAN / 2.0 / step).ceil() as i32;
        let mut best: Vec<(f64, Self)> = Vec::new();
        for lean in -leans..=leans {
            for fan in -fans..=fans {
                let bundle = Self {
                    lean: f64::from(lean) * step,
                    fan: f64::from(fan) * step / few.half.max(1.0),
                };
                best.push((bundle.sharpness(&few, bin), bundle));
            }
        }
        best.sort_by(|a, b| b.0.total_cmp(&a.0));
        // The best of them, and those that are not its neighbours, made finer.
        let mut starts: Vec<Self> = Vec::new();
        for (_, bundle) in best {
            let near = |other: &Self| {
                (other.lean - bundle.lean).abs() < 2.5 * step
                    && (other.fan - bundle.fan).abs() * few.half < 2.5 * step
            };
            if starts.len() < 3 && !starts.iter().any(near) {
                starts.push(bundle);
            }
        }
        let many = seen(30_000);
        let finest = starts.into_iter().map(|start| {
            let mut here = start;
            let mut score = 0.0;
            let (mut bin, mut step) = (bin / 2.0, step / 2.0);
            while step * many.reach > 0.2 {
                let bins = bin.max(0.75);
                score = here.sharpness(&many, bins);
                for _ in 0..STEPS {
                    let tries = [(1, 0), (-1, 0), (0, 1), (0, -1)].map(|(l, f)| Self {
                        lean: here.lean + f64::from(l) * step,
                        fan: here.fan + f64::from(f) * step / many.half,
                    });
                    let scored = tries.map(|b| (b.sharpness(&many, bins), b));
                    let better = scored.into_iter().max_by(|a, b| a.0.total_cmp(&b.0));
                    match better {
                        Some((s, b)) if s > score * (1.0 + 1e-9) => (score, here) = (s, b),
                        _ => break,
                    }
                }
                (bin, step) = (bin / 2.0, step / 2.0);
            }
            (score, here)
        });
        let best = finest.max_by(|a, b| a.0.total_cmp(&b.0));
        best.map_or(
            Self {
                lean: 0.0,
                fan: 0.0,
            },
            |(_, bundle)| bundle,
        )
    }

    /// How few places the edges lie in, once they are slid on to the middle.
    fn sharpness(&self, seen: &Seen, bin: f64) -> f64 {
        let bins = (2.4 * seen.half / bin) as usize + 2;
        let mut sums = vec![0.0_f32; bins + 1];
        let (lean, fan) = (self.lean as f32, self.fan as f32);
        let (from, per) = (1.2 * seen.half as f32, 1.0 / bin as f32);
        for (across, along, weight) in &seen.points {
            let a = (across - lean * along) / (1.0 + fan * along);
            let place = (a + from) * per;
            if place >= 0.0 && place < bins as f32 {
                let left = place as usize;
                let share = place - left as f32;
                sums[left] += weight * (1.0 - share);
                sums[left + 1] += weight * share;
            }
        }
        let all: f64 = sums.iter().map(|v| f64::from(*v)).sum();
        let squares: f64 = sums.iter().map(|v| f64::from(v * v)).sum();
        squares / (all * all).max(1e-9)
    }
}
