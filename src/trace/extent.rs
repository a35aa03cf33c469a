//! Where a grid ends: the lines between which edges lie on lines.

use crate::trace::edges::Edges;
use crate::trace::plane::{Place, Plane};

/// A stretch of a grid, in lines from the origin of its plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Extent {
    pub(super) from: [i64; 2],
    pub(super) to: [i64; 2],
    /// How much of its outline is seen, the least of four sides.
    pub(super) outline: f64,
    /// For each family, of so many lines only the first of each group is seen: squares are so many times as large.
    pub(super) coarse: [usize; 2],
    /// How much of its lines is seen, less what is seen half-way between them, from 0 to 1.
    pub(super) order: f64,
}

impl Extent {
    /// The height of a cell in the middle to its width.
    pub(super) fn shape(&self, back: &Plane) -> f64 {
        let middle = [0, 1].map(|i| (self.from[i] + self.to[i]) as f64 / 2.0);
        let side = |step: Place| {
            let (a, b) = (
                back.at(middle),
                back.at([middle[0] + step[0], middle[1] + step[1]]),
            );
            ((a[0] - b[0]).powi(2) + (a[1] - b[1]).powi(2)).sqrt()
        };
        side([0.0, 1.0]) / side([1.0, 0.0]).max(1e-9)
    }

    /// Stitches and rows.
    pub(super) fn size(&self) -> (usize, usize) {
        let side = |i: usize| usize::try_from(self.to[i] - self.from[i]).unwrap_or(0);
        (side(0), side(1))
    }
}

/// How far from its line an edge may lie, in squares: once lines are fitted, and before.
pub(super) const NARROW: f64 = 0.1;
pub(super) const WIDE: f64 = 0.22;

/// The most lines that are looked at to either side.
const MOST: i64 = 170;

/// What is seen of the sides of squares: of each line, along each square.
struct Sides {
    from: [i64; 2],
    count: [usize; 2],
    /// Strengths of upright and of level sides, row by row.
    seen: [Vec<f32>; 2],
    back: Plane,
}

/// How much is seen of the side of a square that begins at a place. A side is a line along all of it, as no stroke of a
/// figure is: the weakest place but one tells, each as strong as the strongest near the line.
fn strength(edges: &Edges, back: &Plane, family: usize, (base, slack): (Place, f64)) -> f32 {
    // A first look is coarser.
    let (steps, offsets): (usize, &[f64]) = match slack > NARROW {
        true => (4, &[-1.0, 0.0, 1.0]),
        false => (6, &[-1.0, -0.5, 0.0, 0.5, 1.0]),
    };
    let mut along = [f32::MAX; 6];
    for (i, strength) in along.iter_mut().take(steps).enumerate() {
        *strength = 0.0;
        for offset in offsets {
            let mut at = base;
            at[family] += offset * slack;
            at[1 - family] += 0.1 + 0.8 * i as f64 / (steps - 1) as f64;
            *strength = strength.max(edges.at(family, back.at(at)));
        }
    }
    along.sort_by(f32::total_cmp);
    along[1]
}

impl Sides {
    fn of(edges: &Edges, plane: &Plane, slack: f64) -> Option<Self> {
        let back = plane.back()?;
        let (w, h) = (edges.width as f64, edges.height as f64);
        let corners = [[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]].map(|p| plane.at(p));
        let bound = |i: usize| {
            let each = corners.iter().map(|c| c[i]);
            let low = each.clone().fold(f64::MAX, f64::min).floor();
            let high = each.fold(f64::MIN, f64::max).ceil();
            (low.is_finite() && high.is_finite())
                .then(|| (low.max(-MOST as f64) as i64, high.min(MOST as f64) as i64))
        };
        let (x, y) = (bound(0)?, bound(1)?);
        let from = [x.0, y.0];
        let count = [
            usize::try_from(x.1 - x.0).ok()?,
            usize::try_from(y.1 - y.0).ok()?,
        ];
        let side = |family: usize| {
            let mut seen = Vec::with_capacity(count[0] * count[1]);
            for row in 0..count[1] {
                for column in 0..count[0] {
                    let base = [from[0] + column as i64, from[1] + row as i64];
                    let seen_here = strength(edges, &back, family, (base.map(|i| i as f64), slack));
                    seen.push((seen_here * 2.0).min(1.0));
                }
            }
            seen
        };
        Some(Self {
            from,
            count,
            seen: [side(0), side(1)],
            back,
        })
    }

    fn at(&self, map: &[f32], column: usize, row: usize) -> f32 {
        if column >= self.count[0] || row >= self.count[1] {
            return 0.0;
        }
        map[row * self.count[0] + column]
    }

    /// How much of a square's four sides is seen.
    fn square(&self, column: usize, row: usize) -> f32 {
        let [upright, level] = &self.seen;
        (self.at(upright, column, row)
            + self.at(upright, column + 1, row)
            + self.at(level, column, row)
            + self.at(level, column, row + 1))
            / 4.0
    }

    /// How much of a line of a family is seen between two places along it.
    fn line(&self, family: usize, line: usize, (from, to): (usize, usize)) -> f32 {
        let each = (from..to).map(|i| {
            let (column, row) = if family == 0 { (line, i) } else { (i, line) };
            self.at(&self.seen[family], column, row)
        });
        each.sum::<f32>() / (to - from).max(1) as f32
    }
}

impl Sides {
    /// How many sides that cross a row of squares are seen between two places: upright ones of a row, if lines of the
    /// family are level.
    fn across(&self, family: usize, row: usize, (from, to): (usize, usize)) -> f32 {
        let each = (from..=to).map(|i| {
            let (column, row) = if family == 0 { (row, i) } else { (i, row) };
            self.at(&self.seen[1 - family], column, row)
        });
        each.sum()
    }

    /// Of how many lines of a family only the first is seen, from the outline on.
    fn coarse(&self, family: usize, rectangle: [usize; 4]) -> usize {
        let along = (rectangle[1 - family], rectangle[3 - family]);
        let (first, last) = (rectangle[family], rectangle[2 + family]);
        let lines: Vec<f32> = (first..=last)
            .map(|line| self.line(family, line, along))
            .collect();
        let only = |by: &usize| {
            let mean = |on: bool| {
                let each = lines
                    .iter()
                    .enumerate()
                    .filter(|(i, _)| (i % by == 0) == on);
                let each: Vec<f32> = each.map(|(_, seen)| *seen).collect();
                each.iter().sum::<f32>() / each.len().max(1) as f32
            };
            (last - first).is_multiple_of(*by)
                && last - first >= 3 * by
                && mean(false) < 0.22 * mean(true)
        };
        (2..=6).rev().find(only).unwrap_or(1)
    }

    /// Moves the first and the last line of a family: outwards as long as a line is seen along all of it and what crosses the
    /// squares before it is, too; inwards where that does not hold. Numbers beside a chart have strokes, but no sides.
    fn settle(&self, family: usize, rectangle: &mut [usize; 4]) {
        let along = (rectangle[1 - family], rectangle[3 - family]);
        let (first, last) = (rectangle[family], rectangle[2 + family]);
        let inner: Vec<f32> = (first..=last)
            .map(|line| self.line(family, line, along))
            .collect();
        let best = inner.iter().copied().fold(0.0, f32::max);
        let skip = if last - first > 4 { 1 } else { 0 };
        let crossed = (first + skip..last - skip).map(|row| self.across(family, row, along));
        let mut crossed: Vec<f32> = crossed.collect();
        crossed.sort_by(f32::total_cmp);
        let least = crossed.get(crossed.len() / 10).copied().unwrap_or(0.0);
        let usual = crossed
            .get(crossed.len() / 2)
            .copied()
            .unwrap_or(f32::MAX)
            .max(2.0);
        // Of a plain row of squares its two ends are seen, at least.
        let row_holds = |row: usize| {
            let end = |i: usize| self.across(family, row, (i, i));
            self.across(family, row, along) >= 0.5 * least || end(along.0).min(end(along.1)) >= 0.5
        };
        // A line, and the row of squares between it and the inside.
        let holds = |line: usize, row: usize| {
            let seen = self.line(family, line, along);
            seen >= 0.5 * best && row_holds(row)
                || seen >= 0.25 * best && self.across(family, row, along) >= 0.9 * usual
        };
        let (mut first, mut last) = (first, last);
        // Of plain squares side by side nothing is seen between them: lines farther out are tried, too.
        let rows_out = (0..first).rev().take_while(|row| row_holds(*row));
        let out = rows_out.filter(|row| holds(*row, *row)).last();
        first = out.unwrap_or(first);
        let rows_out = (last..self.count[family]).take_while(|row| row_holds(*row));
        let out = rows_out.filter(|row| holds(row + 1, *row)).last();
        last = out.map_or(last, |row| row + 1);
        while first < last && !holds(first, first) {
            first += 1;
        }
        while first < last && !holds(last, last - 1) {
            last -= 1;
        }
        (rectangle[family], rectangle[2 + family]) = (first, last);
    }
}

/// The stretch of a grid in which sides are seen: the rectangle that holds the most of them above what is usual, its
/// outline moved to lines that are seen along all of it.
pub(super) fn extent(edges: &Edges, plane: &Plane, slack: f64) -> Option<Extent> {
    let sides = Sides::of(edges, plane, slack)?;
    let [columns, rows] = sides.count;
    if columns < 3 || rows < 3 {
        return None;
    }
    let mut squares: Vec<f32> = Vec::with_capacity(columns * rows);
    for row in 0..rows {
        squares.extend((0..columns).map(|column| sides.square(column, row)));
    }
    let mut sorted = squares.clone();
    sorted.sort_by(f32::total_cmp);
    // What the best ninth of them show: lines of a grid, or the edges of a motif.
    let top = sorted[sorted.len() * 8 / 9];
    if top < 0.12 {
        return None;
    }
    let usual = 0.42 * top;
    let worth: Vec<f32> = squares.iter().map(|s| s - usual).collect();
    let mut rectangle = heaviest(&worth, columns, rows)?;
    for _ in 0..3 {
        let before = rectangle;
        for family in 0..2 {
            sides.settle(family, &mut rectangle);
        }
        if before == rectangle {
            break;
        }
    }
    let [left, top, right, bottom] = rectangle;
    if right <= left || bottom <= top {
        return None;
    }
    Some(sides.measured(edges, rectangle))
}

impl Sides {
    /// What is seen of a rectangle.
    fn measured(&self, edges: &Edges, rectangle: [usize; 4]) -> Extent {
        let [left, top, right, bottom] = rectangle;
        let outline = [
            self.line(0, left, (top, bottom)),
            self.line(0, right, (top, bottom)),
            self.line(1, top, (left, right)),
            self.line(1, bottom, (left, right)),
        ];
        let (mut on, mut between) = (0.0, 0.0);
        for row in top..bottom {
            for column in left..right {
                for family in 0..2 {
                    let base = [
                        (self.from[0] + column as i64) as f64,
                        (self.from[1] + row as i64) as f64,
                    ];
                    on += f64::from(strength(edges, &self.back, family, (base, NARROW)));
                    for share in [0.3, 0.43, 0.57, 0.7] {
                        let mut off = base;
                        off[family] += share;
                        between +=
                            f64::from(strength(edges, &self.back, family, (off, NARROW))) / 4.0;
                    }
                }
            }
        }
        let coarse = [0, 1].map(|family| self.coarse(family, rectangle));
        Extent {
            coarse,
            from: [self.from[0] + left as i64, self.from[1] + top as i64],
            to: [self.from[0] + right as i64, self.from[1] + bottom as i64],
            outline: f64::from(outline.into_iter().fold(1.0, f32::min)),
            order: ((on - between) / (2 * (right - left) * (bottom - top)) as f64).max(0.0)
                / f64::from(edges.bold),
        }
    }
}

impl Extent {
    /// A whole sheet of so many stitches and rows.
    pub(super) fn whole(
        edges: &Edges,
        plane: &Plane,
        (stitches, rows): (usize, usize),
    ) -> Option<Self> {
        let sides = Sides::of(edges, plane, WIDE)?;
        let at = |i: usize, line: usize| usize::try_from(line as i64 - sides.from[i]).ok();
        let rectangle = [at(0, 0)?, at(1, 0)?, at(0, stitches)?, at(1, rows)?];
        Some(sides.measured(edges, rectangle))
    }
}

/// The rectangle of the greatest sum: left, top, right, bottom.
fn heaviest(worth: &[f32], columns: usize, rows: usize) -> Option<[usize; 4]> {
    let mut best: Option<(f32, [usize; 4])> = None;
    for top in 0..rows {
        let mut sums = vec![0.0_f32; columns];
        for bottom in top..rows {
            let line = worth.get(bottom * columns..(bottom + 1) * columns)?;
            sums.iter_mut().zip(line).for_each(|(s, w)| *s += w);
            let (mut from, mut sum) = (0, 0.0_f32);
            for (column, s) in sums.iter().enumerate() {
                if sum <= 0.0 {
                    (from, sum) = (column, 0.0);
                }
                sum += s;
                if best.as_ref().is_none_or(|(known, _)| sum > *known) {
                    best = Some((sum, [from, top, column + 1, bottom + 1]));
                }
            }
        }
    }
    best.filter(|(sum, _)| *sum > 0.0).map(|(_, r)| r)
}
