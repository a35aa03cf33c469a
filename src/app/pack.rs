//! Packs, and the parts of them that commands give by themselves.

use std::collections::BTreeMap;

use rayon::prelude::*;

use crate::app::study::{BareOptions, study_chart, study_course};
use crate::app::template_fault::template_fault;
use crate::course::Binding;
use crate::course::chart::Chart;
use crate::course::{Course, Paper};
use crate::ground::fault::Fault;
use crate::handout::{Print, Quiz, QuizChart, looks_anywhere, quiz};
use crate::page::pack::{self, Files, Inputs};
use crate::page::pdf::Document;
use crate::path::StudiedCourse;
use crate::path::remedies::Found;
use crate::read::Loaded;
use crate::report::{GradeEntry, GradeReport, OrderReport};
use crate::study::Studied;
use crate::words::Wording;

/// How a pack is to be printed.
#[derive(Clone, Debug, Default)]
pub struct PackOptions {
    /// Paper instead of the course's.
    pub paper: Option<Paper>,
    /// Whether every PDF is made as a booklet, too.
    pub booklet: bool,
    /// Whether each learner whom the course names gets all handouts in her own size.
    pub for_all: bool,
    /// In colour, large, for the left hand, for one size.
    pub print: Print,
}

/// Builds the pack of a course in memory.
///
/// # Errors
/// A fault when a template cannot be rendered.
pub fn pack(
    loaded: &Loaded,
    library: &[Loaded],
    options: PackOptions,
    progress: &(dyn Fn(&str) + Sync),
) -> Result<Files, Box<Fault>> {
    pack_studied(
        loaded,
        &study_course(&loaded.course),
        library,
        options,
        progress,
    )
}

/// Builds the pack of a course that is studied already.
///
/// # Errors
/// A fault when a template cannot be rendered.
pub fn pack_studied(
    loaded: &Loaded,
    studied: &StudiedCourse<'_>,
    library: &[Loaded],
    options: PackOptions,
    progress: &(dyn Fn(&str) + Sync),
) -> Result<Files, Box<Fault>> {
    let inputs = inputs(studied, library, options);
    pack::build(&inputs, progress).map_err(|error| Box::new(template_fault(&error, loaded)))
}

/// The pages of every PDF of a pack, laid out and not written.
///
/// # Errors
/// A fault when a template cannot be rendered.
pub fn pages(
    loaded: &Loaded,
    library: &[Loaded],
    options: PackOptions,
) -> Result<BTreeMap<String, Document>, Box<Fault>> {
    pages_studied(loaded, &study_course(&loaded.course), library, options)
}

/// The pages of every PDF of a pack of a course that is studied already.
pub(super) fn pages_studied(
    loaded: &Loaded,
    studied: &StudiedCourse<'_>,
    library: &[Loaded],
    options: PackOptions,
) -> Result<BTreeMap<String, Document>, Box<Fault>> {
    let inputs = inputs(studied, library, options);
    pack::documents(&inputs).map_err(|error| Box::new(template_fault(&error, loaded)))
}

/// The handout of one lesson as it will print: a PDF, or a page of HTML. `None` where there is no such lesson.
#[must_use]
pub fn handout_page(
    loaded: &Loaded,
    lesson: &str,
    print: Print,
    paper: Option<Paper>,
    pdf: bool,
) -> Option<Result<Vec<u8>, Box<Fault>>> {
    let studied = study_course(&loaded.course);
    let inputs = Inputs {
        grades: grade(&studied),
        order: order(&studied, &[]),
        paper: paper.unwrap_or(studied.course.paper),
        booklet: false,
        for_all: false,
        quiz: Quiz::default(),
        print,
        studied: &studied,
    };
    let page = pack::one(&inputs, lesson, pdf)?;
    Some(page.map_err(|error| Box::new(template_fault(&error, loaded))))
}

fn inputs<'a>(
    studied: &'a StudiedCourse<'a>,
    library: &[Loaded],
    options: PackOptions,
) -> Inputs<'a> {
    Inputs {
        grades: grade(studied),
        // Remedies are for those who still build the course; no page prints them, and to look for them takes long.
        order: order(studied, &[]),
        paper: options.paper.unwrap_or(studied.course.paper),
        booklet: options.booklet,
        for_all: options.for_all,
        quiz: quiz_of(studied.course, library, &options.print),
        print: Print {
            binding: if options.booklet {
                Binding::Booklets
            } else {
                Binding::Sheets
            },
            ..options.print
        },
        studied,
    }
}

/// The quiz over the charts of a course and a library that may be printed, each in the yarns of a lesson that uses it.
fn quiz_of(course: &Course, library: &[Loaded], print: &Print) -> Quiz {
    let others = library.iter().map(|one| &one.course);
    let courses: Vec<&Course> = std::iter::once(course).chain(others).collect();
    let mut shown: Vec<(&Chart, &Course)> = Vec::new();
    for course in courses {
        for chart in course.charts.values().filter(|c| c.rights.may_print()) {
            if !shown.iter().any(|(other, _)| other.id == chart.id) {
                shown.push((chart, course));
            }
        }
    }
    let studied: Vec<Studied<'_>> = shown
        .par_iter()
        .map(|(chart, course)| study_chart(chart, BareOptions::default(), course))
        .collect();
    let charts: Vec<QuizChart<'_>> = shown
        .iter()
        .zip(&studied)
        .map(|((chart, course), studied)| QuizChart {
            chart,
            studied,
            looks: looks_anywhere(chart, course),
        })
        .collect();
    quiz(&charts, print, Wording::of_course(course))
}

/// The grades of a course's lessons, by id.
#[must_use]
pub fn grade(studied: &StudiedCourse<'_>) -> GradeReport {
    let wording = Wording::of_course(studied.course);
    let each = studied.course.lessons.iter().zip(&studied.lessons);
    GradeReport::new(
        each.map(|(lesson, a)| GradeEntry::new(lesson, &a.grade, a.measures.busyness, wording))
            .collect(),
    )
}

/// The order of a course, with the remedies of each gap.
#[must_use]
pub fn order(studied: &StudiedCourse<'_>, remedies: &[Found]) -> OrderReport {
    let each = studied.course.lessons.iter().zip(&studied.lessons);
    let lessons: Vec<(&str, f64)> = each
        .map(|(lesson, a)| (lesson.id.as_str(), a.grade.grade))
        .collect();
    OrderReport::new(
        &studied.order,
        (&lessons, &studied.tasks()),
        studied.course.budget,
        remedies,
        Wording::of_course(studied.course),
    )
}
