//! Lengths, masses, gauges, and the one rounding rule of every written number.

use std::num::NonZeroU32;
use std::{fmt, iter, ops};

/// Rounds half up to `digits` decimals: 49.5 becomes 50, −0.5 becomes 0.
///
/// A value that is a half but for binary representation (0.285 is stored a hair below) still goes up:
/// 1e-9 of the last written digit is forgiven. Rounding happens only when a number is written.
#[must_use]
pub fn round_half_up(value: f64, digits: u32) -> f64 {
    let scale = 10_f64.powi(i32::try_from(digits).unwrap_or(0));
    let rounded = (value * scale + 0.5 + 1e-9).floor() / scale;
    // Avoids writing "-0.0".
    if rounded == 0.0 { 0.0 } else { rounded }
}

/// The nearest whole number, halves up, never below `least`.
#[must_use]
pub fn nearest_at_least(value: f64, least: usize) -> usize {
    let whole = (value + 0.5).floor();
    if whole.is_finite() && whole > least as f64 {
        // A chart repeat count is far below 2^52, so the conversion is exact.
        whole.min(1e9) as usize
    } else {
        least
    }
}

/// A stitch or a row as people number it, from 1. Indices, from 0, are plain `usize`: one does not pass for the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Number(NonZeroU32);

impl Number {
    /// One.
    pub const FIRST: Self = Self(NonZeroU32::MIN);

    /// The number of what has this index; of one beyond 2³² − 2, that of the last.
    #[must_use]
    pub fn of_index(index: usize) -> Self {
        let index = u32::try_from(index).unwrap_or(u32::MAX);
        Self(NonZeroU32::MIN.saturating_add(index))
    }

    /// The index of what has this number.
    #[must_use]
    pub const fn index(self) -> usize {
        self.0.get() as usize - 1
    }

    /// As a number to be written.
    #[must_use]
    pub const fn get(self) -> u32 {
        self.0.get()
    }
}

impl std::fmt::Display for Number {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.fmt(f)
    }
}

/// A length. The number inside is millimetres; it is built and read only by unit.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Length(f64);

impl Length {
    /// From millimetres.
    #[must_use]
    pub const fn mm(value: f64) -> Self {
        Self(value)
    }

    /// From centimetres.
    #[must_use]
    pub fn cm(value: f64) -> Self {
        Self(value * 10.0)
    }

    /// From inches of 25.4 mm.
    #[must_use]
    pub fn inches(value: f64) -> Self {
        Self(value * 25.4)
    }

    /// In millimetres.
    #[must_use]
    pub const fn to_mm(self) -> f64 {
        self.0
    }

    /// In centimetres.
    #[must_use]
    pub fn to_cm(self) -> f64 {
        self.0 / 10.0
    }

    /// Reads `5 cm`, `25mm`, `1.5 in`. `None` if the unit is missing or unknown, or the number is not finite.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let (number, unit) = split_quantity(text)?;
        match unit {
            "mm" => Some(Self::mm(number)),
            "cm" => Some(Self::cm(number)),
            "in" => Some(Self::inches(number)),
            _ => None,
        }
    }
}

impl ops::Add for Length {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl ops::Sub for Length {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl ops::AddAssign for Length {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl iter::Sum for Length {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), ops::Add::add)
    }
}

impl fmt::Display for Length {
    /// Millimetres, without needless decimals: `25 mm`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", plain_number(self.0, 1))
    }
}

/// A number as people write it: at most `digits` decimals, none that say nothing (`5`, `4.5`).
#[must_use]
pub fn plain_number(value: f64, digits: u32) -> String {
    format!("{}", round_half_up(value, digits))
}

/// Splits `5 cm` into 5.0 and `cm`. `None` without a finite number in front.
fn split_quantity(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let end = text
        .char_indices()
        .find(|(i, c)| !(c.is_ascii_digit() || *c == '.' || (*i == 0 && (*c == '-' || *c == '+'))))
        .map_or(text.len(), |(i, _)| i);
    let number: f64 = text.get(..end)?.parse().ok()?;
    number
        .is_finite()
        .then_some((number, text.get(end..)?.trim()))
}

/// A gauge: how many stitches and rows lie in 10 cm of the washed fabric.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gauge {
    /// Stitches to 10 cm.
    pub stitches: f64,
    /// Rows to 10 cm.
    pub rows: f64,
}

/// The width of `stitches` stitches of which `per_10cm` make 10 cm.
#[must_use]
pub fn width_of(stitches: f64, per_10cm: f64) -> Length {
    Length::mm(stitches * 100.0 / per_10cm)
}

/// How many stitches, unrounded, make up `width` when `per_10cm` make 10 cm.
#[must_use]
pub fn stitches_in(width: Length, per_10cm: f64) -> f64 {
    width.to_mm() * per_10cm / 100.0
}

/// Stitches to 10 cm of a fabric in which `stitches` measure `width`.
#[must_use]
pub fn stitches_per_10cm(stitches: f64, width: Length) -> f64 {
    stitches * 100.0 / width.to_mm()
}

impl Gauge {
    /// The gauge at which a bare chart is measured: 20 stitches and 26 rows to 10 cm.
    pub const BARE_CHART: Self = Self {
        stitches: 20.0,
        rows: 26.0,
    };

    /// The width of `stitches` stitches.
    #[must_use]
    pub fn width(self, stitches: f64) -> Length {
        width_of(stitches, self.stitches)
    }

    /// The height of `rows` rows.
    #[must_use]
    pub fn height(self, rows: f64) -> Length {
        Length::mm(rows * 100.0 / self.rows)
    }

    /// How many rows, unrounded, make up `height`.
    #[must_use]
    pub fn rows_spanning(self, height: Length) -> f64 {
        height.to_mm() * self.rows / 100.0
    }

    /// Rows in a band `height` high: the nearest whole number, at least one.
    #[must_use]
    pub fn rows_in(self, height: Length) -> usize {
        nearest_at_least(self.rows_spanning(height), 1)
    }
}

/// How far a float may run free: the lesson's or course's `limit`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloatLimit {
    /// The most stitches, whatever the gauge. Practice: 7.
    pub stitches: usize,
    /// The longest strand. Published rule: one inch (25 mm).
    pub length: Length,
}

impl Default for FloatLimit {
    fn default() -> Self {
        Self {
            stitches: 7,
            length: Length::mm(25.0),
        }
    }
}

impl FloatLimit {
    /// Where fingers catch (mitts, mittens, babies' things) no strand may be longer than 15 mm.
    #[must_use]
    pub fn where_fingers_catch(self) -> Self {
        Self {
            length: Length::mm(self.length.to_mm().min(15.0)),
            ..self
        }
    }

    /// The limit in whole stitches at this gauge, at least one.
    #[must_use]
    pub fn in_stitches(self, gauge: Gauge) -> usize {
        let by_length = (stitches_in(self.length, gauge.stitches) + 1e-9).floor();
        let by_length = if by_length.is_finite() && by_length > 0.0 {
            by_length.min(1e9) as usize
        } else {
            0
        };
        self.stitches.min(by_length).max(1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_go_up() {
        // The published yoke rounds 49.5, 52.5 and 37.5 up (percentage yoke worked at 5 stitches to the inch).
        assert_eq!(round_half_up(49.5, 0), 50.0);
        assert_eq!(round_half_up(52.5, 0), 53.0);
        assert_eq!(round_half_up(37.5, 0), 38.0);
        assert_eq!(round_half_up(0.285, 2), 0.29);
        assert_eq!(round_half_up(-0.04, 1).to_string(), "0");
    }

    #[test]
    fn lengths_need_a_unit() {
        assert_eq!(Length::parse("5 cm"), Some(Length::mm(50.0)));
        assert_eq!(Length::parse("4in").map(Length::to_cm), Some(10.16));
        assert_eq!(Length::parse("25"), None);
        assert_eq!(Length::parse("cm"), None);
        assert_eq!(Length::parse("nan mm"), None);
    }

    #[test]
    fn limits_follow_the_gauge() {
        // One inch (published rule) and seven stitches (practice), as stitches at five gauges.
        let at = |stitches| {
            FloatLimit::default().in_stitches(Gauge {
                stitches,
                rows: 26.0,
            })
        };
        assert_eq!([12.0, 16.0, 20.0, 24.0, 28.0].map(at), [3, 4, 5, 6, 7]);
    }
}
