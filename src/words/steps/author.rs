//! What instructions are written from, and how they name lines and the numbers of all sizes.

use crate::course::Lesson;
use crate::course::chart::Worked;
use crate::piece::yarn::{Amount, Basis};
use crate::piece::{Piece, Stage, StageKind};
use crate::study::Studied;
use crate::words::{CraftWords, Wording, join_and, labels, literal};

/// Numbers of all sizes: `88 (96, 104)`, one alone when they agree.
#[must_use]
pub(super) fn all_sizes<T: ToString + PartialEq>(values: &[T]) -> String {
    match values {
        [] => String::new(),
        [first, rest @ ..] if rest.iter().all(|v| v == first) => first.to_string(),
        [first, rest @ ..] => {
            let rest: Vec<String> = rest.iter().map(ToString::to_string).collect();
            format!("{} ({})", first.to_string(), rest.join(", "))
        }
    }
}

/// What differs from size to size: in the step itself, or as a row of a table, a cell for each size.
pub(super) enum Told {
    Inline(String),
    Table(Vec<String>),
}

/// What instructions are written from.
pub(crate) struct Author<'a> {
    pub(crate) lesson: &'a Lesson,
    pub(crate) pieces: &'a [Piece],
    pub(crate) amounts: &'a [(Basis, Vec<Amount>)],
    pub(crate) studied: &'a Studied<'a>,
    pub(crate) wording: Wording,
    /// The place of the learner's own size, if one is to stand out.
    pub(crate) yours: Option<usize>,
}

impl Author<'_> {
    /// The words of the lesson's craft.
    pub(super) const fn says(&self) -> CraftWords {
        CraftWords::of(self.lesson, self.wording)
    }

    /// Numbers of all sizes in running text, the learner's own in bold: `88 (96, **104**)`.
    pub(super) fn sizes<T: ToString + PartialEq>(&self, values: &[T]) -> String {
        let mark = |(i, value): (usize, &T)| match self.yours {
            Some(yours) if yours == i => format!("**{}**", value.to_string()),
            _ => value.to_string(),
        };
        match values {
            [first, rest @ ..] if rest.iter().any(|value| value != first) => {
                all_sizes(&values.iter().enumerate().map(mark).collect::<Vec<_>>())
            }
            _ => all_sizes(values),
        }
    }

    /// Whether a stage of knitting begins on a wrong side: rows are counted from the first that is no rib.
    pub(super) fn is_purled(&self, stage: &Stage) -> bool {
        if !self.lesson.turns() || !self.lesson.craft.purls() {
            return false;
        }
        let parts = self.pieces.iter().flat_map(|piece| &piece.parts);
        let mut holding = parts.filter_map(|part| {
            let at = part
                .stages
                .iter()
                .position(|one| std::ptr::eq(one, stage))?;
            let rib = |one: &&Stage| matches!(one.kind, StageKind::CastOn | StageKind::Rib(_));
            let beneath = part.stages.iter().take(at).skip_while(rib);
            Some(beneath.map(|one| one.rounds).sum::<usize>())
        });
        holding.next().is_some_and(|rows| rows % 2 == 1)
    }

    pub(super) fn line(&self) -> &'static str {
        if self.lesson.worked == Worked::Round {
            "round"
        } else {
            "row"
        }
    }

    /// `3 (4, 5) rounds`, the learner's own number in bold.
    pub(super) fn lines(&self, n: &[usize]) -> String {
        counted(self.line(), n, &self.sizes(n))
    }

    /// The same for a cell of a table, where nothing is bold.
    pub(super) fn plain_lines(&self, n: &[usize]) -> String {
        counted(self.line(), n, &all_sizes(n))
    }

    /// Something of each size that differs: said once when all agree, in a sentence where two things are to be said, else
    /// in a table that the step points to, a cell for each size.
    pub(super) fn each(&self, text: &dyn Fn(&Stage) -> String, stages: &[&Stage]) -> Told {
        let mut groups: Vec<(String, Vec<&str>)> = Vec::new();
        let cells: Vec<String> = stages.iter().map(|stage| text(stage)).collect();
        for (piece, text) in self.pieces.iter().zip(&cells) {
            let label = piece.size.as_ref().map_or("", |size| size.label.as_str());
            match groups.iter_mut().find(|(known, _)| known == text) {
                Some((_, labels)) => labels.push(label),
                None => groups.push((text.clone(), vec![label])),
            }
        }
        // A size that has nothing to do is told by its number.
        let told = groups.iter().filter(|(text, _)| text != labels::NOTHING);
        match groups.as_slice() {
            [(only, _)] => Told::Inline(only.clone()),
            [_, _] | [_, _, _] => {
                let each =
                    told.map(|(text, labels)| format!("{}: {text}", literal(&join_and(labels))));
                Told::Inline(each.collect::<Vec<_>>().join(". "))
            }
            _ => Told::Table(cells),
        }
    }

    /// The yarn of plain work that no band names: that of the band beneath, or the first.
    pub(super) fn ground(&self, last: Option<usize>) -> String {
        let yarn = self.lesson.yarns.get(last.unwrap_or(0));
        yarn.map_or_else(|| "the yarn".to_owned(), |yarn| literal(&yarn.name))
    }
}

fn counted(word: &str, n: &[usize], sizes: &str) -> String {
    if n.iter().all(|n| *n == 1) {
        format!("1 {word}")
    } else {
        format!("{sizes} {word}s")
    }
}
