//! What is said of the largest step of a course.

use crate::course::Budget;
use crate::ground::units::plain_number;
use crate::words::Wording;

/// What is allowed, and what to do for those who find it hard; `door` is the lesson where two colours first meet.
#[must_use]
pub fn largest_step_words(budget: Budget, door: bool, wording: Wording) -> String {
    let (allowed, why) = if door {
        let why = format!(
            "The doorstep: two {} meet in one round for the first time. Nobody is spared it; if somebody finds it hard, let \
             her work the piece twice with other yarns.",
            wording.colours()
        );
        (budget.doorstep, why)
    } else {
        let why =
            "If somebody finds it hard, let her work the lesson before it twice with other yarns.";
        (budget.step, why.to_owned())
    };
    format!("of the {} allowed. {why}", plain_number(allowed, 1))
}
