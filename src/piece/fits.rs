//! Whom a finished girth fits: the girth that a piece is made to, read backwards.

use crate::body::{self, Body, Makes, target_girth};
use crate::units::Length;

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
    let body = |girth: f64| {
        let mm = match (ease, makes) {
            (_, Makes::Swatch | Makes::Scarf) => return None,
            (Some(ease), _) => girth - ease.to_mm(),
            (None, Makes::Hat) => girth / 0.95,
            (None, Makes::Headband) => girth / 0.92,
            (None, Makes::Cowl) => girth - 50.0,
            (None, Makes::Mitts | Makes::Mittens) => girth / 0.98,
            (None, Makes::Yoke) => girth - if adult { 80.0 } else { 50.0 },
        };
        (mm > 0.0 && mm.is_finite()).then_some(Length::mm(mm))
    };
    let mm = finished.to_mm();
    Some((body(mm * (1.0 - GIVES))?, body(mm * (1.0 + GIVES))?))
}

/// The built-in sizes that a finished girth fits, each with how far the girth made for it is off (finished − wanted),
/// the nearest first.
#[must_use]
pub fn whom(makes: Makes, finished: Length, ease: Option<Length>) -> Vec<(Body, Length)> {
    let mut found: Vec<(Body, Length)> = body::TABLE
        .iter()
        .map(body::Row::body)
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
