//! The grid of a chart in a picture: which way its lines run, how far they lie apart, where they end.

use rayon::prelude::*;

use crate::trace::bundle::Bundle;
use crate::trace::comb::{Comb, NEARLY, combs};
use crate::trace::edges::{Edges, Point};
use crate::trace::extent::{Extent, NARROW, WIDE, extent};
use crate::trace::plane::{Place, Plane, Sight};
use crate::trace::traced::Glimpse;

/// A grid that was found: from pixels to stitches and rows, its size, and how sure it is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Grid {
    pub(super) plane: Plane,
    pub(super) stitches: usize,
    pub(super) rows: usize,
    /// How much of its outline is seen, the least of four sides.
    pub(super) outline: f64,
    /// How much more is seen on its lines than between them.
    pub(super) order: f64,
    /// How much of the edges in it lies on its lines.
    pub(super) told: f64,
}

impl Grid {
    /// Whether it is beyond doubt. Of 200 drawn pictures and 20 pages of text, grids found wrongly showed less of their
    /// outline, or of their edges on their lines, than any that was right.
    fn is_sure(&self) -> bool {
        self.outline >= OUTLINE && self.is_lined() && self.order + self.told >= BOTH
    }

    /// Whether its lines are there: all that can be asked of a grid whose corners are known.
    fn is_lined(&self) -> bool {
        self.order >= ORDER && self.told >= TOLD
    }
}

/// The least that a grid beyond doubt shows: of its outline, on its lines more than between them, of its edges on its lines,
/// and of both together.
const OUTLINE: f64 = 0.9;
const ORDER: f64 = 0.11;
const TOLD: f64 = 0.385;
const BOTH: f64 = 0.5;

/// The most stitches or rows of a chart in a picture.
const MOST: usize = 150;

/// How far a stitch is usually from square, as a logarithm.
const SHAPE: f64 = 0.4;

/// How much a grid of larger cells is liked better: its cells to this power.
const COARSER: f64 = 0.25;

/// So many periods of each family are tried together.
const TRIED: usize = 4;

/// The fewest pixels of the smaller picture between two lines; of a large one, a share of its longer side.
const LEAST: f64 = 4.0;
const LEAST_SHARE: f64 = 1.0 / 140.0;

/// The picture straightened by two bundles of lines: upright lines upright, level ones level, both evenly apart, its middle
/// at the origin and there as large as it was.
fn straightened(edges: &Edges, upright: Bundle, level: Bundle) -> Plane {
    let centre = [edges.width as f64 / 2.0, edges.height as f64 / 2.0];
    // Where the lines of a family meet, as seen from the middle.
    let meet = [
        [-upright.lean, -1.0, upright.fan],
        [-1.0, -level.lean, level.fan],
    ];
    let cross = |a: [f64; 3], b: [f64; 3]| {
        [
            a[1] * b[2] - a[2] * b[1],
            a[2] * b[0] - a[0] * b[2],
            a[0] * b[1] - a[1] * b[0],
        ]
    };
    let horizon = cross(meet[0], meet[1]);
    let depth = horizon[2];
    let horizon = horizon.map(|v| v / depth);
    let middle = [0.0, 0.0, 1.0];
    // Lines through the middle: of the upright family, across; of the level one, down.
    let mut lines = meet.map(|point| cross(point, middle));
    for (i, line) in lines.iter_mut().enumerate() {
        let size = (line[0] * line[0] + line[1] * line[1]).sqrt();
        let sign = if line[i] < 0.0 { -1.0 } else { 1.0 };
        line.iter_mut().for_each(|v| *v *= sign / size);
    }
    let moved = |line: [f64; 3]| {
        [
            line[0],
            line[1],
            line[2] - line[0] * centre[0] - line[1] * centre[1],
        ]
    };
    Plane([moved(lines[0]), moved(lines[1]), moved(horizon)])
}

/// Edges of both families on the straightened picture: place across the lines, place along them, strength.
fn laid(edges: &Edges, plane: &Plane) -> [Vec<[f64; 3]>; 2] {
    [0, 1].map(|family| {
        let points = edges.points(family, 120_000).into_iter();
        let each = points.map(|p| {
            let at = plane.at([f64::from(p.x), f64::from(p.y)]);
            [at[family], at[1 - family], f64::from(p.weight)]
        });
        each.filter(|p| p.iter().all(|v| v.is_finite())).collect()
    })
}

/// The grid of a picture, if there is one.
pub(super) fn found(edges: &Edges) -> Result<Grid, Glimpse> {
    let (upright, level) = rayon::join(|| Bundle::of(edges, 0), || Bundle::of(edges, 1));
    let flat = straightened(edges, upright, level);
    let laid = laid(edges, &flat);
    let sides = [edges.width as f64, edges.height as f64];
    // Straightened by a wrong bundle, a picture may reach far out.
    let near = |p: &&[f64; 3], family: usize| p[0].abs() < 0.8 * sides[family];
    let along = [0, 1].map(|family| {
        let seen = laid[family].iter().filter(|p| near(p, family));
        seen.map(|p| (p[0], p[2])).collect::<Vec<(f64, f64)>>()
    });
    let least = LEAST.max(sides[0].max(sides[1]) * LEAST_SHARE);
    let mut each = [0, 1].map(|family| combs(&along[family], (least, sides[family] / 3.0), NEARLY));
    // What would make stitches of the usual shape with the best periods of the other family, too.
    let best = [0, 1].map(|i| {
        each[i]
            .iter()
            .take(2)
            .map(|c| c.period)
            .collect::<Vec<f64>>()
    });
    for family in 0..2 {
        for period in &best[1 - family] {
            let range = (f64::max(period * 0.62, least), period * 1.6);
            let more = combs(&along[family], range, 0.8).into_iter().take(2);
            let known: Vec<f64> = each[family].iter().map(|c| c.period).collect();
            let new = more.filter(|c| known.iter().all(|k| (k / c.period - 1.0).abs() > 0.01));
            each[family].extend(new);
        }
    }
    let glimpse = |i: usize| {
        let best = each[i].first().map(|comb| comb.period);
        best.filter(|period| *period < sides[i])
    };
    let seen = Glimpse {
        across: glimpse(0),
        up: glimpse(1),
    };
    let pairs = pairs(&each);
    let points = [0, 1].map(|family| edges.points(family, 20_000));
    let tries = pairs
        .par_iter()
        .map(|pair| tried(edges, &points, &flat, *pair));
    let mut tries: Vec<(f64, Plane)> = tries.collect::<Vec<_>>().into_iter().flatten().collect();
    tries.sort_by(|a, b| b.0.total_cmp(&a.0));
    tries.truncate(3);
    let settled = tries
        .par_iter()
        .map(|(_, plane)| settled(edges, &points, plane));
    let settled: Vec<_> = settled.collect();
    let best = settled
        .into_iter()
        .flatten()
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let best = best.map(|(_, grid)| grid).filter(Grid::is_sure);
    best.ok_or(seen)
}

/// The grid between corners that are known: how many stitches and rows there are.
pub(super) fn counted(edges: &Edges, corners: &[Place; 4]) -> Result<Grid, Glimpse> {
    let side = |a: usize, b: usize| {
        let [dx, dy] = [0, 1].map(|i| corners[a][i] - corners[b][i]);
        (dx * dx + dy * dy).sqrt()
    };
    let sides = [
        (side(0, 1) + side(3, 2)) / 2.0,
        (side(0, 3) + side(1, 2)) / 2.0,
    ];
    let nothing = Glimpse::default();
    let flat = Plane::of_corners(corners, sides[0], sides[1]).ok_or(nothing)?;
    let laid = laid(edges, &flat);
    let counts = [0, 1].map(|family| {
        let inside = |p: &&[f64; 3]| {
            let within = |v: f64, side: f64| (-2.0..=side + 2.0).contains(&v);
            within(p[0], sides[family]) && within(p[1], sides[1 - family])
        };
        let seen: Vec<(f64, f64)> = laid[family]
            .iter()
            .filter(inside)
            .map(|p| (p[0], p[2]))
            .collect();
        let combs = combs(&seen, (LEAST, sides[family] / 2.0), NEARLY);
        let counts = combs
            .iter()
            .take(2 * TRIED)
            .map(|comb| (sides[family] / comb.period).round());
        let mut counts: Vec<usize> = counts
            .map(|n| n as usize)
            .filter(|n| (2..=MOST).contains(n))
            .collect();
        counts.sort_unstable();
        counts.dedup();
        counts
    });
    let points = [0, 1].map(|family| edges.points(family, 20_000));
    let pairs = counts[0]
        .iter()
        .flat_map(|w| counts[1].iter().map(move |h| (*w, *h)));
    let tried = pairs.filter_map(|(stitches, rows)| {
        let plane = Plane::of_corners(corners, stitches as f64, rows as f64)?;
        let whole = Extent::whole(edges, &plane, (stitches, rows))?;
        let worth = worth(&points, &plane, &whole)?;
        let told = told(&points, &plane, &whole);
        let (outline, order) = (whole.outline, whole.order);
        Some((
            worth,
            Grid {
                plane,
                stitches,
                rows,
                outline,
                order,
                told,
            },
        ))
    });
    let best = tried
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, grid)| grid);
    best.filter(Grid::is_lined).ok_or(nothing)
}

/// Periods that are tried together: the best of each family, and those that go with the best of the other as the sides of a
/// stitch do.
fn pairs(each: &[Vec<Comb>; 2]) -> Vec<[Comb; 2]> {
    let alike = |a: f64, b: f64| (0.62..=1.6).contains(&(a / b));
    let likely = [0, 1].map(|i| {
        let others: Vec<f64> = each[1 - i].iter().take(2).map(|comb| comb.period).collect();
        let best = each[i].iter().take(TRIED);
        let goes = each[i]
            .iter()
            .skip(TRIED)
            .filter(|comb| others.iter().any(|other| alike(comb.period, *other)));
        best.chain(goes.take(3)).copied().collect::<Vec<Comb>>()
    });
    let all = likely[0]
        .iter()
        .flat_map(|across| likely[1].iter().map(|up| [*across, *up]));
    // Stitches are neither needles nor ribbons.
    all.filter(|[across, up]| (0.45..=2.2).contains(&(up.period / across.period)))
        .collect()
}

/// How good a grid is: how much of it and of its outline is seen, and how large it is in the picture.
fn worth(points: &[Vec<Point>; 2], plane: &Plane, extent: &Extent) -> Option<f64> {
    let back = plane.back()?;
    let corner = |i: usize, j: usize| {
        let of = |k: usize, end: usize| {
            if end == 0 {
                extent.from[k]
            } else {
                extent.to[k]
            }
        };
        back.at([of(0, i) as f64, of(1, j) as f64])
    };
    let [a, b, c, d] = [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)];
    let cross = |p: Place, q: Place| p[0] * q[1] - p[1] * q[0];
    let area = (cross(a, b) + cross(b, c) + cross(c, d) + cross(d, a)).abs() / 2.0;
    let (stitches, rows) = extent.size();
    let cell = area / (stitches * rows).max(1) as f64;
    // Stitches are about square; and of two grids of which one halves the other, the coarser says as much with less.
    let across = extent.shape(&back);
    let shape = (-(across.ln() / SHAPE).powi(2) / 2.0).exp();
    let seen = extent.order * told(points, plane, extent) * extent.outline.max(0.05);
    Some(seen * area * shape * cell.powf(COARSER))
}

/// How much of the edges within a grid lies on its lines.
fn told(points: &[Vec<Point>; 2], plane: &Plane, extent: &Extent) -> f64 {
    let (mut on, mut all) = (0.0, 1e-9);
    for (family, points) in points.iter().enumerate() {
        for point in points {
            let at = plane.at([f64::from(point.x), f64::from(point.y)]);
            // The outline is told already.
            let inside =
                |i: usize| at[i] > extent.from[i] as f64 + 0.3 && at[i] < extent.to[i] as f64 - 0.3;
            if inside(0) && inside(1) {
                let off = (at[family] - at[family].round()).abs();
                all += f64::from(point.weight);
                if off < 0.16 {
                    on += f64::from(point.weight);
                }
            }
        }
    }
    on / all
}

/// A grid of such combs before its lines are fitted, and how good it is.
fn tried(
    edges: &Edges,
    points: &[Vec<Point>; 2],
    flat: &Plane,
    combs: [Comb; 2],
) -> Option<(f64, Plane)> {
    let scale = combs.map(|comb| 1.0 / comb.period);
    let shift = combs.map(|comb| -comb.phase / comb.period);
    let plane = flat.then(scale, shift);
    let here = extent(edges, &plane, WIDE)?;
    Some((worth(points, &plane, &here)?, plane))
}

/// A grid with its lines fitted to the edges and its outline found; and how good it is.
fn settled(edges: &Edges, points: &[Vec<Point>; 2], start: &Plane) -> Option<(f64, Grid)> {
    let mut plane = *start;
    let mut last = extent(edges, &plane, WIDE)?;
    for _ in 0..4 {
        plane = fitted(edges, &plane, &last)?;
        let next = extent(edges, &plane, NARROW)?;
        let same = next.size() == last.size();
        last = next;
        if same {
            break;
        }
    }
    if last.coarse != [1, 1] {
        let by = last.coarse.map(|n| 1.0 / n as f64);
        let shift = [0, 1].map(|i| -(last.from[i] as f64) * by[i]);
        plane = plane.then(by, shift);
        last = extent(edges, &plane, NARROW)?;
    }
    plane = fitted(edges, &plane, &last)?;
    let worth = worth(points, &plane, &last)?;
    let (stitches, rows) = last.size();
    if stitches < 3 || rows < 3 {
        return None;
    }
    let told = told(points, &plane, &last);
    let plane = plane.then([1.0, 1.0], [-(last.from[0] as f64), -(last.from[1] as f64)]);
    let grid = Grid {
        plane,
        stitches,
        rows,
        outline: last.outline,
        order: last.order,
        told,
    };
    Some((worth, grid))
}

/// The plane once more, so that lines lie in the middle of the edges that are seen near them.
fn fitted(edges: &Edges, plane: &Plane, extent: &Extent) -> Option<Plane> {
    let back = plane.back()?;
    let mut sights = Vec::new();
    for family in 0..2 {
        let lines = extent.from[family]..=extent.to[family];
        let along = extent.from[1 - family]..extent.to[1 - family];
        for line in lines {
            for step in along.clone() {
                let place = |across: f64| {
                    let mut at = [0.0; 2];
                    at[family] = across;
                    at[1 - family] = step as f64 + 0.5;
                    at
                };
                let (mut sum, mut moment) = (0.0, 0.0);
                for offset in -10..=10 {
                    let offset = f64::from(offset) * 0.03;
                    let mut strength = 0.0;
                    for share in [-0.25, 0.0, 0.25] {
                        let mut at = place(line as f64 + offset);
                        at[1 - family] += share;
                        strength += f64::from(edges.at(family, back.at(at)));
                    }
                    sum += strength;
                    moment += strength * offset;
                }
                if sum > 1.5 {
                    let from = back.at(place(line as f64 + moment / sum));
                    sights.push(Sight {
                        along: family,
                        from,
                        to: line as f64,
                        weight: sum.min(6.0),
                    });
                }
            }
        }
    }
    Plane::fitted(&sights, Some(plane))
}

/// The corners of a grid in the picture, clockwise from the top left.
pub(super) fn corners(plane: &Plane, stitches: usize, rows: usize) -> Option<[Place; 4]> {
    let back = plane.back()?;
    let (w, h) = (stitches as f64, rows as f64);
    Some([[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]].map(|place| back.at(place)))
}
