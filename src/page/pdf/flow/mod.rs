//! Blocks to slices: pieces of a column that are placed on pages from top to bottom and never cut.

mod boxes;
mod cover;
mod drawing;
mod lists;
mod slice;
mod table;
mod ticks;
mod words;

pub(super) use slice::Slice;
use slice::stacked;

use crate::page::blocks::{Block, Inline};
use crate::page::pdf::face::Face;
use crate::page::pdf::frame::{PageMark, Role, Tree};
use crate::page::pdf::sizes::{Body, Sizes};
use crate::page::pdf::text::{Style, Typesetter};
use crate::picture::{Drawing, Paint, Path, Stroke};

/// Columns up to this height stand side by side as one piece; a taller first column may break.
const SIDE_BY_SIDE: f64 = 80.0;

/// Turns blocks into slices.
pub(super) struct Flow<'a> {
    typesetter: &'a mut Typesetter,
    tree: &'a mut Tree,
    /// Tallest slice that fits a page.
    page: f64,
    /// Sizes of type.
    sizes: &'static Sizes,
    /// Running text here: smaller in boxes.
    body: Body,
    /// Heading style of cards: title face instead of text face.
    card: bool,
    /// Level of the last heading; 0 before the first.
    level: u8,
}

impl<'a> Flow<'a> {
    pub(super) fn new(
        typesetter: &'a mut Typesetter,
        tree: &'a mut Tree,
        page: f64,
        sizes: &'static Sizes,
    ) -> Self {
        Self {
            typesetter,
            tree,
            page,
            sizes,
            body: sizes.body,
            card: false,
            level: 0,
        }
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
                (Block::Card(first), Some((Block::Card(second), after)))
                    if width > 120.0 && !self.sizes.large =>
                {
                    rest = after;
                    let pair = [
                        (6, vec![Block::Card(first.clone())]),
                        (6, vec![Block::Card(second.clone())]),
                    ];
                    self.columns(&pair, node, width)
                }
                (Block::Card(inner), _) if width > 120.0 && !self.sizes.large => {
                    vec![self.card(inner, node, (width - 4.0) / 2.0)]
                }
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
            Block::Table(table) => self.table(table, node, width),
            Block::Figure {
                drawing, caption, ..
            } => vec![self.figure(drawing, caption, node, width)],
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
                let mut slice = Slice {
                    height: 0.5,
                    gap: 4.0,
                    ..Slice::default()
                };
                let path = Path::line(&[(0.0, 0.2), (width, 0.2)]);
                slice.mark(PageMark::Line(path, Stroke::new(Paint::Rule, 0.2)), None);
                vec![slice]
            }
            Block::Page(_) => Vec::new(),
            Block::Front {
                number,
                of,
                title,
                lead,
                climb,
            } => {
                vec![self.front((*number, *of), title, lead, climb, node)]
            }
            Block::New(intro, things) => self.new_things(intro, things, node, width),
            Block::Measures(bars) => bars
                .iter()
                .enumerate()
                .map(|(i, bar)| self.measure(i, bar, node))
                .collect(),
            Block::Legend(items) => vec![self.legend(items, node, width)],
            Block::Rows(rows) => self.rows(rows, node, width),
            Block::Steps(steps) => self.steps(steps, node, width),
            Block::Checks(checks) => self.checks(checks, node, width),
            Block::Ticks(groups) => self.ticks(groups, node, width),
            Block::Cover {
                title,
                lead,
                picture,
                imprint,
            } => vec![self.cover(title, lead, picture, imprint, node, width)],
            Block::Card(inner) => vec![self.card(inner, node, width)],
            Block::Caution(inner) => vec![self.caution(inner, node, width)],
            Block::Columns(columns) => self.columns(columns, node, width),
        }
    }

    fn figure(&mut self, drawing: &Drawing, caption: &[Inline], node: usize, width: f64) -> Slice {
        let mut slice = Slice {
            gap: 3.0,
            ..Slice::default()
        };
        let scale = (width / drawing.width.max(0.1))
            .min(1.0)
            .min(self.page * 0.97 / drawing.height.max(0.1));
        let tag = (!drawing.alt.is_empty()).then(|| self.tree.add_figure(node, &drawing.alt));
        drawing::put(&mut slice, drawing, (0.0, 0.0), scale, tag, self.typesetter);
        slice.height = drawing.height * scale;
        if !caption.is_empty() {
            let tag = self.tree.add(node, Role::Caption);
            let small = self.sizes.small;
            let style = Style::new(Face::Regular, small.size).in_paint(Paint::Text2);
            let room = width.min((88.0 * self.sizes.scale).max(drawing.width));
            let words = self.text(caption, style, small.leading, Some(tag), room);
            slice.absorb(&words, 0.0, slice.height + 1.0);
            slice.height += words.height + 1.0;
        }
        slice
    }

    fn columns(&mut self, columns: &[(u8, Vec<Block>)], node: usize, width: f64) -> Vec<Slice> {
        // Large print has one column; only pictures that need not shrink still stand side by side.
        // Twelve columns of 11.33 mm with gutters of 4 mm, scaled to the width at hand.
        let unit = (width + 4.0) / 12.0;
        let stands = |(share, blocks): &(u8, Vec<Block>)| {
            let room = unit * f64::from(*share) - 4.0;
            blocks.iter().all(|block| match block {
                Block::Figure { drawing, .. } => drawing.width <= room,
                _ => false,
            })
        };
        if self.sizes.large && !columns.iter().all(stands) {
            return columns
                .iter()
                .flat_map(|(_, blocks)| self.blocks(blocks, node, width))
                .collect();
        }
        let mut whole = Slice::default();
        let mut parts = Vec::new();
        let mut at = 0.0;
        for (share, blocks) in columns {
            let part_width = unit * f64::from(*share) - 4.0;
            let slices = self.blocks(blocks, node, part_width);
            parts.push((at, slices));
            at += unit * f64::from(*share);
        }
        let tallest = parts
            .iter()
            .map(|(_, slices)| stacked(slices).height)
            .fold(0.0, f64::max);
        if let [(_, main), (x, beside)] = parts.as_mut_slice()
            && main.len() > 1
            && tallest > SIDE_BY_SIDE
        {
            // A tall first column flows on over pages, with the second one beside its beginning.
            let side = stacked(beside);
            if side.height <= self.page - 14.0 {
                let mut moved = Slice {
                    height: side.height,
                    ..Slice::default()
                };
                moved.absorb(&side, *x, 0.0);
                if let Some(first) = main.first_mut() {
                    first.side = Some(Box::new(moved));
                }
                main.push(Slice {
                    clear: true,
                    ..Slice::default()
                });
                return std::mem::take(main);
            }
        }
        if tallest > self.page {
            // Too tall to stand side by side: one after the other, over the whole width. What was laid out for the
            // columns is dropped with its nodes: nodes without content are not written.
            return columns
                .iter()
                .flat_map(|(_, blocks)| self.blocks(blocks, node, width))
                .collect();
        }
        for (x, slices) in &parts {
            let part = stacked(slices);
            whole.gap = whole.gap.max(part.gap).max(5.0);
            whole.absorb(&part, *x, 0.0);
        }
        whole.height = tallest;
        vec![whole]
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
