//! Where a value stands in the text of its file, from the first byte behind its key to its last.

use crate::read::node::{Kind, Node};

/// A value with its key, or an item of a list.
#[derive(Clone, Copy)]
pub(super) struct Entry<'a> {
    /// The map or list that it stands in.
    pub parent: &'a Node,
    /// Its key; `None` of an item.
    pub key: Option<&'a Node>,
    /// Itself.
    pub value: &'a Node,
}

impl<'a> Entry<'a> {
    /// The entry of a key.
    pub(super) fn of_key(parent: &'a Node, key: &str) -> Option<Self> {
        let mut entries = parent.entries().iter();
        let (key, value) = entries.find(|(k, _)| k.text() == Some(key))?;
        Some(Self {
            parent,
            key: Some(key),
            value,
        })
    }

    /// The item of a list.
    pub(super) fn of_item(parent: &'a Node, index: usize) -> Option<Self> {
        Some(Self {
            parent,
            key: None,
            value: parent.items().get(index)?,
        })
    }

    /// The first byte behind the key's colon; of an item its own first byte.
    pub(super) fn start(&self, text: &str) -> Option<usize> {
        match self.key {
            Some(key) => Some(key.span.end + text.get(key.span.end..)?.find(':')? + 1),
            None => Some(self.value.span.start),
        }
    }

    /// One past the value's last byte; of an empty value its start.
    pub(super) fn end(&self, text: &str) -> Option<usize> {
        Some(value_end(text, self.value)?.max(self.start(text)?))
    }

    /// Blanks before the key, the dashes of lists counted as such.
    pub(super) fn indent(&self, text: &str) -> usize {
        let at = self.key.map_or(self.value.span.start, |key| key.span.start);
        at - line_start(text, at)
    }
}

/// Whether a list or map is written in brackets.
pub(super) fn is_flow(text: &str, node: &Node) -> bool {
    let first = text.get(node.span.start..).unwrap_or("");
    !matches!(node.kind, Kind::Scalar { .. }) && first.starts_with(['{', '['])
}

/// The first byte of a line.
pub(super) fn line_start(text: &str, at: usize) -> usize {
    text.get(..at)
        .and_then(|t| t.rfind('\n'))
        .map_or(0, |i| i + 1)
}

/// The last byte of a line, its end of line left out.
pub(super) fn line_end(text: &str, at: usize) -> usize {
    text.get(at..)
        .and_then(|t| t.find('\n'))
        .map_or(text.len(), |i| at + i)
}

/// One past the last byte of a value.
fn value_end(text: &str, node: &Node) -> Option<usize> {
    if node.is_empty() {
        return Some(node.span.start);
    }
    if is_flow(text, node) {
        return Some(node.span.end);
    }
    match &node.kind {
        Kind::List(items) => value_end(text, items.last()?),
        Kind::Map(entries) => {
            let (key, value) = entries.last()?;
            let colon = key.span.end + text.get(key.span.end..)?.find(':')? + 1;
            Some(value_end(text, value)?.max(colon))
        }
        Kind::Scalar { .. } => Some(block_end(text, node).unwrap_or(node.span.end)),
    }
}

/// One past the last line of a block that says something; `None` of a value that is no block.
fn block_end(text: &str, node: &Node) -> Option<usize> {
    let head = block_head(text, node)?;
    let line = text.get(line_start(text, head)..head)?;
    // The dashes of lists count as blanks.
    let indent = line.len() - line.trim_start_matches([' ', '-']).len();
    let mut end = line_end(text, head);
    let mut at = end + 1;
    while at < text.len() {
        let stop = line_end(text, at);
        let line = text.get(at..stop)?.trim_end();
        let blanks = line.len() - line.trim_start_matches(' ').len();
        if !line.is_empty() {
            if blanks <= indent {
                break;
            }
            end = at + line.len();
        }
        at = stop + 1;
    }
    Some(end)
}

/// Where the sign of a block (`|` or `>`) stands.
pub(super) fn block_head(text: &str, node: &Node) -> Option<usize> {
    let Kind::Scalar { plain: false, .. } = node.kind else {
        return None;
    };
    let at = node.span.start;
    if text.get(at..)?.starts_with(['|', '>']) {
        return Some(at);
    }
    if text.get(at..)?.starts_with(['"', '\'']) {
        return None;
    }
    // The parser has the first line's text as the beginning; the sign stands on the last line with text above it.
    let above = text.get(..line_start(text, at))?.trim_end();
    let line = above.get(line_start(above, above.len())..)?;
    let sign = line.find([':', '-']).and_then(|colon| {
        let behind = line.get(colon..)?;
        Some(colon + behind.find(['|', '>'])?)
    })?;
    Some(line_start(above, above.len()) + sign)
}
