//! What `next`, `route` and `record` share: a library, a log, and the past that they make together.

use std::path::{Path, PathBuf};

use crate::app;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::course::log::Log;
use crate::course::{Budget, Weights};
use crate::ground::fault::{Code, Fault, did_you_mean};
use crate::path::learner::{History, history};
use crate::path::library::Thing;
use crate::read::{LogText, OneFile, read_log};

/// Things to choose from and what the learner has behind her.
pub(super) struct Library {
    pub(super) things: Vec<Thing>,
    pub(super) log: Log,
    pub(super) past: History,
    /// Weights of the first course named: steps must be measured with one scale.
    pub(super) weights: Weights,
    /// Its budget.
    pub(super) budget: Budget,
    pub(super) outcome: Outcome,
}

/// Loads courses, then the log, reporting what is wrong with either.
pub(super) fn load_library(
    courses: &[PathBuf],
    log: Option<&Path>,
    screen: &mut Screen,
) -> Result<Library, Outcome> {
    let mut library = load_things(courses, screen)?;
    if let Some(path) = log {
        let file = read(path, screen)?;
        let OneFile {
            sources,
            value,
            mut faults,
        } = file;
        library.log = value.log;
        library.past = history(&library.log, &library.things, library.weights);
        faults.extend(unknown_entries(&library));
        screen.faults(&faults, &sources);
        if faults.iter().any(Fault::is_error) {
            library.outcome = Outcome::Faults;
        }
    }
    Ok(library)
}

/// All lessons and charts of these paths: a library without a log.
pub(super) fn load_things(courses: &[PathBuf], screen: &mut Screen) -> Result<Library, Outcome> {
    let loaded = screen.load(courses)?;
    let mut outcome = Outcome::Done;
    for one in &loaded {
        screen.faults(&one.faults, &one.sources);
        if one.has_errors() {
            outcome = Outcome::Faults;
        }
    }
    let first = loaded.first().map(|one| &one.course);
    let (weights, budget) = first.map(|c| (c.weights, c.budget)).unwrap_or_default();
    screen.progress("measuring …");
    let things = app::things(&loaded);
    screen.progress("");
    Ok(Library {
        things,
        log: Log::default(),
        past: History::default(),
        weights,
        budget,
        outcome,
    })
}

pub(super) fn read(path: &Path, screen: &mut Screen) -> Result<OneFile<LogText>, Outcome> {
    read_log(path).map_err(|error| {
        screen.report(&format!("error: {error}"));
        screen.report("`yokeward record ID --log FILE --went right` begins a new log");
        Outcome::CouldNotRun
    })
}

fn unknown_entries(library: &Library) -> Vec<Fault> {
    let ids: Vec<&str> = library.things.iter().map(|t| t.id.as_str()).collect();
    let entries = library.past.unknown.iter();
    entries
        .filter_map(|&index| library.log.done.get(index))
        .map(|entry| unknown_entry(&entry.made, entry.place, &ids))
        .collect()
}

/// A thing that no course named here holds.
pub(super) fn unknown_entry(id: &str, place: crate::ground::fault::Span, ids: &[&str]) -> Fault {
    let help = match crate::ground::fault::nearest(id, ids.iter().copied()) {
        Some(_) => did_you_mean(id, ids),
        None => "name the folder that holds it, too".to_owned(),
    };
    let title = format!("no course named here holds `{id}`");
    Fault::new(Code::UnknownEntry, title, place, "does not count").help(help)
}
