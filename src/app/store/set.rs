//! A whole set of files replaced at once.
//!
//! A set is written beside the old one and synced, then swapped in. Killed at any moment, either the old set or the new
//! one is whole under its name. (Where two names cannot be exchanged in one act, the old set rests under another name
//! for the instant between two renames, and the next run puts it back.) What a person put among the files is moved over,
//! never read or written, and what she changed of ours is kept beside the new. One run writes at a time.

use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fs::{self, File, TryLockError};
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::time::Duration;

use sha2::{Digest, Sha256};

use crate::app::store::error::{StoreError, at};
use crate::app::store::single::{exchange, sync_folder, write_all};

/// What a replacement did.
#[derive(Debug, Default)]
pub struct Replaced {
    /// What a person put there and was carried over, below the set's folder.
    pub kept: Vec<String>,
    /// Files of ours that a person had changed, and what they are called now.
    pub changed: Vec<(String, String)>,
}

/// Where a set lies, and what is beside it while it is replaced.
struct Place {
    target: PathBuf,
    fresh: PathBuf,
    resting: PathBuf,
    lock: PathBuf,
}

impl Place {
    /// The place of a set; a link to it stays one.
    fn of(out: &Path, id: &str) -> Self {
        let named = out.join(id);
        let target = named.canonicalize().unwrap_or(named);
        let name = target
            .file_name()
            .unwrap_or(OsStr::new(id))
            .to_string_lossy();
        let beside = |ending: &str| target.with_file_name(format!(".{name}.{ending}"));
        Self {
            fresh: beside("new"),
            resting: beside("old"),
            lock: match target.parent() {
                // Where a folder can be locked itself, no file need lie about.
                Some(folder) if cfg!(unix) => folder.to_owned(),
                _ => beside("lock"),
            },
            target,
        }
    }
}

/// Replaces the set in `out/id` as a whole, after any other run that does; `waits` is told when there is one.
///
/// # Errors
/// When a folder of somebody else stands there, a person's file has the name of a new one, or the disk refuses. The old
/// set is then whole.
pub fn replace_set(
    out: &Path,
    id: &str,
    files: &BTreeMap<String, Vec<u8>>,
    waits: &dyn Fn(),
) -> Result<Replaced, StoreError> {
    fs::create_dir_all(out).map_err(at(out))?;
    let place = Place::of(out, id);
    let lock = lock_of(&place.lock).map_err(at(&place.lock))?;
    // The system gives the lock of a run that died back.
    match lock.try_lock() {
        Ok(()) => {}
        Err(TryLockError::WouldBlock) => {
            waits();
            lock.lock().map_err(at(&place.lock))?;
        }
        // A disk of another machine may know no locks; a single run needs none.
        Err(TryLockError::Error(error)) if error.kind() == io::ErrorKind::Unsupported => {}
        Err(TryLockError::Error(error)) => return Err(StoreError::Io(place.lock, error)),
    }
    replace(&place, files)
}

/// What is locked while a set is replaced.
fn lock_of(path: &Path) -> io::Result<File> {
    match path.is_dir() {
        true => File::open(path),
        false => File::options().append(true).create(true).open(path),
    }
}

fn replace(place: &Place, files: &BTreeMap<String, Vec<u8>>) -> Result<Replaced, StoreError> {
    recover(place)?;
    let target = &place.target;
    let had = target.exists();
    if had {
        let ours = Manifest::of(target)?;
        let clash = theirs(target, &ours)?
            .into_iter()
            .find(|path| clashes(path, target, files));
        if let Some(path) = clash {
            return Err(StoreError::Clash(target.join(path)));
        }
    }
    write_all(&place.fresh, files)?;
    let old = swap_in(place)?;
    let replaced = match old {
        Some(old) => {
            let replaced = carry_over(old, target)?;
            remove(old)?;
            replaced
        }
        None => Replaced::default(),
    };
    if let Some(parent) = target.parent() {
        sync_folder(parent)?;
    }
    Ok(replaced)
}

/// Whether something of a person stands where a new file, or a folder for one, goes.
fn clashes(path: &Path, target: &Path, files: &BTreeMap<String, Vec<u8>>) -> bool {
    let is_folder = target
        .join(path)
        .symlink_metadata()
        .is_ok_and(|known| known.is_dir());
    files.keys().map(Path::new).any(|new| match is_folder {
        true => new == path,
        false => new.starts_with(path),
    })
}

/// Gives the fresh set its name. Where the system can exchange two names in one act, that is done; elsewhere the old
/// set rests under another name for the instant between two renames. Where the old set lies then, if there was one.
fn swap_in(place: &Place) -> Result<Option<&Path>, StoreError> {
    let Place {
        target,
        fresh,
        resting,
        ..
    } = place;
    if !target.exists() {
        fs::rename(fresh, target).map_err(at(target))?;
        return Ok(None);
    }
    if exchange(fresh, target) {
        return Ok(Some(fresh));
    }
    fs::rename(target, resting).map_err(at(target))?;
    fs::rename(fresh, target).map_err(|error| {
        // Puts the old set back under its name before giving up.
        let _ = fs::rename(resting, target);
        StoreError::Io(target.clone(), error)
    })?;
    Ok(Some(resting))
}

/// Clears up after a run that was killed: the old set gets its name back, what a person had in it is carried over, and
/// the rest goes.
fn recover(place: &Place) -> Result<(), StoreError> {
    if place.resting.exists() && !place.target.exists() {
        fs::rename(&place.resting, &place.target).map_err(at(&place.resting))?;
    }
    for left in [&place.fresh, &place.resting] {
        if left.exists() && place.target.exists() {
            carry_over(left, &place.target)?;
        }
        remove(left)?;
    }
    Ok(())
}

fn remove(folder: &Path) -> Result<(), StoreError> {
    match fs::remove_dir_all(folder) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => {
            Err(StoreError::Io(folder.to_owned(), error))
        }
        _ => Ok(()),
    }
}

/// Moves what a person put into an old set, or changed in it, over to the new one. Nothing of it is read or written but
/// what must be, to see whether it was changed.
fn carry_over(old: &Path, target: &Path) -> Result<Replaced, StoreError> {
    let mut replaced = Replaced::default();
    // A set that was never whole holds nothing of anybody's.
    let Ok(ours) = Manifest::of(old) else {
        return Ok(replaced);
    };
    for path in theirs(old, &ours)? {
        let to = free(&target.join(&path));
        if let Some(folder) = to.parent() {
            fs::create_dir_all(folder).map_err(at(folder))?;
        }
        fs::rename(old.join(&path), &to).map_err(at(&to))?;
        replaced
            .kept
            .push(path.to_string_lossy().replace('\\', "/"));
    }
    for name in ours.changed(old) {
        let path = target.join(&name);
        let ending = path
            .extension()
            .map_or_else(String::new, |e| format!(".{}", e.to_string_lossy()));
        let stem = path.file_stem().unwrap_or_default().to_string_lossy();
        let to = free(&path.with_file_name(format!("{stem}.yours{ending}")));
        if let Some(folder) = to.parent() {
            fs::create_dir_all(folder).map_err(at(folder))?;
        }
        fs::rename(old.join(&name), &to).map_err(at(&to))?;
        let shown = to.strip_prefix(target).unwrap_or(&to).to_string_lossy();
        replaced.changed.push((name, shown.replace('\\', "/")));
    }
    Ok(replaced)
}

/// The path, or the first that nothing has yet, with a number behind it.
fn free(path: &Path) -> PathBuf {
    let name = path.file_name().unwrap_or_default().to_owned();
    let numbered = (2..).map(|n| {
        let mut name = name.clone();
        name.push(format!(".{n}"));
        path.with_file_name(name)
    });
    let mut all = std::iter::once(path.to_owned()).chain(numbered);
    all.find(|path| path.symlink_metadata().is_err())
        .unwrap_or_else(|| path.to_owned())
}

/// What a set's own manifest lists: size and digest of each file, by path.
struct Manifest(BTreeMap<String, (u64, String)>);

/// A file whose time is later than its manifest's by more was written by somebody else.
const LATER: Duration = Duration::from_secs(1);

impl Manifest {
    /// The manifest of a set; of an empty folder an empty one.
    fn of(target: &Path) -> Result<Self, StoreError> {
        let path = target.join("pack.json");
        let not_ours = || StoreError::NotOurs(target.to_owned());
        if target.is_dir() && fs::read_dir(target).map_err(at(target))?.next().is_none() {
            return Ok(Self(BTreeMap::new()));
        }
        let known = fs::metadata(&path).map_err(|_| not_ours())?;
        let text = match known.is_file() {
            true => fs::read_to_string(&path).map_err(|_| not_ours())?,
            false => return Err(not_ours()),
        };
        let value: serde_json::Value = serde_json::from_str(&text).map_err(|_| not_ours())?;
        let entries = value["files"].as_array().ok_or_else(not_ours)?;
        let each = entries.iter().filter_map(|entry| {
            let digest = entry["sha256"].as_str()?.to_owned();
            Some((
                entry["path"].as_str()?.to_owned(),
                (entry["size"].as_u64()?, digest),
            ))
        });
        let mut all: BTreeMap<String, (u64, String)> = each.collect();
        all.insert("pack.json".to_owned(), (known.len(), String::new()));
        Ok(Self(all))
    }

    /// Whether a file of ours lies below a folder.
    fn has_below(&self, folder: &Path) -> bool {
        self.0
            .keys()
            .any(|name| Path::new(name).starts_with(folder))
    }

    /// Files of ours that somebody changed.
    fn changed(&self, old: &Path) -> Vec<String> {
        let written = fs::metadata(old.join("pack.json"))
            .and_then(|known| known.modified())
            .ok();
        let is_changed = |(name, (size, digest)): &(&String, &(u64, String))| {
            let path = old.join(name);
            let Ok(known) = path.symlink_metadata() else {
                return false;
            };
            if !known.is_file() || digest.is_empty() {
                return false;
            }
            let later = known
                .modified()
                .ok()
                .zip(written)
                .is_none_or(|(at, written)| {
                    at.duration_since(written).is_ok_and(|after| after > LATER)
                });
            known.len() != *size || (later && digest_of(&path).is_some_and(|own| own != *digest))
        };
        let changed = self.0.iter().filter(is_changed);
        changed.map(|(name, _)| name.clone()).collect()
    }
}

fn digest_of(path: &Path) -> Option<String> {
    let mut file = File::open(path).ok()?;
    let mut digest = Sha256::new();
    let mut piece = [0; 1 << 14];
    loop {
        match file.read(&mut piece).ok()? {
            0 => break,
            read => digest.update(piece.get(..read)?),
        }
    }
    let bytes = digest.finalize();
    Some(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

/// What a person put into a set: files, links, whole folders, by their paths in it.
fn theirs(root: &Path, ours: &Manifest) -> Result<Vec<PathBuf>, StoreError> {
    let mut found = Vec::new();
    let mut folders = vec![PathBuf::new()];
    while let Some(folder) = folders.pop() {
        let here = root.join(&folder);
        for entry in fs::read_dir(&here).map_err(at(&here))? {
            let entry = entry.map_err(at(&here))?;
            let path = folder.join(entry.file_name());
            let is_folder = entry.file_type().map_err(at(&here))?.is_dir();
            match is_folder {
                true if ours.has_below(&path) => folders.push(path),
                false if path.to_str().is_some_and(|name| ours.0.contains_key(name)) => {}
                _ => found.push(path),
            }
        }
    }
    found.sort();
    Ok(found)
}
