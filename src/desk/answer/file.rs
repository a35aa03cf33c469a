//! A file as it stands on the desk.

use serde_json::{Value, json};

use crate::desk::answer::chart::ChartOnDesk;
use crate::desk::answer::lesson::lesson;
use crate::desk::draft::{Draft, FileKind};
use crate::desk::faults::fault;
use crate::desk::present::Present;
use crate::desk::refusal::Refusal;
use crate::desk::state::Desk;

/// The answer about a draft; a chart in the yarns of the lesson `wanted`, where that uses it.
///
/// # Errors
/// When the file is none that the desk opens.
pub(super) fn answer(desk: &Desk, draft: &Draft, wanted: Option<&str>) -> Result<Value, Refusal> {
    let (chart, lesson_says, faults) = match draft.kind {
        FileKind::Other => return Err(Refusal::unknown("chart or lesson", &draft.id)),
        // A stroke changes nothing of the course that its chart is shown in: it need not wait for that.
        FileKind::Chart => {
            let present = desk.last_present();
            let on_desk = ChartOnDesk::read(&draft.id, &draft.text, wanted, &present);
            match on_desk {
                Some(on_desk) => {
                    let faults = chart_faults(&on_desk, draft);
                    (on_desk.answer(), Value::Null, faults)
                }
                None => (
                    Value::Null,
                    Value::Null,
                    of_course(&desk.present(), &draft.id),
                ),
            }
        }
        FileKind::Lesson | FileKind::Course => {
            let present = desk.present_with(&draft.id);
            let says = lesson(&draft.id, &present);
            (Value::Null, says, of_course(&present, &draft.id))
        }
    };
    Ok(json!({
        "format": "yokeward/desk/1",
        "id": draft.id,
        "kind": draft.kind.name(),
        "text": draft.text,
        "at": draft.number,
        "changed": draft.changed,
        "fresh": draft.fresh,
        "undo": draft.undo,
        "redo": draft.redo,
        "elsewhere": draft.elsewhere,
        "faults": faults,
        "chart": chart,
        "lesson": lesson_says,
    }))
}

/// A file by its id.
///
/// # Errors
/// When there is none.
pub(in crate::desk) fn file(desk: &Desk, id: &str, wanted: Option<&str>) -> Result<Value, Refusal> {
    answer(desk, &desk.draft(id)?, wanted)
}

fn chart_faults(on_desk: &ChartOnDesk<'_>, draft: &Draft) -> Value {
    let text = &on_desk.text;
    let each = text.faults.iter().map(|found| {
        let span = found.labels.first().map(|label| label.span);
        let (line, column) = span.map_or((1, 1), |span| text.sources.line_column(span));
        let mut answer = fault(found, &on_desk.present.loaded);
        answer["id"] = json!(draft.id);
        answer["kind"] = json!("chart");
        answer["file"] = json!(draft.inside);
        answer["line"] = json!(line);
        answer["column"] = json!(column);
        answer
    });
    each.collect()
}

/// The faults of a file among those of the course.
fn of_course(present: &Present, id: &str) -> Value {
    let faults = present.answer["faults"].as_array();
    let own = faults.into_iter().flatten();
    own.filter(|fault| fault["id"] == id).cloned().collect()
}
