//! A chart as it is printed: numbered, with its repeat, relief rows, strands and catches.

use crate::course::Reads;
use crate::picture::cells;
use crate::picture::frame::{ABOVE, Frame, LEFT};
use crate::picture::marks::tag;
use crate::picture::parts::{ChartPart, LARGE, NUMBERS, cell_size};
use crate::picture::shown::ChartPicture;
use crate::picture::{Anchor, Drawing, Paint, Path, Stroke, Weight};
use crate::rows::drawn::one_colour;
use crate::words::pictures::{PART_OF_REPEAT, REPEAT, again_mark, repeat_mark};

const RIGHT: f64 = 18.0;
/// Room below the grid for numbers and brackets.
const BELOW: f64 = 15.0;
/// How long and half how wide an arrow at the middle is, and how far from the frame.
const MIDDLE_ARROW: (f64, f64, f64) = (2.4, 1.3, 0.5);

/// Where cells are narrower than this, in millimetres, room is short and the repeat stands once.
const COPIED: f64 = 6.5;

impl ChartPicture<'_> {
    /// Whether a second copy of the repeat stands beside the first, to show the join.
    fn shows_second_copy(&self) -> bool {
        let width = self.chart.width;
        !self.chart.has_edges()
            && width >= 2
            && (self.large || self.widest >= COPIED)
            && width as f64 * 2.0 * 8.0 <= self.room().grid.0
            && !self.chart.is_shaped()
    }

    /// Where the cells of a part lie, and how often its columns stand side by side.
    fn laid_out(&self, part: &ChartPart) -> (Frame, usize) {
        let whole = part.columns == (0..self.chart.width);
        let copies = if whole && self.shows_second_copy() && self.reads != Reads::FromTheMiddle {
            2
        } else {
            1
        };
        let columns = part.columns.len() * copies;
        let (cell_width, cell_height) =
            cell_size(columns, part.rows.len(), self.aspect, self.room());
        let (arrow, _, gap) = MIDDLE_ARROW;
        let above = match self.reads {
            Reads::FromTheMiddle => ABOVE + arrow + gap,
            _ => ABOVE,
        };
        let frame = Frame {
            before: LEFT + self.numbers_before(),
            above,
            rows: part.rows.clone(),
            first_column: part.columns.start,
            period: part.columns.len(),
            columns,
            cell_width,
            cell_height,
        };
        (frame, copies)
    }

    /// The width of a cell of a part, in millimetres.
    #[must_use]
    pub fn cell_width(&self, part: &ChartPart) -> f64 {
        self.laid_out(part).0.cell_width
    }

    /// Draws a part of the chart.
    #[must_use]
    pub fn draw(&self, part: &ChartPart) -> Drawing {
        let (frame, copies) = self.laid_out(part);
        let (cell_width, cell_height) = (frame.cell_width, frame.cell_height);
        let (_, _, right, bottom) = frame.bounds();
        let mut drawing = Drawing::new(
            right + RIGHT + self.bracket_after(),
            bottom + BELOW,
            self.alt.clone(),
        );
        cells::fills(&mut drawing, self, &frame);
        cells::grid(&mut drawing, self, &frame);
        cells::symbols(&mut drawing, self, &frame);
        cells::shaping(&mut drawing, self, &frame);
        cells::frame_line(&mut drawing, &frame);
        for &(row, column) in &self.changed {
            for x in (0..copies).filter_map(|copy| frame.place(column, copy)) {
                let (left, top) = (frame.left(x), frame.top(row));
                drawing.line(
                    Path::rect(left, top, cell_width, cell_height),
                    Stroke::new(Paint::Ink, 0.9),
                );
            }
        }
        cells::strands(&mut drawing, self, &frame);
        cells::catches(&mut drawing, self, &frame);
        self.numbers(&mut drawing, &frame);
        self.brackets(&mut drawing, &frame, copies);
        self.tags(&mut drawing, &frame);
        let (left, _, right, _) = frame.bounds();
        let area = |row: usize| [left, frame.top(row), right - left, frame.cell_height];
        drawing.areas = frame.rows.clone().map(|row| (row + 1, area(row))).collect();
        if self.from_left {
            drawing = drawing.mirrored();
        }
        if self.large {
            drawing = drawing.magnified(LARGE);
        }
        drawing
    }

    fn numbers(&self, drawing: &mut Drawing, frame: &Frame) {
        let (left, _, right, bottom) = frame.bounds();
        let weight = |n: usize| {
            if n.is_multiple_of(5) {
                Weight::Bold
            } else {
                Weight::Regular
            }
        };
        for row in frame.rows.clone() {
            let y = frame.middle(row, 0).1 + 1.25;
            let number = (row + 1).to_string();
            // Flat work: each number stands at the side where its row begins.
            if self.reads.is_back(row) {
                drawing.label((left - 2.6, y), number, 10.0, weight(row + 1), Anchor::End);
            } else {
                drawing.label((right + 6.8, y), number, 10.0, weight(row + 1), Anchor::End);
            }
        }
        if self.reads == Reads::FromTheMiddle {
            self.middle(drawing, frame);
        } else if frame.rows.start == 0 {
            let y = frame.middle(0, 0).1;
            arrow(drawing, (right + 8.0, y));
            drawing.label(
                (right + 10.6, y + 1.1),
                "start",
                8.5,
                Weight::SemiBold,
                Anchor::Start,
            );
        }
        for x in 0..frame.columns {
            let number = frame.first_column + x + 1;
            if frame.cell_width >= 5.0 || number.is_multiple_of(5) || number == 1 {
                let (cx, _) = frame.middle(frame.rows.start, x);
                drawing.label(
                    (cx, bottom + 4.4),
                    number.to_string(),
                    9.0,
                    weight(number),
                    Anchor::Middle,
                );
            }
        }
    }

    /// Arrows at the middle of a chart that is counted from there: above and beside each part that it runs through.
    fn middle(&self, drawing: &mut Drawing, frame: &Frame) {
        let (left, top, right, bottom) = frame.bounds();
        // Columns are counted from the right, rows from the foot.
        let (first, row) = (frame.first_column as f64, frame.rows.start as f64);
        let x = right - frame.cell_width * (self.chart.width as f64 / 2.0 - first);
        let y = bottom - frame.cell_height * (self.chart.height as f64 / 2.0 - row);
        let (far, wide, gap) = MIDDLE_ARROW;
        let within = |from: f64, at: f64, to: f64| from - 1e-9 <= at && at <= to + 1e-9;
        if within(left, x, right) {
            let foot = top - gap - far;
            let corners = [(x, top - gap), (x - wide, foot), (x + wide, foot)];
            drawing.fill(Path::polygon(&corners), Paint::Ink);
        }
        if within(top, y, bottom) {
            for (edge, out) in [(right, 1.0), (left, -1.0)] {
                let foot = edge + out * (gap + far);
                let corners = [(edge + out * gap, y), (foot, y - wide), (foot, y + wide)];
                drawing.fill(Path::polygon(&corners), Paint::Ink);
            }
        }
    }

    fn brackets(&self, drawing: &mut Drawing, frame: &Frame, copies: usize) {
        let (_, _, right, bottom) = frame.bounds();
        let y = bottom + 6.0;
        let mut bracket = |from: usize, to: usize, paint: Paint, text: String, weight: Weight| {
            // From the right edge of column `from` to the left edge of column `to - 1`.
            let (r, l) = (
                frame.left(from) + frame.cell_width - 0.3,
                frame.left(to - 1) + 0.3,
            );
            drawing.line(
                Path::line(&[(r, y), (r, y + 1.8), (l, y + 1.8), (l, y)]),
                Stroke::new(paint, 0.6),
            );
            let words = if paint == Paint::Ink {
                Paint::Ink
            } else {
                Paint::Text2
            };
            drawing.label_in(
                ((r + l) / 2.0, y + 6.0),
                text,
                9.5,
                weight,
                Anchor::Middle,
                words,
            );
        };
        let repeat = &self.chart.repeat_stitches;
        let (start, end) = (
            repeat.start.max(frame.first_column),
            repeat.end.min(frame.first_column + frame.period),
        );
        let knows_repeat = self.reads.is_round() || self.chart.declares_stitches;
        if knows_repeat && start < end {
            let room = frame.cell_width * (end - start) as f64;
            let whole = (start, end) == (repeat.start, repeat.end);
            let text = if whole {
                repeat_mark(repeat.start + 1, repeat.end, room >= 46.0)
            } else {
                PART_OF_REPEAT.to_owned()
            };
            bracket(
                start - frame.first_column,
                end - frame.first_column,
                Paint::Ink,
                text,
                Weight::SemiBold,
            );
        }
        if copies == 2 {
            let narrow = frame.cell_width * (frame.period as f64) < 56.0;
            let text = again_mark(!narrow).to_owned();
            bracket(
                frame.period,
                2 * frame.period,
                Paint::Rule,
                text,
                Weight::Regular,
            );
        }
        let rows = &self.chart.repeat_rows;
        if *rows != (0..self.chart.height) {
            let (from, to) = (
                rows.start.max(frame.rows.start),
                rows.end.min(frame.rows.end),
            );
            if from < to {
                let x = right + 8.6;
                let (top, foot) = (
                    frame.top(to - 1) + 0.4,
                    frame.top(from) + frame.cell_height - 0.4,
                );
                drawing.line(
                    Path::line(&[(x, top), (x + 1.6, top), (x + 1.6, foot), (x, foot)]),
                    Stroke::new(Paint::Ink, 0.6),
                );
                drawing.label(
                    (x + 2.4, (top + foot) / 2.0 + 1.1),
                    REPEAT,
                    8.5,
                    Weight::SemiBold,
                    Anchor::Start,
                );
            }
        }
    }

    fn tags(&self, drawing: &mut Drawing, frame: &Frame) {
        let (left, ..) = frame.bounds();
        let flat = self.reads == Reads::Turning;
        let left = if flat { left - NUMBERS } else { left };
        if frame.cell_height < 4.6 && self.chart.height > 40 {
            return;
        }
        for row in frame.rows.clone() {
            let y = frame.middle(row, 0).1;
            let boxed = frame.cell_height >= 4.9 && left >= LEFT;
            let tag = |drawing: &mut Drawing, text: &str, paint: Paint| {
                if boxed {
                    tag(drawing, y, left, text, paint);
                } else {
                    bare_tag(drawing, (left - 1.6, y + 1.1), text, paint);
                }
            };
            if one_colour(&self.chart, row).is_some() {
                if let Some(words) = self.one_colour_row {
                    tag(drawing, words, Paint::Ink);
                }
            } else if let Some((_, words)) = self.tags.iter().find(|(at, _)| *at == row) {
                tag(drawing, words, Paint::Buoy);
            }
        }
    }
}

/// Low rows leave no room for a box: the word alone stands there.
fn bare_tag(drawing: &mut Drawing, at: (f64, f64), text: &str, paint: Paint) {
    drawing.label_in(at, text, 8.5, Weight::SemiBold, Anchor::End, paint);
}

fn arrow(drawing: &mut Drawing, (x, y): (f64, f64)) {
    drawing.fill(
        Path::polygon(&[(x, y), (x + 2.1, y - 1.2), (x + 2.1, y + 1.2)]),
        Paint::Ink,
    );
}
