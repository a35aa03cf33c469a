//! The longest float, as it is shown at life size.

use crate::course::Lesson;
use crate::rows::catches::longest_free;
use crate::rows::grade::Fact;
use crate::study::Studied;
use crate::words::{RowNames, Wording, capital, count, literal};

/// The longest float as it is shown at life size.
#[derive(Clone, Debug)]
pub struct LongestFloat {
    /// Its length in stitches.
    pub stitches: usize,
    /// Width of a stitch in millimetres.
    pub pitch: f64,
    /// Where it is.
    pub text: String,
    /// The longest free span after catching, if any is caught.
    pub after: Option<(usize, String)>,
}

/// The longest float of a lesson; none where nothing floats, or where it is wider than a page.
#[must_use]
pub fn longest(lesson: &Lesson, studied: &Studied<'_>, wording: Wording) -> Option<LongestFloat> {
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
    // What is worked over hangs nowhere free.
    if *carried {
        return None;
    }
    let names = RowNames::of_lesson(lesson, wording);
    let strand = literal(names.colour(*colour));
    let names = names.with_places(lesson, &studied.work);
    let place = cause.row.map_or_else(String::new, |row| {
        match names.row_at(row.index()).as_str() {
            "" => String::new(),
            place => format!("{}: ", capital(place)),
        }
    });
    let passes = format!(
        "{place}{strand} behind {}.",
        count(*stitches, "stitch", "stitches")
    );
    let over = stitches > limit;
    let verdict = if over {
        format!("More than {limit}: catch it.")
    } else {
        "Short enough to leave.".to_owned()
    };
    let after = over.then(|| {
        let free = longest_free(&studied.work, &studied.measures, studied.plan());
        (
            free,
            format!(
                "After the catches no strand within a {} is free for more than {}.",
                names.line,
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
