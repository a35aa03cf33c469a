//! What schedules count up to, and how they round.

/// The most stitches any schedule counts. Far above any garment; it keeps slips of the pen from filling the memory.
pub const MOST_STITCHES: usize = 5_000;

/// The most rounds any schedule counts.
pub const MOST_ROUNDS: usize = 5_000;

/// The nearest whole number, halves up; a half that binary numbers store a hair too low still goes up.
///
/// `None` for what is not finite, negative or above [`MOST_STITCHES`].
pub(in crate::piece) fn whole(value: f64) -> Option<usize> {
    let rounded = (value + 0.5 + 1e-9).floor();
    (rounded >= 0.0 && rounded <= MOST_STITCHES as f64).then_some(rounded as usize)
}

/// The nearest even number, ties to the larger. `None` as for [`whole`].
pub(in crate::piece) fn nearest_even(value: f64) -> Option<usize> {
    whole(value / 2.0)
        .map(|half| 2 * half)
        .filter(|n| *n <= MOST_STITCHES)
}

/// Whether a measure can be reckoned with: finite and above nothing.
pub(in crate::piece) fn is_positive(value: f64) -> bool {
    value.is_finite() && value > 0.0
}

#[cfg(test)]
mod tests {
    use super::{nearest_even, whole};

    #[test]
    fn halves_go_up() {
        // The published yoke rounds 49.5 to 50, 52.5 to 53 and 37.5 to 38 (percentage yoke at 5 stitches to the inch).
        assert_eq!([49.5, 52.5, 37.5].map(whole), [50, 53, 38].map(Some));
        assert_eq!(whole(0.33 * 150.0), Some(50));
        assert_eq!([f64::NAN, f64::INFINITY, -3.0, 1e300].map(whole), [None; 4]);
        assert_eq!([65.0, 66.9, 0.9].map(nearest_even), [66, 66, 0].map(Some));
    }
}
