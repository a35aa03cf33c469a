//! What is seen of each cell: the middle of it, whatever lines, strokes and marks cross it.

use crate::ground::colour::linear;
use crate::trace::picture::Picture;
use crate::trace::plane::Plane;

/// How much of a cell is looked at, from its middle to either side.
const HALF: f64 = 0.29;

/// What is seen of a cell, in linear light from 0 to 1.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Sample {
    /// The middle of each channel.
    pub(super) median: [f64; 3],
    /// The mean of each channel.
    pub(super) mean: [f64; 3],
    /// How far light differs within it: from the lower to the upper quarter.
    pub(super) spread: f64,
}

/// Everything that is seen of a picture's cells, and of the paper round them.
#[derive(Clone, Debug)]
pub(super) struct Samples {
    /// Row by row from the top.
    pub(super) cells: Vec<Sample>,
    /// Places beside the chart, in stitches and rows, and the lightest there.
    pub(super) around: Vec<([f64; 2], [f64; 3])>,
}

/// Samples of all cells; `back` goes from stitches and rows to pixels.
pub(super) fn samples(
    picture: &Picture,
    back: &Plane,
    (stitches, rows): (usize, usize),
) -> Samples {
    let table: Vec<f64> = (0..=255).map(linear).collect();
    let seen = |at: [f64; 2]| {
        let pixel = picture.pixel(back.at(at))?;
        Some(pixel.map(|v| table[usize::from(v)]))
    };
    let mut cells = Vec::with_capacity(stitches * rows);
    for row in 0..rows {
        for column in 0..stitches {
            let middle = [column as f64 + 0.5, row as f64 + 0.5];
            cells.push(sample(&seen, back, middle));
        }
    }
    let mut around = Vec::new();
    let (w, h) = (stitches as f64, rows as f64);
    let mut side = |from: [f64; 2], to: [f64; 2], out: [f64; 2]| {
        let steps = 24;
        for i in 0..=steps {
            let share = f64::from(i) / f64::from(steps);
            let at = [0, 1].map(|k| from[k] + (to[k] - from[k]) * share);
            // The lightest at several distances: between what is written there.
            let near = (0..9).filter_map(|d| {
                let by = 0.25 + 0.15 * f64::from(d);
                let at = [at[0] + out[0] * by, at[1] + out[1] * by];
                seen(at).map(|light| (at, light))
            });
            let light = |p: &([f64; 2], [f64; 3])| p.1.iter().sum::<f64>();
            around.extend(near.max_by(|a, b| light(a).total_cmp(&light(b))));
        }
    };
    side([0.0, 0.0], [w, 0.0], [0.0, -1.0]);
    side([0.0, h], [w, h], [0.0, 1.0]);
    side([0.0, 0.0], [0.0, h], [-1.0, 0.0]);
    side([w, 0.0], [w, h], [1.0, 0.0]);
    Samples { cells, around }
}

/// What is seen of one cell.
fn sample(seen: &impl Fn([f64; 2]) -> Option<[f64; 3]>, back: &Plane, middle: [f64; 2]) -> Sample {
    let (a, b) = (back.at(middle), back.at([middle[0] + 1.0, middle[1]]));
    let pixels = ((a[0] - b[0]).powi(2) + (a[1] - b[1]).powi(2)).sqrt();
    let side = ((pixels * HALF * 2.0).ceil() as usize).clamp(3, 10);
    let mut channels: [Vec<f64>; 3] = Default::default();
    for i in 0..side {
        for j in 0..side {
            let shift = |k: usize| ((k as f64 + 0.5) / side as f64 - 0.5) * 2.0 * HALF;
            let Some(light) = seen([middle[0] + shift(i), middle[1] + shift(j)]) else {
                continue;
            };
            for (channel, v) in channels.iter_mut().zip(light) {
                channel.push(v);
            }
        }
    }
    if channels[0].is_empty() {
        return Sample::default();
    }
    let mean = channels
        .each_ref()
        .map(|c| c.iter().sum::<f64>() / c.len() as f64);
    channels.iter_mut().for_each(|c| c.sort_by(f64::total_cmp));
    let part = |c: &Vec<f64>, share: f64| c[((c.len() - 1) as f64 * share).round() as usize];
    Sample {
        median: channels.each_ref().map(|c| part(c, 0.5)),
        mean,
        spread: (part(&channels[1], 0.75) - part(&channels[1], 0.25)).abs(),
    }
}
