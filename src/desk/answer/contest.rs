//! Two charts for a class: which is harder? All that the page shows, at once.

use serde_json::{Value, json};

use crate::app::{BareOptions, compare, study_chart};
use crate::course::chart::Chart;
use crate::desk::numbers::tenth;
use crate::desk::present::Present;
use crate::desk::refusal::Refusal;
use crate::desk::state::Desk;
use crate::ground::colour::hex;
use crate::ground::units::Gauge;
use crate::handout::looks_anywhere;

/// The two charts, their measures, the verdict.
///
/// # Errors
/// When there is no such chart, or it may not be shown.
pub(in crate::desk) fn contest(desk: &Desk, a: &str, b: &str) -> Result<Value, Refusal> {
    let present = desk.present();
    let chart = |id: &str| {
        let chart = present.course().charts.get(id);
        let chart = chart.ok_or_else(|| Refusal::unknown("chart", id))?;
        match chart.rights.may_print() {
            true => Ok(chart),
            false => Err(Refusal::cannot(
                "this chart is for reference only and is not shown",
            )),
        }
    };
    let (a, b) = (chart(a)?, chart(b)?);
    let course = present.course();
    let compared = compare([a, b], [course, course], false);
    let sheet = &compared.sheet;
    let measures = sheet.measures.iter();
    let measures = measures.map(|(name, values)| json!({"name": name, "values": values}));
    Ok(json!({
        "format": "yokeward/desk/1",
        "sides": [side(a, &present), side(b, &present)],
        "measures": measures.collect::<Vec<_>>(),
        "harder": sheet.verdict.harder.map(|place| place + 1),
        "verdict": sheet.verdict.verdict,
        "why": sheet.verdict.why,
    }))
}

fn side(chart: &Chart, present: &Present) -> Value {
    let course = present.course();
    let a = study_chart(chart, BareOptions::default(), course);
    let lesson = present.lesson_of_chart(&chart.id);
    let gauge = lesson.map_or(Gauge::BARE_CHART, |lesson| lesson.colourwork.gauge);
    let looks = looks_anywhere(chart, course);
    let colours =
        chart.inks.iter().zip(&looks).map(
            |(ink, look)| json!({"letter": ink.letter, "hex": hex(look.rgb), "name": look.name}),
        );
    // A float for each row: its longest.
    let floats = a
        .work
        .rows
        .iter()
        .zip(&a.measures.rows)
        .filter_map(|(row, m)| {
            let longest = m.floats.iter().max_by_key(|float| float.stitches)?;
            let drawn = row.origin.drawn?;
            Some(json!({
                "row": drawn.row.get(),
                "letter": a.work.colours.get(usize::from(longest.colour)),
                "start": longest.start.get(),
                "stitches": longest.stitches,
            }))
        });
    let rows = (0..chart.height).rev().map(|row| chart.drawn_line(row));
    json!({
        "id": chart.id,
        "title": chart.title,
        "rows": rows.collect::<Vec<_>>(),
        "colours": colours.collect::<Vec<_>>(),
        "aspect": gauge.stitches / gauge.rows,
        "grade": tenth(a.grade.grade),
        "busyness": tenth(a.measures.busyness),
        "limit": a.measures.floats.limit,
        "floats": floats.collect::<Vec<_>>(),
        "longest": a.measures.floats.longest,
        "repeats": {
            "stitches": [chart.repeat_stitches.start + 1, chart.repeat_stitches.end],
            "rows": [chart.repeat_rows.start + 1, chart.repeat_rows.end],
            "up": chart.declares_rows,
        },
    })
}
