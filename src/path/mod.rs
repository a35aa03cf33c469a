//! The way through a course and beyond: how large a step each lesson is, the best order, what closes a gap, what comes
//! next for a learner.

mod order;
mod ordered;
mod route;
mod state;

pub mod library;

pub mod learner;

pub mod remedies;

pub use order::{Candidate, Gap, Order, Placed, Practice, order};
pub use ordered::{StudiedCourse, Task, in_order};
pub use route::{Map, Route, Stop, Stride, route};
pub use state::{State, Step, technique_points};
