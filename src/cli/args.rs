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
    Order(OrderArgs),
    /// Shorten a chart's floats, or give it rows for rest, in a new file.
    Tame(TameArgs),
    /// Propose what to do next, from a log of what was done.
    Next(NextArgs),
    /// Add an entry to a log.
    Record(RecordArgs),
    /// Find the gentlest way to a lesson through a library.
    Route(RouteArgs),
    /// Say whom each size fits, at your gauge or as it is finished.
    Fit(FitArgs),
    /// Fit the weights of the grade to judgements "this is harder than that".
    Weigh(WeighArgs),
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

/// Arguments of `order`.
#[derive(Args, Debug)]
#[command(after_help = "\
A step over the budget is a gap. What would close it is worked out and tried: something easier in between (from charts
that no lesson uses, and from --library), shorter floats, rows for rest, one lesson less in a `needs`.

  yokeward order lessons --library ../old-course --library ../shelf")]
pub(super) struct OrderArgs {
    /// The course folder.
    #[arg(default_value = "lessons")]
    pub(super) course: PathBuf,
    /// Courses and charts to fill gaps from; may be given several times.
    #[arg(long, value_name = "DIR")]
    pub(super) library: Vec<PathBuf>,
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
    /// Chart files, lesson files or course folders; `-` for a stream of charts.
    #[arg(default_value = "lessons")]
    pub(super) paths: Vec<PathBuf>,
    /// With `-`: answer with every row of every chart.
    #[arg(long)]
    pub(super) rows: bool,
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

/// Arguments of `next`.
#[derive(Args, Debug)]
#[command(after_help = "\
Steps are measured from what the log says was done; a thing that went hard counts in part. From five results on, the
step looked for follows how yours went. Without a log, or with an empty one, the smallest step comes first.

  yokeward record tideline-cowl --log me.yaml --went right
  yokeward next --log me.yaml lessons ../shelf --makes hat --hours 20")]
pub(super) struct NextArgs {
    /// Course folders, chart and lesson files.
    #[arg(default_value = "lessons")]
    pub(super) courses: Vec<PathBuf>,
    /// The log.
    #[arg(long, value_name = "FILE")]
    pub(super) log: Option<PathBuf>,
    /// Only lessons that make this.
    #[arg(long, value_parser = clap::builder::PossibleValuesParser::new(crate::read::MAKES))]
    pub(super) makes: Option<String>,
    /// Only lessons in yarn of this weight category.
    #[arg(long, value_name = "0-7", value_parser = clap::value_parser!(u32).range(0..=7))]
    pub(super) weight: Option<u32>,
    /// Only lessons that a fluent knitter finishes in so many hours.
    #[arg(long, value_name = "H", value_parser = positive)]
    pub(super) hours: Option<f64>,
    /// How many to show; 5 in words, all in JSON.
    #[arg(long, value_name = "N")]
    pub(super) top: Option<usize>,
    /// Answer in JSON.
    #[arg(long)]
    pub(super) json: bool,
}

/// Arguments of `record`.
#[derive(Args, Debug)]
#[command(after_help = "\
The entry is added at the end of `done`; everything else in the file, comments too, stays as it is.

  yokeward record tideline-cowl --log me.yaml --went right --on 2026-10-02 --gauge 21x28")]
pub(super) struct RecordArgs {
    /// The id of the lesson or chart.
    pub(super) id: String,
    /// The log; begun if it is not there.
    #[arg(long, value_name = "FILE")]
    pub(super) log: PathBuf,
    /// How it went.
    #[arg(long, value_parser = clap::builder::PossibleValuesParser::new(crate::course::log::Went::NAMES))]
    pub(super) went: String,
    /// The day it was finished.
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = day)]
    pub(super) on: Option<String>,
    /// Gauge measured on it, stitches x rows to 10 cm.
    #[arg(long, value_name = "SxR", value_parser = own_gauge)]
    pub(super) gauge: Option<(f64, f64)>,
    /// A note.
    #[arg(long)]
    pub(super) note: Option<String>,
    /// The course's id, where several have a thing of this id.
    #[arg(long)]
    pub(super) course: Option<String>,
    /// Course folders that hold it.
    #[arg(long = "in", value_name = "DIR", default_value = "lessons")]
    pub(super) courses: Vec<PathBuf>,
}

fn day(text: &str) -> Result<String, String> {
    let parts: Vec<&str> = text.split('-').collect();
    let digits = |part: &str, n: usize| part.len() == n && part.bytes().all(|b| b.is_ascii_digit());
    match parts.as_slice() {
        [y, m, d] if digits(y, 4) && digits(m, 2) && digits(d, 2) => Ok(text.to_owned()),
        _ => Err("must be a day such as 2026-10-02".to_owned()),
    }
}

fn own_gauge(text: &str) -> Result<(f64, f64), String> {
    let (stitches, rows) = text
        .split_once('x')
        .ok_or("must be stitches x rows, such as 21x28")?;
    Ok((positive(stitches.trim())?, positive(rows.trim())?))
}

/// Arguments of `route`.
#[derive(Args, Debug)]
#[command(after_help = "\
The largest step of the way is the smallest possible, which is proven; the number of lessons is the smallest found, and
the answer says whether that is proven, too.

  yokeward route --to samphire-yoke --log me.yaml lessons ../shelf")]
pub(super) struct RouteArgs {
    /// The id of the lesson to reach.
    #[arg(long, value_name = "LESSON")]
    pub(super) to: String,
    /// The log to start from; without it the way starts at the beginning.
    #[arg(long, value_name = "FILE")]
    pub(super) log: Option<PathBuf>,
    /// Course folders to go through.
    #[arg(default_value = "lessons")]
    pub(super) courses: Vec<PathBuf>,
    /// Answer in JSON.
    #[arg(long)]
    pub(super) json: bool,
}

/// Arguments of `fit`.
#[derive(Args, Debug)]
#[command(after_help = "\
  yokeward fit lessons/06-pebble-hat.yaml                            every size: counts, girth, whom it fits
  yokeward fit lessons/06-pebble-hat.yaml --gauge 22                 the same counts at your gauge
  yokeward fit lessons/06-pebble-hat.yaml --stitches 96 --girth \"51 cm\"   a finished piece: your gauge, whom it fits")]
pub(super) struct FitArgs {
    /// A lesson file, or a course folder for all its lessons.
    #[arg(default_value = "lessons")]
    pub(super) lesson: PathBuf,
    /// Your stitches to 10 cm.
    #[arg(long, value_name = "N", value_parser = positive)]
    pub(super) gauge: Option<f64>,
    /// Your needle in mm; without it the lesson's.
    #[arg(long, value_name = "MM", value_parser = positive)]
    pub(super) needle: Option<f64>,
    /// Stitches of a finished piece, all round.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=5000), requires = "girth")]
    pub(super) stitches: Option<u16>,
    /// What the finished piece measures all round, such as \"51 cm\".
    #[arg(long, value_name = "LENGTH", value_parser = length, requires = "stitches")]
    pub(super) girth: Option<crate::ground::units::Length>,
    /// Answer in JSON, with whole schedules.
    #[arg(long)]
    pub(super) json: bool,
}

fn length(text: &str) -> Result<crate::ground::units::Length, String> {
    crate::ground::units::Length::parse(text)
        .filter(|length| length.to_mm() > 0.0 && length.to_mm() < 100_000.0)
        .ok_or_else(|| "must be a length with its unit, such as \"51 cm\" or \"20 in\"".to_owned())
}

/// Arguments of `weigh`.
#[derive(Args, Debug)]
#[command(after_help = "\
The judgements are a list in a file of its own:

  pairs:
    - harder: starfish-hat
      easier: drizzle-hat
    - { harder: reed-scarf, easier: pebble-hat, times: 3 }

The weights it has now are believed until judgements say otherwise; none falls below 0.")]
pub(super) struct WeighArgs {
    /// The file of judgements.
    #[arg(long, value_name = "FILE")]
    pub(super) pairs: PathBuf,
    /// The course folder that holds the things judged.
    #[arg(default_value = "lessons")]
    pub(super) course: PathBuf,
    /// Write the new weights to course.yaml.
    #[arg(long)]
    pub(super) write: bool,
    /// Answer in JSON.
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
    /// Courses whose charts the quiz may ask about, too; may be given several times.
    #[arg(long, value_name = "DIR")]
    pub(super) library: Vec<PathBuf>,
    /// Paper, instead of the course's.
    #[arg(long, value_parser = ["a4", "letter"])]
    pub(super) paper: Option<String>,
    /// For a printer of black only: yarns by their symbols, without colour.
    #[arg(long)]
    pub(super) black: bool,
    /// Large print: text of 18 pt, chart cells of 8 mm and more.
    #[arg(long)]
    pub(super) large: bool,
    /// For those who work from left to right: charts begin at the bottom left, numbers, words and catches with them.
    #[arg(long)]
    pub(super) left_handed: bool,
    /// A learner's own size, made bold wherever it stands among others.
    #[arg(long, value_name = "ID")]
    pub(super) size: Option<String>,
    /// That size alone, in the lessons that have it.
    #[arg(long, requires = "size")]
    pub(super) alone: bool,
    /// Make a booklet of every PDF, too: two pages beside each other, smaller, to be printed on both sides and folded.
    #[arg(long)]
    pub(super) booklet: bool,
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
