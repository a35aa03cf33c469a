//! YAML text to a tree of nodes with byte spans. The only file that names the YAML crate.
//!
//! A tree, not typed structures, so that *every* wrong key and value of a file can be reported in one run.
//! Only what our files need is read: one document, no anchors, aliases or tags, bounded size and depth.

use std::collections::HashMap;

use granit_parser::{Event, Options, Parser, ScalarStyle};

use crate::ground::bounds::{FILE_BYTES, YAML_DEPTH, YAML_VALUES};
use crate::ground::fault::{Code, Fault, FileId, SourceMap, Span};
use crate::read::node::{Kind, Node};
use crate::read::unclosed::unclosed;

/// Reads a file's text into a tree.
///
/// # Errors
/// One fault: broken YAML, a YAML feature our files do not use, or a file beyond the bounds above.
/// Duplicate keys are pushed to `faults` and the first one kept.
pub(super) fn read(
    sources: &SourceMap,
    file: FileId,
    faults: &mut Vec<Fault>,
) -> Result<Node, Box<Fault>> {
    let text = sources.text(file);
    if text.len() > FILE_BYTES {
        let title = too_long();
        return Err(Box::new(
            Fault::new(
                Code::TooLarge,
                title,
                Span {
                    file,
                    start: 0,
                    end: 0,
                },
                "",
            )
            .help("split it into several files"),
        ));
    }
    Builder {
        text,
        file,
        faults,
        stack: Vec::new(),
        root: None,
        nodes: 0,
    }
    .run()
}

/// Of a file beyond its bound.
pub(super) fn too_long() -> String {
    format!("the file has more than {FILE_BYTES} bytes, the most that are read")
}

/// An open list or map while events arrive.
enum Open {
    List(Span, Vec<Node>),
    Map(Group),
}

/// A map while its entries arrive.
struct Group {
    start: Span,
    entries: Vec<(Node, Node)>,
    /// A key that waits for its value.
    key: Option<Node>,
    /// Where each key stands among the entries: of a hundred thousand keys, each is looked for once.
    places: HashMap<String, usize>,
}

struct Builder<'a> {
    text: &'a str,
    file: FileId,
    faults: &'a mut Vec<Fault>,
    stack: Vec<Open>,
    root: Option<Node>,
    nodes: usize,
}

impl Builder<'_> {
    fn run(mut self) -> Result<Node, Box<Fault>> {
        let mut options = Options::default();
        options.flow_nesting_limit = YAML_DEPTH;
        options.block_nesting_limit = YAML_DEPTH;
        let mut documents = 0;
        for next in Parser::new_from_str_with_options(self.text, options) {
            let (event, span) = next.map_err(|e| {
                let at = e.marker().byte_offset().unwrap_or(self.text.len());
                Box::new(self.broken(at, &e.info()))
            })?;
            let range = span.byte_range().unwrap_or(0..0);
            let span = self.span(range.start, range.end);
            self.refuse_extras(&event, span)?;
            match event {
                Event::DocumentStart(..) => {
                    documents += 1;
                    if documents > 1 {
                        return Err(Box::new(
                            Fault::new(
                                Code::YamlFeature,
                                "a second YAML document begins here",
                                span,
                                "",
                            )
                            .help("put each lesson and each chart into a file of its own"),
                        ));
                    }
                }
                Event::Scalar(text, style, ..) => {
                    let kind = Kind::Scalar {
                        text: text.into_owned(),
                        plain: style == ScalarStyle::Plain,
                        literal: style == ScalarStyle::Literal,
                    };
                    self.add(Node { span, kind })?;
                }
                Event::SequenceStart(..) => self.stack.push(Open::List(span, Vec::new())),
                Event::MappingStart(..) => self.stack.push(Open::Map(Group {
                    start: span,
                    entries: Vec::new(),
                    key: None,
                    places: HashMap::new(),
                })),
                Event::SequenceEnd | Event::MappingEnd => self.close(span)?,
                _ => {}
            }
            if self.stack.len() > YAML_DEPTH {
                let title = format!("values nest deeper than {YAML_DEPTH} levels");
                return Err(Box::new(Fault::new(Code::TooLarge, title, span, "")));
            }
        }
        self.root.ok_or_else(|| {
            Box::new(
                Fault::new(
                    Code::BrokenYaml,
                    "the file is empty",
                    Span {
                        file: self.file,
                        start: 0,
                        end: 0,
                    },
                    "",
                )
                .help("`explain broken-yaml` shows the smallest chart and lesson"),
            )
        })
    }

    /// What cannot be read at this byte, told where the cause is seen: a quote or bracket that opens on a line above and is
    /// not closed.
    fn broken(&self, at: usize, message: &str) -> Fault {
        let title = "this is not readable YAML";
        let here = self.span(at, at + 1);
        let opens = unclosed(self.text, at).filter(|opens| {
            let between = self.text.get(*opens..here.start);
            between.is_some_and(|between| between.contains('\n'))
        });
        if let Some(opens) = opens {
            let place = self.span(opens, opens + 1);
            return Fault::new(
                Code::BrokenYaml,
                title,
                place,
                "this opens and is not closed",
            )
            .also(here, message)
            .help("close it on its line");
        }
        Fault::new(Code::BrokenYaml, title, here, message)
            .help("look at the indentation and the colons of this line and the one above")
    }

    /// Cuts a span to the text and to characters, without trailing white space.
    fn span(&self, start: usize, end: usize) -> Span {
        let snap = |mut i: usize| {
            i = i.min(self.text.len());
            while !self.text.is_char_boundary(i) {
                i -= 1;
            }
            i
        };
        let start = snap(start);
        let end = snap(end).max(start);
        let trimmed = self.text.get(start..end).map_or(0, |s| s.trim_end().len());
        Span {
            file: self.file,
            start,
            end: start + trimmed,
        }
    }

    fn refuse_extras(&self, event: &Event<'_>, span: Span) -> Result<(), Box<Fault>> {
        let what = match event {
            Event::Alias(_) | Event::UnresolvedAlias(_) | Event::Anchor(..) => "an anchor or alias",
            e if e.anchor_id().is_some() => "an anchor or alias",
            e if e.tag().is_some() => "a tag",
            _ => return Ok(()),
        };
        Err(Box::new(
            Fault::new(
                Code::YamlFeature,
                format!("{what} is not read in course files"),
                span,
                "",
            )
            .help("write the value itself; put quotes round text that starts with `&`, `*` or `!`"),
        ))
    }

    fn add(&mut self, node: Node) -> Result<(), Box<Fault>> {
        self.nodes += 1;
        if self.nodes > YAML_VALUES {
            let title = format!("the file has more than {YAML_VALUES} values");
            return Err(Box::new(Fault::new(Code::TooLarge, title, node.span, "")));
        }
        match self.stack.last_mut() {
            None => self.root = Some(node),
            Some(Open::List(_, items)) => items.push(node),
            Some(Open::Map(group)) => match group.key.take() {
                None if node.text().is_none() => {
                    return Err(Box::new(
                        Fault::new(
                            Code::YamlFeature,
                            "a key must be a single value",
                            node.span,
                            "",
                        )
                        .help("put quotes round a key that starts with `[` or `{`"),
                    ));
                }
                None => group.key = Some(node),
                Some(key) => {
                    let name = key.text().unwrap_or("").to_owned();
                    let first = group.places.get(&name).and_then(|i| group.entries.get(*i));
                    if let Some((first, _)) = first {
                        let title = format!("`{name}` is written twice");
                        let fault = Fault::new(Code::DuplicateKey, title, key.span, "again here");
                        let fault = fault.also(first.span, "first here");
                        self.faults.push(fault.help("keep one of the two"));
                    } else {
                        group.places.insert(name, group.entries.len());
                        group.entries.push((key, node));
                    }
                }
            },
        }
        Ok(())
    }

    fn close(&mut self, end: Span) -> Result<(), Box<Fault>> {
        let node = match self.stack.pop() {
            Some(Open::List(start, items)) => {
                let last = items.last().map_or(end.end, |n| n.span.end.max(end.end));
                Node {
                    span: self.span(start.start, last),
                    kind: Kind::List(items),
                }
            }
            Some(Open::Map(Group { start, entries, .. })) => {
                let last = entries
                    .last()
                    .map_or(end.end, |(_, n)| n.span.end.max(end.end));
                // A block map's own start is the colon's line; its first key is where a reader looks.
                let first = entries
                    .first()
                    .map_or(start.start, |(k, _)| k.span.start.min(start.start));
                Node {
                    span: self.span(first, last),
                    kind: Kind::Map(entries),
                }
            }
            None => return Ok(()),
        };
        self.add(node)
    }
}
