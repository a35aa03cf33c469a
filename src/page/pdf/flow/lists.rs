//! Lists, rows in words, steps, things to tick.

use crate::page::blocks::{Block, Inline};
use crate::page::pdf::face::Face;
use crate::page::pdf::flow::{Flow, Slice, indented, stacked};
use crate::page::pdf::frame::{PageMark, Role};
use crate::page::pdf::text::Style;
use crate::picture::{Paint, Path, Stroke};

impl Flow<'_> {
    pub(super) fn list(
        &mut self,
        start: Option<u64>,
        items: &[Vec<Block>],
        node: usize,
        width: f64,
    ) -> Vec<Slice> {
        let list = self.tree.add(node, Role::List);
        let mut all = Vec::new();
        let indent = 6.0 * self.sizes.scale;
        for (i, item) in items.iter().enumerate() {
            let li = self.tree.add(list, Role::ListItem);
            let label = self.tree.add(li, Role::Label);
            let body = self.tree.add(li, Role::ListBody);
            let mut slices = self.blocks(item, body, width - indent);
            let sign = start.map_or_else(|| "•".to_owned(), |n| (n + i as u64).to_string());
            let face = if start.is_some() {
                Face::Bold
            } else {
                Face::Regular
            };
            let sign = self.words(
                &sign,
                Style::new(face, self.body.size),
                self.body.leading,
                Some(label),
                indent,
            );
            for (j, slice) in slices.iter_mut().enumerate() {
                let gap = if j == 0 {
                    if i == 0 { 1.5 } else { 0.8 }
                } else {
                    slice.gap
                };
                *slice = indented(slice, indent);
                slice.gap = gap;
                if j == 0 {
                    slice.absorb(&sign, 0.0, 0.0);
                }
            }
            all.append(&mut slices);
        }
        all
    }

    /// Rows in words: two columns, or one where rows are long.
    pub(super) fn rows(
        &mut self,
        rows: &[(String, String)],
        node: usize,
        width: f64,
    ) -> Vec<Slice> {
        let list = self.tree.add(node, Role::List);
        let long = rows
            .iter()
            .filter(|(_, words)| words.chars().count() > 70)
            .count()
            * 3
            > rows.len()
            || self.sizes.large;
        let size = self.sizes.rows;
        let (gutter, hang) = (4.0, if self.sizes.large { 31.0 } else { 16.8 });
        let column = if long { width } else { (width - gutter) / 2.0 };
        let entries: Vec<Slice> = rows
            .iter()
            .map(|(label, words)| {
                let li = self.tree.add(list, Role::ListItem);
                let lbl = self.tree.add(li, Role::Label);
                let body = self.tree.add(li, Role::ListBody);
                let bold = Style::new(Face::Bold, size.size);
                let label = self.words(label, bold, size.leading, Some(lbl), hang);
                let mut text = indented(
                    &self.words(
                        words,
                        Style::new(Face::Regular, size.size),
                        size.leading,
                        Some(body),
                        column - hang,
                    ),
                    hang,
                );
                text.absorb(&label, 0.0, 0.0);
                text.gap = 0.0;
                text
            })
            .collect();
        if long {
            return entries;
        }
        // Halves of at most thirty rows: each half page is read down its left column, then down its right one.
        entries
            .chunks(30)
            .map(|chunk| {
                let total: f64 = chunk.iter().map(|e| e.height).sum();
                let mut split = 0;
                let mut left = 0.0;
                while split < chunk.len() && left < total / 2.0 - 1e-6 {
                    left += chunk[split].height;
                    split += 1;
                }
                let (a, b) = (stacked(&chunk[..split]), stacked(&chunk[split..]));
                let mut slice = Slice {
                    height: a.height.max(b.height),
                    gap: 0.0,
                    ..Slice::default()
                };
                slice.absorb(&a, 0.0, 0.0);
                slice.absorb(&b, column + gutter, 0.0);
                slice
            })
            .collect()
    }

    pub(super) fn steps(
        &mut self,
        steps: &[(String, Vec<Inline>)],
        node: usize,
        width: f64,
    ) -> Vec<Slice> {
        let list = self.tree.add(node, Role::List);
        let sizes = self.sizes;
        let indent = 10.0 * sizes.scale;
        // A line of about 130 mm is easy to come back from; large print needs all there is.
        let measure = (width - indent).min(if sizes.large { width } else { 134.0 });
        steps
            .iter()
            .enumerate()
            .map(|(i, (title, text))| {
                let li = self.tree.add(list, Role::ListItem);
                let lbl = self.tree.add(li, Role::Label);
                let body = self.tree.add(li, Role::ListBody);
                let numeral = Style::new(Face::Numeral, sizes.step.size).in_paint(Paint::Estuary);
                let leading = sizes.step.leading;
                let number = self.words(&(i + 1).to_string(), numeral, leading, Some(lbl), indent);
                let title = self.words(
                    title,
                    Style::new(Face::Bold, sizes.body.size),
                    sizes.body.leading,
                    Some(body),
                    measure,
                );
                let text = self.text(
                    text,
                    Style::new(Face::Regular, sizes.body.size),
                    sizes.body.leading,
                    Some(body),
                    measure,
                );
                let mut slice = Slice {
                    height: title.height + text.height,
                    gap: if i == 0 { 0.0 } else { 3.0 },
                    ..Slice::default()
                };
                slice.absorb(&number, 0.0, 0.0);
                slice.absorb(&title, indent, 0.0);
                slice.absorb(&text, indent, title.height);
                slice
            })
            .collect()
    }

    pub(super) fn checks(&mut self, checks: &[Vec<Inline>], node: usize, width: f64) -> Vec<Slice> {
        let list = self.tree.add(node, Role::List);
        let sizes = self.sizes;
        // Two columns; in large print one.
        let across = if sizes.large { 1 } else { 2 };
        let column = (width + 8.0) / f64::from(across) - 8.0;
        let (side, indent) = (4.0 * sizes.scale, 6.5 * sizes.scale);
        let items: Vec<Slice> = checks
            .iter()
            .map(|check| {
                let li = self.tree.add(list, Role::ListItem);
                let body = self.tree.add(li, Role::ListBody);
                let text = self.text(
                    check,
                    Style::new(Face::Regular, sizes.check.size),
                    sizes.check.leading,
                    Some(body),
                    column - indent,
                );
                let mut slice = Slice {
                    height: text.height.max(side + 1.0),
                    ..Slice::default()
                };
                slice.mark(
                    PageMark::Line(
                        Path::rect(0.25, 0.4, side, side),
                        Stroke::new(Paint::Ink, 0.45),
                    ),
                    None,
                );
                slice.absorb(&text, indent, 0.0);
                slice
            })
            .collect();
        let pairs: Vec<&[Slice]> = items.chunks(across as usize).collect();
        let last = pairs.len().saturating_sub(1);
        let row = |(i, pair): (usize, &&[Slice])| {
            let height = pair.iter().map(|s| s.height).fold(0.0, f64::max);
            // A short list to tick stays on one page.
            let keep = i < last && pairs.len() <= 6;
            let mut slice = Slice {
                height,
                gap: 1.6,
                keep,
                ..Slice::default()
            };
            for (j, item) in pair.iter().enumerate() {
                slice.absorb(item, (column + 8.0) * j as f64, 0.0);
            }
            slice
        };
        pairs.iter().enumerate().map(row).collect()
    }
}
