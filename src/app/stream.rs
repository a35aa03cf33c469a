//! A stream of charts, a line each: measured on all cores, answered in order, in bounded memory.
//!
//! One thread reads whatever has arrived and cuts it at line ends, the workers measure, one thread writes. How many bytes
//! may be on their way is bounded, so a slow chart or a slow reader holds the others back instead of filling memory.

use std::collections::BTreeMap;
use std::io::{self, Read, Write};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;

use serde::Serialize;

use crate::app::study::BareOptions;
use crate::course::Course;
use crate::ground::fault::Code;
use crate::read::{LineChart, LineError, read_line_chart};
use crate::report::{Entry, entry};
use crate::study::{self, Studied};

/// Bytes read at a time.
const CHUNK: usize = 64 << 10;
/// Longest line read: a chart of a million cells with its overlay fits.
const LONGEST_LINE: usize = 6 << 20;
/// Bytes of input on their way at most, but for a single longer line.
const ON_THE_WAY: usize = 12 << 20;

/// What came of a stream.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Streamed {
    /// Charts measured.
    pub charts: u64,
    /// Lines with faults.
    pub faults: u64,
}

/// Some lines of the stream, in the order they came.
struct Batch {
    number: u64,
    first_line: u64,
    bytes: Vec<u8>,
    /// Set for a line too long to be kept.
    too_long: bool,
}

struct Answer {
    number: u64,
    size: usize,
    text: Vec<u8>,
    counts: Streamed,
}

/// Bytes on their way, and a bell for when some arrive. `None` once nobody writes any more.
struct Load {
    bytes: Mutex<Option<usize>>,
    less: Condvar,
}

impl Load {
    fn lock(&self) -> MutexGuard<'_, Option<usize>> {
        self.bytes.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Waits until there is room, and says whether anybody still writes.
    fn add(&self, size: usize) -> bool {
        let full =
            |bytes: &mut Option<usize>| bytes.is_some_and(|b| b > 0 && b + size > ON_THE_WAY);
        let waited = self.less.wait_while(self.lock(), full);
        let mut bytes = waited.unwrap_or_else(PoisonError::into_inner);
        if let Some(bytes) = &mut *bytes {
            *bytes += size;
        }
        bytes.is_some()
    }

    fn remove(&self, size: usize) {
        if let Some(bytes) = &mut *self.lock() {
            *bytes = bytes.saturating_sub(size);
        }
        self.less.notify_one();
    }

    fn stop(&self) {
        *self.lock() = None;
        self.less.notify_one();
    }
}

/// Measures every line of `input` and writes an answer for each to `output`, in the same order. `rows`: with every row.
///
/// # Errors
/// When reading or writing fails.
pub fn measure_stream(
    input: &mut (impl Read + Send),
    output: &mut (impl Write + Send),
    rows: bool,
    options: BareOptions,
    course: &Course,
) -> io::Result<Streamed> {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    let (to_workers, batches) = sync_channel::<Batch>(2 * cores);
    let (to_writer, answers) = sync_channel::<Answer>(2 * cores);
    let batches = Mutex::new(batches);
    let load = Load {
        bytes: Mutex::new(Some(0)),
        less: Condvar::new(),
    };
    thread::scope(|scope| {
        for _ in 0..cores {
            let to_writer = to_writer.clone();
            let batches = &batches;
            scope.spawn(move || {
                while let Some(batch) = take(batches) {
                    // When nobody writes any more, batches are still taken, so that the reader is not left hanging.
                    let _ = to_writer.send(answer(&batch, rows, options, course));
                }
            });
        }
        drop(to_writer);
        let load = &load;
        let writer = scope.spawn(move || {
            let written = write_in_order(&answers, output, load);
            if written.is_err() {
                load.stop();
            }
            written
        });
        let read = read_batches(input, &to_workers, load);
        drop(to_workers);
        let written = writer
            .join()
            .unwrap_or_else(|_| Err(io::Error::other("writing stopped")));
        let streamed = written?;
        read?;
        Ok(streamed)
    })
}

fn take(batches: &Mutex<Receiver<Batch>>) -> Option<Batch> {
    let batches = batches.lock().unwrap_or_else(PoisonError::into_inner);
    batches.recv().ok()
}

fn read_batches(
    input: &mut impl Read,
    to_workers: &SyncSender<Batch>,
    load: &Load,
) -> io::Result<()> {
    let mut buffer = vec![0_u8; CHUNK];
    let mut pending: Vec<u8> = Vec::new();
    let (mut number, mut line) = (0, 1);
    let mut skipping = false;
    // Whether anybody still listens.
    let mut send = |bytes: Vec<u8>, too_long: bool, lines: u64| {
        let wanted = load.add(bytes.len());
        let batch = Batch {
            number,
            first_line: line,
            bytes,
            too_long,
        };
        number += 1;
        line += lines;
        wanted && to_workers.send(batch).is_ok()
    };
    let count = |bytes: &[u8]| bytes.iter().filter(|b| **b == b'\n').count() as u64;
    loop {
        let read = match input.read(&mut buffer) {
            Ok(read) => read,
            Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
            Err(error) => return Err(error),
        };
        let mut new = buffer.get(..read).unwrap_or_default();
        if read == 0 {
            if skipping {
                send(Vec::new(), true, 1);
            } else if !pending.is_empty() {
                send(pending, false, 1);
            }
            return Ok(());
        }
        if skipping {
            let Some(end) = new.iter().position(|b| *b == b'\n') else {
                continue;
            };
            new = new.get(end + 1..).unwrap_or_default();
            skipping = false;
            if !send(Vec::new(), true, 1) {
                return Ok(());
            }
        }
        let Some(end) = new.iter().rposition(|b| *b == b'\n') else {
            pending.extend_from_slice(new);
            if pending.len() > LONGEST_LINE {
                pending = Vec::new();
                skipping = true;
            }
            continue;
        };
        let (whole, rest) = new.split_at_checked(end + 1).unwrap_or((new, &[]));
        pending.extend_from_slice(whole);
        let lines = count(&pending);
        let batch = std::mem::replace(&mut pending, rest.to_vec());
        if !send(batch, false, lines) {
            return Ok(());
        }
    }
}

fn write_in_order(
    answers: &Receiver<Answer>,
    output: &mut impl Write,
    load: &Load,
) -> io::Result<Streamed> {
    let mut total = Streamed::default();
    let mut waiting: BTreeMap<u64, Answer> = BTreeMap::new();
    let mut next = 0;
    for answer in answers {
        waiting.insert(answer.number, answer);
        while let Some(answer) = waiting.remove(&next) {
            next += 1;
            load.remove(answer.size);
            total.charts += answer.counts.charts;
            total.faults += answer.counts.faults;
            output.write_all(&answer.text)?;
            output.flush()?;
        }
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

fn answer(batch: &Batch, rows: bool, options: BareOptions, course: &Course) -> Answer {
    let mut text = Vec::new();
    let mut counts = Streamed::default();
    let mut add = |line: u64, result: Result<Entry, LineError>| {
        let written = match result {
            Ok(entry) => {
                counts.charts += 1;
                serde_json::to_writer(&mut text, &InStream::new(entry))
            }
            Err(error) => {
                counts.faults += 1;
                let wrong = Wrong {
                    line,
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
    };
    if batch.too_long {
        let message = format!("the line is longer than {} MiB", LONGEST_LINE >> 20);
        add(
            batch.first_line,
            Err(LineError {
                id: None,
                code: Code::TooLarge,
                message,
            }),
        );
    }
    let bytes = batch.bytes.strip_suffix(b"\n").unwrap_or(&batch.bytes);
    for (line, bytes) in (batch.first_line..).zip(bytes.split(|b| *b == b'\n')) {
        if !bytes.trim_ascii().is_empty() {
            let read = read_line_chart(bytes);
            add(
                line,
                read.map(|chart| measured(&chart, rows, options, course)),
            );
        }
    }
    Answer {
        number: batch.number,
        size: batch.bytes.len(),
        text,
        counts,
    }
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
