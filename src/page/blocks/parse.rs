//! Markdown to blocks. Raw HTML comes out as text; unsafe links and all images do not come out.

use std::ops::Range;

use pulldown_cmark::{Alignment, CodeBlockKind, Event, HeadingLevel, Options, Parser, Tag, TagEnd};

use crate::page::blocks::{Align, Block, Cell, Inline, Table, Tone};

/// Deepest nesting of lists and quotes kept; deeper ones are flattened.
const MAX_DEPTH: usize = 12;

/// What fenced blocks can stand for: name, argument, body → blocks; `None` if the name is not a directive.
pub trait Directives {
    /// Resolves a directive.
    fn resolve(&self, name: &str, argument: &str, body: &str) -> Option<Vec<Block>>;
}

/// No directives: every fenced block is code.
struct NoDirectives;

impl Directives for NoDirectives {
    fn resolve(&self, _: &str, _: &str, _: &str) -> Option<Vec<Block>> {
        None
    }
}

/// Something in a text that will not be printed as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Problem {
    /// A link with an address that is not allowed.
    Link(String),
    /// A picture: only drawings made here are printed.
    Image(String),
}

/// Links and pictures of a text that will not come out, with their places in it.
#[must_use]
pub fn problems(text: &str) -> Vec<(Range<usize>, Problem)> {
    Parser::new_ext(text, options())
        .into_offset_iter()
        .filter_map(|(event, range)| match event {
            Event::Start(Tag::Link { dest_url, .. }) if !is_safe(&dest_url) => {
                Some((range, Problem::Link(dest_url.into_string())))
            }
            Event::Start(Tag::Image { dest_url, .. }) => {
                Some((range, Problem::Image(dest_url.into_string())))
            }
            _ => None,
        })
        .collect()
}

/// Only these schemes are written into pages; relative addresses and places in the page are fine, too.
fn is_safe(href: &str) -> bool {
    let href = href.trim();
    let scheme = href.split(['/', '?', '#']).next().unwrap_or("");
    let visible = !href.chars().any(char::is_control) && !href.contains('\\');
    visible
        && !href.starts_with("//")
        && match scheme.split_once(':') {
            Some((scheme, _)) => {
                ["http", "https", "mailto"].contains(&scheme.to_ascii_lowercase().as_str())
            }
            None => true,
        }
}

fn options() -> Options {
    Options::ENABLE_TABLES
}

/// Parses Markdown; fenced blocks with a known name become what `directives` make of them.
#[must_use]
pub fn parse(markdown: &str, directives: &dyn Directives) -> Vec<Block> {
    let depth = DEPTH.get();
    DEPTH.set(depth + 1);
    let blocks = parse_at(markdown, directives);
    DEPTH.set(depth);
    blocks
}

thread_local! {
    /// How many directives this thread is inside of: what they hold is parsed in turn.
    static DEPTH: std::cell::Cell<usize> = const { std::cell::Cell::new(0) };
}

fn parse_at(markdown: &str, directives: &dyn Directives) -> Vec<Block> {
    let mut builder = Builder {
        directives,
        frames: vec![Frame::default()],
    };
    for event in Parser::new_ext(markdown, options()) {
        builder.event(event);
    }
    while builder.frames.len() > 1 {
        builder.close();
    }
    let mut last = builder.frames.pop().unwrap_or_default();
    last.flush();
    last.blocks
}

impl dyn Directives {
    /// The set in which nothing is a directive.
    #[must_use]
    pub fn none() -> Box<dyn Directives> {
        Box::new(NoDirectives)
    }
}

/// What an open element turns into when it is closed.
#[derive(Debug, Default)]
enum Purpose {
    #[default]
    Root,
    Heading(u8),
    Paragraph,
    Quote,
    List(Option<u64>, Vec<Vec<Block>>),
    Item,
    Code(Option<String>),
    Table(Vec<Align>, Vec<Cell>, Vec<Vec<Cell>>),
    TableRow(Vec<Cell>),
    TableCell,
    Strong,
    Emphasis,
    Link(Option<String>),
    Image,
}

#[derive(Debug, Default)]
struct Frame {
    purpose: Purpose,
    blocks: Vec<Block>,
    inlines: Vec<Inline>,
    text: String,
}

impl Frame {
    /// Loose running text becomes a paragraph (tight list items hold it bare).
    fn flush(&mut self) {
        if !self.inlines.is_empty() {
            let inlines = std::mem::take(&mut self.inlines);
            self.blocks.push(Block::Paragraph(Tone::Body, inlines));
        }
    }
}

struct Builder<'a> {
    directives: &'a dyn Directives,
    frames: Vec<Frame>,
}

impl Builder<'_> {
    fn event(&mut self, event: Event<'_>) {
        match event {
            Event::Start(tag) => self.open(tag),
            Event::End(tag) => {
                if !matches!(tag, TagEnd::HtmlBlock | TagEnd::MetadataBlock(_)) {
                    self.close();
                }
            }
            Event::Text(text) => self.text(&text),
            Event::Code(code) => self.inline(Inline::Code(code.into_string())),
            // Raw HTML is shown as the text it is.
            Event::Html(html) | Event::InlineHtml(html) => self.text(&html),
            Event::SoftBreak => self.text(" "),
            Event::HardBreak => self.inline(Inline::Break),
            Event::Rule => self.block(Block::Rule),
            Event::InlineMath(text) | Event::DisplayMath(text) | Event::FootnoteReference(text) => {
                self.text(&text)
            }
            Event::TaskListMarker(_) => {}
        }
    }

    fn top(&mut self) -> Option<&mut Frame> {
        self.frames.last_mut()
    }

    fn text(&mut self, text: &str) {
        let Some(top) = self.top() else { return };
        if let Purpose::Code(_) = top.purpose {
            top.text.push_str(text);
        } else if let Some(Inline::Text(last)) = top.inlines.last_mut() {
            last.push_str(text);
        } else {
            top.inlines.push(Inline::Text(text.to_owned()));
        }
    }

    fn inline(&mut self, inline: Inline) {
        if let Some(top) = self.top() {
            top.inlines.push(inline);
        }
    }

    fn block(&mut self, block: Block) {
        if let Some(top) = self.top() {
            top.flush();
            top.blocks.push(block);
        }
    }

    fn open(&mut self, tag: Tag<'_>) {
        let deep = self.frames.len() > MAX_DEPTH;
        let purpose = match tag {
            Tag::Heading { level, .. } => Purpose::Heading(match level {
                HeadingLevel::H1 => 1,
                HeadingLevel::H2 => 2,
                HeadingLevel::H3 => 3,
                _ => 4,
            }),
            Tag::Paragraph => Purpose::Paragraph,
            Tag::BlockQuote(_) if !deep => Purpose::Quote,
            Tag::List(start) if !deep => Purpose::List(start, Vec::new()),
            Tag::CodeBlock(CodeBlockKind::Fenced(info)) => Purpose::Code(Some(info.into_string())),
            Tag::CodeBlock(CodeBlockKind::Indented) => Purpose::Code(None),
            Tag::Table(align) => {
                let align = align.iter().map(|a| match a {
                    Alignment::Right => Align::Right,
                    Alignment::Center => Align::Centre,
                    _ => Align::Left,
                });
                Purpose::Table(align.collect(), Vec::new(), Vec::new())
            }
            Tag::TableHead | Tag::TableRow => Purpose::TableRow(Vec::new()),
            Tag::TableCell => Purpose::TableCell,
            Tag::Strong => Purpose::Strong,
            Tag::Emphasis => Purpose::Emphasis,
            Tag::Link { dest_url, .. } => {
                Purpose::Link(is_safe(&dest_url).then(|| dest_url.into_string()))
            }
            Tag::Image { .. } => Purpose::Image,
            Tag::HtmlBlock | Tag::MetadataBlock(_) => return,
            _ => Purpose::Item,
        };
        if matches!(
            purpose,
            Purpose::Quote | Purpose::List(..) | Purpose::Code(_) | Purpose::Table(..)
        ) && let Some(top) = self.top()
        {
            top.flush();
        }
        self.frames.push(Frame {
            purpose,
            ..Frame::default()
        });
    }

    fn close(&mut self) {
        if self.frames.len() < 2 {
            return;
        }
        let Some(mut frame) = self.frames.pop() else {
            return;
        };
        let purpose = std::mem::take(&mut frame.purpose);
        match purpose {
            Purpose::Heading(level) => self.block(Block::Heading(level, frame.inlines)),
            Purpose::Paragraph => {
                if !frame.inlines.is_empty() {
                    self.block(Block::Paragraph(Tone::Body, frame.inlines));
                }
            }
            Purpose::Strong => self.inline(Inline::Strong(frame.inlines)),
            Purpose::Emphasis => self.inline(Inline::Emphasis(frame.inlines)),
            Purpose::Link(Some(href)) => self.inline(Inline::Link {
                href,
                text: frame.inlines,
            }),
            // An unsafe link leaves its words, a picture its description.
            Purpose::Link(None) | Purpose::Image => {
                for inline in frame.inlines {
                    self.inline(inline);
                }
            }
            Purpose::Code(info) => self.fenced(info, frame.text),
            Purpose::Quote => {
                frame.flush();
                self.block(Block::Quote(frame.blocks));
            }
            Purpose::List(start, items) => self.block(Block::List(start, items)),
            Purpose::Item | Purpose::Root => {
                frame.flush();
                match self.top().map(|top| &mut top.purpose) {
                    Some(Purpose::List(_, items)) => items.push(frame.blocks),
                    _ => {
                        for block in frame.blocks {
                            self.block(block);
                        }
                    }
                }
            }
            Purpose::TableCell => {
                if let Some(Purpose::TableRow(cells)) = self.top().map(|top| &mut top.purpose) {
                    cells.push(Cell {
                        chip: None,
                        text: frame.inlines,
                    });
                }
            }
            Purpose::TableRow(cells) => {
                if let Some(Purpose::Table(_, head, rows)) = self.top().map(|top| &mut top.purpose)
                {
                    if head.is_empty() {
                        *head = cells
                    } else {
                        rows.push(cells)
                    }
                }
            }
            Purpose::Table(align, head, rows) => {
                self.block(Block::Table(Table::new(head, rows, align)))
            }
        }
    }

    fn fenced(&mut self, info: Option<String>, body: String) {
        let info = info.unwrap_or_default();
        let (name, argument) = info.trim().split_once(' ').unwrap_or((info.trim(), ""));
        // What a template nests deeper is shown as it is written.
        let known = (DEPTH.get() <= MAX_DEPTH)
            .then(|| self.directives.resolve(name, argument.trim(), &body));
        match known.flatten() {
            Some(blocks) => blocks.into_iter().for_each(|block| self.block(block)),
            None => self.block(Block::Code(body)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::blocks::plain;

    fn text_of(markdown: &str) -> String {
        let none = <dyn Directives>::none();
        parse(markdown, none.as_ref())
            .iter()
            .map(|block| match block {
                Block::Paragraph(_, inlines) => plain(inlines),
                other => format!("{other:?}"),
            })
            .collect()
    }

    #[test]
    fn html_is_text_and_unsafe_links_leave_their_words() {
        assert_eq!(text_of("a <b onclick='x'>c</b>"), "a <b onclick='x'>c</b>");
        for href in [
            "javascript:alert(1)",
            "data:text/html,x",
            "JaVaScRiPt:x",
            "//evil",
            "vbscript:x",
            "java\\script:x",
        ] {
            let text = format!("[words]({href})");
            assert!(
                !format!("{:?}", parse(&text, <dyn Directives>::none().as_ref())).contains("Link"),
                "{href}"
            );
            assert_eq!(text_of(&text), "words");
        }
        assert_eq!(problems("![a](x.png) [b](javascript:c)").len(), 2);
        assert!(problems("[b](https://example.org)").is_empty());
    }

    #[test]
    fn deep_nesting_is_flattened() {
        let deep = "> ".repeat(5000) + "x";
        assert!(!parse(&deep, <dyn Directives>::none().as_ref()).is_empty());
    }
}
