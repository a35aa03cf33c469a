//! The ladder of a course, read from the bottom up like a chart: grade by parts, what is new, the step.

use crate::course::Part;
use crate::picture::{Anchor, Drawing, LARGE, Paint, Path, Stroke, Weight, letters};
use crate::rows::grade::Level;
use crate::words::capital;
use crate::words::labels::LADDER_HEAD;
use crate::words::pictures::ladder_alt;
use crate::words::{Wording, part_title};

const PITCH: f64 = 12.2;
const HEAD: f64 = 14.0;
const FOOT: f64 = 9.0;
const BAR_LEFT: f64 = 56.0;
const BAR_HEIGHT: f64 = 6.4;

/// How wide a ladder is, and how many rungs stand on a page.
#[derive(Clone, Copy, Debug)]
struct Form {
    width: f64,
    bar_width: f64,
    /// Where it is said what is new, if there is room for that.
    new_left: Option<f64>,
    rungs: usize,
}

/// The whole width of a page.
const WIDE: Form = Form {
    width: 180.0,
    bar_width: 64.0,
    new_left: Some(131.0),
    rungs: 16,
};

/// For large print, before it is magnified; what is new stands in the list of lessons.
const NARROW: Form = Form {
    width: 109.0,
    bar_width: 33.0,
    new_left: None,
    rungs: 8,
};

/// A lesson on the ladder.
#[derive(Clone, Debug)]
pub struct LadderRung {
    /// Its title.
    pub title: String,
    /// Points of each part.
    pub points: [f64; 5],
    /// Its grade as printed.
    pub grade: String,
    /// What is new, at most two lines.
    pub new: Vec<String>,
    /// The step as printed.
    pub step: String,
    /// Whether it is the largest step.
    pub largest: bool,
}

/// Draws the ladder, a long one in parts from the bottom up; `levels` are the grades at which levels begin.
#[must_use]
pub fn ladder(
    rungs: &[LadderRung],
    levels: [f64; 3],
    large: bool,
    wording: Wording,
) -> Vec<Drawing> {
    let form = if large { NARROW } else { WIDE };
    // Parts of about equal length.
    let parts = rungs.len().div_ceil(form.rungs).max(1);
    let each = rungs.len().div_ceil(parts).max(1);
    let most = rungs
        .iter()
        .map(|r| r.points.iter().sum::<f64>())
        .fold(levels[2] + 10.0, f64::max);
    let part = |(i, part): (usize, &[LadderRung])| {
        let drawing = section(part, i * each, (levels, most), form, wording);
        if large {
            drawing.magnified(LARGE)
        } else {
            drawing
        }
    };
    rungs.chunks(each).enumerate().map(part).collect()
}

/// A stretch of the ladder above so many lessons.
fn section(
    rungs: &[LadderRung],
    below: usize,
    (levels, most): ([f64; 3], f64),
    form: Form,
    wording: Wording,
) -> Drawing {
    let height = HEAD + PITCH * rungs.len() as f64 + FOOT;
    let rung = |r: &LadderRung| format!("{} {}", r.title, r.grade);
    let alt = ladder_alt(&rungs.iter().map(rung).collect::<Vec<_>>());
    let mut drawing = Drawing::new(form.width, height, alt);
    legend(&mut drawing, form, wording);
    let bottom = HEAD + PITCH * rungs.len() as f64;
    rails(&mut drawing, rungs.len(), bottom);
    let scale = form.bar_width / most.max(1.0);
    for level in levels.into_iter().filter(|l| *l < most) {
        let x = BAR_LEFT + level * scale;
        let dashed = Stroke {
            dash: Some((1.0, 0.8)),
            ..Stroke::new(Paint::Rule, 0.25)
        };
        drawing.line(Path::line(&[(x, HEAD - 1.0), (x, bottom)]), dashed);
    }
    drawing.line(
        Path::line(&[(BAR_LEFT, HEAD - 1.0), (BAR_LEFT, bottom)]),
        Stroke::new(Paint::Ink, 0.4),
    );
    for (i, rung) in rungs.iter().enumerate() {
        let middle = bottom - PITCH * (i as f64 + 0.5);
        draw_rung(&mut drawing, rung, below + i + 1, (middle, scale), form);
        let area = [0.0, middle - PITCH / 2.0, form.width, PITCH];
        drawing.areas.push((below + i + 1, area));
        if i > 0 {
            let y = bottom - PITCH * i as f64;
            drawing.line(
                Path::line(&[(15.0, y), (form.width, y)]),
                Stroke::new(Paint::Hair, 0.2),
            );
        }
    }
    drawing.line(
        Path::line(&[(15.0, bottom), (form.width, bottom)]),
        Stroke::new(Paint::Ink, 0.5),
    );
    let starts = [0.0, levels[0], levels[1], levels[2]];
    for (start, name) in starts.into_iter().zip(Level::ALL.map(Level::name)) {
        // Narrow bars have room for the first letter only where a level is a few grades wide.
        if start < most && form.new_left.is_some() {
            let at = (BAR_LEFT + start * scale + 0.6, bottom + 4.0);
            drawing.label_in(at, name, 8.5, Weight::SemiBold, Anchor::Start, Paint::Text2);
        }
    }
    drawing
}

fn legend(drawing: &mut Drawing, form: Form, wording: Wording) {
    // Magnified, heads are of 16 pt.
    let (pitch, chip, points) = if form.new_left.is_some() {
        (33.0, 9.0, 9.0)
    } else {
        (22.4, 4.0, 9.7)
    };
    for (i, part) in Part::ALL.into_iter().enumerate() {
        let x = pitch * i as f64;
        part_fill(drawing, part, x, 0.3, chip, 4.4);
        drawing.label(
            (x + chip + 1.2, 3.9),
            part_title(part, wording),
            10.0,
            Weight::Regular,
            Anchor::Start,
        );
    }
    let [lesson, grade, new, step] = LADDER_HEAD;
    let heads = [
        (Some(15.0), lesson, Anchor::Start),
        (Some(BAR_LEFT), grade, Anchor::Start),
        (form.new_left, new, Anchor::Start),
        (Some(form.width), step, Anchor::End),
    ];
    for (x, text, anchor) in heads {
        let Some(x) = x else { continue };
        drawing.label_in(
            (x, HEAD - 3.2),
            text,
            points,
            Weight::SemiBold,
            anchor,
            Paint::Text2,
        );
    }
}

fn rails(drawing: &mut Drawing, rungs: usize, bottom: f64) {
    for x in [0.5, 10.5] {
        drawing.line(
            Path::line(&[(x, HEAD - 3.0), (x, bottom + 3.0)]),
            Stroke::new(Paint::Estuary, 1.0),
        );
    }
    for i in 0..=rungs {
        let y = bottom - PITCH * i as f64;
        drawing.line(
            Path::line(&[(0.5, y), (10.5, y)]),
            Stroke::new(Paint::Estuary, 0.8),
        );
    }
}

fn draw_rung(
    drawing: &mut Drawing,
    rung: &LadderRung,
    number: usize,
    (middle, scale): (f64, f64),
    form: Form,
) {
    let figure = (5.5, middle + 2.0);
    drawing.label_in(
        figure,
        number.to_string(),
        14.0,
        Weight::Bold,
        Anchor::Middle,
        Paint::Estuary,
    );
    let title = in_two(&rung.title);
    for (i, line) in title.iter().enumerate() {
        let y = line_height(middle, title.len(), i);
        let (weight, anchor) = (Weight::SemiBold, Anchor::Start);
        drawing.label((15.0, y), line.clone(), 10.5, weight, anchor);
    }
    let mut x = BAR_LEFT;
    for part in Part::ALL {
        let width = rung.points[part.index()] * scale;
        if width > 0.05 {
            part_fill(
                drawing,
                part,
                x,
                middle - BAR_HEIGHT / 2.0,
                width,
                BAR_HEIGHT,
            );
        }
        x += width;
    }
    if x - BAR_LEFT < 0.6 {
        drawing.fill(Path::circle(BAR_LEFT, middle, 0.9), Paint::Ink);
    }
    let grade = rung.grade.clone();
    drawing.fill(
        Path::rect(x + 0.8, middle - 2.4, letters(&grade, 10.5) + 1.6, 4.8),
        Paint::White,
    );
    drawing.label(
        (x + 1.6, middle + 1.3),
        grade,
        10.5,
        Weight::Bold,
        Anchor::Start,
    );
    let lines = match rung.new.as_slice() {
        [only] => in_two(only),
        several => several.iter().take(2).cloned().collect(),
    };
    let too_long = |lines: &[String]| lines.iter().any(|line| line.chars().count() > IN_A_LINE);
    let lines: Vec<String> = match too_long(&lines) {
        true => lines.iter().map(|line| without_craft(line)).collect(),
        false => lines,
    };
    let points = if too_long(&lines) { 8.5 } else { 9.5 };
    for (i, line) in lines.iter().enumerate() {
        let y = line_height(middle, lines.len(), i);
        let Some(x) = form.new_left else { continue };
        let (weight, anchor) = (Weight::SemiBold, Anchor::Start);
        drawing.label((x, y), line.clone(), points, weight, anchor);
    }
    let end = (form.width - 0.8, middle + 1.3);
    if rung.largest {
        drawing.fill(
            Path::rect(form.width - 12.5, middle - 2.6, 12.5, 5.2),
            Paint::Buoy,
        );
        drawing.label_in(
            end,
            rung.step.clone(),
            10.0,
            Weight::Bold,
            Anchor::End,
            Paint::White,
        );
    } else {
        drawing.label_in(
            end,
            rung.step.clone(),
            10.0,
            Weight::Regular,
            Anchor::End,
            Paint::Text2,
        );
    }
}

/// The baseline of one of one or two lines.
fn line_height(middle: f64, lines: usize, line: usize) -> f64 {
    if lines > 1 {
        middle - 0.9 + 4.2 * line as f64
    } else {
        middle + 1.3
    }
}

/// Letters that a line of a column has room for.
const IN_A_LINE: usize = 22;

/// A name without what stands before a colon, its craft.
fn without_craft(name: &str) -> String {
    name.split_once(": ")
        .map_or_else(|| name.to_owned(), |(_, rest)| capital(rest))
}

/// Words too long for the column, in two lines.
fn in_two(words: &str) -> Vec<String> {
    if words.chars().count() <= IN_A_LINE {
        return vec![words.to_owned()];
    }
    let middle = words.len() / 2;
    let cut = words
        .match_indices(' ')
        .map(|(i, _)| i)
        .min_by_key(|i| i.abs_diff(middle));
    match cut.and_then(|i| Some((words.get(..i)?, words.get(i + 1..)?))) {
        Some((a, b)) => vec![a.to_owned(), b.to_owned()],
        None => vec![words.to_owned()],
    }
}

/// The fill of a part: solid, hatched, mid, level lines, dots; told apart without colour.
fn part_fill(drawing: &mut Drawing, part: Part, x: f64, y: f64, width: f64, height: f64) {
    let frame = Path::rect(x, y, width, height);
    let mut lines = Path::default();
    match part {
        Part::Floats => drawing.fill(frame.clone(), Paint::Estuary),
        Part::Reading => drawing.fill(frame.clone(), Paint::Mid),
        Part::Colours => {
            // Lines at 45°, clipped to the frame by arithmetic.
            let mut d = 0.7;
            while d < width + height {
                let (u0, u1) = ((d - height).max(0.0), d.min(width));
                if u1 > u0 {
                    lines.add_line(&[(x + u0, y + d - u0), (x + u1, y + d - u1)]);
                }
                d += 1.4;
            }
            drawing.line(lines, Stroke::new(Paint::Estuary, 0.42));
        }
        Part::Relief => {
            let mut v = 1.05;
            while v < height {
                lines.add_line(&[(x, y + v), (x + width, y + v)]);
                v += 1.05;
            }
            drawing.line(lines, Stroke::new(Paint::Estuary, 0.34));
        }
        Part::Handling => {
            let mut row = 0;
            let mut v = 0.7;
            while v < height - 0.3 {
                let mut u = if row % 2 == 0 { 0.55 } else { 1.1 };
                while u < width - 0.2 {
                    lines.add_circle(x + u, y + v, 0.24);
                    u += 1.1;
                }
                v += 0.85;
                row += 1;
            }
            drawing.fill(lines, Paint::Estuary);
        }
    }
    drawing.line(frame, Stroke::new(Paint::Estuary, 0.3));
}
