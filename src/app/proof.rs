//! Faults that show only when lessons are worked out and texts and templates are read.

use rayon::prelude::*;

use crate::app::practice::{flat, flat_charts, practice};
use crate::app::study::study_course;
use crate::course::Lesson;
use crate::ground::fault::{Code, Fault, Span};
use crate::page::blocks::{self, Problem};
use crate::page::{TemplateError, Templates};
use crate::path::StudiedCourse;
use crate::read::Loaded;
use crate::study::Studied;
use crate::words::{Wording, clash_help, clash_text, why, without_name};

/// Adds the faults that only show when lessons are worked out and texts and templates are read. Nothing is written.
pub fn proof_texts(loaded: &mut Loaded) {
    let found = late_faults(loaded, &study_course(&loaded.course));
    loaded.faults.extend(found);
}

/// The faults that only show when lessons are worked out and texts and templates are read: links and pictures that do not
/// come out, templates that are not valid, counts that lead nowhere, yarns that do not read apart.
#[must_use]
pub fn late_faults(loaded: &Loaded, studied: &StudiedCourse<'_>) -> Vec<Fault> {
    let mut found = Vec::new();
    for lesson in &loaded.course.lessons {
        for (range, problem) in blocks::problems(&lesson.text) {
            let (title, help) = match problem {
                Problem::Link(href) => (
                    format!("the link to `{href}` is not printed"),
                    "only http, https and mailto addresses are; its words stay",
                ),
                Problem::Image(href) => (
                    format!("the picture `{href}` is not printed"),
                    "handouts hold only pictures drawn from charts; its description stays",
                ),
            };
            if let Some(span) = place_in_text(lesson, range.start) {
                found.push(Fault::new(Code::UnsafeLink, title, span, "").help(help));
            }
        }
    }
    if let Err(error) = Templates::new(&loaded.course.templates) {
        found.push(template_fault(&error, loaded));
    }
    found.extend(proof_lessons(studied));
    found.extend(flat_charts(studied.course));
    found
}

/// The place of a byte of a lesson's text in its file.
fn place_in_text(lesson: &Lesson, offset: usize) -> Option<Span> {
    let mut start = 0;
    for (line, span) in lesson.text.split('\n').zip(&lesson.text_lines) {
        if offset <= start + line.len() {
            let column = offset - start;
            let exact = span.end - span.start == line.len();
            let from = if exact {
                span.start + column
            } else {
                span.start
            };
            return Some(Span {
                start: from,
                ..*span
            });
        }
        start += line.len() + 1;
    }
    lesson.text_lines.last().copied()
}

/// A fault at the place in a course's template that an error names, else at the beginning of the first template.
pub(super) fn template_fault(error: &TemplateError, loaded: &Loaded) -> Fault {
    let text = error.to_string();
    let place = text
        .lines()
        .find_map(|line| line.trim().strip_prefix("--> course/"));
    let span = place.and_then(|place| {
        let mut parts = place.split(':');
        let name = parts.next()?;
        let (line, column) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
        loaded
            .sources
            .at_line(&format!("templates/{name}"), line, column)
    });
    let name = loaded
        .course
        .templates
        .keys()
        .find(|name| text.contains(name.as_str()));
    let whole = name.and_then(|name| loaded.sources.find(&format!("templates/{name}")));
    let span = span.or(whole).unwrap_or_else(|| loaded.sources.anywhere());
    let first = text.lines().next().unwrap_or("the template is not valid");
    let title = first
        .trim_start_matches("error: ")
        .trim_end_matches('.')
        .to_owned();
    Fault::new(Code::BrokenTemplate, title, span, "")
        .help("compare it with the built-in template of the same name")
}

/// The faults of all lessons of a course.
fn proof_lessons(studied: &StudiedCourse<'_>) -> Vec<Fault> {
    let wording = Wording::of_course(studied.course);
    let each = studied.course.lessons.par_iter().zip(&studied.lessons);
    let each = each.map(|(lesson, studied)| proof_lesson(lesson, studied, wording));
    each.collect::<Vec<_>>().into_iter().flatten().collect()
}

fn proof_lesson(lesson: &Lesson, studied: &Studied<'_>, wording: Wording) -> Vec<Fault> {
    let mut faults = Vec::new();
    let made = studied.made();
    for without in &made.without {
        let (band, what, help) = why(&without.reason, lesson);
        let place = band.and_then(|i| lesson.band_places.get(i)).copied();
        let title = format!("no counts for {}: {what}", without_name(without, lesson));
        let place = place.unwrap_or(lesson.place);
        faults.push(Fault::new(Code::NoCounts, title, place, "").help(help));
    }
    faults.extend(practice(lesson, &made.pieces, wording.units()));
    faults.extend(flat(lesson));
    for clash in &made.clashes {
        let fault = Fault::new(
            Code::ColoursAlike,
            clash_text(clash, lesson, wording),
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
