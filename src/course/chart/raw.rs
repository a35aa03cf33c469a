//! The values of a chart file before they are understood, each with its place.

use crate::course::chart::Worked;
use crate::course::chart::reflect::Reflect;
use crate::ground::fault::Span;

/// A value and where it stands.
#[derive(Clone, Debug)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Its place.
    pub span: Span,
}

/// A line of a grid. `exact` when the span covers just its characters, so that a caret can point at one.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its characters.
    pub text: String,
    /// Its place.
    pub span: Span,
    /// Whether the span is the line itself and not the whole value around it.
    pub exact: bool,
}

impl Line {
    /// The place of the character at `index`.
    pub(super) fn at(&self, index: usize) -> Span {
        if !self.exact {
            return self.span;
        }
        let mut bytes = self.text.char_indices().skip(index);
        let start = bytes.next().map_or(self.text.len(), |(i, _)| i);
        let end = bytes.next().map_or(self.text.len(), |(i, _)| i);
        Span {
            file: self.span.file,
            start: self.span.start + start,
            end: self.span.start + end,
        }
    }
}

/// A chart file's values before they are understood.
#[derive(Clone, Debug)]
pub struct RawChart {
    /// The file's stem.
    pub id: String,
    /// `title`.
    pub title: String,
    /// `worked`.
    pub worked: Worked,
    /// `colours`: letter text and role.
    pub colours: Vec<(Spanned<String>, String)>,
    /// `rows`, top line first.
    pub rows: Vec<Line>,
    /// `shaping`, top line first.
    pub shaping: Option<Vec<Line>>,
    /// `repeat.stitches`, counted from 1.
    pub repeat_stitches: Option<Spanned<(usize, usize)>>,
    /// `repeat.rows`, counted from 1.
    pub repeat_rows: Option<Spanned<(usize, usize)>>,
    /// `reflect`.
    pub reflect: Option<Spanned<Reflect>>,
    /// `rights`.
    pub rights: Option<Spanned<String>>,
    /// `from`.
    pub from: Option<String>,
    /// `scope`.
    pub scope: Option<String>,
    /// `source`.
    pub source: Option<String>,
    /// The title's place, for faults of the whole chart.
    pub span: Span,
}
