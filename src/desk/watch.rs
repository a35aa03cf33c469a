//! Sees what changes beside the desk: an editor's saves, another desk's strokes.

use std::path::Path;
use std::sync::mpsc::{self, RecvTimeoutError};
use std::time::{Duration, Instant};

use notify::{RecursiveMode, Watcher};

use crate::desk::state::Desk;

/// What comes in quick succession is looked at once.
const QUIET: Duration = Duration::from_millis(60);
/// And after so long in any case.
const LOUD: Duration = Duration::from_millis(300);
/// Where the system tells nothing, the desk looks by itself so often.
const OFTEN: Duration = Duration::from_secs(1);
/// Where it does, so often, since a system may tell nothing of a folder of another machine.
const SELDOM: Duration = Duration::from_secs(10);

/// Looks whenever something changes below the folder, for ever.
pub(super) fn watch(desk: &Desk, root: &Path) {
    let (tell, told) = mpsc::channel();
    let watcher = notify::recommended_watcher(move |event: notify::Result<notify::Event>| {
        // To look is to open; whoever took that for a change would look for ever.
        if !event.is_ok_and(|event| event.kind.is_access()) {
            // That nobody listens any more is no fault.
            let _ = tell.send(());
        }
    });
    let watcher = watcher.and_then(|mut watcher| {
        watcher.watch(root, RecursiveMode::Recursive)?;
        Ok(watcher)
    });
    let often = if watcher.is_ok() { SELDOM } else { OFTEN };
    loop {
        match told.recv_timeout(often) {
            // A neighbour that is never quiet is not waited for.
            Ok(()) => {
                let end = Instant::now() + LOUD;
                while told.recv_timeout(QUIET).is_ok() && Instant::now() < end {}
            }
            Err(RecvTimeoutError::Timeout) => {}
            // Without a watcher there is nobody to tell.
            Err(RecvTimeoutError::Disconnected) => std::thread::sleep(often),
        }
        desk.look();
    }
}
