//! What the draft of a lesson says: measures, counts of all sizes, what has none and why.

use serde_json::{Value, json};

use crate::app::study_course;
use crate::desk::answer::measured::Measured;
use crate::desk::numbers::is_drawable;
use crate::desk::present::Present;
use crate::handout::{Print, handout_of};
use crate::words::{RowNames, Wording, why, without_name};

/// The answer about a lesson of the course; null of one that has errors, and of the settings.
pub(super) fn lesson(id: &str, present: &Present) -> Value {
    let course = present.course();
    let studied = study_course(course);
    let each = course.lessons.iter().zip(&studied.lessons);
    let Some((lesson, a)) = each.into_iter().find(|(lesson, _)| lesson.id == id) else {
        return Value::Null;
    };
    let wording = Wording::of_course(course);
    let names = RowNames::of_lesson(lesson, wording).with_places(lesson, &a.work);
    let stands = present.standing(id, a);
    let measured = Measured {
        graded: a,
        names: &names,
        rows: (&lesson.id, a),
        stands: stands.as_ref(),
    };
    let handout = handout_of(&studied, id, &Print::default());
    let table = handout.and_then(|handout| handout.sizes);
    let (labels, lines) = match &table {
        None => (Vec::new(), Vec::new()),
        Some(table) => (
            table.head.iter().skip(1).cloned().collect(),
            table
                .rows
                .iter()
                .filter_map(|(_, cells)| line(cells))
                .collect(),
        ),
    };
    let lacking = a.made().without.iter().map(|without| {
        let (_, what, help) = why(&without.reason, lesson);
        json!({"text": format!("{}: {what}", without_name(without, lesson)), "help": help})
    });
    json!({
        "title": lesson.title,
        "makes": lesson.makes.name(),
        "craft": lesson.craft.name(),
        "needs": lesson.needs,
        "charts": lesson.charts().iter().map(|what| &what.chart.id).collect::<Vec<_>>(),
        "measured": measured.answer(),
        "sizes": {"labels": labels, "lines": lines},
        "lacking": lacking.collect::<Vec<_>>(),
        "ready": is_drawable(a.work.rows.len()),
        // All that the pictures and the handout show follows from the texts of the course.
        "version": present.version.to_string(),
    })
}

fn line(cells: &[String]) -> Option<Value> {
    let (name, values) = cells.split_first()?;
    Some(json!({"name": name, "values": values}))
}
