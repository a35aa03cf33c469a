//! A tube as it is worn: hat, cowl, headband or mitt, its bands in place.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::picture::courses::{DrawnCourse, Look, Stitches};
use crate::picture::{Anchor, Drawing, Paint, Path, Stroke, Weight, letters};

/// How much the middle of a round hangs below its ends, as a share of the radius.
const SAG: f64 = 0.07;

/// How far from the piece the measures beside it begin.
const BESIDE: f64 = 3.9;

/// How far a thumb leans out, in radians.
const LEAN: f64 = 0.42;
/// How deep a thumb's root lies in the hand, and how wide its tip is, as shares of half its own width.
const THUMB_ROOT: f64 = 0.9;
const THUMB_TIP: f64 = 0.92;

/// A tube to draw.
#[derive(Clone, Debug)]
pub struct Tube {
    /// Rounds from the edge upwards.
    pub courses: Vec<DrawnCourse>,
    /// Yarns and craft.
    pub look: Look,
    /// A thumb: its stitches, its length in millimetres, and how many rounds stand beneath it.
    pub thumb: Option<(f64, f64, usize)>,
    /// What is written beside it: how high it is, and how far round.
    pub height: String,
    /// See above.
    pub girth: String,
    /// What it shows.
    pub alt: String,
}

/// A round on the drawing: height of its lower and upper edge above the foot, and the radius at each.
struct Ring {
    low: f64,
    high: f64,
    below: f64,
    above: f64,
}

/// How far the outer corner of a thumb's tip lies from the middle of the hand that it leans out of.
fn thumb_reach(girth: f64, length: f64, radius: f64) -> f64 {
    let half = girth / (2.0 * PI);
    radius - THUMB_ROOT * half + LEAN.sin() * (length + half) + LEAN.cos() * THUMB_TIP * half
}

/// Draws a tube into a space, with its measures.
#[must_use]
pub fn tube(tube: &Tube, (width, height): (f64, f64)) -> Drawing {
    let rings = rings(&tube.courses);
    let hand = rings.last().map_or(1.0, |ring| ring.high).max(1.0);
    let wide = rings
        .iter()
        .map(|r| r.below.max(r.above))
        .fold(1.0, f64::max);
    // A thumb that leans out may reach higher than what is worked above its opening.
    let tip = tube.thumb.and_then(|(girth, length, beneath)| {
        let ring = rings.get(beneath.min(rings.len().saturating_sub(1)))?;
        Some(ring.low + length * LEAN.cos() + girth / 4.0)
    });
    let tall = hand.max(tip.unwrap_or(0.0));
    // Room right of it for the height, below it for the girth.
    let (right, foot) = ((BESIDE + letters(&tube.height, 8.5)).max(15.0), 7.5);
    let thumb_room = tube.thumb.map_or(0.0, |(girth, length, beneath)| {
        let ring = rings.get(beneath.min(rings.len().saturating_sub(1)));
        let radius = ring.map_or(0.0, |ring| ring.below);
        // A hair more, for half of its outline.
        (thumb_reach(girth, length, radius) - 0.98 * wide).max(0.0)
    });
    let scale = ((width - right) / (2.0 * wide + thumb_room))
        .min((height - foot) / (tall + SAG * wide * 2.0));
    let shown = 2.0 * wide * scale + thumb_room * scale + right;
    let below = letters(&tube.girth, 8.5);
    let shown = shown.max(below).min(width);
    let mut drawing = Drawing::new(shown, height, tube.alt.clone());
    let bottom = height - foot - SAG * wide * scale;
    let middle = wide * scale + thumb_room * scale;
    let at = Shape {
        middle,
        bottom,
        scale,
    };
    if let Some(thumb) = tube.thumb {
        at.thumb(&mut drawing, tube, &rings, thumb);
    }
    at.body(&mut drawing, tube, &rings);
    at.stitches(&mut drawing, tube, &rings);
    let outline = Stroke::new(Paint::Ink, 0.35);
    drawing.line(at.outline(&rings), outline);
    at.opening(&mut drawing, tube, &rings);
    // Measures: a line beside, a line below, each with its words.
    let x = middle + wide * scale + 2.5;
    let (top, low) = (bottom - hand * scale, bottom);
    let mut line = Path::line(&[(x, top), (x, low)]);
    for y in [top, low] {
        line.add_line(&[(x - 1.0, y), (x + 1.0, y)]);
    }
    drawing.line(line, Stroke::new(Paint::Ink, 0.25));
    let words = (x + BESIDE - 2.5, (top + low) / 2.0 + 1.1);
    drawing.label(
        words,
        tube.height.clone(),
        8.5,
        Weight::SemiBold,
        Anchor::Start,
    );
    // Below the middle, where a narrow piece leaves room for that.
    let words = (middle.max(below / 2.0), height - 0.8);
    drawing.label(
        words,
        tube.girth.clone(),
        8.5,
        Weight::SemiBold,
        Anchor::Middle,
    );
    drawing
}

/// Where each round lies: as high as it is, less what it leans inwards where the piece narrows.
fn rings(courses: &[DrawnCourse]) -> Vec<Ring> {
    let radii = radii(courses);
    let mut rings: Vec<Ring> = Vec::with_capacity(courses.len());
    let mut low = 0.0;
    for (i, course) in courses.iter().enumerate() {
        let above = radii.get(i).copied().unwrap_or(1.0);
        let below = rings.last().map_or(above, |ring| ring.above);
        // A rib and what follows it differ in girth, but neither lies flat there.
        let leans = if i > 0 && courses[i - 1].rib.is_none() && course.rib.is_none() {
            (below - above).abs()
        } else {
            0.0
        };
        let rise = (course.rise.powi(2) - leans.powi(2))
            .max((0.22 * course.rise).powi(2))
            .sqrt();
        rings.push(Ring {
            low,
            high: low + rise,
            below,
            above,
        });
        low += rise;
    }
    dome(&mut rings, courses);
    rings
}

/// How full a dome is: its radius falls with this power of the cosine.
const DOME: f64 = 0.86;

/// Rounds that narrow to a point lie on a dome: fabric evens out what its counts do in steps.
fn dome(rings: &mut [Ring], courses: &[DrawnCourse]) {
    let crown = crown_of(courses);
    let closed = courses
        .last()
        .is_some_and(|course| course.stitches <= CLOSED);
    let count = rings.len().saturating_sub(crown);
    let (Some(foot), Some(top)) = (rings.get(crown), rings.last()) else {
        return;
    };
    if !closed || count < 4 {
        return;
    }
    let (low, rise, radius) = (foot.low, top.high - foot.low, foot.below);
    let at = |i: usize| FRAC_PI_2 * i as f64 / count as f64;
    for (i, ring) in rings.iter_mut().skip(crown).enumerate() {
        let (from, to) = (at(i), at(i + 1));
        ring.low = low + rise * from.sin();
        ring.high = low + rise * to.sin();
        ring.below = radius * from.cos().max(0.0).powf(DOME);
        ring.above = radius * to.cos().max(0.0).powf(DOME);
    }
}

/// So few stitches are drawn together: the top is closed.
const CLOSED: usize = 16;

/// The first of the rounds that only narrow, to the top.
fn crown_of(courses: &[DrawnCourse]) -> usize {
    courses
        .windows(2)
        .rposition(|pair| pair[1].stitches > pair[0].stitches || pair[0].cells.len() > 1)
        .map_or(0, |at| at + 1)
}

/// The radius of each round. Where rounds narrow one after the other the fabric evens out what their counts do in steps.
fn radii(courses: &[DrawnCourse]) -> Vec<f64> {
    let plain: Vec<f64> = courses.iter().map(|c| c.girth() / (2.0 * PI)).collect();
    let crown = crown_of(courses);
    let even = |i: usize| {
        if i < crown {
            return plain[i];
        }
        let (from, to) = (i.saturating_sub(2).max(crown), (i + 3).min(plain.len()));
        let window = &plain[from..to];
        window.iter().sum::<f64>() / window.len().max(1) as f64
    };
    (0..plain.len()).map(even).collect()
}

/// Places of the drawing.
struct Shape {
    middle: f64,
    bottom: f64,
    scale: f64,
}

impl Shape {
    /// The place at a height, at this angle from the middle (-π/2 to π/2), on a radius.
    fn on(&self, height: f64, radius: f64, angle: f64) -> (f64, f64) {
        let sag = SAG * radius * angle.cos();
        (
            self.middle + radius * angle.sin() * self.scale,
            self.bottom - (height - sag) * self.scale,
        )
    }

    fn outline(&self, rings: &[Ring]) -> Path {
        let mut points: Vec<(f64, f64)> = Vec::new();
        let Some(first) = rings.first() else {
            return Path::default();
        };
        for step in 0..=16 {
            let angle = -FRAC_PI_2 + PI * f64::from(step) / 16.0;
            points.push(self.on(first.low, first.below, angle));
        }
        points.extend(
            rings
                .iter()
                .map(|ring| self.on(ring.high, ring.above, FRAC_PI_2)),
        );
        if let Some(last) = rings.last() {
            for step in 1..16 {
                let angle = FRAC_PI_2 - PI * f64::from(step) / 16.0;
                points.push(self.on(last.high, last.above, angle));
            }
        }
        points.extend(
            rings
                .iter()
                .rev()
                .map(|ring| self.on(ring.high, ring.above, -FRAC_PI_2)),
        );
        Path::polygon(&points)
    }

    fn body(&self, drawing: &mut Drawing, tube: &Tube, rings: &[Ring]) {
        drawing.fill(self.outline(rings), Paint::Yarn(tube.look.ground));
    }

    /// Every stitch on the half that faces us; purl columns of a rib lie in the shade.
    fn stitches(&self, drawing: &mut Drawing, tube: &Tube, rings: &[Ring]) {
        let mut stitches = Stitches::new(tube.look);
        let mut shade = Path::default();
        for (course, ring) in tube.courses.iter().zip(rings) {
            let field = course.field(tube.look.ground);
            if field != tube.look.ground {
                let one = std::slice::from_ref(ring);
                drawing.fill(self.outline(one), Paint::Yarn(field));
            }
            let half = course.stitches / 2;
            // The middle of the repeat stands in the middle of the piece.
            let shift = course.stitches + course.cells.len().div_ceil(2)
                - half / 2 % course.cells.len().max(1);
            for seen in 0..half {
                let Some(colour) = course.colour(seen + shift) else {
                    continue;
                };
                let step = PI / half as f64;
                // Stitch 1 is the right-most.
                let left = FRAC_PI_2 - step * (seen as f64 + 1.0);
                let place = |x: f64, y: f64| {
                    let height = ring.high - (ring.high - ring.low) * y;
                    let radius = ring.above + (ring.below - ring.above) * y.clamp(0.0, 1.0);
                    self.on(height, radius, left + step * x)
                };
                let purl = course
                    .rib
                    .is_some_and(|m| m > 0 && seen % m >= m.div_ceil(2));
                if purl {
                    let corners = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
                    let corners = corners.map(|(x, y)| place(x, y));
                    shade.0.extend(Path::polygon(&corners).0);
                } else {
                    stitches.add(colour, field, &place);
                }
            }
        }
        if !shade.0.is_empty() {
            drawing.fill(shade, tube.look.shade());
        }
        stitches.draw(drawing, 0.12);
    }

    /// The far edge of an open top, seen from a little above.
    fn opening(&self, drawing: &mut Drawing, tube: &Tube, rings: &[Ring]) {
        let Some(last) = rings
            .last()
            .filter(|ring| ring.above > 0.25 * ring.below.max(1.0))
        else {
            return;
        };
        if tube
            .courses
            .last()
            .is_some_and(|course| course.stitches <= CLOSED)
        {
            return;
        }
        let mut points = Vec::new();
        for step in 0..=16 {
            let angle = -FRAC_PI_2 + PI * f64::from(step) / 16.0;
            points.push(self.on(last.high, last.above, angle));
        }
        for step in 0..=16 {
            let angle = FRAC_PI_2 - PI * f64::from(step) / 16.0;
            let (x, y) = self.on(last.high, last.above, angle);
            let level = self.bottom - last.high * self.scale;
            points.push((x, 2.0 * level - y));
        }
        let path = Path::polygon(&points);
        drawing.fill(path.clone(), tube.look.shade());
        drawing.line(path, Stroke::new(Paint::Ink, 0.35));
    }

    /// A thumb at the left edge, leaning out.
    fn thumb(
        &self,
        drawing: &mut Drawing,
        tube: &Tube,
        rings: &[Ring],
        (girth, length, beneath): (f64, f64, usize),
    ) {
        let Some(ring) = rings.get(beneath.min(rings.len().saturating_sub(1))) else {
            return;
        };
        let (half, lean) = (girth / (2.0 * PI) * self.scale, LEAN);
        let (x, y) = self.on(ring.low, ring.below, -FRAC_PI_2);
        let (dx, dy) = (-lean.sin(), -lean.cos());
        let start = (x + half * THUMB_ROOT, y - half * 0.4);
        let reach = length * self.scale + half;
        let corner = |along: f64, side: f64| {
            (
                start.0 + dx * along - dy * side,
                start.1 + dy * along + dx * side,
            )
        };
        let path = Path::polygon(&[
            corner(0.0, -half),
            corner(reach, -half * THUMB_TIP),
            corner(reach, half * THUMB_TIP),
            corner(0.0, half),
        ]);
        drawing.fill(path.clone(), Paint::Yarn(tube.look.ground));
        // Its stitches: as many as its girth and length hold.
        let course = tube
            .courses
            .get(beneath.min(tube.courses.len().saturating_sub(1)));
        let (pitch, rise) = course.map_or((5.0, 4.0), |c| (c.pitch, c.rise));
        let columns = (girth / pitch / 2.0).round().max(1.0);
        let rounds = (length / rise).round().max(1.0);
        let mut stitches = Stitches::new(tube.look);
        for round in 0..rounds as usize {
            for column in 0..columns as usize {
                let place = |x: f64, y: f64| {
                    let along = reach * (round as f64 + 1.0 - y) / rounds;
                    let width = half * (1.0 - (1.0 - THUMB_TIP) * along / reach);
                    let angle = PI * ((column as f64 + x) / columns - 0.5);
                    corner(along, width * angle.sin())
                };
                stitches.add(tube.look.ground, tube.look.ground, &place);
            }
        }
        stitches.draw(drawing, 0.12);
        drawing.line(path, Stroke::new(Paint::Ink, 0.35));
    }
}
