//! How single values are read.

pub(super) fn positive(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(value) if value > 0.0 && value <= 10_000.0 => Ok(value),
        _ => Err("must be a number above 0".to_owned()),
    }
}

pub(super) fn length(text: &str) -> Result<crate::ground::units::Length, String> {
    crate::ground::units::Length::parse(text)
        .filter(|length| length.to_mm() > 0.0 && length.to_mm() < 100_000.0)
        .ok_or_else(|| "must be a length with its unit, such as \"51 cm\" or \"20 in\"".to_owned())
}

/// The fewest and the most stitches to 10 cm that anybody's hands make: ropes and sewing thread. Common practice, no
/// source.
const HANDS: (f64, f64) = (5.0, 80.0);

/// Stitches to 10 cm: a number, or stitches and the length they were counted over.
pub(super) fn stitches_to_10_cm(text: &str) -> Result<f64, String> {
    let (stitches, over) = match text.split_once(" to ") {
        Some((stitches, over)) => (stitches, length(over.trim())?),
        None => (text, crate::ground::units::Length::mm(100.0)),
    };
    let value = crate::ground::units::stitches_per_10cm(positive(stitches.trim())?, over);
    if value < HANDS.0 || value > HANDS.1 {
        let value = crate::ground::units::plain_number(value, 1);
        return Err(format!(
            "{value} stitches to 10 cm is no gauge of hands; counted over another length, say \"18 to 4 in\""
        ));
    }
    Ok(value)
}

/// Four corners in pixels: `x,y x,y x,y x,y`.
pub(super) fn corners(text: &str) -> Result<[[f64; 2]; 4], String> {
    let place = |pair: &str| {
        let (x, y) = pair.split_once(',')?;
        let number = |n: &str| n.trim().parse::<f64>().ok().filter(|n| n.is_finite());
        Some([number(x)?, number(y)?])
    };
    let places: Option<Vec<[f64; 2]>> = text.split_whitespace().map(place).collect();
    let places: Option<[[f64; 2]; 4]> = places.and_then(|places| places.try_into().ok());
    places.ok_or_else(|| "four corners are wanted: \"x,y x,y x,y x,y\", in pixels".to_owned())
}

#[cfg(test)]
mod tests {
    use super::{corners, stitches_to_10_cm};

    #[test]
    fn corners_are_four_pairs() {
        let four = [[1.0, 2.0], [3.5, 2.0], [3.0, 4.0], [1.0, 4.0]];
        assert_eq!(corners("1,2 3.5,2  3,4 1,4"), Ok(four));
        for wrong in [
            "1,2 3,2 3,4",
            "1 2 3 4",
            "1,2 3,2 3,4 1,x",
            "1,2 3,2 3,4 1,inf",
            "",
        ] {
            assert!(corners(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn a_gauge_is_stitches_over_a_length() {
        assert_eq!(stitches_to_10_cm("22"), Ok(22.0));
        // Four inches are 10.16 cm.
        let near = |gauge: f64| (gauge - 18.0 / 1.016).abs() < 1e-9;
        assert!(stitches_to_10_cm("18 to 4 in").is_ok_and(near));
        assert_eq!(stitches_to_10_cm("11 to 5 cm"), Ok(22.0));
        for wrong in ["4.5", "0", "-3", "220", "x", "18 to x", "18 to 0 in"] {
            assert!(stitches_to_10_cm(wrong).is_err(), "{wrong}");
        }
        let said = |why: String| why.starts_with("4.5 stitches to 10 cm");
        assert!(stitches_to_10_cm("4.5").is_err_and(said));
    }
}
