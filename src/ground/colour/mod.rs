//! Lightness and contrast of yarn colours: what decides symbols and their tint, and whether two yarns read apart.

mod change;
mod difference;
mod lab;
mod reading;
mod sight;

pub use change::{Change, Which, nearest_change};
pub use difference::{difference, difference_lab};
pub use lab::{Lab, at_lightness, lab, lab_of_light, shown_as};
pub use reading::{COLOUR_APART, Reading, VALUE_APART, check, reads_apart};
pub use sight::{Sight, seen};

/// Red, green, blue, 0 to 255.
pub type Rgb = [u8; 3];

/// CIE lightness L* (D65), 0 to 100.
#[must_use]
pub fn lightness(rgb: Rgb) -> f64 {
    lab(rgb).l
}

/// A channel decoded to linear light, 0 to 1, as IEC 61966-2-1 says.
#[must_use]
pub fn linear(v: u8) -> f64 {
    let c = f64::from(v) / 255.0;
    if c <= 0.04045 {
        c / 12.92
    } else {
        ((c + 0.055) / 1.055).powf(2.4)
    }
}

/// Relative luminance of WCAG 2, 0 to 1.
#[must_use]
pub fn luminance(rgb: Rgb) -> f64 {
    luminance_of_light(rgb.map(linear))
}

/// The same of linear light.
#[must_use]
pub fn luminance_of_light([r, g, b]: [f64; 3]) -> f64 {
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

/// Contrast ratio of WCAG 2, 1 to 21.
#[must_use]
pub fn contrast(a: Rgb, b: Rgb) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// `a` moved towards `b` by `share`.
#[must_use]
pub fn mix(a: Rgb, b: Rgb, share: f64) -> Rgb {
    let mut out = [0; 3];
    for ((out, a), b) in out.iter_mut().zip(a).zip(b) {
        let value = f64::from(a) + (f64::from(b) - f64::from(a)) * share.clamp(0.0, 1.0);
        // The value lies between two bytes.
        *out = (value + 0.5) as u8;
    }
    out
}

/// `rgb` made darker by `share` of its way to black.
#[must_use]
pub fn darker(rgb: Rgb, share: f64) -> Rgb {
    mix(rgb, [0, 0, 0], share)
}

/// The colour of a mark on `ground`: ink if that has a contrast of 4.5, else the ground tinted lighter until it has 5.
#[must_use]
pub fn mark_on(ground: Rgb, ink: Rgb) -> Rgb {
    if contrast(ground, ink) >= 4.5 {
        return ink;
    }
    (0..=100)
        .map(|step| mix(ground, [255, 255, 255], f64::from(step) / 100.0))
        .find(|tint| contrast(*tint, ground) >= 5.0)
        .unwrap_or([255, 255, 255])
}

/// `#rrggbb`.
#[must_use]
pub fn hex(rgb: Rgb) -> String {
    format!("#{:02x}{:02x}{:02x}", rgb[0], rgb[1], rgb[2])
}
