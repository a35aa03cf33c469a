//! `compare --json`.

use serde::Serialize;

use crate::report::Entry;
use crate::study::Studied;
use crate::words::{CLEARLY, Verdict};

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
    /// From two studied charts and their entries, in the order they were named.
    #[must_use]
    pub fn new(verdict: &Verdict, studied: &[Studied<'_>; 2], charts: Vec<Entry>) -> Self {
        let [a, b] = studied.each_ref().map(|one| one.grade.grade);
        let clear = (a - b).abs() >= CLEARLY;
        Self {
            format: "yokeward/compare/1",
            harder: clear.then_some(if a > b { 1 } else { 2 }),
            verdict: verdict.verdict.clone(),
            why: verdict.why.clone(),
            charts,
        }
    }
}
