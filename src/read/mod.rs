//! Files to a resolved course, with every fault of the run.
//!
//! `files` is the only place that reads the disk; `yaml` the only one that names the YAML crate; `keys` holds the
//! formats as one table that checking, messages and the JSON Schema share.

mod bands;
mod chart_file;
mod chart_use;
mod course_file;
mod craft;
mod files;
mod keys;
mod keys_beside;
mod lesson_file;
mod line_chart;
mod load;
mod loaded;
mod log_file;
mod needs;
mod schema;
mod settings;
mod shape;
mod yaml;

pub use files::{ReadError, Text, read_file, read_folder, read_picture};
pub use line_chart::{LineChart, LineError, read_line_chart};
pub use load::{load_paths, load_texts};
pub use loaded::{Loaded, Wanted};
pub use log_file::{Judgement, LogText, OneFile, read_log, read_pairs};
pub use schema::schema;
pub use settings::{Settings, read_settings};
