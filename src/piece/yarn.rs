//! How much yarn: from a weighed swatch, else from every stitch of the schedule, its loop and its floats.

use crate::course::chart::{Mark, Worked};
use crate::course::{AcrossPart, Band, ChartUse, Lesson};
use crate::ground::units::{Gauge, Length};
use crate::piece::stages::{Piece, Stage, StageKind};
use crate::rows::measure::{floats_in, is_cut};
use crate::rows::{across, drawn};

/// Ks of wet-relaxed plain knitting, a pure number: loops to an area × the square of the loop's length. Munden, Journal
/// of the Textile Institute 50, T448 (1959); from memory, and for machine fabrics of wool.
pub const KS_WET: f64 = 21.6;
/// A float is longer than the stitches it passes and the two halves at its ends by this. Common practice, no source.
const SLACK: f64 = 1.1;
/// A tail at each end of a stretch of use. Common practice, no source.
pub const TAIL: Length = Length::mm(150.0);
/// What is bought is more than what is used, for sewing up, for a slip. Common practice, no source.
const RESERVE: f64 = 1.2;
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
        None if lesson.craft.knows_loops() => (Basis::Loops, None),
        None => return None,
    };
    let swatch = Swatch::of(lesson, &uses);
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
        // The swatch is worked once for the piece, in its colours as they stand in the chart.
        let in_swatch = swatch.share(used);
        let swatch_grams = match per_stitch_grams {
            Some(each) => Some(in_swatch * each),
            None => metres_per_gram.map(|m| in_swatch * used.metres_a_stitch(lesson) / m),
        };
        let swatch_metres = match per_stitch_grams {
            Some(each) => metres_per_gram.map(|m| in_swatch * each * m),
            None => Some(in_swatch * used.metres_a_stitch(lesson)),
        };
        let more = |(used, swatch): (f64, f64)| used * RESERVE + swatch;
        let buy_grams = grams.zip(swatch_grams).map(more);
        Amount {
            stitches,
            metres,
            grams,
            buy_metres: metres.zip(swatch_metres).map(more),
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
    /// Stretches of use, each with a tail at either end.
    stretches: f64,
    /// The last row of its part that it was used in.
    last: Option<usize>,
}

/// The swatch of a piece: its stitches, and over what they are shared.
struct Swatch {
    stitches: f64,
    stranded: f64,
    all: f64,
}

impl Swatch {
    fn of(lesson: &Lesson, uses: &[Use]) -> Self {
        let gauge = lesson.colourwork.gauge;
        // The side of the swatch in tens of centimetres, over which the gauge is counted.
        let tens = lesson.craft.swatch().to_cm() / 10.0;
        Self {
            stitches: gauge.stitches * gauge.rows * tens * tens,
            stranded: uses.iter().map(|used| used.stranded).sum(),
            all: uses.iter().map(Use::stitches).sum(),
        }
    }

    /// The stitches of a colour in the swatch: as in the rows of several colours, of stripes alone as in the whole.
    fn share(&self, used: &Use) -> f64 {
        let (part, whole) = if self.stranded > 0.0 {
            (used.stranded, self.stranded)
        } else {
            (used.stitches(), self.all)
        };
        self.stitches * part / whole.max(1.0)
    }
}

impl Use {
    fn stitches(&self) -> f64 {
        self.plain + self.stranded
    }

    /// Begins another part, for which every yarn is joined anew.
    const fn begin_part(&mut self) {
        self.last = None;
    }

    /// Is used in these rows of a part.
    fn in_rows(&mut self, rows: std::ops::Range<usize>, pieces: f64) {
        let Some(last) = rows.end.checked_sub(1).filter(|_| !rows.is_empty()) else {
            return;
        };
        if self.last.is_none_or(|last| is_cut(last, rows.start)) {
            self.stretches += pieces;
        }
        self.last = Some(last);
    }

    /// Metres of a stitch of the colourwork with the floats behind it; of a plain stitch where there is none.
    fn metres_a_stitch(&self, lesson: &Lesson) -> f64 {
        if self.stranded == 0.0 {
            return loop_length(lesson.plain_gauge(), KS_WET) / 1000.0;
        }
        let colour = lesson.colourwork.gauge;
        let floats = self.floated * colour.width(1.0).to_mm() * SLACK / self.stranded;
        (loop_length(colour, KS_WET) + floats) / 1000.0
    }

    fn metres(&self, lesson: &Lesson) -> f64 {
        let (plain, colour) = (lesson.plain_gauge(), lesson.colourwork.gauge);
        let loops =
            self.plain * loop_length(plain, KS_WET) + self.stranded * loop_length(colour, KS_WET);
        let floats = self.floated * (colour.width(1.0).to_mm()) * SLACK;
        (loops + floats) / 1000.0 + self.stretches * 2.0 * TAIL.to_mm() / 1000.0
    }
}

/// The uses of a piece's yarns while its schedule is gone through, row after row.
struct Ledger<'a> {
    lesson: &'a Lesson,
    uses: Vec<Use>,
    /// How often the present part is made.
    pieces: f64,
    /// Rows of the present part that are done.
    row: usize,
}

/// Every stitch of the schedule, by yarn.
fn uses(lesson: &Lesson, piece: &Piece) -> Vec<Use> {
    let mut ledger = Ledger {
        lesson,
        uses: vec![Use::default(); lesson.yarns.len()],
        pieces: 1.0,
        row: 0,
    };
    let mut ground = first_yarn(lesson);
    for part in &piece.parts {
        ledger.begin_part(part.times as f64);
        for stage in &part.stages {
            if let Some(yarn) = plain_yarn(lesson, stage) {
                ground = yarn;
            }
            match &stage.kind {
                StageKind::Band(band, repeats) => match lesson.bands.get(*band) {
                    Some(Band::Chart { what, times }) => ledger.chart(what, *repeats, *times),
                    Some(Band::Across(parts)) => ledger.across(parts, stage),
                    _ => {}
                },
                StageKind::ShortRows(turns) => {
                    let stitches: usize = turns.iter().map(|t| 2 * t.past_centre).sum();
                    ledger.plain(ground, stitches as f64, 0);
                }
                StageKind::Rounds(rounds) => {
                    let stitches: usize = rounds.iter().map(|r| r.before).sum();
                    ledger.plain(ground, stitches as f64, rounds.len());
                }
                _ => {
                    let mean = (stage.before + stage.after) as f64 / 2.0;
                    ledger.plain(ground, mean * stage.rounds as f64, stage.rounds);
                }
            }
        }
    }
    ledger.uses
}

impl Ledger<'_> {
    fn begin_part(&mut self, pieces: f64) {
        self.uses.iter_mut().for_each(Use::begin_part);
        (self.pieces, self.row) = (pieces, 0);
    }

    /// So many stitches of one yarn in so many rows.
    fn plain(&mut self, yarn: usize, stitches: f64, rows: usize) {
        if let Some(used) = self.uses.get_mut(yarn) {
            used.plain += stitches * self.pieces;
            used.in_rows(self.row..self.row + rows, self.pieces);
        }
        self.row += rows;
    }

    /// A chart's rows: stitches by yarn, and each float of each row.
    fn chart(&mut self, what: &ChartUse, repeats: usize, times: usize) {
        let chart = &*what.chart;
        let closed = drawn::is_closed(chart, self.lesson.worked);
        for row in drawn::rows_worked(chart, times) {
            let stitches = drawn::columns_worked(chart, repeats.max(1))
                .filter(|column| drawn::stands(chart, row, *column))
                .map(|column| what.yarn_at(row, column));
            self.row(&stitches.collect::<Vec<_>>(), closed);
        }
    }

    /// Several charts side by side, row by joined row.
    fn across(&mut self, parts: &[AcrossPart], stage: &Stage) {
        let closed = self.lesson.worked == Worked::Round;
        let times = across::times(parts, stage.before as f64);
        for row in 0..stage.rounds {
            let line = across::row(parts, &times, row % across::height(parts).max(1));
            let stitches = line.iter().filter(|stitch| stitch.mark != Mark::NoStitch);
            let yarns: Vec<usize> = stitches.map(|stitch| stitch.yarn).collect();
            self.row(&yarns, closed);
        }
    }

    /// One row, given by the yarn of each stitch.
    fn row(&mut self, yarns: &[usize], closed: bool) {
        let cell = |yarn: &usize| u8::try_from(*yarn).unwrap_or(u8::MAX);
        let cells: Vec<u8> = yarns.iter().map(cell).collect();
        let stranded = cells.iter().any(|cell| Some(cell) != cells.first());
        let (row, pieces) = (self.row, self.pieces);
        for yarn in yarns {
            if let Some(used) = self.uses.get_mut(*yarn) {
                if stranded {
                    used.stranded += pieces;
                } else {
                    used.plain += pieces;
                }
                used.in_rows(row..row + 1, pieces);
            }
        }
        for float in floats_in(&cells, closed) {
            if let Some(used) = self.uses.get_mut(usize::from(float.colour)) {
                used.floated += (float.stitches + 1) as f64 * pieces;
            }
        }
        self.row += 1;
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
