//! The only disk writes: a whole set replaced at once, single files, new files in a new folder.

mod error;
mod set;
mod single;

pub use error::StoreError;
pub use set::{Replaced, replace_set};
pub use single::{
    append, locked, remove_file, replace_file, replace_text, write_new, write_new_files,
};
