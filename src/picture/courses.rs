//! What pieces are drawn from: their rounds from the edge upwards, each with its stitches and colours.

use std::collections::BTreeMap;

use crate::ground::colour::{Rgb, darker};
use crate::picture::{Drawing, Paint, Path, Point, Stroke};

/// A round of a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnCourse {
    /// Stitches round the whole piece.
    pub stitches: usize,
    /// Width of a stitch in millimetres.
    pub pitch: f64,
    /// Height of the round in millimetres.
    pub rise: f64,
    /// The colours of one repeat from stitch 1 on.
    pub cells: Vec<Rgb>,
    /// Stitches of one repeat of the rib, in a rib.
    pub rib: Option<usize>,
}

impl DrawnCourse {
    /// The girth of this round in millimetres; a rib draws in a little.
    #[must_use]
    pub fn girth(&self) -> f64 {
        let drawn = if self.rib.is_some() { 0.94 } else { 1.0 };
        self.stitches as f64 * self.pitch * drawn
    }

    /// The colour on which its stitches lie: its own where it has only one, else the ground.
    pub(super) fn field(&self, ground: Rgb) -> Rgb {
        match self.cells.split_first() {
            Some((first, rest)) if rest.iter().all(|cell| cell == first) => *first,
            _ => ground,
        }
    }

    /// The colour of a stitch.
    pub(super) fn colour(&self, stitch: usize) -> Option<Rgb> {
        self.cells.get(stitch % self.cells.len().max(1)).copied()
    }
}

/// How the pieces of a craft are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// The main yarn.
    pub ground: Rgb,
    /// Whether stitches are the two leaves of knitting; other crafts are drawn as blocks.
    pub leaves: bool,
}

impl Look {
    /// The paint of what lies in the shade: between stitches, inside, behind.
    pub(super) fn shade(&self) -> Paint {
        Paint::Yarn(darker(self.ground, 0.38))
    }
}

/// The stitches of a picture: as lines where they lie on their own colour, as leaves where they stand out from it.
pub(super) struct Stitches {
    leaves: bool,
    lines: BTreeMap<Rgb, Path>,
    others: BTreeMap<Rgb, Path>,
}

impl Stitches {
    pub(super) fn new(look: Look) -> Self {
        Self {
            leaves: look.leaves,
            lines: BTreeMap::new(),
            others: BTreeMap::new(),
        }
    }

    /// Adds a stitch on a field of some colour; its cell of 1, foot down, is bent by `place`.
    pub(super) fn add(&mut self, colour: Rgb, field: Rgb, place: &dyn Fn(f64, f64) -> Point) {
        if colour != field {
            add_stitch(self.others.entry(colour).or_default(), self.leaves, place);
        } else if self.leaves {
            let vee = [(0.06, 0.02), (0.5, 0.98), (0.94, 0.02)];
            let lines = self.lines.entry(colour).or_default();
            lines.add_line(&vee.map(|(x, y)| place(x, y)));
        }
    }

    /// Draws them, the lines so wide.
    pub(super) fn draw(self, drawing: &mut Drawing, width: f64) {
        for (colour, lines) in self.lines {
            let paint = Paint::Yarn(darker(colour, 0.25));
            drawing.line(lines, Stroke::new(paint, width));
        }
        for (colour, path) in self.others {
            drawing.fill(path, Paint::Yarn(colour));
        }
    }
}

/// A stitch in a cell of 1, foot down: two leaves, or a block.
fn stitch(leaves: bool) -> Vec<Vec<(f64, f64)>> {
    if !leaves {
        return vec![vec![(0.06, 0.06), (0.94, 0.06), (0.94, 0.94), (0.06, 0.94)]];
    }
    let left = [
        (0.03, -0.12),
        (0.36, -0.12),
        (0.5, 0.42),
        (0.5, 1.06),
        (0.05, 0.45),
    ];
    let right = left.map(|(x, y)| (1.0 - x, y));
    vec![left.to_vec(), right.to_vec()]
}

/// Adds a stitch whose cell is bent by `place`.
fn add_stitch(path: &mut Path, leaves: bool, place: &dyn Fn(f64, f64) -> (f64, f64)) {
    for leaf in stitch(leaves) {
        path.add_polygon(leaf.into_iter().map(|(x, y)| place(x, y)));
    }
}
