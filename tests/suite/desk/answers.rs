//! What the desk answers is what the commands answer: one engine, asked twice.

use serde_json::{Value, json};

use super::client::{Served, course};
use crate::harness::root;

fn command(arguments: &[&str]) -> Value {
    let out = std::process::Command::new(env!("CARGO_BIN_EXE_yokeward"))
        .args(arguments)
        .current_dir(root())
        .output()
        .unwrap();
    serde_json::from_slice(&out.stdout).unwrap()
}

#[test]
fn the_ladder_and_the_shelf_are_those_of_the_commands() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let shown = desk.get("/api/course").json();
    let order = command(&["order", "--json", "lessons"]);
    let of = |list: &Value, key: &str| -> Vec<Value> {
        list.as_array()
            .unwrap()
            .iter()
            .map(|one| one[key].clone())
            .collect()
    };
    for (here, there) in [
        ("id", "id"),
        ("step", "step"),
        ("grade", "grade"),
        ("newTechniques", "new_techniques"),
        ("hours", "hours"),
    ] {
        assert_eq!(
            of(&shown["lessons"], here),
            of(&order["lessons"], there),
            "{here}"
        );
    }
    let measured = command(&["measure", "--json", "lessons"]);
    for key in ["id", "grade", "busyness", "level"] {
        assert_eq!(
            of(&shown["charts"], key),
            of(&measured["charts"], key),
            "{key}"
        );
    }
    // A chart that no lesson uses is measured by itself, as the command does it.
    let new = json!({"kind": "chart", "id": "spare", "copy": "tern", "title": "Spare"});
    let spare = desk.post("/api/new", &new).json();
    let tern = measured["charts"]
        .as_array()
        .unwrap()
        .iter()
        .find(|c| c["id"] == "tern")
        .unwrap();
    let measure = &spare["chart"]["measured"]["measure"];
    for key in [
        "floats", "colours", "reading", "relief", "grade", "parts", "repeats",
    ] {
        assert_eq!(measure[key], tern[key], "{key}");
    }
    let looks: Vec<Value> = tern["per_row"]
        .as_array()
        .unwrap()
        .iter()
        .map(|r| r["looks"].clone())
        .collect();
    assert_eq!(of(&spare["chart"]["measured"]["perRow"], "looks"), looks);
    assert_eq!(spare["chart"]["measured"]["step"], Value::Null);
}

#[test]
fn a_chart_in_a_lesson_has_its_yarns_limit_grade_and_step() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let file = desk.file("turnstone");
    let order = command(&["order", "--json", "lessons"]);
    let mitts = order["lessons"]
        .as_array()
        .unwrap()
        .iter()
        .find(|l| l["id"] == "turnstone-mitts")
        .unwrap();
    let measured = &file["chart"]["measured"];
    assert_eq!(
        (&measured["grade"], &measured["step"]),
        (&mitts["grade"], &mitts["step"])
    );
    // Mitts: fingers catch, so 15 mm at 24 stitches to 10 cm are three stitches.
    assert_eq!(file["chart"]["limit"], 3);
    assert_eq!(file["chart"]["lesson"]["id"], "turnstone-mitts");
    let names: Vec<&str> = file["chart"]["colours"]
        .as_array()
        .unwrap()
        .iter()
        .map(|c| c["name"].as_str().unwrap())
        .collect();
    assert!(names.contains(&"Gorse"), "{names:?}");
}

#[test]
fn kinder_proposals_do_what_they_say_when_they_are_taken() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    for chart in ["pebble", "tern", "dunlin", "cockle"] {
        let kinder = desk.get(&format!("/api/kinder/{chart}")).json();
        let proposals = kinder["proposals"].as_array().unwrap();
        assert!(!proposals.is_empty(), "{chart}");
        let mut taken = 0;
        for proposal in proposals
            .iter()
            .filter(|proposal| proposal["rows"].is_array())
        {
            let file = desk.file(chart);
            let taken_as = json!({"at": file["at"], "edits": proposal["edits"]});
            let after = desk.post(&format!("/api/file/{chart}"), &taken_as).json();
            assert_eq!(after["chart"]["rows"], proposal["rows"], "{chart}");
            let measured = &after["chart"]["measured"];
            assert_eq!(
                measured["grade"], proposal["after"]["grade"],
                "{chart}: {proposal}"
            );
            assert_eq!(measured["step"], proposal["after"]["step"], "{chart}");
            assert!(
                measured["grade"].as_f64() < kinder["now"]["grade"].as_f64(),
                "{chart}"
            );
            desk.act(chart, "undo");
            taken += 1;
        }
        assert!(taken > 0, "{chart}");
    }
}

#[test]
fn a_lesson_is_moved_by_needs_or_it_is_said_what_forbids_it() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let shown = desk.get("/api/course").json();
    let mut ids: Vec<String> = shown["lessons"]
        .as_array()
        .unwrap()
        .iter()
        .map(|l| l["id"].as_str().unwrap().to_owned())
        .collect();
    // The yoke above what it needs.
    let mut high = ids.clone();
    let last = high.pop().unwrap();
    high.insert(0, last.clone());
    let along = desk.post("/api/along", &json!({"ids": high})).json();
    assert_eq!(along["lessons"][0]["forbidden"], json!(["dunlin-yoke"]));
    assert_eq!(along["lessons"][0]["over"], true);
    let refused = desk.post("/api/along/keep", &json!({"ids": high, "moved": last}));
    assert_eq!(refused.status, 422);
    assert!(
        refused.json()["message"]
            .as_str()
            .unwrap()
            .contains("dunlin-yoke")
    );
    // Two neighbours that may change places.
    let at = ids.iter().position(|id| id == "cockle-cowl").unwrap();
    ids.swap(at, at + 1);
    let kept = desk.post(
        "/api/along/keep",
        &json!({"ids": ids, "moved": "cockle-cowl"}),
    );
    assert_eq!(kept.status, 200, "{}", String::from_utf8_lossy(&kept.body));
    let now: Vec<Value> = kept.json()["lessons"]
        .as_array()
        .unwrap()
        .iter()
        .map(|l| l["id"].clone())
        .collect();
    assert_eq!(json!(now), json!(ids));
    // As few files as can be: one or two.
    let changed = kept.json()["lessons"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|l| l["changed"] == true)
        .count();
    assert!((1..=2).contains(&changed), "{changed}");
    desk.act("cockle-cowl", "save");
    let text = std::fs::read_to_string(course.join("04-cockle-cowl.yaml")).unwrap();
    assert!(text.contains("needs: ["), "{text}");
    assert!(text.starts_with("# yaml-language-server"), "remarks stay");
}

#[test]
fn a_hat_is_made_of_any_chart_that_can_be_one() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let making = desk.get("/api/make/pebble").json();
    let mut made = making["first"].clone();
    let file = desk.post("/api/make", &made).json();
    let lesson = &file["lesson"];
    assert_eq!(
        (&file["fresh"], &lesson["makes"]),
        (&json!(true), &json!("hat"))
    );
    assert_eq!(lesson["sizes"]["labels"].as_array().unwrap().len(), 3);
    assert!(
        file["faults"]
            .as_array()
            .unwrap()
            .iter()
            .all(|f| f["severity"] != "error"),
        "{}",
        file["faults"]
    );
    let id = file["id"].as_str().unwrap();
    let pdf = desk.get(&format!("/api/handout/{id}.pdf"));
    assert_eq!((pdf.status, &pdf.body[..5]), (200, &b"%PDF-"[..]));
    // What is only tried is in no order and in no pack; once saved, it is.
    let ladder = || {
        desk.get("/api/course").json()["lessons"]
            .as_array()
            .unwrap()
            .len()
    };
    assert_eq!(ladder(), 12);
    let drafts = desk.get("/api/course").json()["drafts"].clone();
    assert_eq!(
        drafts,
        json!([{"id": id, "kind": "lesson", "title": "Pebbles hat", "fresh": true}])
    );
    // Her own head, and no gauge: the size is there, and the text says that the hat is the swatch.
    made["own"] = json!({"name": "Aunt", "measures": {"head": 585.0}});
    made["gauge"] = Value::Null;
    let own = desk.post("/api/make", &made).json();
    assert!(
        own["lesson"]["sizes"]["labels"]
            .to_string()
            .contains("Aunt"),
        "{}",
        own["lesson"]["sizes"]
    );
    assert!(own["text"].as_str().unwrap().contains("is the swatch"));
    let settings = desk.file("course");
    assert!(
        settings["text"].as_str().unwrap().contains("585 mm"),
        "{}",
        settings["text"]
    );
    desk.act(id, "save");
    desk.act("course", "save");
    assert_eq!(ladder(), 13);
    made["id"] = json!("pebble-band");
    // A band far too high for a headband says so.
    made["makes"] = json!("headband");
    made["times"] = json!(20);
    let high = desk.post("/api/make", &made).json();
    assert!(!high["faults"].as_array().unwrap().is_empty());
}

#[test]
fn the_register_and_the_logs_are_files_of_their_own() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let empty = desk.get("/api/register").json();
    let wren = json!({"name": "Wren \"the\" first", "size": "adult-small", "colours": "Peat, Fleece", "done": ["tideline-cowl"]});
    let kept = desk
        .post(
            "/api/register",
            &json!({"at": empty["at"], "learners": [wren]}),
        )
        .json();
    assert_eq!(kept["learners"][0], wren);
    assert_eq!(kept["next"], json!(["sanderling-headband"]));
    let stale = desk.post("/api/register", &json!({"at": empty["at"], "learners": []}));
    assert_eq!(stale.status, 409);
    let text = std::fs::read_to_string(course.join("people/register.yaml")).unwrap();
    let outside: serde_yaml::Value = serde_yaml::from_str(&text).unwrap();
    assert_eq!(
        outside["learners"][0]["done"][0].as_str(),
        Some("tideline-cowl")
    );
    // No output of the course knows of her.
    let handout = desk.get("/api/handout/tideline-cowl.html");
    assert!(!String::from_utf8_lossy(&handout.body).contains("Wren"));
    assert!(
        desk.get("/api/course").json()["faults"]
            .as_array()
            .unwrap()
            .iter()
            .all(|f| f["severity"] != "error")
    );
    // A log: what comes next is what the command says.
    let person = desk
        .post("/api/person", &json!({"id": "wren", "name": "Wren"}))
        .json();
    assert_eq!(person["done"], json!([]));
    let entry = json!({"made": "tideline-cowl", "went": "easy", "on": "2026-10-02", "note": "By lamplight: warm"});
    let person = desk.post("/api/person/wren/done", &entry).json();
    assert_eq!(person["done"][0]["note"], "By lamplight: warm");
    let log = course.join("people/wren.yaml");
    let next = command(&[
        "next",
        "--json",
        "--log",
        log.to_str().unwrap(),
        course.to_str().unwrap(),
    ]);
    let lessons: Vec<&Value> = next["proposals"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|p| p["kind"] == "lesson")
        .collect();
    assert_eq!(person["next"][0]["id"], lessons[0]["id"]);
    assert_eq!(person["next"][0]["reasons"], lessons[0]["reasons"]);
    let way = desk.get("/api/person/wren/way?to=samphire-yoke").json();
    let route = command(&[
        "route",
        "--json",
        "--log",
        log.to_str().unwrap(),
        "--to",
        "samphire-yoke",
        course.to_str().unwrap(),
    ]);
    assert_eq!(way["largest"], route["largest_step"]);
    assert_eq!(
        way["lessons"].as_array().unwrap().len(),
        route["lessons"].as_array().unwrap().len()
    );
}

#[test]
fn a_chart_keeps_its_yarns_while_it_is_not_right_yet() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let before = desk.file("pebble");
    // A colour that the lesson has no yarn for: the lesson has an error, the chart is measured by itself.
    let edits = json!([{"at": ["colours", "o"], "text": "moss"}]);
    desk.post(
        "/api/file/pebble",
        &json!({"at": before["at"], "edits": edits}),
    );
    assert!(
        desk.get("/api/course").json()["lessons"]
            .as_array()
            .unwrap()
            .len()
            < 12
    );
    let rows: Vec<&str> = before["chart"]["rows"]
        .as_array()
        .unwrap()
        .iter()
        .map(|r| r.as_str().unwrap())
        .collect();
    let rows = format!("..o.x.\n{}\n", rows[1..].join("\n"));
    let after = desk
        .rows("pebble", &desk.file("pebble")["at"], &rows)
        .json();
    let chart = &after["chart"];
    assert_eq!(chart["lesson"]["id"], "pebble-hat");
    assert_eq!(chart["colours"][1]["name"], "Fleece");
    assert_eq!(chart["aspect"], before["chart"]["aspect"]);
    assert_eq!(chart["measured"]["step"], Value::Null);
    assert_eq!(chart["measured"]["perRow"][16]["colours"], 3);
    // A cause that lies in another chart of the lesson points at no row of this one.
    let grains = desk.get("/api/file/grains?lesson=samphire-yoke").json();
    assert_eq!(grains["chart"]["lesson"]["id"], "samphire-yoke");
    for part in ["floats", "colours", "reading"] {
        let row = &grains["chart"]["measured"]["parts"][part]["row"];
        assert!(row.is_null() || row.as_u64().unwrap() <= 3, "{part}: {row}");
    }
}
