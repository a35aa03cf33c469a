//! Why the disk was not written.

use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

/// Why nothing was written.
#[derive(Debug)]
pub enum StoreError {
    /// The disk said no.
    Io(PathBuf, io::Error),
    /// The folder to be made holds something already.
    NotEmpty(PathBuf),
    /// A folder stands where the set goes, but it is not a set of ours.
    NotOurs(PathBuf),
    /// A file is there already, and is never written over.
    Exists(PathBuf),
    /// Somebody changed the file meanwhile.
    Changed(PathBuf),
    /// A file of a person has the name of one of ours.
    Clash(PathBuf),
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Io(path, error) => write!(f, "cannot write {}: {error}", path.display()),
            Self::NotEmpty(path) => {
                write!(f, "{} is not empty; name a new folder", path.display())
            }
            Self::Exists(path) => write!(
                f,
                "{} is there already and is never written over; name another with --to",
                path.display()
            ),
            Self::NotOurs(path) => write!(
                f,
                "{} holds files but no pack.json of ours; move them away or pack --to another folder",
                path.display()
            ),
            Self::Changed(path) => write!(f, "{} was changed meanwhile", path.display()),
            Self::Clash(path) => write!(
                f,
                "{} was put there by somebody and a new file of the set has the same name; rename it",
                path.display()
            ),
        }
    }
}

impl std::error::Error for StoreError {}

/// Turns a disk error into ours.
pub(super) fn at(path: &Path) -> impl FnOnce(io::Error) -> StoreError + '_ {
    move |error| StoreError::Io(path.to_owned(), error)
}
