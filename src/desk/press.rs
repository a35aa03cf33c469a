//! Makes the pack from the desk, telling those who listen how far it is.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use crate::app::store::replace_set;
use crate::app::{PackOptions, pack_studied, study_course};
use crate::desk::packing::Packing;
use crate::desk::refusal::Refusal;
use crate::desk::state::{Desk, Event, held};
use crate::page::pack::Files;

/// Says that a pack begins.
///
/// # Errors
/// When one is being made, or this desk only reads.
pub(super) fn begin(desk: &Desk) -> Result<(), Refusal> {
    if desk.read_only {
        return Err(Refusal::new(403, "this desk only reads"));
    }
    let mut packing = held(&desk.packing);
    if matches!(*packing, Packing::Working(..)) {
        return Err(Refusal::new(409, "a pack is being made"));
    }
    *packing = Packing::Working(0, 1);
    Ok(())
}

/// Makes the pack that was begun, telling those who listen how far it is.
pub(super) fn work(desk: &Desk) {
    let end = match made(desk) {
        Ok((files, folder)) => Packing::Done(Arc::new(files), folder),
        Err(message) => Packing::Failed(message),
    };
    tell(desk, end);
}

fn tell(desk: &Desk, packing: Packing) {
    let mut held = held(&desk.packing);
    *held = packing;
    desk.tell(Event::Pack(held.answer().to_string()));
}

fn made(desk: &Desk) -> Result<(Files, String), String> {
    let present = desk.present();
    let faults = present.answer["faults"].as_array();
    let error = faults
        .into_iter()
        .flatten()
        .find(|fault| fault["severity"] == "error");
    if let Some(error) = error {
        let text = |key: &str| error[key].as_str().unwrap_or_default().to_owned();
        return Err(format!("{}: {}", text("id"), text("message")));
    }
    let studied = study_course(present.course());
    let (done, of) = (AtomicUsize::new(0), present.course().lessons.len());
    let files = pack_studied(
        &present.loaded,
        &studied,
        &[],
        PackOptions::default(),
        &|_| {
            let n = done.fetch_add(1, Ordering::Relaxed) + 1;
            tell(desk, Packing::Working(n, of));
        },
    );
    let files = files.map_err(|fault| fault.title.clone())?;
    let id = &present.course().id;
    replace_set(&desk.out, id, &files, &|| {}).map_err(|error| error.to_string())?;
    Ok((files, desk.out.join(id).display().to_string()))
}
