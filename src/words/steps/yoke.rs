//! A yoke as a table of its rounds, and the one step that points to it.

use crate::course::Band;
use crate::piece::schedule::yoke::{ARMHOLE_OVER, DepthRule, NECK_OVER, NeckRule};
use crate::piece::{Decided, PartName, Stage, StageKind};
use crate::words::labels::{self, UNKNOWN};
use crate::words::steps::author::Author;
use crate::words::steps::resting::resting;
use crate::words::steps::told::{Instruction, RoundTable};
use crate::words::{join_and, length_text, spread_words};

impl Author<'_> {
    /// Whether a stage is a line of the table of a yoke: a band, plain rounds, a narrowing.
    pub(super) fn is_yoke_line(&self, part: usize, index: usize) -> bool {
        let part = self.pieces.first().and_then(|piece| piece.parts.get(part));
        let Some(part) = part.filter(|part| part.name == PartName::Yoke) else {
            return false;
        };
        part.stages.get(index).is_some_and(is_line)
    }

    /// The step of all lines of a yoke, and the rows of “Size by size” that its narrowings ask for.
    pub(super) fn yoke_step(&self, part: usize) -> (Instruction, Vec<Vec<String>>) {
        let narrowings = self.narrowings(part);
        // In one size the table of lines has room for how; in several another table says it.
        let alone = self.pieces.len() == 1;
        let row = |(letter, stages): &(String, Vec<&Stage>)| {
            let cells = stages.iter().map(|stage| self.narrowing(stage));
            std::iter::once(letter.clone()).chain(cells).collect()
        };
        let rows = narrowings.iter().filter(|_| !alone).map(row).collect();
        let narrowing = match narrowings.is_empty() || alone {
            true => "",
            false => " A letter is a plain round that narrows: see the table “Size by size”.",
        };
        let table = self.yoke_table(part);
        let dashes = table.rows.iter().flatten().any(|cell| cell == UNKNOWN);
        let left_out = match dashes {
            true => " A dash: leave the line out.",
            false => "",
        };
        let lines = self.yoke_lines(part);
        let is_next = |stages: &&Vec<&Stage>| {
            let first = stages.first();
            first.is_some_and(|stage| matches!(stage.kind, StageKind::ShortRows(_)))
        };
        let last = match lines.last().filter(is_next) {
            Some(_) => "last, which is the next step",
            None => "last",
        };
        // Fewer stitches from line to line.
        let shorter = self.says().shorter_needle();
        let text = format!(
            "Work the lines of the table “{}” from its first to its {last}; its figures are the stitches after each.{left_out}{narrowing}{shorter}{}",
            labels::YOKE_TABLE,
            resting(self)
        );
        (Instruction::new(labels::YOKE_STEP, text), rows)
    }

    /// How a size narrows.
    fn narrowing(&self, stage: &Stage) -> String {
        match &stage.kind {
            StageKind::Change(spread) if spread.changes() > 0 => {
                spread_words(spread, &self.says().verbs())
            }
            _ => labels::NOTHING.to_owned(),
        }
    }

    /// The narrowings of a yoke in all sizes, each with its letter.
    fn narrowings(&self, part: usize) -> Vec<(String, Vec<&Stage>)> {
        let each = self.yoke_lines(part).into_iter();
        let narrow = each.filter(|stages| is_narrowing(stages));
        narrow
            .enumerate()
            .map(|(i, stages)| (labels::letter(i), stages))
            .collect()
    }

    /// The lines of a yoke in all sizes.
    fn yoke_lines(&self, part: usize) -> Vec<Vec<&Stage>> {
        let first = self.pieces.first().and_then(|piece| piece.parts.get(part));
        let all = first.map_or(&[][..], |part| &part.stages);
        let shown = |stage: &Stage| is_line(stage) || matches!(stage.kind, StageKind::ShortRows(_));
        let lines = (0..all.len()).filter(|i| all.get(*i).is_some_and(shown));
        lines
            .map(|i| {
                let each = self.pieces.iter();
                each.filter_map(|p| p.parts.get(part)?.stages.get(i))
                    .collect()
            })
            .collect()
    }

    /// A line for each band, plain stretch and narrowing: what is worked, and the stitches after it.
    pub(super) fn yoke_table(&self, part: usize) -> RoundTable {
        let mut rows = Vec::new();
        let mut letters = 0;
        let mut yarn = None;
        for stages in self.yoke_lines(part) {
            let Some(first) = stages.first() else {
                continue;
            };
            let rounds: Vec<usize> = stages.iter().map(|s| s.rounds).collect();
            let what = match &first.kind {
                StageKind::Plain(band, _) => {
                    yarn = self.yarn_of(*band).or(yarn);
                    if rounds.iter().all(|r| *r == 0) {
                        continue;
                    }
                    let say = match band.and_then(|at| self.lesson.bands.get(at)) {
                        Some(Band::Plain { say, .. }) if !say.is_empty() => format!(". {say}"),
                        _ => String::new(),
                    };
                    let yarn = self.ground(yarn);
                    format!("{yarn}, {}{say}", self.plain_lines(&rounds))
                }
                StageKind::ShortRows(_) => labels::SHORT_ROWS_LINE.to_owned(),
                StageKind::Change(_) if is_narrowing(&stages) => {
                    letters += 1;
                    match stages.as_slice() {
                        [only] => labels::narrowing_so(self.line(), &self.narrowing(only)),
                        _ => labels::narrowing(&labels::letter(letters - 1), self.line()),
                    }
                }
                StageKind::Change(_) => continue,
                StageKind::Band(band, _) => match self.lesson.bands.get(*band) {
                    Some(Band::Chart { what, .. }) => format!(
                        "{}, {}",
                        labels::chart_title(&what.chart.title),
                        self.plain_lines(&rounds)
                    ),
                    _ => format!("{}, {}", labels::SIDE_BY_SIDE, self.plain_lines(&rounds)),
                },
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
            title: labels::YOKE_TABLE.to_owned(),
            head: self.heads(labels::LINE),
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
            Decided::Neck(NeckRule::Percentage) => (labels::NECK, "40 % of the body".to_owned()),
            Decided::Neck(NeckRule::Head) => (labels::NECK, "as wide as the head needs".to_owned()),
            Decided::Neck(NeckRule::NeckBase) => {
                let most = format!("no wider than its base and {}", text(NECK_OVER));
                (labels::NECK, most)
            }
            Decided::Depth(DepthRule::Percentage) => {
                (labels::DEPTH, "a quarter of the body".to_owned())
            }
            Decided::Depth(DepthRule::Armhole) => {
                let most = format!("no more than the armhole and {}", text(ARMHOLE_OVER));
                (labels::DEPTH, most)
            }
            Decided::Depth(DepthRule::Bands) => (labels::DEPTH, "as the bands need".to_owned()),
        };
        let told = |what: &str| {
            let mut groups: Vec<(String, Vec<String>)> = Vec::new();
            for piece in self.pieces {
                let label = piece.size.as_ref().map_or("", |s| s.label.as_str());
                let rules = piece.decided.iter().map(words);
                for (_, rule) in rules.filter(|(of, _)| *of == what) {
                    match groups.iter_mut().find(|(known, _)| *known == rule) {
                        Some((_, labels)) => labels.push(label.to_owned()),
                        None => groups.push((rule, vec![label.to_owned()])),
                    }
                }
            }
            let each = match groups.as_slice() {
                [] => return None,
                [(rule, _)] => rule.clone(),
                several => {
                    let one = |(rule, labels): &(String, Vec<String>)| {
                        format!("{} {rule}", join_and(labels))
                    };
                    several.iter().map(one).collect::<Vec<_>>().join("; ")
                }
            };
            Some(format!("{what}: {each}."))
        };
        let both = [labels::NECK, labels::DEPTH];
        both.into_iter()
            .filter_map(told)
            .collect::<Vec<_>>()
            .join(" ")
    }
}

/// Whether a stage stands in the table of a yoke.
fn is_line(stage: &Stage) -> bool {
    matches!(
        stage.kind,
        StageKind::Plain(..) | StageKind::Change(_) | StageKind::Band(..)
    )
}

/// Whether any size narrows here.
fn is_narrowing(stages: &[&Stage]) -> bool {
    let changes =
        |stage: &&&Stage| matches!(stage.kind, StageKind::Change(_)) && stage.before != stage.after;
    stages.iter().any(|stage| changes(&stage))
}
