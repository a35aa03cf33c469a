//! What a learner has behind her, and which thing is the right next step.

mod history;
mod next;

pub use history::{History, Result, history};
pub use next::{Aim, Filter, Proposal, aim, next};
