//! A learner's log, and a teacher's judgements: files outside any course.

use std::path::Path;

use crate::course::log::{ListPlace, Log, LogEntry, Registered, Stock, Went};
use crate::ground::fault::{Code, Fault, SourceMap};
use crate::read::check::check;
use crate::read::files::{ReadError, read_file};
use crate::read::keys_beside::{LOG, PAIRS, REGISTER};
use crate::read::node::Node;
use crate::read::shape::{Key, Shape};
use crate::read::tree::{Tree, tree_of};
use crate::read::yaml;

/// A file read, with its faults.
#[derive(Debug)]
pub struct OneFile<T> {
    /// The text, for reports.
    pub sources: SourceMap,
    /// What it holds.
    pub value: T,
    /// What is wrong with it.
    pub faults: Vec<Fault>,
}

impl<T> OneFile<T> {
    /// Whether any fault is an error.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        self.faults.iter().any(Fault::is_error)
    }
}

/// A log and where a new entry goes.
#[derive(Debug)]
pub struct LogText {
    /// The log.
    pub log: Log,
    /// Its text.
    pub text: String,
    /// Where the next entry goes; `None` for a list in brackets, which has no lines to add to.
    pub place: Option<ListPlace>,
}

/// A judgement: one thing is harder than another.
#[derive(Clone, Debug)]
pub struct Judgement {
    /// Id of the harder thing, and its place.
    pub harder: (String, crate::ground::fault::Span),
    /// Id of the easier thing, and its place.
    pub easier: (String, crate::ground::fault::Span),
    /// How often it was said.
    pub times: u32,
}

/// Reads one file against its keys.
pub(super) fn read_one<T>(
    path: &Path,
    keys: &'static [Key],
    what: &str,
    make: impl FnOnce(Option<&Node>, &str) -> T,
) -> Result<OneFile<T>, ReadError> {
    let name = path.file_name().and_then(|n| n.to_str()).unwrap_or("");
    let text = read_file(path, name)?;
    let mut sources = SourceMap::default();
    let file = sources.add(text.shown.clone(), text.text.clone().unwrap_or_default());
    let mut faults = Vec::new();
    let whole = crate::ground::fault::Span {
        file,
        start: 0,
        end: 0,
    };
    let Some(text) = text.text else {
        let title = format!("{} is not UTF-8 text", text.shown);
        faults.push(Fault::new(Code::Unreadable, title, whole, "").help("save it again as UTF-8"));
        return Ok(OneFile {
            sources,
            value: make(None, ""),
            faults,
        });
    };
    // Comments alone are an empty file.
    let bare = text.lines().all(|l| {
        let line = l.trim();
        line.is_empty() || line.starts_with('#')
    });
    let node = if bare {
        None
    } else {
        match yaml::read(&sources, file, &mut faults) {
            Ok(node) => Some(node),
            Err(fault) => {
                faults.push(*fault);
                None
            }
        }
    };
    if let Some(node) = &node {
        check(node, &Shape::Map(keys), what, &mut faults);
    }
    let value = make(node.as_ref(), &text);
    Ok(OneFile {
        sources,
        value,
        faults,
    })
}

fn text_of(node: &Node, key: &str) -> Option<String> {
    node.get(key).and_then(Node::text).map(str::to_owned)
}

/// Reads a log.
///
/// # Errors
/// When the file is missing or cannot be opened.
pub fn read_log(path: &Path) -> Result<OneFile<LogText>, ReadError> {
    read_one(path, LOG, "a log", |node, text| {
        let list = |key: &str| {
            node.and_then(|n| n.get(key))
                .map(Node::items)
                .unwrap_or_default()
        };
        let made = |item: &Node| {
            let id = item.get("made")?;
            Some(LogEntry {
                made: id.text()?.to_owned(),
                course: text_of(item, "course"),
                went: Went::from_name(item.get("went")?.text()?)?,
                on: text_of(item, "on"),
                note: text_of(item, "note"),
                place: id.span,
            })
        };
        let stock = |item: &Node| {
            Some(Stock {
                name: text_of(item, "name")?,
                weight: text_of(item, "weight").and_then(|t| t.parse().ok()),
                grams: text_of(item, "grams").and_then(|t| t.parse().ok()),
            })
        };
        LogText {
            log: Log {
                learner: node.and_then(|node| text_of(node, "learner")),
                done: list("done").iter().filter_map(made).collect(),
                stock: list("stock").iter().filter_map(stock).collect(),
            },
            text: text.to_owned(),
            place: place(node, text),
        }
    })
}

/// Reads the register of a class.
///
/// # Errors
/// When the file is missing or cannot be opened.
pub fn read_register(path: &Path) -> Result<OneFile<(Vec<Registered>, String)>, ReadError> {
    read_one(path, REGISTER, "a register", |node, text| {
        let items = node.and_then(|n| n.get("learners")).map(Node::items);
        let one = |item: &Node| {
            let done = item.get("done").map(Node::items).unwrap_or_default();
            Some(Registered {
                name: text_of(item, "name")?,
                size: text_of(item, "size").unwrap_or_default(),
                colours: text_of(item, "colours").unwrap_or_default(),
                done: done
                    .iter()
                    .filter_map(|id| id.text().map(str::to_owned))
                    .collect(),
            })
        };
        let learners = items.unwrap_or_default().iter().filter_map(one).collect();
        (learners, text.to_owned())
    })
}

/// Whether a log's new text says exactly what the old one did and one entry more.
#[must_use]
pub fn log_grows(old: &str, new: &str) -> bool {
    let tree = |text: &str| {
        let mut sources = SourceMap::default();
        let file = sources.add("", text);
        let node = yaml::read(&sources, file, &mut Vec::new()).ok()?;
        Some(tree_of(&node))
    };
    let grown = |old: Option<Tree>, new: Tree| -> Option<bool> {
        let (mut before, mut after) = (
            entries(old.unwrap_or(Tree::Map(Vec::new())))?,
            entries(new)?,
        );
        let list = |entries: &mut Vec<(String, Tree)>| {
            let place = entries.iter().position(|(key, _)| key == "done");
            place.map(|place| entries.remove(place).1)
        };
        let (had, has) = (list(&mut before), list(&mut after)?);
        let had = match had {
            Some(Tree::List(items)) => items,
            None => Vec::new(),
            Some(Tree::Text(text)) if text.is_empty() => Vec::new(),
            Some(_) => return None,
        };
        let Tree::List(mut has) = has else {
            return None;
        };
        has.pop();
        Some(before == after && had == has)
    };
    // A text of remarks alone says nothing yet.
    let is_blank = old
        .lines()
        .all(|line| line.trim().is_empty() || line.trim_start().starts_with('#'));
    let before = tree(old);
    if before.is_none() && !is_blank {
        return false;
    }
    tree(new)
        .and_then(|new| grown(before, new))
        .unwrap_or(false)
}

fn entries(tree: Tree) -> Option<Vec<(String, Tree)>> {
    match tree {
        Tree::Map(entries) => Some(entries),
        Tree::Text(text) if text.is_empty() => Some(Vec::new()),
        _ => None,
    }
}

/// Where the next entry goes.
fn place(node: Option<&Node>, text: &str) -> Option<ListPlace> {
    let Some((key, done)) = node.and_then(|n| {
        let entries = n.entries().iter();
        entries
            .map(|(key, value)| (key, value))
            .find(|(key, _)| key.text() == Some("done"))
    }) else {
        return Some(ListPlace::Missing);
    };
    let Some(last) = done.items().last() else {
        let start = key.span.end + text.get(key.span.end..)?.find(':')? + 1;
        // `done: []` or `done:` with nothing behind it.
        let behind = text.get(start..)?;
        let line = behind.lines().next().unwrap_or("");
        let brackets = line.find(']').map_or(0, |i| i + 1);
        return Some(ListPlace::Empty {
            start,
            end: start + brackets,
        });
    };
    if text.get(done.span.start..)?.starts_with('[') {
        return None;
    }
    let first = done.items().first()?;
    let line_start = text
        .get(..first.span.start)?
        .rfind('\n')
        .map_or(0, |i| i + 1);
    let indent = text.get(line_start..first.span.start)?.find('-')?;
    Some(ListPlace::Lines {
        end: end_of(last),
        indent,
    })
}

/// The last byte of anything inside a node: a group's own span may reach into blank lines and remarks behind it.
pub(super) fn end_of(node: &Node) -> usize {
    let inner = node
        .items()
        .last()
        .or_else(|| node.entries().last().map(|(_, value)| value));
    inner.map_or(node.span.end, end_of)
}

/// Reads a file of judgements.
///
/// # Errors
/// When the file is missing or cannot be opened.
pub fn read_pairs(path: &Path) -> Result<OneFile<Vec<Judgement>>, ReadError> {
    read_one(path, PAIRS, "a list of judgements", |node, _| {
        let items = node.and_then(|n| n.get("pairs")).map(Node::items);
        let one = |item: &Node| {
            let id = |key: &str| {
                let id = item.get(key)?;
                Some((id.text()?.to_owned(), id.span))
            };
            Some(Judgement {
                harder: id("harder")?,
                easier: id("easier")?,
                times: text_of(item, "times")
                    .and_then(|t| t.parse().ok())
                    .unwrap_or(1),
            })
        };
        items.unwrap_or_default().iter().filter_map(one).collect()
    })
}
