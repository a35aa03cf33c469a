//! The things a course is made of, resolved: every name looked up, every default filled in.

pub mod body;

pub mod chart;

pub mod log;

mod bands;
mod craft;
mod lesson;
mod settings;
mod whole;
mod yarn;

pub use bands::{Across, AcrossPart, Band, ChartUse, Extent};
pub use craft::{CLOTH, Closing, Cloth, Craft, CrochetStitch, InTheRound, Reads};
pub use lesson::{GaugeOn, Lesson, Weighed, Width, Yarn, middle};
pub use settings::{
    Binding, Budget, Hand, Learner, Levels, Paper, Part, PrintedSizes, Printer, Sessions, Terms,
    TypeSize, Units, Weights,
};
pub use whole::{Course, TEMPLATES};
pub use yarn::{Usual, YARN_WEIGHTS, YarnWeight, usual};
