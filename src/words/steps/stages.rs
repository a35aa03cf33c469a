//! Instructions from the schedules of all sizes, in the trade's notation. Every count is read from a stage.

use crate::course::Band;
use crate::course::body::Makes;
use crate::piece::{Stage, StageKind};
use crate::words::steps::author::{Author, Told};
use crate::words::steps::bands::{Facts, band_text, plain_text, rib_text};
use crate::words::steps::joined::{end_with, ends, say_twice};
use crate::words::steps::resting::cut_after;
use crate::words::steps::told::{Instruction, RoundTable};
use crate::words::{
    Verbs, as_a_whole, join_and, labels, length_number, literal, needle_text, part_of_piece,
    spread_words, unit_name,
};

/// A step, and the row of the table that it points to, a cell for each size.
pub(super) type Drafted = (Instruction, Vec<String>);

impl Author<'_> {
    /// The instructions, part after part, and the table of what differs from size to size.
    pub(crate) fn steps(&self) -> (Vec<Instruction>, Option<RoundTable>) {
        let Some(first) = self.pieces.first() else {
            return (Vec::new(), None);
        };
        let mut steps = Vec::new();
        let mut rows: Vec<Vec<String>> = Vec::new();
        for (part, named) in first.parts.iter().enumerate() {
            let mut yarn = None;
            let first_step = steps.len();
            let mut striped = 0;
            // The stage that the last step tells.
            let mut told = None;
            let mut yoke_told = false;
            for index in 0..named.stages.len() {
                if index < striped {
                    continue;
                }
                if self.is_yoke_line(part, index) {
                    if !yoke_told {
                        let (step, more) = self.yoke_step(part);
                        steps.push(step);
                        rows.extend(more);
                        told = Some(index);
                        yoke_told = true;
                    }
                    continue;
                }
                if let Some((step, end)) = self.stripes(part, index, &mut yarn) {
                    striped = end;
                    steps.push(step);
                    continue;
                }
                let stages: Vec<&Stage> = self
                    .pieces
                    .iter()
                    .filter_map(|piece| piece.parts.get(part)?.stages.get(index))
                    .collect();
                let told_with = told.is_some_and(|at| ends(&named.stages, at, index));
                let mut step = self.step(part, &stages, &mut yarn, told_with);
                if let Some((step, _)) = &mut step
                    && index == 0
                    && let Some(name) = part_of_piece(named.name)
                {
                    let twice = if named.times > 1 { ", twice" } else { "" };
                    step.title = format!("{name}{twice}");
                }
                let Some((mut step, differs)) = step else {
                    continue;
                };
                step.boxes = self.boxes(part, index);
                told = Some(index);
                match steps.last_mut() {
                    Some(last) if told_with => end_with(last, step),
                    _ => steps.push(step),
                }
                if !differs.is_empty() {
                    let mut row = vec![steps.len().to_string()];
                    row.extend(differs);
                    rows.push(row);
                }
            }
            if named.times > 1 {
                say_twice(&mut steps, first_step, named.name);
            }
        }
        steps.push(self.finish());
        let note = rows.iter().flatten().map(|cell| as_a_whole(cell));
        let note = note.max_by_key(|note| note.len()).unwrap_or_default();
        let table = (!rows.is_empty()).then(|| RoundTable {
            title: "Size by size".to_owned(),
            head: self.heads("Step"),
            note: note.trim().to_owned(),
            rows,
            words: true,
            yours: self.yours.map(|at| at + 1),
        });
        (steps, table)
    }

    /// The step of one stage in all sizes; `follows` where it is told with the plain rounds before it.
    fn step(
        &self,
        part: usize,
        stages: &[&Stage],
        yarn: &mut Option<usize>,
        follows: bool,
    ) -> Option<Drafted> {
        let first = stages.first()?;
        let after: Vec<usize> = stages.iter().map(|s| s.after).collect();
        let rounds: Vec<usize> = stages.iter().map(|s| s.rounds).collect();
        let drafted = |title: &str, text: String, rows| Some((Instruction::new(title, text), rows));
        let step = |title: &str, text: String| drafted(title, text, Vec::new());
        match &first.kind {
            StageKind::CastOn => step("Begin", self.begin(part, &after)),
            StageKind::Rib(band) => {
                *yarn = self.yarn_of(*band).or(*yarn);
                let text = rib_text(self, *band, &self.ground(*yarn), &rounds);
                step(labels::RIB, self.with_needle(part, first, text))
            }
            StageKind::Plain(band, until) => {
                *yarn = self.yarn_of(*band).or(*yarn);
                let untils: Vec<String> = stages
                    .iter()
                    .filter_map(|stage| match stage.kind {
                        StageKind::Plain(_, Some(_)) if stage.rounds == 0 => Some("–".to_owned()),
                        StageKind::Plain(_, Some(length)) => {
                            Some(length_number(length, self.wording.units()))
                        }
                        _ => None,
                    })
                    .collect();
                let until = until.map(|_| {
                    format!(
                        "{} {}",
                        self.sizes(&untils),
                        unit_name(self.wording.units())
                    )
                });
                let text = plain_text(self, *band, &self.ground(*yarn), &rounds, until.as_deref());
                let cut = cut_after(self, *band, *yarn);
                let counted = self.made_in_foundation(part, first);
                text.and_then(|text| step(labels::PLAIN, text + counted + &cut))
            }
            StageKind::Change(_) => self.change(stages, &after, follows),
            StageKind::Band(band, _) => {
                let repeats: Vec<usize> = stages
                    .iter()
                    .map(|stage| match stage.kind {
                        StageKind::Band(_, repeats) => repeats,
                        _ => 0,
                    })
                    .collect();
                let facts = Facts {
                    band: *band,
                    repeats: &repeats,
                    before: &stages.iter().map(|s| s.before).collect::<Vec<_>>(),
                    after: &after,
                };
                band_text(self, &facts).map(|step| (step, Vec::new()))
            }
            StageKind::Rounds(_) if rounds.iter().all(|n| *n == 0) => None,
            StageKind::Rounds(_) => step(self.top_name(part), self.shaping(part, stages, &after)),
            StageKind::Increases { .. } => {
                let (text, rows) = self.increases(stages, &after);
                drafted("Widen", text, rows)
            }
            StageKind::Hold(_) => step("Underarm", self.hold(part, stages, &after)),
            StageKind::Join { .. } => step("Join", self.join(stages, &after)),
            StageKind::Opening { .. } => step("Thumb opening", self.opening(stages)),
            StageKind::PickUp(_) => step(
                "Thumb",
                format!(
                    "Take out the waste yarn and put its stitches, below and above, on the needles of the hand; with one picked up \
                     in each corner these are {}. Join {} at one corner, where the rounds begin; in the first round knit the corner stitches through their backs.",
                    self.sizes(&after),
                    self.ground(
                        self.lesson
                            .bands
                            .iter()
                            .enumerate()
                            .find_map(|(i, _)| self.yarn_of(Some(i)))
                    )
                ),
            ),
            StageKind::ShortRows(_) => {
                let (text, rows) = self.short_rows(part, stages);
                drafted("Back of the neck", text, rows)
            }
            StageKind::CastOff => step(labels::EDGE, self.edge(part)),
            StageKind::DrawUp => step(
                "Close",
                "Cut the yarn, draw it twice through the stitches that are left and fasten it inside.".to_owned(),
            ),
        }
    }

    /// That the first of these rows is made in the foundation, where it is.
    fn made_in_foundation(&self, part: usize, stage: &Stage) -> &'static str {
        let part = self.pieces.first().and_then(|piece| piece.parts.get(part));
        let second = part.and_then(|part| part.stages.get(1));
        let is_second = second.is_some_and(|second| std::ptr::eq(second, stage));
        if is_second && self.says().foundation_counts() {
            " The first of them is made."
        } else {
            ""
        }
    }

    pub(super) fn yarn_of(&self, band: Option<usize>) -> Option<usize> {
        match self.lesson.bands.get(band?)? {
            Band::Rib { yarn, .. } | Band::Plain { yarn, .. } => Some(*yarn),
            _ => None,
        }
    }

    fn begin(&self, part: usize, counts: &[usize]) -> String {
        let lesson = self.lesson;
        let first_yarn = lesson.bands.iter().enumerate().find_map(|(i, band)| {
            let chart = match band {
                Band::Chart { what, .. } => what.yarns.first().copied(),
                _ => None,
            };
            self.yarn_of(Some(i)).or(chart)
        });
        let yarn = self.ground(first_yarn);
        let stages = self.pieces.first().and_then(|p| p.parts.get(part));
        let rib_first = stages
            .and_then(|p| p.stages.get(1))
            .is_some_and(|stage| matches!(stage.kind, StageKind::Rib(_)));
        let needle = if rib_first {
            lesson.rib_needle.or(lesson.colourwork.needle)
        } else {
            lesson.colourwork.needle
        };
        let says = self.says();
        let with = needle.map_or_else(String::new, |n| {
            format!(
                " and the {} {}",
                needle_text(n, self.wording.units()),
                says.tool()
            )
        });
        let told =
            |more: usize| self.sizes(&counts.iter().map(|count| count + more).collect::<Vec<_>>());
        let body = part == 0 && lesson.makes == Makes::Yoke;
        let begin = if lesson.crown_first {
            says.ring(counts.first().copied().unwrap_or(0))
        } else {
            says.begin(&told, body)
        };
        format!("With {yarn}{with} {begin}")
    }

    /// An even change; nothing where no size has one.
    fn change(&self, stages: &[&Stage], after: &[usize], follows: bool) -> Option<Drafted> {
        if stages.iter().all(|stage| stage.before == stage.after) {
            return None;
        }
        let text = |stage: &Stage| match &stage.kind {
            StageKind::Change(spread) if spread.changes() > 0 => {
                let verbs = if self.is_purled(stage) {
                    Verbs::purled()
                } else {
                    self.says().verbs()
                };
                spread_words(spread, &verbs)
            }
            _ => labels::NOTHING.to_owned(),
        };
        let more = stages.iter().any(|s| s.after > s.before);
        let less = stages.iter().any(|s| s.after < s.before);
        let title = labels::change(more, less);
        let (how, rows) = match self.each(&text, stages) {
            Told::Inline(text) => (text, Vec::new()),
            Told::Table(rows) => ("see the table “Size by size”".to_owned(), rows),
        };
        let by: Vec<usize> = stages.iter().map(|s| s.before.abs_diff(s.after)).collect();
        let verb = match (more, less) {
            (true, false) => "increase",
            _ => "decrease",
        };
        let skip = match by.contains(&0) {
            true => format!(" Where that is 0, leave that {} out.", self.line()),
            false => String::new(),
        };
        let side = if stages.iter().any(|stage| self.is_purled(stage)) {
            " (wrong side, purled)"
        } else {
            ""
        };
        let one = if follows {
            "one more plain"
        } else {
            "one plain"
        };
        let next = format!("In {one} {}{side}", self.line());
        let whole = as_a_whole(&how);
        let text = if more && less {
            format!(
                "{next} come to {} stitches: {how}.{whole}{}",
                self.sizes(after),
                self.left_out(&by)
            )
        } else {
            format!(
                "{next} {verb} {} {} evenly, to {}: {how}.{whole}{skip}",
                self.sizes(&by),
                if by.iter().all(|n| *n == 1) {
                    "stitch"
                } else {
                    "stitches"
                },
                self.sizes(after)
            )
        };
        Some((Instruction::new(title, text), rows))
    }

    /// Which sizes have nothing to change.
    fn left_out(&self, by: &[usize]) -> String {
        let sizes = self.pieces.iter().zip(by).filter(|(_, by)| **by == 0);
        let names: Vec<&str> = sizes
            .filter_map(|(piece, _)| Some(piece.size.as_ref()?.label.as_str()))
            .collect();
        match names.is_empty() {
            true => String::new(),
            false => format!(" {}: {}.", literal(&join_and(&names)), labels::NOTHING),
        }
    }

    /// A rib with the change of needle that it asks for: after it at the beginning of a part, before it at the end.
    fn with_needle(&self, part: usize, rib: &Stage, text: String) -> String {
        let (Some(thin), Some(thick)) = (self.lesson.rib_needle, self.lesson.colourwork.needle)
        else {
            return text;
        };
        if thin == thick {
            return text;
        }
        let part = self.pieces.first().and_then(|piece| piece.parts.get(part));
        let lower = part
            .and_then(|part| part.stages.get(1))
            .is_some_and(|second| std::ptr::eq(second, rib));
        let needle = |length| needle_text(length, self.wording.units());
        if lower {
            format!("{text} Change to the {} needle.", needle(thick))
        } else {
            format!("Change to the {} needle. {text}", needle(thin))
        }
    }

    pub(super) fn top_name(&self, part: usize) -> &'static str {
        match (self.lesson.makes, part) {
            (Makes::Hat, _) => "Crown",
            (_, 0) => "Top",
            _ => "Tip",
        }
    }

    /// The rounds of a crown or top: told once, counted in a table.
    fn shaping(&self, part: usize, stages: &[&Stage], after: &[usize]) -> String {
        let before: Vec<usize> = stages.iter().map(|s| s.before).collect();
        let line = self.line();
        let staggered = match self.lesson.crown_first {
            true => {
                " In rounds 3, 5, 7 and so on work half of the first plain stitches before the first increase and the other half at \
                 the end, so that the increases do not stand in lines."
            }
            false => "",
        };
        let plain = match self.has_plain_rounds(part) {
            true => format!(" A {line} not named there is plain."),
            false => String::new(),
        };
        format!(
            "From {} stitches to {} by the table of the {}: the words of a {line}, over and over to its end.{plain}{staggered}",
            self.sizes(&before),
            self.sizes(after),
            self.top_name(part).to_lowercase()
        )
    }
}
