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
    /// How wide the picture is, in whole stitches.
    pub stitches: usize,
    /// What it shows.
    pub alt: String,
}

/// The left leaf in a cell of 1, y down; the right one is its mirror.
fn leaf(mirrored: bool) -> Path {
    let x = |x: f64| if mirrored { 1.0 - x } else { x };
    Path(vec![
        Seg::Move((0.5, 1.10)),
        Seg::Curve((x(0.24), 0.94), (x(0.03), 0.52), (x(0.03), 0.12)),
        Seg::Curve((x(0.03), -0.12), (x(0.14), -0.24), (x(0.24), -0.12)),
        Seg::Curve((x(0.38), 0.12), (0.5, 0.46), (0.5, 1.10)),
        Seg::Close,
    ])
}

/// Draws fabric with a ruler of stitches under it.
#[must_use]
pub fn fabric(fabric: &Fabric, units: Units) -> Drawing {
    let mut drawing = cloth(fabric);
    let (width, height) = (drawing.width, drawing.height);
    drawing.height += 7.5;
    ruler(&mut drawing, fabric, (width, height), units);
    drawing
}

/// Draws fabric alone.
#[must_use]
pub fn cloth(fabric: &Fabric) -> Drawing {
    let (w, h) = (fabric.pitch, fabric.rise);
    let width = w * fabric.stitches as f64;
    let height = h * (fabric.rows.len() as f64 + 0.35);
    let mut drawing = Drawing::new(width, height, fabric.alt.clone());
    drawing.fill(
        Path::rect(0.0, 0.0, width, height),
        Paint::Yarn(darker(fabric.ground, 0.38)),
    );
    for (i, row) in fabric.rows.iter().enumerate() {
        let top = height - h * (i as f64 + 1.1);
        for colour in colours_of(row) {
            let places: Vec<Point> = (0..fabric.stitches)
                .filter(|s| row.get(s % row.len().max(1)).copied().flatten() == Some(colour))
                .map(|s| (width - w * (s as f64 + 1.0), top))
                .collect();
            let outline = Stroke::new(Paint::Yarn(darker(colour, 0.43)), (0.04 * w).min(0.16));
            for mirrored in [false, true] {
                drawing.shapes.push(Shape::Stamps {
                    path: leaf(mirrored),
                    fill: Some(Paint::Yarn(colour)),
                    outline: Some(outline),
                    at: places.clone(),
                    scale: (w, h),
                });
            }
        }
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

/// A tick for each stitch, a figure at each fifth.
fn ruler(drawing: &mut Drawing, fabric: &Fabric, (width, height): (f64, f64), units: Units) {
    let y = height + 1.2;
    let mut ticks = Path::line(&[(0.0, y), (width, y)]);
    for stitch in 0..=fabric.stitches {
        let x = fabric.pitch * stitch as f64;
        let tall = if stitch % 5 == 0 { 2.2 } else { 1.2 };
        ticks.add_line(&[(x, y), (x, y + tall)]);
        if stitch % 5 != 0 {
            continue;
        }
        let (anchor, text) = match stitch {
            0 => (Anchor::Start, "0".to_owned()),
            5 => (Anchor::Middle, "5 stitches".to_owned()),
            s if s == fabric.stitches => {
                // Room for one length only.
                let length = match units {
                    Units::Imperial => length_text(Length::mm(width), units),
                    Units::Metric | Units::Both => format!("{} cm", plain_number(width / 10.0, 1)),
                };
                (Anchor::End, format!("{s} = {length}"))
            }
            s => (Anchor::Middle, s.to_string()),
        };
        drawing.label((x, y + 5.6), text, 8.5, Weight::Regular, anchor);
    }
    drawing.line(ticks, Stroke::new(Paint::Ink, 0.25));
}
