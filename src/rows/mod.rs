//! Rows: what is worked, in what order, where it is drawn; and all that is measured, caught, tamed and graded in them.

pub mod drawn;

pub mod across;

pub mod edges;

pub mod walk;

pub mod measure;

pub mod catches;

pub mod tame;
pub mod thread;
pub mod traps;

pub mod grade;
