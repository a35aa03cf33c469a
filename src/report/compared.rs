//! `compare --json`.

use serde::Serialize;

use crate::report::Entry;
use crate::words::Verdict;

/// The whole document.
#[derive(Debug, Serialize)]
pub struct CompareReport {
    format: &'static str,
    harder: Option<usize>,
    verdict: String,
    why: String,
    charts: Vec<Entry>,
}

impl CompareReport {
    /// From the verdict on two charts and their entries, in the order they were named.
    #[must_use]
    pub fn new(verdict: &Verdict, charts: Vec<Entry>) -> Self {
        Self {
            format: "yokeward/compare/1",
            harder: verdict.harder.map(|index| index + 1),
            verdict: verdict.verdict.clone(),
            why: verdict.why.clone(),
            charts,
        }
    }
}
