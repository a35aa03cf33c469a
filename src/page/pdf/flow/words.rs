//! Running text: spans, lines, headings, paragraphs.

use crate::page::blocks::{Inline, Tone, plain};
use crate::page::pdf::face::Face;
use crate::page::pdf::flow::{Flow, Slice, indented, stacked};
use crate::page::pdf::frame::{LinkArea, PageMark, Role};
use crate::page::pdf::text::{Line, Run, Span, Style};
use crate::picture::{Paint, Path, Stroke};
use crate::words::labels::{BLANK, COUNTED, REPEAT_FROM};

impl Flow<'_> {
    /// Spans of running text in a style.
    pub(super) fn spans(&self, inlines: &[Inline], style: Style) -> Vec<Span> {
        let mut spans = Vec::new();
        collect(inlines, style, None, &mut spans);
        spans
    }

    /// One slice a line, tagged with `node`; the first two and the last two lines stay together.
    pub(super) fn lines(
        &mut self,
        spans: &[Span],
        leading: f64,
        node: Option<usize>,
        width: f64,
    ) -> Vec<Slice> {
        let lines = self.typesetter.lines(spans, width);
        let count = lines.len();
        let slice = |(i, line): (usize, Line)| {
            let mut slice = Slice {
                height: leading,
                ..Slice::default()
            };
            // Baseline: the leading less about a quarter for descenders and half the lead.
            self.put(&mut slice, line, (0.0, leading * 0.76), leading, node);
            slice.keep = i + 1 < count && (i == 0 || i + 2 == count);
            slice
        };
        lines.into_iter().enumerate().map(slice).collect()
    }

    /// Puts a line into a slice with its baseline at `y`. The words of a link belong to a node of their own.
    pub(super) fn put(
        &mut self,
        slice: &mut Slice,
        line: Line,
        (x, y): (f64, f64),
        leading: f64,
        node: Option<usize>,
    ) {
        let mut links: Vec<(f64, f64, usize)> = Vec::new();
        for (from, to, href) in line.links {
            let tag = self.tree.add(node.unwrap_or(0), Role::Link);
            links.push((from, to, tag));
            slice.links.push(LinkArea {
                node: tag,
                area: (x + from, y - leading * 0.7, x + to, y + leading * 0.2),
                href,
            });
        }
        for run in line.runs {
            let link = links
                .iter()
                .find(|(from, to, _)| run.x >= from - 1e-6 && run.x < to - 1e-6);
            // A place to write on is not spoken.
            let is_blank = node.is_some() && is_blank(&run.text());
            let mark = PageMark::Run(Run {
                x: x + run.x,
                y: y + run.y,
                ..run
            });
            let node = link.map_or(node, |(.., tag)| Some(*tag));
            match is_blank {
                true => slice.mark_near(mark, node),
                false => slice.mark(mark, node),
            }
        }
    }

    /// A text block as one slice.
    pub(super) fn text(
        &mut self,
        inlines: &[Inline],
        style: Style,
        leading: f64,
        node: Option<usize>,
        width: f64,
    ) -> Slice {
        let spans = self.spans(inlines, style);
        stacked(&self.lines(&spans, leading, node, width))
    }

    pub(super) fn words(
        &mut self,
        words: &str,
        style: Style,
        leading: f64,
        node: Option<usize>,
        width: f64,
    ) -> Slice {
        self.text(
            &[Inline::Text(words.to_owned())],
            style,
            leading,
            node,
            width,
        )
    }

    /// A node for a heading. No level is skipped on the way down, whatever a text or template asks for.
    pub(super) fn heading_node(&mut self, level: u8, title: &str, node: usize) -> usize {
        self.level = level.clamp(1, 3).min(self.level + 1);
        let role = match self.level {
            1 => Role::H1,
            2 => Role::H2,
            _ => Role::H3,
        };
        let tag = self.tree.add(node, role);
        if let Some(heading) = self.tree.nodes.get_mut(tag) {
            heading.title = Some(title.to_owned());
        }
        tag
    }

    pub(super) fn heading(&mut self, level: u8, text: &[Inline], node: usize, width: f64) -> Slice {
        let tag = self.heading_node(level, &plain(text), node);
        let mut slice = match level {
            1 => {
                let size = self.sizes.page_title;
                let style = Style::new(Face::Title, size.size);
                let mut slice = self.text(text, style, size.leading, Some(tag), width);
                slice.height += 1.5;
                slice.gap = 7.5;
                slice
            }
            2 => {
                let size = self.sizes.section;
                let style = Style::new(Face::Title, size.size);
                let words = self.text(text, style, size.leading, Some(tag), width);
                let mut slice = Slice {
                    height: words.height + 1.7,
                    gap: 5.0,
                    ..Slice::default()
                };
                let path = Path::line(&[(0.0, 0.3), (width, 0.3)]);
                let stroke = Stroke::new(Paint::Ink, if self.sizes.large { 0.8 } else { 0.6 });
                slice.mark(PageMark::Line(path, stroke), None);
                slice.absorb(&words, 0.0, 1.2);
                slice
            }
            _ if self.card => {
                let size = self.sizes.card_title;
                let style = Style::new(Face::Title, size.size);
                let mut slice = self.text(text, style, size.leading, Some(tag), width - 6.0);
                slice.gap = 1.0;
                slice
            }
            _ => {
                let mut slice = self.text(
                    text,
                    Style::new(Face::Bold, self.body.size),
                    self.body.leading,
                    Some(tag),
                    width,
                );
                slice.gap = 3.0;
                slice
            }
        };
        slice.keep = true;
        slice.headings.push(tag);
        slice
    }

    pub(super) fn paragraph(
        &mut self,
        text: &[Inline],
        tone: Tone,
        node: usize,
        width: f64,
    ) -> Vec<Slice> {
        let tag = self.tree.add(node, Role::Paragraph);
        let (body, paint) = match tone {
            Tone::Body => (self.body, Paint::Ink),
            Tone::Fine => (self.sizes.boxed, Paint::Ink),
            Tone::Small => (self.sizes.small, Paint::Text2),
        };
        let spans = self.spans(text, Style::new(Face::Regular, body.size).in_paint(paint));
        let mut slices = self.lines(&spans, body.leading, Some(tag), width);
        if let Some(first) = slices.first_mut() {
            first.gap = if tone == Tone::Small {
                3.0
            } else {
                body.leading * 0.45
            };
        }
        slices
    }

    pub(super) fn code(&mut self, text: &str, node: usize, width: f64) -> Vec<Slice> {
        let tag = self.tree.add(node, Role::Code);
        let size = self.sizes.small;
        let style = Style {
            tabular: true,
            ..Style::new(Face::Regular, size.size)
        };
        let mut slices = Vec::new();
        for (i, line) in text.lines().enumerate() {
            let words = self.words(line, style, size.leading, Some(tag), width - 5.0);
            let mut slice = indented(&words, 5.0);
            slice.gap = if i == 0 { 3.0 } else { 0.0 };
            slice.height = slice.height.max(size.leading);
            slices.push(slice);
        }
        slices
    }
}

/// Whether a piece of text is a place to write on, a stop after it at most.
fn is_blank(text: &str) -> bool {
    text.starts_with(BLANK) && text.trim_matches(['_', '.', ';', ',', ' ']).is_empty()
}

/// Running text to spans; a blank between a figure and its word does not break.
fn collect(inlines: &[Inline], style: Style, link: Option<&String>, spans: &mut Vec<Span>) {
    let bold = |style: Style| Style {
        face: if style.face == Face::Title {
            Face::Title
        } else {
            Face::Bold
        },
        ..style
    };
    for inline in inlines {
        match inline {
            Inline::Text(text) | Inline::Code(text) => {
                spans.push(Span {
                    text: tied(text),
                    style,
                    link: link.cloned(),
                });
            }
            Inline::Strong(inner) => collect(inner, bold(style), link, spans),
            Inline::Emphasis(inner) => collect(inner, style, link, spans),
            Inline::Link { href, text } => {
                collect(text, style.in_paint(Paint::Estuary), Some(href), spans);
            }
            Inline::Break => spans.push(Span {
                text: "\n".to_owned(),
                style,
                link: None,
            }),
        }
    }
}

/// Ties a number to the word after it, a counted word to its number, and "repeat from *" together.
fn tied(text: &str) -> String {
    // Most words hold no figure and no star: they are left as they are.
    if !text.contains(|c: char| c.is_ascii_digit() || c == '*') {
        return text.to_owned();
    }
    let mut text = text.replace(REPEAT_FROM, &REPEAT_FROM.replace(' ', "\u{a0}"));
    let blanks: Vec<usize> = text
        .match_indices(' ')
        .filter(|(at, _)| {
            let (before, after) = (&text[..*at], &text[at + 1..]);
            after.starts_with(|c: char| ('1'..='9').contains(&c))
                && COUNTED.iter().any(|word| before.ends_with(word))
        })
        .map(|(at, _)| at)
        .collect();
    for at in blanks.into_iter().rev() {
        text.replace_range(at..=at, "\u{a0}");
    }
    let mut out = String::with_capacity(text.len());
    let mut token_is_number = false;
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        let ties =
            c == ' ' && token_is_number && chars.peek().is_some_and(|next| next.is_alphabetic());
        out.push(if ties { '\u{a0}' } else { c });
        token_is_number = match c {
            ' ' => false,
            '*' | '(' => token_is_number,
            '.' => token_is_number && chars.peek().is_some_and(char::is_ascii_digit),
            c => {
                c.is_ascii_digit()
                    && (token_is_number
                        || out
                            .chars()
                            .rev()
                            .nth(1)
                            .is_none_or(|p| p == ' ' || p == '*' || p == '('))
            }
        };
    }
    out
}
