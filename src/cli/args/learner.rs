//! The arguments of `next`, `record` and `route`.

use std::path::PathBuf;

use clap::Args;

use crate::cli::args::values::positive;

/// Arguments of `next`.
#[derive(Args, Debug)]
#[command(after_help = "\
Steps are measured from what the log says was done; a thing that went hard counts in part. From five results on, the
step looked for follows how yours went. Without a log, or with an empty one, the smallest step comes first.

  yokeward record tideline-cowl --log me.yaml --went right
  yokeward next --log me.yaml lessons ../shelf --makes hat --hours 20")]
pub(in crate::cli) struct NextArgs {
    /// Course folders, chart and lesson files.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) courses: Vec<PathBuf>,
    /// The log.
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) log: Option<PathBuf>,
    /// Only lessons that make this.
    #[arg(long, value_parser = clap::builder::PossibleValuesParser::new(crate::course::body::Makes::WORDS))]
    pub(in crate::cli) makes: Option<String>,
    /// Only lessons in yarn of this weight category.
    #[arg(long, value_name = "0-7", value_parser = clap::value_parser!(u32).range(0..=7))]
    pub(in crate::cli) weight: Option<u32>,
    /// Only lessons that a fluent knitter finishes in so many hours.
    #[arg(long, value_name = "H", value_parser = positive)]
    pub(in crate::cli) hours: Option<f64>,
    /// How many to show; 5 in words, all in JSON.
    #[arg(long, value_name = "N")]
    pub(in crate::cli) top: Option<usize>,
    /// Answer in JSON.
    #[arg(long)]
    pub(in crate::cli) json: bool,
}

/// Arguments of `record`.
#[derive(Args, Debug)]
#[command(after_help = "\
The entry is added at the end of `done`; everything else in the file, comments too, stays as it is.

  yokeward record tideline-cowl --log me.yaml --went right --on 2026-10-02 --gauge 21x28")]
pub(in crate::cli) struct RecordArgs {
    /// The id of the lesson or chart.
    pub(in crate::cli) id: String,
    /// Course folders that hold it.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) courses: Vec<PathBuf>,
    /// The log; begun if it is not there.
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) log: PathBuf,
    /// How it went.
    #[arg(long, value_parser = clap::builder::PossibleValuesParser::new(crate::course::log::Went::NAMES))]
    pub(in crate::cli) went: String,
    /// The day it was finished.
    #[arg(long, value_name = "YYYY-MM-DD", value_parser = day)]
    pub(in crate::cli) on: Option<String>,
    /// Gauge measured on it, stitches x rows to 10 cm.
    #[arg(long, value_name = "SxR", value_parser = own_gauge)]
    pub(in crate::cli) gauge: Option<(f64, f64)>,
    /// A note.
    #[arg(long)]
    pub(in crate::cli) note: Option<String>,
    /// The course's id, where several have a thing of this id.
    #[arg(long)]
    pub(in crate::cli) course: Option<String>,
}

fn day(text: &str) -> Result<String, String> {
    match crate::course::log::is_day(text) {
        true => Ok(text.to_owned()),
        false => Err("must be a day of the calendar, written like 2026-10-02".to_owned()),
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
pub(in crate::cli) struct RouteArgs {
    /// The id of the lesson to reach.
    #[arg(long, value_name = "LESSON")]
    pub(in crate::cli) to: String,
    /// The log to start from; without it the way starts at the beginning.
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) log: Option<PathBuf>,
    /// Course folders to go through.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) courses: Vec<PathBuf>,
    /// Answer in JSON.
    #[arg(long)]
    pub(in crate::cli) json: bool,
}
