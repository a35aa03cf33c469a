//! Working schedules as numbers: counts of bands, even decreases, crowns, sleeves, thumbs and the circular yoke.
//!
//! Nothing here knows a lesson, a chart or a word. Counts are whole stitches; lengths and gauges come in as
//! [`Length`](crate::ground::units::Length) and [`Gauge`](crate::ground::units::Gauge). Every round is given by the count it starts
//! from and the count it leaves, so that whoever prints it can show that nothing is lost between two rounds.

mod bounds;
pub mod counts;
pub mod crown;
pub mod disc;
pub mod even;
pub mod mitten;
pub mod multiple;
pub mod needle;
pub mod outcome;
mod round;
pub mod runs;
pub mod sleeve;
pub mod thumb;
pub mod yoke;

pub use bounds::{MOST_ROUNDS, MOST_STITCHES};
pub use round::{Round, RoundWork};
