//! The opening of a thumb, told before the rounds in which it comes.

use crate::course::Band;
use crate::piece::{Piece, Stage, StageKind};
use crate::rows::drawn;
use crate::words::capital;
use crate::words::steps::author::Author;

impl Author<'_> {
    pub(super) fn opening(&self, stages: &[&Stage]) -> String {
        let openings = stages.iter().map(|stage| match stage.kind {
            StageKind::Opening { held, round } => (held, round),
            _ => (0, 0),
        });
        let (held, rounds): (Vec<usize>, Vec<usize>) = openings.unzip();
        let (held, rounds) = (self.sizes(&held), self.sizes(&rounds));
        let place = self.opening_in_chart().map(|rows| {
            let line = self.line();
            format!(" ({line} {} of the chart)", self.sizes(&rows))
        });
        let place = place.unwrap_or_default();
        let cuff = matches!(self.lesson.bands.first(), Some(Band::Rib { .. }));
        let from = if cuff { "the rib" } else { "the edge" };
        // Worked from left to right the piece is its own mirror, and so is the hand that it fits.
        let sides = [self.wording.right(), self.wording.left()];
        let [first, last] = sides.map(capital);
        format!(
            "Comes in round {rounds} above {from}{place}, whatever is worked there: read this now, and mark the round. {first} hand: at \
             the start of the round work {held} stitches with waste yarn, slip them back and work them again as the round says. \
             {last} hand: the same with the last {held} stitches of the round. The count stays."
        )
    }

    /// The chart's row in which the thumb of each size opens, where all open in a chart.
    fn opening_in_chart(&self) -> Option<Vec<usize>> {
        let row = |piece: &Piece| {
            let mut stages = piece.parts.first()?.stages.iter();
            let mut left = stages.find_map(|stage| match stage.kind {
                StageKind::Opening { round, .. } => Some(round),
                _ => None,
            })?;
            let stage = stages.find(|stage| {
                let here = left <= stage.rounds;
                left -= if here { 0 } else { stage.rounds };
                here
            })?;
            let StageKind::Band(band, _) = stage.kind else {
                return None;
            };
            match self.lesson.bands.get(band)? {
                Band::Chart { what, times } => drawn::rows_worked(&what.chart, *times)
                    .nth(left - 1)
                    .map(|row| row + 1),
                _ => None,
            }
        };
        self.pieces.iter().map(row).collect()
    }
}
