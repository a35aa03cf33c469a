//! Worked fabric at life size, each stitch two leaves that meet at its foot.

use crate::course::Units;
use crate::ground::colour::{Rgb, darker};
use crate::ground::units::{Length, plain_number};
use crate::picture::{Anchor, Drawing, Paint, Path, Point, Seg, Shape, Stroke, Weight};
use crate::words::length_text;

/// A stretch of fabric to draw.
#[derive(Clone, Debug)]
pub struct Fabric {
    /// Rows from the bottom; each holds the colours of one repeat from stitch 1 on, `None` where no stitch stands.
    pub rows: Vec<Vec<Option<Rgb>>>,
    /// The main yarn, seen between the stitches.
    pub ground: Rgb,
    /// Width of a stitch in millimetres.
    pub pitch: f64,
    /// Height of a row in millimetres.
    pub rise: f64,
    /// What it shows.
    pub alt: String,
}

/// The left leaf in a cell of 1, y down; the right one is its mirror.
pub(super) fn leaf(mirrored: bool) -> Path {
    let x = |x: f64| if mirrored { 1.0 - x } else { x };
    Path(vec![
        Seg::Move((0.5, 1.10)),
        Seg::Curve((x(0.24), 0.94), (x(0.03), 0.52), (x(0.03), 0.12)),
        Seg::Curve((x(0.03), -0.12), (x(0.14), -0.24), (x(0.24), -0.12)),
        Seg::Curve((x(0.38), 0.12), (0.5, 0.46), (0.5, 1.10)),
        Seg::Close,
    ])
}

/// Room for the ruler under fabric, in millimetres.
const RULER: f64 = 7.5;

/// Draws fabric with a ruler of stitches under it, as wide as `room` allows; where it is too high for it at life size,
/// smaller. Also how large it is, life size being 1.
#[must_use]
pub fn fabric(fabric: &Fabric, units: Units, (width, height): (f64, f64)) -> (Drawing, f64) {
    let life = fabric.rise * (fabric.rows.len() as f64 + OVER);
    let scale = ((height - RULER) / life).min(1.0);
    let scaled = Fabric {
        pitch: fabric.pitch * scale,
        rise: fabric.rise * scale,
        ..fabric.clone()
    };
    let stitches = (width / scaled.pitch + 1e-9).floor().max(1.0) as usize;
    let mut drawing = cloth(&scaled, stitches);
    let size = (drawing.width, drawing.height);
    drawing.height += RULER;
    ruler(&mut drawing, (&scaled, stitches), size, (units, scale));
    (drawing, scale)
}

/// What the top row stands out above its cell.
const OVER: f64 = 0.35;

/// Draws fabric alone, so many stitches wide.
#[must_use]
pub fn cloth(fabric: &Fabric, stitches: usize) -> Drawing {
    let (w, h) = (fabric.pitch, fabric.rise);
    let width = w * stitches as f64;
    let height = h * (fabric.rows.len() as f64 + OVER);
    let mut drawing = Drawing::new(width, height, fabric.alt.clone());
    drawing.fill(
        Path::rect(0.0, 0.0, width, height),
        Paint::Yarn(darker(fabric.ground, 0.38)),
    );
    let mut bare = Path::default();
    for (i, row) in fabric.rows.iter().enumerate() {
        let top = height - h * (i as f64 + 1.1);
        let places = |of: Option<Rgb>| -> Vec<Point> {
            (0..stitches)
                .filter(|s| {
                    row.get(s % row.len().max(1))
                        .is_some_and(|cell| *cell == of)
                })
                .map(|s| (width - w * (s as f64 + 1.0), top))
                .collect()
        };
        for colour in colours_of(row) {
            let places = places(Some(colour));
            let outline = Stroke::new(Paint::Yarn(darker(colour, 0.43)), (0.04 * w).min(0.16));
            let mut path = leaf(false);
            path.0.extend(leaf(true).0);
            drawing.shapes.push(Shape::Stamps {
                path,
                fill: Some(Paint::Yarn(colour)),
                outline: Some(outline),
                at: places,
                scale: (w, h),
            });
        }
        // Where no stitch stands is paper.
        for (x, y) in places(None) {
            bare.add_rect(x, y - 0.02 * h, w, h * 1.04);
        }
    }
    if !bare.0.is_empty() {
        drawing.fill(bare, Paint::White);
    }
    drawing
}

fn colours_of(row: &[Option<Rgb>]) -> Vec<Rgb> {
    let mut found: Vec<Rgb> = Vec::new();
    for colour in row.iter().flatten() {
        if !found.contains(colour) {
            found.push(*colour);
        }
    }
    found
}

/// A tick for each stitch, a figure at each fifth; at life size the last says how long that is.
fn ruler(
    drawing: &mut Drawing,
    (fabric, stitches): (&Fabric, usize),
    (width, height): (f64, f64),
    (units, scale): (Units, f64),
) {
    let y = height + 1.2;
    let mut ticks = Path::line(&[(0.0, y), (width, y)]);
    // Figures need room: in a small picture each tenth or twentieth has one.
    let roomy = |step: &usize| fabric.pitch * *step as f64 >= 19.0;
    let step = [5, 10, 20].into_iter().find(roomy).unwrap_or(40);
    let last = stitches - stitches % step;
    for stitch in 0..=stitches {
        let x = fabric.pitch * stitch as f64;
        let tall = if stitch % 5 == 0 { 2.2 } else { 1.2 };
        ticks.add_line(&[(x, y), (x, y + tall)]);
        if stitch % step != 0 {
            continue;
        }
        let (anchor, text) = match stitch {
            0 => (Anchor::Start, "0".to_owned()),
            s if s == step => (Anchor::Middle, format!("{s} stitches")),
            s if s == last && scale >= 1.0 => {
                // Room for one length only.
                let long = fabric.pitch * s as f64;
                let length = match units {
                    Units::Imperial => length_text(Length::mm(long), units),
                    Units::Metric | Units::Both => format!("{} cm", plain_number(long / 10.0, 1)),
                };
                (Anchor::End, format!("{s} = {length}"))
            }
            s => (Anchor::Middle, s.to_string()),
        };
        drawing.label((x, y + 5.6), text, 8.5, Weight::Regular, anchor);
    }
    drawing.line(ticks, Stroke::new(Paint::Ink, 0.25));
}
