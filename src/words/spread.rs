//! Even decreases and increases in the trade's short form.

use crate::course::Craft;
use crate::piece::schedule::RoundWork;
use crate::piece::schedule::even::Spread;
use crate::piece::schedule::runs::{GapRun, Group};
use crate::words::count;

/// The verbs of a craft for plain stitches, two to one, one more.
#[must_use]
pub fn short_verbs(craft: Craft) -> (&'static str, &'static str, &'static str) {
    match craft {
        Craft::Knit => ("k", "k2tog", "make 1"),
        Craft::Crochet | Craft::Tunisian => ("work", "work 2 together", "2 in the next"),
        Craft::CountedThread => ("stitch", "leave 1 out", "add 1"),
    }
}

/// The same of knitting on the way back, where stitches are purled.
pub const PURLED: (&str, &str, &str) = ("p", "p2tog", "make 1 purlwise");

/// `[k 8, k2tog] 4 times, [k 7, k2tog] 6 times`.
#[must_use]
pub fn spread_words(spread: &Spread, craft: Craft) -> String {
    spread_in(spread, short_verbs(craft))
}

/// The same in these verbs.
#[must_use]
pub fn spread_in(spread: &Spread, verbs: (&str, &str, &str)) -> String {
    let (plain, less, more) = verbs;
    let change = if spread.is_decrease() { less } else { more };
    let mut parts = Vec::new();
    if let Some(gap) = spread.first {
        parts.push(one(gap, plain, change));
    }
    parts.extend(spread.groups.iter().map(|g| group(g, plain, change)));
    if spread.last > 0 {
        parts.push(format!("{plain} {}", spread.last));
    }
    parts.join(", ")
}

fn one(gap: usize, plain: &str, change: &str) -> String {
    if gap == 0 {
        change.to_owned()
    } else {
        format!("{plain} {gap}, {change}")
    }
}

fn group(group: &Group, plain: &str, change: &str) -> String {
    let times = |n: usize| count(n, "time", "times");
    let run = |run: &GapRun| {
        let inner = one(run.gap, plain, change);
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
pub fn round_words(work: &RoundWork, after: usize, craft: Craft) -> String {
    match work {
        RoundWork::Plain => "plain".to_owned(),
        // All round alike needs no count of times.
        RoundWork::Even(spread) => match spread.groups.as_slice() {
            [only] if only.runs.len() == 1 && spread.first.is_none() && spread.last == 0 => {
                let (plain, less, _) = short_verbs(craft);
                let gap = only.runs.first().map_or(0, |run| run.gap);
                format!("{}: {after}", one(gap, plain, less))
            }
            _ => format!("{}: {after}", spread_words(spread, craft)),
        },
        RoundWork::Sides { middle } => {
            let (plain, _, _) = short_verbs(craft);
            format!("both sides, {plain} {middle} between: {after}")
        }
    }
}
