//! Stripes on end as one step: a line for each, with its boxes.

use crate::course::{Band, Extent};
use crate::piece::{Stage, StageKind};
use crate::words::count;
use crate::words::labels;
use crate::words::steps::author::Author;
use crate::words::steps::resting::cut_after;
use crate::words::steps::told::{Instruction, StripeLine};

/// Fewer stripes on end are steps of their own.
const FEWEST: usize = 3;

impl Author<'_> {
    /// The stripes that begin at a stage of a part, and the stage after them; nothing where there are fewer than three on
    /// end. `yarn` is the yarn at hand.
    pub(super) fn stripes(
        &self,
        part: usize,
        index: usize,
        yarn: &mut Option<usize>,
    ) -> Option<(Instruction, usize)> {
        let stages = &self.pieces.first()?.parts.get(part)?.stages;
        let same = |at: usize, stage: &Stage| {
            let mut others = self
                .pieces
                .iter()
                .map(|p| p.parts.get(part)?.stages.get(at));
            others.all(|other| other.is_some_and(|other| other.rounds == stage.rounds))
        };
        let run = stages.iter().enumerate().skip(index);
        let mut lines = Vec::new();
        for (at, stage) in run {
            let StageKind::Plain(Some(band), None) = stage.kind else {
                break;
            };
            let Some(Band::Plain {
                yarn: own,
                extent: Extent::Rows(_),
                say,
            }) = self.lesson.bands.get(band)
            else {
                break;
            };
            if !same(at, stage) || !say.is_empty() {
                break;
            }
            let rounds = count(stage.rounds, self.line(), &format!("{}s", self.line()));
            let after = cut_after(self, Some(band), Some(*own));
            lines.push(StripeLine {
                yarn: *own,
                words: format!("{}, {rounds}.{after}", self.ground(Some(*own))),
                boxes: stage.rounds,
            });
        }
        if lines.len() < FEWEST {
            return None;
        }
        *yarn = lines.last().map(|line| line.yarn);
        let end = index + lines.len();
        let step = Instruction {
            stripes: lines,
            ..Instruction::new(labels::STRIPES, self.says().stripes())
        };
        Some((step, end))
    }
}
