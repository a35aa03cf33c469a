//! Edges of a picture: how much its light changes across and down, whatever shade it lies in.

use crate::trace::picture::Picture;
use crate::trace::plane::Place;

/// Added to a channel before its logarithm is taken, so that noise in the dark is no edge.
const DARK: f32 = 18.0;

/// An edge of this strength is one beyond doubt, however noisy the picture: light changed by a third.
const SURE: f32 = 0.28;

/// No edge counts for more than one of this strength: light that fell to less than half.
const BOLD: f32 = 0.9;

/// In a picture without noise, an edge of this strength is.
const CLEAN: f32 = 0.08;

/// Strength of edges across (of upright lines) and down (of level lines), from 0 to 1.
pub(super) struct Edges {
    pub(super) width: usize,
    pub(super) height: usize,
    /// For each family of lines, upright and level, its strengths.
    pub(super) maps: [Vec<f32>; 2],
    /// How much stronger than in `maps` an edge can be before it counts as the strongest.
    pub(super) bold: f32,
}

/// A point of an edge: where, and how strong.
#[derive(Clone, Copy, Debug)]
pub(super) struct Point {
    pub(super) x: f32,
    pub(super) y: f32,
    pub(super) weight: f32,
}

impl Edges {
    pub(super) fn of(picture: &Picture) -> Self {
        let (width, height) = (picture.width, picture.height);
        let table: Vec<f32> = (0..=255_u8).map(|v| (f32::from(v) + DARK).ln()).collect();
        let logs: Vec<[f32; 3]> = picture
            .pixels
            .iter()
            .map(|p| p.map(|c| table[usize::from(c)]))
            .collect();
        let logs = blurred(&logs, width, height);
        let mut maps = [vec![0.0; width * height], vec![0.0; width * height]];
        for y in 1..height.saturating_sub(1) {
            for x in 1..width.saturating_sub(1) {
                let at = y * width + x;
                let most = |a: [f32; 3], b: [f32; 3]| {
                    let each = a.iter().zip(b).map(|(a, b)| (a - b).abs());
                    each.fold(0.0, f32::max)
                };
                maps[0][at] = most(logs[at + 1], logs[at - 1]);
                maps[1][at] = most(logs[at + width], logs[at - width]);
            }
        }
        let floor = noise(&maps).max(0.02);
        let sure = (4.0 * floor).clamp(CLEAN, SURE);
        for map in &mut maps {
            for v in map.iter_mut() {
                *v = ((*v - floor) / sure).clamp(0.0, BOLD / sure);
            }
        }
        // What goes across is no edge that goes down.
        let [across, down] = &mut maps;
        for (a, d) in across.iter_mut().zip(down.iter_mut()) {
            let (was_a, was_d) = (*a, *d);
            if was_a < 0.5 * was_d {
                *a = 0.0;
            }
            if was_d < 0.5 * was_a {
                *d = 0.0;
            }
        }
        Self {
            width,
            height,
            maps,
            bold: BOLD / sure,
        }
    }

    /// Points of a family's edges, at most about so many, evenly thinned.
    pub(super) fn points(&self, family: usize, most: usize) -> Vec<Point> {
        let strong = |v: f32| v > 0.15;
        let count = self.maps[family].iter().filter(|v| strong(**v)).count();
        // A step without a common measure with the width of the picture, so that no column is left out.
        let each = (count / most.max(1)).max(1);
        let all = self.maps[family]
            .iter()
            .enumerate()
            .filter(|(_, v)| strong(**v));
        all.step_by(each)
            .map(|(at, weight)| Point {
                x: (at % self.width) as f32 + 0.5,
                y: (at / self.width) as f32 + 0.5,
                weight: weight.min(1.0),
            })
            .collect()
    }

    /// The strength of a family's edge at a place, between pixels.
    pub(super) fn at(&self, family: usize, [x, y]: Place) -> f32 {
        let (x, y) = (x - 0.5, y - 0.5);
        if x < 0.0 || y < 0.0 || x >= (self.width - 1) as f64 || y >= (self.height - 1) as f64 {
            return 0.0;
        }
        let (left, top) = (x as usize, y as usize);
        let (dx, dy) = ((x - left as f64) as f32, (y - top as f64) as f32);
        let map = &self.maps[family];
        let at = top * self.width + left;
        let upper = map[at] * (1.0 - dx) + map[at + 1] * dx;
        let lower = map[at + self.width] * (1.0 - dx) + map[at + self.width + 1] * dx;
        upper * (1.0 - dy) + lower * dy
    }
}

/// Each pixel with its neighbours, one, two, one: less noise and no harm to lines.
fn blurred(logs: &[[f32; 3]], width: usize, height: usize) -> Vec<[f32; 3]> {
    let mix = |a: [f32; 3], b: [f32; 3], c: [f32; 3]| {
        [0, 1, 2].map(|i| 0.25 * a[i] + 0.5 * b[i] + 0.25 * c[i])
    };
    let mut across = logs.to_vec();
    for y in 0..height {
        for x in 1..width.saturating_sub(1) {
            let at = y * width + x;
            across[at] = mix(logs[at - 1], logs[at], logs[at + 1]);
        }
    }
    let mut out = across.clone();
    for y in 1..height.saturating_sub(1) {
        for x in 0..width {
            let at = y * width + x;
            out[at] = mix(across[at - width], across[at], across[at + width]);
        }
    }
    out
}

/// What noise alone makes of an edge: twice the median strength, as most of a picture is no edge; never so much that lines
/// of a small chart were lost.
fn noise(maps: &[Vec<f32>; 2]) -> f32 {
    let mut bins = [0_usize; 256];
    for v in maps.iter().flatten() {
        bins[((v * 512.0) as usize).min(255)] += 1;
    }
    let half = bins.iter().sum::<usize>() / 2;
    let mut sum = 0;
    let median = bins.iter().position(|n| {
        sum += n;
        sum >= half
    });
    (2.0 * median.unwrap_or(0) as f32 / 512.0).min(0.12)
}
