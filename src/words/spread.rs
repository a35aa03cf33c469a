//! Even decreases and increases in the trade's short form.

use crate::piece::schedule::RoundWork;
use crate::piece::schedule::even::Spread;
use crate::piece::schedule::runs::{GapRun, Group};
use crate::words::labels::PLAIN_ROUND;
use crate::words::{Verbs, count};

/// `[k 8, k2tog] 4 times, [k 7, k2tog] 6 times`, in these verbs.
#[must_use]
pub fn spread_words(spread: &Spread, verbs: &Verbs) -> String {
    let less = spread.is_decrease();
    let step = |gap: usize| {
        if less {
            one(gap, verbs, &verbs.less)
        } else {
            one(verbs.before_more(gap), verbs, &verbs.more)
        }
    };
    let mut parts = Vec::new();
    parts.extend(spread.first.map(step));
    parts.extend(spread.groups.iter().map(|g| group(g, &step)));
    if spread.last > 0 {
        parts.push(verbs.plain(spread.last));
    }
    parts.join(", ")
}

fn one(gap: usize, verbs: &Verbs, change: &str) -> String {
    if gap == 0 {
        change.to_owned()
    } else {
        format!("{}, {change}", verbs.plain(gap))
    }
}

fn group(group: &Group, step: &dyn Fn(usize) -> String) -> String {
    let times = |n: usize| count(n, "time", "times");
    let run = |run: &GapRun| {
        let inner = step(run.gap);
        match run.times {
            1 => inner,
            n => format!("[{inner}] {}", times(n)),
        }
    };
    match group.runs.as_slice() {
        [only] => {
            let all = only.times * group.times;
            run(&GapRun {
                gap: only.gap,
                times: all,
            })
        }
        runs => {
            let inner: Vec<String> = runs.iter().map(run).collect();
            match group.times {
                1 => inner.join(", "),
                n => format!("({}) {}", inner.join(", "), times(n)),
            }
        }
    }
}

/// A round of a crown or top, as it stands in a table: what is done and the count it leaves.
#[must_use]
pub fn round_words(work: &RoundWork, after: usize, verbs: &Verbs) -> String {
    match work {
        RoundWork::Plain => PLAIN_ROUND.to_owned(),
        // All round alike needs no count of times.
        RoundWork::Even(spread) => match spread.groups.as_slice() {
            [only] if only.runs.len() == 1 && spread.first.is_none() && spread.last == 0 => {
                let gap = only.runs.first().map_or(0, |run| run.gap);
                let once = if spread.is_decrease() {
                    one(gap, verbs, &verbs.less)
                } else {
                    one(verbs.before_more(gap), verbs, &verbs.more)
                };
                format!("{once}: {after}")
            }
            _ => format!("{}: {after}", spread_words(spread, verbs)),
        },
        RoundWork::Sides { middle } => {
            format!("both sides, {} between: {after}", verbs.plain(*middle))
        }
    }
}
