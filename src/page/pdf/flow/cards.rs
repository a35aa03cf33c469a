//! Technique cards and cautions: boxes with a frame.

use crate::page::blocks::Block;
use crate::page::pdf::face::Face;
use crate::page::pdf::flow::{Flow, Slice, stacked};
use crate::page::pdf::frame::{Item, PageMark, Role};
use crate::page::pdf::text::Style;
use crate::picture::{Paint, Path, Stroke};
use crate::words::labels;

/// From a frame to what stands in it, in millimetres.
const INSET: f64 = 4.0;

/// The line round a card, or over and under one that runs on.
const CARD_LINE: Stroke = Stroke {
    paint: Paint::Ink,
    width: 0.5,
    dash: None,
    round: false,
};

impl Flow<'_> {
    /// A technique card: a frame with its top right corner turned.
    pub(super) fn card(&mut self, inner: &[Block], node: usize, width: f64) -> Slice {
        let section = self.tree.add(node, Role::Section);
        let content = self.boxed(inner, section, width - 2.0 * INSET, true);
        self.framed(&content, width)
    }

    /// A card over the whole width: what to do at the left, what to mind at the right.
    pub(super) fn wide_card(&mut self, inner: &[Block], node: usize, width: f64) -> Slice {
        let section = self.tree.add(node, Role::Section);
        let list = inner.iter().rposition(|b| matches!(b, Block::List(..)));
        let (left, right) = inner.split_at(list.map_or(inner.len(), |at| at + 1));
        let gutter = 6.0;
        let column = (width - 2.0 * INSET - gutter) / 2.0;
        let left = self.boxed(left, section, column, true);
        let right = self.boxed(right, section, column, true);
        let mut content = Slice {
            height: left.height.max(right.height),
            ..Slice::default()
        };
        content.absorb(&left, 0.0, 0.0);
        content.absorb(&right, column + gutter, 0.0);
        self.framed(&content, width)
    }

    /// A card of large print: between two lines instead of in a frame, so that it runs on from page to page.
    pub(super) fn open_card(&mut self, inner: &[Block], node: usize, width: f64) -> Vec<Slice> {
        let section = self.tree.add(node, Role::Section);
        let size = self.sizes.tag;
        let style = Style::new(Face::Bold, size.size).in_paint(Paint::Estuary);
        let tag = self.words(labels::CARD, style, size.leading, None, width);
        let mut head = Slice {
            height: 1.5 + tag.height,
            gap: 6.0,
            keep: true,
            ..Slice::default()
        };
        let top = Path::line(&[(0.0, 0.0), (width, 0.0)]);
        head.mark(PageMark::Line(top, CARD_LINE), None);
        head.absorb(&tag, 0.0, 1.5);
        let mut slices = vec![head];
        slices.extend(self.in_box(inner, section, width, true));
        if let Some(last) = slices.last_mut() {
            last.height += 1.5;
            let foot = Path::line(&[(0.0, last.height), (width, last.height)]);
            last.mark(PageMark::Line(foot, CARD_LINE), None);
        }
        slices
    }

    /// The frame of a card round its content.
    fn framed(&mut self, content: &Slice, width: f64) -> Slice {
        let size = self.sizes.tag;
        let tag_style = Style::new(Face::Bold, size.size).in_paint(Paint::Estuary);
        let tag = self.words(labels::CARD, tag_style, size.leading, None, width);
        let mut slice = Slice {
            height: content.height + tag.height + 6.0,
            gap: 4.0,
            ..Slice::default()
        };
        let (w, h, cut) = (width - 0.25, slice.height - 0.25, 7.0);
        let frame = Path::polygon(&[
            (0.25, 0.25),
            (w - cut, 0.25),
            (w, 0.25 + cut),
            (w, h),
            (0.25, h),
        ]);
        slice.mark(PageMark::Line(frame, CARD_LINE), None);
        let corner = Path::polygon(&[(w - cut, 0.25), (w, 0.25 + cut), (w - cut, 0.25 + cut)]);
        slice.mark(
            PageMark::Both(corner, Paint::Wash, Stroke::new(Paint::Ink, 0.3)),
            None,
        );
        slice.absorb(&tag, INSET, 2.6);
        slice.absorb(content, INSET, 2.6 + tag.height);
        slice
    }

    /// A caution: a frame with a head that cannot be missed; in large print, where it runs on from page to page, a head and
    /// a line at its end.
    pub(super) fn caution(&mut self, inner: &[Block], node: usize, width: f64) -> Vec<Slice> {
        let inset = 4.0;
        let section = self.tree.add(node, Role::Section);
        let (title, rest) = match inner.split_first() {
            Some((Block::Heading(_, title), rest)) => (crate::page::blocks::plain(title), rest),
            _ => (labels::TAKE_CARE.to_owned(), inner),
        };
        let mut head = self.caution_head(&title, section, width);
        let line = Stroke::new(Paint::Buoy, 0.8);
        if self.sizes.large {
            head.keep = true;
            let mut slices = vec![head];
            slices.extend(self.in_box(rest, section, width, false));
            if let Some(last) = slices.last_mut() {
                last.height += 2.5;
                let foot = Path::line(&[(0.0, last.height), (width, last.height)]);
                last.mark(PageMark::Line(foot, line), None);
            }
            return slices;
        }
        let content = self.boxed(rest, section, width - 2.0 * inset, false);
        let top = head.height;
        head.height += content.height + 6.5;
        let frame = Path::rect(0.4, 0.4, width - 0.8, head.height - 0.8);
        head.items.insert(
            1,
            Item {
                mark: PageMark::Line(frame, line),
                node: None,
                near: None,
            },
        );
        head.absorb(&content, inset, top + 2.6);
        vec![head]
    }

    /// The head of a caution: a bar with a triangle and the title.
    fn caution_head(&mut self, title: &str, section: usize, width: f64) -> Slice {
        let heading = self.heading_node(3, title, section);
        let grow = self.sizes.scale;
        let height = 8.0 * grow;
        let mut slice = Slice {
            height,
            gap: 6.0,
            ..Slice::default()
        };
        slice.mark(
            PageMark::Fill(Path::rect(0.0, 0.0, width, height), Paint::Buoy),
            None,
        );
        let at = |path: Path| path.placed((0.0, 0.0), (grow, grow));
        let triangle = at(Path::polygon(&[(4.0, 6.6), (7.2, 1.4), (10.4, 6.6)]));
        slice.mark(PageMark::Fill(triangle, Paint::White), None);
        let stem = at(Path::line(&[(7.2, 3.0), (7.2, 4.9)]));
        let line = Stroke::new(Paint::Buoy, 0.7 * grow);
        slice.mark(PageMark::Line(stem, line), None);
        let dot = at(Path::circle(7.2, 5.8, 0.38));
        slice.mark(PageMark::Fill(dot, Paint::Buoy), None);
        let body = self.sizes.body;
        let style = Style::new(Face::Bold, body.size).in_paint(Paint::White);
        let room = width - 12.5 * grow - 3.5;
        let words = self.words(title, style, body.leading, Some(heading), room);
        slice.absorb(&words, 12.5 * grow, (height - body.leading) / 2.0 + 0.1);
        slice
    }

    /// Blocks in a box as one slice.
    fn boxed(&mut self, inner: &[Block], node: usize, width: f64, card: bool) -> Slice {
        stacked(&self.in_box(inner, node, width, card))
    }

    /// Blocks in the size of boxes.
    fn in_box(&mut self, inner: &[Block], node: usize, width: f64, card: bool) -> Vec<Slice> {
        let (body, was_card) = (self.body, self.card);
        self.body = self.sizes.boxed;
        self.card = card;
        let slices = self.blocks(inner, node, width);
        self.body = body;
        self.card = was_card;
        slices
    }
}
