//! Strips of fabric one upon the other, like layers of a shore.

use crate::picture::transform::moved;
use crate::picture::{Drawing, Fabric, cloth};

/// Space between two strips, in millimetres.
const GAP: f64 = 1.6;

/// Draws strips from the bottom up, each cut to the same width.
#[must_use]
pub fn strata(fabrics: &[Fabric], width: f64, alt: impl Into<String>) -> Drawing {
    let cloths: Vec<Drawing> = fabrics
        .iter()
        .map(|fabric| {
            // Whole stitches, made to end where the page does.
            let stitches = (width / fabric.pitch).floor().max(1.0) as usize;
            let cloth = cloth(fabric, stitches);
            let factor = width / cloth.width.max(1.0);
            cloth.magnified(factor)
        })
        .collect();
    let height: f64 = cloths.iter().map(|cloth| cloth.height + GAP).sum();
    let mut drawing = Drawing::new(width, (height - GAP).max(1.0), alt);
    let mut bottom = drawing.height;
    for cloth in cloths {
        let top = bottom - cloth.height;
        let shapes = cloth
            .shapes
            .into_iter()
            .map(|shape| moved(shape, (0.0, top)));
        drawing.shapes.extend(shapes);
        bottom = top - GAP;
    }
    drawing
}
