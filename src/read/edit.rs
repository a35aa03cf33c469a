//! One value of a file changed in its text: comments, order and all that was not changed stay as they are.
//!
//! The new text is read back before it is given out, and must be the old tree with the one change; so an edit is right or
//! refused, never almost right.

use std::fmt;
use std::ops::Range;

use serde_json::Value;

use crate::ground::fault::SourceMap;
use crate::ground::quoted::quoted;
use crate::read::change::{At, Change};
use crate::read::node::Node;
use crate::read::place::{Entry, block_head, is_flow, line_end, line_start};
use crate::read::tree::tree_of;
use crate::read::yaml;

/// Why an edit was refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EditError {
    /// The file cannot be read as it is.
    Unreadable,
    /// The way leads nowhere.
    NoSuchPlace,
    /// The text that came out does not say what was asked for.
    WouldChangeMore,
}

impl fmt::Display for EditError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unreadable => "the file's text cannot be read; mend it first",
            Self::NoSuchPlace => "the file has no such place",
            Self::WouldChangeMore => {
                "this cannot be changed without changing more of the file; edit its text"
            }
        })
    }
}

impl std::error::Error for EditError {}

/// The text with one value changed, put in or taken out.
///
/// # Errors
/// When the text cannot be read, the way leads nowhere, or the outcome would not be the old values with this one change.
pub fn edited(text: &str, at: &[At], change: &Change) -> Result<String, EditError> {
    let before = read(text)?;
    let mut wanted = tree_of(&before);
    wanted.change(at, change).ok_or(EditError::NoSuchPlace)?;
    let new = change_text(text, &before, at, change).ok_or(EditError::WouldChangeMore)?;
    let after = read(&new).map_err(|_| EditError::WouldChangeMore)?;
    match tree_of(&after) == wanted {
        true => Ok(new),
        false => Err(EditError::WouldChangeMore),
    }
}

fn read(text: &str) -> Result<Node, EditError> {
    let mut sources = SourceMap::default();
    let file = sources.add("", text);
    let mut faults = Vec::new();
    let node = yaml::read(&sources, file, &mut faults).map_err(|_| EditError::Unreadable)?;
    // Of a key that is written twice only the first is seen here; to change it would be half a change.
    match faults.is_empty() {
        true => Ok(node),
        false => Err(EditError::Unreadable),
    }
}

fn change_text(text: &str, root: &Node, at: &[At], change: &Change) -> Option<String> {
    let (mut node, mut entry) = (root, None);
    let mut way: Vec<Entry<'_>> = Vec::new();
    let mut missing = at;
    while let Some((step, rest)) = missing.split_first() {
        let next = match step {
            At::Key(key) => Entry::of_key(node, key),
            At::Item(index) => Entry::of_item(node, *index),
        };
        let Some(next) = next else { break };
        node = next.value;
        entry = Some(next);
        way.push(next);
        missing = rest;
    }
    match (missing, change) {
        ([], Change::Remove) => remove(text, last_of_more(&way)?),
        ([], _) => replace(text, &entry?, change),
        (_, Change::Remove) => Some(text.to_owned()),
        ([At::Key(key)], _) => put_in(text, (node, entry), key, change),
        ([At::Key(key), inner @ ..], _) => {
            put_in(text, (node, entry), key, &nested(inner, change)?)
        }
        _ => None,
    }
}

/// The value at the end of the way; the map that holds nothing else goes with it, and so on.
fn last_of_more<'a, 'n>(way: &'a [Entry<'n>]) -> Option<&'a Entry<'n>> {
    way.iter()
        .rev()
        .find(|entry| entry.key.is_none() || entry.parent.entries().len() > 1)
}

/// A value inside of keys that are not there yet.
fn nested(keys: &[At], change: &Change) -> Option<Change> {
    let mut value = match change {
        Change::Value(value) => value.clone(),
        Change::Text(text) | Change::Block(text) => Value::from(text.as_str()),
        Change::Remove => return None,
    };
    for key in keys.iter().rev() {
        let At::Key(key) = key else { return None };
        value = Value::Object([(key.clone(), value)].into_iter().collect());
    }
    Some(Change::Value(value))
}

/// The text with a range of it replaced.
fn splice(text: &str, range: Range<usize>, new: &str) -> Option<String> {
    let (before, after) = (text.get(..range.start)?, text.get(range.end..)?);
    Some(format!("{before}{new}{after}"))
}

fn replace(text: &str, entry: &Entry<'_>, change: &Change) -> Option<String> {
    let flow = is_flow(text, entry.parent);
    let (start, end) = (entry.start(text)?, entry.end(text)?);
    let head = block_head(text, entry.value);
    let gap = if entry.key.is_some() { " " } else { "" };
    // What stands behind the value on its line, or behind the sign of its block: a remark, which stays there.
    let behind = match head {
        Some(head) => text.get(head + 1..line_end(text, head))?,
        None => text.get(end..line_end(text, end))?,
    };
    let remark = behind.find('#').and_then(|at| behind.get(at..));
    let remark = remark.map_or(String::new(), |remark| format!(" {remark}"));
    match change {
        Change::Block(lines) if !flow => {
            let sign = sign(lines);
            let stop = if head.is_some() {
                end
            } else {
                line_end(text, end)
            };
            // A sign that tells the indentation tells ours; else the lines stay set in as they were.
            let ours = entry.indent(text) + 2;
            let indent = own_indent(text, head, end).filter(|_| !lines.starts_with(' '));
            let lines = block(lines, indent.unwrap_or(ours));
            let new = format!("{gap}{sign}{remark}{lines}");
            splice(text, start..stop, &new)
        }
        _ => {
            let kept = if head.is_some() { remark.as_str() } else { "" };
            splice(text, start..end, &format!("{gap}{}{kept}", inline(change)?))
        }
    }
}

/// How far the lines of a block are set in.
fn own_indent(text: &str, head: Option<usize>, end: usize) -> Option<usize> {
    let lines = text.get(line_end(text, head?)..end)?.lines();
    let mut said = lines.filter(|line| !line.trim().is_empty());
    let first = said.next()?;
    Some(first.len() - first.trim_start_matches(' ').len())
}

/// A block's sign. Lines that begin with a blank need their indentation told.
fn sign(lines: &str) -> &'static str {
    match lines.starts_with(' ') {
        true => "|2",
        false => "|",
    }
}

/// The lines of a block below its sign, each on a new line.
fn block(lines: &str, indent: usize) -> String {
    let pad = " ".repeat(indent);
    let each = lines.trim_end_matches('\n').split('\n');
    each.map(|line| match line.is_empty() {
        true => "\n".to_owned(),
        false => format!("\n{pad}{line}"),
    })
    .collect()
}

/// A key that was not there, behind the last of its map.
fn put_in(
    text: &str,
    (map, entry): (&Node, Option<Entry<'_>>),
    key: &str,
    change: &Change,
) -> Option<String> {
    let name = scalar(key);
    if is_flow(text, map) {
        let close = map.span.end.checked_sub(1)?;
        let inside = text.get(map.span.start + 1..close)?;
        let kept = map.span.start + 1 + inside.trim_end().len();
        let lead = if map.entries().is_empty() { " " } else { ", " };
        let new = format!("{lead}{name}: {} ", inline(change)?);
        return splice(text, kept..close, &new);
    }
    let Some((last, value)) = map.entries().last() else {
        // An empty value gives way to a map of one.
        let entry = entry.filter(|entry| entry.value.is_empty())?;
        let new = format!(" {{ {name}: {} }}", inline(change)?);
        return splice(text, entry.start(text)?..entry.end(text)?, &new);
    };
    let last = Entry {
        parent: map,
        key: Some(last),
        value,
    };
    let indent = last.indent(text);
    let end = line_end(text, last.end(text)?);
    let value = match change {
        Change::Block(lines) => format!(" {}{}", sign(lines), block(lines, indent + 2)),
        other => format!(" {}", inline(other)?),
    };
    let pad = " ".repeat(indent);
    splice(text, end..end, &format!("\n{pad}{name}:{value}"))
}

fn remove(text: &str, entry: &Entry<'_>) -> Option<String> {
    let key = entry.key?;
    if entry.parent.entries().len() < 2 {
        return None;
    }
    let end = entry.end(text)?;
    if !is_flow(text, entry.parent) {
        let start = line_start(text, key.span.start);
        let stop = (line_end(text, end) + 1).min(text.len());
        // The first key of a list's item shares its line with the item's dash.
        let alone = text.get(start..key.span.start)?.trim().is_empty();
        return alone.then(|| splice(text, start..stop, ""))?;
    }
    let after = text.get(end..)?;
    if after.trim_start().starts_with(',') {
        let behind = end + after.find(',')? + 1;
        let blank = text.get(behind..)?;
        let next = behind + blank.len() - blank.trim_start().len();
        return splice(text, key.span.start..next, "");
    }
    splice(text, text.get(..key.span.start)?.rfind(',')?..end, "")
}

/// A value on one line.
fn inline(change: &Change) -> Option<String> {
    match change {
        Change::Text(text) => Some(scalar(text)),
        Change::Value(value) => Some(on_one_line(value)),
        Change::Block(lines) => Some(quoted(lines)),
        Change::Remove => None,
    }
}

fn on_one_line(value: &Value) -> String {
    match value {
        Value::String(text) => scalar(text),
        Value::Array(items) => {
            let items: Vec<String> = items.iter().map(on_one_line).collect();
            format!("[{}]", items.join(", "))
        }
        Value::Object(entries) if entries.is_empty() => "{}".to_owned(),
        Value::Object(entries) => {
            let each = entries
                .iter()
                .map(|(key, value)| format!("{}: {}", scalar(key), on_one_line(value)));
            format!("{{ {} }}", each.collect::<Vec<_>>().join(", "))
        }
        other => other.to_string(),
    }
}

/// A text as YAML has it on one line: plain where nothing in it can be mistaken, else in quotes.
fn scalar(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '-' | '.' | '/' | '_' | '%');
    let begins = text.chars().next().is_some_and(char::is_alphanumeric);
    let word = !matches!(
        text.to_lowercase().as_str(),
        "true" | "false" | "null" | "yes" | "no" | "on" | "off" | "y" | "n"
    );
    match begins && word && text.chars().all(plain) && text.trim() == text {
        true => text.to_owned(),
        false => quoted(text),
    }
}
