//! A chart of a handout with all that belongs to it: picture, key, rows in words; as large as its page allows.

use std::sync::Arc;

use crate::handout::{ChartSheet, RowWords};
use crate::page::blocks::{Block, Inline, RowLine, Setting, Tone};
use crate::page::directives::HandoutDirectives;
use crate::page::directives::common::inlines;
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
        // The longest float and the line to check the printer by stand beside the smallest chart, which has most room.
        let aside = (self.smallest() == Some(index))
            .then(|| self.longest())
            .flatten()
            .unwrap_or_default();
        let upright = parts_of(picture).len();
        let turns = parts_of(&picture.set(WIDEST, true)).len() < upright;
        if self.handout.print.is_large() {
            let shown = self.large_chart((picture, turns), sheet, &head);
            // What stands aside elsewhere fills the page that the chart leaves.
            return [before, &aside, &shown, &words].concat();
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

    /// The first of the charts that have the fewest cells.
    fn smallest(&self) -> Option<usize> {
        let charts = self.handout.charts.iter().enumerate();
        let cells = charts.filter_map(|(i, sheet)| {
            let chart = &sheet.picture.as_ref()?.chart;
            Some((chart.width * chart.height, i))
        });
        cells.min().map(|(_, i)| i)
    }

    /// A chart of large print under its head, with its key: as large as the rest of the page allows; or with the page
    /// turned, each part on a page of its own, and the key, for which none has room, after the last.
    fn large_chart(
        &self,
        (picture, turns): (&ChartPicture<'_>, bool),
        sheet: &ChartSheet<'_>,
        head: &[Block],
    ) -> Vec<Block> {
        if turns {
            let shown = self.shown_chart(sheet, &picture.set(WIDEST, true));
            let key = shown.last().cloned();
            let figures = shown.iter().step_by(2).enumerate();
            let parts = figures.map(|(i, part)| {
                let head = if i == 0 { head } else { &[] };
                Block::Turned([head, std::slice::from_ref(part)].concat())
            });
            return parts.chain(key).collect();
        }
        let mut last = f64::MAX;
        let ways = CELLS.iter().filter_map(|&cell| {
            let set = picture.set(cell, false);
            let worth = set.cell_width(parts_of(&set).first()?);
            let smaller = worth <= last - 0.25;
            last = last.min(worth);
            let blocks = [head, &self.shown_chart(sheet, &set)].concat();
            smaller.then(|| Setting {
                shrinks: true,
                ..Setting::new(blocks, worth)
            })
        });
        vec![Block::Fit(ways.collect())]
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
