//! Faults that show only when a lesson is worked out: counts that lead nowhere, yarns that do not read apart.

use rayon::prelude::*;

use crate::course::Lesson;
use crate::ground::fault::{Code, Fault};
use crate::path::StudiedCourse;
use crate::piece::why;
use crate::study::Studied;
use crate::words::{clash_help, clash_text};

/// The faults of all lessons of a course.
#[must_use]
pub fn proof_lessons(studied: &StudiedCourse<'_>) -> Vec<Fault> {
    let each = studied.course.lessons.par_iter().zip(&studied.lessons);
    let each = each.map(|(lesson, studied)| proof_lesson(lesson, studied));
    each.collect::<Vec<_>>().into_iter().flatten().collect()
}

fn proof_lesson(lesson: &Lesson, studied: &Studied<'_>) -> Vec<Fault> {
    let mut faults = Vec::new();
    let made = studied.made();
    if let Some(reason) = &made.refused {
        let (band, what, help) = why(reason, lesson);
        let place = band.and_then(|i| lesson.band_places.get(i)).copied();
        let title = format!("no counts for {}: {what}", lesson.title);
        let place = place.unwrap_or(lesson.place);
        faults.push(Fault::new(Code::NoCounts, title, place, "").help(help));
    }
    for clash in &made.clashes {
        let fault = Fault::new(
            Code::ColoursAlike,
            clash_text(clash, lesson),
            lesson.place,
            "",
        );
        faults.push(match clash_help(clash, lesson) {
            Some(help) => fault.help(help),
            None => fault,
        });
    }
    faults
}
