//! Even decreases and increases in the trade's short form.

use crate::piece::schedule::RoundWork;
use crate::piece::schedule::even::Spread;
use crate::piece::schedule::runs::{GapRun, Group};
use crate::words::Verbs;
use crate::words::labels::PLAIN_ROUND;

/// `4 times: k 8, k2tog; then 6 times: k 7, k2tog`, in these verbs. What is worked over and over stands behind a colon, up
/// to a semicolon, so that it can be heard as well as read.
#[must_use]
pub fn spread_words(spread: &Spread, verbs: &Verbs) -> String {
    let less = spread.is_decrease();
    let step = |gap: usize, joint: &str| {
        if less {
            one(gap, verbs, (joint, &verbs.less))
        } else {
            one(verbs.before_more(gap), verbs, (joint, &verbs.more))
        }
    };
    let mut parts = Vec::new();
    parts.extend(spread.first.map(|gap| step(gap, ", ")));
    parts.extend(spread.groups.iter().map(|g| group(g, &step)));
    if spread.last > 0 {
        parts.push(verbs.plain(spread.last));
    }
    parts.join("; then ")
}

/// How far a “times:” reaches, where more than one thing follows it; nothing where it is plain.
#[must_use]
pub fn as_a_whole(words: &str) -> &'static str {
    let reach = |part: &str| {
        part.split_once(" times: ")
            .map(|(_, inner)| inner.matches(", ").count())
    };
    let several = words
        .split(&[';', '.'])
        .filter_map(reach)
        .any(|gaps| gaps > 1)
        || words.contains(", once ");
    match several {
        true => " “Times:” holds as far as the semicolon.",
        false => "",
    }
}

/// A gap and a change, with a joint between them.
fn one(gap: usize, verbs: &Verbs, (joint, change): (&str, &str)) -> String {
    if gap == 0 {
        change.to_owned()
    } else {
        format!("{}{joint}{change}", verbs.plain(gap))
    }
}

fn group(group: &Group, step: &dyn Fn(usize, &str) -> String) -> String {
    let over = |times: usize, inner: String| match times {
        1 => inner,
        n => format!("{n} times: {inner}"),
    };
    match group.runs.as_slice() {
        [only] => over(only.times * group.times, step(only.gap, ", ")),
        runs if runs.iter().all(|run| run.times == 1) => {
            let inner: Vec<String> = runs.iter().map(|run| step(run.gap, ", ")).collect();
            over(group.times, inner.join(", "))
        }
        runs => {
            let run = |run: &GapRun| match run.times {
                1 => format!("once {}", step(run.gap, " and ")),
                n => format!("{n} times {}", step(run.gap, " and ")),
            };
            let inner: Vec<String> = runs.iter().map(run).collect();
            over(group.times, inner.join(", "))
        }
    }
}

/// A round of a crown or top, as it stands in a table: what is done and the count it leaves.
#[must_use]
pub fn round_words(work: &RoundWork, after: usize, verbs: &Verbs) -> String {
    match work {
        RoundWork::Plain => PLAIN_ROUND.to_owned(),
        RoundWork::Even(spread) => {
            let less = spread.is_decrease();
            // All round alike needs no count of times.
            let work = match spread.groups.as_slice() {
                [only] if only.runs.len() == 1 && spread.first.is_none() && spread.last == 0 => {
                    let gap = only.runs.first().map_or(0, |run| run.gap);
                    match less {
                        true => one(gap, verbs, (", ", &verbs.less)),
                        false => one(verbs.before_more(gap), verbs, (", ", &verbs.more)),
                    }
                }
                _ => spread_words(spread, verbs),
            };
            format!("{work}: {}", left(after, less))
        }
        RoundWork::Sides { middle } => {
            format!(
                "both sides, {} between: {}",
                verbs.plain(*middle),
                left(after, true)
            )
        }
    }
}

/// A count after a round: `88 left`, or where it grew `96 in all`.
fn left(after: usize, less: bool) -> String {
    if less {
        format!("{after} left")
    } else {
        format!("{after} in all")
    }
}
