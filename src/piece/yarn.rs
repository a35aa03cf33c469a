//! How much yarn: from a weighed swatch, else from every stitch of the schedule, its loop and its floats.

use crate::course::chart::{Mark, Worked};
use crate::course::{AcrossPart, Band, ChartUse, Lesson};
use crate::ground::units::Gauge;
use crate::piece::stages::{Piece, Stage, StageKind};
use crate::rows::measure::floats_in;
use crate::rows::{across, drawn};

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
        let floats = self.floated * (colour.width(1.0).to_mm()) * SLACK;
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
                StageKind::Band(band, repeats) => match lesson.bands.get(*band) {
                    Some(Band::Chart { what, times: rows }) => {
                        chart_use(lesson, what, (*repeats, *rows), times, &mut uses);
                    }
                    Some(Band::Across(parts)) => {
                        across_use(lesson, parts, stage, times, &mut uses);
                    }
                    _ => {}
                },
                StageKind::ShortRows(turns) => {
                    let stitches: usize = turns.iter().map(|t| 2 * t.past_centre).sum();
                    add_plain(&mut uses, ground, stitches as f64 * times);
                }
                StageKind::Rounds(rounds) => {
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
    let (StageKind::Rib(Some(band)) | StageKind::Plain(Some(band), _)) = &stage.kind else {
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
    let closed = drawn::is_closed(chart, lesson.worked);
    for row in drawn::rows_worked(chart, times) {
        let stitches = drawn::columns_worked(chart, repeats.max(1))
            .filter(|column| drawn::stands(chart, row, *column))
            .map(|column| what.yarn_at(row, column));
        add_row(uses, &stitches.collect::<Vec<_>>(), closed, pieces);
    }
    for &yarn in &what.yarns {
        if let Some(used) = uses.get_mut(yarn) {
            used.stretches += pieces;
        }
    }
}

/// Several charts side by side, row by joined row.
fn across_use(lesson: &Lesson, parts: &[AcrossPart], stage: &Stage, pieces: f64, uses: &mut [Use]) {
    let closed = lesson.worked == Worked::Round;
    let times = across::times(parts, stage.before as f64);
    for row in 0..stage.rounds {
        let line = across::row(parts, &times, row % across::height(parts).max(1));
        let stitches = line.iter().filter(|stitch| stitch.mark != Mark::NoStitch);
        let yarns: Vec<usize> = stitches.map(|stitch| stitch.yarn).collect();
        add_row(uses, &yarns, closed, pieces);
        for yarn in yarns {
            if let Some(used) = uses.get_mut(yarn) {
                used.stretches = used.stretches.max(pieces);
            }
        }
    }
}

/// One row, given by the yarn of each stitch.
fn add_row(uses: &mut [Use], yarns: &[usize], closed: bool, pieces: f64) {
    let cell = |yarn: &usize| u8::try_from(*yarn).unwrap_or(u8::MAX);
    let cells: Vec<u8> = yarns.iter().map(cell).collect();
    let floats = floats_in(&cells, closed);
    let stranded = cells.iter().any(|cell| Some(cell) != cells.first());
    for yarn in yarns {
        if let Some(used) = uses.get_mut(*yarn) {
            if stranded {
                used.stranded += pieces;
            } else {
                used.plain += pieces;
            }
        }
    }
    for float in floats {
        if let Some(used) = uses.get_mut(usize::from(float.colour)) {
            used.floated += (float.stitches + 1) as f64 * pieces;
        }
    }
}
