//! How much floss a colour takes on cloth: every cross, its tails, a fifth more.

use crate::ground::units::Length;
use crate::rows::thread::Thread;

/// Cloth left free on every side. Common practice, no source.
pub const MARGIN: Length = Length::mm(75.0);
/// Strands of which floss is made.
pub const STRANDS_OF_SKEIN: usize = 6;
/// Metres of a skein. Common practice, no source.
pub const SKEIN: f64 = 8.0;
/// Left at either end of a thread.
pub const END: Length = Length::mm(50.0);
/// What is bought beyond what is used.
const RESERVE: f64 = 1.2;

/// How long a thread is cut: a longer one wears. Common practice, no source.
pub const CUT: Length = Length::mm(450.0);

/// Floss of one colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floss {
    /// Lengths of working thread, each begun and ended.
    pub lengths: usize,
    /// Metres off the skein.
    pub metres: f64,
    /// Skeins to buy.
    pub skeins: usize,
}

/// Floss for a thread of so many strands over squares of this pitch: two arms in front, √2 of a square each, and two ways of
/// a square behind. Each start takes whole lengths; of a length off the skein as many are made as its strands allow.
#[must_use]
pub fn floss(thread: &Thread, pitch: Length, strands: usize) -> Floss {
    let cross = pitch.to_mm() * (2.0 * std::f64::consts::SQRT_2 + 2.0);
    let working = CUT.to_mm() - 2.0 * END.to_mm();
    let of_start =
        |crosses: usize| (crosses as f64 * cross / working - 1e-9).ceil().max(1.0) as usize;
    let lengths: usize = thread
        .starts
        .iter()
        .map(|start| of_start(start.crosses))
        .sum();
    let pieces = (lengths * strands).div_ceil(STRANDS_OF_SKEIN);
    let metres = pieces as f64 * CUT.to_mm() / 1000.0;
    Floss {
        lengths,
        metres,
        skeins: (metres * RESERVE / SKEIN - 1e-9).ceil().max(1.0) as usize,
    }
}
