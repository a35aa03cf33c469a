//! A chart of a handout with all that belongs to it: picture, key, rows in words; as large as its page allows.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::handout::{ChartSheet, RowWords};
use crate::page::blocks::{Block, Inline, RowLine, Setting, Tone};
use crate::page::directives::HandoutDirectives;
use crate::page::directives::common::{in_one_column, inlines};
use crate::page::directives::ways::{alone, turned, upright_ways};
use crate::picture::{
    self, ChartPicture, Drawing, Paint, Path, Stroke, WIDEST, parts_of, swatch_chip,
};
use crate::words::{labels, literal, mark_name};

/// Widths of cells that are tried, in millimetres.
const CELLS: [f64; 10] = [WIDEST, 8.0, 7.0, 6.5, 6.0, 5.5, 5.0, 4.6, 4.3, 4.0];
/// A chart of more cells than these runs over many pages whatever their size, and is set in the smallest.
const MANY: usize = 6000;

/// The sizes of cells that a chart is tried in.
fn sizes_for(picture: &ChartPicture<'_>) -> &'static [f64] {
    match picture.chart.cells.len() > MANY {
        true => &CELLS[CELLS.len() - 1..],
        false => &CELLS,
    }
}

/// The narrowest cells of a chart that shares its page with what stands before it, in millimetres.
const SHARED: f64 = 4.2;

/// A cell of a key.
const CHIP: (f64, f64) = (8.75, 6.73);

impl HandoutDirectives<'_> {
    /// All charts; what stands before them comes after the first if its page has no room for both.
    pub(super) fn charts(&self, before: &[Block]) -> Vec<Block> {
        if self.handout.charts.is_empty() {
            return before.to_vec();
        }
        let sheets = self.handout.charts.iter().enumerate();
        let each = sheets.flat_map(|(i, sheet)| {
            let before = if i == 0 { before } else { &[] };
            self.chart((i, sheet), before)
        });
        each.collect()
    }

    fn chart(&self, (index, sheet): (usize, &ChartSheet<'_>), before: &[Block]) -> Vec<Block> {
        let Some(picture) = sheet.picture.as_ref() else {
            return [before, &self.not_printed(sheet)].concat();
        };
        let head = self.head_of(sheet);
        let words = self.words_of(sheet);
        let aside = (self.with_aside() == Some(index))
            .then(|| self.longest())
            .flatten()
            .unwrap_or_default();
        let turns = turns(picture);
        if self.handout.print.is_large() {
            let shown = self.large_chart((picture, turns), sheet, &head);
            // What stands aside elsewhere fills the page that the chart leaves; where nothing does, the last of what stands
            // before it, the swatch, waits until after it.
            let before = in_one_column(before.to_vec());
            let heading = |block: &Block| matches!(block, Block::Heading(..));
            let swatch = match self.handout.longest.is_some() {
                true => before.len(),
                false => before.iter().rposition(heading).unwrap_or(0),
            };
            let (before, swatch) = before.split_at(swatch);
            return [before, &aside, &shown, &words, swatch].concat();
        }
        let (mut ways, mut apart) = (Vec::new(), Vec::new());
        let mut last = f64::MAX;
        for &cell in sizes_for(picture) {
            let set = picture.set(cell, turns);
            let Some(first) = parts_of(&set).into_iter().next() else {
                continue;
            };
            let worth = set.cell_width(&first);
            if worth > last - 0.25 {
                continue;
            }
            last = worth;
            let shown = self.shown_chart(sheet, &set);
            // If no page holds chart and words together, they stand one after the other.
            let (alone, rest) = alone(&shown, &aside);
            apart.push(Setting {
                blocks: [before, &head, &alone].concat(),
                after: words.clone(),
                rest,
                worth,
                shrinks: true,
            });
            let parts = (head.as_slice(), shown, aside.as_slice(), words.as_slice());
            let all = if turns {
                turned(parts)
            } else {
                upright_ways(parts)
            };
            ways.extend(all.into_iter().map(|(blocks, after)| Setting {
                after,
                shrinks: true,
                ..Setting::new(blocks, worth)
            }));
        }
        // What stands before may share the page with a chart that is not too small for it, or else comes after.
        let with = ways
            .iter()
            .filter(|way| !before.is_empty() && way.worth >= SHARED);
        let with = with.map(|way| Setting {
            blocks: [before, &way.blocks].concat(),
            ..way.clone()
        });
        let mut all: Vec<Setting> = with.collect();
        all.extend(ways.into_iter().map(|way| Setting {
            rest: [&way.rest, before].concat(),
            ..way
        }));
        all.extend(apart);
        vec![Block::Fit(all)]
    }

    /// The chart with which the longest float and the line to check the printer by stand: the smallest, which has most room
    /// beside it; in large print one that is turned, since the page before it has room.
    fn with_aside(&self) -> Option<usize> {
        let pictures = self
            .handout
            .charts
            .iter()
            .map(|sheet| sheet.picture.as_ref());
        let pictures: Vec<(usize, &ChartPicture<'_>)> = pictures
            .enumerate()
            .filter_map(|(i, picture)| Some((i, picture?)))
            .collect();
        let turned = pictures.iter().find(|(_, picture)| turns(picture));
        let cells =
            |(_, picture): &&(usize, &ChartPicture<'_>)| picture.chart.width * picture.chart.height;
        match turned.filter(|_| self.handout.print.is_large()) {
            Some((i, _)) => Some(*i),
            None => pictures.iter().min_by_key(cells).map(|(i, _)| *i),
        }
    }

    /// A chart of large print under its head, with its key: as large as the rest of the page allows; or with the page
    /// turned, each part on a page of its own, after the key, for which none has room.
    fn large_chart(
        &self,
        (picture, turns): (&ChartPicture<'_>, bool),
        sheet: &ChartSheet<'_>,
        head: &[Block],
    ) -> Vec<Block> {
        if turns {
            let shown = self.shown_chart(sheet, &picture.set(WIDEST, true));
            let key = shown.last().cloned();
            let parts = shown.iter().step_by(2);
            let parts = parts.map(|part| Block::Turned(vec![part.clone()]));
            return head.iter().cloned().chain(key).chain(parts).collect();
        }
        // The key stands with the first part.
        let widest = parts_of(&picture.set(WIDEST, false));
        let parts = (0..widest.len()).map(|part| {
            let mut last = f64::MAX;
            let largest = picture.set(WIDEST, false);
            let ways = sizes_for(picture).iter().filter_map(|&cell| {
                let set = picture.set(cell, false);
                // Beside other pictures of the page, each as large as it can be.
                let share = set.cell_width(parts_of(&set).get(part)?)
                    / largest.cell_width(parts_of(&largest).get(part)?);
                let worth = share * WIDEST;
                let smaller = worth <= last - 0.25;
                last = last.min(worth);
                let mut shown = self.shown_chart(sheet, &set).into_iter().skip(2 * part);
                let (figure, key) = (shown.next()?, shown.next()?);
                let blocks = match part {
                    0 => [head, &[figure, key]].concat(),
                    _ => vec![figure],
                };
                smaller.then(|| Setting {
                    shrinks: true,
                    ..Setting::new(blocks, worth)
                })
            });
            Block::Fit(ways.collect())
        });
        parts.collect()
    }

    /// Over a chart: its title and which way it is read.
    fn head_of(&self, sheet: &ChartSheet<'_>) -> Vec<Block> {
        let title = vec![Inline::Text(labels::chart_heading(&sheet.title))];
        let mut head = vec![Block::Heading(2, title)];
        if !sheet.reading.is_empty() {
            head.push(Block::Paragraph(Tone::Fine, inlines(&sheet.reading)));
        }
        head
    }

    /// What stands in place of a chart that may not be printed.
    fn not_printed(&self, sheet: &ChartSheet<'_>) -> Vec<Block> {
        let title = vec![Inline::Text(labels::chart_heading(&sheet.title))];
        let text = labels::not_printed(&literal(&sheet.rights));
        vec![
            Block::Heading(2, title),
            Block::Paragraph(Tone::Body, inlines(&text)),
        ]
    }

    /// The rows in words under their heading, and what is said of catches.
    fn words_of(&self, sheet: &ChartSheet<'_>) -> Vec<Block> {
        let mut blocks = Vec::new();
        if !sheet.rows.is_empty() {
            let line = |row: &RowWords| RowLine {
                label: row.label.clone(),
                words: row.words.clone(),
                boxes: row.boxes,
            };
            let title = labels::in_words(self.handout.line);
            blocks.push(Block::Heading(3, vec![Inline::Text(title)]));
            blocks.push(Block::Rows(sheet.rows.iter().map(line).collect()));
        }
        if !sheet.catching.is_empty() {
            blocks.push(Block::Paragraph(Tone::Small, inlines(&sheet.catching)));
        }
        blocks
    }

    /// The picture in as few parts as can be, each with its key.
    fn shown_chart(&self, sheet: &ChartSheet<'_>, picture: &ChartPicture<'_>) -> Vec<Block> {
        let parts = parts_of(picture);
        let many = parts.len() > 1;
        let each = parts.iter().enumerate().flat_map(|(i, part)| {
            let caption = many.then(|| {
                labels::part_caption(
                    (i + 1, parts.len()),
                    (part.rows.start + 1, part.rows.end),
                    (part.columns.start + 1, part.columns.end),
                    self.handout.line,
                )
            });
            let name = match many {
                true => format!("chart-{}-{}", sheet.id, i + 1),
                false => format!("chart-{}", sheet.id),
            };
            let mut drawing = picture.draw(part);
            if let Some(caption) = &caption {
                // Which part it is is heard before what the chart is.
                drawing.alt = format!("{caption} {}", drawing.alt);
            }
            let figure = Block::Figure {
                drawing: Arc::new(drawing),
                caption: caption.map(Inline::Text).into_iter().collect(),
                name: Some(name),
            };
            [figure, self.key(sheet, picture)]
        });
        each.collect()
    }

    /// Every mark of a chart with its meaning.
    fn key(&self, sheet: &ChartSheet<'_>, picture: &ChartPicture<'_>) -> Block {
        let mut items: Vec<(Arc<Drawing>, String)> = Vec::new();
        for look in &picture.looks {
            let fills = !self.handout.print.is_black();
            let chip = self.shown(swatch_chip(look.rgb, look.symbol, CHIP, fills, ""));
            items.push((Arc::new(chip), look.name.clone()));
        }
        for mark in picture.chart.marks_used() {
            let chip = Arc::new(self.shown(picture::mark_chip(mark, CHIP)));
            items.extend(mark_name(mark, &self.handout.leans).map(|name| (chip, name)));
        }
        if let Some(words) = picture.one_colour_row.filter(|_| picture.has_plain_rows()) {
            let chip = Arc::new(self.shown(picture::tag_chip(words)));
            items.push((
                chip,
                labels::one_colour(self.handout.line, self.handout.wording),
            ));
        }
        if sheet.has_catches {
            let chip = Arc::new(self.shown(catch_chip()));
            items.push((chip, labels::CATCH_HERE.to_owned()));
        }
        Block::Legend(items)
    }
}

/// Whether a chart is read with the page turned: a round is then in one view, or the chart in fewer parts.
fn turns(picture: &ChartPicture<'_>) -> bool {
    let cut = |set: &ChartPicture<'_>| {
        let parts = parts_of(set);
        let across: BTreeSet<usize> = parts.iter().map(|part| part.columns.start).collect();
        (across.len(), parts.len())
    };
    cut(&picture.set(WIDEST, true)) < cut(picture)
}

/// A catch mark for a key: on the foot line of a cell.
fn catch_chip() -> Drawing {
    let mut drawing = Drawing::new(CHIP.0, CHIP.1, "");
    drawing.line(
        Path::rect(0.2, 0.2, CHIP.0 - 0.4, CHIP.1 - 0.4),
        Stroke::new(Paint::Rule, 0.2),
    );
    let size = CHIP.1 / 3.0;
    drawing.line(
        picture::staple((CHIP.0 / 2.0, CHIP.1 - 0.3), size),
        Stroke::new(Paint::Buoy, 0.34 * size),
    );
    drawing
}
