//! How a pack that is made from the desk stands, and its files when it is done.

use std::sync::Arc;

use serde_json::{Value, json};

use crate::page::pack::Files;

/// How the pack stands.
#[derive(Debug, Default)]
pub(super) enum Packing {
    /// None was made here.
    #[default]
    None,
    /// So many handouts of so many are done.
    Working(usize, usize),
    /// All files, as they were written.
    Done(Arc<Files>, String),
    /// Why there is none.
    Failed(String),
}

impl Packing {
    /// The answer.
    pub(super) fn answer(&self) -> Value {
        let (state, done, of, message) = match self {
            Self::None => ("none", 0, 0, ""),
            Self::Working(done, of) => ("working", *done, *of, ""),
            Self::Done(_, message) => ("done", 1, 1, message.as_str()),
            Self::Failed(message) => ("failed", 0, 0, message.as_str()),
        };
        let files = match self {
            Self::Done(files, _) => files.iter().enumerate().map(entry).collect(),
            _ => Vec::new(),
        };
        json!({
            "format": "yokeward/desk/1",
            "state": state,
            "done": done,
            "of": of,
            "message": message,
            "files": files,
        })
    }

    /// A file by its number: its path and bytes.
    pub(super) fn file(&self, n: usize) -> Option<(String, Vec<u8>)> {
        let Self::Done(files, _) = self else {
            return None;
        };
        let (path, bytes) = files.iter().nth(n)?;
        Some((path.clone(), bytes.clone()))
    }
}

fn entry((n, (path, bytes)): (usize, (&String, &Vec<u8>))) -> Value {
    json!({"n": n, "path": path, "size": bytes.len()})
}
