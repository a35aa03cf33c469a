//! What somebody who makes such pieces every week would not accept, though the counts are right.

use crate::course::body::Makes;
use crate::course::{Band, Extent, Lesson};
use crate::ground::units::{Length, nearest_at_least};
use crate::piece::stages::{Measured, Piece, StageKind};

/// A hat is no deeper than a third of the head and this. Common practice, no source.
const HAT_OVER: f64 = 50.0;
/// Length of a hand as a share of its girth: 0.91 of men, 0.97 of women (means of ANSUR II); their middle.
pub(super) const HAND_LENGTH: f64 = 0.94;
/// The longest cuff that counts as one. Common practice, no source.
const CUFF: f64 = 100.0;
/// Length of the palm as a share of the hand's girth: 0.55 of men, 0.58 of women (means of ANSUR II); their middle.
pub(super) const PALM_LENGTH: f64 = 0.565;
/// Height of the thumb above the wrist as a share of the hand's girth: 0.62 of the palm (from memory).
pub(super) const THUMB_HEIGHT: f64 = 0.62 * PALM_LENGTH;
/// How far from there a thumb may open: what a knitted tube gives. Common practice, no source.
const THUMB_OFF: f64 = 25.0;

/// A piece that is deeper or longer than the body it is for.
#[derive(Clone, Debug, PartialEq)]
pub struct TooDeep {
    /// What is measured.
    pub what: Measured,
    /// How deep it comes out.
    pub is: Length,
    /// How deep it may be.
    pub most: Length,
    /// Plain rounds that are too many.
    pub rounds: usize,
    /// Bands of plain work and rib by their index, with their rounds: what could lose some.
    pub bands: Vec<(usize, usize)>,
}

/// Whether a piece is deeper than its body allows.
#[must_use]
pub fn too_deep(lesson: &Lesson, piece: &Piece) -> Option<TooDeep> {
    let size = piece.size.as_ref()?;
    let (what, most) = match lesson.makes {
        Makes::Hat => (Measured::Depth, size.head.0.to_mm() / 3.0 + HAT_OVER),
        Makes::Mitts | Makes::Mittens => {
            (Measured::Length, size.hand.0.to_mm() * HAND_LENGTH + CUFF)
        }
        _ => return None,
    };
    let is = piece
        .finished
        .iter()
        .find(|finished| finished.what == what)?
        .length;
    if is.to_mm() <= most + 1e-6 {
        return None;
    }
    let gauge = lesson.plain_gauge();
    let over = Length::mm(is.to_mm() - most);
    let rows = |extent: &Extent| extent.rows(gauge);
    let bands = lesson
        .bands
        .iter()
        .enumerate()
        .filter_map(|(i, band)| match band {
            Band::Rib { extent, .. } | Band::Plain { extent, .. } => Some((i, rows(extent))),
            _ => None,
        });
    Some(TooDeep {
        what,
        is,
        most: Length::mm(most),
        rounds: nearest_at_least(gauge.rows_spanning(over).ceil(), 1),
        bands: bands.filter(|(_, rounds)| *rounds > 1).collect(),
    })
}

/// A thumb that opens where the hand has none: how high above the cuff, and how high the hand's is.
#[must_use]
pub fn thumb_off(lesson: &Lesson, piece: &Piece) -> Option<(Length, Length)> {
    let size = piece.size.as_ref()?;
    let hand = piece.parts.first()?;
    let mut stages = hand.stages.iter();
    let round = stages.find_map(|stage| match stage.kind {
        StageKind::Opening { round, .. } => Some(round),
        _ => None,
    })?;
    let mut beneath = round - 1;
    let mut mm = 0.0;
    for stage in stages {
        let rounds = stage.rounds.min(beneath);
        mm += stage.height(lesson).to_mm() * rounds as f64 / stage.rounds.max(1) as f64;
        beneath -= rounds;
    }
    let wanted = size.hand.0.to_mm() * THUMB_HEIGHT;
    ((mm - wanted).abs() > THUMB_OFF).then(|| (Length::mm(mm), Length::mm(wanted)))
}

/// Sizes, by their places, that come to the same piece in every stitch and measure; each group has two or more.
#[must_use]
pub fn alike(pieces: &[Piece]) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (i, piece) in pieces.iter().enumerate() {
        let same = |group: &&mut Vec<usize>| {
            let first = group.first().and_then(|first| pieces.get(*first));
            first.is_some_and(|first| first.is_like(piece))
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.push(i),
            None => groups.push(vec![i]),
        }
    }
    groups.retain(|group| group.len() > 1);
    groups
}

/// The pieces with those that come to the same as one: of a group the first, and beside each the places of all it is for.
#[must_use]
pub fn distinct(pieces: &[Piece]) -> Vec<(usize, Vec<usize>)> {
    let groups = alike(pieces);
    (0..pieces.len())
        .filter_map(|i| match groups.iter().find(|group| group.contains(&i)) {
            Some(group) if group.first() == Some(&i) => Some((i, group.clone())),
            Some(_) => None,
            None => Some((i, vec![i])),
        })
        .collect()
}
