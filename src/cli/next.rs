//! `next`: what to do next, with reasons.

use crate::cli::args::NextArgs;
use crate::cli::grade::tenth;
use crate::cli::learner::{Library, load_library};
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::path::learner::{Filter, aim, next};
use crate::report::NextReport;
use crate::words::{aim_text, reasons, thing_name};

pub(super) fn run(args: &NextArgs, screen: &mut Screen) -> Outcome {
    let library = match load_library(&args.courses, args.log.as_deref(), screen) {
        Ok(library) => library,
        Err(outcome) => return outcome,
    };
    let Library {
        things,
        log,
        past,
        weights,
        budget,
        outcome,
    } = library;
    let filter = Filter {
        makes: args
            .makes
            .as_deref()
            .and_then(crate::course::body::Makes::from_name),
        yarn_weight: args.weight,
        hours: args.hours,
    };
    let aim = aim(&past, budget.step);
    let mut proposals = next(&things, &past, aim, &filter, weights);
    if args.json {
        proposals.truncate(args.top.unwrap_or(usize::MAX));
        screen.json(
            &NextReport::new((aim, &past, &log), &proposals, &things),
            false,
        );
        return outcome;
    }
    screen.say(&aim_text(aim, past.results.len()));
    let left = proposals.len();
    proposals.truncate(args.top.unwrap_or(5));
    for (i, proposal) in proposals.iter().enumerate() {
        let Some(thing) = things.get(proposal.thing) else {
            continue;
        };
        let hours = thing.hours.map_or(String::new(), |h| {
            format!(", {} to {} hours", tenth(h.from), tenth(h.to))
        });
        screen.say(&format!(
            "\n{}. {}: {}\n   a step of {}, how hard: {} of 100{hours}",
            i + 1,
            thing_name(thing),
            thing.title,
            tenth(proposal.step.size),
            tenth(thing.grade)
        ));
        for reason in reasons(proposal, &things, &past, &log) {
            screen.say(&format!("   - {reason}"));
        }
    }
    if proposals.is_empty() {
        screen.say(
            "\nnothing is left that fits; other folders, or fewer filters, would widen the choice",
        );
    } else if left > proposals.len() {
        let more = left - proposals.len();
        screen.say(&format!("\n{more} more: --top N shows them"));
    }
    outcome
}
