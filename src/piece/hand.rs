//! Mitts and mittens: hand, thumb, and the closed top of a mitten.

use crate::course::Lesson;
use crate::course::body::{self, Body, Makes};
use crate::ground::units::{Length, nearest_at_least};
use crate::piece::builder::Stages;
use crate::piece::layout::bands;
use crate::piece::none::NoSchedule;
use crate::piece::practice::HAND_LENGTH;
use crate::piece::schedule::mitten::mitten_top;
use crate::piece::schedule::thumb::{Thumb, Tip, thumb};
use crate::piece::stages::{Finished, Measured, PartName, Piece, PiecePart, Stage, StageKind};

/// Height of a mitten's top as a share of the hand's girth. Common practice, no source.
const TOP: f64 = 0.22;

pub(super) fn hand(lesson: &Lesson, size: &Body) -> Result<Piece, NoSchedule> {
    let target = body::target_girth(lesson.makes, size, lesson.ease).ok_or(NoSchedule::Empty)?;
    let gauge = lesson.plain_gauge();
    let closed = lesson.makes == Makes::Mittens;
    let tip = if closed { Tip::Closed } else { Tip::Open };
    let make = |stitches: usize| {
        thumb(stitches, gauge, tip, None).map_err(|_| NoSchedule::Thumb(stitches))
    };
    let open = |stages: &mut Stages| {
        let thumb = make(stages.now)?;
        stages.keep(StageKind::Opening(thumb.opening), 0);
        Ok(())
    };
    let laid = bands(lesson, Some(size), target, Some(&open))?;
    let (above_rib, height) = (laid.above_rib, laid.height);
    let mut stages = laid.stages;
    let mut length = height.to_mm();
    if closed {
        let girth = size.hand.0.to_mm();
        let height = Length::mm(girth * TOP);
        let now = stages.now;
        let top = mitten_top(now, gauge, height).map_err(|_| NoSchedule::Crown(now))?;
        let straight = girth * HAND_LENGTH - top.height.to_mm();
        let wanted = (straight - above_rib.to_mm()).max(0.0);
        let rounds = nearest_at_least(gauge.rows_spanning(Length::mm(wanted)), 0);
        stages.keep(StageKind::Plain(None, Some(Length::mm(straight))), rounds);
        length += gauge.height(rounds as f64).to_mm() + top.height.to_mm();
        stages.rounds(top.rounds);
        stages.add(StageKind::DrawUp, 0, 0);
    } else {
        stages.add(StageKind::CastOff, 0, 0);
    }
    let opened = stages.stages.iter().find_map(|stage| match stage.kind {
        StageKind::Opening(_) => Some(stage.before),
        _ => None,
    });
    let thumb = make(opened.unwrap_or(laid.main.outcome.stitches))?;
    let outcome = laid.main.outcome;
    Ok(Piece {
        size: Some(size.clone()),
        target: Some(target),
        main: outcome,
        repeats: laid.repeats,
        remedies: laid.main.remedies,
        parts: vec![
            PiecePart {
                name: PartName::Hand,
                times: 2,
                stages: stages.stages,
            },
            PiecePart {
                name: PartName::Thumb,
                times: 2,
                stages: thumb_stages(&thumb, closed),
            },
        ],
        finished: vec![
            Finished {
                what: Measured::Girth,
                length: outcome.girth,
            },
            Finished {
                what: Measured::Length,
                length: Length::mm(length),
            },
        ],
        decided: Vec::new(),
    })
}

fn thumb_stages(thumb: &Thumb, closed: bool) -> Vec<Stage> {
    let mut stages = Stages {
        stages: Vec::new(),
        now: 0,
    };
    stages.add(StageKind::PickUp(thumb.picked_up), 0, thumb.picked_up);
    let plain = thumb.rounds.iter().take_while(|r| r.is_plain()).count();
    stages.keep(StageKind::Plain(None, None), plain);
    if closed {
        stages.rounds(thumb.rounds.iter().skip(plain).cloned().collect());
    }
    let end = if closed {
        StageKind::DrawUp
    } else {
        StageKind::CastOff
    };
    stages.add(end, 0, 0);
    stages.stages
}
