//! Whom a finished girth fits: the girth that a piece is made to, read backwards.

use crate::course::body::{self, Body, Makes, body_girth, target_girth};
use crate::ground::units::Length;

/// How far the girth may be off either way before it is another size: knitted fabric gives so much. Common practice, no
/// source.
const GIVES: f64 = 0.02;

/// The body girths that a piece of this finished girth fits, the smallest and the largest. `adult` decides the ease of
/// a yoke. `None` for pieces that fit nobody in particular.
#[must_use]
pub fn body_range(
    makes: Makes,
    finished: Length,
    ease: Option<Length>,
    adult: bool,
) -> Option<(Length, Length)> {
    let body = |mm: f64| body_girth(makes, Length::mm(mm), ease, adult);
    let mm = finished.to_mm();
    Some((body(mm * (1.0 - GIVES))?, body(mm * (1.0 + GIVES))?))
}

/// The built-in sizes that a finished girth fits, each with how far the girth made for it is off (finished − wanted),
/// the nearest first.
#[must_use]
pub fn whom(makes: Makes, finished: Length, ease: Option<Length>) -> Vec<(Body, Length)> {
    let mut found: Vec<(Body, Length)> = body::TABLE
        .iter()
        .map(body::SizeRow::body)
        .filter_map(|size| {
            let wanted = target_girth(makes, &size, ease)?;
            let off = finished.to_mm() - wanted.to_mm();
            (off.abs() <= finished.to_mm() * GIVES).then_some((size, Length::mm(off)))
        })
        .collect();
    found.sort_by(|a, b| {
        let far = |x: &(Body, Length)| x.1.to_mm().abs();
        far(a).total_cmp(&far(b))
    });
    found
}
