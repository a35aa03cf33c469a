//! Two charts side by side: measures, verdict, a sheet to print.

use crate::app::study::{BareOptions, study_chart};
use crate::app::template_fault::template_fault;
use crate::course::Course;
use crate::course::chart::Chart;
use crate::ground::fault::Fault;
use crate::handout::{Print, QuizChart, looks_anywhere, pair_drawings};
use crate::page::Comparison;
use crate::page::pack;
use crate::page::pdf::Sheet;
use crate::read::Loaded;
use crate::report::{CompareReport, entry};
use crate::words::{Verdict, Wording, side_measures, verdict};

/// Two charts, studied: the first course gives limit, weights and words, so that both are measured alike.
#[derive(Debug)]
pub struct Compared {
    /// All that a sheet shows.
    pub sheet: Comparison,
    /// All that `--json` answers.
    pub report: CompareReport,
}

/// Lays two charts side by side.
#[must_use]
pub fn compare(charts: [&Chart; 2], courses: [&Course; 2], black: bool) -> Compared {
    let [course, _] = courses;
    let wording = Wording::of_course(course);
    let [first, second] = charts;
    let studied = charts.map(|chart| study_chart(chart, BareOptions::default(), course));
    let [a, b] = &studied;
    let side = |chart, studied, home| QuizChart {
        chart,
        studied,
        looks: looks_anywhere(chart, home),
    };
    let (a, b) = (side(first, a, courses[0]), side(second, b, courses[1]));
    let contenders = [a.contender("A", wording), b.contender("B", wording)];
    let verdict: Verdict = verdict(&contenders[0], &contenders[1]);
    let measures = contenders
        .each_ref()
        .map(|c| side_measures(c.studied, &c.names));
    let [of_a, of_b] = measures;
    let both = of_a.into_iter().zip(of_b);
    let print = Print {
        ink: if black {
            crate::course::Printer::Black
        } else {
            crate::course::Printer::Colours
        },
        ..Print::default()
    };
    let [drawn_a, drawn_b] = pair_drawings(&a, &b, &print);
    let may = |chart: &Chart, drawing| chart.rights.may_print().then_some(drawing);
    let entries = charts
        .iter()
        .zip(&studied)
        .map(|(chart, a)| entry(&chart.id, &a.work, &a.measures, &a.grade, None, None));
    let report = CompareReport::new(&verdict, entries.collect());
    Compared {
        sheet: Comparison {
            titles: charts.map(|chart| chart.title.clone()),
            drawings: [may(first, drawn_a), may(second, drawn_b)],
            measures: both.map(|((name, a), (_, b))| (name, [a, b])).collect(),
            verdict,
            wording,
        },
        report,
    }
}

/// The sheet as a PDF.
///
/// # Errors
/// A fault when the template cannot be rendered.
pub fn compared_sheet(
    sheet: &Comparison,
    one: &Loaded,
    black: bool,
) -> Result<Vec<u8>, Box<Fault>> {
    let paper = Sheet {
        paper: one.course.paper,
        large: false,
        black,
    };
    pack::comparison(sheet, &one.course, paper)
        .map_err(|error| Box::new(template_fault(&error, one)))
}
