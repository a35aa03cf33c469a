//! The command line: names, help, options. Nothing is done here.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};
use clap_complete::Shell;

/// Graded colourwork courses: measures charts, orders lessons, prints handouts.
///
/// Busy-looking charts are often easy and calm-looking ones often hard. Yokeward measures what the hands and eyes
/// must really do, puts the lessons in an order that asks one new thing at a time, and prints a handout for each.
#[derive(Debug, Parser)]
#[command(
    name = "yokeward",
    version,
    max_term_width = 100,
    after_help = "\
Start here:
  yokeward begin my-course        lay out a small course to change
  yokeward proof my-course        find every fault, write nothing
  yokeward order my-course        see the order and the size of each step
  yokeward pack my-course         make the handouts

Exit codes: 0 done, 1 faults found, 2 could not run."
)]
pub(super) struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub(super) command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Lay out a small course that packs without a fault.
    Begin(BeginArgs),
    /// Report every fault of a course; write nothing.
    Proof(ProofArgs),
    /// Measure charts and lessons: floats, colours, reading, relief.
    Measure(MeasureArgs),
    /// Grade the lessons of a course, with the cause of each part.
    Grade(CourseArgs),
    /// Put the lessons in the order with the smallest largest step.
    Order(CourseArgs),
    /// Shorten a chart's floats, or give it rows for rest, in a new file.
    Tame(TameArgs),
    /// Make the whole set of handouts.
    Pack(PackArgs),
    /// Print the JSON Schema of course, lesson and chart files.
    Schema,
    /// Say why a fault matters and how to mend it.
    Explain(ExplainArgs),
    /// Print completions for a shell.
    Completions(CompletionsArgs),
}

/// A course folder and the form of the answer.
#[derive(Args, Debug)]
pub(super) struct CourseArgs {
    /// The course folder.
    #[arg(default_value = "lessons")]
    pub(super) course: PathBuf,
    /// Answer in JSON.
    #[arg(long)]
    pub(super) json: bool,
}

/// Arguments of `begin`.
#[derive(Args, Debug)]
#[command(after_help = "The folder must be new or empty. Afterwards: yokeward pack DIR")]
pub(super) struct BeginArgs {
    /// Where to lay the course out.
    pub(super) dir: PathBuf,
}

/// Arguments of `proof`.
#[derive(Args, Debug)]
pub(super) struct ProofArgs {
    /// The course folder.
    #[arg(default_value = "lessons")]
    pub(super) course: PathBuf,
    /// Answer in JSON.
    #[arg(long)]
    pub(super) json: bool,
    /// One line a fault: file:line:column.
    #[arg(long, conflicts_with = "json")]
    pub(super) concise: bool,
}

/// Arguments of `measure`.
#[derive(Args, Debug)]
#[command(after_help = "\
A bare chart is measured at 20 stitches and 26 rows to 10 cm on a round of 96 stitches; a lesson as it is worked in
its middle size. The three options below are for bare charts only.

  yokeward measure lessons/charts/pebble.yaml --gauge 14     the same chart in bulky yarn")]
pub(super) struct MeasureArgs {
    /// Chart files, lesson files or course folders.
    #[arg(default_value = "lessons")]
    pub(super) paths: Vec<PathBuf>,
    /// Answer in JSON, with every row.
    #[arg(long)]
    pub(super) json: bool,
    /// Stitches to 10 cm (bare charts only).
    #[arg(long, value_name = "N", value_parser = positive)]
    pub(super) gauge: Option<f64>,
    /// Most stitches a float may pass (bare charts only).
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub(super) limit_stitches: Option<u16>,
    /// Longest free strand in mm (bare charts only).
    #[arg(long, value_name = "MM", value_parser = positive)]
    pub(super) limit_mm: Option<f64>,
}

fn positive(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(value) if value > 0.0 && value <= 10_000.0 => Ok(value),
        _ => Err("must be a number above 0".to_owned()),
    }
}

/// Arguments of `tame`.
#[derive(Args, Debug)]
#[command(after_help = "\
The fewest cells are recoloured that do it; every colour of a row stays in the row. The chart itself is never touched:
the new one goes to ID-tamed-N.yaml in the current folder, or where --to says.

  yokeward tame lessons/charts/pebble.yaml --longest 2
  yokeward tame lessons/charts/pebble.yaml --longest 4 --relief 3 --picture pebble.svg")]
pub(super) struct TameArgs {
    /// A chart file.
    pub(super) chart: PathBuf,
    /// The longest float, in stitches.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=100), required_unless_present = "relief")]
    pub(super) longest: Option<u16>,
    /// Keep the left-right axis that every row has.
    #[arg(long, requires = "longest")]
    pub(super) mirror: bool,
    /// Leave the outermost stitches of flat work alone.
    #[arg(long, requires = "longest")]
    pub(super) keep_edges: bool,
    /// Put a plain row after every N rows of two or more colours.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub(super) relief: Option<u16>,
    /// Where the new chart goes; never over a file.
    #[arg(long, value_name = "FILE")]
    pub(super) to: Option<PathBuf>,
    /// Draw the chart before and after, as SVG; never over a file.
    #[arg(long, value_name = "FILE")]
    pub(super) picture: Option<PathBuf>,
    /// Answer in JSON; a file is written only with --to.
    #[arg(long)]
    pub(super) json: bool,
}

/// Arguments of `pack`.
#[derive(Args, Debug)]
#[command(after_help = "\
The set is built in memory and swapped in at once: a run that fails or is interrupted leaves the old set whole.
Files that you put beside ours in the set's folder are carried over.")]
pub(super) struct PackArgs {
    /// The course folder.
    #[arg(default_value = "lessons")]
    pub(super) course: PathBuf,
    /// Folder that the set's own folder is made in.
    #[arg(long, value_name = "DIR", default_value = "out")]
    pub(super) to: PathBuf,
    /// Paper, instead of the course's.
    #[arg(long, value_parser = ["a4", "letter"])]
    pub(super) paper: Option<String>,
}

/// Arguments of `explain`.
#[derive(Args, Debug)]
pub(super) struct ExplainArgs {
    /// The code in brackets of a fault; without it, all codes are listed.
    pub(super) code: Option<String>,
}

/// Arguments of `completions`.
#[derive(Args, Debug)]
pub(super) struct CompletionsArgs {
    /// The shell.
    pub(super) shell: Shell,
}
