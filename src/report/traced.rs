//! `trace --json`.

use serde::Serialize;

use crate::ground::colour::hex;
use crate::ground::units::round_half_up;
use crate::trace::Traced;

/// The whole document. Letters are given by number of cells, the most first.
#[derive(Debug, Serialize)]
pub struct TraceReport {
    format: &'static str,
    stitches: usize,
    rows: usize,
    /// Clockwise from the top left, in pixels.
    corners: [[f64; 2]; 4],
    /// Top line first.
    chart: String,
    colours: Vec<ColourEntry>,
    uncertain: Vec<UnsureEntry>,
}

#[derive(Debug, Serialize)]
struct ColourEntry {
    letter: char,
    hex: String,
    cells: usize,
}

#[derive(Debug, Serialize)]
struct UnsureEntry {
    row: usize,
    stitch: usize,
    letter: char,
    instead: char,
    certainty: f64,
}

/// The letter of a colour: `.` for the one of most cells, then `a`, `b`, `c` …
fn letter(colour: usize) -> char {
    match u8::try_from(colour) {
        Ok(0) => '.',
        Ok(n) if n <= 26 => char::from(b'a' + n - 1),
        _ => '?',
    }
}

impl TraceReport {
    /// From what was read; places are rounded to a tenth of a pixel.
    #[must_use]
    pub fn new(traced: &Traced) -> Self {
        let lines = traced.cells.chunks(traced.stitches.max(1));
        let line = |row: &[u8]| row.iter().map(|cell| letter(usize::from(*cell))).collect();
        Self {
            format: "yokeward/trace/1",
            stitches: traced.stitches,
            rows: traced.rows,
            corners: traced
                .corners
                .map(|place| place.map(|v| round_half_up(v, 1))),
            chart: lines.map(line).collect::<Vec<String>>().join("\n"),
            colours: traced
                .colours
                .iter()
                .enumerate()
                .map(|(i, colour)| ColourEntry {
                    letter: letter(i),
                    hex: hex(colour.rgb),
                    cells: colour.cells,
                })
                .collect(),
            uncertain: traced
                .uncertain
                .iter()
                .map(|unsure| UnsureEntry {
                    row: traced.rows - unsure.place.0,
                    stitch: traced.stitches - unsure.place.1,
                    letter: letter(unsure.colour),
                    instead: letter(unsure.instead),
                    certainty: round_half_up(unsure.certainty, 4),
                })
                .collect(),
        }
    }
}
