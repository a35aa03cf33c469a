//! Faults that show only when lessons are worked out and texts and templates are read.

use rayon::prelude::*;

use crate::app::pack::{PackOptions, pages_studied};
use crate::app::practice::{flat, flat_charts, practice};
use crate::app::study::study_course;
use crate::app::template_fault::{headline, template_fault};
use crate::course::Lesson;
use crate::ground::fault::{Code, Fault, Span};
use crate::page::Templates;
use crate::page::blocks::{self, Problem};
use crate::page::pdf::foot_fits;
use crate::path::StudiedCourse;
use crate::piece::contrast::Clash;
use crate::read::Loaded;
use crate::study::Studied;
use crate::words::{Wording, clash_help, clash_text, why, without_name};

/// Adds the faults that only show when lessons are worked out and texts and templates are read. Nothing is written.
pub fn proof_texts(loaded: &mut Loaded) {
    let studied = study_course(&loaded.course);
    let mut found = late_faults(loaded, &studied);
    // Whether a template of the course's own asks for what is there shows when its pages are made.
    let own = !loaded.course.templates.is_empty();
    if own && !found.iter().any(|fault| fault.code == Code::BrokenTemplate) {
        let tried = pages_studied(loaded, &studied, &[], PackOptions::default());
        found.extend(tried.err().map(|fault| *fault));
    }
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
    let course = &loaded.course;
    if let (Some(footer), Some(place)) = (&course.footer, course.footer_place)
        && !foot_fits(footer)
    {
        let title = "the footer needs more than two lines in large print";
        let fault = Fault::new(Code::TooLarge, title, place, "too long");
        found.push(fault.help(
            "shorten it to some 110 letters: it says who may copy the page, and is never cut",
        ));
    }
    match Templates::new(&loaded.course.templates) {
        Err(error) => found.push(template_fault(&error, loaded)),
        Ok(templates) => {
            let words = Wording::of_course(&loaded.course).words();
            for (id, card) in &loaded.course.cards {
                if let Err(error) = templates.render_text(card, &words) {
                    let file = format!("techniques/{}.md", id.replace('/', "--"));
                    let place = loaded.sources.find(&file);
                    let place = place.unwrap_or_else(|| loaded.sources.anywhere());
                    let fault = Fault::new(Code::BrokenTemplate, headline(&error), place, "");
                    found.push(fault.help(
                        "a card is a template: `{{ t.colour }}` is a word of the trade; braces of your own stand between `{% raw %}` and `{% endraw %}`",
                    ));
                }
            }
        }
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

/// The faults of all lessons of a course.
fn proof_lessons(studied: &StudiedCourse<'_>) -> Vec<Fault> {
    let wording = Wording::of_course(studied.course);
    let each = studied.course.lessons.par_iter().zip(&studied.lessons);
    let each = each.map(|(lesson, studied)| proof_lesson(lesson, studied, wording));
    each.collect::<Vec<_>>().into_iter().flatten().collect()
}

/// The row where two yarns meet, if it is but one.
fn meeting(clash: &Clash, lesson: &Lesson) -> Option<Span> {
    let [(chart, rows)] = clash.places.as_slice() else {
        return None;
    };
    let [row] = rows.as_slice() else { return None };
    let charts = lesson.charts();
    let chart = charts.iter().find(|what| what.chart.id == *chart)?;
    chart.chart.places.get(row.checked_sub(1)?).copied()
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
        let yarn = |index: usize| lesson.yarns.get(index).map_or(lesson.place, |y| y.place);
        let (one, other) = (yarn(clash.yarns.0), yarn(clash.yarns.1));
        let text = clash_text(clash, lesson, wording);
        let fault = Fault::new(Code::ColoursAlike, text, one, "").also(other, "");
        // Where they meet in few rows, a cell may be the slip.
        let fault = match meeting(clash, lesson) {
            Some(row) => fault.also(row, "they meet here"),
            None => fault,
        };
        faults.push(match clash_help(clash, lesson) {
            Some(help) => fault.help(help),
            None => fault,
        });
    }
    faults
}
