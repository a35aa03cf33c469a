//! A learner's log: what was finished and how it went, what comes next, the way to a dream.

use serde::Deserialize;
use serde_json::{Value, json};

use crate::app::store::replace_file;
use crate::app::{route, things};
use crate::course::log::{ListPlace, Log, NewEntry as LogLine, Went, is_day, with_entry};
use crate::desk::answer::beside::log_path;
use crate::desk::numbers::tenth;
use crate::desk::present::Present;
use crate::desk::refusal::Refusal;
use crate::desk::state::Desk;
use crate::ground::quoted::quoted;
use crate::path::learner::{Filter, History, aim, history, next};
use crate::path::library::{Thing, ThingKind};
use crate::read::{LogText, is_id, log_grows, read_log};
use crate::words::{aim_text, reasons};

/// How many next things are proposed.
const NEXT: usize = 3;

/// What was finished.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::desk) struct NewEntry {
    made: String,
    went: String,
    on: Option<String>,
    note: Option<String>,
    gauge: Option<(f64, f64)>,
}

fn log_of(desk: &Desk, id: &str) -> Result<LogText, Refusal> {
    let path = log_path(desk.root(), id);
    if !is_id(id) || id == "register" || !path.is_file() {
        return Err(Refusal::unknown("learner", id));
    }
    let file = read_log(&path).map_err(|error| Refusal::new(503, error.to_string()))?;
    match file.faults.iter().find(|fault| fault.is_error()) {
        None => Ok(file.value),
        Some(fault) => Err(
            Refusal::cannot(format!("people/{id}.yaml: {}", fault.title))
                .help("mend the file in an editor; it is left as it is"),
        ),
    }
}

/// All there is to make, and what a learner has behind her.
fn past(present: &Present, log: &Log) -> (Vec<Thing>, History) {
    let things = things(std::slice::from_ref(&present.loaded));
    let past = history(log, &things, present.course().weights);
    (things, past)
}

/// A learner.
///
/// # Errors
/// When there is no log of this id, or it has faults.
pub(in crate::desk) fn person(desk: &Desk, id: &str) -> Result<Value, Refusal> {
    let log = log_of(desk, id)?.log;
    let present = desk.present();
    let (things, past) = past(&present, &log);
    let course = present.course();
    let aim = aim(&past, course.budget.step);
    let mut proposals = next(&things, &past, aim, &Filter::default(), course.weights);
    // A chart by itself is no project.
    proposals.retain(|proposal| things.get(proposal.thing).is_some_and(is_lesson));
    proposals.truncate(NEXT);
    let proposals = proposals.iter().filter_map(|proposal| {
        let thing = things.get(proposal.thing)?;
        Some(json!({
            "id": thing.id,
            "title": thing.title,
            "kind": thing.kind.name(),
            "grade": tenth(thing.grade),
            "step": tenth(proposal.step.size),
            "reasons": reasons(proposal, &things, &past, &log),
            "hours": thing.hours.map(|hours| [tenth(hours.from), tenth(hours.to)]),
        }))
    });
    let done = log.done.iter().map(|entry| {
        let thing = things.iter().find(|thing| thing.id == entry.made);
        json!({
            "made": entry.made,
            "title": thing.map_or(&entry.made, |thing| &thing.title),
            "went": entry.went.name(),
            "on": entry.on,
            "note": entry.note,
        })
    });
    Ok(json!({
        "format": "yokeward/desk/1",
        "id": id,
        "name": log.learner.clone().unwrap_or_else(|| id.to_owned()),
        "done": done.collect::<Vec<_>>(),
        "aim": aim_text(aim, past.results.len()),
        "next": proposals.collect::<Vec<_>>(),
    }))
}

fn is_lesson(thing: &Thing) -> bool {
    thing.kind == ThingKind::Lesson
}

/// Begins a log.
///
/// # Errors
/// When the id is none or taken, or the disk refuses.
pub(in crate::desk) fn new_person(desk: &Desk, id: &str, name: &str) -> Result<Value, Refusal> {
    if !is_id(id) || id == "register" {
        return Err(Refusal::senseless(
            "an id has small letters, digits and hyphens",
        ));
    }
    desk.beside(|root| {
        let path = log_path(root, id);
        if path.exists() {
            return Err(Refusal::cannot(format!("there is a log `{id}` already"))
                .help("choose another name"));
        }
        let text = format!("learner: {}\ndone: []\n", quoted(name));
        Ok(replace_file(&path, text.as_bytes())?)
    })?;
    person(desk, id)
}

/// Adds an entry to a log.
///
/// # Errors
/// When there is no such log or thing, the day is none, or the disk refuses.
pub(in crate::desk) fn record(desk: &Desk, id: &str, new: &NewEntry) -> Result<Value, Refusal> {
    if Went::from_name(&new.went).is_none() {
        return Err(Refusal::senseless("it went easy, right or hard"));
    }
    let known = desk.present();
    if known.lesson(&new.made).is_none() && !known.course().charts.contains_key(&new.made) {
        return Err(Refusal::unknown("lesson or chart", &new.made));
    }
    let measured = |n: f64| (1.0..=100.0).contains(&n);
    if new
        .gauge
        .is_some_and(|(stitches, rows)| !measured(stitches) || !measured(rows))
    {
        return Err(Refusal::cannot(
            "a gauge has 1 to 100 stitches and rows to 10 cm",
        ));
    }
    if new.on.as_deref().is_some_and(|on| !is_day(on)) {
        return Err(Refusal::cannot(
            "a day is written like 2026-10-02, and must be one of the calendar",
        ));
    }
    desk.beside(|root| {
        let before = log_of(desk, id)?;
        let place: ListPlace = before.place.ok_or_else(|| {
            Refusal::cannot("`done` is a list in brackets")
                .help("write its entries on lines of their own, each after a `-`")
        })?;
        let line = LogLine {
            made: &new.made,
            course: None,
            went: &new.went,
            on: new.on.as_deref(),
            gauge: new.gauge,
            note: new.note.as_deref(),
        };
        let text = with_entry(&before.text, place, &line);
        if !log_grows(&before.text, &text) {
            return Err(Refusal::cannot(
                "the entry cannot be added without changing more of the log",
            )
            .help("mend the file in an editor; it is left as it is"));
        }
        Ok(replace_file(&log_path(root, id), text.as_bytes())?)
    })?;
    person(desk, id)
}

/// The gentlest way to a lesson.
///
/// # Errors
/// When there is no such log or lesson, or no way leads there.
pub(in crate::desk) fn way(desk: &Desk, id: &str, to: &str) -> Result<Value, Refusal> {
    let log = log_of(desk, id)?.log;
    let present = desk.present();
    let (things, past) = past(&present, &log);
    let goal = things
        .iter()
        .position(|thing| is_lesson(thing) && thing.id == to);
    let goal = goal.ok_or_else(|| Refusal::unknown("lesson", to))?;
    let weights = present.course().weights;
    let found = route(&things, &past, goal, weights);
    let (route, largest) = found.ok_or_else(|| Refusal::cannot("no way leads there"))?;
    let mut met = past.state.clone();
    let stops = route.stops.iter().filter_map(|stop| {
        let thing = things.get(*stop)?;
        let step = met.step(&thing.demand, weights);
        met.learn(&thing.demand);
        Some(json!({
            "id": thing.id,
            "title": thing.title,
            "grade": tenth(thing.grade),
            "step": tenth(step.size),
            "again": past.done.contains(stop),
            "newTechniques": step.new_techniques,
        }))
    });
    let stops: Vec<Value> = stops.collect();
    Ok(json!({"format": "yokeward/desk/1", "largest": tenth(largest), "lessons": stops}))
}
