//! One course on the desk: its files with what was done to them, who listens, and the one way in which anything changes.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tokio::sync::broadcast;

use crate::app::store;
use crate::desk::draft::{Draft, FileKind};
use crate::desk::journal::Line;
use crate::desk::packing::Packing;
use crate::desk::present::Present;
use crate::desk::refusal::Refusal;
use crate::desk::shelf::{Shelf, digest};
use crate::read::{ReadError, is_id};

/// What those who listen are told.
#[derive(Clone, Debug)]
pub(super) enum Event {
    /// Something changed: the version, and the ids of what did.
    Change(u64, Vec<String>),
    /// A pack moved on: how it stands.
    Pack(String),
}

/// How far a draft's text is to be changed.
pub(super) enum Step {
    /// To this text.
    Text(String),
    /// One step back.
    Undo,
    /// One step forth.
    Redo,
    /// To what the file says.
    Drop,
}

/// One course on the desk.
#[derive(Debug)]
pub(super) struct Desk {
    root: PathBuf,
    /// Where packs go.
    pub out: PathBuf,
    /// Whether this desk only reads.
    pub read_only: bool,
    /// The pack that was last made here.
    pub packing: Mutex<Packing>,
    listeners: broadcast::Sender<Event>,
    inner: Mutex<Inner>,
}

#[derive(Debug)]
struct Inner {
    shelf: Shelf,
    version: u64,
    present: Option<Arc<Present>>,
    /// The course with a lesson that is being tried.
    trial: Option<Arc<Present>>,
}

/// What a lock holds, also after a request panicked while it held it: all that is held is true at every moment.
pub(super) fn held<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Desk {
    /// The course in a folder.
    ///
    /// # Errors
    /// When it cannot be read.
    pub(super) fn open(root: &Path, out: &Path, read_only: bool) -> Result<Self, ReadError> {
        let mut shelf = Shelf::new(root);
        shelf.look()?;
        Ok(Self {
            root: root.to_owned(),
            out: out.to_owned(),
            read_only,
            packing: Mutex::default(),
            listeners: broadcast::channel(64).0,
            inner: Mutex::new(Inner {
                shelf,
                version: 1,
                present: None,
                trial: None,
            }),
        })
    }

    /// The course's folder.
    pub(super) fn root(&self) -> &Path {
        &self.root
    }

    /// Listens from now on.
    pub(super) fn listen(&self) -> broadcast::Receiver<Event> {
        self.listeners.subscribe()
    }

    /// Tells those who listen; that nobody does is no fault.
    pub(super) fn tell(&self, event: Event) {
        let _ = self.listeners.send(event);
    }

    /// Reads what changed on the disk and tells of it.
    pub(super) fn look(&self) {
        let mut inner = held(&self.inner);
        // A folder that cannot be read now may be there again at the next look; what is known stays.
        if let Ok(changed) = inner.shelf.look() {
            self.changed(&mut inner, changed);
        }
    }

    fn changed(&self, inner: &mut Inner, ids: BTreeSet<String>) {
        if ids.is_empty() {
            return;
        }
        inner.version += 1;
        let ids = ids.into_iter().filter(|id| !id.is_empty()).collect();
        self.tell(Event::Change(inner.version, ids));
    }

    /// The course as it stands on the desk, worked out once for every change.
    pub(super) fn present(&self) -> Arc<Present> {
        self.worked_out(None)
    }

    /// The course with a lesson in it that may have no file yet.
    pub(super) fn present_with(&self, lesson: &str) -> Arc<Present> {
        let fresh = held(&self.inner).shelf.draft(lesson);
        let tried = fresh.is_some_and(|draft| draft.fresh && draft.kind == FileKind::Lesson);
        self.worked_out(tried.then_some(lesson))
    }

    fn worked_out(&self, tried: Option<&str>) -> Arc<Present> {
        let (texts, version, drafts) = {
            let mut inner = held(&self.inner);
            if let Ok(changed) = inner.shelf.look() {
                self.changed(&mut inner, changed);
            }
            let version = inner.version;
            let known = match tried {
                None => inner.present.as_ref(),
                Some(_) => inner.trial.as_ref(),
            };
            let known = known.filter(|p| p.version == version && p.tried.as_deref() == tried);
            if let Some(present) = known {
                return Arc::clone(present);
            }
            let drafts = inner
                .shelf
                .drafts()
                .into_iter()
                .filter(|draft| draft.changed);
            let drafts: Vec<Draft> = drafts.collect();
            let texts = (inner.shelf.texts(tried), inner.shelf.saved_texts());
            (texts, version, drafts)
        };
        // Strokes go on while the course is worked out.
        let mut present = Present::of(&self.root, texts, version, &drafts);
        present.tried = tried.map(str::to_owned);
        let present = Arc::new(present);
        let mut inner = held(&self.inner);
        let place = match tried {
            None => &mut inner.present,
            Some(_) => &mut inner.trial,
        };
        if place.as_ref().is_none_or(|older| older.version <= version) {
            *place = Some(Arc::clone(&present));
        }
        present
    }

    /// The course as it was last worked out; strokes ask it for what they do not change.
    pub(super) fn last_present(&self) -> Arc<Present> {
        let last = held(&self.inner).present.clone();
        last.unwrap_or_else(|| self.present())
    }

    /// A file as it stands on the desk.
    ///
    /// # Errors
    /// When there is none of this id.
    pub(super) fn draft(&self, id: &str) -> Result<Draft, Refusal> {
        let mut inner = held(&self.inner);
        if let Ok(changed) = inner.shelf.look() {
            self.changed(&mut inner, changed);
        }
        known(&inner.shelf, id)
    }

    /// Changes something while no other desk does: `act` is given the files as they stand now.
    fn change<T>(&self, act: impl FnOnce(&mut Shelf) -> Result<T, Refusal>) -> Result<T, Refusal> {
        if self.read_only {
            return Err(Refusal::new(403, "this desk only reads"));
        }
        let lock = held(&self.inner).shelf.lock();
        store::locked(&lock, || {
            let mut inner = held(&self.inner);
            let mut changed = inner
                .shelf
                .look()
                .map_err(|error| Refusal::new(503, error.to_string()))?;
            let done = act(&mut inner.shelf);
            if let Ok(more) = inner.shelf.look() {
                changed.extend(more);
            }
            self.changed(&mut inner, changed);
            done
        })?
    }

    /// Changes a draft. `number` is the state that the change was made to.
    ///
    /// # Errors
    /// When there is no such file, it was changed meanwhile (the draft as it stands is given back with the refusal's
    /// status 409), or the disk refuses.
    pub(super) fn step(
        &self,
        id: &str,
        number: u64,
        step: impl FnOnce(&Draft) -> Result<Step, Refusal>,
    ) -> Result<Draft, Refusal> {
        self.change(|shelf| {
            let draft = known(shelf, id)?;
            if draft.number != number {
                return Err(Refusal::changed());
            }
            let mut lines = beginning(&draft);
            match step(&draft)? {
                Step::Text(text) if text == draft.text => return Ok(draft),
                Step::Text(text) => lines.push(Line::Text(text)),
                // The file's text becomes a step of its own first; the one before it is what was there.
                Step::Undo if draft.behind => {
                    shelf.add(id, lines)?;
                    lines = shelf.back(id).into_iter().collect();
                }
                Step::Undo => lines.extend(shelf.back(id)),
                Step::Redo => lines.extend(shelf.forth(id)),
                Step::Drop => {
                    let Some(disk) = draft.disk.clone() else {
                        shelf.forget(id)?;
                        return Ok(draft);
                    };
                    lines.extend([Line::Text(disk.clone()), Line::Base(Some(digest(&disk)))]);
                }
            }
            shelf.add(id, lines)?;
            known(shelf, id)
        })
    }

    /// Writes a draft to its file.
    ///
    /// # Errors
    /// As [`Self::step`]; also 409 where the file was changed beside the desk, unless `over`.
    pub(super) fn save(&self, id: &str, number: u64, over: bool) -> Result<Draft, Refusal> {
        self.change(|shelf| {
            let draft = known(shelf, id)?;
            if draft.number != number {
                return Err(Refusal::changed());
            }
            if draft.elsewhere.is_some() && !over {
                return Err(Refusal::new(409, "the file was changed beside the desk"));
            }
            if draft.fresh && shelf.is_taken(&draft.inside) {
                let message = format!(
                    "something that is no file of the course stands at {}",
                    draft.inside
                );
                return Err(Refusal::cannot(message).help("move it away first"));
            }
            if draft.changed {
                let path = shelf.path(&draft.inside);
                store::replace_text(&path, &draft.text, draft.disk.as_deref())?;
                shelf.add(id, vec![Line::Base(Some(digest(&draft.text)))])?;
                shelf
                    .look_again()
                    .map_err(|error| Refusal::new(503, error.to_string()))?;
            }
            known(shelf, id)
        })
    }

    /// A draft of a file that is not there yet.
    ///
    /// # Errors
    /// When the id is none, or something of the course has it already, or the disk refuses.
    pub(super) fn begin(&self, id: &str, kind: FileKind, text: String) -> Result<Draft, Refusal> {
        if !is_id(id) {
            return Err(Refusal::senseless(
                "an id has small letters, digits and hyphens",
            ));
        }
        self.change(|shelf| {
            if let Some(other) = shelf.draft(id).filter(|draft| !draft.gone) {
                let message = format!("the course has a {} `{id}` already", other.kind.name());
                return Err(Refusal::cannot(message).help("choose another name"));
            }
            shelf.forget(id)?;
            let inside = match kind {
                FileKind::Chart => format!("charts/{id}.yaml"),
                _ => format!("{id}.yaml"),
            };
            if shelf.is_taken(&inside) {
                let message = format!("something stands at {inside} already");
                return Err(Refusal::cannot(message).help("choose another name"));
            }
            shelf.add(
                id,
                vec![Line::New(inside), Line::Base(None), Line::Text(text)],
            )?;
            known(shelf, id)
        })
    }

    /// Reads and changes a file beside the course, such as the register, while no other desk does.
    ///
    /// # Errors
    /// What `act` refuses, or the disk does.
    pub(super) fn beside<T>(
        &self,
        act: impl FnOnce(&Path) -> Result<T, Refusal>,
    ) -> Result<T, Refusal> {
        let done = self.change(|_| act(&self.root))?;
        let mut inner = held(&self.inner);
        inner.version += 1;
        self.tell(Event::Change(inner.version, vec!["people".to_owned()]));
        Ok(done)
    }
}

fn known(shelf: &Shelf, id: &str) -> Result<Draft, Refusal> {
    if shelf.is_unreadable(id) {
        return Err(Refusal::cannot(format!(
            "the file of `{id}` is not UTF-8 text, or cannot be read"
        ))
        .help("save it again as UTF-8 in an editor, or look who may read it"));
    }
    let draft = shelf.draft(id);
    draft.ok_or_else(|| Refusal::unknown("chart or lesson", id))
}

/// The lines that a journal needs before the next: where the file lies and what it said, where that is not known yet.
fn beginning(draft: &Draft) -> Vec<Line> {
    match &draft.disk {
        Some(disk) if draft.behind => vec![
            Line::New(draft.inside.clone()),
            Line::Base(Some(digest(disk))),
            Line::Text(disk.clone()),
        ],
        _ => Vec::new(),
    }
}
