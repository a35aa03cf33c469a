//! Tables that fit a terminal of 80 columns.

use crate::cli::screen::WIDTH;

/// A table: heads, then rows; columns are as wide as their widest cell, the first may be cut to fit.
pub(super) struct Table {
    heads: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// A table with these heads; a head that starts with `>` is of a column of figures.
    pub(super) fn new(heads: &[&str]) -> Self {
        Self {
            heads: heads.iter().map(|head| (*head).to_owned()).collect(),
            rows: Vec::new(),
        }
    }

    pub(super) fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    pub(super) fn text(&self) -> String {
        let head = |h: &str| h.trim_start_matches('>').to_owned();
        let figures: Vec<bool> = self.heads.iter().map(|h| h.starts_with('>')).collect();
        let heads: Vec<String> = self.heads.iter().map(|h| head(h)).collect();
        let mut widths: Vec<usize> = heads.iter().map(|h| h.chars().count()).collect();
        for row in &self.rows {
            for (width, cell) in widths.iter_mut().zip(row) {
                *width = (*width).max(cell.chars().count());
            }
        }
        // The longest text column gives way first.
        let gaps = 2 * widths.len().saturating_sub(1);
        let total: usize = widths.iter().sum::<usize>() + gaps;
        if let Some(over) = total.checked_sub(WIDTH).filter(|over| *over > 0)
            && let Some((_, widest)) = figures
                .iter()
                .zip(widths.iter_mut())
                .filter(|(figure, _)| !**figure)
                .max_by_key(|(_, w)| **w)
        {
            *widest = widest.saturating_sub(over).max(8);
        }
        let line = |cells: &[String]| {
            let mut text = String::new();
            for ((cell, width), figure) in cells.iter().zip(&widths).zip(&figures) {
                let mut shown: String = cell.chars().take(*width).collect();
                if cell.chars().count() > *width {
                    shown.pop();
                    shown.push('…');
                }
                let pad = " ".repeat(width - shown.chars().count());
                let gap = if text.is_empty() { "" } else { "  " };
                text.push_str(gap);
                text.push_str(&if *figure {
                    format!("{pad}{shown}")
                } else {
                    format!("{shown}{pad}")
                });
            }
            text.trim_end().to_owned()
        };
        let mut lines = vec![line(&heads)];
        lines.extend(self.rows.iter().map(|row| line(row)));
        lines.join("\n")
    }
}
