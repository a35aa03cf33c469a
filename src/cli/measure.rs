//! `measure`: charts and lessons as numbers; a single chart also as coloured cells.

use crate::app::{self, BareOptions};
use crate::cli::args::MeasureArgs;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::cli::table::Table;
use crate::course::chart::Chart;
use crate::read::{Wanted, load_texts};
use crate::study;

pub(super) fn run(args: &MeasureArgs, screen: &mut Screen) -> Outcome {
    let options = BareOptions {
        gauge: args.gauge,
        limit_stitches: args.limit_stitches.map(usize::from),
        limit_mm: args.limit_mm,
    };
    if args.paths.iter().any(|path| path.as_os_str() == "-") {
        return stream(args, options, screen);
    }
    if args.rows {
        screen.report("error: --rows is for `measure -`; --json has every row anyway");
        return Outcome::CouldNotRun;
    }
    let loaded = match screen.load(&args.paths) {
        Ok(loaded) => loaded,
        Err(outcome) => return outcome,
    };
    let bare_only = |wanted: &Wanted| matches!(wanted, Wanted::Chart(_) | Wanted::Nothing);
    if options.any() && !loaded.iter().all(|one| bare_only(&one.wanted)) {
        screen.report("error: --gauge, --limit-stitches and --limit-mm are for chart files only");
        return Outcome::CouldNotRun;
    }
    let mut outcome = Outcome::Done;
    for one in &loaded {
        screen.faults(&one.faults, &one.sources);
        if one.has_errors() {
            outcome = Outcome::Faults;
        }
    }
    if args.json {
        screen.json(&app::measure(&loaded, options), false);
        return outcome;
    }
    let heads = [
        "what",
        ">rows",
        ">longest",
        ">limit",
        ">over",
        ">colours",
        ">looks",
        ">rest",
        ">looks busy",
        ">grade",
    ];
    let mut table = Table::new(&heads);
    for one in &loaded {
        for lesson in one.wanted_lessons() {
            add(&mut table, &lesson.id, &study::lesson(lesson, &one.course));
        }
        for chart in one.wanted_charts() {
            let studied = app::study_chart(chart, options, &one.course);
            add(&mut table, &chart.id, &studied);
            if matches!(one.wanted, Wanted::Chart(_)) {
                screen.say_as_is(&picture(chart, screen.colour()));
            }
        }
    }
    screen.say(&table.text());
    outcome
}

/// `measure -`: charts from standard input, a JSON object a line.
fn stream(args: &MeasureArgs, options: BareOptions, screen: &mut Screen) -> Outcome {
    if args.paths.len() > 1 {
        screen.report("error: `-` stands for standard input and must stand alone");
        return Outcome::CouldNotRun;
    }
    let course = load_texts("", Vec::new(), false).course;
    let (mut input, mut output) = (std::io::stdin(), std::io::stdout());
    let streamed = app::measure_stream(&mut input, &mut output, args.rows, options, &course);
    match streamed {
        Ok(done) if done.faults > 0 => {
            screen.report(&format!(
                "{} charts measured, {} lines with faults",
                done.charts, done.faults
            ));
            Outcome::Faults
        }
        Ok(_) => Outcome::Done,
        // Whoever closed the pipe has had enough.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Outcome::Done,
        Err(error) => {
            screen.report(&format!("error: the stream broke off: {error}"));
            Outcome::CouldNotRun
        }
    }
}

fn add(table: &mut Table, id: &str, a: &study::Studied<'_>) {
    let (m, tenth) = (&a.measures, crate::cli::grade::tenth);
    table.row(vec![
        id.to_owned(),
        a.work.rows.len().to_string(),
        format!("{} ({:.0} mm)", m.floats.longest, m.floats.longest_mm),
        m.floats.limit.to_string(),
        m.floats.rows_over.to_string(),
        m.colours.most.to_string(),
        tenth(m.reading.looks_16),
        m.relief.rows.to_string(),
        tenth(m.busyness),
        tenth(a.grade.grade),
    ]);
}

/// A chart as drawn: on a terminal in cells of colour, elsewhere as its letters; rows numbered at the right.
fn picture(chart: &Chart, colour: bool) -> String {
    let mut lines = Vec::new();
    for row in (0..chart.height).rev() {
        lines.push(format!("  {} {}", cells_line(chart, row, colour), row + 1));
    }
    lines.push(String::new());
    lines.join("\n")
}

/// A row as drawn, in cells of colour or letters.
pub(super) fn cells_line(chart: &Chart, row: usize, colour: bool) -> String {
    if !colour {
        return chart.drawn_line(row);
    }
    let cells = chart.row(row).iter().rev();
    cells
        .map(|&ink| shade(ink, chart.inks.len()))
        .collect::<String>()
        + "\x1b[0m"
}

/// A cell two characters wide; colours of a bare chart are roles, so steps of grey with the letter's order stand in.
fn shade(ink: u8, inks: usize) -> String {
    let steps = inks.max(2) - 1;
    let level = 236 + usize::from(ink) * 18 / steps;
    format!("\x1b[48;5;{level}m  ")
}
