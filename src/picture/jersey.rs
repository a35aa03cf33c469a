//! A jersey laid flat: body, sleeves and yoke in outline, bands in their places, measures beside.

use crate::picture::courses::{DrawnCourse, Look, Stitches};
use crate::picture::{Anchor, Drawing, Paint, Path, Point, Stroke, Weight, letters};

/// A jersey to draw; lengths in millimetres of the real thing.
#[derive(Clone, Debug)]
pub struct JerseyShape {
    /// Girth of the body, of the upper sleeve, of the cuff, and of the neck.
    pub girths: [f64; 4],
    /// Hem to underarm, cuff to underarm, depth of the yoke.
    pub lengths: [f64; 3],
    /// Height of the ribs at hem and cuff, and at the neck.
    pub ribs: (f64, f64),
    /// Rounds of the yoke from the join up.
    pub courses: Vec<DrawnCourse>,
    /// Yarns and craft.
    pub look: Look,
    /// What is written beside: chest, body, sleeve, yoke, neck.
    pub words: [String; 5],
    /// What it shows.
    pub alt: String,
}

/// The direction of a sleeve from the underarm outwards and down, and across it; sleeves hang at an angle.
const DOWN: (f64, f64) = (0.62, 0.78);
const UP: (f64, f64) = (0.78, 0.62);

/// Draws a jersey into a space.
#[must_use]
pub fn jersey_shape(jersey: &JerseyShape, (width, height): (f64, f64)) -> Drawing {
    let [chest, upper, cuff, neck] = jersey.girths.map(|girth| girth / 2.0);
    let [body, sleeve, yoke] = jersey.lengths;
    let (half, throat) = (chest / 2.0, neck / 2.0);
    // Where a sleeve's upper edge meets the yoke, seen from the underarm; and where its cuff ends.
    let reach = (half + upper * UP.0, body + upper * UP.1);
    let side = half + sleeve * DOWN.0 + cuff * UP.0;
    let tall = body + yoke + jersey.ribs.1;
    let (top_room, foot) = (5.0, 6.5);
    let scale = (width / (2.0 * side)).min((height - top_room - foot) / tall);
    let bottom = top_room + tall * scale;
    let mut drawing = Drawing::new(2.0 * side * scale, bottom + foot, jersey.alt.clone());
    let at = |x: f64, y: f64| ((side + x) * scale, bottom - y * scale);
    let line = Stroke::new(Paint::Ink, 0.4);
    let thin = Stroke::new(jersey.look.shade(), 0.3);
    let ground = Paint::Yarn(jersey.look.ground);
    for mirror in [-1.0, 1.0] {
        let low = (half + sleeve * DOWN.0, body - sleeve * DOWN.1);
        let high = (low.0 + cuff * UP.0, low.1 + cuff * UP.1);
        let corners = [(half, body), low, high, reach].map(|(x, y)| at(x * mirror, y));
        let path = Path::polygon(&corners);
        drawing.fill(path.clone(), ground);
        drawing.line(path, line);
        let share = (jersey.ribs.0 / sleeve.max(1.0)).min(0.4);
        let near =
            |a: (f64, f64), b: (f64, f64)| (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share);
        let (a, b) = (near(low, (half, body)), near(high, reach));
        let rib = [at(a.0 * mirror, a.1), at(b.0 * mirror, b.1)];
        drawing.line(Path::line(&rib), thin);
    }
    let trunk = [(-half, 0.0), (half, 0.0), (half, body), (-half, body)];
    let trunk = Path::polygon(&trunk.map(|(x, y)| at(x, y)));
    drawing.fill(trunk.clone(), ground);
    drawing.line(trunk, line);
    // Between the underarms and the lowest round of the yoke there is fabric, too.
    let under = [
        (-reach.0, reach.1),
        (-half, body),
        (half, body),
        (reach.0, reach.1),
    ];
    drawing.fill(Path::polygon(&under.map(|(x, y)| at(x, y))), ground);
    // A place of the yoke: a share of its depth, and how far from its middle, from -1 to 1: rounds go from sleeve to
    // sleeve, lower in the middle.
    let on_yoke = |share: f64, along: f64| {
        let end = (
            reach.0 + (throat - reach.0) * share,
            reach.1 + (body + yoke - reach.1) * share,
        );
        let middle = body + yoke * share;
        at(end.0 * along, middle + (end.1 - middle) * along * along)
    };
    let edge = |share: f64| (-8..=8).map(move |i| on_yoke(share, f64::from(i) / 8.0));
    let corners: Vec<Point> = edge(0.0).chain(edge(1.0).rev()).collect();
    let whole = Path::polygon(&corners);
    drawing.fill(whole.clone(), ground);
    stitches(&mut drawing, jersey, &on_yoke);
    drawing.line(whole, line);
    let collar = [
        (-throat, body + yoke),
        (throat, body + yoke),
        (throat, tall),
        (-throat, tall),
    ];
    let collar = Path::polygon(&collar.map(|(x, y)| at(x, y)));
    drawing.fill(collar.clone(), ground);
    drawing.line(collar, line);
    let hem = jersey.ribs.0;
    drawing.line(Path::line(&[at(-half, hem), at(half, hem)]), thin);
    measures(&mut drawing, jersey, &at, (half, body, yoke, tall));
    drawing
}

/// Every stitch of the yoke on the half that faces us.
fn stitches(drawing: &mut Drawing, jersey: &JerseyShape, on_yoke: &dyn Fn(f64, f64) -> Point) {
    let mut stitches = Stitches::new(jersey.look);
    let rounds = jersey.courses.len().max(1) as f64;
    for (i, course) in jersey.courses.iter().enumerate() {
        let half = (course.stitches / 2).max(1);
        // The middle of the repeat stands in the middle of the front.
        let shift =
            course.stitches + course.cells.len().div_ceil(2) - half / 2 % course.cells.len().max(1);
        for seen in 0..half {
            let Some(colour) = course.colour(seen + shift) else {
                continue;
            };
            let place = |x: f64, y: f64| {
                let along = 1.0 - 2.0 * (seen as f64 + 1.0 - x) / half as f64;
                on_yoke((i as f64 + 1.0 - y) / rounds, along)
            };
            stitches.add(colour, jersey.look.ground, &place);
        }
    }
    stitches.draw(drawing, 0.08);
}

fn measures(
    drawing: &mut Drawing,
    jersey: &JerseyShape,
    at: &dyn Fn(f64, f64) -> (f64, f64),
    (half, body, yoke, tall): (f64, f64, f64, f64),
) {
    let [chest, length, sleeve, depth, neck] = &jersey.words;
    let (size, bold) = (8.5, Weight::SemiBold);
    let (x, y) = at(0.0, 0.0);
    drawing.label((x, y + 4.6), chest.clone(), size, bold, Anchor::Middle);
    let arm = at(
        half + jersey.lengths[1] * 0.42,
        body - jersey.lengths[1] * 0.34,
    );
    let (arm_left, arm) = words_on(drawing, arm, sleeve);
    let (x, y) = at(0.0, body * 0.5);
    // Long words of a small jersey stand below those of its sleeve.
    let beside = x + patch(length) / 2.0 < arm_left;
    let y = if beside { y } else { y.max(arm + 5.0) };
    words_on(drawing, (x, y), length);
    let (x, y) = at(0.0, body + yoke * 0.3);
    words_on(drawing, (x, y), depth);
    let (x, y) = at(0.0, tall);
    drawing.label((x, y - 1.4), neck.clone(), size, bold, Anchor::Middle);
}

/// How wide the patch of some words is.
fn patch(text: &str) -> f64 {
    letters(text, 8.5) + 1.6
}

/// Words on a white patch within the drawing, so that they read on any yarn: where the patch begins, and how high they are.
fn words_on(drawing: &mut Drawing, (x, y): (f64, f64), text: &str) -> (f64, f64) {
    let wide = patch(text);
    let x = x.min(drawing.width - wide / 2.0);
    drawing.fill(Path::rect(x - wide / 2.0, y - 2.2, wide, 4.4), Paint::White);
    drawing.label((x, y + 1.1), text, 8.5, Weight::SemiBold, Anchor::Middle);
    (x - wide / 2.0, y)
}
