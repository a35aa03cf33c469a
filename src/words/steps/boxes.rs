//! Rounds to tick off: a box for each round whose number is the same in every size.

use crate::course::{Band, Reads};
use crate::piece::{Stage, StageKind};
use crate::rows::drawn::count_worked;
use crate::words::steps::author::Author;

/// Fewer rounds than this are counted without boxes.
const FEWEST: usize = 3;
/// Most boxes of one step: more would be a page of boxes.
const MOST: usize = 60;

impl Author<'_> {
    /// How many boxes belong to a stage; none where sizes differ, and where the rows of a chart have their own.
    pub(super) fn boxes(&self, part: usize, index: usize) -> usize {
        let first = self.pieces.first().and_then(|piece| piece.parts.get(part));
        let stages = first.map_or(&[][..], |part| &part.stages);
        let Some(stage) = stages.get(index) else {
            return 0;
        };
        // Told with the plain rounds beneath it.
        let beneath = index.checked_sub(1).and_then(|i| stages.get(i));
        if is_change(stage) && beneath.is_some_and(is_plain) {
            return 0;
        }
        let counts = self.pieces.iter().filter_map(|piece| {
            let stages = &piece.parts.get(part)?.stages;
            self.boxes_of(stages.get(index)?, stages.get(index + 1))
        });
        let counts: Vec<usize> = counts.collect();
        let passes = match self.lesson.reads() {
            Reads::ForwardAndReturn => 2,
            _ => 1,
        };
        match counts.as_slice() {
            [one, rest @ ..] if rest.iter().all(|n| n == one) && (FEWEST..=MOST).contains(one) => {
                one * passes
            }
            _ => 0,
        }
    }

    /// The rounds of a stage of one size; the round in which the count changes is one of the plain rounds beneath it.
    fn boxes_of(&self, stage: &Stage, next: Option<&Stage>) -> Option<usize> {
        match &stage.kind {
            StageKind::Plain(_, None) => {
                let change = next.filter(|next| is_change(next));
                Some(stage.rounds + change.map_or(0, |next| next.rounds))
            }
            StageKind::Rib(_) | StageKind::Change(_) => Some(stage.rounds),
            StageKind::Band(band, _) => match self.lesson.bands.get(*band)? {
                // Rows that are printed have boxes of their own.
                Band::Chart { what, .. } if what.chart.rights.may_print() => None,
                Band::Chart { what, times } => Some(count_worked(&what.chart, *times)),
                _ => Some(stage.rounds),
            },
            _ => None,
        }
    }
}

fn is_change(stage: &Stage) -> bool {
    matches!(stage.kind, StageKind::Change(_))
}

fn is_plain(stage: &Stage) -> bool {
    matches!(stage.kind, StageKind::Plain(_, None))
}
