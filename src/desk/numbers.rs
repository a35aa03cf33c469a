//! Numbers as they are sent: rounded when written, never before.

use crate::ground::units::round_half_up;

/// Grade, points, busyness, step: one decimal.
pub(super) fn tenth(value: f64) -> f64 {
    round_half_up(value, 1)
}

/// Every other fraction: four decimals.
pub(super) fn fraction(value: f64) -> f64 {
    round_half_up(value, 4)
}
