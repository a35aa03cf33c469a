//! Whether two yarns that meet in a row read apart.

use crate::ground::colour::{Rgb, Sight, contrast, difference, lightness, seen};

/// The least difference of L* by which two yarns read apart on lightness alone.
///
/// Knitters judge a pair by its value, often on a photograph without colour: common practice, no source, and no number.
/// 20 is ours: two steps of the ten of a grey scale of even steps (one step of Munsell value is about 10 L*, from
/// memory). Black and navy, sand and cream, red and green of one value stay below it; soft pairs that still show their
/// pattern, such as a pale and a middle blue, lie just above.
///
/// WCAG 2.x, 1.4.11, asks a contrast of 3 of adjacent colours in graphics. That is about 30 L*, meant for thin lines on
/// a screen, and sound colourwork pairs miss it; so contrast is reported and decides nothing.
pub const VALUE_APART: f64 = 20.0;

/// The least CIEDE2000 by which two yarns read apart where colour is seen, though their lightness is alike.
///
/// Ours, no source: the formula was fitted to small differences (up to about 5, from memory), so a large one is only a
/// rough measure. 20 is what greys of L* 40 and 60 have, so hue has to do here what value does there. Red and green of
/// one value have about 50 in normal sight and 10 or less in protan and deutan; purple beside blue, or pink beside
/// grey, have below 20.
pub const COLOUR_APART: f64 = 20.0;

/// How a pair of colours reads in one sight. All numbers are of the colours as [`seen`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The way of seeing.
    pub sight: Sight,
    /// CIEDE2000, 0 for equal colours, 100 for black and white.
    pub difference: f64,
    /// Difference of L*, 0 to 100, never negative.
    pub lightness_difference: f64,
    /// Contrast ratio of WCAG 2, 1 to 21.
    pub contrast: f64,
    /// Whether the two read apart: by [`VALUE_APART`], or by [`COLOUR_APART`] where colour is seen.
    pub reads: bool,
}

/// The pair in every sight, in the order of [`Sight::ALL`]. The order of the two colours does not matter.
///
/// In grey the lightness alone decides. Elsewhere either difference will do: CIEDE2000 makes little of lightness in
/// pale and dark pairs, yet small stitches show by it.
#[must_use]
pub fn check(a: Rgb, b: Rgb) -> [Reading; 5] {
    Sight::ALL.map(|sight| reading(a, b, sight))
}

/// Whether the pair reads apart in every sight.
#[must_use]
pub fn reads_apart(a: Rgb, b: Rgb) -> bool {
    Sight::ALL
        .into_iter()
        .all(|sight| reading(a, b, sight).reads)
}

fn reading(a: Rgb, b: Rgb, sight: Sight) -> Reading {
    let (a, b) = (seen(a, sight), seen(b, sight));
    let difference = difference(a, b);
    let lightness_difference = (lightness(a) - lightness(b)).abs();
    let by_value = lightness_difference >= VALUE_APART;
    Reading {
        sight,
        difference,
        lightness_difference,
        contrast: contrast(a, b),
        reads: match sight {
            Sight::Grey => by_value,
            _ => by_value || difference >= COLOUR_APART,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Which sights the pair reads in, in the order of `Sight::ALL`.
    fn reads(a: Rgb, b: Rgb) -> [bool; 5] {
        check(a, b).map(|reading| reading.reads)
    }

    #[test]
    fn sound_pairs_read_in_every_sight() {
        for (a, b) in [
            // Navy and cream, brown and sand, navy and orange, moss and rose, pale and middle blue, red and white.
            ([31, 74, 94], [244, 236, 218]),
            ([58, 44, 37], [220, 196, 154]),
            ([31, 74, 94], [207, 111, 63]),
            ([127, 154, 74], [247, 220, 210]),
            ([169, 196, 220], [95, 139, 181]),
            ([179, 38, 46], [245, 240, 230]),
        ] {
            assert_eq!(reads(a, b), [true; 5], "{a:?} {b:?}");
            assert!(reads_apart(a, b));
        }
    }

    #[test]
    fn equal_values_fail_in_grey_and_red_with_green_where_those_are_alike() {
        // Red and green of one L*; only normal sight and tritan tell them.
        assert_eq!(
            reads([181, 72, 60], [68, 119, 67]),
            [true, false, false, false, true]
        );
        // Blue and orange of one value: told everywhere but in grey.
        assert_eq!(
            reads([63, 120, 176], [183, 91, 35]),
            [true, false, true, true, true]
        );
        // Black and navy, sand and cream: told nowhere.
        assert_eq!(reads([21, 21, 21], [31, 42, 74]), [false; 5]);
        assert_eq!(reads([220, 196, 154], [244, 236, 218]), [false; 5]);
    }

    #[test]
    fn the_two_bounds_agree_on_middle_greys() {
        let grey = |l: f64| crate::ground::colour::Lab { l, a: 0.0, b: 0.0 };
        let between = crate::ground::colour::difference_lab(grey(40.0), grey(60.0));
        assert!((between - COLOUR_APART).abs() < 1e-9, "{between}");
    }

    #[test]
    fn a_pair_and_its_mirror_read_alike() {
        let (a, b) = ([107, 78, 145], [63, 95, 154]);
        assert_eq!(check(a, b), check(b, a));
        assert_eq!(reads(a, a), [false; 5]);
    }
}
