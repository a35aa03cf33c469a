//! The only disk reads: a course folder or a single file to texts.

use std::ffi::OsString;
use std::fmt;
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use crate::ground::bounds::{FILE_BYTES, FOLDERS_DEEP, PICTURE_BYTES};

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

/// A path with forward slashes.
pub(super) fn shown(path: &Path) -> String {
    path.display().to_string().replace('\\', "/")
}

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
    if known.len() > PICTURE_BYTES {
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
    let fail = |error| ReadError {
        path: path.to_owned(),
        error,
    };
    // One byte more than is understood: so much tells that the file is too large, and a device without end ends.
    let most = FILE_BYTES as u64 + 1;
    let mut bytes = Vec::new();
    let file = fs::File::open(path).map_err(fail)?;
    file.take(most).read_to_end(&mut bytes).map_err(fail)?;
    let text = if bytes.len() > FILE_BYTES {
        Some(String::from_utf8_lossy(&bytes).into_owned())
    } else {
        String::from_utf8(bytes).ok()
    };
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

/// Whether links that lead out of a course's folder are followed. A course may come from anywhere, and a link in it could
/// show what lies elsewhere on this machine.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Links {
    /// Only those that stay inside.
    #[default]
    Inside,
    /// All of them.
    Anywhere,
}

/// Why something in a course's folder is not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// A link that leads nowhere.
    DeadLink,
    /// A link that leads out of the folder.
    LeadsOut,
    /// A name that is not UTF-8.
    Name,
    /// An ending that this folder is not read for.
    Ending,
    /// A folder that holds a course of its own.
    OtherCourse,
    /// A folder too deep inside others.
    Depth,
    /// A folder that cannot be opened.
    Closed,
}

/// What a course's folder holds.
#[derive(Clone, Debug, Default)]
pub struct Listing {
    /// What is read, by path.
    pub files: Vec<FolderFile>,
    /// What is not and might be believed to be, by path below the folder.
    pub not_read: Vec<(String, Why)>,
}

/// All files of a course folder, by path: lessons and charts (`*.yaml`, `*.yml`) wherever they lie, cards in `techniques/`,
/// templates in `templates/`. What begins with a dot, logs in `people/` and links that lead out are not read; folders of other
/// names only of a course, so that nobody's whole disk is read for one lesson.
///
/// # Errors
/// When the folder cannot be opened.
pub fn list_folder(root: &Path, links: Links) -> Result<Listing, ReadError> {
    let whole = root.canonicalize().map_err(|error| ReadError {
        path: root.to_owned(),
        error,
    })?;
    let mut listing = Listing::default();
    list_inside((root, &whole), "", links, &mut listing)?;
    listing
        .files
        .sort_by(|a, b| order_of(&a.inside).cmp(&order_of(&b.inside)));
    listing.not_read.sort_by(|a, b| a.0.cmp(&b.0));
    Ok(listing)
}

/// The folder's own files first, then those of the folders in it.
fn order_of(inside: &str) -> (usize, &str) {
    (inside.matches('/').count(), inside)
}

fn list_inside(
    (root, whole): (&Path, &Path),
    below: &str,
    links: Links,
    listing: &mut Listing,
) -> Result<(), ReadError> {
    let path = root.join(below);
    let depth = if below.is_empty() {
        0
    } else {
        below.matches('/').count() + 1
    };
    let endings: &[&str] = match below.split('/').next() {
        Some("techniques") => &["md"],
        Some("templates") => &["md", "html", "css"],
        _ => YAML,
    };
    let names = match names_in(&path) {
        // A stick has folders of the system's own, which nobody may open.
        Err(_) if !below.is_empty() => {
            listing.not_read.push((below.to_owned(), Why::Closed));
            return Ok(());
        }
        names => names?,
    };
    for name in names {
        let Ok(name) = name else {
            let shown = name.unwrap_or_else(|name| name.to_string_lossy().into_owned());
            if endings.iter().any(|end| shown.ends_with(end)) {
                listing.not_read.push((joined(below, &shown), Why::Name));
            }
            continue;
        };
        if name.starts_with('.') {
            continue;
        }
        let (file, inside) = (path.join(&name), joined(below, &name));
        let ending = file
            .extension()
            .and_then(|e| e.to_str())
            .unwrap_or("")
            .to_lowercase();
        let is_wanted = endings.contains(&ending.as_str());
        let is_link = fs::symlink_metadata(&file).is_ok_and(|known| known.is_symlink());
        let known = fs::metadata(&file);
        if is_link {
            let why = match file.canonicalize() {
                Err(_) => Some(Why::DeadLink),
                Ok(to) if links == Links::Inside && !to.starts_with(whole) => Some(Why::LeadsOut),
                Ok(_) => None,
            };
            let matters = is_wanted || known.as_ref().is_ok_and(fs::Metadata::is_dir);
            if let Some(why) = why {
                if matters {
                    listing.not_read.push((inside, why));
                }
                continue;
            }
        }
        match known {
            Ok(known) if known.is_dir() => {
                let known = below.is_empty() && OURS.contains(&name.as_str());
                let others = root.join("course.yaml").is_file();
                if (below.is_empty() && name == PEOPLE) || !(known || others) {
                    continue;
                }
                if file.join("course.yaml").is_file() {
                    listing.not_read.push((inside, Why::OtherCourse));
                } else if depth >= FOLDERS_DEEP {
                    listing.not_read.push((inside, Why::Depth));
                } else {
                    list_inside((root, whole), &inside, links, listing)?;
                }
            }
            Ok(known) if known.is_file() && is_wanted => {
                listing.files.push(FolderFile { path: file, inside });
            }
            Ok(known) if known.is_file() => {
                // A copy that an editor left, or a text named twice, may be taken for the lesson itself.
                let looks = name.to_lowercase();
                let yaml = [".yaml", ".yml"].iter().any(|end| looks.contains(end));
                let special = matches!(below, "techniques" | "templates");
                if special || (yaml && !name.ends_with('~')) {
                    listing.not_read.push((inside, Why::Ending));
                }
            }
            _ => {}
        }
    }
    Ok(())
}

fn joined(below: &str, name: &str) -> String {
    match below {
        "" => name.to_owned(),
        below => format!("{below}/{name}"),
    }
}

/// The texts of a course's folder.
#[derive(Clone, Debug)]
pub struct FolderTexts {
    /// By path.
    pub texts: Vec<Text>,
    /// What is not read and might be believed to be.
    pub not_read: Vec<(String, Why)>,
}

/// Reads all files of a course folder, by path. A file that was read already is taken as it is.
///
/// # Errors
/// When the folder or one of its files cannot be opened.
pub fn read_folder(
    root: &Path,
    known: Option<(&Path, Text)>,
    links: Links,
) -> Result<FolderTexts, ReadError> {
    let mut known = known.and_then(|(path, text)| Some((path.canonicalize().ok()?, text)));
    let Listing { files, not_read } = list_folder(root, links)?;
    let mut texts = Vec::with_capacity(files.len());
    for FolderFile { path, inside } in files {
        let is_known =
            |(known, _): &mut (PathBuf, Text)| path.canonicalize().ok() == Some(known.clone());
        texts.push(match known.take_if(is_known) {
            Some((_, text)) => Text { inside, ..text },
            None => read_file(&path, &inside)?,
        });
    }
    Ok(FolderTexts { texts, not_read })
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
    let all = names_in(folder).unwrap_or_default();
    all.into_iter().filter_map(Result::ok).collect()
}

const YAML: &[&str] = &["yaml", "yml"];
/// Folders that are read beside any lesson.
const OURS: [&str; 3] = ["charts", "techniques", "templates"];
/// Where a course keeps its learners' logs: no lessons.
const PEOPLE: &str = "people";

/// The names in a folder, in order; those that are no text as they are.
fn names_in(path: &Path) -> Result<Vec<Result<String, OsString>>, ReadError> {
    let fail = |error| ReadError {
        path: path.to_owned(),
        error,
    };
    let mut names = Vec::new();
    for entry in fs::read_dir(path).map_err(fail)? {
        names.push(entry.map_err(fail)?.file_name().into_string());
    }
    names.sort();
    Ok(names)
}

/// The course folder that a file belongs to: its own folder or the nearest above that holds `course.yaml`.
#[must_use]
pub(super) fn course_of(file: &Path) -> Option<PathBuf> {
    let folder = file.parent()?;
    let folder = if folder.as_os_str().is_empty() {
        Path::new(".")
    } else {
        folder
    };
    let mut above = folder.to_owned();
    for _ in 0..=FOLDERS_DEEP {
        if above.join("course.yaml").is_file() {
            return Some(above);
        }
        above = match above.parent().filter(|p| !p.as_os_str().is_empty()) {
            Some(parent) if !above.ends_with("..") && above != Path::new(".") => parent.to_owned(),
            _ if above == Path::new(".") => PathBuf::from(".."),
            _ if above.is_absolute() => return None,
            _ => above.join(".."),
        };
    }
    None
}
