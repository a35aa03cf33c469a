//! My gauge, my hat: whom a lesson's sizes fit at another gauge, and what a finished piece tells.

use serde_json::{Value, json};

use crate::course::Lesson;
use crate::desk::refusal::Refusal;
use crate::desk::state::Desk;
use crate::ground::units::{Length, stitches_per_10cm};
use crate::piece::schedule::needle::needle_for;
use crate::piece::{body_range, pieces, whom};
use crate::words::{
    Wording, fit_heads, fits_text, fits_whom, join_and, length_text, next_needle_text,
    own_gauge_text, reach_gauge_text,
};

/// A finished piece: stitches round it, and its girth in millimetres.
#[derive(Clone, Copy, Debug)]
pub(in crate::desk) struct Finished {
    pub stitches: usize,
    pub girth: f64,
}

/// What another gauge, or a finished piece, makes of a lesson.
///
/// # Errors
/// When there is no such lesson.
pub(in crate::desk) fn fit(
    desk: &Desk,
    id: &str,
    gauge: Option<f64>,
    finished: Option<Finished>,
) -> Result<Value, Refusal> {
    let present = desk.present();
    let lesson = present
        .lesson(id)
        .ok_or_else(|| Refusal::unknown("lesson", id))?;
    let wording = Wording::of_course(present.course());
    let units = wording.units();
    let mut lines = Vec::new();
    if let Some(finished) = finished {
        let girth = Length::mm(finished.girth);
        let own = stitches_per_10cm(finished.stitches as f64, girth);
        lines.push(own_gauge_text(
            (finished.stitches, girth),
            own,
            lesson,
            wording,
        ));
        for adult in [true, false] {
            if lesson.sizes.iter().any(|size| size.adult == adult) {
                let range = body_range(lesson.makes, girth, lesson.ease, adult);
                lines.push(fits_whom(adult, &fits_text(lesson, range, units)));
            }
        }
        let named: Vec<String> = whom(lesson.makes, girth, lesson.ease)
            .into_iter()
            .map(|(size, _)| size.label)
            .collect();
        if !named.is_empty() {
            lines.push(format!("that is {}", join_and(&named)));
        }
        let needle = lesson.colourwork.needle;
        let next = needle.and_then(|now| needle_for(now, own, lesson.colourwork.gauge.stitches));
        lines.push(next_needle_text(next.map(|guess| guess.needle), units));
    }
    let table = gauge.map(|gauge| at_gauge(lesson, gauge, wording));
    if let Some(gauge) = gauge {
        let needle = lesson.colourwork.needle;
        let guess = needle.and_then(|now| needle_for(now, gauge, lesson.colourwork.gauge.stitches));
        lines.push(reach_gauge_text(
            guess,
            lesson.colourwork.gauge.stitches,
            units,
        ));
    }
    Ok(json!({"format": "yokeward/desk/1", "lines": lines, "table": table}))
}

/// Every size as it comes out at another gauge.
fn at_gauge(lesson: &Lesson, gauge: f64, wording: Wording) -> Value {
    let units = wording.units();
    let made = pieces(lesson).made;
    let rows = made.iter().map(|piece| {
        let girth = piece.main.girth;
        let yours = Length::mm(girth.to_mm() * lesson.colourwork.gauge.stitches / gauge);
        let size = piece.size.as_ref();
        let adult = size.is_none_or(|size| size.adult);
        let range = body_range(lesson.makes, yours, lesson.ease, adult);
        json!([
            size.map_or("", |size| size.label.as_str()),
            piece.main.stitches.to_string(),
            length_text(girth, units),
            length_text(yours, units),
            fits_text(lesson, range, units),
        ])
    });
    json!({"head": fit_heads(lesson, wording), "rows": rows.collect::<Vec<_>>()})
}
