//! The longest float, as it is shown at life size.

use crate::course::Lesson;
use crate::handout::LongestFloat;
use crate::rows::grade::Fact;
use crate::study::Studied;
use crate::words::{RowNames, count, literal};

pub(super) fn longest(lesson: &Lesson, studied: &Studied<'_>) -> Option<LongestFloat> {
    let cause = studied.grade.causes.first()?;
    let Fact::LongestFloat {
        stitches,
        limit,
        colour,
        carried,
        ..
    } = &cause.fact
    else {
        return None;
    };
    let names = RowNames::of_lesson(lesson);
    let strand = literal(names.colour(*colour));
    let place = cause
        .row
        .and_then(|row| studied.work.rows.get(row - 1))
        .map_or_else(String::new, |row| {
            format!("{} {}: ", names.line_title(), row.origin.chart_row)
        });
    let passes = format!(
        "{place}{strand} behind {}.",
        count(*stitches, "stitch", "stitches")
    );
    let over = stitches > limit && !carried;
    let verdict = match (over, carried) {
        (_, true) => "Worked over on its way: nothing hangs free.".to_owned(),
        (true, _) => format!("More than {limit}: catch it."),
        _ => "Short enough to leave.".to_owned(),
    };
    let after = over.then(|| {
        let free = longest_free_span(studied);
        (
            free,
            format!(
                "After the catches: no strand is free for more than {}.",
                count(free, "stitch", "stitches")
            ),
        )
    });
    let pitch = lesson.colourwork.gauge.width(1.0).to_mm();
    // Wider than the page it could not be shown at life size.
    if *stitches as f64 * pitch > 175.0 {
        return None;
    }
    Some(LongestFloat {
        stitches: *stitches,
        pitch,
        text: format!("{passes} {verdict}"),
        after,
    })
}

/// The longest stretch that a strand runs free once all catches of the plan are made.
fn longest_free_span(studied: &Studied<'_>) -> usize {
    let mut longest = 0;
    for ((row, measures), plan) in studied
        .work
        .rows
        .iter()
        .zip(&studied.measures.rows)
        .zip(studied.plan())
    {
        let length = studied.work.cells(row).len().max(1);
        for float in &measures.floats {
            let mut free = 0;
            for i in 0..float.stitches {
                let at = (float.from + i) % length;
                if plan.iter().any(|c| c.colour == float.colour && c.at == at) {
                    free = 0;
                } else {
                    free += 1;
                    longest = longest.max(free);
                }
            }
        }
    }
    longest
}
