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

/// Floss of one colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floss {
    /// Metres of whole floss.
    pub metres: f64,
    /// Skeins to buy.
    pub skeins: usize,
}

/// Floss for a thread of so many strands over squares of this pitch: two arms in front, √2 of a square each, and two ways of
/// a square behind.
#[must_use]
pub fn floss(thread: &Thread, pitch: Length, strands: usize) -> Floss {
    let cross = pitch.to_mm() * (2.0 * std::f64::consts::SQRT_2 + 2.0);
    let ends = 2.0 * END.to_mm() * thread.starts.len() as f64;
    let working = thread.crosses as f64 * cross + ends;
    let metres = working / 1000.0 * strands as f64 / STRANDS_OF_SKEIN as f64;
    Floss {
        metres,
        skeins: (metres * RESERVE / SKEIN - 1e-9).ceil().max(1.0) as usize,
    }
}
