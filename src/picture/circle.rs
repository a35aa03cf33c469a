//! A circular yoke seen from above, every stitch of it: rounds from the outer edge to the neck.

use std::f64::consts::PI;

use crate::picture::courses::{DrawnCourse, Look, Stitches};
use crate::picture::{Anchor, Drawing, Paint, Path, Point, Stroke, Weight, letters};
use crate::words::pictures::{BACK, FRONT};

/// A yoke to draw.
#[derive(Clone, Debug)]
pub struct YokeCircle {
    /// Rounds from the join inwards.
    pub courses: Vec<DrawnCourse>,
    /// Yarns and craft.
    pub look: Look,
    /// Stitches of the back at the join.
    pub back: usize,
    /// Words in the neck.
    pub neck: String,
    /// What it shows.
    pub alt: String,
}

/// Draws a yoke of this diameter, back at the top, front at the bottom; with words of so many points in its neck, or
/// without. A picture, not to scale: rounds lie closer than they are knitted.
#[must_use]
pub fn yoke_circle(yoke: &YokeCircle, diameter: f64, points: Option<f64>) -> Drawing {
    let outer = diameter / 2.0;
    let middle = (outer, outer);
    let mut drawing = Drawing::new(diameter, diameter, yoke.alt.clone());
    let rounds = yoke.courses.len().max(1) as f64;
    let count = |course: Option<&DrawnCourse>| course.map_or(1, |c| c.stitches).max(1);
    let (first, last) = (count(yoke.courses.first()), count(yoke.courses.last()));
    let inner = outer * (last as f64 / first as f64).clamp(0.28, 0.6);
    let step = (outer - inner) / rounds;
    let look = yoke.look;
    let (cx, cy) = middle;
    drawing.fill(Path::circle(cx, cy, outer), Paint::Yarn(look.ground));
    pattern(&mut drawing, yoke, middle, (outer, step));
    drawing.fill(Path::circle(cx, cy, inner), Paint::White);
    for r in [inner, outer - 0.15] {
        drawing.line(Path::circle(cx, cy, r), Stroke::new(look.shade(), 0.3));
    }
    if let Some(points) = points {
        words(&mut drawing, yoke, (middle, inner), points);
    }
    drawing
}

/// The angle, clockwise from the top, at which rounds begin: after the back, before the first sleeve.
fn start(yoke: &YokeCircle) -> f64 {
    let all = yoke.courses.first().map_or(1, |c| c.stitches).max(1);
    PI * yoke.back as f64 / all as f64
}

fn pattern(drawing: &mut Drawing, yoke: &YokeCircle, (cx, cy): Point, (edge, step): (f64, f64)) {
    let mut stitches = Stitches::new(yoke.look);
    let start = start(yoke);
    for (i, course) in yoke.courses.iter().enumerate() {
        let outer = edge - step * i as f64;
        let wide = 2.0 * PI / course.stitches.max(1) as f64;
        let field = course.field(yoke.look.ground);
        if field != yoke.look.ground {
            drawing.fill(Path::circle(cx, cy, outer), Paint::Yarn(field));
            let ground = Paint::Yarn(yoke.look.ground);
            drawing.fill(Path::circle(cx, cy, outer - step), ground);
        }
        for stitch in 0..course.stitches {
            let Some(colour) = course.colour(stitch) else {
                continue;
            };
            // Seen from above the next stitch lies clockwise; the foot of each points outwards.
            let place = |x: f64, y: f64| {
                let angle = start + wide * (stitch as f64 + 1.0 - x);
                let r = outer - step * (1.0 - y);
                (cx + r * angle.sin(), cy - r * angle.cos())
            };
            stitches.add(colour, field, &place);
        }
    }
    stitches.draw(drawing, 0.0012 * edge);
}

fn words(drawing: &mut Drawing, yoke: &YokeCircle, ((cx, cy), inner): (Point, f64), size: f64) {
    // How much larger than in ordinary print.
    let grow = size / 9.0;
    let bold = Weight::SemiBold;
    for (dy, text) in [(-6.0 * grow, BACK), (8.4 * grow, FRONT)] {
        let place = (cx, cy + dy);
        drawing.label_in(place, text, size, bold, Anchor::Middle, Paint::Text2);
    }
    // In two lines where the neck is too narrow for one.
    let line = 0.42 * size;
    let lines = match yoke.neck.split_once(": ") {
        Some((name, count)) if letters(&yoke.neck, size) > 1.9 * inner => {
            vec![
                (1.2 - line / 2.0, format!("{name}:")),
                (1.2 + line / 2.0, count.to_owned()),
            ]
        }
        _ => vec![(1.2, yoke.neck.clone())],
    };
    for (dy, text) in lines {
        drawing.label((cx, cy + dy), text, size, Weight::Bold, Anchor::Middle);
    }
}
