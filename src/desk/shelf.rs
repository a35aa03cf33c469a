//! The files of a course as they lie on the disk and on the desk: read once, and again when they change.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use sha2::{Digest, Sha256};

use crate::app::store::{self, StoreError};
use crate::desk::draft::{Draft, FileKind};
use crate::desk::journal::{Journal, Line};
use crate::read::{Links, ReadError, Text, is_id, list_folder, names, read_file, stamp};

/// The folder of the desk's own files, inside the course's.
const OWN: &str = ".desk";
/// The ending of journals.
const STEPS: &str = "steps";

type Stamp = Option<(u64, SystemTime)>;

/// A file on the disk.
#[derive(Clone, Debug)]
pub(super) struct Known {
    /// Its id; empty of cards and templates.
    pub id: String,
    /// What it is.
    pub kind: FileKind,
    /// Its text and place.
    pub text: Text,
    stamp: Stamp,
}

/// All files, and all journals.
#[derive(Debug)]
pub(super) struct Shelf {
    root: PathBuf,
    files: BTreeMap<String, Known>,
    journals: BTreeMap<String, (Stamp, Journal)>,
    /// Ids of files that were changed here since the last look.
    touched: BTreeSet<String>,
}

impl Shelf {
    /// The shelf of a course folder, nothing read yet.
    pub(super) fn new(root: &Path) -> Self {
        Self {
            root: root.to_owned(),
            files: BTreeMap::new(),
            journals: BTreeMap::new(),
            touched: BTreeSet::new(),
        }
    }

    /// The lock that every desk on this course takes before it writes.
    pub(super) fn lock(&self) -> PathBuf {
        self.root.join(OWN).join("lock")
    }

    /// Where a place of the course lies on the disk.
    pub(super) fn path(&self, inside: &str) -> PathBuf {
        self.root.join(inside)
    }

    fn journal_path(&self, id: &str) -> PathBuf {
        self.root.join(OWN).join(format!("{id}.{STEPS}"))
    }

    /// Reads what has changed; the ids of that, an empty one for cards and templates.
    ///
    /// # Errors
    /// When the folder cannot be read. What was read before stays.
    pub(super) fn look(&mut self) -> Result<BTreeSet<String>, ReadError> {
        let mut changed = std::mem::take(&mut self.touched);
        let mut files = BTreeMap::new();
        for file in list_folder(&self.root, Links::Inside)?.files {
            let stamp = stamp(&file.path);
            let old = self.files.remove(&file.inside);
            let known = match old {
                Some(old) if old.stamp == stamp && stamp.is_some() => old,
                _ => {
                    let text = match read_file(&file.path, &file.inside) {
                        Ok(text) => text,
                        // What cannot be read has its name all the same.
                        Err(_) if file.path.symlink_metadata().is_ok() => Text {
                            shown: file.path.display().to_string(),
                            inside: file.inside.clone(),
                            text: None,
                        },
                        // It went between the listing and the reading.
                        Err(_) => continue,
                    };
                    let words = text.text.as_deref().unwrap_or("");
                    let kind = FileKind::of(&file.inside, words);
                    let id = id_of(&file.inside, kind);
                    changed.insert(id.clone());
                    Known {
                        id,
                        kind,
                        text,
                        stamp,
                    }
                }
            };
            files.insert(file.inside, known);
        }
        changed.extend(self.files.values().map(|gone| gone.id.clone()));
        self.files = files;
        self.look_at_journals(&mut changed);
        Ok(changed)
    }

    /// Reads what has changed in the midst of a change; the next look tells of it.
    ///
    /// # Errors
    /// As [`Self::look`].
    pub(super) fn look_again(&mut self) -> Result<(), ReadError> {
        let changed = self.look()?;
        self.touched.extend(changed);
        Ok(())
    }

    fn look_at_journals(&mut self, changed: &mut BTreeSet<String>) {
        let mut journals = BTreeMap::new();
        for name in names(&self.root.join(OWN)) {
            let Some(id) = name.strip_suffix(".steps").filter(|id| is_id(id)) else {
                continue;
            };
            let path = self.journal_path(id);
            let stamp = stamp(&path);
            if stamp.is_none() {
                continue;
            }
            let journal = match self.journals.remove(id) {
                Some((old, journal)) if old == stamp => journal,
                _ => {
                    changed.insert(id.to_owned());
                    Journal::read(&path)
                }
            };
            journals.insert(id.to_owned(), (stamp, journal));
        }
        changed.extend(self.journals.keys().cloned());
        self.journals = journals;
    }

    /// Adds lines to a file's journal, on the disk first.
    ///
    /// # Errors
    /// When the disk refuses; the journal is then as before.
    pub(super) fn add(&mut self, id: &str, lines: Vec<Line>) -> Result<(), StoreError> {
        let path = self.journal_path(id);
        let (known, journal) = self
            .journals
            .entry(id.to_owned())
            .or_insert_with(|| (None, Journal::empty(&path)));
        let added = journal.add(lines);
        *known = stamp(&path);
        self.touched.insert(id.to_owned());
        added
    }

    /// The line that goes one step back in a file's journal.
    pub(super) fn back(&self, id: &str) -> Option<Line> {
        self.journals.get(id)?.1.back()
    }

    /// The line that goes one step forth.
    pub(super) fn forth(&self, id: &str) -> Option<Line> {
        self.journals.get(id)?.1.forth()
    }

    /// Gives a file's journal up.
    ///
    /// # Errors
    /// When the disk refuses.
    pub(super) fn forget(&mut self, id: &str) -> Result<(), StoreError> {
        store::remove_file(&self.journal_path(id))?;
        self.journals.remove(id);
        self.touched.insert(id.to_owned());
        Ok(())
    }

    fn known(&self, id: &str) -> Option<&Known> {
        self.files
            .values()
            .find(|known| known.id == id && known.kind != FileKind::Other)
    }

    /// Whether a file of this id is there and no text, or cannot be read.
    pub(super) fn is_unreadable(&self, id: &str) -> bool {
        self.known(id)
            .is_some_and(|known| known.text.text.is_none())
    }

    /// Whether something stands where a draft without a file would be written.
    pub(super) fn is_taken(&self, inside: &str) -> bool {
        self.path(inside).symlink_metadata().is_ok()
    }

    /// A file as it stands on the desk.
    pub(super) fn draft(&self, id: &str) -> Option<Draft> {
        let known = self.known(id);
        let disk = known.and_then(|known| known.text.text.clone());
        let journal = self.journals.get(id).map(|(_, journal)| journal);
        let journal = journal.filter(|journal| journal.text().is_some());
        let (inside, kind) = match known {
            Some(known) => (known.text.inside.clone(), known.kind),
            None => {
                let inside = journal?.new.clone()?;
                // A journal may come with a course of somebody else: it names no place but its own.
                if ![format!("charts/{id}.yaml"), format!("{id}.yaml")].contains(&inside) {
                    return None;
                }
                let kind = FileKind::of(&inside, journal?.text()?);
                (inside, kind)
            }
        };
        let plain = Draft {
            id: id.to_owned(),
            kind,
            inside,
            text: disk.clone().unwrap_or_default(),
            number: disk.as_deref().map_or(0, number_of),
            changed: false,
            fresh: known.is_none(),
            undo: false,
            redo: false,
            elsewhere: None,
            disk: disk.clone(),
            behind: true,
            gone: false,
        };
        let Some(journal) = journal else {
            return Some(plain);
        };
        let text = journal.text().unwrap_or_default().to_owned();
        let stands = Draft {
            number: journal.number,
            behind: false,
            undo: journal.can_undo(),
            redo: journal.can_redo(),
            ..plain
        };
        let saved = |text: &str| journal.base.as_deref() == Some(digest(text).as_str());
        Some(match disk {
            Some(disk) if disk == text => stands,
            Some(disk) if saved(&disk) => Draft {
                text,
                changed: true,
                ..stands
            },
            // Nothing was done on the desk since the last save: what the file says now, holds.
            Some(disk) if saved(&text) => Draft {
                number: number_of(&disk),
                undo: true,
                redo: false,
                behind: true,
                ..stands
            },
            // A save that was cut short behind the file's writing; or what somebody brought back is a step that is kept.
            Some(disk) if journal.knows(&disk) => Draft {
                text,
                changed: true,
                ..stands
            },
            Some(disk) => Draft {
                text,
                changed: true,
                elsewhere: Some(disk),
                ..stands
            },
            None => Draft {
                gone: saved(&text),
                text,
                changed: true,
                ..stands
            },
        })
    }

    /// The drafts of all charts and lessons and of the settings.
    pub(super) fn drafts(&self) -> Vec<Draft> {
        let known = self.files.values().map(|known| known.id.as_str());
        let ids: BTreeSet<&str> = known
            .chain(self.journals.keys().map(String::as_str))
            .filter(|id| !id.is_empty())
            .collect();
        let all = ids.into_iter().filter_map(|id| self.draft(id));
        all.filter(|draft| !draft.gone).collect()
    }

    /// All texts of the course as its files have them.
    pub(super) fn saved_texts(&self) -> Vec<Text> {
        self.files
            .values()
            .map(|known| known.text.clone())
            .collect()
    }

    /// All texts of the course as they stand on the desk. A lesson that has no file yet is not of it, but for the one that is
    /// being tried.
    pub(super) fn texts(&self, tried: Option<&str>) -> Vec<Text> {
        let of_course = |draft: &Draft| {
            !draft.fresh || draft.kind != FileKind::Lesson || tried == Some(draft.id.as_str())
        };
        let mut drafts: BTreeMap<String, Draft> = self
            .drafts()
            .into_iter()
            .filter(of_course)
            .map(|draft| (draft.inside.clone(), draft))
            .collect();
        let on_disk = self.files.iter().map(|(inside, known)| {
            let draft = drafts.remove(inside).filter(|draft| draft.changed);
            match draft {
                Some(draft) => Text {
                    text: Some(draft.text),
                    ..known.text.clone()
                },
                None => known.text.clone(),
            }
        });
        let mut texts: Vec<Text> = on_disk.collect();
        texts.extend(drafts.into_values().map(|draft| Text {
            shown: self.path(&draft.inside).display().to_string(),
            inside: draft.inside,
            text: Some(draft.text),
        }));
        texts.sort_by(|a, b| {
            let folder = |text: &Text| text.inside.contains('/');
            (folder(a), &a.inside).cmp(&(folder(b), &b.inside))
        });
        texts
    }
}

/// The id of a file at this place; empty of cards and templates.
fn id_of(inside: &str, kind: FileKind) -> String {
    let name = inside.rsplit('/').next().unwrap_or("");
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    match kind {
        FileKind::Other => String::new(),
        FileKind::Lesson => crate::read::lesson_id(stem).to_owned(),
        FileKind::Chart | FileKind::Course => stem.to_owned(),
    }
}

/// The number of the state of a file that has no journal: of another text, another one.
pub(super) fn number_of(text: &str) -> u64 {
    // As many bits as a number of JavaScript holds.
    let digest = digest(text);
    u64::from_str_radix(digest.get(..12).unwrap_or(""), 16).unwrap_or(0)
}

/// SHA-256 of a text, in hexadecimal.
pub(super) fn digest(text: &str) -> String {
    let bytes = Sha256::digest(text.as_bytes());
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
