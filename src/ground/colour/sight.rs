//! How a colour looks to those who see it otherwise, and on a black-and-white print.

use crate::ground::colour::lab::encode;
use crate::ground::colour::{Rgb, linear, luminance};

/// A way of seeing a colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sight {
    /// Full colour vision.
    Normal,
    /// A black-and-white photocopy or print.
    Grey,
    /// Protanopia: the long-wave (red) cones are missing.
    Protan,
    /// Deuteranopia: the middle-wave (green) cones are missing.
    Deutan,
    /// Tritanopia: the short-wave (blue) cones are missing.
    Tritan,
}

impl Sight {
    /// Every sight, in the order of the readings.
    pub const ALL: [Sight; 5] = [
        Sight::Normal,
        Sight::Grey,
        Sight::Protan,
        Sight::Deutan,
        Sight::Tritan,
    ];
}

type Matrix = [[f64; 3]; 3];

// Machado, Oliveira and Fernandes, IEEE Transactions on Visualization and Computer Graphics 15(6), 1291-1298 (2009):
// severity 1.0, the strongest, so that whoever sees a little more is served too.
const PROTAN: Matrix = [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
];
const DEUTAN: Matrix = [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.011820, 0.042940, 0.968881],
];
const TRITAN: Matrix = [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.303900],
];

/// `rgb` as it looks in `sight`, for someone with full colour vision to judge.
///
/// Deficiencies: decoded to linear light, multiplied by the matrix of Machado, Oliveira and Fernandes (2009) at
/// severity 1.0, clipped to 0 to 1, encoded, rounded half up. Some programs apply the matrices to encoded values; the
/// paper's model is one of light, so this does not. The tritan matrix is known to be the weakest fit of the three (from
/// memory).
///
/// Grey: the relative luminance of WCAG 2 (weights of ITU-R BT.709) on every channel, encoded as IEC 61966-2-1 says,
/// so L* is kept. A copier or driver may weigh the channels otherwise: 0.299, 0.587 and 0.114 of the encoded values, as
/// in ITU-R BT.601, are common (from memory).
#[must_use]
pub fn seen(rgb: Rgb, sight: Sight) -> Rgb {
    match sight {
        Sight::Normal => rgb,
        Sight::Grey => [encode(luminance(rgb)); 3],
        Sight::Protan => through(&PROTAN, rgb),
        Sight::Deutan => through(&DEUTAN, rgb),
        Sight::Tritan => through(&TRITAN, rgb),
    }
}

fn through(matrix: &Matrix, rgb: Rgb) -> Rgb {
    let [r, g, b] = rgb.map(linear);
    matrix.map(|[from_r, from_g, from_b]| encode(from_r * r + from_g * g + from_b * b))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::colour::lightness;

    #[test]
    fn every_grey_is_itself_in_every_sight() {
        for v in 0..=255 {
            for sight in Sight::ALL {
                assert_eq!(seen([v; 3], sight), [v; 3], "{sight:?}");
            }
        }
    }

    #[test]
    fn grey_keeps_the_lightness() {
        for rgb in [[255, 0, 0], [0, 0, 255], [127, 154, 74], [10, 10, 30]] {
            let grey = seen(rgb, Sight::Grey);
            assert!((lightness(grey) - lightness(rgb)).abs() < 0.3, "{rgb:?}");
        }
    }
}
