//! The register: who is in the class, in what size and colours, and who has finished what. A file of its own beside the
//! lessons; no handout ever reads it.

use std::path::{Path, PathBuf};

use serde::Deserialize;
use serde_json::{Value, json};

use crate::app::store::replace_file;
use crate::course::log::Registered;
use crate::desk::refusal::Refusal;
use crate::desk::shelf::number_of;
use crate::desk::state::Desk;
use crate::ground::quoted::quoted;
use crate::read::{is_id, read_register};

/// The first line of a new register.
const HEAD: &str = "# Who is in the class. Nothing of this is ever printed.\n";

/// Most learners of a register.
const MOST: usize = 500;

/// A learner, as sent.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Sent {
    name: String,
    size: String,
    colours: String,
    done: Vec<String>,
}

/// The register as it is to be.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::desk) struct Learners {
    at: u64,
    learners: Vec<Sent>,
}

fn path(root: &Path) -> PathBuf {
    root.join("people").join("register.yaml")
}

/// The learners, and the number of this state; nobody where there is no register yet.
fn read(root: &Path) -> Result<(Vec<Registered>, String), Refusal> {
    let path = path(root);
    if !path.exists() {
        return Ok((Vec::new(), String::new()));
    }
    if !path.is_file() {
        return Err(Refusal::new(503, "people/register.yaml is no file"));
    }
    let file = read_register(&path).map_err(|error| Refusal::new(503, error.to_string()))?;
    match file.faults.iter().find(|fault| fault.is_error()) {
        None => Ok(file.value),
        Some(fault) => Err(
            Refusal::cannot(format!("people/register.yaml: {}", fault.title))
                .help("mend the file in an editor; it is left as it is"),
        ),
    }
}

/// The register.
///
/// # Errors
/// When the file cannot be read.
pub(in crate::desk) fn register(desk: &Desk) -> Result<Value, Refusal> {
    let (learners, text) = read(desk.root())?;
    let present = desk.present();
    let order = &present.ladder;
    let next = learners
        .iter()
        .map(|learner| order.iter().find(|id| !learner.done.contains(id)));
    let each = learners.iter().map(|learner| {
        json!({
            "name": learner.name,
            "size": learner.size,
            "colours": learner.colours,
            "done": learner.done,
        })
    });
    Ok(json!({
        "format": "yokeward/desk/1",
        "at": number_of(&text),
        "learners": each.collect::<Vec<_>>(),
        "next": next.collect::<Vec<_>>(),
    }))
}

/// Keeps the register as sent.
///
/// # Errors
/// When it was changed meanwhile, somebody has no name, or the disk refuses.
pub(in crate::desk) fn keep_register(desk: &Desk, sent: &Learners) -> Result<Value, Refusal> {
    if sent.learners.len() > MOST {
        return Err(Refusal::senseless("a register has at most 500 learners"));
    }
    if sent
        .learners
        .iter()
        .any(|learner| learner.name.trim().is_empty())
    {
        return Err(Refusal::cannot("every learner needs a name"));
    }
    if sent
        .learners
        .iter()
        .flat_map(|learner| &learner.done)
        .any(|id| !is_id(id))
    {
        return Err(Refusal::senseless("what is done is told by ids of lessons"));
    }
    desk.beside(|root| {
        let (_, old) = read(root)?;
        if number_of(&old) != sent.at {
            return Err(Refusal::changed());
        }
        replace_file(&path(root), written(&old, &sent.learners).as_bytes())?;
        Ok(())
    })?;
    register(desk)
}

/// The text of the register; remarks above the list stay.
fn written(old: &str, learners: &[Sent]) -> String {
    let head: String = old
        .lines()
        .take_while(|line| line.trim().is_empty() || line.starts_with('#'))
        .map(|line| format!("{line}\n"))
        .collect();
    let mut text = if head.is_empty() {
        HEAD.to_owned()
    } else {
        head
    };
    text.push_str(if learners.is_empty() {
        "learners: []\n"
    } else {
        "learners:\n"
    });
    for learner in learners {
        let done: Vec<String> = learner.done.iter().map(|id| quoted(id)).collect();
        text.push_str(&format!(
            "  - name: {}\n    size: {}\n    colours: {}\n    done: [{}]\n",
            quoted(&learner.name),
            quoted(&learner.size),
            quoted(&learner.colours),
            done.join(", ")
        ));
    }
    text
}
