//! A chart of a handout with all that belongs to it: picture, key, rows in words; as large as its page allows.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::handout::{ChartSheet, RowWords};
use crate::page::blocks::{Block, Inline, RowLine, Setting, Tone};
use crate::page::directives::HandoutDirectives;
use crate::page::directives::common::{in_one_column, inlines};
use crate::picture::{
    self, ChartPicture, Drawing, Paint, Path, Stroke, WIDEST, parts_of, swatch_chip,
};
use crate::words::{labels, literal, mark_name};

/// Widths of cells that are tried, in millimetres.
const CELLS: [f64; 10] = [WIDEST, 8.0, 7.0, 6.5, 6.0, 5.5, 5.0, 4.6, 4.3, 4.0];

/// The narrowest column in which rows can be read beside their chart, in millimetres.
const BESIDE: f64 = 64.0;

/// The narrowest column for a key beside its chart, in millimetres.
const ASIDE: f64 = 52.0;

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
        for cell in CELLS {
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
            let ways = CELLS.iter().filter_map(|&cell| {
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

/// What a way of setting a chart is made of: its head, picture and key, what stands aside, its words.
type Parts<'a> = (&'a [Block], Vec<Block>, &'a [Block], &'a [Block]);

/// What stands together, and what follows.
type Set = (Vec<Block>, Vec<Block>);

/// With the page turned: all on it, or the picture alone and its words after it.
fn turned((head, shown, aside, words): Parts<'_>) -> Vec<Set> {
    let below = [words, &side_by_side(aside)].concat();
    let all = [head, &shown, &below].concat();
    let alone = Block::Turned([head, &shown].concat());
    vec![(vec![Block::Turned(all)], Vec::new()), (vec![alone], below)]
}

/// A picture by itself: with its key and what stands aside beside it where there is room, else the latter is left.
fn alone(shown: &[Block], aside: &[Block]) -> (Vec<Block>, Vec<Block>) {
    match beside(shown, aside) {
        Some(both) => (vec![both], Vec::new()),
        None => (shown.to_vec(), side_by_side(aside)),
    }
}

/// A picture with its key and what stands aside beside it, where there is room.
fn beside(shown: &[Block], aside: &[Block]) -> Option<Block> {
    let [figure @ Block::Figure { drawing, .. }, key] = shown else {
        return None;
    };
    let room = beside_room(drawing.width);
    // What is shown at life size is not shrunk.
    let fits = |block: &Block| match block {
        Block::Figure { drawing, .. } => drawing.width <= room,
        _ => true,
    };
    if room < ASIDE || !aside.iter().all(fits) {
        return None;
    }
    let right = [std::slice::from_ref(key), aside].concat();
    Some(columns(drawing.width, vec![figure.clone()], right))
}

/// Between two columns, in millimetres.
const GUTTER: f64 = 4.0;
/// A page's text, in millimetres.
const PAGE: f64 = 180.0;

/// What a page leaves beside something so wide.
fn beside_room(width: f64) -> f64 {
    PAGE - width - GUTTER
}

/// Two columns, the first so wide.
fn columns(width: f64, left: Vec<Block>, right: Vec<Block>) -> Block {
    let share = 12.0 * (width + GUTTER) / (PAGE + GUTTER);
    Block::Columns(vec![(share, left), (12.0 - share, right)])
}

/// Upright: the key beside the picture and the words below both; the words beside it, too; or all one under the other.
fn upright_ways((head, shown, aside, words): Parts<'_>) -> Vec<Set> {
    let mut ways = Vec::new();
    let Some(both) = beside(&shown, aside) else {
        let aside = side_by_side(aside);
        return vec![([head, &shown, &aside, words].concat(), Vec::new())];
    };
    ways.push(([head, &[both], words].concat(), Vec::new()));
    if let Some(Block::Figure { drawing, .. }) = shown.first()
        && beside_room(drawing.width) >= BESIDE
    {
        let both = columns(drawing.width, shown.clone(), [aside, words].concat());
        ways.push(([head, &[both]].concat(), Vec::new()));
    }
    ways
}

/// The longest float and its line under their heading, side by side.
fn side_by_side(aside: &[Block]) -> Vec<Block> {
    let Some((heading, figures)) = aside.split_first() else {
        return Vec::new();
    };
    let (share, wide) = match figures.len() {
        3 => (4.0, 56.0),
        _ => (6.0, 88.0),
    };
    let fits = |block: &Block| match block {
        Block::Figure { drawing, .. } => drawing.width <= wide,
        _ => true,
    };
    if !figures.iter().all(fits) {
        return aside.to_vec();
    }
    let columns = figures.iter().map(|figure| (share, vec![figure.clone()]));
    vec![heading.clone(), Block::Columns(columns.collect())]
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
