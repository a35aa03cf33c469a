//! Charts and drafts: opened, changed, saved, brought in, eased, shown as fabric.

use serde::Deserialize;
use serde_json::{Value, json};

use crate::desk::answer;
use crate::desk::draft::{Draft, FileKind};
use crate::desk::http::asked::Asked;
use crate::desk::http::queries::{Shown, TraceQuery};
use crate::desk::http::reply::{self, Done};
use crate::desk::http::uploads::{NewChart, State, Stroke};
use crate::desk::refusal::Refusal;
use crate::desk::state::Step;

pub(super) fn file(asked: &Asked) -> Done {
    let shown: Shown = asked.query()?;
    let answer = answer::file(&asked.desk, asked.id(0)?, shown.lesson.as_deref())?;
    Ok(reply::json(&answer))
}

/// The answer about what became of a draft; of a change that came too late, how it stands.
fn became(asked: &Asked, done: Result<Draft, Refusal>) -> Result<Value, Refusal> {
    let shown: Shown = asked.query()?;
    let now = || answer::file(&asked.desk, asked.id(0)?, shown.lesson.as_deref());
    match done {
        Ok(_) => now(),
        Err(refusal) if refusal.status == 409 => Err(refusal.with_file(now()?)),
        Err(refusal) => Err(refusal),
    }
}

pub(super) fn stroke(asked: &Asked) -> Done {
    let stroke: Stroke = asked.sent()?;
    let done = stroke.make(&asked.desk, asked.id(0)?);
    Ok(reply::json(&became(asked, done)?))
}

pub(super) fn act(asked: &Asked) -> Done {
    let State { at, over } = asked.sent()?;
    let (desk, id) = (&asked.desk, asked.id(0)?);
    let done = match asked.name(1) {
        "undo" => desk.step(id, at, |_| Ok(Step::Undo)),
        "redo" => desk.step(id, at, |_| Ok(Step::Redo)),
        "save" => desk.save(id, at, over),
        "drop" => {
            let dropped = desk.step(id, at, |_| Ok(Step::Drop));
            if dropped.as_ref().is_ok_and(|draft| draft.fresh) {
                let gone = json!({"format": "yokeward/desk/1", "id": id, "gone": true});
                return Ok(reply::json(&gone));
            }
            dropped
        }
        other => return Err(Refusal::unknown("way to change a file", other)),
    };
    Ok(reply::json(&became(asked, done)?))
}

pub(super) fn new(asked: &Asked) -> Done {
    let new: NewChart = asked.sent()?;
    let text = new.text(&asked.desk)?;
    let draft = asked.desk.begin(&new.id, FileKind::Chart, text)?;
    Ok(reply::json(&answer::file(&asked.desk, &draft.id, None)?))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Pasted {
    text: String,
}

pub(super) fn pasted(asked: &Asked) -> Done {
    let pasted: Pasted = asked.sent()?;
    Ok(reply::json(&answer::pasted(&pasted.text)?))
}

pub(super) fn kinder(asked: &Asked) -> Done {
    let shown: Shown = asked.query()?;
    let answer = answer::kinder(&asked.desk, asked.id(0)?, shown.lesson.as_deref())?;
    Ok(reply::json(&answer))
}

pub(super) fn fabric(asked: &Asked) -> Done {
    let shown: Shown = asked.query()?;
    let svg = answer::fabric(&asked.desk, asked.stem(".svg")?, shown.lesson.as_deref())?;
    Ok(reply::bytes("image/svg+xml", svg))
}

pub(super) fn trace(asked: &Asked) -> Done {
    let query: TraceQuery = asked.query()?;
    Ok(reply::json(&answer::traced(&asked.body, &query.wishes()?)?))
}
