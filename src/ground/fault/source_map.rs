//! The texts of a run and the one place where byte offsets become lines and columns.

use std::ops::Range;
use std::sync::OnceLock;

/// Which file of the [`SourceMap`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileId(usize);

/// A stretch of bytes in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

/// A file's name as shown, and its text.
#[derive(Debug)]
struct SourceFile {
    path: String,
    text: String,
    /// Where each line begins, found on first asking.
    lines: OnceLock<Vec<usize>>,
}

impl SourceFile {
    fn lines(&self) -> &[usize] {
        self.lines.get_or_init(|| {
            let ends = self.text.bytes().enumerate().filter(|(_, b)| *b == b'\n');
            std::iter::once(0).chain(ends.map(|(i, _)| i + 1)).collect()
        })
    }

    /// The line of a byte, from 0.
    fn line(&self, at: usize) -> usize {
        self.lines().partition_point(|start| *start <= at).max(1) - 1
    }
}

/// All texts read in a run, filled from disk by the program and from strings by tests.
#[derive(Debug, Default)]
pub struct SourceMap {
    files: Vec<SourceFile>,
}

impl SourceMap {
    /// Adds a text under the name it is to be reported by.
    pub fn add(&mut self, path: impl Into<String>, text: impl Into<String>) -> FileId {
        self.files.push(SourceFile {
            path: path.into(),
            text: text.into(),
            lines: OnceLock::new(),
        });
        FileId(self.files.len() - 1)
    }

    /// The name of a file, with forward slashes.
    #[must_use]
    pub fn path(&self, file: FileId) -> &str {
        self.files.get(file.0).map_or("", |f| &f.path)
    }

    /// The text of a file.
    #[must_use]
    pub fn text(&self, file: FileId) -> &str {
        self.files.get(file.0).map_or("", |f| &f.text)
    }

    /// The text under a span; empty if the span does not fit the file.
    #[must_use]
    pub fn slice(&self, span: Span) -> &str {
        self.text(span.file).get(span.start..span.end).unwrap_or("")
    }

    /// The beginning of the file whose shown path ends so.
    #[must_use]
    pub fn find(&self, ending: &str) -> Option<Span> {
        let file = self.files.iter().position(|f| f.path.ends_with(ending))?;
        Some(Span {
            file: FileId(file),
            start: 0,
            end: 0,
        })
    }

    /// The place at a line and column (both from 1) of the file whose shown path ends so.
    #[must_use]
    pub fn at_line(&self, ending: &str, line: usize, column: usize) -> Option<Span> {
        let span = self.find(ending)?;
        let text = self.text(span.file);
        let before = text.split_inclusive('\n').take(line.checked_sub(1)?);
        let start: usize = before.map(str::len).sum();
        let inside = text.get(start..)?.chars().take(column.checked_sub(1)?);
        let start = start + inside.map(char::len_utf8).sum::<usize>();
        Some(Span {
            start,
            end: start,
            ..span
        })
    }

    /// The beginning of the first file, for faults without a better place.
    #[must_use]
    pub fn anywhere(&self) -> Span {
        Span {
            file: FileId(0),
            start: 0,
            end: 0,
        }
    }

    /// Line and column of a span's start, both counted from 1, the column in characters.
    #[must_use]
    pub fn line_column(&self, span: Span) -> (usize, usize) {
        let Some(file) = self.files.get(span.file.0) else {
            return (1, 1);
        };
        let line = file.line(span.start.min(file.text.len()));
        let start = file.lines().get(line).copied().unwrap_or(0);
        let before = file.text.get(start..span.start.min(file.text.len()));
        (line + 1, before.map_or(0, |text| text.chars().count()) + 1)
    }

    /// The whole lines that a stretch of a file's bytes touches, and the number of the first, from 1.
    #[must_use]
    pub(super) fn lines_around(&self, id: FileId, bytes: Range<usize>) -> (Range<usize>, usize) {
        let Some(file) = self.files.get(id.0) else {
            return (0..0, 1);
        };
        let (first, last) = (
            file.line(bytes.start),
            file.line(bytes.end.max(bytes.start)),
        );
        let start = file.lines().get(first).copied().unwrap_or(0);
        let end = file.lines().get(last + 1).copied();
        (start..end.unwrap_or(file.text.len()), first + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters() {
        let mut map = SourceMap::default();
        let file = map.add("a.yaml", "title: Ä\nrows: é x\n");
        let start = map.text(file).find('x').unwrap_or(0);
        let span = Span {
            file,
            start,
            end: start + 1,
        };
        assert_eq!(map.line_column(span), (2, 9));
        assert_eq!(map.slice(span), "x");
    }
}
