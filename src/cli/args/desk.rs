//! Arguments of `desk`.

use std::path::PathBuf;

use clap::Args;

/// Arguments of `desk`.
#[derive(Args, Debug)]
#[command(after_help = "\
The link that it prints holds a key: only who opens it sees the course. The page is to be had on
this computer alone. What you draw is kept in .desk in the course's folder with every stroke, and
written to the course's own files when you save. `people` beside the lessons holds the register
and the learners' logs.

  yokeward desk
  yokeward desk lessons --read-only --port 4100")]
pub(in crate::cli) struct DeskArgs {
    /// The course folder.
    #[arg(default_value = "lessons")]
    pub(in crate::cli) course: PathBuf,
    /// Do not open the browser
    #[arg(long)]
    pub(in crate::cli) no_open: bool,
    /// Change nothing: for the computer of a classroom
    #[arg(long)]
    pub(in crate::cli) read_only: bool,
    /// The port; without it any that is free
    #[arg(long, default_value_t = 0, hide_default_value = true)]
    pub(in crate::cli) port: u16,
    /// Where packs go
    #[arg(long, value_name = "FOLDER", default_value = "out")]
    pub(in crate::cli) to: PathBuf,
}
