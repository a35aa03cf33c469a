//! Remedies of a gap in words.

use crate::library::Kind;
use crate::remedies::Remedy;
use crate::units::plain_number;
use crate::words::{count, join_and};

/// A remedy as a sentence, with the steps it leaves.
#[must_use]
pub fn remedy_text(remedy: &Remedy) -> String {
    let one = |step: f64| plain_number(step, 1);
    match remedy {
        Remedy::Between {
            id,
            course,
            kind,
            steps: [first, then],
        } => {
            let of = if course.is_empty() {
                String::new()
            } else {
                format!(" of {course}")
            };
            let kind = match kind {
                Kind::Lesson => "lesson",
                Kind::Chart => "chart",
            };
            format!(
                "put the {kind} {id}{of} in between: steps of {} and {}",
                one(*first),
                one(*then)
            )
        }
        Remedy::Tame {
            charts,
            longest,
            cells,
            step,
        } => format!(
            "tame {} to floats of {longest} ({}): a step of {}",
            join_and(charts),
            count(*cells, "cell", "cells"),
            one(*step)
        ),
        Remedy::Rest {
            charts,
            after,
            rows,
            step,
        } => format!(
            "put {} into {}, one after every {}: a step of {}",
            count(*rows, "plain row", "plain rows"),
            join_and(charts),
            count(*after, "stranded row", "stranded rows"),
            one(*step)
        ),
        Remedy::Needs { lesson, need, step } => format!(
            "let {lesson} not wait for {need} (take it out of `needs`): a step of {}",
            one(*step)
        ),
    }
}

/// The command that makes the change, where one does.
#[must_use]
pub fn remedy_command(remedy: &Remedy) -> Option<String> {
    match remedy {
        Remedy::Tame {
            charts, longest, ..
        } => Some(format!(
            "yokeward tame charts/{}.yaml --longest {longest}",
            charts.first()?
        )),
        Remedy::Rest { charts, after, .. } => Some(format!(
            "yokeward tame charts/{}.yaml --relief {after}",
            charts.first()?
        )),
        _ => None,
    }
}
