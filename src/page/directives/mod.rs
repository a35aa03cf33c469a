//! What the fenced blocks of templates stand for, in a handout and in the course plan.

mod charts;
mod common;
mod course;
mod fields;
mod handout;
mod pair;
mod pieces;
mod tables;
mod teacher;
mod ways;

pub use course::CourseDirectives;
pub use handout::HandoutDirectives;
pub use pair::Comparison;
