//! Blocks to slices: pieces of a column that are placed on pages from top to bottom and never cut.

mod boxes;
mod drawing;
mod lists;
mod table;

use crate::picture::{Drawing, Paint, Path, Stroke};
use crate::render::blocks::{Block, Inline, Tone, plain};
use crate::render::pdf::frame::{Item, LinkArea, Mark, Role, Tree};
use crate::render::pdf::paginate::moved;
use crate::render::pdf::text::{Face, Line, Run, Span, Style, Typesetter};

/// A piece of a column, in millimetres from its own top left corner.
#[derive(Clone, Debug, Default)]
pub(super) struct Slice {
    pub(super) height: f64,
    /// Space above, dropped at the head of a page.
    pub(super) gap: f64,
    /// Stays on the page of the next slice.
    pub(super) keep: bool,
    /// Begins a page, unless more than so many millimetres are left.
    pub(super) new_page: Option<f64>,
    pub(super) items: Vec<Item>,
    pub(super) links: Vec<LinkArea>,
    /// Headings in it, for bookmarks.
    pub(super) headings: Vec<usize>,
    /// Stands beside this slice and those after it, until one that clears; on the page where this slice stands.
    pub(super) side: Option<Box<Slice>>,
    /// Nothing stands beside what follows.
    pub(super) clear: bool,
    /// Stands again at the head of a page that begins with this slice.
    pub(super) repeat_head: Option<Box<Slice>>,
}

impl Slice {
    /// Adds another slice's content at a place.
    fn absorb(&mut self, other: &Slice, x: f64, y: f64) {
        self.items.extend(other.items.iter().map(|item| Item { mark: moved(&item.mark, x, y), node: item.node }));
        for link in &other.links {
            let (x0, y0, x1, y1) = link.area;
            self.links.push(LinkArea { area: (x0 + x, y0 + y, x1 + x, y1 + y), href: link.href.clone() });
        }
        self.headings.extend(&other.headings);
    }

    fn mark(&mut self, mark: Mark, node: Option<usize>) {
        self.items.push(Item { mark, node });
    }
}

/// Several slices as one that is never cut.
fn stacked(slices: &[Slice]) -> Slice {
    let mut whole = Slice::default();
    for (i, slice) in slices.iter().enumerate() {
        let y = whole.height + if i == 0 { 0.0 } else { slice.gap };
        whole.absorb(slice, 0.0, y);
        whole.height = y + slice.height;
    }
    whole.gap = slices.first().map_or(0.0, |s| s.gap);
    whole
}

/// Columns up to this height stand side by side as one piece; a taller first column may break.
const SIDE_BY_SIDE: f64 = 80.0;

/// Size and leading of running text, and of text in boxes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Body {
    size: f64,
    leading: f64,
}

const BODY: Body = Body { size: 11.0, leading: 5.0 };
const BOXED: Body = Body { size: 10.0, leading: 4.5 };
const SMALL: Body = Body { size: 9.5, leading: 4.25 };

/// Turns blocks into slices.
pub(super) struct Flow<'a> {
    typesetter: &'a mut Typesetter,
    tree: &'a mut Tree,
    /// Tallest slice that fits a page.
    page: f64,
    body: Body,
    /// Heading style of cards: title face instead of text face.
    card: bool,
}

impl<'a> Flow<'a> {
    pub(super) fn new(typesetter: &'a mut Typesetter, tree: &'a mut Tree, page: f64) -> Self {
        Self { typesetter, tree, page, body: BODY, card: false }
    }

    /// The slices of blocks in a column of this width, under `node` of the structure.
    pub(super) fn blocks(&mut self, blocks: &[Block], node: usize, width: f64) -> Vec<Slice> {
        let mut slices: Vec<Slice> = Vec::new();
        let mut new_page = None;
        let mut rest = blocks;
        while let Some((block, after)) = rest.split_first() {
            rest = after;
            if let Block::Page(unless) = block {
                new_page = Some(f64::from(*unless));
                continue;
            }
            let mut next = match (block, after.split_first()) {
                // Two cards stand side by side where there is room.
                (Block::Card(first), Some((Block::Card(second), after))) if width > 120.0 => {
                    rest = after;
                    let pair = [(6, vec![Block::Card(first.clone())]), (6, vec![Block::Card(second.clone())])];
                    self.columns(&pair, node, width)
                }
                (Block::Card(inner), _) if width > 120.0 => vec![self.card(inner, node, (width - 4.0) / 2.0)],
                _ => self.block(block, node, width),
            };
            if let Some(first) = next.first_mut() {
                first.new_page = new_page.take();
            }
            slices.append(&mut next);
        }
        slices
    }

    fn block(&mut self, block: &Block, node: usize, width: f64) -> Vec<Slice> {
        match block {
            Block::Heading(level, text) => vec![self.heading(*level, text, node, width)],
            Block::Paragraph(tone, text) => self.paragraph(text, *tone, node, width),
            Block::List(start, items) => self.list(*start, items, node, width),
            Block::Table { head, rows, align } => self.table(head, rows, align, node, width),
            Block::Figure { drawing, caption, .. } => vec![self.figure(drawing, caption, node, width)],
            Block::Quote(inner) => {
                let quote = self.tree.add(node, Role::Quote);
                let mut slices = self.blocks(inner, quote, width - 6.0);
                for slice in &mut slices {
                    *slice = indented(slice, 6.0);
                }
                slices
            }
            Block::Code(text) => self.code(text, node, width),
            Block::Rule => {
                let mut slice = Slice { height: 0.5, gap: 4.0, ..Slice::default() };
                let path = Path::line(&[(0.0, 0.2), (width, 0.2)]);
                slice.mark(Mark::Line(path, Stroke::new(Paint::Rule, 0.2)), None);
                vec![slice]
            }
            Block::Page(_) => Vec::new(),
            Block::Front { number, of, title, lead, climb } => {
                vec![self.front((*number, *of), title, lead, climb, node)]
            }
            Block::New(intro, things) => vec![self.new_box(intro, things, node, width)],
            Block::Measures(bars) => bars.iter().enumerate().map(|(i, bar)| self.measure(i, bar, node)).collect(),
            Block::Legend(items) => vec![self.legend(items, node, width)],
            Block::Rows(rows) => self.rows(rows, node, width),
            Block::Steps(steps) => self.steps(steps, node, width),
            Block::Checks(checks) => self.checks(checks, node, width),
            Block::Card(inner) => vec![self.card(inner, node, width)],
            Block::Caution(inner) => vec![self.caution(inner, node, width)],
            Block::Columns(columns) => self.columns(columns, node, width),
        }
    }

    /// Spans of running text in a style.
    fn spans(&self, inlines: &[Inline], style: Style) -> Vec<Span> {
        let mut spans = Vec::new();
        collect(inlines, style, None, &mut spans);
        spans
    }

    /// One slice a line, tagged with `node`; the first two and the last two lines stay together.
    fn lines(&mut self, spans: &[Span], leading: f64, node: Option<usize>, width: f64) -> Vec<Slice> {
        let lines = self.typesetter.lines(spans, width);
        let count = lines.len();
        let slice = |(i, line): (usize, Line)| {
            let mut slice = Slice { height: leading, ..Slice::default() };
            // Baseline: the leading less about a quarter for descenders and half the lead.
            put(&mut slice, line, 0.0, leading * 0.76, leading, node);
            slice.keep = i + 1 < count && (i == 0 || i + 2 == count);
            slice
        };
        lines.into_iter().enumerate().map(slice).collect()
    }

    /// A text block as one slice.
    fn text(&mut self, inlines: &[Inline], style: Style, leading: f64, node: Option<usize>, width: f64) -> Slice {
        let spans = self.spans(inlines, style);
        stacked(&self.lines(&spans, leading, node, width))
    }

    fn words(&mut self, words: &str, style: Style, leading: f64, node: Option<usize>, width: f64) -> Slice {
        self.text(&[Inline::Text(words.to_owned())], style, leading, node, width)
    }

    fn heading(&mut self, level: u8, text: &[Inline], node: usize, width: f64) -> Slice {
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
                let mut slice = self.text(text, Style::new(Face::Title, 20.0), 9.0, Some(tag), width);
                slice.height += 1.5;
                slice.gap = 10.0;
                slice
            }
            2 => {
                let words = self.text(text, Style::new(Face::Title, 14.0), 6.0, Some(tag), width);
                let mut slice = Slice { height: words.height + 2.6, gap: 7.5, ..Slice::default() };
                let path = Path::line(&[(0.0, 0.3), (width, 0.3)]);
                slice.mark(Mark::Line(path, Stroke::new(Paint::Ink, 0.6)), None);
                slice.absorb(&words, 0.0, 1.2);
                slice
            }
            _ if self.card => {
                let mut slice = self.text(text, Style::new(Face::Title, 13.0), 6.0, Some(tag), width - 6.0);
                slice.gap = 1.0;
                slice
            }
            _ => {
                let mut slice = self.text(text, Style::new(Face::Bold, self.body.size), self.body.leading, Some(tag), width);
                slice.gap = 3.5;
                slice
            }
        };
        slice.keep = true;
        slice.headings.push(tag);
        slice
    }

    fn paragraph(&mut self, text: &[Inline], tone: Tone, node: usize, width: f64) -> Vec<Slice> {
        let tag = self.tree.add(node, Role::Paragraph);
        let (body, paint) = match tone {
            Tone::Body => (self.body, Paint::Ink),
            Tone::Small => (SMALL, Paint::Text2),
        };
        let spans = self.spans(text, Style::new(Face::Regular, body.size).in_paint(paint));
        let mut slices = self.lines(&spans, body.leading, Some(tag), width);
        if let Some(first) = slices.first_mut() {
            first.gap = if tone == Tone::Small { 3.0 } else { body.leading * 0.55 };
        }
        slices
    }

    fn code(&mut self, text: &str, node: usize, width: f64) -> Vec<Slice> {
        let tag = self.tree.add(node, Role::Code);
        let style = Style { tabular: true, ..Style::new(Face::Regular, 9.5) };
        let mut slices = Vec::new();
        for (i, line) in text.lines().enumerate() {
            let mut slice = indented(&self.words(line, style, 4.5, Some(tag), width - 5.0), 5.0);
            slice.gap = if i == 0 { 3.0 } else { 0.0 };
            slice.height = slice.height.max(4.5);
            slices.push(slice);
        }
        slices
    }

    fn figure(&mut self, drawing: &Drawing, caption: &[Inline], node: usize, width: f64) -> Slice {
        let mut slice = Slice { gap: 3.0, ..Slice::default() };
        let scale = (width / drawing.width.max(0.1)).min(1.0).min(self.page * 0.97 / drawing.height.max(0.1));
        let tag = (!drawing.alt.is_empty()).then(|| self.tree.add_figure(node, &drawing.alt));
        drawing::put(&mut slice, drawing, (0.0, 0.0), scale, tag, self.typesetter);
        slice.height = drawing.height * scale;
        if !caption.is_empty() {
            let tag = self.tree.add(node, Role::Caption);
            let style = Style::new(Face::Regular, SMALL.size).in_paint(Paint::Text2);
            let words = self.text(caption, style, SMALL.leading, Some(tag), width.min(88.0_f64.max(drawing.width)));
            slice.absorb(&words, 0.0, slice.height + 1.0);
            slice.height += words.height + 1.0;
        }
        slice
    }

    fn columns(&mut self, columns: &[(u8, Vec<Block>)], node: usize, width: f64) -> Vec<Slice> {
        // Twelve columns of 11.33 mm with gutters of 4 mm, scaled to the width at hand.
        let unit = (width + 4.0) / 12.0;
        let mut whole = Slice::default();
        let mut parts = Vec::new();
        let mut at = 0.0;
        for (share, blocks) in columns {
            let part_width = unit * f64::from(*share) - 4.0;
            let slices = self.blocks(blocks, node, part_width);
            parts.push((at, slices));
            at += unit * f64::from(*share);
        }
        let tallest = parts.iter().map(|(_, slices)| stacked(slices).height).fold(0.0, f64::max);
        if let [(_, main), (x, beside)] = parts.as_mut_slice()
            && main.len() > 1
            && tallest > SIDE_BY_SIDE
        {
            // A tall first column flows on over pages, with the second one beside its beginning.
            let side = stacked(beside);
            if side.height <= self.page - 14.0 {
                let mut moved = Slice { height: side.height, ..Slice::default() };
                moved.absorb(&side, *x, 0.0);
                if let Some(first) = main.first_mut() {
                    first.side = Some(Box::new(moved));
                }
                main.push(Slice { clear: true, ..Slice::default() });
                return std::mem::take(main);
            }
        }
        if tallest > self.page {
            // Too tall to stand side by side: one after the other, over the whole width. What was laid out for the
            // columns is dropped with its nodes: nodes without content are not written.
            return columns.iter().flat_map(|(_, blocks)| self.blocks(blocks, node, width)).collect();
        }
        for (x, slices) in &parts {
            let part = stacked(slices);
            whole.gap = whole.gap.max(part.gap);
            whole.absorb(&part, *x, 0.0);
        }
        whole.height = tallest;
        vec![whole]
    }
}

/// Running text to spans; a blank between a figure and its word does not break.
fn collect(inlines: &[Inline], style: Style, link: Option<&String>, spans: &mut Vec<Span>) {
    let bold = |style: Style| Style { face: if style.face == Face::Title { Face::Title } else { Face::Bold }, ..style };
    for inline in inlines {
        match inline {
            Inline::Text(text) | Inline::Code(text) => {
                spans.push(Span { text: tied(text), style, link: link.cloned() });
            }
            Inline::Strong(inner) => collect(inner, bold(style), link, spans),
            Inline::Emphasis(inner) => collect(inner, style, link, spans),
            Inline::Link { href, text } => {
                collect(text, style.in_paint(Paint::Estuary), Some(href), spans);
            }
            Inline::Break => spans.push(Span { text: "\n".to_owned(), style, link: None }),
        }
    }
}

/// Ties a whole number to the word after it, and "repeat from *" together.
fn tied(text: &str) -> String {
    let mut text = text.replace("repeat from *", "repeat\u{a0}from\u{a0}*");
    for word in ["round", "Round", "rounds", "row", "rows", "stitch", "lesson", "page"] {
        for digit in '1'..='9' {
            text = text.replace(&format!("{word} {digit}"), &format!("{word}\u{a0}{digit}"));
        }
    }
    let mut out = String::with_capacity(text.len());
    let mut token_is_number = false;
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        let ties = c == ' ' && token_is_number && chars.peek().is_some_and(|next| next.is_alphabetic());
        out.push(if ties { '\u{a0}' } else { c });
        token_is_number = match c {
            ' ' => false,
            '*' | '(' => token_is_number,
            c => c.is_ascii_digit() && (token_is_number || out.chars().rev().nth(1).is_none_or(|p| p == ' ' || p == '*' || p == '(')),
        };
    }
    out
}

/// Puts a line into a slice with its baseline at `y`.
fn put(slice: &mut Slice, line: Line, x: f64, y: f64, leading: f64, node: Option<usize>) {
    for (from, to, href) in line.links {
        slice.links.push(LinkArea { area: (x + from, y - leading * 0.7, x + to, y + leading * 0.2), href });
    }
    for run in line.runs {
        slice.mark(Mark::Run(Run { x: x + run.x, y: y + run.y, ..run }), node);
    }
}

fn indented(slice: &Slice, by: f64) -> Slice {
    let mut out = Slice {
        height: slice.height,
        gap: slice.gap,
        keep: slice.keep,
        new_page: slice.new_page,
        ..Slice::default()
    };
    out.absorb(slice, by, 0.0);
    out
}
