//! Instructions from the schedules of all sizes, and the tables beside them.

mod author;
mod bands;
mod ends;
mod hand;
mod jersey;
mod resting;
mod stages;
mod tables;
mod told;

pub(crate) use author::Author;
pub use told::{Instruction, RoundTable};
