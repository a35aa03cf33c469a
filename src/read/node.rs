//! A tree of YAML values, each with its place.

use crate::ground::fault::{SourceMap, Span};

/// A YAML value and where it stands.
#[derive(Clone, Debug)]
pub(super) struct Node {
    /// From the value's first byte to its last; for a block scalar, from its `|`.
    pub span: Span,
    /// What it is.
    pub kind: Kind,
}

/// The three kinds of YAML node.
#[derive(Clone, Debug)]
pub(super) enum Kind {
    /// A piece of text; `plain` when written without quotes or a block sign.
    Scalar {
        /// The text after YAML's own unfolding.
        text: String,
        /// Written without quotes and not as a block.
        plain: bool,
        /// Written as a literal block (`|`), so its lines are lines of the file.
        literal: bool,
    },
    /// A list.
    List(Vec<Node>),
    /// Keys and values in the order written; keys are scalars.
    Map(Vec<(Node, Node)>),
}

impl Node {
    /// The text of a scalar.
    #[must_use]
    pub(super) fn text(&self) -> Option<&str> {
        match &self.kind {
            Kind::Scalar { text, .. } => Some(text),
            _ => None,
        }
    }

    /// Whether this is YAML's empty value.
    #[must_use]
    pub(super) fn is_empty(&self) -> bool {
        matches!(&self.kind, Kind::Scalar { text, plain: true, .. } if matches!(text.as_str(), "" | "~" | "null"))
    }

    /// The value of `key` in a map.
    #[must_use]
    pub(super) fn get(&self, key: &str) -> Option<&Self> {
        self.entries()
            .iter()
            .find(|(k, _)| k.text() == Some(key))
            .map(|(_, v)| v)
    }

    /// The entries of a map; none for another kind.
    #[must_use]
    pub(super) fn entries(&self) -> &[(Self, Self)] {
        match &self.kind {
            Kind::Map(entries) => entries,
            _ => &[],
        }
    }

    /// The items of a list; none for another kind.
    #[must_use]
    pub(super) fn items(&self) -> &[Self] {
        match &self.kind {
            Kind::List(items) => items,
            _ => &[],
        }
    }

    /// The same single value, where it stands, with another text.
    #[must_use]
    pub(super) fn renamed(&self, name: &str) -> Self {
        let mut new = self.clone();
        if let Kind::Scalar { text, .. } = &mut new.kind {
            name.clone_into(text);
        }
        new
    }

    /// What a person calls this kind of value.
    #[must_use]
    pub(super) fn kind_name(&self) -> &'static str {
        match &self.kind {
            _ if self.is_empty() => "nothing",
            Kind::Scalar { .. } => "a single value",
            Kind::List(_) => "a list",
            Kind::Map(_) => "a group of keys",
        }
    }

    /// The lines of a scalar with the span of each. For a literal block these are the file's own lines
    /// without their indentation; for other styles every line points at the whole scalar.
    #[must_use]
    pub(super) fn lines(&self, sources: &SourceMap) -> Vec<(String, Span, bool)> {
        let Kind::Scalar { text, literal, .. } = &self.kind else {
            return Vec::new();
        };
        let wanted: Vec<&str> = text.trim_end_matches(['\n', ' ']).split('\n').collect();
        let whole = || {
            wanted
                .iter()
                .map(|l| ((*l).to_owned(), self.span, false))
                .collect()
        };
        if !literal {
            return whole();
        }
        let source = sources.text(self.span.file);
        // The span begins at the `|` or at the first line's text, as the parser has it.
        let before = source.get(..self.span.start).unwrap_or("");
        let after = source.get(self.span.start..).unwrap_or("");
        let mut at = if after.starts_with('|') {
            let Some(header_end) = after.find('\n') else {
                return whole();
            };
            self.span.start + header_end + 1
        } else {
            before.rfind('\n').map_or(0, |i| i + 1)
        };
        let mut found = Vec::with_capacity(wanted.len());
        for line in &wanted {
            let rest = source.get(at..).unwrap_or("");
            let raw = rest.split('\n').next().unwrap_or("");
            let shown = raw.trim_end_matches('\r');
            let Some(indent) = shown.len().checked_sub(line.len()) else {
                return whole();
            };
            if shown.get(indent..) != Some(line) {
                return whole();
            }
            let span = Span {
                file: self.span.file,
                start: at + indent,
                end: at + indent + line.len(),
            };
            found.push(((*line).to_owned(), span, true));
            at += raw.len() + 1;
        }
        found
    }
}
