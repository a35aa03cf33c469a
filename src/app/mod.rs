//! Joins the steps for the commands; the one place that uses threads.

mod proof;
pub mod store;
mod stream;
mod things;
mod weigh;

pub use proof::proof_lessons;
pub use stream::{Streamed, measure_stream};
pub use things::{gap_remedies, route, spare_charts, things};
pub use weigh::{Weighed, weigh};

use std::borrow::Cow;
use std::collections::BTreeMap;

use rayon::prelude::*;

use crate::course::chart::Chart;
use crate::course::{Course, Lesson, Paper};
use crate::ground::fault::{Code, Fault, Span};
use crate::ground::units::{FloatLimit, Gauge};
use crate::handout::{Print, Quiz, QuizChart, grey_looks, looks_anywhere, quiz};
use crate::page::blocks::{self, Problem};
use crate::page::pack::{self, Files, Inputs};
use crate::page::pdf::Document;
use crate::page::{TemplateError, Templates, svg};
use crate::path::remedies::Remedy;
use crate::path::{self, StudiedCourse};
use crate::picture::{ChartPart, ChartPicture, beside};
use crate::read::{Loaded, Wanted};
use crate::report::{Entry, GradeEntry, GradeReport, MeasureReport, OrderReport, entry};
use crate::rows::tame::Recoloured;
use crate::rows::walk::BareSettings;
use crate::study::{self, Studied};

/// Options of `measure` for bare charts.
#[derive(Clone, Copy, Debug, Default)]
pub struct BareOptions {
    /// Stitches to 10 cm.
    pub gauge: Option<f64>,
    /// Most stitches a float may pass.
    pub limit_stitches: Option<usize>,
    /// Longest free strand in millimetres.
    pub limit_mm: Option<f64>,
}

impl BareOptions {
    /// Whether any option is given.
    #[must_use]
    pub fn any(&self) -> bool {
        self.gauge.is_some() || self.limit_stitches.is_some() || self.limit_mm.is_some()
    }

    fn settings(&self, course: &Course) -> BareSettings {
        let gauge = Gauge::BARE_CHART;
        BareSettings {
            gauge: Gauge {
                stitches: self.gauge.unwrap_or(gauge.stitches),
                ..gauge
            },
            limit: FloatLimit {
                stitches: self.limit_stitches.unwrap_or(course.limit.stitches),
                length: self
                    .limit_mm
                    .map_or(course.limit.length, crate::ground::units::Length::mm),
            },
        }
    }
}

/// Assesses all lessons of a course and orders them.
#[must_use]
pub fn assess_course(course: &Course) -> StudiedCourse<'_> {
    let lessons: Vec<Studied<'_>> = course
        .lessons
        .par_iter()
        .map(|lesson| study::lesson(lesson, course))
        .collect();
    path::in_order(course, lessons)
}

/// Assesses a chart by itself with the course's limit, weights and levels.
#[must_use]
pub fn assess_bare<'a>(chart: &'a Chart, options: BareOptions, course: &Course) -> Studied<'a> {
    study::chart(chart, options.settings(course), course)
}

/// The measures of all that the paths name: lessons and charts of folders by id, files in the order given.
#[must_use]
pub fn measure(loaded: &[Loaded], options: BareOptions) -> MeasureReport {
    let (mut lessons, mut charts) = (Vec::new(), Vec::new());
    for one in loaded {
        let course = &one.course;
        let lesson_entry = |index: usize| {
            let lesson = course.lessons.get(index)?;
            let a = study::lesson(lesson, course);
            let size = lesson.middle_size().map(|size| size.id.clone());
            Some(entry(
                &lesson.id,
                &a.work,
                &a.measures,
                &a.grade,
                Some(a.plan()),
                Some(size),
            ))
        };
        let chart_entry = |id: &String| {
            let chart = course.charts.get(id)?;
            let a = assess_bare(chart, options, course);
            Some(entry(
                id,
                &a.work,
                &a.measures,
                &a.grade,
                Some(a.plan()),
                None,
            ))
        };
        match &one.wanted {
            Wanted::All => {
                let indices: Vec<usize> = (0..course.lessons.len()).collect();
                lessons.extend(
                    indices
                        .into_par_iter()
                        .filter_map(lesson_entry)
                        .collect::<Vec<Entry>>(),
                );
                let ids: Vec<&String> = course.charts.keys().collect();
                charts.extend(
                    ids.into_par_iter()
                        .filter_map(chart_entry)
                        .collect::<Vec<Entry>>(),
                );
            }
            Wanted::Lesson(id) => {
                let index = course.lessons.iter().position(|lesson| lesson.id == *id);
                lessons.extend(index.and_then(lesson_entry));
            }
            Wanted::Chart(id) => charts.extend(chart_entry(id)),
            Wanted::Nothing => {}
        }
    }
    MeasureReport::new(lessons, charts)
}

/// An SVG of a chart before and after, with the recoloured cells outlined. Roles of a bare chart have no yarn yet, so
/// greys stand for them.
#[must_use]
pub fn before_and_after(
    before: &Chart,
    after: &Chart,
    recoloured: &[Recoloured],
    alt: &str,
) -> String {
    let looks = grey_looks(before);
    let draw = |chart: &Chart, changed: Vec<(usize, usize)>| {
        let picture = ChartPicture {
            chart: Cow::Borrowed(chart),
            looks: looks.clone(),
            aspect: Gauge::BARE_CHART.stitches / Gauge::BARE_CHART.rows,
            worked: chart.worked,
            catches: Vec::new(),
            strands: Vec::new(),
            changed,
            fills: true,
            large: false,
            from_left: false,
            alt: String::new(),
        };
        picture.draw(&ChartPart {
            rows: 0..chart.height,
            columns: 0..chart.width,
        })
    };
    let cells = recoloured.iter().map(|cell| (cell.row, cell.column));
    let changed: Vec<(usize, usize)> = cells.collect();
    // Rows put in move the others up; then only the old places are outlined.
    let same_rows = before.height == after.height;
    let changed_after = if same_rows {
        changed.clone()
    } else {
        Vec::new()
    };
    let drawing = beside(
        ("Before", draw(before, changed)),
        ("After", draw(after, changed_after)),
        alt,
    );
    svg::svg(&drawing, "tame", true)
}

/// Adds the faults that only show when lessons are worked out and texts and templates are read. Nothing is written.
pub fn proof_texts(loaded: &mut Loaded) {
    let found = late_faults(loaded, &assess_course(&loaded.course));
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
fn template_fault(error: &TemplateError, loaded: &Loaded) -> Fault {
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

/// How a pack is to be printed.
#[derive(Clone, Debug, Default)]
pub struct PackOptions {
    /// Paper instead of the course's.
    pub paper: Option<Paper>,
    /// Whether every PDF is made as a booklet, too.
    pub booklet: bool,
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
        &assess_course(&loaded.course),
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
    let assessed = assess_course(&loaded.course);
    let inputs = inputs(&assessed, library, options);
    pack::documents(&inputs).map_err(|error| Box::new(template_fault(&error, loaded)))
}

fn inputs<'a>(
    assessed: &'a StudiedCourse<'a>,
    library: &[Loaded],
    options: PackOptions,
) -> Inputs<'a> {
    Inputs {
        grades: grade(assessed),
        order: order(assessed, &gap_remedies(assessed, &[])),
        paper: options.paper.unwrap_or(assessed.course.paper),
        booklet: options.booklet,
        quiz: quiz_of(assessed.course, library, &options.print),
        print: Print {
            folded: options.booklet,
            ..options.print
        },
        assessed,
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
    let assessed: Vec<Studied<'_>> = shown
        .par_iter()
        .map(|(chart, course)| assess_bare(chart, BareOptions::default(), course))
        .collect();
    let charts: Vec<QuizChart<'_>> = shown
        .iter()
        .zip(&assessed)
        .map(|((chart, course), assessed)| QuizChart {
            chart,
            assessed,
            looks: looks_anywhere(chart, course),
        })
        .collect();
    quiz(&charts, print)
}

/// The grades of a course's lessons, by id.
#[must_use]
pub fn grade(assessed: &StudiedCourse<'_>) -> GradeReport {
    let each = assessed.course.lessons.iter().zip(&assessed.lessons);
    GradeReport::new(
        each.map(|(lesson, a)| GradeEntry::new(lesson, &a.grade, a.measures.busyness))
            .collect(),
    )
}

/// The order of a course, with the remedies of each gap.
#[must_use]
pub fn order(assessed: &StudiedCourse<'_>, remedies: &[Vec<Remedy>]) -> OrderReport {
    let each = assessed.course.lessons.iter().zip(&assessed.lessons);
    let lessons: Vec<(&str, f64)> = each
        .map(|(lesson, a)| (lesson.id.as_str(), a.grade.grade))
        .collect();
    OrderReport::new(&assessed.order, &lessons, assessed.course.budget, remedies)
}
