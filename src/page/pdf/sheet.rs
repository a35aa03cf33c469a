//! A sheet: paper, how large it is printed, and what stands at its head and foot.

use crate::course::Paper;
use crate::page::pdf::face::Face;
use crate::page::pdf::frame::PageMark;
use crate::page::pdf::sizes::{LARGE, ORDINARY, Sizes};
use crate::page::pdf::text::{Run, Style, Typesetter};
use crate::picture::{Paint, Path, Stroke};

/// Width of the content box, the same for both papers, in millimetres; it is 255 high.
pub(super) const WIDTH: f64 = 180.0;

/// A sheet of paper, and how large it is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Paper.
    pub paper: Paper,
    /// Large print: text of 18 pt.
    pub large: bool,
    /// For a printer of black only.
    pub black: bool,
}

/// Where things stand inside the content box, in millimetres from its top.
#[derive(Clone, Copy, Debug)]
pub(super) struct Heights {
    /// Baseline of the running head, and the rule under it.
    head: (f64, f64),
    /// Where text begins and ends.
    pub(super) text: (f64, f64),
    /// The rule over the foot, and the foot's baseline.
    foot: (f64, f64),
}

const HEIGHTS: Heights = Heights {
    head: (4.2, 6.2),
    text: (9.0, 248.0),
    foot: (249.4, 253.4),
};

const LARGE_HEIGHTS: Heights = Heights {
    head: (5.4, 8.2),
    text: (12.5, 239.5),
    foot: (242.0, 247.6),
};

/// On a page so wide, in points: the place of what stands within its margins, and its size.
pub(super) fn content_of(width: f32) -> ((f32, f32), (f32, f32)) {
    let points = |mm: f64| (mm * 72.0 / 25.4) as f32;
    let papers = [Paper::A4, Paper::Letter].map(paper_geometry);
    let near = |((wide, _), _): &&((f64, f64), (f64, f64))| (points(*wide) - width).abs() < 1.0;
    let (_, (left, top)) = papers.iter().find(near).copied().unwrap_or(papers[0]);
    let high = HEIGHTS.foot.1 + 1.0;
    ((points(left), points(top)), (points(WIDTH), points(high)))
}

const fn paper_geometry(paper: Paper) -> ((f64, f64), (f64, f64)) {
    match paper {
        Paper::A4 => ((210.0, 297.0), (15.0, 18.0)),
        Paper::Letter => ((215.9, 279.4), (17.95, 12.2)),
    }
}

impl Sheet {
    /// Paper size and the place of the content box on it.
    pub(super) const fn geometry(self) -> ((f64, f64), (f64, f64)) {
        paper_geometry(self.paper)
    }

    pub(super) fn sizes(self) -> &'static Sizes {
        if self.large { &LARGE } else { &ORDINARY }
    }

    pub(super) fn heights(self) -> Heights {
        if self.large { LARGE_HEIGHTS } else { HEIGHTS }
    }
}

/// What stands at the head and foot of each page of a section.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Furniture {
    /// Bold in the running head: the guild.
    pub guild: String,
    /// Beside it: the course.
    pub course: String,
    /// Right in the running head, before the page: `Lesson 4`. A cover has none, and no furniture at all.
    pub label: String,
    /// Left in the foot.
    pub foot: String,
}

/// Running head and foot.
pub(super) fn furniture(
    section: &Furniture,
    (number, of, page_number): (usize, usize, usize),
    (left, top): (f64, f64),
    sheet: Sheet,
    typesetter: &mut Typesetter,
) -> Vec<PageMark> {
    let mut marks = Vec::new();
    if section.label.is_empty() {
        return marks;
    }
    let (sizes, heights) = (sheet.sizes(), sheet.heights());
    // A long foot takes two lines; it may say who may copy the page, so what does not fit two is refused before.
    let style = Style::new(Face::Regular, sizes.foot);
    let foot_lines = halves(&section.foot, style, typesetter);
    let course = typesetter.width(&section.course, Style::new(Face::Regular, sizes.head));
    // `room` is the width that words may take; negative: as wide as they are, ending at x.
    let mut text = |words: &str, face: Face, size: f64, x: f64, y: f64, room: f64| -> f64 {
        let style =
            Style::new(face, size).in_paint(if y > 100.0 { Paint::Text2 } else { Paint::Ink });
        let words = if room < 0.0 {
            words.to_owned()
        } else {
            cut(words, room, style, typesetter)
        };
        let width = typesetter.width(&words, style);
        let glyphs = typesetter.shape(&words, face, false);
        let x = if room < 0.0 { x - width } else { x };
        let run = Run {
            face,
            size,
            paint: style.paint,
            x: left + x,
            y: top + y,
            glyphs,
            turned: false,
        };
        marks.push(PageMark::Run(run));
        width
    };
    let head = sizes.head;
    let mut x = 0.0;
    if !section.guild.is_empty() {
        x = text(
            &section.guild,
            Face::Bold,
            head,
            0.0,
            heights.head.0,
            f64::MAX,
        ) + 3.0;
    }
    let right = if of > 1 {
        format!("{} · page {number} of {of}", section.label)
    } else {
        section.label.clone()
    };
    let taken = text(&right, Face::SemiBold, head, WIDTH, heights.head.0, -1.0);
    // Where there is no room for the course, the guild and the page tell enough.
    let room = WIDTH - x - taken - 4.0;
    if !sizes.large || course <= room {
        text(
            &section.course,
            Face::Regular,
            head,
            x,
            heights.head.0,
            room,
        );
    }
    let foot = heights.foot.1;
    for (i, line) in foot_lines.iter().enumerate() {
        let y = foot + if sheet.large { 5.8 } else { 4.0 } * i as f64;
        text(line, Face::Regular, sizes.foot, 0.0, y, WIDTH - 16.0);
    }
    text(
        &page_number.to_string(),
        Face::Regular,
        sizes.foot,
        WIDTH,
        foot,
        -1.0,
    );
    let mut rule = |y: f64, stroke: Stroke| {
        let path = Path::line(&[(left, top + y), (left + WIDTH, top + y)]);
        marks.push(PageMark::Line(path, stroke));
    };
    rule(heights.head.1, Stroke::new(Paint::Ink, 0.35));
    rule(heights.foot.0, Stroke::new(Paint::Rule, 0.2));
    marks
}

/// Whether a foot fits its two lines on every sheet, large print included.
#[must_use]
pub fn foot_fits(words: &str) -> bool {
    let mut typesetter = Typesetter::default();
    [false, true].into_iter().all(|large| {
        let sheet = Sheet {
            paper: Paper::A4,
            large,
            black: false,
        };
        let style = Style::new(Face::Regular, sheet.sizes().foot);
        let lines = halves(words, style, &mut typesetter);
        let fits = |line: &String| typesetter.width(line, style) <= WIDTH - 16.0;
        lines.iter().all(fits)
    })
}

/// Words in two lines if they do not fit one.
fn halves(words: &str, style: Style, typesetter: &mut Typesetter) -> Vec<String> {
    let room = WIDTH - 16.0;
    if typesetter.width(words, style) <= room {
        return vec![words.to_owned()];
    }
    let cuts = words.match_indices(' ').map(|(i, _)| i);
    let fits = |&i: &usize| typesetter.width(words.get(..i).unwrap_or(""), style) <= room;
    match cuts.take_while(fits).last() {
        Some(cut) => vec![
            words.get(..cut).unwrap_or("").to_owned(),
            words.get(cut + 1..).unwrap_or("").to_owned(),
        ],
        None => vec![words.to_owned()],
    }
}

/// Cuts words that would run into others.
fn cut(text: &str, room: f64, style: Style, typesetter: &mut Typesetter) -> String {
    if typesetter.width(text, style) <= room {
        return text.to_owned();
    }
    let mut kept = text.to_owned();
    while kept.pop().is_some() {
        let shown = format!("{}…", kept.trim_end());
        if typesetter.width(&shown, style) <= room {
            return shown;
        }
    }
    String::new()
}
