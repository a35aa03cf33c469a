//! How much yarn: from a weighed swatch, else from every stitch of the schedule, its loop and its floats.

use crate::course::{AcrossPart, Band, ChartUse, Lesson};
use crate::ground::units::Gauge;
use crate::piece::stages::{Kind, Piece, Stage};

/// Ks of wet-relaxed plain knitting, a pure number: loops to an area × the square of the loop's length. Munden, Journal
/// of the Textile Institute 50, T448 (1959); from memory, and for machine fabrics of wool.
pub const KS_WET: f64 = 21.6;
/// A float is longer than the stitches it passes and the two halves at its ends by this. Common practice, no source.
const SLACK: f64 = 1.1;
/// A tail at each end of a stretch of use, in metres. Common practice, no source.
const TAIL: f64 = 0.15;
/// What is bought is more than what is used, for sewing up, for a slip. Common practice, no source.
const RESERVE: f64 = 1.2;
/// Stitches and rows of the swatch that is worked first.
const SWATCH: (f64, f64) = (40.0, 40.0);
/// Grams of a ball, where a lesson does not say.
const BALL: f64 = 50.0;

/// Length of a stitch's loop in millimetres: ℓ = √(Ks ÷ (courses × wales)), courses and wales to a square millimetre.
#[must_use]
pub fn loop_length(gauge: Gauge, ks: f64) -> f64 {
    let density = gauge.stitches * gauge.rows / 10_000.0;
    (ks / density).sqrt()
}

/// Where an amount comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// A weighed swatch of the lesson.
    Weighed,
    /// Loop length by Munden's relation, floats by their spans.
    Loops,
}

/// One colour of a piece.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Amount {
    /// Stitches worked with it.
    pub stitches: f64,
    /// Metres used; `None` where only grams are known.
    pub metres: Option<f64>,
    /// Grams used; `None` where the yarn's length is not known.
    pub grams: Option<f64>,
    /// Metres to buy.
    pub buy_metres: Option<f64>,
    /// Grams to buy.
    pub buy_grams: Option<f64>,
    /// Balls of 50 g.
    pub balls: Option<u32>,
}

/// The yarn of a piece: an amount for each of the lesson's yarns, and the basis. `None` for a craft whose stitches no
/// formula knows, without a weighed swatch.
#[must_use]
pub fn amounts(lesson: &Lesson, piece: &Piece) -> Option<(Basis, Vec<Amount>)> {
    let uses = uses(lesson, piece);
    let metres_per_gram = lesson.metres_per_100g.map(|m| m / 100.0);
    let (basis, per_stitch_grams) = match lesson.weighed {
        Some(swatch) => {
            let stitches = f64::from(swatch.stitches) * f64::from(swatch.rows);
            (Basis::Weighed, Some(swatch.grams / stitches))
        }
        None if lesson.craft == crate::course::Craft::Knit => (Basis::Loops, None),
        None => return None,
    };
    let all = uses.iter().map(|used| {
        let stitches = used.stitches();
        let (metres, grams) = match per_stitch_grams {
            Some(each) => {
                let grams = stitches * each;
                (metres_per_gram.map(|m| grams * m), Some(grams))
            }
            None => {
                let metres = used.metres(lesson);
                (Some(metres), metres_per_gram.map(|m| metres / m))
            }
        };
        let swatch_share = if stitches > 0.0 {
            1.0 / uses.len().max(1) as f64
        } else {
            0.0
        };
        let swatch = SWATCH.0 * SWATCH.1 * swatch_share;
        let more = |value: f64| value * RESERVE + value / stitches.max(1.0) * swatch;
        let buy_grams = grams.map(more);
        Amount {
            stitches,
            metres,
            grams,
            buy_metres: metres.map(more),
            buy_grams,
            balls: buy_grams.map(|grams| (grams / BALL - 1e-9).ceil().max(0.0) as u32),
        }
    });
    Some((basis, all.collect()))
}

/// What one yarn does in a piece.
#[derive(Clone, Debug, Default)]
struct Use {
    /// Stitches in plain rows, and in rows of two or more colours.
    plain: f64,
    stranded: f64,
    /// Stitch widths floated over, the two halves at the ends of each float included.
    floated: f64,
    /// Stretches of use.
    stretches: f64,
}

impl Use {
    fn stitches(&self) -> f64 {
        self.plain + self.stranded
    }

    fn metres(&self, lesson: &Lesson) -> f64 {
        let (plain, colour) = (lesson.plain_gauge(), lesson.colourwork.gauge);
        let loops =
            self.plain * loop_length(plain, KS_WET) + self.stranded * loop_length(colour, KS_WET);
        let floats = self.floated * (100.0 / colour.stitches) * SLACK;
        (loops + floats) / 1000.0 + self.stretches * 2.0 * TAIL
    }
}

/// Every stitch of the schedule, by yarn.
fn uses(lesson: &Lesson, piece: &Piece) -> Vec<Use> {
    let mut uses = vec![Use::default(); lesson.yarns.len()];
    let mut ground = first_yarn(lesson);
    for part in &piece.parts {
        let times = part.times as f64;
        for stage in &part.stages {
            if let Some(yarn) = plain_yarn(lesson, stage) {
                ground = yarn;
            }
            match &stage.kind {
                Kind::Band(band, repeats) => match lesson.bands.get(*band) {
                    Some(Band::Chart { what, times: rows }) => {
                        chart_use(lesson, what, (*repeats, *rows), times, &mut uses);
                    }
                    Some(Band::Across(parts)) => {
                        across_use(parts, stage, times, &mut uses);
                    }
                    _ => {}
                },
                Kind::ShortRows(turns) => {
                    let stitches: usize = turns.iter().map(|t| 2 * t.past_centre).sum();
                    add_plain(&mut uses, ground, stitches as f64 * times);
                }
                Kind::Rounds(rounds) => {
                    let stitches: usize = rounds.iter().map(|r| r.before).sum();
                    add_plain(&mut uses, ground, stitches as f64 * times);
                }
                _ => {
                    let mean = (stage.before + stage.after) as f64 / 2.0;
                    add_plain(&mut uses, ground, mean * stage.rounds as f64 * times);
                }
            }
        }
    }
    for used in &mut uses {
        if used.stitches() > 0.0 {
            used.stretches = used.stretches.max(1.0);
        }
    }
    uses
}

fn add_plain(uses: &mut [Use], yarn: usize, stitches: f64) {
    if let Some(used) = uses.get_mut(yarn) {
        used.plain += stitches;
    }
}

fn first_yarn(lesson: &Lesson) -> usize {
    let mut bands = lesson.bands.iter();
    bands
        .find_map(|band| match band {
            Band::Rib { yarn, .. } | Band::Plain { yarn, .. } => Some(*yarn),
            _ => None,
        })
        .unwrap_or(0)
}

fn plain_yarn(lesson: &Lesson, stage: &Stage) -> Option<usize> {
    let (Kind::Rib(Some(band)) | Kind::Plain(Some(band), _)) = &stage.kind else {
        return None;
    };
    match lesson.bands.get(*band)? {
        Band::Rib { yarn, .. } | Band::Plain { yarn, .. } => Some(*yarn),
        _ => None,
    }
}

/// A chart's rows: stitches by yarn, and each float of each row.
fn chart_use(
    lesson: &Lesson,
    what: &ChartUse,
    (repeats, times): (usize, usize),
    pieces: f64,
    uses: &mut [Use],
) {
    let chart = &*what.chart;
    let inside = chart.repeat_rows.clone();
    let closed = crate::rows::walk::is_closed(chart, lesson.worked);
    for row in 0..chart.height {
        let again = if inside.contains(&row) { times } else { 1 };
        let weight = again as f64 * pieces;
        let yarn = |c: usize| {
            let ink = chart.row(row).get(c).copied().unwrap_or(0);
            what.yarns.get(usize::from(ink)).copied().unwrap_or(0)
        };
        let stands = |c: &usize| chart.mark(row, *c) != crate::course::chart::Mark::NoStitch;
        let repeat = chart.repeat_stitches.clone();
        let middle = std::iter::repeat_n(repeat.clone(), repeats.max(1)).flatten();
        let line: Vec<usize> = (0..repeat.start)
            .chain(middle)
            .chain(repeat.end..chart.width)
            .filter(stands)
            .map(yarn)
            .collect();
        let mut colours = line.clone();
        colours.sort_unstable();
        colours.dedup();
        for &colour in &colours {
            let places: Vec<usize> = (0..line.len())
                .filter(|&i| line.get(i) == Some(&colour))
                .collect();
            let Some(used) = uses.get_mut(colour) else {
                continue;
            };
            if colours.len() == 1 {
                used.plain += line.len() as f64 * weight;
                continue;
            }
            used.stranded += places.len() as f64 * weight;
            let mut floated: usize = places
                .windows(2)
                .map(|pair| match pair {
                    [a, b] if b - a > 1 => b - a,
                    _ => 0,
                })
                .sum();
            if closed && let (Some(first), Some(last)) = (places.first(), places.last()) {
                let round = line.len() - last + first;
                floated += if round > 1 { round } else { 0 };
            }
            used.floated += floated as f64 * weight;
        }
    }
    for &yarn in &what.yarns {
        if let Some(used) = uses.get_mut(yarn) {
            used.stretches += pieces;
        }
    }
}

/// Several charts side by side: each row of each, without the floats between them.
fn across_use(parts: &[AcrossPart], stage: &Stage, pieces: f64, uses: &mut [Use]) {
    let rows = stage.rounds;
    let mut found: Vec<(usize, f64)> = Vec::new();
    for part in parts {
        match part {
            AcrossPart::Plain { stitches, yarn } => {
                found.push((*yarn, (*stitches * rows) as f64));
            }
            AcrossPart::Chart(what, _) => {
                let chart = &*what.chart;
                for row in 0..rows {
                    for &ink in chart.row(row % chart.height.max(1)) {
                        let yarn = what.yarns.get(usize::from(ink)).copied().unwrap_or(0);
                        found.push((yarn, 1.0));
                    }
                }
            }
        }
    }
    let drawn: f64 = found.iter().map(|(_, n)| n).sum();
    let worked = (stage.before * rows) as f64;
    for (yarn, stitches) in found {
        if let Some(used) = uses.get_mut(yarn) {
            // Parts that fill are drawn once: shares count, the round's stitches decide.
            let stitches = stitches / drawn.max(1.0) * worked * pieces;
            used.stranded += stitches;
            used.floated += stitches;
            used.stretches = used.stretches.max(pieces);
        }
    }
}
