//! Why a piece has no schedule.

use crate::piece::schedule::counts::CountError;
use crate::piece::schedule::yoke::YokeError;

/// A piece without counts.
#[derive(Clone, Debug, PartialEq)]
pub enum NoSchedule {
    /// Nothing asks for stitches.
    Empty,
    /// Counts of bands; with them the bands of the lesson that asked, by index.
    Counts(CountError, Vec<usize>),
    /// A change that is too large for one round.
    TooSteep {
        /// Stitches before.
        from: usize,
        /// Stitches wanted.
        to: usize,
    },
    /// A band that does not go into the stitches that are there.
    DoesNotFit {
        /// Its index.
        band: usize,
        /// The stitches.
        stitches: usize,
        /// Its repeat.
        multiple: usize,
        /// Its edge stitches.
        edges: usize,
    },
    /// No crown or top from so many stitches.
    Crown(usize),
    /// No thumb in a hand of so many.
    Thumb(usize),
    /// No sleeve from cuff to upper arm.
    Sleeve(usize, usize),
    /// No yoke; with the bands of the lesson by index, `None` for plain rounds between two narrowings.
    Yoke(Box<YokeError>, Vec<Option<usize>>),
}
