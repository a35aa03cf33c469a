//! The desk over its own connection: what it answers, who may ask, what stays whole.

mod answers;
mod client;
mod drafts;
mod odd;
mod safe;
mod whole;
