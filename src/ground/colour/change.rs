//! The least change of one of two yarns after which the pair reads apart.

use crate::ground::colour::{Rgb, at_lightness, lightness, reads_apart};

/// Quarters of L* in the whole scale: as far as a search can go.
const STEPS: u16 = 400;

/// One of the two colours of a pair, in the order given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The first.
    First,
    /// The second.
    Second,
}

/// A colour to put in the place of another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// The colour to change.
    pub which: Which,
    /// What to change it to.
    pub rgb: Rgb,
    /// Its lightness as it is: L*, 0 to 100.
    pub before: f64,
    /// The lightness of `rgb`: L*, 0 to 100.
    pub after: f64,
}

// The order in which equal moves are tried.
const MOVES: [(Which, f64); 4] = [
    (Which::Second, 1.0),
    (Which::Second, -1.0),
    (Which::First, 1.0),
    (Which::First, -1.0),
];

/// The smallest change of lightness of either colour after which the pair reads apart in every sight (see
/// [`reads_apart`]). Hue angle and chroma are kept as far as sRGB allows (see [`at_lightness`]).
///
/// Every quarter of L* up and down from each colour is tried, the nearest first, so no smaller move on that grid will
/// do. Of equal moves: the second colour before the first, then lighter before darker. What is judged and returned is
/// the colour in 8 bits, so `after` may lie a little off the grid.
///
/// `None` if the pair reads apart as it is. A pair that does not can always be helped, for black or white is far enough
/// from any colour.
#[must_use]
pub fn nearest_change(first: Rgb, second: Rgb) -> Option<Change> {
    if reads_apart(first, second) {
        return None;
    }
    (1..=STEPS).find_map(|step| {
        let distance = f64::from(step) / 4.0;
        MOVES.into_iter().find_map(|(which, sign)| {
            let (old, other) = match which {
                Which::First => (first, second),
                Which::Second => (second, first),
            };
            moved(old, other, sign * distance).map(|(rgb, before)| Change {
                which,
                rgb,
                before,
                after: lightness(rgb),
            })
        })
    })
}

/// `old` moved by `distance` of L*, and its lightness before, if that is on the scale and reads apart from `other`.
fn moved(old: Rgb, other: Rgb, distance: f64) -> Option<(Rgb, f64)> {
    let before = lightness(old);
    let target = before + distance;
    if !(0.0..=100.0).contains(&target) {
        return None;
    }
    let rgb = at_lightness(old, target);
    reads_apart(rgb, other).then_some((rgb, before))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pair_that_reads_needs_no_change() {
        assert_eq!(nearest_change([31, 74, 94], [244, 236, 218]), None);
    }

    /// The change, and by how much it moves, in L*. Fails the test if the pair needs none.
    fn change(first: Rgb, second: Rgb) -> (Change, f64) {
        let Some(change) = nearest_change(first, second) else {
            panic!("{first:?} and {second:?} read apart");
        };
        (change, change.after - change.before)
    }

    #[test]
    fn equal_greys_part_by_twenty_the_second_made_lighter() {
        let (change, by) = change([119; 3], [119; 3]);
        assert_eq!(change.which, Which::Second);
        assert!((20.0..20.5).contains(&by), "{by}");
    }

    #[test]
    fn white_and_black_can_only_move_inwards() {
        let (_, from_white) = change([255; 3], [255; 3]);
        assert!((-20.5..=-20.0).contains(&from_white), "{from_white}");
        let (_, from_black) = change([0; 3], [0; 3]);
        assert!((20.0..20.5).contains(&from_black), "{from_black}");
    }

    #[test]
    fn the_colour_that_needs_less_moves() {
        // Two pale yarns: cream cannot go up far enough, so sand goes down, whichever place it has.
        let (cream, sand) = ([244, 236, 218], [220, 196, 154]);
        let ((there, by), (back, _)) = (change(cream, sand), change(sand, cream));
        assert_eq!((there.which, back.which), (Which::Second, Which::First));
        assert_eq!(there.rgb, back.rgb);
        assert!(by < 0.0);
    }
}
