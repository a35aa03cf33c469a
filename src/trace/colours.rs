//! Colours of cells: as few as explain what is seen, in even light.

use crate::ground::colour::{Lab, difference_lab, lab, lab_of_light, luminance_of_light, shown_as};
use crate::trace::cells::{Sample, Samples};
use crate::trace::light::Light;
use crate::trace::symbols::Kind;
use crate::trace::traced::{TracedColour, Unsure};

/// The most colours of a chart.
const MOST: usize = 12;

/// Within so many units of CIE Lab, cells are of one colour to begin with.
const SAME: f64 = 2.0;

/// Two groups are one colour if they lie no farther apart than this and so many times their spreads.
const APART: f64 = 4.5;
const SPREADS: f64 = 1.5;

/// A cell less certain than this is one to look at.
const SURE: f64 = 0.3;

/// Colours that were read.
#[derive(Clone, Debug)]
pub(super) struct Colours {
    pub(super) cells: Vec<u8>,
    pub(super) colours: Vec<TracedColour>,
    pub(super) uncertain: Vec<Unsure>,
    stitches: usize,
}

/// Ink has less than this of a hue, in CIE Lab.
const HUE: f64 = 10.0;

impl Colours {
    /// Whether it may be one ink on white paper: no hue.
    pub(super) fn is_one_ink(&self) -> bool {
        let grey = |colour: &TracedColour| {
            let seen = lab(colour.rgb);
            seen.a.hypot(seen.b) < HUE
        };
        self.colours.iter().all(grey)
    }

    /// Tells cells apart by the symbols in them instead.
    pub(super) fn told_by(&mut self, kinds: &[Kind]) {
        let all = kinds.iter().map(|kind| kind.own + 1).max().unwrap_or(0);
        if !(2..=MOST).contains(&all) {
            return;
        }
        let mut counts = vec![0_usize; all];
        let mut of = vec![0_usize; all];
        for (kind, colour) in kinds.iter().zip(&self.cells) {
            counts[kind.own] += 1;
            of[kind.own] = usize::from(*colour);
        }
        let (order, rank) = ranked(&counts);
        let rgb = |kind: usize| self.colours.get(of[kind]).map_or([255; 3], |c| c.rgb);
        let colours = order.iter().map(|kind| TracedColour {
            rgb: rgb(*kind),
            cells: counts[*kind],
        });
        self.colours = colours.collect();
        self.cells = kinds.iter().map(|kind| rank[kind.own]).collect();
        let unsure = kinds.iter().enumerate().filter_map(|(i, kind)| {
            let (other, certainty) = kind.instead?;
            let place = (i / self.stitches, i % self.stitches);
            unsure(place, [rank[kind.own], *rank.get(other)?], certainty)
        });
        self.uncertain = unsure.collect();
    }
}

/// Places of colours, that of the most cells first, and the rank of each; those without a cell have none.
fn ranked(counts: &[usize]) -> (Vec<usize>, Vec<u8>) {
    let mut order: Vec<usize> = (0..counts.len()).filter(|i| counts[*i] > 0).collect();
    order.sort_by_key(|i| (usize::MAX - counts[*i], *i));
    let mut rank = vec![0_u8; counts.len()];
    for (place, i) in order.iter().enumerate() {
        rank[*i] = place as u8;
    }
    (order, rank)
}

/// A cell to look at, if it is not certain enough.
fn unsure(place: (usize, usize), [own, other]: [u8; 2], certainty: f64) -> Option<Unsure> {
    (certainty < SURE).then_some(Unsure {
        place,
        colour: usize::from(own),
        instead: usize::from(other),
        certainty,
    })
}

/// Cells of about one colour.
#[derive(Clone, Debug)]
struct Group {
    mean: [f64; 3],
    /// Sum of squares of distances from the mean.
    squares: f64,
    cells: f64,
}

impl Group {
    fn lab(&self) -> Lab {
        let [l, a, b] = self.mean;
        Lab { l, a, b }
    }

    fn spread(&self) -> f64 {
        (self.squares / self.cells.max(1.0)).sqrt()
    }

    fn with(&self, other: &Self) -> Self {
        let cells = self.cells + other.cells;
        let apart = squared(self.mean, other.mean);
        Self {
            mean: [0, 1, 2].map(|i| {
                (self.mean[i] * self.cells + other.mean[i] * other.cells) / cells.max(1.0)
            }),
            squares: self.squares
                + other.squares
                + apart * self.cells * other.cells / cells.max(1.0),
            cells,
        }
    }

    /// How many times as far from another as one colour would be.
    fn apart(&self, other: &Self) -> f64 {
        let distance = difference_lab(self.lab(), other.lab());
        distance / (APART + SPREADS * (self.spread() + other.spread()))
    }
}

fn squared(a: [f64; 3], b: [f64; 3]) -> f64 {
    a.iter().zip(b).map(|(x, y)| (x - y) * (x - y)).sum()
}

/// CIE Lab of linear light.
fn lab_of(light: [f64; 3]) -> [f64; 3] {
    let Lab { l, a, b } = lab_of_light(light);
    [l, a, b]
}

/// Light seen as a logarithm.
fn bright(light: [f64; 3]) -> f64 {
    luminance_of_light(light).max(1e-3).ln()
}

/// Paper shows through where less than this share of a channel is gone.
const BLANK: f64 = 0.16;

/// Pencil is seen as if it took this share of the channel that it takes most of.
const PRESSED: f64 = 0.85;

/// What a cell is told apart by: its colour; or with pencil on paper, the colour that it would have if it were pressed like
/// all others, since a stroke shows paper beside it and through it, and what is gone of white, channel by channel, tells the
/// pencil and not the hand.
struct Looks {
    /// CIE Lab, or none where the paper is blank.
    lab: Option<[f64; 3]>,
    /// CIE Lab as it is.
    seen: [f64; 3],
}

/// How cells are looked at.
struct Looking<'a> {
    samples: &'a Samples,
    size: (usize, usize),
    /// Whether they are filled by strokes.
    strokes: bool,
}

impl Looking<'_> {
    /// The middle of a cell, across and down, from 0 to 1.
    fn place(&self, i: usize) -> [f64; 2] {
        let (stitches, rows) = self.size;
        [
            ((i % stitches) as f64 + 0.5) / stitches as f64,
            ((i / stitches) as f64 + 0.5) / rows as f64,
        ]
    }

    /// Strokes of a pencil lie beside the paper that shows between them: their mean is steadier than their middle.
    fn value(&self, sample: &Sample) -> [f64; 3] {
        if self.strokes {
            sample.mean
        } else {
            sample.median
        }
    }

    fn looks(&self, light: &Light, paper: [f64; 3]) -> Vec<Looks> {
        let each = self.samples.cells.iter().enumerate();
        let looks = each.map(|(i, sample)| {
            let factor = (-light.at(self.place(i))).exp();
            let value = self.value(sample).map(|v| (v * factor).clamp(0.0, 1.6));
            let seen = lab_of(value);
            if !self.strokes {
                return Looks {
                    lab: Some(seen),
                    seen,
                };
            }
            let gone = [0, 1, 2].map(|c| 1.0 - value[c] / paper[c].max(1e-3));
            let most = gone.into_iter().fold(0.0, f64::max);
            let pressed = gone.map(|g| (1.0 - PRESSED * g / most.max(1e-3)).clamp(0.0, 1.2));
            let lab = (most >= BLANK).then(|| lab_of(pressed));
            Looks { lab, seen }
        });
        looks.collect()
    }
}

/// The colours of cells, in order of how many have them; so many of them, if it is known how many there are.
pub(super) fn read(samples: &Samples, size: (usize, usize), wanted: Option<usize>) -> Colours {
    let (stitches, rows) = size;
    let mut spreads: Vec<f64> = samples
        .cells
        .iter()
        .map(|s| s.spread / (0.05 + s.mean[1]))
        .collect();
    spreads.sort_by(f64::total_cmp);
    let strokes = spreads.get(spreads.len() * 4 / 5).is_some_and(|s| *s > 0.2);
    let looking = Looking {
        samples,
        size,
        strokes,
    };
    let around: Vec<([f64; 2], f64)> = samples
        .around
        .iter()
        .map(|([x, y], light)| ([x / stitches as f64, y / rows as f64], bright(*light)))
        .collect();
    let (mut light, paper) = paper_light(&around, &samples.around);
    let mut round = 0;
    loop {
        let looks = looking.looks(&light, paper);
        let labs: Vec<[f64; 3]> = looks.iter().filter_map(|l| l.lab).collect();
        let blank = looks.iter().filter(|l| l.lab.is_none()).count();
        let wanted = wanted.map(|n| n.saturating_sub(usize::from(blank > 0)).max(1));
        let groups = grouped(&labs, wanted);
        // The paper is the last group.
        let which: Vec<usize> = looks
            .iter()
            .map(|l| l.lab.map_or(groups.len(), |lab| nearest(&groups, lab).0))
            .collect();
        round += 1;
        if round == 3 {
            return named((&groups, blank > 0), (&looks, &which), stitches);
        }
        // What is left of the light: cells of one colour that are brighter at one side. Of strokes, the paper alone tells.
        let own = |i: usize, s: &Sample| bright(looking.value(s)) - light.at(looking.place(i));
        let counts = |i: &usize| !strokes || which[*i] == groups.len();
        let mut levels = vec![(0.0, 0.0); groups.len() + 1];
        for (i, s) in samples.cells.iter().enumerate() {
            let level = &mut levels[which[i]];
            *level = (level.0 + own(i, s), level.1 + 1.0);
        }
        let rest: Vec<([f64; 2], f64)> = samples
            .cells
            .iter()
            .enumerate()
            .filter(|(i, _)| counts(i))
            .map(|(i, s)| {
                let (sum, count) = levels[which[i]];
                (looking.place(i), own(i, s) - sum / f64::max(count, 1.0))
            })
            .collect();
        light = light.and(&Light::fitted(&rest, 0.08));
    }
}

/// Light as the paper round the chart shows it, and what colour it is there; even light and white where that is no paper.
fn paper_light(around: &[([f64; 2], f64)], seen: &[([f64; 2], [f64; 3])]) -> (Light, [f64; 3]) {
    let light = Light::fitted(around, 0.06);
    let is_near = |(at, v): &([f64; 2], f64)| (v - light.at(*at)).abs() < 0.15;
    let near = around.iter().zip(seen).filter(|(a, _)| is_near(a));
    let near: Vec<[f64; 3]> = near
        .map(|(a, (_, rgb))| rgb.map(|v| v * (-light.at(a.0)).exp()))
        .collect();
    if around.len() < 20 || near.len() * 5 < around.len() * 3 {
        return (Light::default(), [1.0; 3]);
    }
    let middle = |c: usize| {
        let mut values: Vec<f64> = near.iter().map(|rgb| rgb[c]).collect();
        values.sort_by(f64::total_cmp);
        values[values.len() / 2]
    };
    (light, [0, 1, 2].map(middle))
}

/// Cells in groups of one colour each.
fn grouped(labs: &[[f64; 3]], wanted: Option<usize>) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for lab in labs {
        let own = Group {
            mean: *lab,
            squares: 0.0,
            cells: 1.0,
        };
        let (at, distance) = nearest(&groups, *lab);
        let full = groups.len() >= 400;
        match groups.get_mut(at) {
            Some(group) if distance < SAME || full => *group = group.with(&own),
            _ => groups.push(own),
        }
    }
    // The nearest two become one until all that are left are colours of their own.
    let most = wanted.unwrap_or(MOST);
    while groups.len() > 1 {
        let mut best: Option<(f64, usize, usize)> = None;
        for i in 0..groups.len() {
            for j in i + 1..groups.len() {
                let apart = groups[i].apart(&groups[j]);
                if best.is_none_or(|(known, ..)| apart < known) {
                    best = Some((apart, i, j));
                }
            }
        }
        let Some((apart, i, j)) = best else { break };
        let enough = match wanted {
            Some(count) => groups.len() <= count,
            None => apart >= 1.0 && groups.len() <= most,
        };
        if enough {
            break;
        }
        let other = groups.swap_remove(j);
        groups[i] = groups[i].with(&other);
    }
    groups
}

/// The nearest group, and how far it is.
fn nearest(groups: &[Group], lab: [f64; 3]) -> (usize, f64) {
    let each = groups
        .iter()
        .enumerate()
        .map(|(i, g)| (i, squared(g.mean, lab)));
    let best = each.min_by(|a, b| a.1.total_cmp(&b.1));
    best.map_or((0, f64::MAX), |(i, d)| (i, d.sqrt()))
}

/// Groups in order of their cells, as colours; and the cells that may be of another. Blank paper is the group after the last.
fn named(
    (groups, blank): (&[Group], bool),
    (looks, which): (&[Looks], &[usize]),
    stitches: usize,
) -> Colours {
    let all = groups.len() + usize::from(blank);
    let mut counts = vec![0_usize; all];
    let mut sums = vec![[0.0; 3]; all];
    for (group, look) in which.iter().zip(looks) {
        counts[*group] += 1;
        sums[*group]
            .iter_mut()
            .zip(look.seen)
            .for_each(|(s, v)| *s += v);
    }
    let (order, rank) = ranked(&counts);
    let colours = order.iter().map(|g| {
        let [l, a, b] = sums[*g].map(|s| s / counts[*g] as f64);
        TracedColour {
            rgb: shown_as(Lab { l, a, b }),
            cells: counts[*g],
        }
    });
    let mut uncertain = Vec::new();
    for (i, look) in looks.iter().enumerate() {
        let (Some(lab), Some(own)) = (look.lab, groups.get(which[i])) else {
            continue;
        };
        let near = squared(own.mean, lab).sqrt();
        let others = order.iter().filter(|g| **g != which[i]);
        let others = others.filter_map(|g| Some((*g, squared(groups.get(*g)?.mean, lab).sqrt())));
        let Some((other, far)) = others.min_by(|a, b| a.1.total_cmp(&b.1)) else {
            continue;
        };
        let certainty = (far - near) / (far + near).max(1e-9);
        let place = (i / stitches, i % stitches);
        uncertain.extend(unsure(place, [rank[which[i]], rank[other]], certainty));
    }
    Colours {
        cells: which.iter().map(|g| rank[*g]).collect(),
        colours: colours.collect(),
        uncertain,
        stitches,
    }
}
