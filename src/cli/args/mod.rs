//! The command line: names, help, options. Nothing is done here.

mod desk;
mod learner;
mod values;

use std::path::PathBuf;

use crate::cli::args::values::{corners, length, positive, stitches_to_10_cm};
use crate::report;
use clap::{Args, Parser, Subcommand};
use clap_complete::Shell;

pub(in crate::cli) use desk::DeskArgs;
pub(in crate::cli) use learner::{NextArgs, RecordArgs, RouteArgs};

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
pub(in crate::cli) struct Cli {
    /// Follow links in a course that lead out of its folder.
    #[arg(long)]
    pub(in crate::cli) links_out: bool,
    /// What to do.
    #[command(subcommand)]
    pub(in crate::cli) command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(in crate::cli) enum Command {
    /// Lay out a small course that packs without a fault.
    Begin(BeginArgs),
    /// Report every fault of a course; write nothing.
    Proof(ProofArgs),
    /// Measure charts and lessons: floats, colours, reading, relief.
    Measure(MeasureArgs),
    /// Grade the lessons of a course, with the cause of each part.
    Grade(CourseArgs),
    /// Put the lessons in the order with the smallest largest step.
    Order(OrderArgs),
    /// Shorten a chart's floats, or give it rows for rest, in a new file.
    Tame(TameArgs),
    /// Read a chart from its picture: squared paper, a scan, a photograph, a drawing of pixels.
    Trace(TraceArgs),
    /// Lay two charts side by side: which is harder, and why.
    Compare(CompareArgs),
    /// Propose what to do next, from a log of what was done.
    Next(NextArgs),
    /// Add an entry to a log.
    Record(RecordArgs),
    /// Find the gentlest way to a lesson through a library.
    Route(RouteArgs),
    /// Say whom each size fits, at your gauge or as it is finished.
    Fit(FitArgs),
    /// Fit the weights of the grade to judgements "this is harder than that".
    Judge(JudgeArgs),
    /// Make the whole set of handouts.
    Pack(PackArgs),
    /// Open a page in the browser on which the whole work can be done.
    Desk(DeskArgs),
    /// Print the JSON Schema of course, lesson and chart files, or of an answer.
    Schema(SchemaArgs),
    /// Say why a fault matters and how to mend it.
    Explain(ExplainArgs),
    /// Print completions for a shell.
    Completions(CompletionsArgs),
    /// Print what the program is built from, and under which licences.
    Notices,
}

/// Which schema.
#[derive(Args, Debug)]
pub(in crate::cli) struct SchemaArgs {
    /// Of what a command gives as JSON, instead of the files it reads
    #[arg(long, value_name = "ANSWER", value_parser = report::FORMATS.map(|(name, _)| name))]
    pub(in crate::cli) of: Option<String>,
}

/// A course folder and the form of the answer.
#[derive(Args, Debug)]
pub(in crate::cli) struct CourseArgs {
    /// The course folder.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) course: PathBuf,
    /// Answer in JSON.
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Arguments of `order`.
#[derive(Args, Debug)]
#[command(after_help = "\
A step over the budget is a gap. What would close it is worked out and tried: something easier in between (from charts
that no lesson uses, and from --library), shorter floats, rows for rest, one lesson less in a `needs`.

  yokeward order lessons --library ../old-course --library ../shelf")]
pub(in crate::cli) struct OrderArgs {
    /// The course folder.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) course: PathBuf,
    /// Courses and charts to fill gaps from; may be given several times.
    #[arg(long, value_name = "DIR")]
    pub(in crate::cli) library: Vec<PathBuf>,
    /// Answer in JSON.
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Arguments of `begin`.
#[derive(Args, Debug)]
#[command(after_help = "The folder must be new or empty. Afterwards: yokeward pack DIR")]
pub(in crate::cli) struct BeginArgs {
    /// Where to lay the course out.
    pub(in crate::cli) dir: PathBuf,
}

/// Arguments of `proof`.
#[derive(Args, Debug)]
pub(in crate::cli) struct ProofArgs {
    /// The course folder.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) course: PathBuf,
    /// Answer in JSON.
    #[arg(long)]
    pub(in crate::cli) json: bool,
    /// One line a fault: file:line:column.
    #[arg(long, conflicts_with = "json")]
    pub(in crate::cli) concise: bool,
}

/// Arguments of `measure`.
#[derive(Args, Debug)]
#[command(after_help = "\
A bare chart is measured at 20 stitches and 26 rows to 10 cm on a round of 96 stitches; a lesson as it is worked in
its middle size. The three options below are for bare charts only.

  yokeward measure lessons/charts/pebble.yaml --gauge 14     the same chart in bulky yarn")]
pub(in crate::cli) struct MeasureArgs {
    /// Chart files, lesson files or course folders; `-` for a stream of charts.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) paths: Vec<PathBuf>,
    /// With `-`: answer with every row of every chart.
    #[arg(long)]
    pub(in crate::cli) rows: bool,
    /// Answer in JSON, with every row.
    #[arg(long)]
    pub(in crate::cli) json: bool,
    /// Stitches to 10 cm (bare charts only).
    #[arg(long, value_name = "N", value_parser = positive)]
    pub(in crate::cli) gauge: Option<f64>,
    /// Most stitches a float may pass (bare charts only).
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub(in crate::cli) limit_stitches: Option<u16>,
    /// Longest free strand in mm (bare charts only).
    #[arg(long, value_name = "MM", value_parser = positive)]
    pub(in crate::cli) limit_mm: Option<f64>,
}

/// Arguments of `tame`.
#[derive(Args, Debug)]
#[command(after_help = "\
The fewest cells are recoloured that do it; every colour of a row stays in the row. The chart itself is never touched:
the new one goes to ID-tamed-N.yaml in the current folder, or where --to says.

  yokeward tame lessons/charts/pebble.yaml --longest 2
  yokeward tame lessons/charts/pebble.yaml --longest 4 --relief 3 --picture pebble.svg")]
pub(in crate::cli) struct TameArgs {
    /// A chart file.
    pub(in crate::cli) chart: PathBuf,
    /// The longest float, in stitches.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=100), required_unless_present = "relief")]
    pub(in crate::cli) longest: Option<u16>,
    /// Keep the left-right axis that every row has.
    #[arg(long, requires = "longest")]
    pub(in crate::cli) mirror: bool,
    /// Leave the outermost stitches of flat work alone.
    #[arg(long, requires = "longest")]
    pub(in crate::cli) keep_edges: bool,
    /// Put a plain row after every N rows of two or more colours.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub(in crate::cli) relief: Option<u16>,
    /// Where the new chart goes; never over a file.
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) to: Option<PathBuf>,
    /// Draw the chart before and after, as SVG; never over a file.
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) picture: Option<PathBuf>,
    /// Answer in JSON; a file is written only with --to.
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Arguments of `trace`.
#[derive(Args, Debug)]
#[command(after_help = "\
The grid is found and straightened; what is not beyond doubt is told, never guessed.
The chart goes to a file named as the picture, in the current folder, or where --to says, with the
cells to look at on top. It may be looked at, not printed, until you say whose it is: rights and
source are yours to fill in.

  yokeward trace squared-paper.jpg --check seen.png
  yokeward trace scan.png --corners \"120,88 910,95 904,760 115,751\" --stitches 24 --rows 20
  yokeward trace --back lessons/charts/pebble.yaml --to pebble.png")]
pub(in crate::cli) struct TraceArgs {
    /// A picture: PNG, JPEG, WebP or GIF; with --back a chart file.
    #[arg(value_name = "PICTURE")]
    pub(in crate::cli) picture: PathBuf,
    /// Where the chart goes; never over a file.
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) to: Option<PathBuf>,
    /// How many stitches there are.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=500), requires = "rows")]
    pub(in crate::cli) stitches: Option<u16>,
    /// How many rows there are.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=500), requires = "stitches")]
    pub(in crate::cli) rows: Option<u16>,
    /// The corners of the chart in pixels, clockwise from the top left: "x,y x,y x,y x,y".
    #[arg(long, value_name = "CORNERS", value_parser = corners, allow_hyphen_values = true)]
    pub(in crate::cli) corners: Option<[[f64; 2]; 4]>,
    /// How many colours there are, if they are told apart wrongly.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(2..=12))]
    pub(in crate::cli) colours: Option<u16>,
    /// Draw the straightened picture beside what was read, as PNG; never over a file.
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) check: Option<PathBuf>,
    /// Write a chart as a picture instead, one pixel a cell.
    #[arg(long, conflicts_with_all = ["stitches", "rows", "corners", "colours", "check", "json"])]
    pub(in crate::cli) back: bool,
    /// Answer in JSON; a file is written only with --to.
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Arguments of `compare`.
#[derive(Args, Debug)]
#[command(after_help = "\
Both are measured alike, with the limit and weights of the first one's course.

  yokeward compare lessons/charts/grains.yaml lessons/charts/drizzle.yaml --to pair.pdf")]
pub(in crate::cli) struct CompareArgs {
    /// A chart file.
    pub(in crate::cli) first: PathBuf,
    /// Another one.
    pub(in crate::cli) second: PathBuf,
    /// A sheet to print, as PDF; never over a file.
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) to: Option<PathBuf>,
    /// The sheet for a printer of black only: greys for colours.
    #[arg(long, requires = "to")]
    pub(in crate::cli) black: bool,
    /// Answer in JSON.
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Arguments of `fit`.
#[derive(Args, Debug)]
#[command(after_help = "\
Every size: counts, girth, whom it fits:
  yokeward fit lessons/06-pebble-hat.yaml
The same counts at your gauge:
  yokeward fit lessons/06-pebble-hat.yaml --gauge 22
A finished piece: your gauge, whom it fits:
  yokeward fit lessons/06-pebble-hat.yaml --stitches 96 --girth \"51 cm\"")]
pub(in crate::cli) struct FitArgs {
    /// A lesson file, or a course folder for all its lessons.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) lesson: PathBuf,
    /// Your stitches to 10 cm, or over another length, such as "18 to 4 in".
    #[arg(long, value_name = "N", value_parser = stitches_to_10_cm)]
    pub(in crate::cli) gauge: Option<f64>,
    /// Your needle in mm; without it the lesson's.
    #[arg(long, value_name = "MM", value_parser = positive)]
    pub(in crate::cli) needle: Option<f64>,
    /// Stitches of a finished piece, all round.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=5000), requires = "girth")]
    pub(in crate::cli) stitches: Option<u16>,
    /// What the finished piece measures all round, such as "51 cm".
    #[arg(long, value_name = "LENGTH", value_parser = length, requires = "stitches")]
    pub(in crate::cli) girth: Option<crate::ground::units::Length>,
    /// Answer in JSON, with whole schedules.
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Arguments of `judge`.
#[derive(Args, Debug)]
#[command(after_help = "\
The judgements are a list in a file of its own:

  pairs:
    - harder: starfish-hat
      easier: drizzle-hat
    - { harder: reed-scarf, easier: pebble-hat, times: 3 }

The weights it has now are believed until judgements say otherwise; none falls below 0.")]
pub(in crate::cli) struct JudgeArgs {
    /// The file of judgements.
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) pairs: PathBuf,
    /// The course folder that holds the things judged.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) course: PathBuf,
    /// Write the new weights to course.yaml.
    #[arg(long)]
    pub(in crate::cli) write: bool,
    /// Answer in JSON.
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Arguments of `pack`.
#[derive(Args, Debug)]
#[command(after_help = "\
The set is built in memory and swapped in at once: a run that fails or is interrupted leaves the old set whole.
Files that you put beside ours in the set's folder are carried over.")]
pub(in crate::cli) struct PackArgs {
    /// The course folder.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) course: PathBuf,
    /// Folder that the set's own folder is made in.
    #[arg(long, value_name = "DIR", default_value = "out")]
    pub(in crate::cli) to: PathBuf,
    /// Courses whose charts the quiz may ask about, too; may be given several times.
    #[arg(long, value_name = "DIR")]
    pub(in crate::cli) library: Vec<PathBuf>,
    /// Paper, instead of the course's.
    #[arg(long, value_parser = ["a4", "letter"])]
    pub(in crate::cli) paper: Option<String>,
    /// For a printer of black only: yarns by their symbols, without colour.
    #[arg(long)]
    pub(in crate::cli) black: bool,
    /// Large print: text of 18 pt, chart cells of 7 mm and more.
    #[arg(long)]
    pub(in crate::cli) large: bool,
    /// For those who work from left to right: charts begin at the bottom left, numbers, words and catches with them.
    #[arg(long)]
    pub(in crate::cli) left_handed: bool,
    /// A learner's own size, made bold wherever it stands among others.
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) size: Option<String>,
    /// That size alone, in the lessons that have it.
    #[arg(long, requires = "size")]
    pub(in crate::cli) alone: bool,
    /// All handouts for each learner whom course.yaml names, in her size alone: learners/01-wren.pdf.
    #[arg(long, conflicts_with = "size")]
    pub(in crate::cli) for_all: bool,
    /// Make a booklet of every PDF, too: two pages beside each other, smaller, to be printed on both sides and folded.
    #[arg(long)]
    pub(in crate::cli) booklet: bool,
}

/// Arguments of `explain`.
#[derive(Args, Debug)]
pub(in crate::cli) struct ExplainArgs {
    /// The code in brackets of a fault; without it, all codes are listed.
    pub(in crate::cli) code: Option<String>,
}

/// Arguments of `completions`.
#[derive(Args, Debug)]
pub(in crate::cli) struct CompletionsArgs {
    /// The shell.
    pub(in crate::cli) shell: Shell,
}
