//! Regions of a picture whose edges hang together: where a chart may lie among text and other pictures.

use crate::trace::edges::Edges;

/// A rectangle in pixels: left, top, right, bottom.
pub(super) type Region = [usize; 4];

/// So many regions are looked at.
const MOST: usize = 4;

/// A region is at least this share of the picture, across and down.
const LEAST: f64 = 0.07;

/// The largest regions, each with a margin, the largest first.
pub(super) fn regions(edges: &Edges) -> Vec<Region> {
    let (width, height) = (edges.width, edges.height);
    let [upright, level] = &edges.maps;
    let strong: Vec<bool> = upright
        .iter()
        .zip(level)
        .map(|(a, b)| a.max(*b) > 0.5)
        .collect();
    let mut seen = vec![false; strong.len()];
    let mut found: Vec<Region> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    for start in 0..strong.len() {
        if !strong[start] || seen[start] {
            continue;
        }
        seen[start] = true;
        open.push(start);
        let mut region = [width, height, 0, 0];
        while let Some(at) = open.pop() {
            let (x, y) = (at % width, at / width);
            region = [
                region[0].min(x),
                region[1].min(y),
                region[2].max(x + 1),
                region[3].max(y + 1),
            ];
            // Neighbours at most two pixels away.
            for row in y.saturating_sub(2)..(y + 3).min(height) {
                for column in x.saturating_sub(2)..(x + 3).min(width) {
                    let next = row * width + column;
                    if strong[next] && !seen[next] {
                        seen[next] = true;
                        open.push(next);
                    }
                }
            }
        }
        let is_large =
            |from: usize, to: usize, side: usize| (to - from) as f64 >= LEAST * side as f64;
        if is_large(region[0], region[2], width) && is_large(region[1], region[3], height) {
            found.push(region);
        }
    }
    let area = |r: &Region| (r[2] - r[0]) * (r[3] - r[1]);
    found.sort_by_key(|region| std::cmp::Reverse(area(region)));
    found.truncate(MOST);
    let margin = |r: Region| {
        let by = [(r[2] - r[0]) / 16 + 4, (r[3] - r[1]) / 16 + 4];
        [
            r[0].saturating_sub(by[0]),
            r[1].saturating_sub(by[1]),
            (r[2] + by[0]).min(width),
            (r[3] + by[1]).min(height),
        ]
    };
    found.into_iter().map(margin).collect()
}
