//! Faults as they are sent: what is wrong, in which file, where in it, and a way out.

use serde_json::{Value, json};

use crate::ground::fault::{Fault, Severity};
use crate::read::{Loaded, is_id, lesson_id};

/// A fault, with the id of the file that it lies in.
pub(super) fn fault(fault: &Fault, loaded: &Loaded) -> Value {
    let span = fault.labels.first().map(|label| label.span);
    let file = span.map_or("", |span| loaded.sources.path(span.file));
    let (line, column) = span.map_or((1, 1), |span| loaded.sources.line_column(span));
    let (id, kind) = owner(file, loaded);
    json!({
        "code": fault.code.name(),
        "severity": match fault.code.severity() {
            Severity::Error => "error",
            Severity::Warning => "warning",
        },
        "id": id,
        "kind": kind,
        "file": file,
        "line": line,
        "column": column,
        "message": fault.title,
        "help": fault.help,
    })
}

/// The id and kind of a file by its path.
fn owner(path: &str, loaded: &Loaded) -> (Option<String>, Option<&'static str>) {
    let mut parts = path.rsplit('/');
    let name = parts.next().unwrap_or("");
    let folder = parts.next().unwrap_or("");
    let stem = match name.rsplit_once('.') {
        Some((stem, "yaml" | "yml")) => stem,
        _ => return (None, None),
    };
    if stem == "course" {
        return (Some(stem.to_owned()), Some("course"));
    }
    let lesson = lesson_id(stem);
    let is_chart = loaded.course.charts.contains_key(stem)
        || (folder == "charts" && !loaded.course.lessons.iter().any(|l| l.id == lesson));
    let (id, kind) = match is_chart {
        true => (stem, "chart"),
        false => (lesson, "lesson"),
    };
    match is_id(id) {
        true => (Some(id.to_owned()), Some(kind)),
        false => (None, None),
    }
}
