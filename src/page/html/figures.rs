//! Pictures and tables of a page: what may be wider than a screen scrolls in a box of its own.

use std::fmt::Write as _;

use crate::page::blocks::{Align, Cell, Inline, Table};
use crate::page::html::blocks::{Writer, inlines};
use crate::page::svg::{escape, svg};
use crate::picture::{Drawing, Label, Paint, Path, Shape};
use crate::words::labels;

/// A drawing of this width, in millimetres, fits a narrow screen with its words as large as they are.
const NARROW: f64 = 70.0;

/// A picture higher than this, in millimetres, is printed smaller from the page; none of life size is.
const TALL: f64 = 120.0;

/// A millimetre of a drawing with words, in the height of a page's letters: so that its smallest type is of 12 pixels.
const REM: f64 = 0.28;

/// The numbers of a chart's rows stand in a strip this wide, in millimetres.
const ROW_NUMBERS: f64 = 7.0;

impl Writer<'_> {
    pub(super) fn picture(&mut self, drawing: &Drawing) -> String {
        self.pictures += 1;
        svg(drawing, &format!("p{}-", self.pictures), false)
    }

    /// A drawing with its caption. Its words stay as large as they are: a wide one scrolls sideways on a narrow screen, also
    /// by keyboard. Charts stay paper in the dark.
    pub(super) fn figure(&mut self, drawing: &Drawing, caption: &[Inline], is_chart: bool) {
        let picture = self.picture(drawing);
        let caption = if caption.is_empty() {
            String::new()
        } else {
            format!("<figcaption>{}</figcaption>", inlines(caption))
        };
        let worded = drawing.has_words();
        let mut classes = Vec::new();
        if is_chart {
            classes.push("chart");
        }
        if worded {
            classes.push("worded");
        }
        if drawing.height > TALL && !is_chart {
            classes.push("tall");
        }
        let class = match classes.is_empty() {
            true => String::new(),
            false => format!(" class=\"{}\"", classes.join(" ")),
        };
        // Words grow with those of the page, and the drawing with its words.
        let width = match worded {
            true => format!(" style=\"width:{:.2}rem\"", drawing.width * REM),
            false => format!(" style=\"width:{:.0}mm\"", drawing.width),
        };
        let over = match is_chart {
            true => self.numbers_over(drawing),
            false => self.rungs_over(drawing),
        };
        let holder = if drawing.width > NARROW && worded {
            self.wide(labels::DRAWING)
        } else {
            "<div>".to_owned()
        };
        self.line(&format!(
            "<figure{class}>{holder}<div class=\"held\"{width}>{over}{picture}</div></div>{caption}</figure>"
        ));
    }

    /// The numbers of a chart's rows once more, over themselves: they stay in view while the chart scrolls beneath.
    fn numbers_over(&mut self, drawing: &Drawing) -> String {
        let sides = drawing.areas.iter().map(|(_, [x, _, w, _])| (*x, x + w));
        let Some((left, right)) = sides.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1))) else {
            return String::new();
        };
        // At the side where rounds begin; a chart for the left hand has them at the left.
        let beside = |from: f64| -> Vec<Label> {
            let labels = drawing.shapes.iter().filter_map(|shape| match shape {
                Shape::Label(label) => Some(label),
                _ => None,
            });
            let is_number = |label: &&Label| label.text.chars().all(|c| c.is_ascii_digit());
            let within = |label: &&Label| (from..from + ROW_NUMBERS).contains(&label.at.0);
            let numbers = labels.filter(is_number).filter(within).cloned();
            numbers.collect()
        };
        let [at_left, at_right] = [left - ROW_NUMBERS, right].map(|from| (from, beside(from)));
        let (from, numbers) = match at_left.1.len() > at_right.1.len() {
            true => at_left,
            false => at_right,
        };
        let mut strip = Drawing::new(ROW_NUMBERS, drawing.height, "");
        let paper = Path::rect(0.1, 0.0, ROW_NUMBERS - 0.2, drawing.height);
        strip.fill(paper, Paint::White);
        for label in numbers {
            let at = (label.at.0 - from, label.at.1);
            strip.shapes.push(Shape::Label(Label { at, ..label }));
        }
        let share = |part: f64| (part / drawing.width * 10_000.0).round() / 100.0;
        let (from, width) = (share(from), share(ROW_NUMBERS));
        let picture = self.picture(&strip);
        format!(
            "<div class=\"numbers\"><span style=\"width:{from}%\"></span><div style=\"width:{width}%\">{picture}</div></div>"
        )
    }

    /// The lessons of a ladder as ways to their pages, over their rungs.
    fn rungs_over(&self, drawing: &Drawing) -> String {
        let share = |part: f64, of: f64| (part / of * 10_000.0).round() / 100.0;
        let each = drawing.areas.iter().filter_map(|(number, [x, y, w, h])| {
            let (href, title) = self.rungs.get(number.checked_sub(1)?)?;
            let (left, top) = (share(*x, drawing.width), share(*y, drawing.height));
            let (wide, high) = (share(*w, drawing.width), share(*h, drawing.height));
            Some(format!(
                "<a class=\"rung\" href=\"{}\" aria-label=\"{}\" style=\"left:{left}%;top:{top}%;width:{wide}%;height:{high}%\"></a>",
                escape(href),
                escape(&labels::lesson_titled(*number, title)),
            ))
        });
        each.collect()
    }

    pub(super) fn table(&mut self, table: &Table) {
        let Table {
            head,
            rows,
            align,
            yours,
            ..
        } = table;
        let class = |i: usize| match align.get(i) {
            Some(Align::Right) => " class=\"r\"",
            Some(Align::Centre) => " class=\"m\"",
            _ => "",
        };
        let open = self.wide(labels::TABLE) + "<table><thead><tr>";
        self.line(&open);
        for (i, cell) in head.iter().enumerate() {
            let text = self.cell(cell);
            self.line(&format!("<th scope=\"col\"{}>{text}</th>", class(i)));
        }
        self.line("</tr></thead><tbody>");
        for (number, row) in rows.iter().enumerate() {
            let own = *yours == Some(number);
            self.out
                .push_str(if own { "<tr class=\"yours\">" } else { "<tr>" });
            for (i, cell) in row.iter().enumerate() {
                let text = self.cell(cell);
                let (tag, scope) = if i == 0 {
                    ("th", " scope=\"row\"")
                } else {
                    ("td", "")
                };
                let _ = write!(self.out, "<{tag}{scope}{}>{text}</{tag}>", class(i));
            }
            self.line("</tr>");
        }
        self.line("</tbody></table></div>");
    }

    fn cell(&mut self, cell: &Cell) -> String {
        let chip = cell
            .chip
            .as_ref()
            .map(|chip| self.picture(chip))
            .unwrap_or_default();
        let gap = if chip.is_empty() || cell.text.is_empty() {
            ""
        } else {
            " "
        };
        format!("{chip}{gap}{}", inlines(&cell.text))
    }

    /// Opens what may be too wide for a narrow screen, named by the heading that it stands under; it scrolls sideways, also
    /// by keyboard.
    fn wide(&self, kind: &str) -> String {
        let name = match self.over.as_str() {
            "" => kind.to_owned(),
            over => format!("{kind}: {over}"),
        };
        format!(
            "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"{}\">",
            escape(&name)
        )
    }
}
