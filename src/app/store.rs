//! The only disk writes: a whole set replaced at once, or new files in a new folder.
//!
//! A set is written beside the old one and synced, then swapped in. Killed at any moment, either the old set or the
//! new one is whole under its name. (Where two names cannot be exchanged in one act, the old set rests under another
//! name for the instant between two renames, and the next run puts it back.)

use std::collections::BTreeMap;
use std::fmt;
use std::fs::{self, File};
use std::io::{self, Read, Seek, Write};
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
fn at(path: &Path) -> impl FnOnce(io::Error) -> StoreError + '_ {
    move |error| StoreError::Io(path.to_owned(), error)
}

/// Writes files into a folder that is new or empty.
///
/// # Errors
/// When the folder holds anything, or the disk refuses.
pub fn write_new(folder: &Path, files: &BTreeMap<String, Vec<u8>>) -> Result<(), StoreError> {
    if folder.is_file()
        || (folder.is_dir() && fs::read_dir(folder).map_err(at(folder))?.next().is_some())
    {
        return Err(StoreError::NotEmpty(folder.to_owned()));
    }
    write_all(folder, files)
}

/// Writes files that must all be new, or none of them.
///
/// # Errors
/// When one is there already, or the disk refuses.
pub fn write_new_files(files: &[(PathBuf, Vec<u8>)]) -> Result<(), StoreError> {
    if let Some((path, _)) = files
        .iter()
        .find(|(path, _)| path.symlink_metadata().is_ok())
    {
        return Err(StoreError::Exists(path.clone()));
    }
    for (i, (path, bytes)) in files.iter().enumerate() {
        let written = File::create_new(path).and_then(|mut file| {
            file.write_all(bytes)?;
            file.sync_all()
        });
        if let Err(error) = written {
            // What this run made so far goes again; what somebody else made meanwhile stays.
            let made = usize::from(error.kind() != io::ErrorKind::AlreadyExists) + i;
            for (path, _) in files.iter().take(made) {
                let _ = fs::remove_file(path);
            }
            return Err(StoreError::Io(path.clone(), error));
        }
    }
    Ok(())
}

/// Replaces one file at once: written beside it, synced, renamed over it.
///
/// # Errors
/// When the disk refuses; the old file is then whole.
pub fn replace_file(path: &Path, bytes: &[u8]) -> Result<(), StoreError> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(at(folder))?;
    }
    // A link stays one: the file that it leads to is replaced.
    let path = &path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let beside = path.with_file_name(format!(".{name}.new"));
    let written = File::create(&beside).and_then(|mut file| {
        file.write_all(bytes)?;
        if let Ok(old) = fs::metadata(path) {
            file.set_permissions(old.permissions())?;
        }
        file.sync_all()?;
        fs::rename(&beside, path)
    });
    written.map_err(|error| {
        let _ = fs::remove_file(&beside);
        StoreError::Io(path.to_owned(), error)
    })
}

/// Lines put behind what a file holds, in one write, so that a reader sees all of them or, after a cut in the current,
/// some last ones torn. A torn last line of before is ended first. The file and its folder are made where they are missing.
///
/// # Errors
/// When the disk refuses. What was written of the lines is then taken back.
pub fn append(path: &Path, lines: &str) -> Result<(), StoreError> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(at(folder))?;
    }
    let mut file = File::options()
        .read(true)
        .append(true)
        .create(true)
        .open(path)
        .map_err(at(path))?;
    let before = file.metadata().map_err(at(path))?.len();
    let written = ends_its_line(&mut file, before).and_then(|ends| {
        file.write_all(format!("{}{lines}", if ends { "" } else { "\n" }).as_bytes())
    });
    written.map_err(|error| {
        let _ = file.set_len(before);
        StoreError::Io(path.to_owned(), error)
    })
}

/// Whether the last byte of a file ends a line, or there is none.
fn ends_its_line(file: &mut File, length: u64) -> io::Result<bool> {
    let Some(last) = length.checked_sub(1) else {
        return Ok(true);
    };
    let mut byte = [0];
    file.seek(io::SeekFrom::Start(last))?;
    file.read_exact(&mut byte)?;
    Ok(byte == [b'\n'])
}

/// Does something while no other process that asks for the same lock does. A lock of a process that died is given back by
/// the system.
///
/// # Errors
/// When the lock's file cannot be made.
pub fn locked<T>(path: &Path, act: impl FnOnce() -> T) -> Result<T, StoreError> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(at(folder))?;
    }
    let file = File::options()
        .append(true)
        .create(true)
        .open(path)
        .map_err(at(path))?;
    file.lock().map_err(at(path))?;
    let done = act();
    let _ = file.unlock();
    Ok(done)
}

/// Takes a file away; one that is not there is gone already.
///
/// # Errors
/// When the disk refuses.
pub fn remove_file(path: &Path) -> Result<(), StoreError> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => {
            Err(StoreError::Io(path.to_owned(), error))
        }
        _ => Ok(()),
    }
}

fn write_all(folder: &Path, files: &BTreeMap<String, Vec<u8>>) -> Result<(), StoreError> {
    let mut folders = vec![folder.to_owned()];
    fs::create_dir_all(folder).map_err(at(folder))?;
    for (name, bytes) in files {
        let path = folder.join(name);
        if let Some(parent) = path.parent()
            && !folders.iter().any(|f| f == parent)
        {
            fs::create_dir_all(parent).map_err(at(parent))?;
            folders.push(parent.to_owned());
        }
        let mut file = File::create(&path).map_err(at(&path))?;
        file.write_all(bytes).map_err(at(&path))?;
        file.sync_all().map_err(at(&path))?;
    }
    folders.iter().try_for_each(|folder| sync_folder(folder))
}

/// A folder's own entries reach the disk, where the system knows how.
fn sync_folder(folder: &Path) -> Result<(), StoreError> {
    if cfg!(unix) {
        File::open(folder)
            .and_then(|f| f.sync_all())
            .map_err(at(folder))?;
    }
    Ok(())
}

/// What a replacement did.
#[derive(Debug, Default)]
pub struct Replaced {
    /// Files of a person that were carried over, below the set's folder.
    pub kept: Vec<String>,
}

/// Replaces the set in `out/id` as a whole. `old_names` are the paths that the old set's own manifest lists.
///
/// # Errors
/// When a folder of somebody else stands there, a person's file has the name of a new one, or the disk refuses. The
/// old set is then whole.
pub fn replace_set(
    out: &Path,
    id: &str,
    files: &BTreeMap<String, Vec<u8>>,
) -> Result<Replaced, StoreError> {
    let target = out.join(id);
    let resting = out.join(format!(".{id}.old"));
    let fresh = out.join(format!(".{id}.new"));
    fs::create_dir_all(out).map_err(at(out))?;
    recover(&target, &resting)?;
    remove(&fresh)?;
    let mut all = files.clone();
    let mut replaced = Replaced::default();
    if target.exists() {
        let ours = manifest_names(&target)?;
        for name in names_below(&target, &target)? {
            if ours.contains(&name) {
                continue;
            }
            let path = target.join(&name);
            if all.contains_key(&name) {
                return Err(StoreError::Clash(path));
            }
            all.insert(name.clone(), fs::read(&path).map_err(at(&path))?);
            replaced.kept.push(name);
        }
    }
    write_all(&fresh, &all)?;
    swap_in(&fresh, &target, &resting)?;
    sync_folder(out)?;
    remove(&fresh)?;
    remove(&resting)?;
    Ok(replaced)
}

/// Gives the fresh set its name. Where the system can exchange two names in one act, that is done; elsewhere the old
/// set rests under another name for the instant between two renames.
fn swap_in(fresh: &Path, target: &Path, resting: &Path) -> Result<(), StoreError> {
    if !target.exists() {
        return fs::rename(fresh, target).map_err(at(target));
    }
    if exchange(fresh, target) {
        return Ok(());
    }
    fs::rename(target, resting).map_err(at(target))?;
    fs::rename(fresh, target).map_err(|error| {
        // Puts the old set back under its name before giving up.
        let _ = fs::rename(resting, target);
        StoreError::Io(target.to_owned(), error)
    })
}

/// Exchanges two names in one act; `false` where that cannot be done.
#[cfg(target_os = "linux")]
fn exchange(a: &Path, b: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, a, CWD, b, RenameFlags::EXCHANGE).is_ok()
}

/// Exchanges two names in one act; this system cannot.
#[cfg(not(target_os = "linux"))]
fn exchange(_: &Path, _: &Path) -> bool {
    false
}

/// After a run that was killed between the two renames, the old set gets its name back; a leftover beside a whole set
/// goes.
fn recover(target: &Path, resting: &Path) -> Result<(), StoreError> {
    if !resting.exists() {
        return Ok(());
    }
    if target.exists() {
        remove(resting)
    } else {
        fs::rename(resting, target).map_err(at(resting))
    }
}

fn remove(folder: &Path) -> Result<(), StoreError> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => {
            Err(StoreError::Io(folder.to_owned(), error))
        }
        _ => Ok(()),
    }
}

/// Paths that the set's own manifest lists, and the manifest.
fn manifest_names(target: &Path) -> Result<Vec<String>, StoreError> {
    let path = target.join("pack.json");
    let not_ours = || StoreError::NotOurs(target.to_owned());
    if target.is_dir() && fs::read_dir(target).map_err(at(target))?.next().is_none() {
        return Ok(Vec::new());
    }
    let text = fs::read_to_string(&path).map_err(|_| not_ours())?;
    let value: serde_json::Value = serde_json::from_str(&text).map_err(|_| not_ours())?;
    let entries = value
        .get("files")
        .and_then(|f| f.as_array())
        .ok_or_else(not_ours)?;
    let mut names: Vec<String> = entries
        .iter()
        .filter_map(|e| e.get("path")?.as_str().map(str::to_owned))
        .collect();
    names.push("pack.json".to_owned());
    Ok(names)
}

/// All files below a folder, as paths with forward slashes.
fn names_below(root: &Path, folder: &Path) -> Result<Vec<String>, StoreError> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).map_err(at(folder))? {
        let path = entry.map_err(at(folder))?.path();
        if path.is_dir() {
            names.extend(names_below(root, &path)?);
        } else if let Ok(below) = path.strip_prefix(root) {
            names.push(below.to_string_lossy().replace('\\', "/"));
        }
    }
    names.sort();
    Ok(names)
}
