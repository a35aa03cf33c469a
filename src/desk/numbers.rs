//! Numbers as they are sent, rounded when written and never before; and how large a chart may be that comes from outside.

use crate::ground::units::round_half_up;

/// Grade, points, busyness, step: one decimal.
pub(super) fn tenth(value: f64) -> f64 {
    round_half_up(value, 1)
}

/// Every other fraction: four decimals.
pub(super) fn fraction(value: f64) -> f64 {
    round_half_up(value, 4)
}

/// The most stitches, and rows, of a chart that is begun on the desk or brought in.
pub(super) const MOST_SIDE: usize = 500;

/// Whether a chart has no stitches or rows of a kind, or too many.
pub(super) fn is_out(side: usize) -> bool {
    side == 0 || side > MOST_SIDE
}

/// More rounds of colourwork than these are no piece, and their pictures would fill the machine.
const MOST_ROUNDS: usize = 1000;

/// Whether a lesson of so many rounds of colourwork can be drawn and printed here.
pub(super) fn is_drawable(rounds: usize) -> bool {
    rounds <= MOST_ROUNDS
}
