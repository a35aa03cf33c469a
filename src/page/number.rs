//! Coordinates as text.

use std::fmt::Write as _;

/// Appends a number with at most three decimals and no needless ones. Coordinates are most of a page's bytes: put
/// together from whole thousandths they take a fraction of the time that formatting a float does.
pub(super) fn push_number(text: &mut String, value: f64) {
    let thousandths = (value * 1000.0).round() as i64;
    let (whole, rest) = (thousandths.abs() / 1000, thousandths.abs() % 1000);
    if thousandths < 0 {
        text.push('-');
    }
    // Writing into a string cannot fail.
    let _ = write!(text, "{whole}");
    if rest > 0 {
        let _ = write!(text, ".{rest:03}");
        while text.ends_with('0') {
            text.pop();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::push_number;

    #[test]
    fn numbers_are_as_short_as_they_can_be() {
        let text = |value: f64| {
            let mut text = String::new();
            push_number(&mut text, value);
            text
        };
        let cases = [
            (0.0, "0"),
            (-0.0001, "0"),
            (10.0, "10"),
            (1.5, "1.5"),
            (-2.25, "-2.25"),
            (3.0004, "3"),
            (0.05, "0.05"),
            (1234.5678, "1234.568"),
        ];
        for (value, wanted) in cases {
            assert_eq!(text(value), wanted);
        }
    }
}
