//! What only a jersey says: widening sleeves, setting stitches aside, joining, short rows.

use crate::piece::{Piece, Stage, StageKind};
use crate::words::steps::author::{Author, Told};

/// Whether plain rounds follow the join of a yoke.
fn plain_above_join(piece: &Piece) -> bool {
    let stages = piece.parts.iter().flat_map(|part| &part.stages);
    let above = stages.skip_while(|stage| !matches!(stage.kind, StageKind::Join { .. }));
    above
        .skip(1)
        .find(|stage| stage.rounds > 0)
        .is_some_and(|stage| matches!(stage.kind, StageKind::Plain(..)))
}

impl Author<'_> {
    pub(super) fn increases(&self, stages: &[&Stage], after: &[usize]) -> (String, Vec<String>) {
        let text = |stage: &Stage| match &stage.kind {
            StageKind::Increases { first, every } if *first > 0 => {
                let every: Vec<String> = every
                    .iter()
                    .filter(|run| run.times > 0)
                    .map(|run| {
                        let times = match run.times {
                            1 => "once".to_owned(),
                            n => format!("{n} times"),
                        };
                        match run.gap {
                            1 => format!("in every round {times}"),
                            gap => format!("every {gap} rounds {times}"),
                        }
                    })
                    .collect();
                let then = if every.is_empty() {
                    String::new()
                } else {
                    format!(", then {}", every.join(", then "))
                };
                format!("in round {first}{then}, {} rounds in all", stage.rounds)
            }
            _ => format!("no increase in {} rounds", stage.rounds),
        };
        let (how, rows) = match self.each(&text, stages) {
            Told::Inline(text) => (text, Vec::new()),
            Told::Table(rows) => ("as the table “Size by size” says".to_owned(), rows),
        };
        let text = format!(
            "Work plain in the same yarn and mark the start of the round, the middle of the underside. Counting rounds from here, make one stitch on \
             either side of it from a lifted strand, twisted, {how}. That makes {} stitches.",
            self.sizes(after)
        );
        (text, rows)
    }

    pub(super) fn hold(&self, part: usize, stages: &[&Stage], after: &[usize]) -> String {
        let held: Vec<usize> = stages
            .iter()
            .map(|stage| match stage.kind {
                StageKind::Hold(stitches) => stitches,
                _ => 0,
            })
            .collect();
        let held = self.sizes(&held);
        if part == 0 {
            format!(
                "At the start of the round put {held} stitches on waste yarn, half of them before it and half after it, and \
                 as many opposite. {} are left, half of them in front and half behind. Cut the yarn; the body waits \
                 on a spare needle.",
                self.sizes(after)
            )
        } else {
            format!(
                "Put {held} stitches in the middle of the underside on waste yarn; {} are left. Cut the yarn and \
                 leave the sleeve on a spare thread.",
                self.sizes(after)
            )
        }
    }

    pub(super) fn join(&self, stages: &[&Stage], after: &[usize]) -> String {
        let parts = |pick: fn(&StageKind) -> usize| -> Vec<usize> {
            stages.iter().map(|stage| pick(&stage.kind)).collect()
        };
        let half = parts(|kind| match kind {
            StageKind::Join { body, underarm, .. } => body.saturating_sub(2 * underarm) / 2,
            _ => 0,
        });
        let sleeve = parts(|kind| match kind {
            StageKind::Join {
                sleeve, underarm, ..
            } => sleeve.saturating_sub(*underarm),
            _ => 0,
        });
        // The round that joins is the first of the plain ones above it, where there are any.
        let counted = if self.pieces.iter().all(plain_above_join) {
            "This is the first plain round of the next step."
        } else {
            "Slip them on; the next step is the first round."
        };
        format!(
            "On to one long needle, with a new strand of the body’s yarn, knit {} stitches of a sleeve, {} of the front, {} of the \
             other sleeve, {} of the back: {} stitches. Mark the start of the round, between the back and the first sleeve. {counted}",
            self.sizes(&sleeve),
            self.sizes(&half),
            self.sizes(&sleeve),
            self.sizes(&half),
            self.sizes(after)
        )
    }

    /// Short rows: the one plain round in which they stand, their turns, and how the turned stitches are closed.
    pub(super) fn short_rows(&self, part: usize, stages: &[&Stage]) -> (String, Vec<String>) {
        let text = |stage: &Stage| match &stage.kind {
            StageKind::ShortRows(turns) => {
                let past: Vec<String> = turns.iter().map(|t| t.past_centre.to_string()).collect();
                past.join(", ")
            }
            _ => String::new(),
        };
        let (how, rows) = match self.each(&text, stages) {
            Told::Inline(text) => (text, Vec::new()),
            Told::Table(rows) => ("see the table “Size by size”".to_owned(), rows),
        };
        // Rounds begin between the back and the first sleeve, so the middle of the back lies before their end.
        let before_end: Vec<usize> = self
            .pieces
            .iter()
            .zip(stages)
            .map(|(piece, stage)| {
                let joins = piece
                    .parts
                    .get(part)
                    .into_iter()
                    .flat_map(|part| &part.stages);
                let mut back = joins.filter_map(|stage| match stage.kind {
                    StageKind::Join { body, underarm, .. } => {
                        Some((body.saturating_sub(2 * underarm) / 2, stage.after))
                    }
                    _ => None,
                });
                let (back, joined) = back.next_back().unwrap_or((0, 1));
                (stage.before * back / joined.max(1)).div_ceil(2)
            })
            .collect();
        let centre = self.wording.centre();
        let text = format!(
            "In the plain round of the table’s last line stop {} stitches before its end: there is the {centre} of the back; hang a marker. Knit on past it \
             and turn, purl back past it to the other side and turn, and so on, so many stitches past the {centre} at each turn: \
             {how}. At each turn bring the yarn to the front, slip the first stitch and draw the yarn over the needle until its two \
             legs lie there. Slip the marker of the round as you pass it. After the last turn knit on past the {centre} to the marker of the round, and take the other out. Where a longer row passes a turned stitch, and in the \
             first round of the next step, work its two legs together as one stitch, so that the count stays.",
            self.sizes(&before_end)
        );
        (text, rows)
    }
}
