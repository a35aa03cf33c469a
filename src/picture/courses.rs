//! What pieces are drawn from: their rounds from the edge upwards, each with its stitches and colours.

use crate::ground::colour::Rgb;
use crate::picture::{Paint, Path};

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
    /// For a printer of black only.
    pub black: bool,
}

impl Look {
    /// The paint of the piece itself.
    pub(super) fn body(&self) -> Paint {
        if self.black {
            Paint::White
        } else {
            Paint::Yarn(self.ground)
        }
    }

    /// The paint of a stitch of another colour than the ground; in black a grey by darkness, far from white.
    pub(super) fn stitch(&self, colour: Rgb) -> Paint {
        if !self.black {
            return Paint::Yarn(colour);
        }
        let [r, g, b] = colour.map(u32::from);
        let light = (299 * r + 587 * g + 114 * b) / 1000;
        match light {
            0..=95 => Paint::Ink,
            96..=170 => Paint::Yarn([0x6a; 3]),
            _ => Paint::Yarn([0xa8; 3]),
        }
    }
}

/// A stitch in a cell of 1, foot down: two leaves, or a block.
pub(super) fn stitch(leaves: bool) -> Vec<Vec<(f64, f64)>> {
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
pub(super) fn add_stitch(path: &mut Path, leaves: bool, place: &dyn Fn(f64, f64) -> (f64, f64)) {
    for leaf in stitch(leaves) {
        let points: Vec<(f64, f64)> = leaf.into_iter().map(|(x, y)| place(x, y)).collect();
        path.0.extend(Path::polygon(&points).0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ITU-R BT.601: luma is 0.299 R + 0.587 G + 0.114 B; black, the darker third, two greys for the rest.
    #[test]
    fn a_black_printer_tells_dark_from_light_as_eyes_do() {
        let look = Look {
            ground: [255; 3],
            leaves: true,
            black: true,
        };
        let grey = |level: u8| Paint::Yarn([level; 3]);
        for (name, colour, paint) in [
            ("blue 29", [0, 0, 255], Paint::Ink),
            ("red 76", [255, 0, 0], Paint::Ink),
            ("magenta 105", [255, 0, 255], grey(0x6a)),
            ("green 149", [0, 255, 0], grey(0x6a)),
            ("cyan 178", [0, 255, 255], grey(0xa8)),
            ("yellow 225", [255, 255, 0], grey(0xa8)),
        ] {
            assert_eq!(look.stitch(colour), paint, "{name}");
        }
    }
}
