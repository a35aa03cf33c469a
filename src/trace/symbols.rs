//! Symbols in one ink: cells of one colour told apart by what is drawn in them.

use crate::trace::picture::Picture;
use crate::trace::plane::Plane;

/// A cell's inside is looked at in so many places across and down.
const SIDE: usize = 12;

/// From the edge of a cell to what is looked at.
const INSET: f64 = 0.2;

/// Two symbols differ if so much of the ink differs, on the mean.
const APART: f64 = 0.085;

/// A symbol stands in at least this share of the cells.
const LEAST: f64 = 0.03;

/// How dark each place of a cell is, from 0 to 1.
type Patch = [f64; SIDE * SIDE];

/// A cell holds a symbol if its darkness differs so much from place to place, and a chart is one of symbols if so many do.
const DRAWN: f64 = 0.1;
const SOME: f64 = 0.1;

/// At least this share of the cells hold a symbol as it stands in others.
const ALIKE: f64 = 0.9;

/// What a cell holds: a kind of symbol, from 0, and the one that it may be instead, with how certain it is that it is not:
/// 0, either, to 1.
pub(super) struct Kind {
    pub(super) own: usize,
    pub(super) instead: Option<(usize, f64)>,
}

/// What kind of symbol each cell holds; `None` where cells are filled and nothing is drawn in them, or only strokes.
pub(super) fn kinds(
    picture: &Picture,
    back: &Plane,
    (stitches, rows): (usize, usize),
) -> Option<Vec<Kind>> {
    let patches: Vec<Patch> = (0..stitches * rows)
        .map(|i| {
            patch(
                picture,
                back,
                [(i % stitches) as f64, (i / stitches) as f64],
            )
        })
        .collect();
    let drawn = patches
        .iter()
        .filter(|patch| differs(patch) > DRAWN)
        .count();
    if (drawn as f64) < SOME * patches.len() as f64 {
        return None;
    }
    let groups = groups(&patches);
    // Strokes of a pencil lie otherwise in each cell: they are no symbols.
    let fits = |patch: &&Patch| nearest(&groups, patch).1 < APART;
    let fitting = patches.iter().filter(fits).count();
    let are_symbols = fitting as f64 >= ALIKE * patches.len() as f64;
    are_symbols.then(|| patches.iter().map(|patch| kind(&groups, patch)).collect())
}

fn kind(groups: &[Patch], patch: &Patch) -> Kind {
    let mut each: Vec<(usize, f64)> = distances(groups, patch).collect();
    each.sort_by(|a, b| a.1.total_cmp(&b.1));
    let (own, near) = each.first().copied().unwrap_or((0, 0.0));
    let certainty = |far: f64| (far - near) / (far + near).max(1e-9);
    let instead = each.get(1).map(|(other, far)| (*other, certainty(*far)));
    Kind { own, instead }
}

/// How far each group is.
fn distances(groups: &[Patch], patch: &Patch) -> impl Iterator<Item = (usize, f64)> {
    let each = groups.iter().enumerate();
    each.map(move |(i, group)| (i, apart(group, patch)))
}

/// How much darkness differs from place to place: the standard deviation.
fn differs(patch: &Patch) -> f64 {
    let count = patch.len() as f64;
    let mean = patch.iter().sum::<f64>() / count;
    (patch.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / count).sqrt()
}

/// The symbols of cells: the mean of each.
fn groups(patches: &[Patch]) -> Vec<Patch> {
    let mut groups: Vec<(Patch, f64)> = Vec::new();
    for own in patches {
        let means: Vec<Patch> = groups.iter().map(|(mean, _)| *mean).collect();
        let (at, distance) = nearest(&means, own);
        let full = groups.len() >= 40;
        match groups.get_mut(at) {
            Some((mean, count)) if distance < APART => {
                *count += 1.0;
                mean.iter_mut()
                    .zip(own)
                    .for_each(|(m, p)| *m += (p - *m) / *count);
            }
            _ if !full => groups.push((*own, 1.0)),
            _ => {}
        }
    }
    // Those that are alike become one; what is rare is a mark upon another symbol.
    while let Some((i, j)) = alike(&groups) {
        let (other, more) = groups.swap_remove(j);
        let (mean, count) = &mut groups[i];
        let share = more / (*count + more);
        mean.iter_mut()
            .zip(other)
            .for_each(|(m, o)| *m += (o - *m) * share);
        *count += more;
    }
    let least = (patches.len() as f64 * LEAST).max(3.0);
    groups.sort_by(|a, b| b.1.total_cmp(&a.1));
    let most = groups.first().map(|group| group.0);
    let kept: Vec<Patch> = groups
        .into_iter()
        .filter(|g| g.1 >= least)
        .map(|g| g.0)
        .collect();
    if kept.is_empty() {
        most.into_iter().collect()
    } else {
        kept
    }
}

fn alike(groups: &[(Patch, f64)]) -> Option<(usize, usize)> {
    let pairs = (0..groups.len()).flat_map(|i| (i + 1..groups.len()).map(move |j| (i, j)));
    pairs
        .into_iter()
        .find(|(i, j)| apart(&groups[*i].0, &groups[*j].0) < APART)
}

fn nearest(groups: &[Patch], patch: &Patch) -> (usize, f64) {
    distances(groups, patch)
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .unwrap_or((0, f64::MAX))
}

/// How far two patches differ, one of them moved by a place at most.
fn apart(a: &Patch, b: &Patch) -> f64 {
    let shifts = (-1..=1).flat_map(|dy| (-1..=1).map(move |dx| (dx, dy)));
    let each = shifts.map(|(dx, dy): (isize, isize)| {
        let (mut sum, mut count) = (0.0, 0.0);
        for y in 1..SIDE - 1 {
            for x in 1..SIDE - 1 {
                let moved = y.saturating_add_signed(dy) * SIDE + x.saturating_add_signed(dx);
                sum += (a[y * SIDE + x] - b[moved]).abs();
                count += 1.0;
            }
        }
        sum / count
    });
    each.fold(f64::MAX, f64::min)
}

/// The inside of a cell, its light from the darkest to the lightest that there is in it, softened so that a symbol a little
/// out of place is the same.
fn patch(picture: &Picture, back: &Plane, corner: [f64; 2]) -> Patch {
    let mut dark = [0.0; SIDE * SIDE];
    for (i, place) in dark.iter_mut().enumerate() {
        let step = |k: usize| INSET + (1.0 - 2.0 * INSET) * (k as f64 + 0.5) / SIDE as f64;
        let mut sum = 0.0;
        for (dx, dy) in [(-0.02, -0.02), (0.02, -0.02), (-0.02, 0.02), (0.02, 0.02)] {
            let at = [
                corner[0] + step(i % SIDE) + dx,
                corner[1] + step(i / SIDE) + dy,
            ];
            let [r, g, b] = picture
                .pixel(back.at(at))
                .unwrap_or([255; 3])
                .map(f64::from);
            sum += 1.0 - (0.3 * r + 0.6 * g + 0.1 * b) / 255.0;
        }
        *place = sum / 4.0;
    }
    let mut out = dark;
    for y in 0..SIDE {
        for x in 0..SIDE {
            let (mut sum, mut count) = (0.0, 0.0);
            for row in y.saturating_sub(1)..(y + 2).min(SIDE) {
                for column in x.saturating_sub(1)..(x + 2).min(SIDE) {
                    sum += dark[row * SIDE + column];
                    count += 1.0;
                }
            }
            out[y * SIDE + x] = sum / count;
        }
    }
    out
}
