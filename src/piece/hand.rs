//! Mitts and mittens: hand, thumb, and the closed top of a mitten.

use crate::course::Lesson;
use crate::course::body::{self, Body, Makes};
use crate::ground::units::{Length, nearest_at_least};
use crate::piece::builder::Stages;
use crate::piece::layout::bands;
use crate::piece::none::NoSchedule;
use crate::piece::practice::{HAND_LENGTH, PALM_LENGTH, THUMB_HEIGHT};
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
    let girth = size.hand.0.to_mm();
    // A fingerless mitt ends where the fingers begin.
    let palm = (!closed).then(|| Length::mm(girth * PALM_LENGTH));
    let laid = bands(lesson, Some(size), target, palm)?;
    let mut stages = laid.stages;
    let mut length = laid.height.to_mm();
    let mut top_rounds = None;
    if closed {
        let height = Length::mm(girth * TOP);
        let now = stages.now;
        let top = mitten_top(now, gauge, height).map_err(|_| NoSchedule::Crown(now))?;
        let straight = girth * HAND_LENGTH - top.height.to_mm();
        let wanted = (straight - laid.above_wrist.to_mm()).max(0.0);
        let rounds = nearest_at_least(gauge.rows_spanning(Length::mm(wanted)), 0);
        length += gauge.height(rounds as f64).to_mm();
        stages.keep(StageKind::Plain(None, Some(Length::mm(length))), rounds);
        length += top.height.to_mm();
        top_rounds = Some(top.rounds);
    }
    let place = opening_place(lesson, &stages.stages, Length::mm(girth * THUMB_HEIGHT));
    let thumb = make(place.stitches)?;
    stages.open(place.stage, thumb.opening, place.round);
    match top_rounds {
        Some(rounds) => {
            stages.rounds(rounds);
            stages.add(StageKind::DrawUp, 0, 0);
        }
        None => stages.add(StageKind::CastOff, 0, 0),
    }
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

/// Where a thumb opens.
struct OpeningPlace {
    /// The first stage above the cuff.
    stage: usize,
    /// The round, counted from there, from 1.
    round: usize,
    /// Stitches of that round.
    stitches: usize,
}

/// The round nearest to a height above the cuff, not within two rounds of an end, and none in which the count changes.
fn opening_place(lesson: &Lesson, stages: &[Stage], height: Length) -> OpeningPlace {
    let cuff = |s: &&Stage| matches!(s.kind, StageKind::CastOn | StageKind::Rib(_));
    let stage = stages.iter().take_while(cuff).count();
    let above = stages.iter().skip(stage);
    let rounds: Vec<&Stage> = above
        .flat_map(|stage| std::iter::repeat_n(stage, stage.rounds))
        .collect();
    let mut beneath = 0.0;
    let mut nearest = (f64::MAX, 0);
    for (round, stage) in rounds.iter().enumerate() {
        let off = (beneath - height.to_mm()).abs();
        let inside = round >= CLEAR && round + CLEAR < rounds.len();
        if inside && !matches!(stage.kind, StageKind::Change(_)) && off < nearest.0 {
            nearest = (off, round);
        }
        beneath += stage.height(lesson).to_mm() / stage.rounds.max(1) as f64;
    }
    // So few rounds that each is near an end: the middle one.
    let round = if nearest.0 < f64::MAX {
        nearest.1
    } else {
        rounds.len() / 2
    };
    let last = stages.last().map_or(0, |stage| stage.after);
    OpeningPlace {
        stage,
        round: round + 1,
        stitches: rounds.get(round).map_or(last, |stage| stage.before),
    }
}

/// Rounds between an end of the hand and its thumb.
const CLEAR: usize = 2;

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
