//! Pictures and handouts, drawn as they will be printed.

use crate::app::{handout_page, study_course};
use crate::course::Paper;
use crate::desk::answer::chart::ChartOnDesk;
use crate::desk::numbers::is_drawable;
use crate::desk::refusal::Refusal;
use crate::desk::state::Desk;
use crate::ground::colour::Rgb;
use crate::ground::units::Gauge;
use crate::handout::{FinishedPiece, Print, handout_of};
use crate::page::svg;
use crate::path::StudiedCourse;
use crate::picture::{Fabric, cloth, jersey_shape, tube};
use crate::words::RowNames;
use crate::words::Wording;
use crate::words::pictures::fabric_alt;

/// Stitches and rows that a picture of fabric holds at least.
const FABRIC: (usize, usize) = (36, 24);
/// Room for a piece, in millimetres.
const PIECE: (f64, f64) = (90.0, 90.0);

/// Room for wider type, in millimetres.
const ROOM: f64 = 5.0;

/// The draft of a chart as worked fabric, tiled.
///
/// # Errors
/// When there is no such chart, or it has faults.
pub(in crate::desk) fn fabric(
    desk: &Desk,
    id: &str,
    wanted: Option<&str>,
) -> Result<String, Refusal> {
    let draft = desk.draft(id)?;
    let present = desk.last_present();
    let on_desk = ChartOnDesk::read(id, &draft.text, wanted, &present);
    let on_desk = on_desk.ok_or_else(|| Refusal::unknown("chart", id))?;
    let Some(chart) = &on_desk.text.chart else {
        return Err(Refusal::cannot("the chart has faults; mend them first"));
    };
    let rgb: Vec<Rgb> = chart
        .inks
        .iter()
        .enumerate()
        .map(|(place, ink)| on_desk.yarn(place, &ink.role).1)
        .collect();
    let columns = chart.repeat_stitches.clone();
    let up = FABRIC.1.div_ceil(chart.repeat_rows.len().max(1));
    let rows = (0..up).flat_map(|_| chart.repeat_rows.clone()).map(|row| {
        let each = columns.clone().map(|column| {
            let none = chart.mark(row, column) == crate::course::chart::Mark::NoStitch;
            let ink = chart.row(row).get(column)?;
            (!none).then(|| rgb.get(usize::from(*ink)).copied())?
        });
        each.collect()
    });
    let gauge = on_desk
        .lesson
        .as_ref()
        .map_or(Gauge::BARE_CHART, |lesson| lesson.colourwork.gauge);
    let wording = Wording::of_course(present.course());
    let names = RowNames::of_chart(chart, Vec::new(), wording);
    let fabric = Fabric {
        rows: rows.collect(),
        ground: rgb.first().copied().unwrap_or_default(),
        pitch: gauge.width(1.0).to_mm(),
        rise: gauge.height(1.0).to_mm(),
        alt: fabric_alt(chart.repeat_rows.len(), &chart.title, &names),
    };
    let times = FABRIC.0.div_ceil(columns.len().max(1)).max(1);
    let drawing = cloth(&fabric, times * columns.len());
    Ok(svg::svg(&drawing, "f", true))
}

fn bounded(studied: &StudiedCourse<'_>, lesson: &str) -> Result<(), Refusal> {
    let each = studied.course.lessons.iter().zip(&studied.lessons);
    let rounds = each
        .into_iter()
        .find(|(one, _)| one.id == lesson)
        .map_or(0, |(_, a)| a.work.rows.len());
    match is_drawable(rounds) {
        false => Err(Refusal::cannot(format!(
            "{rounds} rounds of pattern are more than any piece has"
        ))
        .help("work its charts fewer times")),
        true => Ok(()),
    }
}

/// The piece of a lesson with its bands in place.
///
/// # Errors
/// When there is no such lesson, or nothing of it can be drawn.
pub(in crate::desk) fn piece(desk: &Desk, lesson: &str) -> Result<String, Refusal> {
    let present = desk.present_with(lesson);
    let studied = study_course(present.course());
    bounded(&studied, lesson)?;
    let handout = handout_of(&studied, lesson, &Print::default())
        .ok_or_else(|| Refusal::unknown("lesson", lesson))?;
    let mut drawing = match (&handout.shape, &handout.fabric) {
        (Some(FinishedPiece::Tube(shape)), _) => tube(shape, PIECE),
        (Some(FinishedPiece::Jersey(shape)), _) => jersey_shape(shape, PIECE),
        (None, Some(fabric)) => cloth(fabric, FABRIC.0),
        (None, None) => return Err(Refusal::cannot("there is nothing of this lesson to draw")),
    };
    // A picture by itself is set in whatever type there is, which may be wider.
    drawing.width += ROOM;
    Ok(svg::svg(&drawing, "p", true))
}

/// How a handout is printed.
#[derive(Clone, Debug)]
pub(in crate::desk) struct Printed {
    pub print: Print,
    pub paper: Option<Paper>,
    /// As a PDF, else as a page of HTML.
    pub pdf: bool,
}

/// The handout of a lesson as it will print.
///
/// # Errors
/// When there is no such lesson, or a template has a fault.
pub(in crate::desk) fn handout(
    desk: &Desk,
    lesson: &str,
    wishes: Printed,
) -> Result<Vec<u8>, Refusal> {
    let present = desk.present_with(lesson);
    if present.loaded.has_errors() && present.lesson(lesson).is_none() {
        return Err(Refusal::cannot("the lesson has faults; mend them first"));
    }
    bounded(&study_course(present.course()), lesson)?;
    let page = handout_page(
        &present.loaded,
        lesson,
        wishes.print,
        wishes.paper,
        wishes.pdf,
    );
    let page = page.ok_or_else(|| Refusal::unknown("lesson", lesson))?;
    page.map_err(|fault| Refusal::cannot(fault.title.clone()))
}
