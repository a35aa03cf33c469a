//! A stream of charts, a line each: measured on all cores, answered in order, in bounded memory.
//!
//! What has arrived is measured at once, line beside line, and answered before more is read: a line typed by hand is
//! answered when it ends, and however long the stream is, one helping of it and its answers are in memory.

use std::io::{self, BufRead, Read, Write};

use rayon::prelude::*;
use serde::Serialize;

use crate::app::study::BareOptions;
use crate::course::Course;
use crate::ground::bounds::LINE_BYTES;
use crate::ground::fault::Code;
use crate::read::{LineChart, LineError, read_line_chart};
use crate::report::{Entry, entry};
use crate::study::{self, Studied};

/// Bytes read at a time: some hundred charts of a usual size, so that no core waits long for the others.
const CHUNK: usize = 256 << 10;

/// Bytes of a usual answer without rows.
const USUAL_ANSWER: usize = 1 << 10;

/// What came of a stream.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Streamed {
    /// Charts measured.
    pub charts: u64,
    /// Lines with faults.
    pub faults: u64,
}

/// Lines that have arrived, as a whole: cut at line ends, the rest kept for the next ones.
struct Lines<'a, R> {
    input: &'a mut R,
    buffer: Vec<u8>,
    /// What follows the last line end.
    pending: Vec<u8>,
    /// In a line that is too long to be kept.
    skipping: bool,
    ended: bool,
}

impl<R: Read> Lines<'_, R> {
    /// Waits for some input and returns the lines that it ends; at the end of input what is left. `None` after that.
    fn next(&mut self) -> io::Result<Option<Vec<Line>>> {
        if self.ended {
            return Ok(None);
        }
        let read = loop {
            match self.input.read(&mut self.buffer) {
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                other => break other?,
            }
        };
        let mut new = self.buffer.get(..read).unwrap_or_default();
        let mut lines = Vec::new();
        while !new.is_empty() {
            new.read_until(b'\n', &mut self.pending)?;
            let ends = self.pending.last() == Some(&b'\n');
            if ends {
                self.pending.pop();
            }
            self.skipping |= self.pending.len() > LINE_BYTES;
            if self.skipping {
                self.pending = Vec::new();
            }
            if ends {
                lines.push(take(&mut self.pending, &mut self.skipping));
            }
        }
        if read == 0 && (self.skipping || !self.pending.is_empty()) {
            lines.push(take(&mut self.pending, &mut self.skipping));
        }
        self.ended = read == 0;
        Ok(Some(lines))
    }
}

/// The line that has ended.
fn take(pending: &mut Vec<u8>, skipping: &mut bool) -> Line {
    let text = std::mem::take(pending);
    (!std::mem::take(skipping)).then_some(text)
}

/// A line; `None` for one too long to be kept.
type Line = Option<Vec<u8>>;

/// Measures every line of `input` and writes an answer for each to `output`, in the same order. `rows`: with every row.
///
/// # Errors
/// When reading or writing fails.
pub fn measure_stream(
    input: &mut impl Read,
    output: &mut impl Write,
    rows: bool,
    options: BareOptions,
    course: &Course,
) -> io::Result<Streamed> {
    let mut total = Streamed::default();
    let mut first = 1;
    let mut arriving = Lines {
        input,
        buffer: vec![0; CHUNK],
        pending: Vec::new(),
        skipping: false,
        ended: false,
    };
    while let Some(lines) = arriving.next()? {
        let numbered: Vec<(u64, &Line)> = (first..).zip(&lines).collect();
        let answers: Vec<(Vec<u8>, Streamed)> = numbered
            .par_iter()
            .map(|(number, line)| answer(*number, line.as_deref(), rows, options, course))
            .collect();
        for (_, counts) in &answers {
            total.charts += counts.charts;
            total.faults += counts.faults;
        }
        let texts: Vec<Vec<u8>> = answers.into_iter().map(|(text, _)| text).collect();
        // At once, since standard output takes every line by itself otherwise.
        output.write_all(&texts.concat())?;
        output.flush()?;
        first += lines.len() as u64;
    }
    Ok(total)
}

#[derive(Serialize)]
struct Wrong {
    line: u64,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<String>,
    error: WrongText,
}

#[derive(Serialize)]
struct WrongText {
    code: &'static str,
    message: String,
}

/// The answer to a line with its line end, and what it counts as; nothing for an empty one.
fn answer(
    number: u64,
    line: Option<&[u8]>,
    rows: bool,
    options: BareOptions,
    course: &Course,
) -> (Vec<u8>, Streamed) {
    let (mut text, mut counts) = (Vec::with_capacity(USUAL_ANSWER), Streamed::default());
    let read = match line {
        Some(line) if line.trim_ascii().is_empty() => return (text, counts),
        Some(line) => read_line_chart(line),
        None => Err(LineError {
            id: None,
            code: Code::TooLarge,
            message: format!("the line is longer than {} MiB", LINE_BYTES >> 20),
        }),
    };
    let written = match read {
        Ok(chart) => {
            counts.charts = 1;
            let entry = measured(&chart, rows, options, course);
            serde_json::to_writer(&mut text, &InStream::new(entry))
        }
        Err(error) => {
            counts.faults = 1;
            let wrong = Wrong {
                line: number,
                id: error.id,
                error: WrongText {
                    code: error.code.name(),
                    message: error.message,
                },
            };
            serde_json::to_writer(&mut text, &InStream::new(wrong))
        }
    };
    // Writing into memory cannot fail.
    if written.is_ok() {
        text.push(b'\n');
    }
    (text, counts)
}

/// An answer with the number of its format, so that every line of a stream stands for itself.
#[derive(Serialize)]
struct InStream<T> {
    format: &'static str,
    #[serde(flatten)]
    answer: T,
}

impl<T> InStream<T> {
    fn new(answer: T) -> Self {
        Self {
            format: "yokeward/stream/1",
            answer,
        }
    }
}

fn measured(line: &LineChart, rows: bool, options: BareOptions, course: &Course) -> Entry {
    let options = BareOptions {
        gauge: line.gauge.or(options.gauge),
        ..options
    };
    let studied = study::chart(&line.chart, options.settings(course), course);
    let plan = rows.then(|| studied.plan());
    let Studied {
        work,
        measures,
        grade,
        ..
    } = &studied;
    entry(&line.chart.id, work, measures, grade, plan, None)
}
