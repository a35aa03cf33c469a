//! Which needles a piece asks for, by kind and length, and how many markers.

use crate::course::body::Makes;
use crate::course::chart::Worked;
use crate::course::{Band, Lesson};
use crate::ground::units::Length;
use crate::piece::stages::{Piece, Stage, StageKind};
use crate::rows::grade::Skill;

/// Circular needles as sold, tip to tip, in centimetres and inches. Common practice, no source.
pub const CIRCULARS: [(u32, u32); 5] = [(40, 16), (60, 24), (80, 32), (100, 40), (120, 47)];
/// Below this girth in millimetres work is on double points, two circulars or a long loop. Common practice, no source.
pub const SMALLEST_ROUND: f64 = 420.0;
/// A circular needle holds work of up to so many times its length. Common practice, no source.
const STRETCH: f64 = 2.0;
/// More markers than these are in the way.
const MOST_MARKERS: usize = 24;

/// What a needle is used for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NeedleFor {
    /// Everything but ribs.
    Work,
    /// Ribs, where they have a needle of their own.
    Rib,
}

/// The needles of one thickness.
#[derive(Clone, Debug, PartialEq)]
pub struct Needles {
    /// Their thickness; `None` where the lesson does not say.
    pub size: Option<Length>,
    /// What for.
    pub what: NeedleFor,
    /// Lengths of circular ones in centimetres, as sold.
    pub circulars: Vec<u32>,
    /// Whether something is too narrow for those.
    pub double_points: bool,
}

/// The needles for these pieces of a lesson. None for what is worked flat, or with a hook, or on cloth.
#[must_use]
pub fn needles(lesson: &Lesson, pieces: &[Piece]) -> Vec<Needles> {
    if !lesson.craft.purls() || lesson.worked == Worked::Flat {
        return Vec::new();
    }
    let main = lesson.colourwork.needle;
    let rib = lesson.rib_needle.filter(|rib| Some(*rib) != main);
    let stages = || {
        pieces
            .iter()
            .flat_map(|piece| &piece.parts)
            .flat_map(|part| &part.stages)
    };
    let is_rib = |stage: &&Stage| matches!(stage.kind, StageKind::Rib(_));
    let mut found = vec![of_girths(
        lesson,
        NeedleFor::Work,
        main,
        stages().filter(|s| rib.is_none() || !is_rib(s)),
    )];
    if rib.is_some() {
        found.push(of_girths(
            lesson,
            NeedleFor::Rib,
            rib,
            stages().filter(is_rib),
        ));
    }
    found
}

fn of_girths<'a>(
    lesson: &Lesson,
    what: NeedleFor,
    size: Option<Length>,
    stages: impl Iterator<Item = &'a Stage>,
) -> Needles {
    let gauge = lesson.plain_gauge();
    let girths = stages.flat_map(|stage| match stage.kind {
        // Nothing lies on the needle before the cast-on or after the edge.
        StageKind::CastOn | StageKind::PickUp(_) => vec![stage.after],
        StageKind::CastOff | StageKind::DrawUp | StageKind::Hold(_) => vec![stage.before],
        _ => vec![stage.before, stage.after],
    });
    let mut mm: Vec<f64> = girths
        .filter(|n| *n > 0)
        .map(|n| gauge.width(n as f64).to_mm())
        .collect();
    mm.sort_by(f64::total_cmp);
    let double_points = mm.first().is_some_and(|girth| *girth < SMALLEST_ROUND);
    let mut circulars: Vec<u32> = Vec::new();
    for girth in mm.into_iter().filter(|girth| *girth >= SMALLEST_ROUND) {
        let held = circulars
            .last()
            .is_some_and(|last| girth <= f64::from(*last) * 10.0 * STRETCH);
        let longest = CIRCULARS
            .iter()
            .rev()
            .find(|(cm, _)| f64::from(*cm) * 10.0 <= girth);
        if let Some((cm, _)) = longest.filter(|_| !held) {
            circulars.push(*cm);
        }
    }
    circulars.dedup();
    Needles {
        size,
        what,
        circulars,
        double_points,
    }
}

/// Most repeats of a chart that loses or gains stitches, less the first, which begins with the round.
fn shaped_repeats(lesson: &Lesson, pieces: &[Piece]) -> usize {
    let parts = pieces.iter().flat_map(|piece| &piece.parts);
    let repeats = parts
        .flat_map(|part| &part.stages)
        .filter_map(|stage| match stage.kind {
            StageKind::Band(band, repeats) => match lesson.bands.get(band)? {
                Band::Chart { what, .. } if what.chart.is_shaped() => Some(repeats),
                _ => None,
            },
            _ => None,
        });
    repeats.max().unwrap_or(1).saturating_sub(1)
}

/// Markers: one for the start of the round, one a place of shaping.
#[must_use]
pub fn markers(lesson: &Lesson, pieces: &[Piece]) -> usize {
    if lesson.worked == Worked::Flat {
        return 0;
    }
    let shaping = match lesson.makes {
        // Four joins, and the middle of the back; or one between every two repeats of a shaped chart.
        Makes::Yoke => 5.max(shaped_repeats(lesson, pieces)),
        Makes::Mittens => 2,
        Makes::Hat => {
            let rounds = pieces
                .iter()
                .flat_map(|piece| &piece.parts)
                .flat_map(|part| &part.stages);
            let lost = rounds.filter_map(|stage| match &stage.kind {
                StageKind::Rounds(rounds) => rounds
                    .iter()
                    .map(|r| r.before.saturating_sub(r.after))
                    .find(|n| *n > 0),
                _ => None,
            });
            // The first section begins with the round.
            lost.max().unwrap_or(1).saturating_sub(1)
        }
        // The middle of the back.
        _ => usize::from(lesson.techniques.iter().any(|t| t == Skill::ShortRows.id())),
    };
    (1 + shaping).min(MOST_MARKERS)
}
