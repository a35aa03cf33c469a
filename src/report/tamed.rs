//! `tame --json`.

use serde::Serialize;

use crate::course::chart::Chart;
use crate::rows::tame::Tamed;

/// The whole document. Cells are numbered as in the chart that was given.
#[derive(Debug, Serialize)]
pub struct TameReport {
    format: &'static str,
    flips: usize,
    cells: Vec<CellEntry>,
    rows: String,
    exact: bool,
    axis: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    relief: Option<Vec<usize>>,
}

#[derive(Debug, Serialize)]
struct CellEntry {
    row: usize,
    stitch: usize,
    from: char,
    to: char,
}

impl TameReport {
    /// From what was recoloured, and the chart as it is written, with the numbers of its new plain rows if any were
    /// asked for.
    #[must_use]
    pub fn new(tamed: &Tamed, written: &Chart, relief: Option<&[usize]>) -> Self {
        let letter = |ink: u8| {
            let ink = written.inks.get(usize::from(ink));
            ink.map_or('?', |ink| ink.letter)
        };
        let lines = (0..written.height).rev().map(|row| written.drawn_line(row));
        Self {
            format: "yokeward/tame/1",
            flips: tamed.cells.len(),
            cells: tamed
                .cells
                .iter()
                .map(|cell| CellEntry {
                    row: cell.row + 1,
                    stitch: cell.column + 1,
                    from: letter(cell.from),
                    to: letter(cell.to),
                })
                .collect(),
            rows: lines.collect::<Vec<_>>().join("\n"),
            exact: tamed.exact,
            axis: tamed.axis,
            relief: relief.map(<[usize]>::to_vec),
        }
    }
}
