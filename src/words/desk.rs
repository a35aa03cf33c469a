//! What the desk says of its own: proposals that make a chart kinder.

use crate::course::body::Makes;
use crate::words::{Wording, count, join_and};

/// Cells recoloured so that no float passes more than so many stitches: what to do, and what it does.
#[must_use]
pub fn shorter_proposal(cells: usize, longest: usize) -> (String, String) {
    let stitches = count(cells, "stitch", "stitches");
    (
        format!("Paint {stitches} otherwise"),
        format!(
            "Then no float passes more than {}.",
            count(longest, "stitch", "stitches")
        ),
    )
}

/// Plain rows put in: what to do, and what it does.
#[must_use]
pub fn rest_proposal(rows: &[usize], after: usize) -> (String, String) {
    let numbers: Vec<String> = rows.iter().map(usize::to_string).collect();
    let what = count(rows.len(), "plain round", "plain rounds");
    (
        format!("Put in {what}"),
        format!(
            "A rest after every {after} rounds with two colours: new {} {}.",
            if rows.len() == 1 {
                "is round"
            } else {
                "are rounds"
            },
            join_and(&numbers)
        ),
    )
}

/// A plan of catches: what to do, and what it does.
#[must_use]
pub fn catch_proposal(catches: usize, limit: usize) -> (String, String) {
    (
        format!(
            "Leave it as it is and catch {}",
            count(catches, "time", "times")
        ),
        format!(
            "In each repeat; no strand then runs free over more than {}.",
            count(limit, "stitch", "stitches")
        ),
    )
}

/// The title of a piece that is made of a chart: `Pebble hat`.
#[must_use]
pub fn made_of_title(chart: &str, makes: Makes) -> String {
    format!("{chart} {}", makes.name())
}

/// The text of a lesson whose gauge nobody knows yet.
#[must_use]
pub fn swatch_hat_text(makes: Makes, wording: Wording) -> String {
    let (piece, tension) = (makes.name(), wording.tension());
    let these = match piece.ends_with('s') {
        true => format!("These {piece} are"),
        false => format!("This {piece} is"),
    };
    format!(
        "**{these} the swatch.** The {tension} here is only what such a yarn usually gives. Cast on, work the pattern once, and \
         measure it over 10 cm: if it is not the {tension} above, change the needle or the size. What comes off the needles tells \
         your {tension} for all that follows."
    )
}
