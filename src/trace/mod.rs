//! A chart from its picture: the grid is found, the picture straightened, cells read and their colours told apart.

mod blocks;
mod bundle;
mod cells;
mod check;
mod colours;
mod comb;
mod edges;
mod extent;
mod grid;
mod light;
mod picture;
mod plane;
mod regions;
mod symbols;
mod traced;
mod tracing;

pub use check::{check, picture_of, picture_size};
pub use plane::Place;
pub use traced::{CornerFault, Glimpse, Options, Refusal, Traced, TracedColour, Unsure};
pub use tracing::trace;
