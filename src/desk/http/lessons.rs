//! The course: its ladder, lessons made of charts, handouts, the pack.

use serde_json::{Value, json};

use crate::desk::answer;
use crate::desk::http::asked::Asked;
use crate::desk::http::queries::PrintQuery;
use crate::desk::http::reply::{self, Done};
use crate::desk::press;
use crate::desk::refusal::Refusal;
use crate::desk::state::{Desk, held};

pub(super) fn course(asked: &Asked) -> Done {
    Ok(reply::json(&course_of(&asked.desk)))
}

fn course_of(desk: &Desk) -> Value {
    let mut answer = desk.present().answer.clone();
    answer["readOnly"] = json!(desk.read_only);
    answer["people"] = answer::people(desk.root());
    answer
}

pub(super) fn schema(_: &Asked) -> Done {
    Ok(reply::json(&json!(crate::read::schema())))
}

pub(super) fn gaps(asked: &Asked) -> Done {
    Ok(reply::json(&answer::gaps(&asked.desk)))
}

pub(super) fn remedy(asked: &Asked) -> Done {
    answer::take(&asked.desk, &asked.sent()?)?;
    course(asked)
}

pub(super) fn along(asked: &Asked) -> Done {
    Ok(reply::json(&answer::along(&asked.desk, &asked.sent()?)?))
}

pub(super) fn along_keep(asked: &Asked) -> Done {
    answer::keep(&asked.desk, &asked.sent()?)?;
    course(asked)
}

pub(super) fn piece(asked: &Asked) -> Done {
    let svg = answer::piece(&asked.desk, asked.stem(".svg")?)?;
    Ok(reply::bytes("image/svg+xml", svg))
}

pub(super) fn handout(asked: &Asked) -> Done {
    let print: PrintQuery = asked.query()?;
    let pdf = asked.name(0).ends_with(".pdf");
    let lesson = asked.stem(if pdf { ".pdf" } else { ".html" })?;
    let bytes = answer::handout(&asked.desk, lesson, print.printed(pdf))?;
    Ok(match pdf {
        true => reply::bytes("application/pdf", bytes),
        false => reply::handout(bytes),
    })
}

pub(super) fn make(asked: &Asked) -> Done {
    Ok(reply::json(&answer::make(&asked.desk, &asked.sent()?)?))
}

pub(super) fn making(asked: &Asked) -> Done {
    Ok(reply::json(&answer::making(&asked.desk, asked.id(0)?)?))
}

pub(super) fn pack(asked: &Asked) -> Done {
    Ok(reply::json(&held(&asked.desk.packing).answer()))
}

pub(super) fn pack_begin(asked: &Asked) -> Done {
    press::begin(&asked.desk)?;
    let reply = pack(asked);
    let desk = std::sync::Arc::clone(&asked.desk);
    std::thread::spawn(move || press::work(&desk));
    reply
}

pub(super) fn pack_file(asked: &Asked) -> Done {
    let n = asked.name(0);
    let file = n
        .parse()
        .ok()
        .and_then(|n| held(&asked.desk.packing).file(n));
    let (path, bytes) = file.ok_or_else(|| Refusal::unknown("file of a pack", n))?;
    Ok(match path.rsplit('.').next() {
        Some("html") => reply::handout(bytes),
        Some("pdf") => reply::bytes("application/pdf", bytes),
        Some("svg") => reply::bytes("image/svg+xml", bytes),
        Some("json") => reply::bytes("application/json", bytes),
        _ => reply::bytes("text/plain; charset=utf-8", bytes),
    })
}
