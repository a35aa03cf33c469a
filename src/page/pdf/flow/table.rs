//! Tables: no verticals, figures right, head again on a new page.

use crate::page::blocks::{Align, Block, Cell, Inline, Table, Tone, plain};
use crate::page::pdf::face::Face;
use crate::page::pdf::flow::{Flow, Slice, drawing};
use crate::page::pdf::frame::{Item, PageMark, Role};
use crate::page::pdf::sizes::Body;
use crate::page::pdf::text::Style;
use crate::picture::{Paint, Path, Stroke};
use crate::words::labels;

const GAP: f64 = 4.0;
/// What a column of names is wider than its names at most, and any column than what it holds.
const FIRST_OVER: f64 = 14.0;
const EACH_OVER: f64 = 10.0;
/// More columns than this are a list in large print.
const MANY: usize = 4;
/// A table of so few rows stays on one page.
const SHORT: usize = 8;
/// Space above and below the words of a row.
const PAD: f64 = 0.25;

impl Flow<'_> {
    /// A table; on each page on which it goes on, the heading that it stands under and its heads stand again.
    pub(super) fn table(
        &mut self,
        table: &Table,
        title: Option<&str>,
        node: usize,
        width: f64,
    ) -> Vec<Slice> {
        let Table {
            head,
            rows,
            align,
            yours,
            fine,
        } = table;
        let size = match fine {
            true => self.sizes.table_fine,
            false => self.sizes.table,
        };
        let Some(widths) = self.column_widths(head, rows, (align, size), width) else {
            return self.unrolled(head, rows, node, width);
        };
        // A table of few figures is narrower than its column.
        let width = widths.iter().sum::<f64>() + GAP * widths.len().saturating_sub(1) as f64;
        let table = self.tree.add(node, Role::Table);
        let mut head_slice = self.row(head, (align, size), &widths, (table, true));
        let line = Path::line(&[(0.0, head_slice.height), (width, head_slice.height)]);
        head_slice.mark(PageMark::Line(line, Stroke::new(Paint::Ink, 0.5)), None);
        head_slice.gap = 1.0;
        head_slice.keep = true;
        let again = self.again(&head_slice, title, width);
        let mut slices = vec![head_slice];
        for (i, row) in rows.iter().enumerate() {
            let mut slice = self.row(row, (align, size), &widths, (table, false));
            let line = Path::line(&[(0.0, slice.height), (width, slice.height)]);
            if *yours == Some(i) {
                stand_out(&mut slice, width);
            } else {
                slice.mark(PageMark::Line(line, Stroke::new(Paint::Hair, 0.2)), None);
            }
            // No row stands by itself, at the foot of a page or overleaf.
            let short = rows.len() <= SHORT && !fine;
            slice.keep = i + 1 < rows.len() && (short || i == 0 || i + 2 == rows.len());
            slice.repeat_head = Some(Box::new(again.clone()));
            slices.push(slice);
        }
        slices
    }

    /// The head of a table that goes on overleaf, under its title. It is furniture: readers have heard it.
    fn again(&mut self, head: &Slice, title: Option<&str>, width: f64) -> Slice {
        let Some(title) = title else {
            return silent(head.clone());
        };
        let size = self.sizes.boxed;
        let style = Style::new(Face::Bold, size.size);
        let words = labels::goes_on(title);
        let mut whole = self.words(&words, style, size.leading, None, width);
        whole.absorb(head, 0.0, whole.height + 0.6);
        whole.height += head.height + 0.6;
        silent(whole)
    }

    fn row(
        &mut self,
        cells: &[Cell],
        (align, size): (&[Align], Body),
        widths: &[f64],
        (table, is_head): (usize, bool),
    ) -> Slice {
        let tr = self.tree.add(table, Role::Row);
        let (style, leading) = if is_head {
            let head = self.sizes.table_head;
            let style = Style::new(Face::SemiBold, head.size).in_paint(Paint::Text2);
            (style, head.leading)
        } else {
            (
                Style {
                    tabular: true,
                    ..Style::new(Face::Regular, size.size)
                },
                size.leading,
            )
        };
        let mut laid = Vec::new();
        for (i, cell) in cells.iter().enumerate() {
            let role = match (is_head, i) {
                (true, _) => Role::ColumnHead,
                (false, 0) => Role::RowHead,
                _ => Role::Data,
            };
            let tag = self.tree.add(tr, role);
            let width = widths.get(i).copied().unwrap_or(10.0);
            let chip = cell.chip.as_ref().map_or(0.0, |c| {
                c.width + if cell.text.is_empty() { 0.0 } else { 2.0 }
            });
            let spans = self.spans(&cell.text, style);
            let lines = self.typesetter.lines(&spans, width - chip + 0.01);
            laid.push((tag, width, chip, lines));
        }
        let most = laid
            .iter()
            .map(|(.., lines)| lines.len())
            .max()
            .unwrap_or(1)
            .max(1);
        let mut slice = Slice {
            height: most as f64 * leading + 2.0 * PAD,
            ..Slice::default()
        };
        let mut x = 0.0;
        for (i, (tag, width, chip, lines)) in laid.into_iter().enumerate() {
            // Heads stand on the line under them, rows hang from the line above.
            let top = if is_head {
                slice.height - 0.8 - lines.len() as f64 * leading
            } else {
                PAD
            };
            let content = lines.iter().map(|l| l.width).fold(0.0, f64::max) + chip;
            if let Some(drawing) = cells.get(i).and_then(|c| c.chip.as_ref()) {
                let shift = if align.get(i) == Some(&Align::Centre) {
                    (width - content) / 2.0
                } else {
                    0.0
                };
                let y = PAD + (leading - drawing.height) / 2.0;
                let node = if drawing.alt.is_empty() {
                    None
                } else {
                    Some(self.tree.add_figure(tag, &drawing.alt))
                };
                drawing::put(&mut slice, drawing, (x + shift, y), 1.0, node);
            }
            for (j, line) in lines.into_iter().enumerate() {
                let shift = match align.get(i) {
                    Some(Align::Right) => width - line.width,
                    Some(Align::Centre) => (width - line.width) / 2.0,
                    _ => chip,
                };
                let at = (x + shift, top + leading * (j as f64 + 0.76));
                self.put(&mut slice, line, at, leading, Some(tag));
            }
            x += width + GAP;
        }
        slice
    }

    /// A table too wide for its column, as a list: each row's name, then what stands under each head.
    fn unrolled(
        &mut self,
        head: &[Cell],
        rows: &[Vec<Cell>],
        node: usize,
        width: f64,
    ) -> Vec<Slice> {
        let items = rows.iter().map(|row| {
            let (name, rest) = row.split_first()?;
            let mut text = vec![Inline::Strong(name.text.clone())];
            for (i, cell) in rest.iter().enumerate() {
                let value = plain(&cell.text);
                if value.is_empty() {
                    continue;
                }
                let title = head.get(i + 1).map(|h| plain(&h.text)).unwrap_or_default();
                let stop = if text.len() == 1 { ": " } else { "; " };
                text.push(Inline::Text(stop.to_owned()));
                // What is looked for stands out: the size, not what is read once it is found.
                text.push(Inline::Strong(vec![Inline::Text(title)]));
                text.push(Inline::Text(" ".to_owned()));
                text.extend(cell.text.iter().cloned());
            }
            Some(vec![Block::Paragraph(Tone::Body, text)])
        });
        let items: Vec<Vec<Block>> = items.flatten().collect();
        self.list(None, &items, node, width)
    }

    /// Natural widths if they fit, the rest to the first column; else text columns give way. `None` where not even the
    /// longest words fit.
    fn column_widths(
        &mut self,
        head: &[Cell],
        rows: &[Vec<Cell>],
        (align, size): (&[Align], Body),
        width: f64,
    ) -> Option<Vec<f64>> {
        let count = head.len().max(1);
        let room = width - GAP * (count - 1) as f64;
        let style = Style {
            tabular: true,
            ..Style::new(Face::Regular, size.size)
        };
        let head_style = Style::new(Face::SemiBold, self.sizes.table_head.size);
        let mut natural = vec![0.0_f64; count];
        let mut least = vec![0.0_f64; count];
        for (i, cell) in head.iter().enumerate() {
            let text = plain(&cell.text);
            least[i] = text
                .split(' ')
                .map(|w| self.typesetter.width(w, head_style))
                .fold(0.0, f64::max);
            // Heads over figures may break; over words they stay whole.
            let whole = self.typesetter.width(&text, head_style);
            natural[i] = if align.get(i) == Some(&Align::Right) {
                least[i].max(whole * 0.62)
            } else {
                whole
            };
        }
        for row in rows {
            for (i, cell) in row.iter().enumerate().take(count) {
                let chip = cell.chip.as_ref().map_or(0.0, |c| {
                    c.width + if cell.text.is_empty() { 0.0 } else { 2.0 }
                });
                let text = plain(&cell.text);
                natural[i] = natural[i].max(self.typesetter.width(&text, style) + chip);
                let word = text
                    .split(' ')
                    .map(|w| self.typesetter.width(w, style))
                    .fold(0.0, f64::max);
                least[i] = least[i].max(word + chip);
            }
        }
        let total: f64 = natural.iter().sum();
        if total <= room {
            // What is left goes to the last column if it holds words; figures stay near their names.
            let wordy = align.last() == Some(&Align::Left) && count > 1;
            if wordy {
                natural[count - 1] += room - total;
                return Some(natural);
            }
            let first = (room - total).min(FIRST_OVER);
            natural[0] += first;
            let share = ((room - total - first) / count as f64).min(EACH_OVER);
            return Some(natural.into_iter().map(|w| w + share).collect());
        }
        // In large print figures that would break, and many columns of words, are easier to read in a list.
        let breaks = self.sizes.large && (align.contains(&Align::Right) || count > MANY);
        if breaks || least.iter().sum::<f64>() > room + 0.01 {
            return None;
        }
        let over = total - room;
        let slack: Vec<f64> = natural.iter().zip(&least).map(|(n, l)| n - l).collect();
        let all: f64 = slack.iter().sum();
        let widths = natural.iter().zip(&slack);
        let widths = widths
            .map(|(n, s)| {
                if all > 0.0 {
                    n - over.min(all) * s / all
                } else {
                    *n
                }
            })
            .collect();
        Some(widths)
    }
}

/// A slice that readers skip.
fn silent(mut slice: Slice) -> Slice {
    slice.items.iter_mut().for_each(|item| {
        item.node = None;
        item.near = None;
    });
    slice
}

/// The learner's own row: on a wash between two lines, a little wider than the table so that its words stay in line.
fn stand_out(slice: &mut Slice, width: f64) {
    let (over, height) = (1.6, slice.height);
    let wash = Path::rect(-over, 0.0, width + 2.0 * over, height);
    let wash = PageMark::Fill(wash, Paint::Wash);
    slice.items.insert(
        0,
        Item {
            mark: wash,
            node: None,
            near: None,
        },
    );
    for y in [0.0, height] {
        let line = Path::line(&[(-over, y), (width + over, y)]);
        slice.mark(PageMark::Line(line, Stroke::new(Paint::Ink, 0.35)), None);
    }
}
