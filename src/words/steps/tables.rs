//! Tables beside the instructions: rounds of a crown, stages of a yoke, finished measures, yarn.

use crate::ground::units::Length;
use crate::ground::units::plain_number;
use crate::piece::yarn::{Basis, TAIL};
use crate::piece::{PartName, Piece, Stage, StageKind};
use crate::words::labels::{self, PLAIN_ROUND};
use crate::words::steps::author::Author;
use crate::words::steps::told::{RoundTable, SizeTable};
use crate::words::{
    capital, count, count_name, join_and, length_number, measured_name, range_number, round_text,
    round_words, unit_name, yarn_text,
};

impl Author<'_> {
    /// Tables of rounds: crowns, tops, tips; and a yoke's counts from the join to the neck.
    pub(crate) fn tables(&self) -> Vec<RoundTable> {
        let Some(first) = self.pieces.first() else {
            return Vec::new();
        };
        let mut tables: Vec<RoundTable> = Vec::new();
        for (part, named) in first.parts.iter().enumerate() {
            let parts = self.pieces.iter().filter_map(|piece| piece.parts.get(part));
            let shaped = |s: &Stage| matches!(s.kind, StageKind::Rounds(_)) && s.rounds > 0;
            if parts.flat_map(|part| &part.stages).any(shaped) {
                tables.push(self.round_table(part));
            }
            if named.name == PartName::Yoke {
                tables.push(self.yoke_table(part));
            }
        }
        tables
    }

    /// One table of all that differs from size to size before a stitch is worked: whom it fits, what comes out, what is
    /// cast on, and the yarn; `fits` are the girths of the bodies.
    pub(crate) fn size_table(
        &self,
        fits: &[(&'static str, (Length, Length))],
    ) -> Option<SizeTable> {
        let first = self.pieces.first()?;
        let units = self.wording.units();
        let unit = unit_name(units);
        let mut rows = Vec::new();
        let mut row = |name: String, cell: &dyn Fn(usize, &Piece) -> String| {
            let mut cells = vec![name];
            cells.extend(
                self.pieces
                    .iter()
                    .enumerate()
                    .map(|(i, piece)| cell(i, piece)),
            );
            rows.push((None, cells));
        };
        if let Some((body, _)) = fits.first() {
            row(labels::to_fit(body, unit), &|i, _| {
                fits.get(i)
                    .map_or_else(String::new, |(_, range)| range_number(*range, units))
            });
        }
        for (i, measured) in first.finished.iter().enumerate() {
            row(
                format!("{}, {unit}", capital(measured_name(measured.what))),
                &|_, piece| {
                    let finished = piece.finished.get(i);
                    finished.map_or_else(String::new, |f| length_number(f.length, units))
                },
            );
        }
        let begun = |piece: &Piece| -> usize {
            let stage = piece.parts.first().and_then(|part| part.stages.first());
            stage.map_or(piece.main.stitches, |stage| stage.after)
        };
        // A crown that is begun with begins with a ring, as its first step says.
        let other = |piece: &Piece| begun(piece) != piece.main.stitches;
        if !self.lesson.crown_first && self.pieces.iter().any(other) {
            let name = self.says().cast_on_name().to_owned();
            row(name, &|_, piece| begun(piece).to_string());
        } else {
            let counted = count_name(self.lesson.makes).to_owned();
            row(counted, &|_, piece| piece.main.stitches.to_string());
        }
        rows.extend(self.yarn_rows());
        Some(SizeTable {
            head: self.heads(labels::SIZE),
            rows,
            note: self.bought(),
            yours: self.yours.map(|at| at + 1),
        })
    }

    /// Yarn a colour and a size: grams used and balls to buy (metres where only those are known).
    fn yarn_rows(&self) -> Vec<(Option<usize>, Vec<String>)> {
        let number = |value: f64| plain_number(value.ceil(), 0);
        let all = self.amounts;
        let each = self.lesson.yarns.iter().enumerate().map(|(i, yarn)| {
            let mut row = vec![yarn.name.clone()];
            row.extend(all.iter().map(|(_, amounts)| {
                let Some(amount) = amounts.get(i) else {
                    return String::new();
                };
                match (amount.grams, amount.balls, amount.metres, amount.buy_metres) {
                    (Some(used), Some(balls), _, _) => {
                        format!(
                            "{} g, {}",
                            number(used),
                            count(balls as usize, "ball", "balls")
                        )
                    }
                    (_, _, Some(used), Some(buy)) => {
                        let text = |metres: f64| yarn_text(metres.ceil(), self.wording.units());
                        format!("{}, buy {}", text(used), text(buy))
                    }
                    _ => String::new(),
                }
            }));
            row.resize(self.pieces.len() + 1, String::new());
            (Some(i), row)
        });
        each.collect()
    }

    /// What the yarn of the table is, in a line; nothing where none is reckoned.
    fn bought(&self) -> String {
        match self.amounts.first() {
            None => String::new(),
            Some((Basis::Weighed, _)) => labels::yarn_weighed(),
            Some((Basis::Loops, _)) => {
                labels::yarn_reckoned(&round_text(TAIL, self.wording.units()))
            }
        }
    }

    pub(super) fn heads(&self, first: &str) -> Vec<String> {
        let mut heads = vec![first.to_owned()];
        heads.extend(self.pieces.iter().map(|piece| {
            piece
                .size
                .as_ref()
                .map_or_else(|| "All".to_owned(), |size| size.label.clone())
        }));
        heads
    }

    /// The rounds of a crown or top in words, a column for all sizes that work alike: their names, and each round.
    fn shaped_rounds(&self, part: usize) -> Vec<(Vec<String>, Vec<String>)> {
        let mut columns: Vec<(Vec<String>, Vec<String>)> = Vec::new();
        for (piece, label) in self.pieces.iter().zip(self.heads("").into_iter().skip(1)) {
            let stages = piece.parts.get(part).map(|part| part.stages.as_slice());
            let rounds = stages
                .unwrap_or_default()
                .iter()
                .filter_map(|s| match &s.kind {
                    StageKind::Rounds(rounds) => Some(rounds),
                    _ => None,
                });
            let words: Vec<String> = rounds
                .flatten()
                .map(|round| round_words(&round.work, round.after, &self.says().verbs()))
                .collect();
            match columns.iter_mut().find(|(_, known)| *known == words) {
                Some((labels, _)) => labels.push(label),
                None => columns.push((vec![label], words)),
            }
        }
        columns
    }

    /// Whether a round of a crown or top is plain in every size: it says nothing but its number.
    pub(super) fn has_plain_rounds(&self, part: usize) -> bool {
        let columns = self.shaped_rounds(part);
        let longest = columns.iter().map(|(_, c)| c.len()).max().unwrap_or(0);
        (0..longest).any(|i| is_plain(&columns, i))
    }

    /// Sizes whose rounds are the same share a column.
    fn round_table(&self, part: usize) -> RoundTable {
        let columns = self.shaped_rounds(part);
        let longest = columns.iter().map(|(_, c)| c.len()).max().unwrap_or(0);
        let rows = (0..longest).filter(|i| !is_plain(&columns, *i)).map(|i| {
            let cells = columns
                .iter()
                .map(|(_, c)| c.get(i).cloned().unwrap_or_default());
            std::iter::once((i + 1).to_string()).chain(cells).collect()
        });
        let mut head = vec![capital(self.line())];
        head.extend(columns.iter().map(|(labels, _)| join_and(labels)));
        let own = self
            .yours
            .and_then(|at| self.heads("").get(at + 1).cloned());
        let own = own.and_then(|label| columns.iter().position(|(all, _)| all.contains(&label)));
        RoundTable {
            title: format!(
                "{}, {} by {}",
                self.top_name(part),
                self.line(),
                self.line()
            ),
            head,
            rows: rows.collect(),
            note: String::new(),
            words: false,
            yours: own.filter(|_| columns.len() > 1).map(|at| at + 1),
        }
    }
}

/// Whether a round is plain in every size that has it.
fn is_plain(columns: &[(Vec<String>, Vec<String>)], round: usize) -> bool {
    let mut cells = columns.iter().filter_map(|(_, c)| c.get(round));
    cells.all(|cell| cell == PLAIN_ROUND)
}
