//! Drafts: strokes change a file's text and nothing else of it, are kept at once, undone, saved, and never lost to another
//! window, another desk or an editor.

use std::io::{BufRead, BufReader, Write};
use std::time::{Duration, Instant};

use serde_json::{Value, json};

use super::client::{Served, course};

const PEBBLE: &str = "charts/pebble.yaml";

/// The rows of a chart as lines, its first cell painted with a letter.
fn painted(file: &Value, letter: char) -> String {
    let rows = file["chart"]["rows"].as_array().unwrap();
    let mut rows: Vec<String> = rows
        .iter()
        .map(|row| row.as_str().unwrap().to_owned())
        .collect();
    rows[0].replace_range(0..1, &letter.to_string());
    rows.join("\n") + "\n"
}

#[test]
fn a_stroke_is_measured_kept_and_saved_and_remarks_stay() {
    let (_place, course) = course();
    let path = course.join(PEBBLE);
    let text = std::fs::read_to_string(&path).unwrap();
    let text = text.replace(
        "rows: |",
        "# Drawn by lamplight.\nrows: | # the top row last",
    );
    std::fs::write(&path, &text).unwrap();
    let desk = Served::open(&course, &[]);
    let before = desk.file("pebble");
    assert_eq!(
        (&before["changed"], &before["undo"]),
        (&json!(false), &json!(false))
    );
    let longest = |file: &Value| {
        file["chart"]["measured"]["perRow"][0]["longest"]
            .as_u64()
            .unwrap()
    };
    // Row 1 becomes a single stitch of Fleece among six: its floats pass five.
    let rows = before["chart"]["rows"].as_array().unwrap();
    let mut rows: Vec<&str> = rows.iter().map(|row| row.as_str().unwrap()).collect();
    let last = rows.len() - 1;
    rows[last] = ".....x";
    let after = desk.rows("pebble", &before["at"], &(rows.join("\n") + "\n"));
    assert_eq!(after.status, 200);
    let after = after.json();
    assert_eq!((longest(&before), longest(&after)), (2, 5));
    assert_eq!(after["chart"]["measured"]["perRow"][0]["over"], true);
    assert_eq!(
        (&after["changed"], &after["undo"]),
        (&json!(true), &json!(true))
    );
    assert_eq!(
        std::fs::read_to_string(&path).unwrap(),
        text,
        "nothing is written before it is saved"
    );
    let on_shelf = || {
        let shelf = desk.get("/api/course").json();
        let charts = shelf["charts"].as_array().unwrap().clone();
        charts
            .into_iter()
            .find(|chart| chart["id"] == "pebble")
            .unwrap()["changed"]
            .clone()
    };
    assert_eq!(on_shelf(), true);
    let saved = desk.act("pebble", "save").json();
    assert_eq!(saved["changed"], false);
    assert_eq!(on_shelf(), false);
    let new = std::fs::read_to_string(&path).unwrap();
    let changed: Vec<(&str, &str)> = text
        .lines()
        .zip(new.lines())
        .filter(|(a, b)| a != b)
        .collect();
    assert_eq!(changed.len(), 1, "{changed:?}");
    assert_eq!(changed[0].1, "  .....x");
    assert_eq!(text.lines().count(), new.lines().count());
    // Undo goes back behind the save.
    let undone = desk.act("pebble", "undo").json();
    assert_eq!(
        (&undone["changed"], &undone["redo"]),
        (&json!(true), &json!(true))
    );
    assert_eq!(undone["text"], text);
    assert_eq!(desk.act("pebble", "redo").json()["text"], new);
}

#[test]
fn steps_outlive_the_desk() {
    let (_place, course) = course();
    let mut desk = Served::open(&course, &[]);
    let mut texts = vec![desk.file("pebble")["text"].clone()];
    for letter in ['x', 's', '.'] {
        let file = desk.file("pebble");
        let after = desk
            .rows("pebble", &file["at"], &painted(&file, letter))
            .json();
        texts.push(after["text"].clone());
    }
    texts.dedup();
    desk.kill();
    let desk = Served::open(&course, &[]);
    for text in texts.iter().rev() {
        assert_eq!(&desk.file("pebble")["text"], text);
        desk.act("pebble", "undo");
    }
    assert_eq!(desk.file("pebble")["undo"], false);
    for text in texts.iter().skip(1) {
        assert_eq!(&desk.act("pebble", "redo").json()["text"], text);
    }
}

#[test]
fn two_windows_do_not_undo_each_others_work() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let seen = desk.file("pebble");
    let first = desk.rows("pebble", &seen["at"], &painted(&seen, 'x'));
    assert_eq!(first.status, 200);
    let late = desk.rows("pebble", &seen["at"], &painted(&seen, 's'));
    assert_eq!(late.status, 409);
    let late = late.json();
    assert_eq!(
        late["file"]["text"],
        first.json()["text"],
        "what the other did is shown"
    );
    assert_eq!(
        desk.post("/api/file/pebble/save", &json!({"at": seen["at"]}))
            .status,
        409
    );
    let now = &late["file"]["at"];
    assert_eq!(desk.rows("pebble", now, &painted(&seen, 's')).status, 200);
}

#[test]
fn a_change_beside_the_desk_is_shown_and_either_is_kept() {
    let (_place, course) = course();
    let path = course.join(PEBBLE);
    let desk = Served::open(&course, &[]);
    let seen = desk.file("pebble");
    // Nothing was done on the desk: what the file says, holds.
    let theirs = seen["text"]
        .as_str()
        .unwrap()
        .replace("title: Pebbles", "title: Shingle");
    assert_ne!(theirs, seen["text"].as_str().unwrap());
    std::fs::write(&path, &theirs).unwrap();
    let now = desk.file("pebble");
    assert_eq!(
        (&now["chart"]["title"], &now["elsewhere"]),
        (&json!("Shingle"), &Value::Null)
    );
    assert_eq!(desk.rows("pebble", &seen["at"], "..\n").status, 409);
    // A stroke, and a change beside it: both are there, and a save does not decide.
    let mine = desk.rows("pebble", &now["at"], &painted(&now, 'x')).json();
    let other = theirs.replace("Shingle", "Cobbles");
    std::fs::write(&path, &other).unwrap();
    let both = desk.file("pebble");
    assert_eq!(
        (&both["text"], &both["elsewhere"]),
        (&mine["text"], &json!(other))
    );
    let refused = desk.act("pebble", "save");
    assert_eq!(refused.status, 409);
    assert_eq!(refused.json()["file"]["elsewhere"], other);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), other);
    // Theirs, and mine again by undo.
    let dropped = desk.act("pebble", "drop").json();
    assert_eq!(
        (&dropped["text"], &dropped["changed"]),
        (&json!(other), &json!(false))
    );
    assert_eq!(desk.act("pebble", "undo").json()["text"], mine["text"]);
    // Mine over theirs.
    std::fs::write(&path, other.replace("Cobbles", "Gravel")).unwrap();
    let at = &desk.file("pebble")["at"];
    let over = desk.post("/api/file/pebble/save", &json!({"at": at, "over": true}));
    assert_eq!(over.status, 200);
    assert_eq!(
        std::fs::read_to_string(&path).unwrap(),
        mine["text"].as_str().unwrap()
    );
}

#[test]
fn a_file_that_goes_while_it_is_drawn_is_written_again() {
    let (_place, course) = course();
    let path = course.join(PEBBLE);
    let desk = Served::open(&course, &[]);
    let seen = desk.file("pebble");
    let mine = desk
        .rows("pebble", &seen["at"], &painted(&seen, 'x'))
        .json();
    std::fs::remove_file(&path).unwrap();
    let now = desk.file("pebble");
    assert_eq!((&now["text"], &now["fresh"]), (&mine["text"], &json!(true)));
    assert_eq!(desk.act("pebble", "save").status, 200);
    assert_eq!(
        std::fs::read_to_string(&path).unwrap(),
        mine["text"].as_str().unwrap()
    );
    // One of which nothing was unsaved is gone, and a chart of that name may be begun.
    std::fs::remove_file(&path).unwrap();
    let shelf = desk.get("/api/course").json();
    let ids: Vec<&str> = shelf["charts"]
        .as_array()
        .unwrap()
        .iter()
        .map(|c| c["id"].as_str().unwrap())
        .collect();
    assert!(!ids.contains(&"pebble"));
    let new =
        json!({"kind": "chart", "id": "pebble", "title": "Pebbles", "stitches": 6, "rows": 4});
    assert_eq!(desk.post("/api/new", &new).status, 200);
}

#[test]
fn a_new_chart_is_a_draft_until_it_is_saved() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let new = json!({"kind": "chart", "id": "dulse", "title": "Dulse: red, \"wet\"", "stitches": 8, "rows": 6});
    let file = desk.post("/api/new", &new).json();
    assert_eq!(
        (&file["fresh"], &file["chart"]["rights"]),
        (&json!(true), &json!("own"))
    );
    assert!(!course.join("charts/dulse.yaml").exists());
    let again = desk.post("/api/new", &new);
    assert_eq!(again.status, 422);
    desk.act("dulse", "save");
    let text = std::fs::read_to_string(course.join("charts/dulse.yaml")).unwrap();
    let outside: serde_yaml::Value = serde_yaml::from_str(&text).unwrap();
    assert_eq!(outside["title"].as_str(), Some("Dulse: red, \"wet\""));
    // A copy inherits rights and source; what was pasted may not be printed yet.
    let copy =
        json!({"kind": "chart", "id": "boats-again", "title": "Boats again", "copy": "boats"});
    assert_eq!(
        desk.post("/api/new", &copy).json()["chart"]["rights"],
        "reference-only"
    );
    let pasted = json!({
        "kind": "chart", "id": "pasted", "title": "Pasted", "lines": ["..x.", ".xxx"],
        "colours": [{"letter": ".", "role": "ground"}, {"letter": "x", "role": "motif"}],
    });
    assert_eq!(
        desk.post("/api/new", &pasted).json()["chart"]["rights"],
        "reference-only"
    );
}

/// The ids of the next change that a listener is told of.
fn heard(lines: &mut impl Iterator<Item = std::io::Result<String>>) -> Vec<String> {
    for line in lines.by_ref() {
        if let Some(data) = line.unwrap().strip_prefix("data: ") {
            let change: Value = serde_json::from_str(data).unwrap();
            let ids = change["ids"].as_array().unwrap();
            return ids
                .iter()
                .map(|id| id.as_str().unwrap().to_owned())
                .collect();
        }
    }
    Vec::new()
}

#[test]
fn two_desks_on_one_course_hear_each_other() {
    let (_place, course) = course();
    let (here, there) = (Served::open(&course, &[]), Served::open(&course, &[]));
    let mut stream = there.connect();
    let request = format!(
        "GET /api/events HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nCookie: {}\r\n\r\n",
        there.port, there.cookie
    );
    stream.write_all(request.as_bytes()).unwrap();
    let mut lines = BufReader::new(stream).lines();
    let start = Instant::now();
    let seen = here.file("pebble");
    let mine = here
        .rows("pebble", &seen["at"], &painted(&seen, 'x'))
        .json();
    assert_eq!(heard(&mut lines), ["pebble"]);
    assert!(
        start.elapsed() < Duration::from_secs(5),
        "{:?}",
        start.elapsed()
    );
    assert_eq!(there.file("pebble")["text"], mine["text"]);
    // The same step counts on both: what came too late on one is refused by the other.
    let answered = there.rows("pebble", &seen["at"], &painted(&seen, 's'));
    assert_eq!(answered.status, 409);
    // An editor's save is heard, too.
    std::fs::write(course.join("charts/tern.yaml"), "rows: |\n  x.\n").unwrap();
    assert_eq!(heard(&mut lines), ["tern"]);
}
