//! Tables beside the instructions: rounds of a crown, stages of a yoke, finished measures, yarn.

use crate::course::Band;
use crate::ground::units::plain_number;
use crate::piece::schedule::yoke::{ARMHOLE_OVER, DepthRule, NECK_OVER, NeckRule};
use crate::piece::yarn::{Basis, TAIL};
use crate::piece::{Decided, PartName, Stage, StageKind};
use crate::words::capital;
use crate::words::labels::{PLAIN_ROUND, UNKNOWN};
use crate::words::steps::author::Author;
use crate::words::steps::told::RoundTable;
use crate::words::{
    join_and, length_number, length_text, measured_name, round_text, round_words, unit_name,
    yarn_text,
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

    /// Tables that belong to the sizes: finished measures, and yarn.
    pub(crate) fn measured(&self) -> Vec<RoundTable> {
        self.measures_table()
            .into_iter()
            .chain(self.yarn_table())
            .collect()
    }

    /// Finished measures beside the girth, where there are any.
    fn measures_table(&self) -> Option<RoundTable> {
        let first = self.pieces.first()?;
        if first.finished.len() < 2 {
            return None;
        }
        let rows = (0..first.finished.len()).map(|i| {
            let name = first.finished.get(i).map_or("", |f| measured_name(f.what));
            let mut row = vec![capital(name)];
            row.extend(self.pieces.iter().map(|piece| {
                let finished = piece.finished.get(i);
                finished.map_or_else(String::new, |f| {
                    length_number(f.length, self.wording.units())
                })
            }));
            row
        });
        Some(RoundTable {
            title: format!("Finished measures, {}", unit_name(self.wording.units())),
            head: self.heads("Measure"),
            rows: rows.collect(),
            note: String::new(),
            words: false,
            yours: self.yours.map(|at| at + 1),
        })
    }

    /// Yarn a colour and a size: grams used and to buy (metres where only those are known).
    fn yarn_table(&self) -> Option<RoundTable> {
        let all = self.amounts;
        let (basis, _) = all.first()?;
        let number = |value: f64| plain_number(value.ceil(), 0);
        let rows = self.lesson.yarns.iter().enumerate().map(|(i, yarn)| {
            let mut row = vec![yarn.name.clone()];
            row.extend(all.iter().map(|(_, amounts)| {
                let Some(amount) = amounts.get(i) else {
                    return String::new();
                };
                match (amount.grams, amount.balls, amount.metres, amount.buy_metres) {
                    (Some(used), Some(balls), _, _) => format!("{} g: {balls}", number(used)),
                    (_, _, Some(used), Some(buy)) => {
                        let text = |metres: f64| yarn_text(metres.ceil(), self.wording.units());
                        format!("{}: {}", text(used), text(buy))
                    }
                    _ => String::new(),
                }
            }));
            row
        });
        let basis = match basis {
            Basis::Weighed => "From the weighed swatch.".to_owned(),
            Basis::Loops => format!(
                "From every stitch by its gauge, every float, and {} for each tail; hands differ, so weigh your swatch.",
                round_text(TAIL, self.wording.units())
            ),
        };
        Some(RoundTable {
            title: "Yarn: grams used, and balls of 50 g to buy".to_owned(),
            head: self.heads(&capital(self.wording.colour())),
            rows: rows.collect(),
            note: format!(
                "{basis} Bought is a fifth more and a swatch, in whole balls of one dye lot."
            ),
            words: false,
            yours: self.yours.map(|at| at + 1),
        })
    }

    fn heads(&self, first: &str) -> Vec<String> {
        let mut heads = vec![first.to_owned()];
        heads.extend(self.pieces.iter().map(|piece| {
            piece
                .size
                .as_ref()
                .map_or_else(|| "All".to_owned(), |size| size.label.clone())
        }));
        heads
    }

    /// Sizes whose rounds are the same share a column.
    fn round_table(&self, part: usize) -> RoundTable {
        let mut columns: Vec<(Vec<String>, Vec<String>)> = Vec::new();
        for piece in self.pieces {
            let label = piece
                .size
                .as_ref()
                .map_or_else(|| "All".to_owned(), |size| size.label.clone());
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
        let longest = columns.iter().map(|(_, c)| c.len()).max().unwrap_or(0);
        // A round that is plain in every size says nothing but its number.
        let is_plain = |i: &usize| {
            let mut cells = columns.iter().filter_map(|(_, c)| c.get(*i));
            cells.all(|cell| cell == PLAIN_ROUND)
        };
        let (plain, told): (Vec<usize>, Vec<usize>) = (0..longest).partition(is_plain);
        let rows = told.into_iter().map(|i| {
            let mut row = vec![(i + 1).to_string()];
            row.extend(
                columns
                    .iter()
                    .map(|(_, c)| c.get(i).cloned().unwrap_or_default()),
            );
            row
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
            note: match plain.is_empty() {
                true => String::new(),
                false => format!("A {} that is not named is plain.", self.line()),
            },
            words: false,
            yours: own.filter(|_| columns.len() > 1).map(|at| at + 1),
        }
    }

    fn yoke_table(&self, part: usize) -> RoundTable {
        let stages = |i: usize| -> Vec<&Stage> {
            let each = self.pieces.iter();
            each.filter_map(|p| p.parts.get(part)?.stages.get(i))
                .collect()
        };
        let number = self
            .pieces
            .first()
            .and_then(|p| p.parts.get(part))
            .map_or(0, |p| p.stages.len());
        let mut rows = Vec::new();
        for i in 0..number {
            let stages = stages(i);
            let Some(first) = stages.first() else {
                continue;
            };
            let rounds: Vec<usize> = stages.iter().map(|s| s.rounds).collect();
            let what = match &first.kind {
                StageKind::Join { .. } => "Join".to_owned(),
                StageKind::Plain(..) if rounds.iter().all(|r| *r == 0) => continue,
                StageKind::Plain(..) => format!("{} plain", self.plain_lines(&rounds)),
                StageKind::Change(_) if stages.iter().all(|s| s.before == s.after) => continue,
                StageKind::Change(_) => "1 round, narrowing".to_owned(),
                StageKind::Band(band, _) => match self.lesson.bands.get(*band) {
                    Some(Band::Chart { what, .. }) => {
                        format!("{}, {}", what.chart.title, self.plain_lines(&rounds))
                    }
                    _ => format!("Side by side, {}", self.plain_lines(&rounds)),
                },
                StageKind::Rib(_) => format!("Rib, {}", self.plain_lines(&rounds)),
                StageKind::ShortRows(_) => "1 round plain, with the short rows".to_owned(),
                _ => continue,
            };
            let mut row = vec![what];
            // A size that does not narrow here has no such round.
            let skipped = |s: &Stage| matches!(s.kind, StageKind::Change(_)) && s.before == s.after;
            row.extend(stages.iter().map(|s| match skipped(s) {
                true => UNKNOWN.to_owned(),
                false => s.after.to_string(),
            }));
            rows.push(row);
        }
        RoundTable {
            title: "The yoke from the join to the neck: stitches after each stage".to_owned(),
            head: self.heads("Stage"),
            rows,
            note: self.decided(),
            words: false,
            yours: self.yours.map(|at| at + 1),
        }
    }

    /// Which rules decided neck and depth, by size.
    fn decided(&self) -> String {
        let text = |length| length_text(length, self.wording.units());
        let words = |decided: &Decided| match decided {
            Decided::Neck(NeckRule::Percentage) => "neck 40 % of the body".to_owned(),
            Decided::Neck(NeckRule::Head) => "neck as wide as the head needs".to_owned(),
            Decided::Neck(NeckRule::NeckBase) => {
                format!("neck no wider than its base and {}", text(NECK_OVER))
            }
            Decided::Depth(DepthRule::Percentage) => "depth a quarter of the body".to_owned(),
            Decided::Depth(DepthRule::Armhole) => {
                format!("depth no more than the armhole and {}", text(ARMHOLE_OVER))
            }
            Decided::Depth(DepthRule::Bands) => "depth as the bands need".to_owned(),
        };
        let each: Vec<(String, String)> = self
            .pieces
            .iter()
            .map(|piece| {
                let label = piece.size.as_ref().map_or("", |s| s.label.as_str());
                let rules: Vec<String> = piece.decided.iter().map(words).collect();
                (label.to_owned(), rules.join(", "))
            })
            .collect();
        let mut groups: Vec<(String, Vec<String>)> = Vec::new();
        for (label, rules) in each {
            match groups.iter_mut().find(|(known, _)| *known == rules) {
                Some((_, labels)) => labels.push(label),
                None => groups.push((rules, vec![label])),
            }
        }
        let texts: Vec<String> = groups
            .into_iter()
            .map(|(rules, labels)| format!("{}: {rules}", join_and(&labels)))
            .collect();
        format!("What decided. {}.", texts.join("; "))
    }
}
