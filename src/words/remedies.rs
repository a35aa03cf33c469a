//! Remedies of a gap in words.

use crate::ground::units::plain_number;
use crate::path::remedies::Remedy;
use crate::words::{count, join_and};

/// A remedy as a sentence, with the steps it leaves.
#[must_use]
pub fn remedy_text(remedy: &Remedy) -> String {
    let one = |step: &f64| plain_number(*step, 1);
    match remedy {
        Remedy::Between { things, steps } => {
            let names: Vec<String> = things
                .iter()
                .map(|thing| {
                    let of = if thing.course.is_empty() {
                        String::new()
                    } else {
                        format!(" of {}", thing.course)
                    };
                    format!("the {} {}{of}", thing.kind.name(), thing.id)
                })
                .collect();
            let steps: Vec<String> = steps.iter().map(one).collect();
            format!(
                "put {} in between: steps of {}",
                names.join(", then "),
                join_and(&steps)
            )
        }
        Remedy::Tame {
            charts,
            longest,
            cells,
            rest,
            step,
        } => {
            let charts = join_and(charts);
            let rows = rest.map(|(after, rows)| {
                let every = count(after, "stranded row", "stranded rows");
                let rows = count(rows, "plain row", "plain rows");
                format!("{rows}, one after every {every}")
            });
            let cells = count(*cells, "cell", "cells");
            let what = match (longest, rows) {
                (Some(longest), None) => format!("tame {charts} to floats of {longest} ({cells})"),
                (Some(longest), Some(rows)) => {
                    format!("tame {charts} to floats of {longest} ({cells}) and put in {rows}")
                }
                (None, rows) => format!("put into {charts} {}", rows.unwrap_or_default()),
            };
            format!("{what}: a step of {}", one(step))
        }
        Remedy::Needs {
            lesson,
            need,
            step,
            closes,
        } => {
            let still = if *closes {
                ""
            } else {
                ", smaller but still over the budget"
            };
            format!(
                "let {lesson} not wait for {need} (take it out of `needs`): a step of {}{still}",
                one(step)
            )
        }
    }
}

/// The commands that make the change, where commands do, for whoever stands where `folder` leads to the course. What
/// is made stands beside its chart.
#[must_use]
pub fn remedy_commands(remedy: &Remedy, folder: &str) -> Vec<String> {
    let Remedy::Tame {
        charts,
        longest,
        rest,
        ..
    } = remedy
    else {
        return Vec::new();
    };
    let after = rest.map(|(after, _)| after);
    let floats = longest.map_or(String::new(), |longest| format!(" --longest {longest}"));
    let relief = after.map_or(String::new(), |after| format!(" --relief {after}"));
    let one = |chart: &String| {
        let beside = format!("{folder}/charts");
        let new = made_over_id(chart, *longest, after);
        format!("yokeward tame {beside}/{chart}.yaml{floats}{relief} --to {beside}/{new}.yaml")
    };
    charts.iter().map(one).collect()
}

/// The id of a chart that was made over: `wall-tamed-4-rest-5`.
#[must_use]
pub fn made_over_id(chart: &str, longest: Option<usize>, rest_after: Option<usize>) -> String {
    let tamed = longest.map_or(String::new(), |longest| format!("-tamed-{longest}"));
    let rested = rest_after.map_or(String::new(), |after| format!("-rest-{after}"));
    format!("{chart}{tamed}{rested}")
}
