//! Rounds to tick off: a box for each round whose number is the same in every size.

use crate::assess::Assessed;
use crate::lesson::{Band, Lesson};
use crate::piece::{Kind, Piece, Stage};

/// Most boxes of one group: more would be a page of boxes.
const MOST: usize = 120;

/// Boxes to tick off, one for each round of something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ticks {
    /// What the rounds belong to.
    pub title: String,
    /// The number of each, and whether a float is to be caught there.
    pub boxes: Vec<(usize, bool)>,
}

/// The groups of a lesson in the order of work.
pub(super) fn ticks(lesson: &Lesson, pieces: &[Piece], assessed: &Assessed<'_>) -> Vec<Ticks> {
    let Some(first) = pieces.first() else {
        return Vec::new();
    };
    let mut groups = Vec::new();
    for (part, named) in first.parts.iter().enumerate() {
        for (index, stage) in named.stages.iter().enumerate() {
            let same = pieces.iter().all(|piece| {
                let other = piece.parts.get(part).and_then(|p| p.stages.get(index));
                other.is_some_and(|other| other.rounds == stage.rounds)
            });
            let group = group(lesson, stage, assessed)
                .filter(|group| same && !group.boxes.is_empty() && group.boxes.len() <= MOST);
            if let Some(mut group) = group {
                if !named.name.is_empty() {
                    group.title = format!("{}: {}", named.name, group.title);
                }
                groups.push(group);
            }
        }
    }
    groups
}

fn group(lesson: &Lesson, stage: &Stage, assessed: &Assessed<'_>) -> Option<Ticks> {
    let plain = |title: &str| Ticks {
        title: title.to_owned(),
        boxes: (1..=stage.rounds).map(|n| (n, false)).collect(),
    };
    match &stage.kind {
        Kind::Rib(_) => Some(plain("Rib")),
        Kind::Plain(_, None) => Some(plain("Plain")),
        Kind::Band(band, _) => {
            let (title, printed) = match lesson.bands.get(*band)? {
                Band::Chart { what, .. } => (
                    format!("Chart “{}”", what.chart.title),
                    what.chart.rights.may_print(),
                ),
                _ => ("Side by side".to_owned(), false),
            };
            // All its rows, also those of one colour at its end, which count as rest and are not measured.
            let again = match lesson.bands.get(*band)? {
                Band::Chart { what, .. } => what.chart.repeat_rows.clone(),
                _ => 0..stage.rounds,
            };
            let height = match lesson.bands.get(*band)? {
                Band::Chart { what, .. } => what.chart.height,
                _ => stage.rounds,
            };
            let caught = |number: usize| {
                let rows = assessed.work.rows.iter().zip(&assessed.plan);
                let mut rows = rows.filter(|(row, _)| row.origin.band == band + 1);
                rows.any(|(row, plan)| row.origin.chart_row == number && !plan.is_empty())
            };
            let boxes = (0..stage.rounds).map(|i| {
                // A chart's own numbers, its repeat counted again; several things side by side are counted through.
                let number = if i < height {
                    i + 1
                } else {
                    again.start + (i - again.end) % again.len().max(1) + 1
                };
                (number, printed && caught(number))
            });
            Some(Ticks {
                title,
                boxes: boxes.collect(),
            })
        }
        _ => None,
    }
}
