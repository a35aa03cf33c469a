//! `record`: one more entry in a learner's log.

use crate::app::store;
use crate::cli::args::RecordArgs;
use crate::cli::learner::{Library, load_things};
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::course::log::{ListPlace, NewEntry, with_entry};
use crate::ground::fault::nearest;
use crate::read::{log_grows, read_log};

pub(super) fn run(args: &RecordArgs, screen: &mut Screen) -> Outcome {
    let Library {
        things, outcome, ..
    } = match load_things(&args.courses, screen) {
        Ok(library) => library,
        Err(outcome) => return outcome,
    };
    let same: Vec<_> = things.iter().filter(|thing| thing.id == args.id).collect();
    let course = args.course.as_deref();
    let known = same
        .iter()
        .any(|thing| course.is_none_or(|course| thing.course == course));
    if !known {
        let ids: Vec<&str> = things.iter().map(|thing| thing.id.as_str()).collect();
        let hint = match nearest(&args.id, ids.iter().copied()) {
            Some(near) if near != args.id => format!("; did you mean `{near}`?"),
            _ => "; name its course folder after it".to_owned(),
        };
        screen.report(&format!(
            "error: no course named here holds `{}`{hint}",
            args.id
        ));
        return Outcome::CouldNotRun;
    }
    // Where several courses have the id, the log must say which.
    let course = course.or_else(|| {
        let first = same.first()?;
        (same.len() > 1).then_some(first.course.as_str())
    });
    let entry = NewEntry {
        made: &args.id,
        course,
        went: &args.went,
        on: args.on.as_deref(),
        gauge: args.gauge,
        note: args.note.as_deref(),
    };
    let (text, place) = if args.log.exists() {
        let file = match read_log(&args.log) {
            Ok(file) => file,
            Err(error) => {
                screen.report(&format!("error: {error}"));
                return Outcome::CouldNotRun;
            }
        };
        screen.faults(&file.faults, &file.sources);
        if file.has_errors() {
            screen.report("the log is left as it is");
            return Outcome::Faults;
        }
        (file.value.text, file.value.place)
    } else {
        (String::new(), Some(ListPlace::Missing))
    };
    let Some(place) = place else {
        screen.report("error: `done` is a list in brackets; write its entries on lines of their own, each after a `-`");
        return Outcome::CouldNotRun;
    };
    let new = with_entry(&text, place, &entry);
    if !log_grows(&text, &new) {
        screen.report("error: the entry cannot be added without changing more of the log; it is left as it is");
        screen.report("  help: write `done:` on a line of its own at the end, and the entries below it, each after a `-`");
        return Outcome::CouldNotRun;
    }
    if let Err(error) = store::replace_file(&args.log, new.as_bytes()) {
        screen.report(&format!("error: {error}"));
        return Outcome::CouldNotRun;
    }
    screen.report(&format!("recorded in {}", args.log.display()));
    outcome
}
