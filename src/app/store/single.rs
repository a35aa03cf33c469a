//! Single files: replaced at once, made anew, added to; and locks.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Read, Seek, Write};
use std::path::{Path, PathBuf};

use crate::app::store::error::{StoreError, at};

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
    let (path, beside) = written_beside(path, bytes)?;
    fs::rename(&beside, &path).map_err(|error| {
        let _ = fs::remove_file(&beside);
        StoreError::Io(path, error)
    })
}

/// Replaces a text at once, if it still is what it is thought to be; `None` of a file that is not there.
///
/// # Errors
/// When somebody changed it meanwhile, or the disk refuses; the file is then as it was.
pub fn replace_text(path: &Path, text: &str, old: Option<&str>) -> Result<(), StoreError> {
    let (path, beside) = written_beside(path, text.as_bytes())?;
    let is_old = |path: &Path| {
        let bytes = fs::read(path).ok();
        let bytes = bytes.as_deref();
        // A byte order mark is not part of the text.
        let bytes = bytes.map(|bytes| bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes));
        bytes == old.map(str::as_bytes)
    };
    let give_up = |error: StoreError| {
        let _ = fs::remove_file(&beside);
        Err(error)
    };
    if old.is_some() && exchange(&beside, &path) {
        // What was there lies beside now; if it is not what it should be, all is put back.
        if is_old(&beside) {
            let _ = fs::remove_file(&beside);
            return Ok(());
        }
        exchange(&beside, &path);
        return give_up(StoreError::Changed(path));
    }
    if !is_old(&path) {
        return give_up(StoreError::Changed(path));
    }
    match fs::rename(&beside, &path) {
        Ok(()) => Ok(()),
        Err(error) => give_up(StoreError::Io(path, error)),
    }
}

/// Exchanges two names in one act; `false` where that cannot be done.
#[cfg(target_os = "linux")]
pub(super) fn exchange(a: &Path, b: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, a, CWD, b, RenameFlags::EXCHANGE).is_ok()
}

/// Exchanges two names in one act; this system cannot.
#[cfg(not(target_os = "linux"))]
pub(super) fn exchange(_: &Path, _: &Path) -> bool {
    false
}

/// Bytes written and synced beside a file: where the file is, a link followed, and where they are.
fn written_beside(path: &Path, bytes: &[u8]) -> Result<(PathBuf, PathBuf), StoreError> {
    made(path.parent())?;
    // A link stays one: the file that it leads to is replaced.
    let path = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let beside = path.with_file_name(format!(".{name}.new"));
    // What a killed run left, or somebody's link, is not written through.
    remove_file(&beside)?;
    let written = File::create_new(&beside).and_then(|mut file| {
        file.write_all(bytes)?;
        if let Ok(old) = fs::metadata(&path) {
            file.set_permissions(old.permissions())?;
        }
        file.sync_all()
    });
    match written {
        Ok(()) => Ok((path, beside)),
        Err(error) => {
            let _ = fs::remove_file(&beside);
            Err(StoreError::Io(path, error))
        }
    }
}

/// Makes a folder where it is missing; the one that it lies in must be there.
fn made(folder: Option<&Path>) -> Result<(), StoreError> {
    let Some(folder) = folder.filter(|folder| !folder.as_os_str().is_empty()) else {
        return Ok(());
    };
    match fs::create_dir(folder) {
        Err(error) if error.kind() != io::ErrorKind::AlreadyExists => {
            Err(StoreError::Io(folder.to_owned(), error))
        }
        _ => Ok(()),
    }
}

/// Refuses what is neither missing nor a file: a link leads elsewhere, a pipe never ends.
fn plain(path: &Path) -> Result<(), StoreError> {
    match path.symlink_metadata() {
        Ok(known) if !known.is_file() => {
            let error = io::Error::other("is no file of its own");
            Err(StoreError::Io(path.to_owned(), error))
        }
        _ => Ok(()),
    }
}

/// Lines put behind what a file holds, in one write, so that a reader sees all of them or, after a cut in the current,
/// some last ones torn. A torn last line of before is ended first. The file and its folder are made where they are missing.
///
/// # Errors
/// When the disk refuses. What was written of the lines is then taken back.
pub fn append(path: &Path, lines: &str) -> Result<(), StoreError> {
    made(path.parent())?;
    plain(path)?;
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
    made(path.parent())?;
    plain(path)?;
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

pub(super) fn write_all(
    folder: &Path,
    files: &BTreeMap<String, Vec<u8>>,
) -> Result<(), StoreError> {
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
pub(super) fn sync_folder(folder: &Path) -> Result<(), StoreError> {
    if cfg!(unix) {
        File::open(folder)
            .and_then(|f| f.sync_all())
            .map_err(at(folder))?;
    }
    Ok(())
}
