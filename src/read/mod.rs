//! Files to a resolved course, with every fault of the run.
//!
//! `files` is the only place that reads the disk; `yaml` the only one that names the YAML crate; `keys` holds the
//! formats as one table that checking, messages and the JSON Schema share.

mod bands;
mod change;
mod chart_file;
mod chart_use;
mod check;
mod course_file;
mod craft;
mod edit;
mod files;
mod keys;
mod keys_beside;
mod lesson_file;
mod line_chart;
mod load;
mod loaded;
mod log_file;
mod needs;
mod node;
mod place;
mod roles;
mod schema;
mod shape;
mod told;
mod tree;
mod unclosed;
mod unlikely;
mod values;
mod yaml;

pub use change::{At, Change};
pub use chart_file::{ChartText, read_chart_text};
pub use edit::{EditError, edited};
pub use files::{
    FolderFile, Links, ReadError, Text, list_folder, names, read_bytes, read_file, read_folder,
    read_picture, stamp,
};
pub use line_chart::{LineChart, LineError, read_line_chart};
pub use load::{lesson_id, load_paths, load_texts};
pub use loaded::{Loaded, Wanted};
pub use log_file::{Judgement, LogText, OneFile, log_grows, read_log, read_pairs, read_register};
pub use schema::schema;
pub use shape::is_id;
