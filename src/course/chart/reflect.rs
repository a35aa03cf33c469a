//! Charts of which a half or a quarter is drawn: the rest is its mirror.

/// In which direction the half that is not drawn is the mirror of the drawn one. The last drawn column or row is the axis
/// and stands once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reflect {
    /// From stitch to stitch: the last drawn column is the axis.
    Stitches,
    /// From row to row: the last drawn row is the axis.
    Rows,
    /// Both.
    Both,
}

impl Reflect {
    /// The words of a chart file.
    pub const NAMES: [&'static str; 3] = ["stitches", "rows", "both"];

    /// The word of a chart file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stitches => "stitches",
            Self::Rows => "rows",
            Self::Both => "both",
        }
    }

    /// From a word of a chart file.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        match name {
            "stitches" => Some(Self::Stitches),
            "rows" => Some(Self::Rows),
            "both" => Some(Self::Both),
            _ => None,
        }
    }
}

/// The drawn places of a whole side, from 0: all that are drawn, then back to the first without the axis.
pub(super) fn there_and_back(drawn: usize, mirrored: bool) -> Vec<usize> {
    let back = (0..drawn.saturating_sub(1)).rev().filter(|_| mirrored);
    (0..drawn).chain(back).collect()
}

/// The whole of cells drawn row by row: columns and rows by the drawn ones that they show.
pub(super) fn whole(cells: &[u8], width: usize, columns: &[usize], rows: &[usize]) -> Vec<u8> {
    let cell = |row: usize, column: usize| cells.get(row * width + column).copied().unwrap_or(0);
    rows.iter()
        .flat_map(|row| columns.iter().map(move |column| cell(*row, *column)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{there_and_back, whole};

    #[test]
    fn the_axis_stands_once() {
        assert_eq!(there_and_back(3, true), [0, 1, 2, 1, 0]);
        assert_eq!(there_and_back(3, false), [0, 1, 2]);
        assert_eq!(there_and_back(1, true), [0]);
        assert_eq!(
            whole(&[1, 2, 3, 4], 2, &[0, 1, 0], &[0, 1, 0]),
            [1, 2, 1, 3, 4, 3, 1, 2, 1]
        );
    }
}
