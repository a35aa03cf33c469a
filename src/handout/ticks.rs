//! Rounds to tick off: a box for each round whose number is the same in every size.

use crate::course::{Band, Lesson, Reads};
use crate::piece::{Piece, Stage, StageKind};
use crate::rows::drawn::rows_worked;
use crate::study::Studied;
use crate::words::labels::PASSES;
use crate::words::{labels, part_of_piece};

/// Most boxes of one group: more would be a page of boxes.
const MOST: usize = 120;

/// Boxes to tick off, one for each round of something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ticks {
    /// What the rounds belong to.
    pub title: String,
    /// The number of each, with its pass where a row has two, and whether a float is to be caught there.
    pub boxes: Vec<(String, bool)>,
}

/// The groups of a lesson in the order of work.
pub(super) fn ticks(lesson: &Lesson, pieces: &[Piece], studied: &Studied<'_>) -> Vec<Ticks> {
    let Some(first) = pieces.first() else {
        return Vec::new();
    };
    let mut groups = Vec::new();
    for (part, named) in first.parts.iter().enumerate() {
        for (index, stage) in named.stages.iter().enumerate() {
            // The round in which the count changes is one of the plain rounds beneath it.
            let all = |stages: &[Stage]| -> Option<usize> {
                let next = stages.get(index + 1).filter(|next| is_change(next));
                let of = stages.get(index)?;
                let plain = matches!(of.kind, StageKind::Plain(_, None));
                Some(of.rounds + next.filter(|_| plain).map_or(0, |next| next.rounds))
            };
            let rounds = all(&named.stages).unwrap_or(0);
            let same = pieces.iter().all(|piece| {
                let other = piece.parts.get(part).and_then(|p| all(&p.stages));
                other == Some(rounds)
            });
            // Told above, with the plain rounds beneath it.
            let beneath = index.checked_sub(1).and_then(|i| named.stages.get(i));
            let told = is_change(stage)
                && beneath.is_some_and(|stage| matches!(stage.kind, StageKind::Plain(_, None)));
            let group = group(lesson, stage, rounds, studied)
                .filter(|_| !told)
                .filter(|group| same && !group.boxes.is_empty() && group.boxes.len() <= MOST);
            if let Some(mut group) = group {
                if lesson.reads() == Reads::ForwardAndReturn {
                    group.boxes = in_passes(&group.boxes);
                }
                if let Some(name) = part_of_piece(named.name) {
                    group.title = format!("{name}: {}", group.title);
                }
                groups.push(group);
            }
        }
    }
    groups
}

/// Each row twice: its forward and its return pass.
fn in_passes(boxes: &[(String, bool)]) -> Vec<(String, bool)> {
    let passes =
        |(number, watch): &(String, bool)| PASSES.map(|pass| (format!("{number} {pass}"), *watch));
    boxes.iter().flat_map(passes).collect()
}

fn is_change(stage: &Stage) -> bool {
    matches!(stage.kind, StageKind::Change(_))
}

fn group(lesson: &Lesson, stage: &Stage, rounds: usize, studied: &Studied<'_>) -> Option<Ticks> {
    let plain = |title: &str| Ticks {
        title: title.to_owned(),
        boxes: (1..=rounds).map(|n| (n.to_string(), false)).collect(),
    };
    match &stage.kind {
        StageKind::Rib(_) => Some(plain(labels::RIB)),
        StageKind::Plain(_, None) => Some(plain(labels::PLAIN)),
        StageKind::Change(_) => Some(plain(labels::change(
            stage.after > stage.before,
            stage.after < stage.before,
        ))),
        StageKind::Band(band, _) => {
            // All its rows, also those of one colour at either end, which count as rest and are not measured.
            let Band::Chart { what, times } = lesson.bands.get(*band)? else {
                // Several things side by side are counted through.
                return Some(plain(labels::SIDE_BY_SIDE));
            };
            let caught = |row: usize| {
                let rows = studied.work.rows.iter().zip(studied.plan());
                let mut rows = rows.filter(|(row, _)| row.origin.band == Some(*band));
                rows.any(|(worked, plan)| {
                    let drawn = worked.origin.drawn;
                    drawn.is_some_and(|drawn| drawn.row.index() == row) && !plan.is_empty()
                })
            };
            let printed = what.chart.rights.may_print();
            let rows = rows_worked(&what.chart, *times);
            Some(Ticks {
                title: labels::chart_title(&what.chart.title),
                boxes: rows
                    .map(|row| ((row + 1).to_string(), printed && caught(row)))
                    .collect(),
            })
        }
        _ => None,
    }
}
