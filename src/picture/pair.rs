//! Two drawings side by side, such as a chart before and after.

use crate::picture::transform::moved;
use crate::picture::{Anchor, Drawing, Weight};

/// Room between the two, and above each for its title, in millimetres.
const GAP: f64 = 10.0;
const TITLE: f64 = 7.0;

/// Draws both, each under its title.
#[must_use]
pub fn beside(left: (&str, Drawing), right: (&str, Drawing), alt: impl Into<String>) -> Drawing {
    let width = left.1.width + GAP + right.1.width;
    let height = TITLE + left.1.height.max(right.1.height);
    let mut both = Drawing::new(width, height, alt);
    let mut x = 0.0;
    for (title, drawing) in [left, right] {
        both.label((x, 4.5), title, 11.0, Weight::Bold, Anchor::Start);
        let moved = drawing.shapes.into_iter().map(|s| moved(s, (x, TITLE)));
        both.shapes.extend(moved);
        x += drawing.width + GAP;
    }
    both
}
