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
