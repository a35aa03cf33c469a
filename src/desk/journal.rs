//! The steps of a draft on the disk: every text that a file had on the desk, one line of JSON a step, only ever added to.
//!
//! A process that is killed leaves at most a torn last line, which is not read. So a step is kept whole or not at all.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::app::store::{self, StoreError};
use crate::read::read_bytes;

/// From so many steps on the oldest go.
const MOST_STEPS: usize = 400;
/// How many stay then.
const KEPT_STEPS: usize = 200;
/// A journal of more bytes than these loses its oldest steps, too.
const MOST_BYTES: usize = 8 << 20;

/// A line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Line {
    /// How many lines were there before the oldest went.
    From(u64),
    /// The file's place in the course, of a draft without a file.
    New(String),
    /// The digest of the file's text on the disk that the draft rests on; nothing without a file.
    Base(Option<String>),
    /// A text: what stood behind the present step is gone.
    Text(String),
    /// Back or forth to this step.
    At(usize),
}

/// The steps of a file.
#[derive(Clone, Debug)]
pub(super) struct Journal {
    path: PathBuf,
    /// Lines so far: the number of a state.
    pub number: u64,
    texts: Vec<String>,
    at: usize,
    /// The digest of the text on the disk that the draft rests on.
    pub base: Option<String>,
    /// The place of a draft without a file.
    pub new: Option<String>,
}

impl Journal {
    /// A journal without a line.
    pub(super) fn empty(path: &Path) -> Self {
        Self {
            path: path.to_owned(),
            number: 0,
            texts: Vec::new(),
            at: 0,
            base: None,
            new: None,
        }
    }

    /// The journal in a file; one without a line where there is none.
    pub(super) fn read(path: &Path) -> Self {
        let mut journal = Self::empty(path);
        // Line by line: one that was torn in the midst of a letter costs itself.
        for line in read_bytes(path)
            .unwrap_or_default()
            .split(|byte| *byte == b'\n')
        {
            if let Ok(line) = serde_json::from_slice(line) {
                journal.follow(line);
            }
        }
        journal
    }

    fn follow(&mut self, line: Line) {
        self.number += 1;
        match line {
            Line::From(number) => self.number = number,
            Line::New(inside) => self.new = Some(inside),
            Line::Base(base) => self.base = base,
            Line::At(at) => self.at = at.min(self.texts.len().saturating_sub(1)),
            Line::Text(text) => {
                self.texts.truncate(self.at + 1);
                self.texts.push(text);
                self.at = self.texts.len() - 1;
            }
        }
    }

    /// The text of the present step.
    pub(super) fn text(&self) -> Option<&str> {
        self.texts.get(self.at).map(String::as_str)
    }

    /// Whether a text is that of a step.
    pub(super) fn knows(&self, text: &str) -> bool {
        self.texts.iter().any(|known| known == text)
    }

    /// Whether there is a step before the present one.
    pub(super) fn can_undo(&self) -> bool {
        self.at > 0
    }

    /// Whether there is a step after the present one.
    pub(super) fn can_redo(&self) -> bool {
        self.at + 1 < self.texts.len()
    }

    /// The line that goes one step back.
    pub(super) fn back(&self) -> Option<Line> {
        self.at.checked_sub(1).map(Line::At)
    }

    /// The line that goes one step forth.
    pub(super) fn forth(&self) -> Option<Line> {
        self.can_redo().then_some(Line::At(self.at + 1))
    }

    /// Adds lines, on the disk first.
    ///
    /// # Errors
    /// When the disk refuses; the journal is then as before.
    pub(super) fn add(&mut self, lines: Vec<Line>) -> Result<(), StoreError> {
        let mut text = String::new();
        for line in &lines {
            // These lines are texts and numbers; they always can be written.
            text.push_str(&serde_json::to_string(line).unwrap_or_default());
            text.push('\n');
        }
        store::append(&self.path, &text)?;
        lines.into_iter().for_each(|line| self.follow(line));
        let bytes: usize = self.texts.iter().map(String::len).sum();
        if self.texts.len() > MOST_STEPS || (bytes > MOST_BYTES && self.texts.len() > 2) {
            self.shorten()?;
        }
        Ok(())
    }

    /// Writes the journal anew with its youngest steps.
    fn shorten(&mut self) -> Result<(), StoreError> {
        let mut left = MOST_BYTES / 2;
        let kept = self.texts.iter().rev().take(KEPT_STEPS).take_while(|text| {
            let fits = text.len() <= left;
            left = left.saturating_sub(text.len());
            fits
        });
        let first = self.texts.len() - kept.count().max(1);
        let first = first.min(self.at);
        self.texts.drain(..first);
        self.at -= first;
        let mut lines = vec![Line::Base(self.base.clone())];
        lines.extend(self.new.clone().map(Line::New));
        lines.extend(self.texts.iter().cloned().map(Line::Text));
        lines.push(Line::At(self.at));
        let mut text = String::new();
        // Numbers go on as if nothing had gone.
        let before = (self.number + 1).saturating_sub(lines.len() as u64);
        for line in std::iter::once(Line::From(before)).chain(lines) {
            text.push_str(&serde_json::to_string(&line).unwrap_or_default());
            text.push('\n');
        }
        self.number += 1;
        store::replace_file(&self.path, text.as_bytes())
    }
}
