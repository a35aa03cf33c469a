//! Fits of small models: weights to judgements, the right step to results, and how well two orders agree.

mod linear;
mod pairs;
mod success;

pub use pairs::{Judged, Prior, Strengths, agreement, leave_one_out, strengths, to_hundred};
pub use success::{BEST_ERROR, Target, target_of};
