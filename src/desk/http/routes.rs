//! Every address of the desk, in one table.

use axum::http::Method;

use crate::desk::http::asked::Asked;
use crate::desk::http::reply::Reply;
use crate::desk::http::{door, files, lessons, people};
use crate::desk::refusal::Refusal;

/// What is done at an address.
pub(super) type Act = fn(&Asked) -> Result<Reply, Refusal>;

/// Methods and addresses; a star stands for a name.
const TABLE: &[(Method, &str, Act)] = &[
    (Method::GET, "/", door::index),
    (Method::POST, "/api/enter", door::enter),
    (Method::GET, "/api/events", door::events),
    (Method::GET, "/api/course", lessons::course),
    (Method::GET, "/api/schema", lessons::schema),
    (Method::GET, "/api/gaps", lessons::gaps),
    (Method::POST, "/api/remedy", lessons::remedy),
    (Method::POST, "/api/along", lessons::along),
    (Method::POST, "/api/along/keep", lessons::along_keep),
    (Method::GET, "/api/piece/*", lessons::piece),
    (Method::GET, "/api/handout/*", lessons::handout),
    (Method::POST, "/api/make", lessons::make),
    (Method::GET, "/api/make/*", lessons::making),
    (Method::GET, "/api/pack", lessons::pack),
    (Method::POST, "/api/pack", lessons::pack_begin),
    (Method::GET, "/api/pack/*", lessons::pack_file),
    (Method::POST, "/api/new", files::new),
    (Method::POST, "/api/pasted", files::pasted),
    (Method::POST, "/api/trace", files::trace),
    (Method::GET, "/api/file/*", files::file),
    (Method::POST, "/api/file/*", files::stroke),
    (Method::POST, "/api/file/*/*", files::act),
    (Method::GET, "/api/kinder/*", files::kinder),
    (Method::GET, "/api/fabric/*", files::fabric),
    (Method::GET, "/api/class", people::class),
    (Method::GET, "/api/register", people::register),
    (Method::POST, "/api/register", people::register_keep),
    (Method::POST, "/api/person", people::person_new),
    (Method::GET, "/api/person/*", people::person),
    (Method::POST, "/api/person/*/done", people::record),
    (Method::GET, "/api/person/*/way", people::way),
    (Method::GET, "/api/fit/*", people::fit),
];

/// The names that an address has where a pattern has stars; `None` where it is another address.
fn names(pattern: &str, path: &str) -> Option<Vec<String>> {
    let (mut pattern, mut path) = (pattern.split('/'), path.split('/'));
    let mut names = Vec::new();
    loop {
        match (pattern.next(), path.next()) {
            (None, None) => return Some(names),
            (Some("*"), Some(name)) => names.push(name.to_owned()),
            (Some(wanted), Some(part)) if wanted == part => {}
            _ => return None,
        }
    }
}

/// What is done at an address, and the names in it.
///
/// # Errors
/// When there is no such address, or nothing of the kind is done there.
pub(super) fn find(method: &Method, path: &str) -> Result<(Act, Vec<String>), Refusal> {
    let mut all = TABLE
        .iter()
        .filter_map(|(method, pattern, act)| Some((method, act, names(pattern, path)?)))
        .peekable();
    if all.peek().is_none() {
        return Err(Refusal::new(404, "there is no such address"));
    }
    let found = all.find(|(known, ..)| *known == method);
    let found = found.map(|(_, act, names)| (*act, names));
    found.ok_or_else(|| Refusal::new(405, "this cannot be done to that address"))
}
