//! Faults that show only when a lesson is worked out: counts that lead nowhere, yarns that do not read apart.

use rayon::prelude::*;

use crate::course::{Course, Lesson};
use crate::ground::fault::{Code, Fault};
use crate::piece::contrast::clashes;
use crate::piece::{pieces, why};
use crate::rows::walk;
use crate::words::{clash_help, clash_text};

/// The faults of all lessons of a course.
#[must_use]
pub fn proof_lessons(course: &Course) -> Vec<Fault> {
    let each = course.lessons.par_iter().map(proof_lesson);
    each.collect::<Vec<_>>().into_iter().flatten().collect()
}

fn proof_lesson(lesson: &Lesson) -> Vec<Fault> {
    let mut faults = Vec::new();
    if let Err(reason) = pieces(lesson) {
        let (band, what, help) = why(&reason, lesson);
        let place = band.and_then(|i| lesson.band_places.get(i)).copied();
        let title = format!("no counts for {}: {what}", lesson.title);
        let place = place.unwrap_or(lesson.place);
        faults.push(Fault::new(Code::NoCounts, title, place, "").help(help));
    }
    for clash in clashes(lesson, &walk::lesson(lesson)) {
        let fault = Fault::new(
            Code::ColoursAlike,
            clash_text(&clash, lesson),
            lesson.place,
            "",
        );
        faults.push(match clash_help(&clash, lesson) {
            Some(help) => fault.help(help),
            None => fault,
        });
    }
    faults
}
