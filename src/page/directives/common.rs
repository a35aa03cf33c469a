//! What every document knows: layout, small print, boxes, and text inside them.

use crate::page::blocks::{Block, Directives, Inline, Tone, parse};

/// Blocks of a text in which nothing is a directive but what `outer` knows.
pub(super) fn markdown(text: &str, outer: &dyn Directives) -> Vec<Block> {
    parse(text, outer)
}

/// The running text of a one-paragraph Markdown.
pub(super) fn inlines(text: &str) -> Vec<Inline> {
    let none = <dyn Directives>::none();
    parse(text, none.as_ref())
        .into_iter()
        .flat_map(|block| match block {
            Block::Paragraph(_, inlines) => inlines,
            _ => Vec::new(),
        })
        .collect()
}

/// Directives that every document knows: layout, small print, boxes.
pub(super) fn common(
    outer: &dyn Directives,
    name: &str,
    argument: &str,
    body: &str,
) -> Option<Vec<Block>> {
    Some(match name {
        "page" => vec![Block::Page(argument.parse().unwrap_or(0))],
        "small" => toned(markdown(body, outer), Tone::Small),
        "fine" => toned(markdown(body, outer), Tone::Fine),
        "caution" => {
            let mut blocks = Vec::new();
            if !argument.is_empty() {
                blocks.push(Block::Heading(3, vec![Inline::Text(argument.to_owned())]));
            }
            blocks.extend(markdown(body, outer));
            vec![Block::Caution(blocks)]
        }
        "columns" => {
            let shares: Vec<f64> = argument
                .split_whitespace()
                .filter_map(|n| n.parse().ok())
                .collect();
            let parts = split_columns(body);
            let equal = 12.0 / parts.len().clamp(1, 12) as f64;
            let columns = parts.iter().enumerate().map(|(i, part)| {
                let share = shares.get(i).copied().unwrap_or(equal).clamp(1.0, 12.0);
                (share, markdown(part, outer))
            });
            vec![Block::Columns(columns.collect())]
        }
        _ => return None,
    })
}

/// Paragraphs in a tone.
fn toned(blocks: Vec<Block>, tone: Tone) -> Vec<Block> {
    let set = |block| match block {
        Block::Paragraph(_, inlines) => Block::Paragraph(tone, inlines),
        other => other,
    };
    blocks.into_iter().map(set).collect()
}

/// Parts of a `columns` block, divided by lines of `+++` that stand outside inner fences.
fn split_columns(body: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    let mut fenced = false;
    for line in body.lines() {
        if line.trim_start().starts_with("```") {
            fenced = !fenced;
        }
        if line.trim() == "+++" && !fenced {
            parts.push(String::new());
        } else if let Some(last) = parts.last_mut() {
            last.push_str(line);
            last.push('\n');
        }
    }
    parts
}

/// What stands in columns, one under the other.
pub(super) fn in_one_column(blocks: Vec<Block>) -> Vec<Block> {
    let each = blocks.into_iter().flat_map(|block| match block {
        Block::Columns(columns) => columns.into_iter().flat_map(|(_, inner)| inner).collect(),
        other => vec![other],
    });
    each.collect()
}

/// Headings moved down so that none stands above `least`.
pub(super) fn below_level(blocks: Vec<Block>, least: u8) -> Vec<Block> {
    blocks
        .into_iter()
        .map(|block| match block {
            Block::Heading(level, text) => Block::Heading(level.max(least), text),
            other => other,
        })
        .collect()
}
