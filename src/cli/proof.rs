//! `proof`: every fault of a course, nothing written.

use crate::app;
use crate::cli::args::ProofArgs;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::ground::fault::{self, Form};
use crate::words::count;

pub(super) fn run(args: &ProofArgs, screen: &mut Screen) -> Outcome {
    let mut loaded = match screen.load(&[&args.course]) {
        Ok(loaded) => loaded,
        Err(outcome) => return outcome,
    };
    let mut outcome = Outcome::Done;
    for one in &mut loaded {
        app::proof_texts(one);
        if args.json {
            screen.json(&fault::render_json(&one.faults, &one.sources), false);
        } else if args.concise {
            let text = fault::render(&one.faults, &one.sources, Form::Concise);
            screen.say(text.trim_end());
        } else {
            screen.faults(&one.faults, &one.sources);
            if one.faults.is_empty() {
                let lessons = count(one.course.lessons.len(), "lesson", "lessons");
                let charts = count(one.course.charts.len(), "chart", "charts");
                screen.report(&format!("no faults in {lessons} and {charts}"));
            }
        }
        if one.has_errors() {
            outcome = Outcome::Faults;
        }
    }
    outcome
}
