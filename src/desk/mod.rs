//! The desk: a local page on which a course is drawn, ordered, shown to a class and printed.
//!
//! It edits the course's own files; what is not saved yet lies in `.desk` beside them, a step a line. Every number that
//! a page shows comes from here, and here from the rooms above; `templates/desk/types.d.ts` describes the answers.

mod answer;
mod assets;
mod draft;
mod faults;
mod http;
mod journal;
mod numbers;
mod packing;
mod present;
mod press;
mod refusal;
mod shelf;
mod state;
mod watch;

use std::fmt;
use std::io;
use std::path::PathBuf;
use std::sync::Arc;

use crate::desk::state::Desk;
use crate::read::ReadError;

/// Which desk is opened.
#[derive(Clone, Debug)]
pub struct DeskOptions {
    /// The course's folder.
    pub course: PathBuf,
    /// Where packs go.
    pub out: PathBuf,
    /// The port; 0 for any that is free.
    pub port: u16,
    /// Whether it only reads.
    pub read_only: bool,
}

/// Why no desk was opened.
#[derive(Debug)]
pub enum DeskError {
    /// The course cannot be read.
    Read(ReadError),
    /// The port cannot be had.
    Port(u16, io::Error),
}

impl fmt::Display for DeskError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Read(error) => error.fmt(f),
            Self::Port(port, error) => write!(f, "cannot open a desk at port {port}: {error}"),
        }
    }
}

impl std::error::Error for DeskError {}

/// Opens a desk and serves it until the process ends; `opened` is told the link that leads to it.
///
/// # Errors
/// When the course cannot be read, or the port cannot be had.
pub fn open(options: &DeskOptions, opened: impl FnOnce(&str)) -> Result<(), DeskError> {
    let desk = Desk::open(&options.course, &options.out, options.read_only);
    let desk = Arc::new(desk.map_err(DeskError::Read)?);
    let watched = Arc::clone(&desk);
    std::thread::spawn(move || watch::watch(&watched, watched.root()));
    http::serve(&desk, options.port, |door| opened(&door.link))
        .map_err(|error| DeskError::Port(options.port, error))
}
