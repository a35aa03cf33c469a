//! Readers from outside the project over what it reads and writes: serde_yaml for its files (the PDFs are read in `tagged`).

use serde_json::Value;
use yokeward::course::Band;

use crate::demo_course::demo;
use crate::harness::{read, root};

fn yaml_files(folder: &str) -> Vec<String> {
    let mut files: Vec<String> = std::fs::read_dir(root().join(folder))
        .unwrap()
        .map(|entry| {
            format!(
                "{folder}/{}",
                entry.unwrap().file_name().into_string().unwrap()
            )
        })
        .filter(|path| path.ends_with(".yaml"))
        .collect();
    files.sort();
    files
}

#[test]
fn serde_yaml_reads_every_file_to_the_same_values() {
    let loaded = demo();
    let mut charts = 0;
    for path in yaml_files("lessons/charts") {
        let value: serde_yaml::Value = serde_yaml::from_str(&read(&path)).unwrap();
        let id = path.rsplit('/').next().unwrap().trim_end_matches(".yaml");
        let chart = &loaded.course.charts[id];
        assert_eq!(value["title"].as_str().unwrap(), chart.title);
        let rows: Vec<&str> = value["rows"].as_str().unwrap().lines().collect();
        let ours: Vec<String> = (0..chart.height)
            .rev()
            .map(|row| chart.drawn_line(row))
            .collect();
        assert_eq!(rows, ours, "{path}");
        charts += 1;
    }
    assert_eq!(charts, loaded.course.charts.len());
    for path in yaml_files("lessons")
        .into_iter()
        .filter(|p| !p.ends_with("course.yaml"))
    {
        let value: serde_yaml::Value = serde_yaml::from_str(&read(&path)).unwrap();
        let title = value["title"].as_str().unwrap();
        let lesson = loaded
            .course
            .lessons
            .iter()
            .find(|l| l.title == title)
            .unwrap();
        assert_eq!(value["text"].as_str().unwrap(), lesson.text);
        assert_eq!(
            value["gauge"]["colourwork"]["stitches"].as_f64().unwrap(),
            lesson.colourwork.gauge.stitches
        );
        let bands = value["bands"].as_sequence().unwrap();
        assert_eq!(bands.len(), lesson.bands.len());
        for (theirs, ours) in bands.iter().zip(&lesson.bands) {
            let same = match ours {
                Band::Rib { .. } => !theirs["rib"].is_null(),
                Band::Plain { .. } => !theirs["plain"].is_null(),
                Band::Chart { .. } => !theirs["chart"].is_null(),
                Band::Across(_) => !theirs["across"].is_null(),
                Band::Decrease => theirs.as_str() == Some("decrease"),
            };
            assert!(same, "{path}: {theirs:?}");
        }
    }
    for path in yaml_files("templates/begin")
        .into_iter()
        .chain(yaml_files("templates/begin/charts"))
    {
        serde_yaml::from_str::<serde_yaml::Value>(&read(&path)).unwrap();
    }
}

#[test]
fn the_schema_file_is_what_the_program_prints() {
    let printed = serde_json::to_string_pretty(&yokeward::read::schema()).unwrap() + "\n";
    assert_eq!(
        read("templates/schema.json"),
        printed,
        "run: yokeward schema > templates/schema.json"
    );
    assert!(
        yaml_files("lessons")
            .iter()
            .all(|p| read(p).starts_with("# yaml-language-server: $schema="))
    );
}

#[test]
fn every_answer_has_a_schema_that_names_its_format() {
    for (name, text) in yokeward::report::FORMATS {
        let schema: serde_json::Value = serde_json::from_str(text).unwrap();
        assert_eq!(
            schema["$schema"], "http://json-schema.org/draft-07/schema#",
            "{name}"
        );
        assert_eq!(schema["additionalProperties"], false, "{name}");
        // An answer of a stream is a chart's or a fault's, in one.
        let format = &schema["properties"]["format"]["const"];
        assert_eq!(*format, format!("yokeward/{name}/1"), "{name}");
        let (code, out, _) =
            crate::harness::yokeward(&crate::harness::root(), &["schema", "--of", name]);
        assert_eq!((code, out.as_str()), (0, text), "{name}");
    }
}

/// Keys of a value that its schema does not know, and keys that it asks for and misses; `$ref` within the schema only.
fn strange_keys(value: &Value, schema: &Value, whole: &Value, at: &str, found: &mut Vec<String>) {
    if let Some(name) = schema["$ref"].as_str() {
        let target = whole.pointer(name.trim_start_matches('#'));
        return strange_keys(value, target.unwrap(), whole, at, found);
    }
    match value {
        Value::Object(fields) => {
            let known = schema["properties"].as_object();
            for (key, field) in fields {
                let inner = known.and_then(|known| known.get(key));
                match inner {
                    Some(inner) => strange_keys(field, inner, whole, &format!("{at}.{key}"), found),
                    None if schema["additionalProperties"] == false => {
                        found.push(format!("{at}: {key} is unknown"));
                    }
                    None => {}
                }
            }
            for key in schema["required"].as_array().into_iter().flatten() {
                if !fields.contains_key(key.as_str().unwrap()) {
                    found.push(format!("{at}: {key} is missing"));
                }
            }
        }
        Value::Array(items) => {
            for item in items {
                strange_keys(item, &schema["items"], whole, &format!("{at}[]"), found);
            }
        }
        _ => {}
    }
}

/// What the answers of the goldens hold is what their schemas tell of; an outside validator reads them all in the checks.
#[test]
fn answers_hold_the_keys_that_their_schemas_tell_of() {
    let mut checked = 0;
    for entry in std::fs::read_dir(root().join("tests/suite/snapshots")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if !name.contains("__json__") {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap();
        let body = text.splitn(3, "---\n").nth(2).unwrap();
        let answer: Value = serde_json::from_str(&body[body.find('{').unwrap()..]).unwrap();
        let kind = answer["format"]
            .as_str()
            .unwrap()
            .split('/')
            .nth(1)
            .unwrap();
        let schema: Value =
            serde_json::from_str(&read(&format!("templates/formats/{kind}.json"))).unwrap();
        let mut found = Vec::new();
        strange_keys(&answer, &schema, &schema, kind, &mut found);
        assert!(found.is_empty(), "{name}: {found:#?}");
        // A key by another name is found.
        let mut other = answer.clone();
        let format = other.as_object_mut().unwrap().remove("format").unwrap();
        other["formats"] = format;
        strange_keys(&other, &schema, &schema, kind, &mut found);
        assert_eq!(found.len(), 2, "{name}: {found:#?}");
        checked += 1;
    }
    assert!(checked > 10);
}
