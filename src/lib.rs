//! Yokeward makes graded colourwork courses.
//!
//! The pipeline, and the order of the modules (a module names only those above it; a test checks that):
//!
//! 1. [`read`] turns YAML and Markdown into a [`lesson::Course`] of [`chart::Chart`]s and lessons, with every
//!    [`fault`] of the run.
//! 2. [`worked`] lays out the rows as they are worked; [`measure`] measures them and nothing else.
//! 3. [`grade`] weighs the measures; [`course`] orders the lessons so that the largest step is as small as can be.
//! 4. [`handout`] resolves all that a page says; [`picture`] draws in millimetres.
//! 5. [`render`] turns templates to blocks, and blocks to HTML, PDF and Markdown; [`pack`] collects the bytes.
//! 6. [`store`] replaces the whole set on disk at once; [`pipeline`] joins the steps; [`cli`] talks to people.

// Each module stands alone between blank lines, so that the formatter keeps this order, which is the layer order.

pub mod units;

pub mod colour;

pub mod fit;

pub mod fault;

pub mod chart;

pub mod body;

pub mod schedule;

pub mod lesson;

pub mod log;

pub mod read;

pub mod worked;

pub mod measure;

pub mod catches;

pub mod tame;

pub mod grade;

pub mod course;

pub mod assess;

pub mod piece;

pub mod contrast;

pub mod yarn;

pub mod time;

pub mod library;

pub mod learner;

pub mod remedies;

pub mod words;

pub mod report;

pub mod picture;

pub mod handout;

pub mod render;

pub mod pack;

pub mod store;

pub mod pipeline;

pub mod cli;
