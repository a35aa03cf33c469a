//! What is known of a picture, and what was read from it.

use crate::trace::plane::Place;

/// What is known of a picture beforehand.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Options {
    /// Corners of the chart in pixels, clockwise from the top left.
    pub corners: Option<[Place; 4]>,
    /// Stitches and rows.
    pub size: Option<(usize, usize)>,
    /// How many colours there are.
    pub colours: Option<usize>,
}

/// Why a picture was not read.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// It is none.
    NotAPicture,
    /// It is cut off or broken: what the decoder says.
    Unreadable(String),
    /// It has more pixels than are read.
    TooLarge {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
    },
    /// The corners that were named cannot be those of a chart.
    Corners(CornerFault),
    /// A grid was found, but not of the size that was asked for.
    OtherSize {
        /// Stitches and rows that were found.
        found: (usize, usize),
        /// Those asked for.
        wanted: (usize, usize),
    },
    /// No grid was found in it; what was seen of one.
    NoGrid(Glimpse),
}

/// What is wrong with corners.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CornerFault {
    /// One lies outside the picture.
    Outside,
    /// They are not named clockwise from the top left, or lie on a line.
    Order,
    /// They leave less than three pixels to a cell.
    Small,
}

/// A colour of a traced chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TracedColour {
    /// As it was seen, in even light.
    pub rgb: [u8; 3],
    /// How many cells have it.
    pub cells: usize,
}

/// A cell that a person should look at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unsure {
    /// Row from the top and stitch from the left, from 0.
    pub place: (usize, usize),
    /// The colour that it was given, and the one that it may have instead.
    pub colour: usize,
    /// See `colour`.
    pub instead: usize,
    /// From 0, either, to 1, beyond doubt.
    pub certainty: f64,
}

/// A chart read from a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Traced {
    /// Stitches across.
    pub stitches: usize,
    /// Rows.
    pub rows: usize,
    /// Corners of the chart in the picture, in pixels, clockwise from the top left.
    pub corners: [Place; 4],
    /// Colours of the cells, top row first, from the left.
    pub cells: Vec<u8>,
    /// Colours, that of the most cells first.
    pub colours: Vec<TracedColour>,
    /// Cells to look at.
    pub uncertain: Vec<Unsure>,
}

impl Traced {
    /// The smallest repeat across and upwards: so many stitches and rows, where at least two of them stand side by side.
    #[must_use]
    pub fn repeat(&self) -> (Option<usize>, Option<usize>) {
        let at = |row: usize, column: usize| self.cells.get(row * self.stitches + column);
        let same = |by: (usize, usize)| {
            (0..self.rows - by.0).all(|row| {
                (0..self.stitches - by.1)
                    .all(|column| at(row, column) == at(row + by.0, column + by.1))
            })
        };
        (
            (1..=self.stitches / 2).find(|by| same((0, *by))),
            (1..=self.rows / 2).find(|by| same((*by, 0))),
        )
    }
}

/// What was seen where no grid was found: how far lines lie apart across and upwards, in pixels.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Glimpse {
    /// Between upright lines.
    pub across: Option<f64>,
    /// Between level lines.
    pub up: Option<f64>,
}
