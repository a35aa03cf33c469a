//! Builds the stages of a part.

use crate::course::Lesson;
use crate::course::chart::{Chart, Worked};
use crate::piece::none::NoSchedule;
use crate::piece::schedule::Round;
use crate::piece::schedule::even::{Ends, spread};
use crate::piece::schedule::multiple::Fit;
use crate::piece::stages::{Stage, StageKind};

/// Ends of an even change in this lesson.
pub(super) fn ends(lesson: &Lesson) -> Ends {
    match lesson.worked {
        Worked::Round => Ends::Round,
        Worked::Flat => Ends::Flat,
    }
}

/// Builds the stages of a part, each beginning where the last one ended.
pub(super) struct Stages {
    pub(super) stages: Vec<Stage>,
    pub(super) now: usize,
}

impl Stages {
    pub(super) fn cast_on(stitches: usize) -> Self {
        Self {
            stages: vec![Stage {
                kind: StageKind::CastOn,
                rounds: 0,
                before: 0,
                after: stitches,
            }],
            now: stitches,
        }
    }

    pub(super) fn add(&mut self, kind: StageKind, rounds: usize, after: usize) {
        self.stages.push(Stage {
            kind,
            rounds,
            before: self.now,
            after,
        });
        self.now = after;
    }

    /// A stage that leaves the count as it is.
    pub(super) fn keep(&mut self, kind: StageKind, rounds: usize) {
        self.add(kind, rounds, self.now);
    }

    /// A thumb's opening, told before a stage.
    pub(super) fn open(&mut self, stage: usize, held: usize, round: usize) {
        let now = self.stages.get(stage).map_or(self.now, |next| next.before);
        let told = Stage {
            kind: StageKind::Opening { held, round },
            rounds: 0,
            before: now,
            after: now,
        };
        self.stages.insert(stage.min(self.stages.len()), told);
    }

    /// An even change to `after`, also when it changes nothing.
    pub(super) fn change(&mut self, after: usize, ends: Ends) -> Result<(), NoSchedule> {
        let spread = spread(self.now, after, ends).map_err(|_| NoSchedule::TooSteep {
            from: self.now,
            to: after,
        })?;
        let rounds = usize::from(spread.changes() > 0);
        self.add(StageKind::Change(spread), rounds, after);
        Ok(())
    }

    /// The rounds of a crown or top, also where a small size needs none.
    pub(super) fn rounds(&mut self, rounds: Vec<Round>) {
        let after = rounds.last().map_or(self.now, |round| round.after);
        self.add(StageKind::Rounds(rounds.clone()), rounds.len(), after);
    }
}

/// What a chart asks of its count.
pub(super) fn chart_fit(chart: &Chart) -> Fit {
    let repeat = chart.repeat_stitches.len();
    Fit {
        multiple: repeat,
        edges: chart.width - repeat,
    }
}
