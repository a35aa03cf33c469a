//! What `measure` and `tame` answer.

use std::borrow::Cow;

use rayon::prelude::*;

use crate::app::study::{BareOptions, study_chart};
use crate::course::Reads;
use crate::course::chart::Chart;
use crate::ground::units::Gauge;
use crate::handout::grey_looks;
use crate::page::svg;
use crate::picture::{ChartPart, ChartPicture, WIDEST, beside};
use crate::read::{Loaded, Wanted};
use crate::report::{Entry, MeasureReport, entry};
use crate::rows::tame::Recoloured;
use crate::study;
use crate::words::labels::RELIEF;

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
            let a = study_chart(chart, options, course);
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
            reads: Reads::of_chart(chart.worked),
            one_colour_row: Some(RELIEF),
            catches: Vec::new(),
            tags: Vec::new(),
            strands: Vec::new(),
            changed,
            fills: true,
            large: false,
            from_left: false,
            widest: WIDEST,
            turned: false,
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
