//! A lesson's front, the new box, measures, legend, cards and cautions.

use std::sync::Arc;

use crate::page::blocks::{Bar, Block, Inline, Tone};
use crate::page::pdf::face::Face;
use crate::page::pdf::flow::{Flow, Slice, drawing, stacked};
use crate::page::pdf::frame::{PageMark, Role};
use crate::page::pdf::text::Style;
use crate::picture::{Drawing, Paint, Path, Stroke};
use crate::words::labels;

impl Flow<'_> {
    /// Step block, title and lead, climb.
    pub(super) fn front(
        &mut self,
        (number, of): (usize, usize),
        title: &str,
        lead: &[Block],
        climb: &Arc<Drawing>,
        node: usize,
    ) -> Slice {
        let mut slice = Slice {
            gap: 4.0,
            ..Slice::default()
        };
        let tag = self.heading_node(1, title, node);
        slice.headings.push(tag);
        let sizes = self.sizes;
        let (top, side) = (3.0, sizes.block);
        let part = |share: f64| side * share / 25.0;
        slice.mark(
            PageMark::Fill(Path::rect(0.0, top, side, side), Paint::Estuary),
            None,
        );
        let digits = number.to_string();
        // Two and three figures share the block that one has.
        let points = match digits.len() {
            1 => 46.0,
            2 => 38.0,
            _ => 26.0,
        };
        let numeral = Style::new(Face::Numeral, part(points)).in_paint(Paint::White);
        let figure = self.words(&digits, numeral, part(17.0), None, side);
        let width = self.typesetter.width(&digits, numeral);
        slice.absorb(&figure, (side - width) / 2.0, top + part(2.6));
        let words = labels::of_lessons(of);
        let small = Style::new(Face::Bold, part(10.5)).in_paint(Paint::White);
        let width = self.typesetter.width(&words, small);
        let figure = self.words(&words, small, part(5.0), None, side);
        slice.absorb(&figure, (side - width) / 2.0, top + part(18.6));
        // Large print leaves no room for the climb beside the title; the number says the same.
        let (left, column) = if sizes.large {
            (side + 6.0, 180.0 - side - 6.0)
        } else {
            (30.67, 88.0)
        };
        let style = Style::new(Face::Title, sizes.title.size);
        let room = if sizes.large { column } else { column + 7.0 };
        let title = self.words(title, style, sizes.title.leading, Some(tag), room);
        slice.absorb(&title, left, top - 0.6);
        let mut y = top - 0.6 + title.height + 0.6;
        for slice_of_lead in self.blocks(lead, node, column) {
            slice.absorb(&slice_of_lead, left, y);
            y += slice_of_lead.height;
        }
        if !sizes.large {
            let figure = self.tree.add_figure(node, &climb.alt);
            let at = (122.67, top);
            drawing::put(&mut slice, climb, at, 1.0, Some(figure));
        }
        slice.height = (top + side).max(y);
        slice
    }

    /// What is new: in a box, or in large print as running text.
    pub(super) fn new_things(
        &mut self,
        intro: &[Inline],
        things: &[(String, Vec<Inline>)],
        node: usize,
        width: f64,
    ) -> Vec<Slice> {
        if !self.sizes.large {
            return vec![self.new_box(intro, things, node, width)];
        }
        let title = [Inline::Text(labels::NEW.to_owned())];
        let mut slices = vec![self.heading(2, &title, node, width)];
        for (i, (title, text)) in things.iter().enumerate() {
            let name = format!("{}  {title}. ", i + 1);
            let mut line = vec![Inline::Strong(vec![Inline::Text(name)])];
            line.extend_from_slice(text);
            slices.extend(self.paragraph(&line, Tone::Body, node, width));
        }
        slices.extend(self.paragraph(intro, Tone::Body, node, width));
        slices
    }

    /// What is new, on a wash.
    fn new_box(
        &mut self,
        intro: &[Inline],
        things: &[(String, Vec<Inline>)],
        node: usize,
        width: f64,
    ) -> Slice {
        let (inset, gutter) = (4.0, 4.0);
        let third = (width - 2.0 * inset - 2.0 * gutter) / 3.0;
        let heading = self.heading_node(2, labels::NEW, node);
        let sizes = self.sizes;
        let style = Style::new(Face::Title, sizes.section.size);
        let leading = sizes.section.leading;
        let title = self.words(labels::NEW, style, leading, Some(heading), third);
        let tag = self.tree.add(node, Role::Paragraph);
        let boxed = Style::new(Face::Regular, sizes.boxed.size);
        let leading = sizes.boxed.leading;
        let intro = self.text(intro, boxed, leading, Some(tag), third);
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
            // A blank parts it from what follows for those who hear it.
            let name = format!("{}  {title} ", i + 1);
            let name = self.words(&name, Style::new(Face::Bold, 11.0), 5.0, Some(tag), wide);
            let text = self.text(text, boxed, leading, Some(tag), wide);
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
            PageMark::Fill(Path::rect(0.0, 0.0, width, slice.height), Paint::Wash),
            None,
        );
        for (x, part) in &parts {
            slice.absorb(part, inset + x, 2.6);
        }
        slice
    }

    /// Measures under each other; what the mark under their bars means stands at the right of their heading.
    pub(super) fn measures(&mut self, bars: &[Bar], mark: &str, node: usize) -> Vec<Slice> {
        let note = self.tree.add(node, Role::Paragraph);
        let each = bars.iter().enumerate();
        let mut slices: Vec<Slice> = each.map(|(i, bar)| self.measure(i, bar, node)).collect();
        if mark.is_empty() {
            return slices;
        }
        let size = self.sizes.small;
        let style = Style::new(Face::Regular, size.size).in_paint(Paint::Text2);
        let words = self.words(mark, style, size.leading, Some(note), 170.0);
        if self.sizes.large {
            let mut line = Slice {
                height: words.height,
                keep: true,
                ..Slice::default()
            };
            let corners = [(2.6, 1.6), (4.9, 5.2), (0.3, 5.2)];
            line.mark(PageMark::Fill(Path::polygon(&corners), Paint::Ink), None);
            line.absorb(&words, 7.0, 0.0);
            if let Some(first) = slices.first_mut() {
                first.gap = 3.0;
            }
            slices.insert(0, line);
            return slices;
        }
        if let Some(first) = slices.first_mut() {
            let (x, y) = (180.0 - self.typesetter.width(mark, style), -6.2);
            let foot = y + 3.2;
            let corners = [(x - 2.4, foot - 2.0), (x - 1.1, foot), (x - 3.7, foot)];
            first.mark(PageMark::Fill(Path::polygon(&corners), Paint::Ink), None);
            first.absorb(&words, x, y);
        }
        slices
    }

    /// One measure: name, bar, verdict over fact.
    fn measure(&mut self, index: usize, bar: &Bar, node: usize) -> Slice {
        let tag = self.tree.add(node, Role::Paragraph);
        let figure = self.tree.add_figure(node, &bar.drawing.alt);
        let words = self.tree.add(node, Role::Paragraph);
        let sizes = self.sizes;
        let (bold, leading) = (Style::new(Face::Bold, sizes.body.size), sizes.body.leading);
        let fact_style = Style::new(Face::Regular, sizes.small.size).in_paint(Paint::Text2);
        if sizes.large {
            // One under the other.
            let name = self.words(&bar.name, bold, leading, Some(tag), 180.0);
            let verdict = format!("{}. ", bar.verdict);
            let verdict = self.words(&verdict, bold, leading, Some(words), 180.0);
            let leading = sizes.small.leading;
            let fact = format!("{}.", bar.fact);
            let fact = self.words(&fact, fact_style, leading, Some(words), 180.0);
            let mut slice = Slice {
                gap: if index == 0 { 0.0 } else { 5.0 },
                ..Slice::default()
            };
            slice.absorb(&name, 0.0, 0.0);
            let bar_top = name.height + 1.0;
            let at = (0.0, bar_top);
            let node = Some(figure);
            drawing::put(&mut slice, &bar.drawing, at, 1.0, node);
            let top = bar_top + bar.drawing.height + 1.0;
            slice.absorb(&verdict, 0.0, top);
            slice.absorb(&fact, 0.0, top + verdict.height);
            slice.height = top + verdict.height + fact.height;
            return slice;
        }
        // Name, bar, and verdict and fact in one paragraph, in one line.
        let name = self.words(&bar.name, bold, leading, Some(tag), 21.0);
        let mut spans = self.spans(&[Inline::Text(format!("{}. ", bar.verdict))], bold);
        spans.extend(self.spans(&[Inline::Text(format!("{}.", bar.fact))], fact_style));
        let text_at = 22.0 + bar.drawing.width + 4.0;
        let text = stacked(&self.lines(&spans, sizes.boxed.leading, Some(words), 180.0 - text_at));
        let mut slice = Slice {
            height: text.height.max(bar.drawing.height + 0.4),
            gap: if index == 0 { 0.0 } else { 0.9 },
            ..Slice::default()
        };
        slice.absorb(&name, 0.0, 0.0);
        let (at, node) = ((22.0, 0.4), Some(figure));
        drawing::put(&mut slice, &bar.drawing, at, 1.0, node);
        slice.absorb(&text, text_at, 0.0);
        slice
    }

    /// Small drawings with words between two lines.
    pub(super) fn legend(
        &mut self,
        items: &[(Arc<Drawing>, String)],
        node: usize,
        width: f64,
    ) -> Slice {
        let list = self.tree.add(node, Role::List);
        let size = self.sizes.body;
        let style = Style::new(Face::Regular, size.size);
        let row_height = 8.6 * self.sizes.scale;
        let mut slice = Slice {
            gap: 3.0,
            ..Slice::default()
        };
        let (mut x, mut y) = (0.0, 0.0);
        let mut tallest = row_height;
        for (drawing, words) in items {
            let li = self.tree.add(list, Role::ListItem);
            let tag = self.tree.add(li, Role::ListBody);
            let room = (70.0 * self.sizes.scale).min(width - drawing.width - 2.0);
            let text = self.words(words, style, size.leading, Some(tag), room);
            let text_width = self.typesetter.width(words, style).min(room);
            let needed = drawing.width + 2.0 + text_width;
            if x > 0.0 && x + needed > width {
                (x, y) = (0.0, y + tallest);
                tallest = row_height;
            }
            tallest = tallest.max(text.height + 1.6);
            let middle = |height: f64| y + (row_height.max(text.height + 1.6) - height) / 2.0;
            let at = (x, middle(drawing.height));
            drawing::put(&mut slice, drawing, at, 1.0, None);
            slice.absorb(&text, x + drawing.width + 2.0, middle(text.height));
            x += needed + 8.0;
        }
        let row_height = tallest;
        slice.height = y + row_height;
        for line in [0.0, slice.height] {
            slice.mark(
                PageMark::Line(
                    Path::line(&[(0.0, line), (width, line)]),
                    Stroke::new(Paint::Rule, 0.2),
                ),
                None,
            );
        }
        slice
    }
}
