//! From sRGB to CIE L*a*b* and back.

use palette::convert::FromColorUnclamped;
use palette::{LinSrgb, Srgb, white_point::D65};

use crate::ground::colour::Rgb;

type Cie = palette::Lab<D65, f64>;

/// How far a linear channel may lie outside 0 to 1 and still count as shown; more than the crate's rounding of its
/// matrices, less than a tenth of a step of 8 bits at the dark end.
const SLACK: f64 = 2e-5;

/// A colour in CIE 1976 L*a*b* under D65, observer of 2 degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lab {
    /// Lightness L*, 0 (black) to 100 (white).
    pub l: f64,
    /// Green (below 0) to red.
    pub a: f64,
    /// Blue (below 0) to yellow.
    pub b: f64,
}

impl Lab {
    pub(super) fn cie(self) -> Cie {
        Cie::new(self.l, self.a, self.b)
    }
}

/// `rgb` in CIE L*a*b* (D65). Decoded as IEC 61966-2-1 says.
#[must_use]
pub fn lab(rgb: Rgb) -> Lab {
    let [r, g, b] = rgb.map(|v| f64::from(v) / 255.0);
    let cie = Cie::from_color_unclamped(Srgb::new(r, g, b).into_linear::<f64>());
    Lab {
        // White comes out a millionth too light by the rounded matrix.
        l: cie.l.clamp(0.0, 100.0),
        a: cie.a,
        b: cie.b,
    }
}

/// Linear light, red, green and blue from 0 to 1, in CIE L*a*b* (D65).
#[must_use]
pub fn lab_of_light([r, g, b]: [f64; 3]) -> Lab {
    let cie = Cie::from_color_unclamped(LinSrgb::new(r, g, b));
    Lab {
        l: cie.l,
        a: cie.a,
        b: cie.b,
    }
}

/// The sRGB colour that comes nearest to `lab`, channel by channel.
#[must_use]
pub fn shown_as(lab: Lab) -> Rgb {
    linear_of(lab).map(encode)
}

/// Linear red, green and blue of `lab`, below 0 or above 1 if sRGB cannot show it.
fn linear_of(lab: Lab) -> [f64; 3] {
    let linear = LinSrgb::<f64>::from_color_unclamped(lab.cie());
    [linear.red, linear.green, linear.blue]
}

fn shown(linear: [f64; 3]) -> bool {
    linear.iter().all(|v| (-SLACK..=1.0 + SLACK).contains(v))
}

/// A linear channel encoded to 8 bits: clipped to 0 to 1, the curve of IEC 61966-2-1, rounded half up.
pub(super) fn encode(linear: f64) -> u8 {
    let linear = linear.clamp(0.0, 1.0);
    let encoded = if linear <= 0.003_130_8 {
        linear * 12.92
    } else {
        1.055 * linear.powf(1.0 / 2.4) - 0.055
    };
    // The value lies between 0 and 255; a number that is none becomes 0.
    (encoded * 255.0 + 0.5) as u8
}

/// `rgb` at lightness `l` (L*, kept within 0 to 100) with the same hue angle in L*a*b*. Chroma is kept, and lowered
/// only as far as sRGB needs to show the colour.
#[must_use]
pub fn at_lightness(rgb: Rgb, l: f64) -> Rgb {
    let l = l.clamp(0.0, 100.0);
    let own = lab(rgb);
    let of_share = |share: f64| {
        linear_of(Lab {
            l,
            a: own.a * share,
            b: own.b * share,
        })
    };
    let whole = of_share(1.0);
    if shown(whole) {
        return whole.map(encode);
    }
    // Halving between the grey of this lightness, which sRGB has, and the whole chroma, which it has not.
    let (mut inside, mut outside) = (0.0, 1.0);
    for _ in 0..20 {
        let middle = (inside + outside) / 2.0;
        if shown(of_share(middle)) {
            inside = middle;
        } else {
            outside = middle;
        }
    }
    of_share(inside).map(encode)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every colour whose channels are multiples of 51.
    fn lattice() -> impl Iterator<Item = Rgb> {
        (0..216_u8).map(|i| [i / 36 * 51, i / 6 % 6 * 51, i % 6 * 51])
    }

    #[test]
    fn a_colour_at_its_own_lightness_is_itself() {
        for rgb in lattice() {
            assert_eq!(at_lightness(rgb, lab(rgb).l), rgb);
        }
    }

    #[test]
    fn lightness_is_hit_within_a_step_of_eight_bits_and_hue_kept() {
        for rgb in lattice() {
            let own = lab(rgb);
            for l in [25.0, 50.0, 75.0] {
                let new = lab(at_lightness(rgb, l));
                assert!((new.l - l).abs() < 0.5, "{rgb:?} {l} {new:?}");
                assert!(new.a.hypot(new.b) < own.a.hypot(own.b) + 1.0);
                // Off the line through grey and the old colour by less than a chroma of 1: 8 bits allow no better.
                let across = (new.a * own.b - new.b * own.a).abs();
                assert!(across <= own.a.hypot(own.b), "{rgb:?} {l} {new:?}");
            }
        }
    }

    #[test]
    fn lightness_off_the_scale_is_kept_on_it() {
        assert_eq!(at_lightness([200, 30, 90], -5.0), [0; 3]);
        assert_eq!(at_lightness([200, 30, 90], 400.0), [255; 3]);
        // No number at all must not stop the program.
        let _ = at_lightness([200, 30, 90], f64::NAN);
        assert_eq!(encode(f64::NAN), 0);
    }
}
