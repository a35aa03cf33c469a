//! Hats, headbands, cowls, scarves and swatches.

use crate::course::body::{self, Body, Makes};
use crate::course::{Band, Lesson};
use crate::ground::units::{Length, nearest_at_least};
use crate::piece::builder::Stages;
use crate::piece::layout::{Bands, bands};
use crate::piece::none::NoSchedule;
use crate::piece::schedule::crown::crown;
use crate::piece::schedule::disc::disc;
use crate::piece::stages::{Finished, Measured, PartName, Piece, PiecePart, StageKind};

/// A hat from its edge to its top: a third of the head and 2 cm. Common practice, no source.
fn hat_depth(size: &Body) -> Length {
    Length::mm(size.head.0.to_mm() / 3.0 + 20.0)
}

/// A piece that fits nobody in particular: as wide as the lesson says, or what its chart makes of that.
pub(super) fn without_size(lesson: &Lesson) -> Result<Piece, NoSchedule> {
    let gauge = lesson.colourwork.gauge;
    let width = gauge.width(lesson.round_stitches());
    let mut laid = bands(lesson, None, width, None)?;
    cast_off(lesson, &mut laid);
    let finished = vec![Finished {
        what: Measured::Length,
        length: laid.height,
    }];
    Ok(finish(laid, None, None, finished))
}

/// A piece round a head.
pub(super) fn tube(lesson: &Lesson, size: &Body) -> Result<Piece, NoSchedule> {
    let Some(target) = body::target_girth(lesson.makes, size, lesson.ease) else {
        return without_size(lesson);
    };
    let mut laid = bands(lesson, Some(size), target, None)?;
    if lesson.makes != Makes::Hat {
        cast_off(lesson, &mut laid);
        let height = laid.height;
        let finished = vec![Finished {
            what: Measured::Height,
            length: height,
        }];
        return Ok(finish(laid, Some(size), Some(target), finished));
    }
    let gauge = lesson.plain_gauge();
    if lesson.crown_first {
        return from_the_crown(lesson, laid, size, target);
    }
    let crown = crown(laid.stages.now, gauge).map_err(|_| NoSchedule::Crown(laid.stages.now))?;
    let wanted = hat_depth(size) - laid.height - crown.height;
    let rounds = nearest_at_least(gauge.rows_spanning(wanted), 0);
    let straight = laid.height + gauge.height(rounds as f64);
    laid.stages
        .keep(StageKind::Plain(None, Some(straight)), rounds);
    let depth = straight + crown.height;
    laid.stages.rounds(crown.rounds);
    laid.stages.add(StageKind::DrawUp, 0, 0);
    let finished = vec![Finished {
        what: Measured::Depth,
        length: depth,
    }];
    Ok(finish(laid, Some(size), Some(target), finished))
}

/// A hat that grows from a ring: a disc, plain rounds to its depth, then its bands.
fn from_the_crown(
    lesson: &Lesson,
    mut laid: Bands,
    size: &Body,
    target: Length,
) -> Result<Piece, NoSchedule> {
    let gauge = lesson.plain_gauge();
    let first = laid.stages.stages.first().map_or(0, |stage| stage.after);
    let ring = lesson.stitch.ring().min(first.max(1));
    let rounds = disc(ring, first).map_err(|_| NoSchedule::Crown(first))?;
    let disc = gauge.height((rounds.len() + 1) as f64);
    let wanted = hat_depth(size) - laid.height - disc;
    let straight = nearest_at_least(gauge.rows_spanning(wanted), 0);
    let mut stages = Stages::cast_on(ring);
    stages.rounds(rounds);
    let reached = disc + gauge.height(straight as f64);
    stages.keep(StageKind::Plain(None, Some(reached)), straight);
    for stage in laid.stages.stages.drain(..).skip(1) {
        stages.add(stage.kind, stage.rounds, stage.after);
    }
    laid.stages = stages;
    cast_off(lesson, &mut laid);
    let finished = vec![Finished {
        what: Measured::Depth,
        length: laid.height + reached,
    }];
    Ok(finish(laid, Some(size), Some(target), finished))
}

fn cast_off(lesson: &Lesson, laid: &mut Bands) {
    if lesson
        .bands
        .iter()
        .any(|band| !matches!(band, Band::Decrease))
    {
        laid.stages.add(StageKind::CastOff, 0, 0);
    }
}

fn finish(
    laid: Bands,
    size: Option<&Body>,
    target: Option<Length>,
    mut finished: Vec<Finished>,
) -> Piece {
    let outcome = laid.main.outcome;
    finished.insert(
        0,
        Finished {
            what: if size.is_some() {
                Measured::Girth
            } else {
                Measured::Width
            },
            length: outcome.girth,
        },
    );
    Piece {
        size: size.cloned(),
        target,
        main: outcome,
        repeats: laid.repeats,
        remedies: laid.main.remedies,
        parts: vec![PiecePart {
            name: PartName::Whole,
            times: 1,
            stages: laid.stages.stages,
        }],
        finished,
        decided: Vec::new(),
    }
}
