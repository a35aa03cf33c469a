//! Lengths and masses in the units that a course asks for.

use crate::course::Units;
use crate::ground::units::{Gauge, Length, plain_number, round_half_up};

/// `54.5`, `21 1/2`, `54.5 / 21 1/2`: centimetres to the half, inches to the eighth, without the unit.
#[must_use]
pub fn length_number(length: Length, units: Units) -> String {
    let cm = plain_number(round_half_up(length.to_cm() * 2.0, 0) / 2.0, 1);
    let inches = eighths(length);
    match units {
        Units::Metric => cm,
        Units::Imperial => inches,
        Units::Both => format!("{cm} / {inches}"),
    }
}

/// Inches to the eighth: `21`, `21 1/2`, `3/8`. The fonts have no eighths of their own, so all are written out.
fn eighths(length: Length) -> String {
    let all = round_half_up(length.to_mm() / 25.4 * 8.0, 0);
    let (whole, rest) = ((all / 8.0).floor(), all % 8.0);
    let part = match rest as u32 {
        1 => "1/8",
        2 => "1/4",
        3 => "3/8",
        4 => "1/2",
        5 => "5/8",
        6 => "3/4",
        7 => "7/8",
        _ => return plain_number(whole, 0),
    };
    if whole == 0.0 {
        part.to_owned()
    } else {
        format!("{}\u{a0}{part}", plain_number(whole, 0))
    }
}

/// A short length, such as that of a float: `20 mm`, `3/4 in`, `20 mm / 3/4 in` (it stands in brackets).
#[must_use]
pub fn short_text(length: Length, units: Units) -> String {
    let mm = format!("{} mm", plain_number(length.to_mm(), 0));
    let inches = format!("{} in", eighths(Length::mm(length.to_mm().max(25.4 / 8.0))));
    match units {
        Units::Metric => mm,
        Units::Imperial => inches,
        Units::Both => format!("{mm} / {inches}"),
    }
}

/// A length of yarn: `200 m`, `219 yd`, `200 m (219 yd)`.
#[must_use]
pub fn yarn_text(metres: f64, units: Units) -> String {
    let m = format!("{} m", plain_number(metres, 0));
    let yards = format!("{} yd", plain_number(metres / 0.9144, 0));
    match units {
        Units::Metric => m,
        Units::Imperial => yards,
        Units::Both => format!("{m} ({yards})"),
    }
}

/// A length in round numbers, whole centimetres or inches: `15 cm`, `6 in`, `15 cm (6 in)`.
#[must_use]
pub fn round_text(length: Length, units: Units) -> String {
    let cm = format!("{} cm", plain_number(round_half_up(length.to_cm(), 0), 0));
    let inches = round_half_up(length.to_mm() / 25.4, 0);
    let inches = format!("{} in", plain_number(inches, 0));
    match units {
        Units::Metric => cm,
        Units::Imperial => inches,
        Units::Both => format!("{cm} ({inches})"),
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

/// `54.5 cm`, `21 1/2 in`, `54.5 cm (21 1/2 in)`.
#[must_use]
pub fn length_text(length: Length, units: Units) -> String {
    let one = |units: Units| format!("{} {}", length_number(length, units), unit_name(units));
    match units {
        Units::Both => format!("{} ({})", one(Units::Metric), one(Units::Imperial)),
        units => one(units),
    }
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

/// A needle or hook: `4.5 mm`, with the American name where inches are used (`4.5 mm (US 7)`; the ladder from memory).
#[must_use]
pub fn needle_text(needle: Length, units: Units) -> String {
    const US: [(f64, &str); 21] = [
        (1.5, "000"),
        (1.75, "00"),
        (2.0, "0"),
        (2.25, "1"),
        (2.75, "2"),
        (3.25, "3"),
        (3.5, "4"),
        (3.75, "5"),
        (4.0, "6"),
        (4.5, "7"),
        (5.0, "8"),
        (5.5, "9"),
        (6.0, "10"),
        (6.5, "10½"),
        (8.0, "11"),
        (9.0, "13"),
        (10.0, "15"),
        (12.75, "17"),
        (15.0, "19"),
        (19.0, "35"),
        (25.0, "50"),
    ];
    let mm = format!("{} mm", plain_number(needle.to_mm(), 2));
    let name = US
        .iter()
        .find(|(size, _)| (size - needle.to_mm()).abs() < 0.01)
        .filter(|_| units != Units::Metric);
    name.map_or(mm.clone(), |(_, us)| format!("{mm} (US {us})"))
}

/// `20 stitches and 26 rounds to 10 cm`; where inches are used over 4 of them.
#[must_use]
pub fn gauge_text(gauge: Gauge, lines: &str, units: Units) -> String {
    counted_over(units, &|share| {
        format!(
            "{} stitches and {} {lines}",
            plain_number(gauge.stitches * share, 1),
            plain_number(gauge.rows * share, 1)
        )
    })
}

/// `20 stitches to 10 cm`; where inches are used over 4 of them.
#[must_use]
pub fn stitches_text(stitches_per_10cm: f64, units: Units) -> String {
    counted_over(units, &|share| {
        format!("{} stitches", plain_number(stitches_per_10cm * share, 1))
    })
}

/// What is counted over a length, given how many times 10 cm that is.
fn counted_over(units: Units, counted: &dyn Fn(f64) -> String) -> String {
    let metric = || format!("{} to 10 cm", counted(1.0));
    let imperial = || format!("{} to 4 in", counted(1.016));
    match units {
        Units::Metric => metric(),
        Units::Imperial => imperial(),
        Units::Both => format!("{} ({})", metric(), imperial()),
    }
}
