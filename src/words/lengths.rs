//! Lengths and masses in the units that a course asks for.

use crate::lesson::Units;
use crate::units::{Length, plain_number, round_half_up};

/// `54.5`, `21.5`, `54.5 / 21.5`: centimetres to the half, inches to the quarter, without the unit.
#[must_use]
pub fn length_number(length: Length, units: Units) -> String {
    let cm = plain_number(round_half_up(length.to_cm() * 2.0, 0) / 2.0, 1);
    let inches = plain_number(round_half_up(length.to_mm() / 25.4 * 4.0, 0) / 4.0, 2);
    match units {
        Units::Metric => cm,
        Units::Imperial => inches,
        Units::Both => format!("{cm} / {inches}"),
    }
}

/// `cm`, `in`, `cm / in`.
#[must_use]
pub fn unit_name(units: Units) -> &'static str {
    match units {
        Units::Metric => "cm",
        Units::Imperial => "in",
        Units::Both => "cm / in",
    }
}

/// `54.5 cm`.
#[must_use]
pub fn length_text(length: Length, units: Units) -> String {
    format!("{} {}", length_number(length, units), unit_name(units))
}

/// A range: `51–53`, or one number when both ends read alike.
#[must_use]
pub fn range_number((low, high): (Length, Length), units: Units) -> String {
    let one = |units: Units| {
        let (low, high) = (length_number(low, units), length_number(high, units));
        if low == high {
            low
        } else {
            format!("{low}–{high}")
        }
    };
    match units {
        Units::Both => format!("{} / {}", one(Units::Metric), one(Units::Imperial)),
        units => one(units),
    }
}
