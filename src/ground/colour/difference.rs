//! How different two colours look: CIEDE2000.

use palette::color_difference::Ciede2000;

use crate::ground::colour::{Lab, Rgb, lab};

/// CIEDE2000 difference of two colours in L*a*b*, with kL = kC = kH = 1; 0 for equal colours, about 1 for a difference
/// just seen side by side, 100 for black and white. The order of the two does not matter.
///
/// Source: Sharma, Wu and Dalal, Color Research and Application 30(1), 21-30 (2005), whose table is a test.
#[must_use]
pub fn difference_lab(a: Lab, b: Lab) -> f64 {
    a.cie().difference(b.cie())
}

/// CIEDE2000 difference of two sRGB colours; see [`difference_lab`].
#[must_use]
pub fn difference(a: Rgb, b: Rgb) -> f64 {
    difference_lab(lab(a), lab(b))
}
