//! Learners with a log of their own beside the course.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use crate::read::{is_id, names, read_log};

/// Where a learner's log lies.
pub(super) fn log_path(root: &Path, id: &str) -> PathBuf {
    root.join("people").join(format!("{id}.yaml"))
}

/// The learners with a log: id and name.
pub(in crate::desk) fn people(root: &Path) -> Value {
    let files = names(&root.join("people"));
    let ids = files.iter().filter_map(|name| name.strip_suffix(".yaml"));
    let ids = ids.filter(|id| is_id(id) && *id != "register" && log_path(root, id).is_file());
    ids.map(|id| {
        let log = read_log(&log_path(root, id)).ok();
        let name = log.and_then(|log| log.value.log.learner);
        json!({"id": id, "name": name.unwrap_or_else(|| id.to_owned())})
    })
    .collect()
}
