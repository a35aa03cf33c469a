//! Dice that fall the same every time, and the map from a picture to its chart; and how much of it was read right.

use std::collections::BTreeMap;

/// Numbers that look random and are always the same (SplitMix64, by Steele, Lea and Flood, 2014).
#[derive(Clone, Debug)]
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From `low` to `high`.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// One of `count`.
    pub(crate) fn one_of(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    pub(crate) fn chance(&mut self, share: f64) -> bool {
        self.between(0.0, 1.0) < share
    }
}

/// The map from four corners to a chart, solved by elimination.
pub(super) fn to_chart(corners: &[[f64; 2]; 4], width: f64, height: f64) -> [[f64; 3]; 3] {
    let targets = [[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]];
    let mut m = vec![vec![0.0; 9]; 8];
    for (i, ([x, y], [u, v])) in corners.iter().zip(targets).enumerate() {
        m[2 * i] = vec![*x, *y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y, u];
        m[2 * i + 1] = vec![0.0, 0.0, 0.0, *x, *y, 1.0, -v * x, -v * y, v];
    }
    for i in 0..8 {
        let pivot = (i..8)
            .max_by(|&a, &b| m[a][i].abs().total_cmp(&m[b][i].abs()))
            .unwrap();
        m.swap(i, pivot);
        for r in 0..8 {
            if r != i {
                let share = m[r][i] / m[i][i];
                let own = m[i].clone();
                m[r].iter_mut().zip(own).for_each(|(x, o)| *x -= share * o);
            }
        }
    }
    let h: Vec<f64> = (0..8).map(|i| m[i][8] / m[i][i]).collect();
    [[h[0], h[1], h[2]], [h[3], h[4], h[5]], [h[6], h[7], 1.0]]
}

/// How many cells of a chart are as drawn, its colours matched with those that were read.
pub(crate) fn right(read: &[u8], drawn: &[u8]) -> usize {
    let mut pairs: BTreeMap<(u8, u8), usize> = BTreeMap::new();
    for (a, b) in read.iter().zip(drawn) {
        *pairs.entry((*a, *b)).or_default() += 1;
    }
    let mut pairs: Vec<((u8, u8), usize)> = pairs.into_iter().collect();
    pairs.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    let (mut read, mut drawn, mut sum) = (Vec::new(), Vec::new(), 0);
    for ((a, b), count) in pairs {
        if !read.contains(&a) && !drawn.contains(&b) {
            read.push(a);
            drawn.push(b);
            sum += count;
        }
    }
    sum
}
