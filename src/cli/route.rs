//! `route`: the gentlest way to a lesson.

use crate::app;
use crate::cli::args::RouteArgs;
use crate::cli::grade::tenth;
use crate::cli::learner::{Library, load_library};
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::ground::fault::nearest;
use crate::report::RouteReport;
use crate::words::{Wording, count, join_titles, technique_titles};

/// Characters of a bar that stand for a step of 40.
const BAR: f64 = 30.0 / 40.0;

pub(super) fn run(args: &RouteArgs, screen: &mut Screen) -> Outcome {
    let library = match load_library(&args.courses, args.log.as_deref(), screen) {
        Ok(library) => library,
        Err(outcome) => return outcome,
    };
    let Library {
        things,
        past,
        weights,
        outcome,
        ..
    } = library;
    let Some(goal) = things.iter().position(|thing| thing.id == args.to) else {
        let ids = things.iter().map(|thing| thing.id.as_str());
        let hint =
            nearest(&args.to, ids).map_or(String::new(), |n| format!("; did you mean `{n}`?"));
        screen.report(&format!(
            "error: no course named here holds `{}`{hint}",
            args.to
        ));
        return Outcome::CouldNotRun;
    };
    if past.done.contains(&goal) {
        screen.report(&format!("{} is in the log already", args.to));
    }
    let Some((route, largest)) = app::route(&things, &past, goal, weights) else {
        screen.report(&format!(
            "error: {} can never be open: what it needs is left out, or needs it in turn",
            args.to
        ));
        return Outcome::CouldNotRun;
    };
    let mut state = past.state.clone();
    let mut stops = Vec::new();
    for (i, thing) in route
        .stops
        .iter()
        .filter_map(|&i| Some((i, things.get(i)?)))
    {
        let again = past.done.contains(&i);
        stops.push((thing, state.step(&thing.demand, weights), again));
        state.learn(&thing.demand);
    }
    if args.json {
        screen.json(&RouteReport::new(&stops, largest, route.proven), false);
        return outcome;
    }
    let wide = stops
        .iter()
        .map(|(t, ..)| t.id.chars().count())
        .max()
        .unwrap_or(0);
    for (i, (thing, step, again)) in stops.iter().enumerate() {
        let bar = "#".repeat((step.size * BAR).round().min(44.0) as usize);
        let new = technique_titles(&step.new_techniques, Wording::of(thing.terms));
        let new = if new.is_empty() {
            String::new()
        } else {
            format!("  new: {}", join_titles(&new))
        };
        screen.say(&format!(
            "{:>2}  {:<wide$}  +{:<5} {bar}\n      {}{}{new}",
            i + 1,
            thing.id,
            tenth(step.size),
            thing.title,
            if *again { ", once more" } else { "" }
        ));
    }
    let shortest = if route.proven {
        "no way with it has fewer"
    } else {
        "fewer were not found, nor ruled out"
    };
    screen.say(&format!(
        "\nlargest step: {} (no way through these has a smaller one); {}: {shortest}",
        tenth(largest),
        count(stops.len(), "lesson", "lessons")
    ));
    outcome
}
