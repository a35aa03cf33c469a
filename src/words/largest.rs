//! What is said of the largest step of a course.

use crate::course::Budget;
use crate::ground::units::plain_number;
use crate::words::Wording;

/// What is allowed of a step of `size`, and what to do for those who find it hard; `door` is the lesson where two colours
/// first meet, `place` that of the lesson, from 0.
#[must_use]
pub fn largest_step_words(
    budget: Budget,
    (size, door): (f64, bool),
    place: usize,
    wording: Wording,
) -> String {
    let allowed = if door { budget.doorstep } else { budget.step };
    let what = if door {
        format!(
            "The doorstep: two {} meet for the first time. Nobody is spared it; if",
            wording.colours()
        )
    } else {
        "If".to_owned()
    };
    // Before the first there is none to work again.
    let again = if door || place == 0 {
        "piece"
    } else {
        "lesson before it"
    };
    let why =
        format!("{what} somebody finds it hard, let her work the {again} twice with other yarns.");
    let most = plain_number(allowed, 1);
    if size > allowed {
        format!("where {most} is allowed. {why}")
    } else {
        format!("of the {most} allowed. {why}")
    }
}
