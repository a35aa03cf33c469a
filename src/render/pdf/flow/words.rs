//! Running text: spans, lines, headings, paragraphs.

use crate::picture::{Paint, Path, Stroke};
use crate::render::blocks::{Inline, Tone, plain};
use crate::render::pdf::face::Face;
use crate::render::pdf::flow::{Flow, SMALL, Slice, indented, stacked};
use crate::render::pdf::frame::{LinkArea, Mark, Role};
use crate::render::pdf::text::{Line, Run, Span, Style};

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
            put(&mut slice, line, 0.0, leading * 0.76, leading, node);
            slice.keep = i + 1 < count && (i == 0 || i + 2 == count);
            slice
        };
        lines.into_iter().enumerate().map(slice).collect()
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

    pub(super) fn heading(&mut self, level: u8, text: &[Inline], node: usize, width: f64) -> Slice {
        let role = match level {
            1 => Role::H1,
            2 => Role::H2,
            _ => Role::H3,
        };
        let tag = self.tree.add(node, role);
        if let Some(heading) = self.tree.nodes.get_mut(tag) {
            heading.title = Some(plain(text));
        }
        let mut slice = match level {
            1 => {
                let mut slice =
                    self.text(text, Style::new(Face::Title, 20.0), 9.0, Some(tag), width);
                slice.height += 1.5;
                slice.gap = 7.5;
                slice
            }
            2 => {
                let words = self.text(text, Style::new(Face::Title, 14.0), 6.0, Some(tag), width);
                let mut slice = Slice {
                    height: words.height + 2.6,
                    gap: 7.5,
                    ..Slice::default()
                };
                let path = Path::line(&[(0.0, 0.3), (width, 0.3)]);
                slice.mark(Mark::Line(path, Stroke::new(Paint::Ink, 0.6)), None);
                slice.absorb(&words, 0.0, 1.2);
                slice
            }
            _ if self.card => {
                let mut slice = self.text(
                    text,
                    Style::new(Face::Title, 13.0),
                    6.0,
                    Some(tag),
                    width - 6.0,
                );
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
                slice.gap = 3.5;
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
            Tone::Small => (SMALL, Paint::Text2),
        };
        let spans = self.spans(text, Style::new(Face::Regular, body.size).in_paint(paint));
        let mut slices = self.lines(&spans, body.leading, Some(tag), width);
        if let Some(first) = slices.first_mut() {
            first.gap = if tone == Tone::Small {
                3.0
            } else {
                body.leading * 0.55
            };
        }
        slices
    }

    pub(super) fn code(&mut self, text: &str, node: usize, width: f64) -> Vec<Slice> {
        let tag = self.tree.add(node, Role::Code);
        let style = Style {
            tabular: true,
            ..Style::new(Face::Regular, 9.5)
        };
        let mut slices = Vec::new();
        for (i, line) in text.lines().enumerate() {
            let mut slice = indented(&self.words(line, style, 4.5, Some(tag), width - 5.0), 5.0);
            slice.gap = if i == 0 { 3.0 } else { 0.0 };
            slice.height = slice.height.max(4.5);
            slices.push(slice);
        }
        slices
    }
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

/// Ties a whole number to the word after it, and "repeat from *" together.
fn tied(text: &str) -> String {
    let mut text = text.replace("repeat from *", "repeat\u{a0}from\u{a0}*");
    for word in [
        "round", "Round", "rounds", "row", "rows", "stitch", "lesson", "page",
    ] {
        for digit in '1'..='9' {
            text = text.replace(&format!("{word} {digit}"), &format!("{word}\u{a0}{digit}"));
        }
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

/// Puts a line into a slice with its baseline at `y`.
pub(super) fn put(
    slice: &mut Slice,
    line: Line,
    x: f64,
    y: f64,
    leading: f64,
    node: Option<usize>,
) {
    for (from, to, href) in line.links {
        slice.links.push(LinkArea {
            area: (x + from, y - leading * 0.7, x + to, y + leading * 0.2),
            href,
        });
    }
    for run in line.runs {
        slice.mark(
            Mark::Run(Run {
                x: x + run.x,
                y: y + run.y,
                ..run
            }),
            node,
        );
    }
}
