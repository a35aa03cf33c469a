//! The jersey with a circular yoke, bottom-up: body, two sleeves, the yoke.

use crate::course::body::{Body, garment, target_girth};
use crate::course::{AcrossPart, Band, Lesson};
use crate::ground::units::{Gauge, Length, nearest_at_least};
use crate::piece::builder::{Stages, chart_fit};
use crate::piece::layout::{across_fit, live_counts};
use crate::piece::none::NoSchedule;
use crate::piece::schedule::counts::Outcome;
use crate::piece::schedule::even::Ends;
use crate::piece::schedule::multiple::Fit;
use crate::piece::schedule::sleeve::sleeve;
use crate::piece::schedule::yoke::{
    self, Loss, Percentages, Yoke, YokeBand, YokeStageKind, YokeWish,
};
use crate::piece::stages::{
    Decided, Finished, Measured, PartName, Piece, PiecePart, Stage, StageKind,
};
use crate::rows::drawn;

/// Height of the ribs at hem and cuffs. Common practice, no source.
const RIB: Length = Length::mm(50.0);
/// Hem to underarm, as a share of the sleeve to the underarm. Common practice, no source.
const BODY_OF_SLEEVE: f64 = 0.85;
/// The wrist's girth as a share of the hand's (ANSUR II, 2012: men 175.9 of 212.3 mm, women 154.8 of 186.6 mm).
const WRIST_OF_HAND: f64 = 0.83;
/// Plain rounds in which stitches may be lost are two places for that from so many on.
const SPLIT_FROM: usize = 6;
/// What a sleeve is wider than the arm at least. Common practice, no source.
const ARM_EASE: f64 = 40.0;

/// The bands of a yoke lesson as the solver wants them.
struct Wanted {
    yoke: Vec<YokeBand>,
    /// For each its place in the lesson; of plain rounds between decreases none.
    bands: Vec<Option<usize>>,
    plain_before_neck: usize,
    neck_loss: Loss,
    rib: usize,
    rib_band: Option<usize>,
    rib_rows: usize,
}

/// The jersey in one size; `split`: long plain stretches in which stitches may be lost get two rounds for that.
pub(super) fn jersey(lesson: &Lesson, size: &Body, split: bool) -> Result<Piece, NoSchedule> {
    let garment = garment(size);
    let (plain, colour) = (lesson.plain_gauge(), lesson.colourwork.gauge);
    let target = target_girth(lesson.makes, size, lesson.ease).ok_or(NoSchedule::Empty)?;
    let ease = Length::mm(target.to_mm() - size.chest.0.to_mm());
    let percentages = Percentages::KNITTING_AROUND;
    let arm = Length::mm(garment.upper_arm.to_mm() + ARM_EASE);
    let by_percent = target.to_mm() * percentages.sleeve;
    let wanted = wanted(lesson, split);
    let wish = YokeWish {
        chest: size.chest.0,
        ease,
        head: Some(size.head.0),
        neck_base: garment.neck_base,
        armhole: Some(garment.armhole),
        wrist: Some(Length::mm(size.hand.0.to_mm() * WRIST_OF_HAND)),
        wrist_ease: Length::mm(if size.adult { 40.0 } else { 30.0 }),
        upper_sleeve: (arm.to_mm() > by_percent).then_some(arm),
        plain,
        colourwork: colour,
        percentages,
        bands: wanted.yoke.clone(),
        plain_before_neck: wanted.plain_before_neck,
        neck_loss: wanted.neck_loss,
        rib: wanted.rib,
        clear: None,
    };
    let found = yoke::plan(&wish)
        .map_err(|error| NoSchedule::Yoke(Box::new(error), wanted.bands.clone()))?;
    let parts = found.parts;
    let body_length = Length::mm(garment.sleeve.to_mm() * BODY_OF_SLEEVE);
    let body = body_stages(parts, &wanted, body_length, plain)?;
    let (sleeves, sleeve_length) = sleeve_stages(parts, garment.sleeve, plain)?;
    let neck_rows = wanted.rib_rows;
    let stages = yoke_stages(&found, &wanted)?;
    let depth = found.depth.to_mm() + plain.height(neck_rows as f64).to_mm();
    let measure = |what, length| Finished { what, length };
    Ok(Piece {
        size: Some(size.clone()),
        target: Some(target),
        main: Outcome {
            stitches: parts.body,
            girth: found.body_girth,
            error: Length::mm(found.body_girth.to_mm() - target.to_mm()),
            percent: found.body_percent,
        },
        repeats: found.bands.iter().map(|b| b.repeats).max().unwrap_or(0),
        remedies: None,
        parts: vec![
            PiecePart {
                name: PartName::Body,
                times: 1,
                stages: body,
            },
            PiecePart {
                name: PartName::Sleeves,
                times: 2,
                stages: sleeves,
            },
            PiecePart {
                name: PartName::Yoke,
                times: 1,
                stages,
            },
        ],
        finished: vec![
            measure(Measured::Chest, found.body_girth),
            measure(Measured::HemToUnderarm, body_length),
            measure(Measured::SleeveToUnderarm, sleeve_length),
            measure(Measured::UpperSleeve, plain.width(parts.sleeve as f64)),
            measure(Measured::YokeDepth, Length::mm(depth)),
            measure(Measured::Neck, found.neck_girth),
        ],
        decided: vec![
            Decided::Neck(found.neck_rule),
            Decided::Depth(found.depth_rule),
        ],
    })
}

/// Rows of plain work in a length, one at least.
fn rows(length: Length, plain: Gauge) -> usize {
    nearest_at_least(plain.rows_spanning(length), 1)
}

/// From the hem to the underarm.
fn body_stages(
    parts: yoke::Parts,
    wanted: &Wanted,
    length: Length,
    plain: Gauge,
) -> Result<Vec<Stage>, NoSchedule> {
    let counts = Fit::of(wanted.rib).counts();
    let hem = counts.and_then(|c| c.nearest(parts.body as f64));
    let mut body = Stages::cast_on(hem.unwrap_or(parts.body));
    let rib = rows(RIB, plain);
    body.keep(StageKind::Rib(None), rib);
    body.change(parts.body, Ends::Round)?;
    let straight = rows(length, plain).saturating_sub(rib + 1).max(1);
    body.keep(StageKind::Plain(None, Some(length)), straight);
    let left = parts.body.saturating_sub(2 * parts.underarm);
    body.add(StageKind::Hold(parts.underarm), 0, left);
    Ok(body.stages)
}

/// From the cuff to the underarm, and how long that is.
fn sleeve_stages(
    parts: yoke::Parts,
    length: Length,
    plain: Gauge,
) -> Result<(Vec<Stage>, Length), NoSchedule> {
    let rib = rows(RIB, plain);
    let mut arm = Stages::cast_on(parts.cuff);
    arm.keep(StageKind::Rib(None), rib);
    let long = rows(length, plain).saturating_sub(rib).max(1);
    let needed = parts.sleeve.saturating_sub(parts.cuff).div_ceil(2);
    let increases = sleeve(parts.cuff, parts.sleeve, long.max(needed))
        .map_err(|_| NoSchedule::Sleeve(parts.cuff, parts.sleeve))?;
    let kind = StageKind::Increases {
        first: increases.steps.first().map_or(0, |step| step.round),
        every: increases.every.clone(),
    };
    arm.add(kind, increases.rounds, parts.sleeve);
    let left = parts.sleeve.saturating_sub(parts.underarm);
    arm.add(StageKind::Hold(parts.underarm), 0, left);
    let long = plain.height((increases.rounds + rib) as f64).to_mm();
    Ok((arm.stages, Length::mm(long)))
}

/// From the join to the neck: before each band, and before the neck, plain rounds, a change, plain rounds, whether they
/// are or not, so that all sizes have the same stages.
fn yoke_stages(found: &Yoke, wanted: &Wanted) -> Result<Vec<Stage>, NoSchedule> {
    let parts = found.parts;
    let mut stages = Stages {
        stages: Vec::new(),
        now: 0,
    };
    let join = StageKind::Join {
        body: parts.body,
        sleeve: parts.sleeve,
        underarm: parts.underarm,
    };
    stages.add(join, 0, found.joined);
    let (mut before, mut after, mut to) = (0, 0, None);
    let flush = |stages: &mut Stages,
                 before: &mut usize,
                 after: &mut usize,
                 to: &mut Option<usize>|
     -> Result<(), NoSchedule> {
        stages.keep(StageKind::Plain(None, None), *before);
        stages.change(to.unwrap_or(stages.now), Ends::Round)?;
        stages.keep(StageKind::Plain(None, None), *after);
        (*before, *after, *to) = (0, 0, None);
        Ok(())
    };
    let mut turns = None;
    for stage in &found.stages {
        match &stage.kind {
            YokeStageKind::Plain if to.is_none() => before += stage.rounds,
            YokeStageKind::Plain => after += stage.rounds,
            YokeStageKind::Decrease(_) => to = Some(stage.after),
            YokeStageKind::ShortRows(rows) => turns = Some(rows.clone()),
            YokeStageKind::Band(i) => {
                flush(&mut stages, &mut before, &mut after, &mut to)?;
                let Some(band) = wanted.bands.get(*i).copied().flatten() else {
                    // Plain rounds between two narrowings.
                    before = stage.rounds;
                    continue;
                };
                let repeats = found.bands.get(*i).map_or(0, |b| b.repeats);
                stages.add(StageKind::Band(band, repeats), stage.rounds, stage.after);
            }
        }
    }
    flush(&mut stages, &mut before, &mut after, &mut to)?;
    if let Some(turns) = turns {
        stages.keep(StageKind::ShortRows(turns), 0);
    }
    stages.keep(StageKind::Rib(wanted.rib_band), wanted.rib_rows);
    stages.add(StageKind::CastOff, 0, 0);
    Ok(stages.stages)
}

fn wanted(lesson: &Lesson, split: bool) -> Wanted {
    let plain_gauge = lesson.plain_gauge();
    let mut wanted = Wanted {
        yoke: Vec::new(),
        bands: Vec::new(),
        plain_before_neck: 0,
        neck_loss: Loss::Keep,
        rib: 4,
        rib_band: None,
        rib_rows: plain_gauge.rows_in(Length::mm(25.0)),
    };
    let (mut plain, mut may_decrease) = (0, false);
    // Plain rounds beneath the last mark, if one stands in this stretch.
    let mut beneath_mark = 0;
    let loss = |plain: usize, may: bool| match (may, plain) {
        (true, _) => Loss::Decrease,
        (false, 0) => Loss::Keep,
        (false, _) => Loss::Adjust,
    };
    for (index, band) in lesson.bands.iter().enumerate() {
        let (rounds, fit, shaped) = match band {
            Band::Plain { extent, .. } => {
                plain += extent.rows(plain_gauge);
                continue;
            }
            Band::Decrease => {
                // Every mark is a round of its own: what lies between two of them is plain, in any count.
                if may_decrease {
                    let between = (plain - beneath_mark).max(1);
                    let below = if split {
                        wanted.split(beneath_mark, true)
                    } else {
                        beneath_mark
                    };
                    if split && between >= SPLIT_FROM {
                        wanted.between(below, between / 2);
                        wanted.between(0, between - between / 2 - 1);
                    } else {
                        wanted.between(below, between);
                    }
                    plain = 0;
                }
                (may_decrease, beneath_mark) = (true, plain);
                continue;
            }
            Band::Rib {
                multiple, extent, ..
            } => {
                wanted.rib = (*multiple).max(1);
                wanted.rib_band = Some(index);
                wanted.rib_rows = extent.rows(plain_gauge);
                continue;
            }
            Band::Chart { what, times } => {
                let chart = &*what.chart;
                let rows = drawn::count_worked(chart, *times);
                (rows, chart_fit(chart), live_counts(chart))
            }
            Band::Across(parts) => {
                let rows = parts.iter().map(AcrossPart::rows).max().unwrap_or(1);
                (rows, across_fit(parts), Vec::new())
            }
        };
        if split {
            plain = wanted.split(plain, may_decrease);
        }
        wanted.yoke.push(YokeBand {
            plain_before: plain,
            loss: loss(plain, may_decrease),
            rounds,
            fit,
            shaped,
            plain: false,
        });
        wanted.bands.push(Some(index));
        (plain, may_decrease, beneath_mark) = (0, false, 0);
    }
    if split {
        plain = wanted.split(plain, may_decrease);
    }
    wanted.plain_before_neck = plain;
    wanted.neck_loss = loss(plain, may_decrease);
    wanted
}

impl Wanted {
    /// Divides a long plain stretch with a place for decreases into two such; returns what is left of it.
    fn split(&mut self, plain: usize, may_decrease: bool) -> usize {
        if !may_decrease || plain < SPLIT_FROM {
            return plain;
        }
        let half = plain / 2;
        self.between(1, half);
        plain - half - 1
    }

    /// Plain rounds between two places for decreases, above so many that are plain in any case.
    fn between(&mut self, below: usize, rounds: usize) {
        self.yoke.push(YokeBand::between(below, rounds));
        self.bands.push(None);
    }
}
