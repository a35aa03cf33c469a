//! A register to write in: a line a learner, a box a lesson.

use crate::picture::{Anchor, Drawing, Paint, Path, Stroke, Weight, letters};
use crate::words::labels::REGISTER_HEAD;
use crate::words::pictures::register_alt;

const WIDTH: f64 = 180.0;
/// Widths of the columns for name, size and colours, and the most that long names and sizes widen theirs to.
const COLUMNS: [f64; 3] = [46.0, 34.0, 28.0];
const WIDEST: [f64; 2] = [64.0, 48.0];

/// How large it is drawn.
struct Scale {
    /// A line that can be written on, and the head.
    line: f64,
    head: f64,
    /// Type of heads and of names.
    type_sizes: (f64, f64),
    /// Lines that a page holds.
    most: usize,
}

const ORDINARY: Scale = Scale {
    line: 8.0,
    head: 6.0,
    type_sizes: (8.5, 9.5),
    most: 26,
};
const LARGE: Scale = Scale {
    line: 12.0,
    head: 9.0,
    type_sizes: (16.0, 16.0),
    most: 17,
};

/// The register in parts that fit a page: names and sizes where they are known, so many boxes.
#[must_use]
pub fn register(lines: &[(String, String)], lessons: usize, large: bool) -> Vec<Drawing> {
    let scale = if large { LARGE } else { ORDINARY };
    let parts = lines.chunks(scale.most);
    parts.map(|part| one(part, lessons, &scale)).collect()
}

/// Right edges of the columns: each as wide as its words are in the least type.
fn columns(lines: &[(String, String)], least: f64) -> [f64; 3] {
    let longest = |of: fn(&(String, String)) -> &String| {
        let each = lines.iter().map(|line| letters(of(line), least));
        each.fold(0.0, f64::max) + 2.0
    };
    let [name, size, colours] = COLUMNS;
    let name = longest(|line| &line.0).clamp(name, WIDEST[0]);
    let size = longest(|line| &line.1).clamp(size, WIDEST[1]);
    [name, name + size, name + size + colours]
}

fn one(lines: &[(String, String)], lessons: usize, scale: &Scale) -> Drawing {
    let Scale { line, head, .. } = *scale;
    let (heads, names) = scale.type_sizes;
    let height = head + line * lines.len() as f64 + 0.3;
    let mut drawing = Drawing::new(WIDTH, height, register_alt(lines, lessons));
    let columns = columns(lines, heads);
    let starts = [0.0, columns[0], columns[1]];
    for (x, title) in starts.into_iter().zip(REGISTER_HEAD) {
        let at = (x + 1.0, head - 1.6);
        drawing.label(at, title, heads, Weight::SemiBold, Anchor::Start);
    }
    let [.., first] = columns;
    let pitch = (WIDTH - first) / lessons.max(1) as f64;
    for lesson in 0..lessons {
        // Of very many every fifth has its number.
        if lessons <= if heads > 10.0 { 10 } else { 20 } || (lesson + 1) % 5 == 0 {
            let at = (first + pitch * (lesson as f64 + 0.5), head - 1.6);
            let number = (lesson + 1).to_string();
            drawing.label(at, number, heads, Weight::SemiBold, Anchor::Middle);
        }
    }
    let mut thin = Path::default();
    for (i, (name, size)) in lines.iter().enumerate() {
        let foot = head + line * (i as f64 + 1.0);
        thin.add_line(&[(0.0, foot), (WIDTH, foot)]);
        for (x, to, text) in [(0.0, columns[0], name), (columns[0], columns[1], size)] {
            if !text.is_empty() {
                let fits = (to - x - 2.0) / letters(text, 1.0);
                let names = names.min(fits);
                let at = (x + 1.0, foot - 0.3 * line);
                drawing.label(at, text.as_str(), names, Weight::Regular, Anchor::Start);
            }
        }
    }
    let uprights = columns
        .into_iter()
        .chain((1..lessons).map(|n| first + pitch * n as f64));
    for x in uprights {
        thin.add_line(&[(x, 0.6), (x, height - 0.3)]);
    }
    drawing.line(thin, Stroke::new(Paint::Rule, 0.2));
    drawing.line(
        Path::line(&[(0.0, head), (WIDTH, head)]),
        Stroke::new(Paint::Ink, 0.5),
    );
    drawing
}
