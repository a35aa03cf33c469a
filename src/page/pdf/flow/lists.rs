//! Lists, rows in words, steps, things to tick.

use std::sync::Arc;

use crate::page::blocks::{Block, Inline, RowLine, Step};
use crate::page::pdf::face::Face;
use crate::page::pdf::flow::{Flow, Slice, drawing, indented, stacked};
use crate::page::pdf::frame::{PageMark, Role};
use crate::page::pdf::text::Style;
use crate::picture::{Drawing, Paint, Path, Stroke};
use crate::words::labels;

/// Rows of one colour on end as one line: `Rounds 7 to 12`.
fn plain_together(rows: &[RowLine]) -> Vec<RowLine> {
    let mut together: Vec<(RowLine, usize)> = Vec::new();
    for row in rows {
        match together.last_mut() {
            Some((last, count))
                if is_plain(row) && last.words == row.words && last.boxes == row.boxes * *count =>
            {
                last.boxes += row.boxes;
                *count += 1;
            }
            _ => together.push((row.clone(), 1)),
        }
    }
    let mut place = 0;
    let each = together.into_iter().map(|(mut row, count)| {
        let last = rows.get(place + count - 1);
        if let Some(last) = last.filter(|_| count > 1) {
            row.label = labels::rows_on_end(&row.label, &last.label);
        }
        place += count;
        row
    });
    each.collect()
}

/// Whether a row is of one colour.
fn is_plain(row: &RowLine) -> bool {
    row.words.starts_with(labels::ALL_OF)
}

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
    pub(super) fn rows(&mut self, rows: &[RowLine], node: usize, width: f64) -> Vec<Slice> {
        let list = self.tree.add(node, Role::List);
        let most = rows.iter().map(|row| row.boxes).max().unwrap_or(0);
        let rows = &plain_together(rows);
        let long = rows
            .iter()
            .filter(|row| row.words.chars().count() > 70)
            .count()
            * 3
            > rows.len()
            || self.sizes.large
            || width < 100.0;
        let gutter = 5.0;
        let column = if long { width } else { (width - gutter) / 2.0 };
        let entries: Vec<Slice> = rows
            .iter()
            .map(|row| self.row_line(row, list, column, most))
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

    /// A row in words: its boxes, its name, what is worked.
    fn row_line(&mut self, row: &RowLine, list: usize, column: f64, most: usize) -> Slice {
        let sizes = self.sizes;
        let size = sizes.rows;
        let (side, pitch) = (3.2 * sizes.scale, 4.4 * sizes.scale);
        let boxes = pitch * most.max(row.boxes) as f64 + if most > 0 { 0.8 } else { 0.0 };
        let bold = Style::new(Face::Bold, size.size);
        let name = self.typesetter.width(&row.label, bold) + 2.0;
        let hang = boxes + name.max(if sizes.large { 31.0 } else { 16.8 });
        let li = self.tree.add(list, Role::ListItem);
        let lbl = self.tree.add(li, Role::Label);
        let body = self.tree.add(li, Role::ListBody);
        let label = self.words(&row.label, bold, size.leading, Some(lbl), hang);
        let style = Style::new(Face::Regular, size.size);
        let words = self.words(&row.words, style, size.leading, Some(body), column - hang);
        let mut text = Slice {
            height: words.height,
            ..Slice::default()
        };
        for time in 0..row.boxes {
            let top = (size.leading - side) / 2.0 + 0.1;
            let frame = Path::rect(0.2 + pitch * time as f64, top, side, side);
            text.mark(PageMark::Line(frame, Stroke::new(Paint::Ink, 0.35)), None);
        }
        text.absorb(&label, boxes, 0.0);
        text.absorb(&words, hang, 0.0);
        text
    }

    pub(super) fn steps(&mut self, steps: &[Step], node: usize, width: f64) -> Vec<Slice> {
        let list = self.tree.add(node, Role::List);
        let sizes = self.sizes;
        let indent = 10.0 * sizes.scale;
        // A line of about 130 mm is easy to come back from; large print needs all there is.
        let measure = (width - indent).min(if sizes.large { width } else { 134.0 });
        let each = steps.iter().enumerate().flat_map(|(i, step)| {
            let li = self.tree.add(list, Role::ListItem);
            let lbl = self.tree.add(li, Role::Label);
            let body = self.tree.add(li, Role::ListBody);
            let numeral = Style::new(Face::Numeral, sizes.step.size).in_paint(Paint::Estuary);
            let leading = sizes.step.leading;
            let number = self.words(&(i + 1).to_string(), numeral, leading, Some(lbl), indent);
            let bold = Style::new(Face::Bold, sizes.body.size);
            let plain = Style::new(Face::Regular, sizes.body.size);
            let leading = sizes.body.leading;
            // A blank parts it from what follows for those who hear it.
            let title = format!("{} ", step.title);
            let title = self.words(&title, bold, leading, Some(body), measure);
            let text = self.text(&step.text, plain, leading, Some(body), measure);
            let boxes = self.boxes(step.boxes, measure);
            let mut slice = Slice {
                height: title.height + text.height + boxes.height,
                gap: if i == 0 { 0.0 } else { 1.8 },
                ..Slice::default()
            };
            slice.absorb(&number, 0.0, 0.0);
            slice.absorb(&title, indent, 0.0);
            slice.absorb(&text, indent, title.height);
            slice.absorb(&boxes, indent, title.height + text.height);
            let stripes = step.stripes.iter();
            let stripes =
                stripes.map(|stripe| indented(&self.stripe(stripe, body, measure), indent));
            let stripes: Vec<Slice> = stripes.map(|stripe| Slice { gap: 0.6, ..stripe }).collect();
            // In large print they run on from page to page.
            if sizes.large {
                return [vec![slice], stripes].concat();
            }
            for stripe in &stripes {
                slice.absorb(stripe, 0.0, slice.height + stripe.gap);
                slice.height += stripe.height + stripe.gap;
            }
            vec![slice]
        });
        each.collect()
    }

    /// A stripe: a bar of its yarn, its words, its boxes.
    fn stripe(
        &mut self,
        (bar, words, boxes): &(Arc<Drawing>, String, usize),
        node: usize,
        width: f64,
    ) -> Slice {
        let sizes = self.sizes;
        let plain = Style::new(Face::Regular, sizes.boxed.size);
        let leading = sizes.boxed.leading;
        let (bar_width, words_width) = (bar.width + 2.0, 46.0 * sizes.scale);
        let tag = self.tree.add(node, Role::Paragraph);
        let text = self.words(words, plain, leading, Some(tag), words_width);
        // In large print the boxes stand below the words.
        let (x, y) = match sizes.large {
            true => (bar_width, text.height),
            false => (bar_width + words_width, 0.0),
        };
        let ticks = self.boxes(*boxes, width - x);
        let mut slice = Slice {
            height: text.height.max(ticks.height + y).max(bar.height),
            ..Slice::default()
        };
        let at = (0.0, (leading - bar.height) / 2.0);
        drawing::put(&mut slice, bar, at, 1.0, None);
        slice.absorb(&text, bar_width, 0.0);
        slice.absorb(&ticks, x, y);
        slice
    }

    pub(super) fn checks(&mut self, checks: &[Vec<Inline>], node: usize, width: f64) -> Vec<Slice> {
        let list = self.tree.add(node, Role::List);
        let sizes = self.sizes;
        // Two columns; in large print one.
        let across = if sizes.large || width < 100.0 { 1 } else { 2 };
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
                gap: 1.2,
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
