//! `order`: the lessons in order, the step to each, the gaps.

use std::path::Path;

use crate::app;
use crate::cli::args::OrderArgs;
use crate::cli::grade::tenth;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::cli::table::Table;
use crate::path::remedies::Found;
use crate::words::{
    Wording, gap_cause, hours_range, join_titles, remedy_commands, remedy_text, technique_titles,
};

pub(super) fn run(args: &OrderArgs, screen: &mut Screen) -> Outcome {
    let loaded = match screen.load(&[&args.course]) {
        Ok(loaded) => loaded,
        Err(outcome) => return outcome,
    };
    let library = match screen.load(&args.library) {
        Ok(library) => library,
        Err(outcome) => return outcome,
    };
    let mut outcome = Outcome::Done;
    for one in &library {
        screen.faults(&one.faults, &one.sources);
        if one.has_errors() {
            outcome = Outcome::Faults;
        }
    }
    let library = app::things(&library);
    let folder = folder(&args.course);
    for one in &loaded {
        screen.faults(&one.faults, &one.sources);
        if one.has_errors() {
            outcome = Outcome::Faults;
        }
        let studied = app::study_course(&one.course);
        let remedies = app::gap_remedies(&studied, &library);
        if args.json {
            screen.json(&app::order(&studied, &remedies), false);
            continue;
        }
        let order = &studied.order;
        let wording = Wording::of_course(&one.course);
        let tasks = studied.tasks();
        let lesson = |index: usize| one.course.lessons.get(index);
        let mut table = Table::new(&[">", "lesson", ">grade", ">step", ">hours", "what is new"]);
        for (place, placed) in order.placed.iter().enumerate() {
            let (Some(lesson), Some(a)) = (lesson(placed.index), studied.lessons.get(placed.index))
            else {
                continue;
            };
            let new = technique_titles(&placed.step.new_techniques, wording);
            table.row(vec![
                (place + 1).to_string(),
                lesson.id.clone(),
                tenth(a.grade.grade),
                format!("+{}", tenth(placed.step.size)),
                tasks
                    .get(place)
                    .map_or_else(String::new, |task| hours_range(task.hours)),
                join_titles(&new),
            ]);
        }
        screen.say(&table.text());
        let largest = tenth(order.largest_step());
        screen.say(&format!(
            "\nlargest step: {largest} (the smallest possible for these lessons)"
        ));
        if let Some(door) = order.doorstep.and_then(|place| order.placed.get(place)) {
            let id = lesson(door.index).map_or("", |l| l.id.as_str());
            screen.say(&format!("doorstep: {id}, with a budget of its own"));
        }
        for (place, placed) in order.placed.iter().enumerate() {
            if tasks.get(place).is_some_and(|task| task.by_far_the_largest) {
                let id = lesson(placed.index).map_or("", |l| l.id.as_str());
                screen.say(&format!("{id} is by far the largest piece yet"));
            }
        }
        for (i, gap) in order.gaps.iter().enumerate() {
            let Some(placed) = order.placed.get(gap.place) else {
                continue;
            };
            let id = lesson(placed.index).map_or("", |l| l.id.as_str());
            screen.say(&format!(
                "gap before {id}: {}",
                gap_cause(gap, placed, one.course.budget, wording)
            ));
            show(
                &remedies.get(i).cloned().unwrap_or_default(),
                &folder,
                screen,
            );
        }
        for practice in &order.practices {
            let id = order
                .placed
                .get(practice.place)
                .and_then(|p| lesson(p.index))
                .map_or("", |l| l.id.as_str());
            let what = technique_titles(&practice.techniques, wording);
            screen.say(&format!(
                "{} after {id}: {} (not repeated by the next lesson, which brings something new)",
                wording.practise(),
                join_titles(&what)
            ));
        }
    }
    outcome
}

/// The course's folder as it was named: of a lesson file the folder that it lies in.
fn folder(course: &Path) -> String {
    let folder = if course.is_dir() {
        Some(course)
    } else {
        course
            .parent()
            .filter(|parent| !parent.as_os_str().is_empty())
    };
    let name = folder.map_or_else(|| ".".to_owned(), |folder| folder.display().to_string());
    let trimmed = name.trim_end_matches('/');
    if trimmed.is_empty() {
        "/".to_owned()
    } else {
        trimmed.to_owned()
    }
}

/// The remedies of a gap, each with the commands that try it.
fn show(found: &Found, folder: &str, screen: &mut Screen) {
    for remedy in &found.remedies {
        screen.say(&format!("  remedy: {}", remedy_text(remedy)));
        for command in remedy_commands(remedy, folder) {
            screen.say(&format!("          {command}"));
        }
    }
    if found.cut_short {
        screen
            .say("  not searched further: to try every change of this course would take too long");
    } else if found.remedies.is_empty() {
        screen.say("  no single change closes it; --library DIR looks further afield");
    }
}
