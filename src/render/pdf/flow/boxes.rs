//! A lesson's front, the new box, measures, legend, cards and cautions.

use std::sync::Arc;

use crate::picture::{Drawing, Paint, Path, Stroke};
use crate::render::blocks::{Bar, Block, Inline};
use crate::render::pdf::face::Face;
use crate::render::pdf::flow::{BODY, BOXED, Flow, SMALL, Slice, drawing, stacked};
use crate::render::pdf::frame::{Mark, Role};
use crate::render::pdf::text::Style;

impl Flow<'_> {
    /// Step block, title and lead, climb.
    pub(super) fn front(
        &mut self,
        (number, of): (usize, usize),
        title: &str,
        lead: &[Block],
        climb: &Drawing,
        node: usize,
    ) -> Slice {
        let mut slice = Slice {
            gap: 4.0,
            ..Slice::default()
        };
        let tag = self.tree.add(node, Role::H1);
        if let Some(heading) = self.tree.nodes.get_mut(tag) {
            heading.title = Some(title.to_owned());
        }
        slice.headings.push(tag);
        let top = 3.0;
        slice.mark(
            Mark::Fill(Path::rect(0.0, top, 25.0, 25.0), Paint::Estuary),
            None,
        );
        let numeral = Style::new(Face::Numeral, 46.0).in_paint(Paint::White);
        let size = if number > 9 {
            Style {
                size: 38.0,
                ..numeral
            }
        } else {
            numeral
        };
        let figure = self.words(&number.to_string(), size, 17.0, None, 25.0);
        let width = self.typesetter.width(&number.to_string(), size);
        slice.absorb(&figure, (25.0 - width) / 2.0, top + 2.6);
        let words = format!("of {of}");
        let small = Style::new(Face::Bold, 10.5).in_paint(Paint::White);
        let width = self.typesetter.width(&words, small);
        let figure = self.words(&words, small, 5.0, None, 25.0);
        slice.absorb(&figure, (25.0 - width) / 2.0, top + 18.6);
        let column = 88.0;
        let title = self.words(
            title,
            Style::new(Face::Title, 30.0),
            11.0,
            Some(tag),
            column + 7.0,
        );
        slice.absorb(&title, 30.67, top - 0.6);
        let mut y = top - 0.6 + title.height + 0.6;
        for slice_of_lead in self.blocks(lead, node, column) {
            slice.absorb(&slice_of_lead, 30.67, y);
            y += slice_of_lead.height;
        }
        let figure = self.tree.add_figure(node, &climb.alt);
        drawing::put(
            &mut slice,
            climb,
            (122.67, top),
            1.0,
            Some(figure),
            self.typesetter,
        );
        slice.height = (top + 25.0).max(y);
        slice
    }

    /// What is new, on a wash.
    pub(super) fn new_box(
        &mut self,
        intro: &[Inline],
        things: &[(String, Vec<Inline>)],
        node: usize,
        width: f64,
    ) -> Slice {
        let (inset, gutter) = (4.0, 4.0);
        let third = (width - 2.0 * inset - 2.0 * gutter) / 3.0;
        let heading = self.tree.add(node, Role::H2);
        if let Some(h) = self.tree.nodes.get_mut(heading) {
            h.title = Some("New in this one".to_owned());
        }
        let title = self.words(
            "New in this one",
            Style::new(Face::Title, 14.0),
            6.0,
            Some(heading),
            third,
        );
        let tag = self.tree.add(node, Role::Paragraph);
        let boxed = Style::new(Face::Regular, BOXED.size);
        let intro = self.text(intro, boxed, BOXED.leading, Some(tag), third);
        let mut parts = vec![(0.0, stacked(&[title, Slice { gap: 0.8, ..intro }]))];
        let wide = if things.len() == 1 {
            third * 2.0 + gutter
        } else {
            third
        };
        // More than two things run on below each other in two columns.
        let mut columns: Vec<Vec<Slice>> = vec![Vec::new(), Vec::new()];
        for (i, (title, text)) in things.iter().enumerate() {
            let tag = self.tree.add(node, Role::Paragraph);
            let name = format!("{}  {title}", i + 1);
            let name = self.words(&name, Style::new(Face::Bold, 11.0), 5.0, Some(tag), wide);
            let text = self.text(text, boxed, BOXED.leading, Some(tag), wide);
            let mut both = stacked(&[name, Slice { gap: 0.6, ..text }]);
            both.gap = 2.0;
            columns[i % 2].push(both);
        }
        for (i, column) in columns.iter().enumerate() {
            parts.push(((third + gutter) * (i + 1) as f64, stacked(column)));
        }
        let inner = parts.iter().map(|(_, s)| s.height).fold(0.0, f64::max);
        let mut slice = Slice {
            height: (inner + 6.0).max(22.0),
            gap: 5.0,
            ..Slice::default()
        };
        slice.headings.push(heading);
        slice.mark(
            Mark::Fill(Path::rect(0.0, 0.0, width, slice.height), Paint::Wash),
            None,
        );
        for (x, part) in &parts {
            slice.absorb(part, inset + x, 2.6);
        }
        slice
    }

    /// One measure: name, bar, verdict over fact.
    pub(super) fn measure(&mut self, index: usize, bar: &Bar, node: usize) -> Slice {
        let tag = self.tree.add(node, Role::Paragraph);
        let figure = self.tree.add_figure(node, &bar.drawing.alt);
        let words = self.tree.add(node, Role::Paragraph);
        let name = self.words(
            &bar.name,
            Style::new(Face::Bold, 11.0),
            5.0,
            Some(tag),
            28.0,
        );
        let verdict = self.words(
            &bar.verdict,
            Style::new(Face::Bold, 11.0),
            4.8,
            Some(words),
            72.0,
        );
        let fact_style = Style::new(Face::Regular, SMALL.size).in_paint(Paint::Text2);
        let fact = self.words(&bar.fact, fact_style, SMALL.leading, Some(words), 72.0);
        let height = (verdict.height + fact.height + 1.0).max(9.4);
        let mut slice = Slice {
            height,
            gap: if index == 0 { 0.0 } else { 1.0 },
            ..Slice::default()
        };
        slice.absorb(&name, 0.0, 0.0);
        drawing::put(
            &mut slice,
            &bar.drawing,
            (30.67, 0.4),
            1.0,
            Some(figure),
            self.typesetter,
        );
        slice.absorb(&verdict, 107.33, 0.0);
        slice.absorb(&fact, 107.33, verdict.height);
        slice
    }

    /// Small drawings with words between two lines.
    pub(super) fn legend(
        &mut self,
        items: &[(Arc<Drawing>, String)],
        node: usize,
        width: f64,
    ) -> Slice {
        let tag = self.tree.add(node, Role::Paragraph);
        let row_height = 10.0;
        let mut slice = Slice {
            gap: 3.0,
            ..Slice::default()
        };
        let (mut x, mut y) = (0.0, 0.0);
        for (drawing, words) in items {
            let text = self.words(words, Style::new(Face::Regular, 11.0), 5.0, Some(tag), 70.0);
            let text_width = self
                .typesetter
                .width(words, Style::new(Face::Regular, 11.0));
            let needed = drawing.width + 2.0 + text_width;
            if x > 0.0 && x + needed > width {
                (x, y) = (0.0, y + row_height);
            }
            drawing::put(
                &mut slice,
                drawing,
                (x, y + (row_height - drawing.height) / 2.0),
                1.0,
                None,
                self.typesetter,
            );
            slice.absorb(&text, x + drawing.width + 2.0, y + 2.5);
            x += needed + 8.0;
        }
        slice.height = y + row_height;
        for line in [0.0, slice.height] {
            slice.mark(
                Mark::Line(
                    Path::line(&[(0.0, line), (width, line)]),
                    Stroke::new(Paint::Rule, 0.2),
                ),
                None,
            );
        }
        slice
    }

    /// A technique card: a frame with its top right corner turned.
    pub(super) fn card(&mut self, inner: &[Block], node: usize, width: f64) -> Slice {
        let inset = 4.0;
        let section = self.tree.add(node, Role::Section);
        let tag_style = Style::new(Face::Bold, 8.5).in_paint(Paint::Estuary);
        let tag = self.words("TECHNIQUE CARD", tag_style, 4.5, None, width);
        let content = self.boxed(inner, section, width - 2.0 * inset, true);
        let mut slice = Slice {
            height: content.height + tag.height + 7.5,
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
        slice.mark(Mark::Line(frame, Stroke::new(Paint::Ink, 0.5)), None);
        let corner = Path::polygon(&[(w - cut, 0.25), (w, 0.25 + cut), (w - cut, 0.25 + cut)]);
        slice.mark(
            Mark::Both(corner, Paint::Wash, Stroke::new(Paint::Ink, 0.3)),
            None,
        );
        slice.absorb(&tag, inset, 3.0);
        slice.absorb(&content, inset, 3.0 + tag.height);
        slice
    }

    /// A caution: a frame with a head that cannot be missed.
    pub(super) fn caution(&mut self, inner: &[Block], node: usize, width: f64) -> Slice {
        let (inset, head) = (4.0, 8.0);
        let section = self.tree.add(node, Role::Section);
        let (title, rest) = match inner.split_first() {
            Some((Block::Heading(_, title), rest)) => (crate::render::blocks::plain(title), rest),
            _ => ("Take care".to_owned(), inner),
        };
        let heading = self.tree.add(section, Role::H3);
        let content = self.boxed(rest, section, width - 2.0 * inset, false);
        let mut slice = Slice {
            height: head + content.height + 6.5,
            gap: 6.0,
            ..Slice::default()
        };
        slice.mark(
            Mark::Fill(Path::rect(0.0, 0.0, width, head), Paint::Buoy),
            None,
        );
        let frame = Path::rect(0.4, 0.4, width - 0.8, slice.height - 0.8);
        slice.mark(Mark::Line(frame, Stroke::new(Paint::Buoy, 0.8)), None);
        let triangle = Path::polygon(&[(4.0, 6.6), (7.2, 1.4), (10.4, 6.6)]);
        slice.mark(Mark::Fill(triangle, Paint::White), None);
        let stem = Path::line(&[(7.2, 3.0), (7.2, 4.9)]);
        slice.mark(Mark::Line(stem, Stroke::new(Paint::Buoy, 0.7)), None);
        slice.mark(Mark::Fill(Path::circle(7.2, 5.8, 0.38), Paint::Buoy), None);
        let style = Style::new(Face::Bold, BODY.size).in_paint(Paint::White);
        let words = self.words(&title, style, 5.0, Some(heading), width - 16.0);
        slice.absorb(&words, 12.5, 1.6);
        slice.absorb(&content, inset, head + 2.6);
        slice
    }

    /// Blocks in a box, in the size of boxes, as one slice.
    fn boxed(&mut self, inner: &[Block], node: usize, width: f64, card: bool) -> Slice {
        let (body, was_card) = (self.body, self.card);
        self.body = BOXED;
        self.card = card;
        let slices = self.blocks(inner, node, width);
        self.body = body;
        self.card = was_card;
        stacked(&slices)
    }
}
