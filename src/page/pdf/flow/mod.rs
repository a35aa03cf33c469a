//! Blocks to slices: pieces of a column that are placed on pages from top to bottom and never cut.

mod boxes;
mod cards;
mod cover;
mod drawing;
mod lists;
mod slice;
mod table;
mod ticks;
mod words;

use std::sync::Arc;

pub(super) use drawing::taken_apart;

use slice::stacked;
pub(super) use slice::{Slice, Way};

use crate::page::blocks::{Block, Inline, Setting, plain};
use crate::page::pdf::face::Face;
use crate::page::pdf::frame::{Item, PageMark, Role, Tree, turned_mark};
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
    /// Columns stand side by side as one piece, however tall.
    whole: bool,
    /// The heading just above.
    over: Option<String>,
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
            whole: false,
            over: None,
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
                        (6.0, vec![Block::Card(first.clone())]),
                        (6.0, vec![Block::Card(second.clone())]),
                    ];
                    self.columns(&pair, node, width)
                }
                (Block::Card(inner), _) if width > 120.0 && !self.sizes.large => {
                    vec![self.wide_card(inner, node, width)]
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
        // What a heading is over is known to the next block alone.
        let over = self.over.take();
        match block {
            Block::Heading(level, text) => {
                self.over = Some(plain(text));
                vec![self.heading(*level, text, node, width)]
            }
            Block::Paragraph(tone, text) => self.paragraph(text, *tone, node, width),
            Block::List(start, items) => self.list(*start, items, node, width),
            Block::Table(table) => self.table(table, over.as_deref(), node, width),
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
            Block::Measures(bars, mark) => self.measures(bars, mark, node),
            Block::Legend(items) => vec![self.legend(items, node, width)],
            Block::Rows(rows) => self.rows(rows, node, width),
            Block::Steps(steps) => self.steps(steps, node, width),
            Block::Checks(checks) => self.checks(checks, node, width),
            Block::Cover {
                title,
                lead,
                picture,
                imprint,
            } => vec![self.cover(title, lead, picture, imprint, node, width)],
            Block::Turned(inner) => self.turned(inner, node, width),
            Block::Fit(ways) => self.fit(ways, node, width),
            Block::Card(inner) if self.sizes.large => self.open_card(inner, node, width),
            Block::Card(inner) => vec![self.card(inner, node, width)],
            Block::Caution(inner) => self.caution(inner, node, width),
            Block::Columns(columns) => self.columns(columns, node, width),
        }
    }

    fn figure(
        &mut self,
        drawing: &Arc<Drawing>,
        caption: &[Inline],
        node: usize,
        width: f64,
    ) -> Slice {
        let mut slice = Slice {
            gap: 3.0,
            ..Slice::default()
        };
        let scale = (width / drawing.width.max(0.1))
            .min(1.0)
            .min(self.page * 0.97 / drawing.height.max(0.1));
        let tag = (!drawing.alt.is_empty()).then(|| self.tree.add_figure(node, &drawing.alt));
        drawing::put(&mut slice, drawing, (0.0, 0.0), scale, tag);
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

    /// Groups of blocks that stand beside a column, from `x` on in a column of their own, or below it over the whole width.
    fn beside(
        &mut self,
        blocks: &[Block],
        (node, x, narrow): (usize, f64, f64),
        width: f64,
    ) -> (Vec<Slice>, Vec<Vec<Slice>>) {
        let (mut beside, mut below) = (Vec::new(), Vec::new());
        let mut rest = blocks;
        while !rest.is_empty() {
            // A heading stands with what it is over.
            let heads = rest.iter().take_while(|b| matches!(b, Block::Heading(..)));
            let (group, after) = rest.split_at((heads.count() + 1).min(rest.len()));
            let whole = stacked(&self.blocks(group, node, narrow));
            beside.push(beside_at(&whole, x));
            below.push(self.blocks(group, node, width));
            rest = after;
        }
        (beside, below)
    }

    /// Something that can be set in several ways.
    fn fit(&mut self, ways: &[Setting], node: usize, width: f64) -> Vec<Slice> {
        let was_whole = std::mem::replace(&mut self.whole, true);
        let laid = ways.iter().map(|way| Way {
            slices: self.blocks(&way.blocks, node, width),
            after: self.blocks(&way.after, node, width),
            rest: self.blocks(&way.rest, node, width),
            worth: way.worth,
            shrinks: way.shrinks,
        });
        let laid: Vec<Way> = laid.collect();
        self.whole = was_whole;
        let gap = laid.first().and_then(|way| way.slices.first());
        vec![Slice {
            gap: gap.map_or(0.0, |slice| slice.gap),
            ways: laid,
            ..Slice::default()
        }]
    }

    /// Something that is read with the page turned, as much of it as fits a page so; the rest stands upright after it.
    fn turned(&mut self, blocks: &[Block], node: usize, width: f64) -> Vec<Slice> {
        for end in (1..=blocks.len()).rev() {
            let (first, rest) = blocks.split_at(end);
            let across = stacked(&self.blocks(first, node, self.page));
            if across.height <= width {
                let mut all = vec![turned(&across, self.page)];
                all.extend(self.blocks(rest, node, width));
                return all;
            }
        }
        self.blocks(blocks, node, width)
    }

    fn columns(&mut self, columns: &[(f64, Vec<Block>)], node: usize, width: f64) -> Vec<Slice> {
        // Large print has one column; only pictures that need not shrink still stand side by side.
        // Twelve columns of 11.33 mm with gutters of 4 mm, scaled to the width at hand.
        let unit = (width + 4.0) / 12.0;
        let stands = |(share, blocks): &(f64, Vec<Block>)| {
            let room = unit * share - 4.0;
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
            let part_width = unit * share - 4.0;
            let slices = self.blocks(blocks, node, part_width);
            parts.push((at, slices));
            at += unit * share;
        }
        let tallest = parts
            .iter()
            .map(|(_, slices)| stacked(slices).height)
            .fold(0.0, f64::max);
        if let ([(_, main), (x, _)], [_, (share, blocks)]) = (parts.as_mut_slice(), columns)
            && main.len() > 1
            && tallest > SIDE_BY_SIDE
            && !self.whole
        {
            let mut main = std::mem::take(main);
            let narrow = unit * share - 4.0;
            let (beside, below) = self.beside(blocks, (node, *x, narrow), width);
            if let Some(first) = main.first_mut() {
                first.side = beside;
            }
            main.push(Slice {
                clear: true,
                below,
                ..Slice::default()
            });
            return main;
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

/// A slice moved to the right, as what stands beside a column.
fn beside_at(slice: &Slice, x: f64) -> Slice {
    let mut moved = Slice {
        height: slice.height,
        gap: slice.gap.max(4.0),
        ..Slice::default()
    };
    moved.absorb(slice, x, 0.0);
    moved
}

/// A slice that is read with the page turned: its left edge at the foot.
fn turned(slice: &Slice, width: f64) -> Slice {
    let mut out = Slice {
        height: width,
        gap: slice.gap,
        headings: slice.headings.clone(),
        ..Slice::default()
    };
    out.items.extend(slice.items.iter().map(|item| Item {
        mark: turned_mark(&item.mark, width),
        ..*item
    }));
    out
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
