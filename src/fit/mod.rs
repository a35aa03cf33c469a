//! tmp
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Target {
    pub step: f64,
    pub low: f64,
    pub high: f64,
}
#[allow(missing_docs)]
pub fn target_of(_: &[(f64, f64)]) -> Target {
    Target {
        step: 8.0,
        low: 1.0,
        high: 30.0,
    }
}
