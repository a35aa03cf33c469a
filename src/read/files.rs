//! The only disk reads: a course folder or a single file to texts.

use std::fmt;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// A file's path as shown, its place inside the course folder, and its bytes as text.
#[derive(Clone, Debug)]
pub struct Text {
    /// The path as the person wrote it, with forward slashes.
    pub shown: String,
    /// Path below the course folder, such as `charts/pebble.yaml`.
    pub inside: String,
    /// The text; `None` when the bytes are not UTF-8.
    pub text: Option<String>,
}

/// A path that cannot be read at all: the run cannot go on.
#[derive(Debug)]
pub struct ReadError {
    path: PathBuf,
    error: io::Error,
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "cannot read {}: {}", shown(&self.path), self.error)
    }
}

impl std::error::Error for ReadError {}

fn shown(path: &Path) -> String {
    path.display().to_string().replace('\\', "/")
}

/// The most bytes of a picture that is read.
const MOST_BYTES: u64 = 128 << 20;

/// The bytes of a picture.
///
/// # Errors
/// When there is no such file, it cannot be read, is a pipe or a device, or has more than 128 MB.
pub fn read_picture(path: &Path) -> Result<Vec<u8>, ReadError> {
    let fail = |error: io::Error| ReadError {
        path: path.to_owned(),
        error,
    };
    let known = fs::metadata(path).map_err(fail)?;
    if !known.is_file() {
        return Err(fail(io::Error::other("not a file")));
    }
    if known.len() > MOST_BYTES {
        return Err(fail(io::Error::other("more than 128 MB")));
    }
    fs::read(path).map_err(fail)
}

/// The bytes of a file; `None` where there is none, or something else, such as a pipe.
#[must_use]
pub fn read_bytes(path: &Path) -> Option<Vec<u8>> {
    fs::metadata(path).ok().filter(fs::Metadata::is_file)?;
    fs::read(path).ok()
}

/// Reads one file.
///
/// # Errors
/// When the file is missing or cannot be opened.
pub fn read_file(path: &Path, inside: &str) -> Result<Text, ReadError> {
    let bytes = fs::read(path).map_err(|error| ReadError {
        path: path.to_owned(),
        error,
    })?;
    let text = String::from_utf8(bytes).ok();
    // A byte order mark is not part of the text.
    let text = text.map(|t| t.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(t));
    Ok(Text {
        shown: shown(path),
        inside: inside.to_owned(),
        text,
    })
}

/// A file of a course folder: where it lies, and its place inside the folder.
#[derive(Clone, Debug)]
pub struct FolderFile {
    /// Its path.
    pub path: PathBuf,
    /// Path below the course folder, such as `charts/pebble.yaml`.
    pub inside: String,
}

/// All files of a course folder, by path: `*.yaml` in it and in `charts/`, cards in `techniques/`, templates in
/// `templates/`.
///
/// # Errors
/// When the folder or one of these cannot be opened.
pub fn list_folder(root: &Path) -> Result<Vec<FolderFile>, ReadError> {
    let mut files = Vec::new();
    for (folder, endings) in [
        ("", YAML),
        ("charts", YAML),
        ("techniques", &["md"]),
        ("templates", &["md", "html", "css"]),
    ] {
        let path = if folder.is_empty() {
            root.to_owned()
        } else {
            root.join(folder)
        };
        if !folder.is_empty() && !path.is_dir() {
            continue;
        }
        for name in names_in(&path)? {
            let file = path.join(&name);
            let ending = file.extension().and_then(|e| e.to_str()).unwrap_or("");
            if name.starts_with('.') || !endings.contains(&ending) || !file.is_file() {
                continue;
            }
            let inside = if folder.is_empty() {
                name
            } else {
                format!("{folder}/{name}")
            };
            files.push(FolderFile { path: file, inside });
        }
    }
    Ok(files)
}

/// Reads all files of a course folder, by path. A file that was read already is taken as it is.
///
/// # Errors
/// When the folder or one of its files cannot be opened.
pub fn read_folder(root: &Path, known: Option<(&Path, Text)>) -> Result<Vec<Text>, ReadError> {
    let mut known = known.and_then(|(path, text)| Some((path.canonicalize().ok()?, text)));
    let each = list_folder(root)?.into_iter();
    each.map(|FolderFile { path, inside }| {
        let is_known =
            |(known, _): &mut (PathBuf, Text)| path.canonicalize().ok() == Some(known.clone());
        match known.take_if(is_known) {
            Some((_, text)) => Ok(Text { inside, ..text }),
            None => read_file(&path, &inside),
        }
    })
    .collect()
}

/// What tells whether a file has changed: its length and when it was written; `None` where there is none, or something
/// else, such as a device.
#[must_use]
pub fn stamp(path: &Path) -> Option<(u64, SystemTime)> {
    let known = fs::metadata(path).ok().filter(fs::Metadata::is_file)?;
    Some((known.len(), known.modified().ok()?))
}

/// The names in a folder, in order; none where there is no such folder.
#[must_use]
pub fn names(folder: &Path) -> Vec<String> {
    names_in(folder).unwrap_or_default()
}

const YAML: &[&str] = &["yaml", "yml"];

fn names_in(path: &Path) -> Result<Vec<String>, ReadError> {
    let fail = |error| ReadError {
        path: path.to_owned(),
        error,
    };
    let mut names = Vec::new();
    for entry in fs::read_dir(path).map_err(fail)? {
        let entry = entry.map_err(fail)?;
        if let Ok(name) = entry.file_name().into_string() {
            names.push(name);
        }
    }
    names.sort();
    Ok(names)
}

/// The course folder that a file belongs to: its own folder or the one above, if it holds `course.yaml`.
#[must_use]
pub(super) fn course_of(file: &Path) -> Option<PathBuf> {
    let folder = file.parent()?;
    let folder = if folder.as_os_str().is_empty() {
        Path::new(".")
    } else {
        folder
    };
    let above = if folder == Path::new(".") {
        PathBuf::from("..")
    } else {
        folder.join("..")
    };
    let above = folder
        .parent()
        .filter(|p| !p.as_os_str().is_empty())
        .map_or(above, Path::to_owned);
    [folder.to_owned(), above]
        .into_iter()
        .find(|f| f.join("course.yaml").is_file())
}
