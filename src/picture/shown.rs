//! What a picture of a chart shows.

use std::borrow::Cow;

use crate::course::Reads;
use crate::course::chart::Chart;
use crate::ground::colour::Rgb;
use crate::picture::marks::Symbol;
use crate::rows::drawn::one_colour;

/// How one ink of a chart looks in this lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct InkLook {
    /// The yarn's name.
    pub name: String,
    /// Its colour.
    pub rgb: Rgb,
    /// Its symbol: the same in every chart of a lesson.
    pub symbol: Symbol,
}

/// A strand over the limit: the drawn columns it passes, its two own stitches included, in the order of stitches.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Strand {
    /// Chart row, from 0.
    pub row: usize,
    /// Columns from 0, from the stitch that the strand leaves to the one it reaches.
    pub columns: Vec<usize>,
}

/// Everything a picture of a chart shows.
#[derive(Clone, Debug)]
pub struct ChartPicture<'a> {
    /// The chart; for a left-handed worker, the one worked backwards.
    pub chart: Cow<'a, Chart>,
    /// Looks of its inks.
    pub looks: Vec<InkLook>,
    /// Height of a cell as a share of its width: stitches ÷ rows to 10 cm.
    pub aspect: f64,
    /// How the lesson is worked.
    pub reads: Reads,
    /// What stands beside rows of one colour; nothing where that means nothing.
    pub one_colour_row: Option<&'static str>,
    /// Catches: chart row and column, from 0.
    pub catches: Vec<(usize, usize)>,
    /// What stands beside rows with catches: chart row from 0, and the words.
    pub tags: Vec<(usize, String)>,
    /// Strands over the limit.
    pub strands: Vec<Strand>,
    /// Cells that were recoloured, to be outlined: chart row and column, from 0.
    pub changed: Vec<(usize, usize)>,
    /// Colour fills, or symbols alone.
    pub fills: bool,
    /// For large print: larger cells, and all that stands round them.
    pub large: bool,
    /// Read from the left: the drawing of the chart worked backwards is seen in a mirror, so that the picture is the
    /// chart's own and the numbers run the other way.
    pub from_left: bool,
    /// Its cells are at most so wide, in millimetres.
    pub widest: f64,
    /// For a page that is turned.
    pub turned: bool,
    /// What the picture shows, in words.
    pub alt: String,
}

impl ChartPicture<'_> {
    /// The same with cells of at most this width, for a page upright or turned.
    #[must_use]
    pub fn set(&self, widest: f64, turned: bool) -> Self {
        Self {
            widest,
            turned,
            ..self.clone()
        }
    }

    pub(super) fn look(&self, ink: u8) -> InkLook {
        let none = InkLook {
            name: String::new(),
            rgb: [255, 255, 255],
            symbol: Symbol::Blank,
        };
        self.looks.get(usize::from(ink)).cloned().unwrap_or(none)
    }

    /// Whether it has a row of one colour.
    #[must_use]
    pub fn has_plain_rows(&self) -> bool {
        (0..self.chart.height).any(|row| one_colour(&self.chart, row).is_some())
    }

    pub(super) fn is_caught(&self, row: usize, column: usize) -> bool {
        self.catches.contains(&(row, column))
    }
}
