//! `compare`: two charts side by side, in the terminal and on a sheet.

use std::sync::Arc;

use crate::app::{self, store};
use crate::cli::args::CompareArgs;
use crate::cli::measure::cells_line;
use crate::cli::outcome::Outcome;
use crate::cli::screen::{Screen, WIDTH};
use crate::cli::table::Table;
use crate::course::chart::Chart;
use crate::ground::fault::visible;
use crate::read::{Loaded, Wanted};
use crate::words::labels;

pub(super) fn run(args: &CompareArgs, screen: &mut Screen) -> Outcome {
    let loaded = match screen.load(&[&args.first, &args.second]) {
        Ok(loaded) => loaded,
        Err(outcome) => return outcome,
    };
    let [one, two] = loaded.as_slice() else {
        return Outcome::CouldNotRun;
    };
    let mut faulty = false;
    for one in [one, two] {
        screen.faults(&one.faults, &one.sources);
        faulty |= one.has_errors();
    }
    if faulty {
        return Outcome::Faults;
    }
    let (Some(first), Some(second)) = (chart_of(one), chart_of(two)) else {
        screen.report("error: compare works on two chart files");
        return Outcome::CouldNotRun;
    };
    let pair: [&Chart; 2] = [first, second];
    let compared = app::compare(pair, [&one.course, &two.course], args.black);
    if let Some(to) = &args.to {
        let bytes = match app::compared_sheet(&compared.sheet, one, args.black) {
            Ok(bytes) => bytes,
            Err(fault) => {
                screen.faults(&[*fault], &one.sources);
                return Outcome::Faults;
            }
        };
        if let Err(error) = store::write_new_files(&[(to.clone(), bytes)]) {
            screen.report(&format!("error: {error}"));
            return Outcome::CouldNotRun;
        }
    }
    if args.json {
        screen.json(&compared.report, false);
    } else {
        let colour = screen.colour();
        screen.say_as_is(&side_by_side(pair, colour));
        let mut table = Table::new(&["measured", ">A", ">B"]);
        for (name, [a, b]) in &compared.sheet.measures {
            table.row(vec![name.clone(), a.clone(), b.clone()]);
        }
        screen.say(&table.text());
        let verdict = &compared.sheet.verdict;
        screen.say(&format!("\n{}, {}", verdict.verdict, verdict.why));
    }
    if let Some(to) = &args.to {
        screen.report(&format!("written: {}", to.display()));
    }
    Outcome::Done
}

/// The chart that a path names by itself.
fn chart_of(one: &Loaded) -> Option<&Arc<Chart>> {
    let alone = matches!(one.wanted, Wanted::Chart(_));
    one.wanted_charts().next().filter(|_| alone)
}

/// Both as drawn, standing on one line; one beneath the other where a line cannot hold both.
fn side_by_side([a, b]: [&Chart; 2], colour: bool) -> String {
    let [left, right] = [a, b].map(|chart| lines(chart, colour));
    let cell = if colour { 2 } else { 1 };
    let [wide, narrow] = [a, b].map(|chart| chart.width * cell + 5);
    let titles = [
        visible(&labels::contender("A", &a.title)),
        visible(&labels::contender("B", &b.title)),
    ];
    if wide + narrow + 2 > WIDTH {
        let one = |title: &str, lines: &[String]| format!("{title}\n{}\n", lines.join("\n"));
        return one(&titles[0], &left) + "\n" + &one(&titles[1], &right);
    }
    let height = left.len().max(right.len());
    let at = |lines: &[String], row: usize| {
        let above = height - lines.len();
        row.checked_sub(above)
            .and_then(|row| lines.get(row))
            .cloned()
    };
    let blank = " ".repeat(wide);
    let room = wide.max(titles[0].chars().count());
    let pad = |text: &str, width: usize| " ".repeat(room.saturating_sub(width)) + text;
    let mut all = vec![format!(
        "{}{}  {}",
        titles[0],
        " ".repeat(room.saturating_sub(titles[0].chars().count())),
        titles[1]
    )];
    for row in 0..height {
        let left = at(&left, row).unwrap_or_else(|| blank.clone());
        let line = format!(
            "{}  {}",
            pad(&left, wide),
            at(&right, row).unwrap_or_default()
        );
        all.push(line.trim_end().to_owned());
    }
    all.push(String::new());
    all.join("\n")
}

/// The rows of a chart from the top, numbered at the right; none of one that may not be printed.
fn lines(chart: &Chart, colour: bool) -> Vec<String> {
    let rows = (0..chart.height).rev();
    if !chart.rights.may_print() {
        return Vec::new();
    }
    rows.map(|row| format!("{} {:<4}", cells_line(chart, row, colour), row + 1))
        .collect()
}
