//! The things a course is made of, resolved: every name looked up, every default filled in.

pub mod body;

pub mod chart;

pub mod log;

mod lesson;
mod settings;
mod whole;

pub use lesson::{
    Across, AcrossPart, Band, ChartUse, Craft, Extent, GaugeOn, Lesson, Weighed, Yarn, middle,
};
pub use settings::{Budget, Levels, Paper, Part, Sessions, Terms, Units, Weights};
pub use whole::Course;
