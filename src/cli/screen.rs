//! Standard output and error, and what differs on a terminal.

use std::io::{self, IsTerminal, Write};
use std::path::Path;

use serde::Serialize;

use crate::cli::outcome::Outcome;
use crate::course::chart::Chart;
use crate::ground::fault::{self, Fault, Form, SourceMap, visible};
use crate::read::{Links, Loaded, Wanted, load_paths};

/// Widest line of a table or a picture.
pub(super) const WIDTH: usize = 80;

/// Where a command speaks: asked-for data to stdout, reports and progress to stderr.
pub(super) struct Screen {
    out_is_terminal: bool,
    err_is_terminal: bool,
    /// Which links of a course's folder are followed.
    links: Links,
    /// Why data did not arrive, where it did not.
    lost: Option<io::Error>,
}

impl Screen {
    pub(super) fn new(links: Links) -> Self {
        // NO_COLOR is the open convention for "no colour, please".
        let plain = std::env::var_os("NO_COLOR").is_some_and(|v| !v.is_empty());
        Self {
            out_is_terminal: io::stdout().is_terminal() && !plain,
            err_is_terminal: io::stderr().is_terminal() && !plain,
            links,
            lost: None,
        }
    }

    /// How the command ended; data that did not arrive is said now.
    pub(super) fn end(&mut self, outcome: Outcome) -> Outcome {
        if let Err(error) = io::stdout().lock().flush() {
            self.lose(error);
        }
        match self.lost.take() {
            Some(error) => {
                self.report(&format!("error: the answer could not be written: {error}"));
                Outcome::CouldNotRun
            }
            None => outcome,
        }
    }

    /// A reader that has gone away is no fault of ours; a full disk is one to tell.
    fn lose(&mut self, error: io::Error) {
        if error.kind() != io::ErrorKind::BrokenPipe {
            self.lost.get_or_insert(error);
        }
    }

    /// Whether colour may be written to stdout.
    pub(super) fn colour(&self) -> bool {
        self.out_is_terminal
    }

    /// A line of asked-for data; what in it would act on a terminal is made visible.
    pub(super) fn say(&mut self, text: &str) {
        self.say_as_is(&visible(text));
    }

    /// A line of asked-for data that holds our own colours, or nothing of anybody else.
    pub(super) fn say_as_is(&mut self, text: &str) {
        if let Err(error) = writeln!(io::stdout().lock(), "{text}") {
            self.lose(error);
        }
    }

    /// A line of report; what in it would act on a terminal is made visible.
    pub(super) fn report(&mut self, text: &str) {
        self.report_as_is(&visible(text));
    }

    fn report_as_is(&mut self, text: &str) {
        let _ = writeln!(io::stderr().lock(), "{text}");
    }

    /// A line of progress that the next one overwrites; nothing unless a person is watching.
    pub(super) fn progress(&mut self, text: &str) {
        if self.err_is_terminal {
            let mut err = io::stderr().lock();
            let _ = write!(err, "\r\x1b[K{}", visible(text));
            let _ = err.flush();
        }
    }

    /// A JSON document on one line, or spread out.
    pub(super) fn json(&mut self, value: &impl Serialize, spread: bool) {
        let text = if spread {
            serde_json::to_string_pretty(value)
        } else {
            serde_json::to_string(value)
        };
        // JSON itself escapes what is below U+0020; a terminal also acts on some above U+007E.
        let acts = |c: char| c.is_control() && c != '\n';
        if let Ok(mut text) = text {
            if text.contains(acts) {
                text = text.chars().fold(String::new(), |mut all, c| {
                    match acts(c) {
                        true => all.push_str(&format!("\\u{:04x}", u32::from(c))),
                        false => all.push(c),
                    }
                    all
                });
            }
            self.say_as_is(&text);
        }
    }

    /// All faults, then how many of each kind.
    pub(super) fn faults(&mut self, faults: &[Fault], sources: &SourceMap) {
        if faults.is_empty() {
            return;
        }
        let form = if self.err_is_terminal {
            Form::Coloured
        } else {
            Form::Plain
        };
        self.report_as_is(&fault::render(faults, sources, form));
        self.report(&tally(faults));
    }

    /// The one chart of a chart file with all that was read; `works` says which command works on one chart.
    pub(super) fn chart(&mut self, path: &Path, works: &str) -> Result<(Loaded, Chart), Outcome> {
        let loaded = self.load(&[path])?.into_iter().next();
        let one = loaded.ok_or(Outcome::CouldNotRun)?;
        self.faults(&one.faults, &one.sources);
        if one.has_errors() {
            return Err(Outcome::Faults);
        }
        let chart = match &one.wanted {
            Wanted::Chart(id) => one.course.charts.get(id).map(|chart| Chart::clone(chart)),
            _ => None,
        };
        match chart {
            Some(chart) => Ok((one, chart)),
            None => {
                self.report(&format!(
                    "error: {} is not a chart file; {works} works on one chart",
                    path.display()
                ));
                Err(Outcome::CouldNotRun)
            }
        }
    }

    /// Loads paths, reporting what cannot be read at all.
    pub(super) fn load(&mut self, paths: &[impl AsRef<Path>]) -> Result<Vec<Loaded>, Outcome> {
        let paths: Vec<_> = paths.iter().map(|path| path.as_ref().to_owned()).collect();
        load_paths(&paths, self.links).map_err(|error| {
            self.report(&format!("error: {error}"));
            Outcome::CouldNotRun
        })
    }
}

/// `2 errors, 1 warning`, with the way to an explanation.
fn tally(faults: &[Fault]) -> String {
    let mut text = fault::tally(faults);
    if let Some(first) = faults
        .iter()
        .find(|fault| fault.is_error())
        .or(faults.first())
    {
        text.push_str(&format!(
            "; `yokeward explain {}` says more",
            first.code.name()
        ));
    }
    text
}
