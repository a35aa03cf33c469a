//! `tame`: a new chart file with shorter floats, or with rows for rest.

use std::path::PathBuf;

use crate::app::store;
use crate::app::{self, BareOptions};
use crate::cli::args::TameArgs;
use crate::cli::grade::tenth;
use crate::cli::measure::cells_line;
use crate::cli::outcome::Outcome;
use crate::cli::screen::{Screen, WIDTH};
use crate::cli::table::Table;
use crate::course::chart::{Chart, to_yaml};
use crate::ground::fault::{Code, Fault};
use crate::read::Loaded;
use crate::report::TameReport;
use crate::rows::tame::{Refusal, Request, Tamed, longest_float, rest_after, tame};
use crate::words::{count, made_over_id};

pub(super) fn run(args: &TameArgs, screen: &mut Screen) -> Outcome {
    let (one, chart) = match screen.chart(&args.chart, "tame") {
        Ok(read) => read,
        Err(outcome) => return outcome,
    };
    let request = Request {
        longest: args
            .longest
            .map_or_else(|| longest_float(&chart), usize::from),
        mirror: args.mirror,
        keep_edges: args.keep_edges,
        share: 1,
    };
    let tamed = match tame(&chart, request) {
        Ok(tamed) => tamed,
        Err(refusal) => {
            let fault: Vec<Fault> = refused(&chart, request, refusal).into_iter().collect();
            screen.faults(&fault, &one.sources);
            return Outcome::Faults;
        }
    };
    let (written, relief) = match args.relief {
        Some(after) => {
            let (chart, rows) = rest_after(&tamed.chart, usize::from(after));
            (chart, Some(rows))
        }
        None => (tamed.chart.clone(), None),
    };
    let changed = !tamed.cells.is_empty() || relief.as_ref().is_some_and(|rows| !rows.is_empty());
    let remark = remark(&chart, args, &tamed, relief.as_deref());
    let mut files: Vec<(PathBuf, Vec<u8>)> = Vec::new();
    let to = args.to.clone().or_else(|| {
        let name = || PathBuf::from(format!("{}.yaml", new_id(&chart, args)));
        (changed && !args.json).then(name)
    });
    if let Some(to) = to {
        files.push((
            to,
            to_yaml(&written, std::slice::from_ref(&remark)).into_bytes(),
        ));
    }
    if let Some(picture) = &args.picture {
        let drawing = app::before_and_after(&chart, &written, &tamed.cells, &remark);
        files.push((picture.clone(), drawing.into_bytes()));
    }
    if let Err(error) = store::write_new_files(&files) {
        screen.report(&format!("error: {error}"));
        return Outcome::CouldNotRun;
    }
    if args.json {
        let report = TameReport::new(&tamed, &written, relief.as_deref());
        screen.json(&report, false);
    } else {
        screen.say(&remark);
        show(&one, &chart, &written, &tamed, relief.as_deref(), screen);
    }
    for (path, _) in &files {
        screen.report(&format!("written: {}", path.display()));
    }
    if args.picture.is_some() && !chart.rights.may_print() {
        screen.report("this chart is for reference only: the picture is for your own eyes, not to be copied or handed out");
    }
    Outcome::Done
}

fn new_id(chart: &Chart, args: &TameArgs) -> String {
    made_over_id(
        &chart.id,
        args.longest.map(usize::from),
        args.relief.map(usize::from),
    )
}

/// The refusal as a fault at its row. A chart that was read has a place for each row.
fn refused(chart: &Chart, request: Request, refusal: Refusal) -> Option<Fault> {
    let place = |row: usize| chart.places.get(row).copied();
    Some(match refusal {
        Refusal::NoAxis => Fault::new(
            Code::NoAxis,
            format!("`{}` has no left-right axis that every row has", chart.id),
            place(chart.height.saturating_sub(1))?,
            "the rows begin here",
        )
        .help("leave off --mirror, or make each row equal to its reflection first"),
        Refusal::TooShort { row, smallest } => Fault::new(
            Code::CannotTame,
            format!(
                "no colouring of `{}` has floats of at most {}",
                chart.id,
                count(request.longest, "stitch", "stitches")
            ),
            place(row)?,
            match (request.mirror, request.keep_edges) {
                (true, _) => format!("row {} cannot stay mirrored with floats so short", row + 1),
                (_, true) => format!("row {} cannot keep its ends with floats so short", row + 1),
                _ => format!("row {} has too few stitches for its colours", row + 1),
            },
        )
        .help(format!(
            "the smallest that works for this chart{} is --longest {smallest}",
            match (request.mirror, request.keep_edges) {
                (true, _) => " with --mirror",
                (false, true) => " with --keep-edges",
                (false, false) => "",
            }
        )),
    })
}

/// What changed, in a sentence.
fn remark(chart: &Chart, args: &TameArgs, tamed: &Tamed, relief: Option<&[usize]>) -> String {
    let mut said = Vec::new();
    if let Some(longest) = args.longest {
        let cells = tamed.cells.len();
        let fewest = match (cells, tamed.exact) {
            (0, _) => "",
            (_, true) => ", the fewest possible",
            (_, false) => ", the best found",
        };
        let axis = match tamed.axis {
            Some(axis) => format!(", mirrored on axis {axis}"),
            None => String::new(),
        };
        said.push(format!(
            "no float over {}: {} recoloured{fewest}{axis}",
            count(usize::from(longest), "stitch", "stitches"),
            count(cells, "cell", "cells"),
        ));
    }
    if let (Some(after), Some(rows)) = (args.relief, relief) {
        said.push(format!(
            "rest after every {}: {} put in",
            count(usize::from(after), "stranded row", "stranded rows"),
            count(rows.len(), "plain row", "plain rows")
        ));
    }
    format!(
        "{} made from {}: {}",
        new_id(chart, args),
        chart.id,
        said.join("; ")
    )
}

/// Before and after, side by side where both fit a line, and what became of the measures.
fn show(
    one: &Loaded,
    before: &Chart,
    after: &Chart,
    tamed: &Tamed,
    relief: Option<&[usize]>,
    screen: &mut Screen,
) {
    let relief = relief.unwrap_or_default();
    let colour = screen.colour();
    let narrow = 2 * before.width * if colour { 2 } else { 1 } + 16 <= WIDTH;
    let mut old_row = before.height;
    for row in (0..after.height).rev() {
        let new = relief.contains(&(row + 1));
        if !new {
            old_row -= 1;
        }
        let changed = !new && tamed.cells.iter().any(|cell| cell.row == old_row);
        let mark = match (new, changed) {
            (true, _) => "  rest",
            (false, true) => "  <",
            (false, false) => "",
        };
        let left = if new {
            " ".repeat(before.width * if colour { 2 } else { 1 })
        } else {
            cells_line(before, old_row, colour)
        };
        let number = if new {
            String::new()
        } else {
            (old_row + 1).to_string()
        };
        let right = cells_line(after, row, colour);
        if narrow {
            screen.say_as_is(&format!("  {left} {number:<4}  {right} {}{mark}", row + 1));
        } else if new {
            screen.say_as_is(&format!("  put in, row {}:\n  {right}", row + 1));
        } else if changed {
            let title = format!("  row {number}, before and after:");
            screen.say_as_is(&format!("{title}\n  {left}\n  {right}"));
        }
    }
    let study = |chart| app::study_chart(chart, BareOptions::default(), &one.course);
    let (a, b) = (study(before), study(after));
    let mut table = Table::new(&["measured", ">before", ">after"]);
    let longest = |m: &crate::rows::measure::Measures| {
        format!("{} ({:.0} mm)", m.floats.longest, m.floats.longest_mm)
    };
    table.row(vec![
        "longest float".to_owned(),
        longest(&a.measures),
        longest(&b.measures),
    ]);
    for (name, x, y) in [
        (
            "rows over the limit",
            a.measures.floats.rows_over,
            b.measures.floats.rows_over,
        ),
        (
            "catches in a repeat",
            a.measures.floats.catches,
            b.measures.floats.catches,
        ),
        (
            "rows without rest",
            a.measures.relief.stretch,
            b.measures.relief.stretch,
        ),
    ] {
        table.row(vec![name.to_owned(), x.to_string(), y.to_string()]);
    }
    table.row(vec![
        "how hard, of 100".to_owned(),
        tenth(a.grade.grade),
        tenth(b.grade.grade),
    ]);
    screen.say("");
    screen.say(&table.text());
}
