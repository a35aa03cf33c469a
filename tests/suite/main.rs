//! One test binary: what the program promises, checked against files, published values and outside readers.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot go on should say where it stopped"
)]

mod bad_input;
mod bodies;
mod booklets;
mod catches;
mod cautions;
mod charts;
mod circles;
mod cli;
mod colours;
mod crafts;
mod demo_course;
mod desk;
mod disk;
mod drawn;
mod edges;
mod edits;
mod fits;
mod frames;
mod fuzzed;
mod goldens;
mod hands;
mod hardy;
mod harness;
mod heard;
mod leaks;
mod learner;
mod learners;
mod marks;
mod measures;
mod names;
mod needles;
mod order;
mod outside_readers;
mod packs;
mod page_plan;
mod pictures;
mod pieces;
mod prints;
mod reading;
mod remedies;
mod rules;
mod schedule;
mod screens;
mod shades;
mod short_forms;
mod stream;
mod tagged;
mod tame;
mod terms;
mod tidy;
mod told;
mod traced;
mod trade;
mod yarns;
