//! What is said of a chart: how to read it, where to catch, whose it is.

use crate::course::chart::{Chart, Rights, Worked};
use crate::rows::catches::{self, Catch, WorkOver};
use crate::study::Studied;
use crate::words::{RowNames, Wording, count, join_and, list_and};

/// Which way a chart is read, in Markdown.
#[must_use]
pub fn reading(worked: Worked, wording: Wording) -> String {
    let (here, there) = (wording.right(), wording.left());
    match worked {
        Worked::Round => format!(
            "Start at the bottom {here}. Read **every round** from {here} to {there}, then go up to the next line."
        ),
        Worked::Flat => format!(
            "Start at the bottom {here}. Read odd rows (the right side) from {here} to {there}, even rows from {there} to \
             {here}. A number stands at the side where its row begins."
        ),
    }
}

/// `. Catch Fleece behind stitches 4 and 9`; where not all columns are `live`, the worked stitches are counted.
#[must_use]
pub fn catch_words(
    plan: &[Catch],
    names: &RowNames,
    live: bool,
    number: &dyn Fn(&Catch) -> usize,
) -> String {
    let mut colours: Vec<u8> = plan.iter().map(|c| c.colour).collect();
    colours.sort_unstable();
    colours.dedup();
    colours
        .into_iter()
        .map(|colour| {
            let mut stitches: Vec<usize> = plan
                .iter()
                .filter(|c| c.colour == colour)
                .map(number)
                .collect();
            stitches.sort_unstable();
            stitches.dedup();
            let word = match (stitches.len(), live) {
                (1, true) => "stitch",
                (1, false) => "worked stitch",
                (_, true) => "stitches",
                (_, false) => "worked stitches",
            };
            format!(
                ". Catch {} behind {word} {}",
                names.colour(colour),
                list_and(&stitches)
            )
        })
        .collect()
}

/// What is better not carried at all in this row, and why.
#[must_use]
pub fn work_over_words(studied: &Studied<'_>, index: usize, names: &RowNames) -> String {
    let work = &studied.work;
    let (Some(row), Some(measures)) = (work.rows.get(index), studied.measures.rows.get(index))
    else {
        return String::new();
    };
    catches::worked_over(work, row, measures)
        .into_iter()
        .map(|(colour, why)| {
            let name = names.colour(colour);
            let line = names.line;
            match why {
                WorkOver::Alone(of) => format!(
                    ". Or leave {name} out of this {line} and work its one stitch over afterwards: one in {of} is not \
                     worth a strand"
                ),
                WorkOver::Caught(stitches, catches) => format!(
                    ". Or leave {name} out of this {line} and work its stitches over afterwards: a strand past {stitches} \
                     would be caught {catches} times, which shows"
                ),
            }
        })
        .collect()
}

/// A chart for those who cannot see it; `yarns` are those of its inks.
#[must_use]
pub fn chart_alt(chart: &Chart, yarns: &[String], names: &RowNames) -> String {
    format!(
        "Chart {}: {} by {}, in {}. The same is said under “The {} in words”.",
        chart.title,
        count(chart.width, "stitch", "stitches"),
        count(chart.height, names.line, names.lines),
        join_and(yarns),
        names.lines,
    )
}

/// Rights and source of a chart in a sentence.
#[must_use]
pub fn rights_text(chart: &Chart) -> String {
    let rights = match &chart.rights {
        Rights::Own => "own work, free to copy for your class".to_owned(),
        Rights::PublicDomain => "in the public domain".to_owned(),
        Rights::Permission { from, scope } => format!("by permission of {from}, for {scope} use"),
        Rights::ReferenceOnly => {
            "not ours to copy: please bring your own copy of the chart".to_owned()
        }
    };
    let source = chart.source.as_deref().unwrap_or("").trim();
    let stop = if source.is_empty() || source.ends_with(['.', '!', '?']) {
        ""
    } else {
        "."
    };
    format!("Chart “{}”: {rights}. {source}{stop}", chart.title)
        .trim_end()
        .to_owned()
}
