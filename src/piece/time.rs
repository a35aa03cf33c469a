//! How long a piece takes: stitches by kind ÷ rates. Common practice, no source; therefore always a range.

use crate::course::{Band, Craft, Lesson};
use crate::piece::stages::{Piece, StageKind};
use crate::piece::{self};
use crate::rows::walk::Work;
use crate::rows::{across, drawn};

/// The range round an estimate.
const RANGE: (f64, f64) = (0.7, 1.5);

/// Stitches of a piece by kind.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stitches {
    /// In what.
    pub craft: Craft,
    /// In rows of one colour.
    pub plain: f64,
    /// In rows of two or more.
    pub stranded: f64,
}

/// Hours, from a good day to a bad one.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Hours {
    /// At best.
    pub from: f64,
    /// At worst.
    pub to: f64,
}

impl Hours {
    /// On an average day.
    #[must_use]
    pub fn usual(self) -> f64 {
        self.from / RANGE.0
    }
}

impl Stitches {
    /// Hours of a fluent hand.
    #[must_use]
    pub fn fluent(self) -> Hours {
        let [fluent, _] = self.craft.rates();
        self.at(fluent)
    }

    /// Hours in a class.
    #[must_use]
    pub fn in_class(self) -> Hours {
        let [_, class] = self.craft.rates();
        self.at(class)
    }

    fn at(self, (plain, stranded): (f64, f64)) -> Hours {
        let hours = (self.plain / plain + self.stranded / stranded) / 60.0;
        Hours {
            from: hours * RANGE.0,
            to: hours * RANGE.1,
        }
    }
}

/// How quick a hand is, within the range round an estimate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pace {
    /// On a good day.
    Fast,
    /// On a bad one.
    Slow,
}

/// How many rows of the colourwork a learner finishes in so many minutes, from the first on.
#[must_use]
pub fn rows_within(work: &Work<'_>, minutes: f64, pace: Pace) -> usize {
    let [_, class] = work.craft.rates();
    let factor = match pace {
        Pace::Fast => RANGE.0,
        Pace::Slow => RANGE.1,
    };
    let mut left = minutes;
    let done = work.rows.iter().take_while(|row| {
        let cells = work.cells(row);
        let rate = if work.is_relief(row) {
            class.0
        } else {
            class.1
        };
        // A row between edges is worked over the whole piece, not over the two repeats that are measured.
        let measured = (cells.len() * row.repeats) as f64;
        let stitches = if row.repeats == 1 && work.round > 0.0 {
            measured.max(work.round * cells.len() as f64 / row.drawn_width.max(1) as f64)
        } else {
            measured
        };
        left -= stitches / rate * factor;
        left >= 0.0
    });
    done.count()
}

/// What is worked of a piece before its first band of colourwork; where it has none, the edge alone.
#[must_use]
pub fn before_colourwork(lesson: &Lesson, piece: &Piece) -> Stitches {
    let is_band = |stage: &piece::Stage| matches!(stage.kind, StageKind::Band(..));
    let is_edge =
        |stage: &piece::Stage| matches!(stage.kind, StageKind::CastOn | StageKind::Rib(_));
    let has_bands = piece.parts.iter().any(|p| p.stages.iter().any(is_band));
    let beneath = |stage: &&piece::Stage| {
        if has_bands {
            !is_band(stage)
        } else {
            is_edge(stage)
        }
    };
    let mut total = Stitches {
        craft: lesson.craft,
        ..Stitches::default()
    };
    for part in &piece.parts {
        let stages: Vec<piece::Stage> = part.stages.iter().take_while(beneath).cloned().collect();
        let reached = stages.len() < part.stages.len();
        let start = piece::PiecePart {
            times: if reached { 1 } else { part.times },
            stages,
            ..part.clone()
        };
        total.add_part(lesson, &start);
        if reached {
            break;
        }
    }
    total
}

/// Every stitch of a piece by kind.
#[must_use]
pub fn of_piece(lesson: &Lesson, piece: &Piece) -> Stitches {
    let mut total = Stitches {
        craft: lesson.craft,
        ..Stitches::default()
    };
    for part in &piece.parts {
        total.add_part(lesson, part);
    }
    total
}

impl Stitches {
    fn add_part(&mut self, lesson: &Lesson, part: &piece::PiecePart) {
        let times = part.times as f64;
        for stage in &part.stages {
            let mean = (stage.before + stage.after) as f64 / 2.0;
            let all = match &stage.kind {
                StageKind::Rounds(rounds) => rounds.iter().map(|r| r.before as f64).sum(),
                StageKind::ShortRows(turns) => {
                    turns.iter().map(|t| 2.0 * t.past_centre as f64).sum()
                }
                StageKind::CastOn | StageKind::PickUp(_) => stage.after as f64,
                StageKind::CastOff => stage.before as f64,
                _ => mean * stage.rounds as f64,
            };
            let share = match &stage.kind {
                StageKind::Band(band, _) => stranded_share(lesson.bands.get(*band), stage.before),
                _ => 0.0,
            };
            self.stranded += all * share * times;
            self.plain += all * (1.0 - share) * times;
        }
    }
}

/// The share of a band's rows that have two or more colours, in a round of so many stitches.
fn stranded_share(band: Option<&Band>, round: usize) -> f64 {
    match band {
        Some(Band::Chart { what, times }) => {
            let rows = drawn::rows_worked(&what.chart, *times);
            share_of_stranded(rows.map(|row| drawn::one_colour(&what.chart, row).is_some()))
        }
        Some(Band::Across(parts)) => {
            let times = across::times(parts, round as f64);
            let plain = |row| {
                let line = across::row(parts, &times, row);
                line.iter()
                    .all(|stitch| Some(stitch.yarn) == line.first().map(|s| s.yarn))
            };
            share_of_stranded((0..across::height(parts)).map(plain))
        }
        _ => 1.0,
    }
}

/// The share of rows that are not plain.
fn share_of_stranded(plain: impl Iterator<Item = bool>) -> f64 {
    let rows: Vec<bool> = plain.collect();
    let many = rows.iter().filter(|plain| !**plain).count();
    many as f64 / rows.len().max(1) as f64
}
