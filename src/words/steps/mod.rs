//! Instructions from the schedules of all sizes, and the tables beside them.

mod author;
mod bands;
mod boxes;
mod ends;
mod hand;
mod jersey;
mod joined;
mod resting;
mod stages;
mod stripes;
mod tables;
mod told;
mod yoke;

pub(crate) use author::Author;
pub use told::{Instruction, RoundTable, SizeTable, StripeLine};
