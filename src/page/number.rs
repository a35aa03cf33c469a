//! Coordinates as text.

/// Appends a number with at most three decimals and no needless ones. Coordinates are most of a page's bytes: put
/// together from whole thousandths they take a fraction of the time that formatting a float does.
pub(super) fn push_number(text: &mut String, value: f64) {
    let thousandths = (value * 1000.0).round() as i64;
    push(text, thousandths, 1000, 3);
}

/// The same with at most two decimals.
pub(super) fn push_hundredths(text: &mut String, value: f64) {
    let hundredths = (value * 100.0).round() as i64;
    push(text, hundredths, 100, 2);
}

/// A number of so many parts of one, with at most `shown` decimals.
fn push(text: &mut String, parts: i64, one: u64, mut shown: usize) {
    if parts < 0 {
        text.push('-');
    }
    let parts = parts.unsigned_abs();
    let (mut whole, mut rest) = (parts / one, parts % one);
    while shown > 0 && rest % 10 == 0 {
        rest /= 10;
        shown -= 1;
    }
    // From the last digit to the first: the decimals that are kept, the point, the whole.
    let mut digits = [0_u8; 24];
    let mut at = digits.len();
    let mut put = |letter: u8| {
        at = at.saturating_sub(1);
        if let Some(place) = digits.get_mut(at) {
            *place = letter;
        }
    };
    let digit = |number: u64| b'0' + (number % 10) as u8;
    for _ in 0..shown {
        put(digit(rest));
        rest /= 10;
    }
    if shown > 0 {
        put(b'.');
    }
    loop {
        put(digit(whole));
        whole /= 10;
        if whole == 0 {
            break;
        }
    }
    let used = digits.get(at..).unwrap_or_default();
    text.push_str(str::from_utf8(used).unwrap_or_default());
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
