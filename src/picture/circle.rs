//! A circular yoke seen from above: rounds from the outer edge to the neck, its narrowings lettered.

use std::collections::BTreeMap;
use std::f64::consts::PI;

use crate::ground::colour::{Rgb, darker};
use crate::picture::courses::{DrawnCourse, Look, add_stitch};
use crate::picture::{Anchor, Drawing, Paint, Path, Stroke, Weight};
use crate::words::pictures::{BACK, FIRST_SLEEVE, FRONT, OTHER_SLEEVE, START_HERE};

/// The radius of the outer edge, and room above it, in millimetres.
const OUTER: f64 = 78.0;
const TOP: f64 = 7.0;

/// A yoke to draw.
#[derive(Clone, Debug)]
pub struct YokeCircle {
    /// Rounds from the join inwards.
    pub courses: Vec<DrawnCourse>,
    /// Yarns and craft.
    pub look: Look,
    /// Letters of the narrowings, and how many rounds lie outside each.
    pub narrowings: Vec<(char, usize)>,
    /// Stitches of the back at the join.
    pub back: usize,
    /// Words in the neck.
    pub neck: String,
    /// What it shows.
    pub alt: String,
}

/// Draws a yoke with words of `points`, back at the top, front at the bottom. A picture, not to scale: rounds lie closer than they are knitted.
#[must_use]
pub fn yoke_circle(yoke: &YokeCircle, points: f64) -> Drawing {
    let width = 2.0 * OUTER + 24.0;
    let (cx, cy) = (width / 2.0, TOP + OUTER);
    let mut drawing = Drawing::new(width, TOP + 2.0 * OUTER + 1.0, yoke.alt.clone());
    let rounds = yoke.courses.len().max(1) as f64;
    let (first, last) = (
        yoke.courses.first().map_or(1, |c| c.stitches).max(1),
        yoke.courses.last().map_or(1, |c| c.stitches),
    );
    let inner = OUTER * (last as f64 / first as f64).clamp(0.28, 0.6);
    let step = (OUTER - inner) / rounds;
    let look = yoke.look;
    drawing.fill(Path::circle(cx, cy, OUTER), look.body());
    // Rounds of the ground as faint rings, so that the plain stretches read as knitting.
    let mut faint = Path::default();
    for ring in 1..yoke.courses.len() {
        faint.add_circle(cx, cy, OUTER - step * ring as f64);
    }
    let shade = if look.black {
        Paint::Hair
    } else {
        Paint::Yarn(darker(look.ground, 0.16))
    };
    drawing.line(faint, Stroke::new(shade, 0.12));
    pattern(&mut drawing, yoke, (cx, cy), step);
    for paint in [Paint::White, Paint::Buoy] {
        for (_, beneath) in &yoke.narrowings {
            let r = OUTER - step * (*beneath as f64 + 0.5);
            let mut stroke = Stroke::new(paint, if paint == Paint::White { 1.1 } else { 0.45 });
            if paint == Paint::Buoy {
                stroke.dash = Some((2.0, 1.2));
            }
            drawing.line(Path::circle(cx, cy, r), stroke);
        }
    }
    drawing.fill(Path::circle(cx, cy, inner), Paint::White);
    for r in [inner, OUTER] {
        drawing.line(Path::circle(cx, cy, r), Stroke::new(Paint::Ink, 0.35));
    }
    words(&mut drawing, yoke, (cx, cy), (step, points));
    drawing
}

/// The angle, clockwise from the top, at which rounds begin: after the back, before the first sleeve.
fn start(yoke: &YokeCircle) -> f64 {
    let all = yoke.courses.first().map_or(1, |c| c.stitches).max(1);
    PI * yoke.back as f64 / all as f64
}

fn pattern(drawing: &mut Drawing, yoke: &YokeCircle, (cx, cy): (f64, f64), step: f64) {
    let mut paths: BTreeMap<Rgb, Path> = BTreeMap::new();
    let start = start(yoke);
    for (i, course) in yoke.courses.iter().enumerate() {
        let outer = OUTER - step * i as f64;
        let wide = 2.0 * PI / course.stitches.max(1) as f64;
        for stitch in 0..course.stitches {
            let Some(colour) = course.colour(stitch).filter(|c| *c != yoke.look.ground) else {
                continue;
            };
            // Seen from above the next stitch lies clockwise; the foot of each points outwards.
            let place = |x: f64, y: f64| {
                let angle = start + wide * (stitch as f64 + 1.0 - x);
                let r = outer - step * (1.0 - y);
                (cx + r * angle.sin(), cy - r * angle.cos())
            };
            add_stitch(paths.entry(colour).or_default(), yoke.look.leaves, &place);
        }
    }
    for (colour, path) in paths {
        drawing.fill(path, yoke.look.stitch(colour));
    }
}

fn words(drawing: &mut Drawing, yoke: &YokeCircle, (cx, cy): (f64, f64), (step, size): (f64, f64)) {
    // How much larger than in ordinary print.
    let grow = size / 9.0;
    let at = |angle: f64, r: f64| (cx + r * angle.sin(), cy - r * angle.cos());
    // Where rounds begin: a wedge outside the edge.
    let start = start(yoke);
    let (tip, base) = (at(start, OUTER + 0.6), OUTER + 3.6);
    let spread = 1.5 / base;
    let wedge = Path::polygon(&[tip, at(start - spread, base), at(start + spread, base)]);
    drawing.fill(wedge, Paint::Ink);
    let (_, y) = at(start, base);
    let bold = Weight::SemiBold;
    for (line, text) in START_HERE.into_iter().enumerate() {
        let y = y - (6.4 - 3.8 * line as f64) * grow;
        drawing.label((drawing.width, y), text, size, bold, Anchor::End);
    }
    for (letter, beneath) in &yoke.narrowings {
        let number = yoke
            .narrowings
            .iter()
            .position(|(l, _)| l == letter)
            .unwrap_or(0);
        let angle = 0.72 * PI + 0.055 * grow * number as f64;
        let (x, y) = at(angle, OUTER - step * (*beneath as f64 + 0.5));
        drawing.fill(Path::circle(x, y, 2.5 * grow), Paint::White);
        drawing.line(
            Path::circle(x, y, 2.5 * grow),
            Stroke::new(Paint::Buoy, 0.4),
        );
        let place = (x, y + 1.15 * grow);
        drawing.label_in(
            place,
            letter.to_string(),
            size,
            Weight::Bold,
            Anchor::Middle,
            Paint::Buoy,
        );
    }
    for (dy, text) in [(-8.0 * grow, BACK), (10.5 * grow, FRONT)] {
        let place = (cx, cy + dy);
        drawing.label_in(place, text, size, bold, Anchor::Middle, Paint::Text2);
    }
    drawing.label(
        (cx, cy + 1.4),
        yoke.neck.clone(),
        size + 1.0,
        Weight::Bold,
        Anchor::Middle,
    );
    for (x, anchor, text) in [
        (cx + OUTER + 11.0, Anchor::End, FIRST_SLEEVE),
        (cx - OUTER - 11.0, Anchor::Start, OTHER_SLEEVE),
    ] {
        let side = if anchor == Anchor::End { 1.0 } else { -1.0 };
        let y = cy + OUTER * 0.86;
        drawing.label((x, y), text, size, bold, anchor);
        let edge = at(side * 0.62 * PI, OUTER + 0.4);
        drawing.line(
            Path::line(&[(x - side * 5.0, y - 4.0), edge]),
            Stroke::new(Paint::Rule, 0.25),
        );
    }
}
