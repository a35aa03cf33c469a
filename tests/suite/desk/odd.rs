//! Requests that no page sends: whatever is asked, the desk answers, and its course is still one.

use serde_json::{Value, json};

use crate::desk::client::{Served, course};
use crate::harness::{Random, yokeward};

const GET: [&str; 17] = [
    "/api/course",
    "/api/schema",
    "/api/gaps",
    "/api/piece/",
    "/api/handout/",
    "/api/make/",
    "/api/pack",
    "/api/pack/",
    "/api/file/",
    "/api/kinder/",
    "/api/fabric/",
    "/api/class",
    "/api/register",
    "/api/person/",
    "/api/fit/",
    "/",
    "/api/nothing",
];
const POST: [&str; 13] = [
    "/api/remedy",
    "/api/along",
    "/api/along/keep",
    "/api/make",
    "/api/new",
    "/api/pasted",
    "/api/file/",
    "/api/register",
    "/api/person",
    "/api/trace",
    "/api/person/wren/done",
    "/api/enter",
    "/api/pack",
];
const NAMES: [&str; 14] = [
    "pebble",
    "pebble-hat",
    "nobody",
    "..",
    "%2e%2e%2f",
    "a b",
    "",
    "pebble/undo",
    "pebble/save",
    "wren/way?to=x",
    "pebble?size=x&pdf=1",
    "\u{202e}",
    "pebble/keep",
    "%00",
];
const KEYS: [&str; 16] = [
    "file", "seen", "at", "change", "text", "lesson", "gap", "remedy", "rows", "cells", "id",
    "name", "made", "went", "colours", "sizes",
];

/// Any JSON, of words that the desk knows and of others.
fn any(random: &mut Random, depth: usize) -> Value {
    match random.below(if depth > 3 { 5 } else { 7 }) {
        0 => Value::Null,
        1 => json!(random.below(100_000)),
        2 => json!(-1.5e300),
        3 => json!(NAMES[random.below(NAMES.len())]),
        4 => json!(random.below(2) == 0),
        5 => (0..random.below(4))
            .map(|_| any(random, depth + 1))
            .collect(),
        _ => {
            let keys = (0..random.below(5)).map(|_| KEYS[random.below(KEYS.len())].to_owned());
            let keys: Vec<String> = keys.collect();
            keys.into_iter()
                .map(|key| (key, any(random, depth + 1)))
                .collect::<serde_json::Map<String, Value>>()
                .into()
        }
    }
}

#[test]
fn any_request_is_answered_and_the_course_stays_one() {
    let (_place, course) = course();
    let served = Served::open(&course, &[]);
    let mut random = Random::new(23);
    let mut kinds = std::collections::BTreeMap::new();
    for _ in 0..600 {
        let name = NAMES[random.below(NAMES.len())];
        let path = |known: &str| {
            if known.ends_with('/') {
                format!("{known}{name}")
            } else {
                known.to_owned()
            }
        };
        let answer = match random.below(2) {
            0 => {
                let path = path(GET[random.below(GET.len())]).replace(' ', "%20");
                served.raw(format!("GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nCookie: {}\r\nConnection: close\r\n\r\n", served.port, served.cookie).as_bytes())
            }
            _ => {
                let path = path(POST[random.below(POST.len())]).replace(' ', "%20");
                let body = any(&mut random, 0);
                Some(served.post(&path, &body))
            }
        };
        let answer = answer.expect("an answer");
        assert!(
            answer.status < 500,
            "{} {}",
            answer.head,
            String::from_utf8_lossy(&answer.body)
        );
        *kinds.entry(answer.status).or_insert(0) += 1;
    }
    assert!(kinds.len() >= 3, "{kinds:?}");
    assert_eq!(served.get("/api/course").status, 200);
    let shown = course.display().to_string();
    let (code, _, report) = yokeward(course.parent().unwrap(), &["proof", &shown]);
    assert_eq!(code, 0, "{report}");
}

/// A lesson is one wherever in the course it lies, on the desk as in a pack.
#[test]
fn what_lies_in_a_folder_is_on_the_desk_too() {
    let (_place, course) = course();
    std::fs::create_dir(course.join("hats")).unwrap();
    let (from, to) = (
        course.join("06-pebble-hat.yaml"),
        course.join("hats/06-pebble-hat.yaml"),
    );
    std::fs::rename(&from, &to).unwrap();
    let served = Served::open(&course, &[]);
    let file = served.file("pebble-hat");
    let edits = json!([{"at": ["title"], "text": "Pebble cap"}]);
    let answer = served.post(
        "/api/file/pebble-hat",
        &json!({"at": file["at"], "edits": edits}),
    );
    assert_eq!(
        answer.status,
        200,
        "{}",
        String::from_utf8_lossy(&answer.body)
    );
    assert_eq!(served.act("pebble-hat", "save").status, 200);
    assert!(
        std::fs::read_to_string(&to)
            .unwrap()
            .contains("title: Pebble cap")
    );
    assert!(!from.exists());
}
