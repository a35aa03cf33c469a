//! YAML text to a tree of nodes with byte spans. The only file that names the YAML crate.
//!
//! A tree, not typed structures, so that *every* wrong key and value of a file can be reported in one run.
//! Only what our files need is read: one document, no anchors, aliases or tags, bounded size and depth.

use granit_parser::{Event, Options, Parser, ScalarStyle};

use crate::ground::fault::{Code, Fault, FileId, SourceMap, Span};

/// Largest file read, in bytes.
const MAX_BYTES: usize = 4 << 20;
/// Deepest nesting read.
const MAX_DEPTH: usize = 64;
/// Most nodes in a file.
const MAX_NODES: usize = 250_000;

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
    if text.len() > MAX_BYTES {
        let title = format!(
            "the file has {} bytes; {MAX_BYTES} are read at most",
            text.len()
        );
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

/// An open list or map while events arrive.
enum Open {
    List(Span, Vec<Node>),
    Map(Span, Vec<(Node, Node)>, Option<Node>),
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
        options.flow_nesting_limit = MAX_DEPTH;
        options.block_nesting_limit = MAX_DEPTH;
        let mut documents = 0;
        for next in Parser::new_from_str_with_options(self.text, options) {
            let (event, span) = next.map_err(|e| {
                let at = e.marker().byte_offset().unwrap_or(self.text.len());
                let message = e.info();
                Box::new(
                    Fault::new(
                        Code::BrokenYaml,
                        "this is not readable YAML",
                        self.span(at, at + 1),
                        message,
                    )
                    .help("look at the indentation and the colons of this line and the one above"),
                )
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
                Event::MappingStart(..) => self.stack.push(Open::Map(span, Vec::new(), None)),
                Event::SequenceEnd | Event::MappingEnd => self.close(span)?,
                _ => {}
            }
            if self.stack.len() > MAX_DEPTH {
                let title = format!("values nest deeper than {MAX_DEPTH} levels");
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
        if self.nodes > MAX_NODES {
            let title = format!("the file has more than {MAX_NODES} values");
            return Err(Box::new(Fault::new(Code::TooLarge, title, node.span, "")));
        }
        match self.stack.last_mut() {
            None => self.root = Some(node),
            Some(Open::List(_, items)) => items.push(node),
            Some(Open::Map(_, entries, key)) => match key.take() {
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
                None => *key = Some(node),
                Some(k) => match entries.iter().find(|(seen, _)| seen.text() == k.text()) {
                    None => entries.push((k, node)),
                    Some((first, _)) => {
                        let name = k.text().unwrap_or("").to_owned();
                        let fault = Fault::new(
                            Code::DuplicateKey,
                            format!("`{name}` is written twice"),
                            k.span,
                            "again here",
                        )
                        .also(first.span, "first here")
                        .help("keep one of the two");
                        self.faults.push(fault);
                    }
                },
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
            Some(Open::Map(start, entries, _)) => {
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
