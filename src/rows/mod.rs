//! Rows: what is worked, in what order, where it is drawn; and all that is measured, caught, tamed and graded in them.

pub mod walk;

pub mod measure;

pub mod catches;

pub mod tame;

pub mod grade;
