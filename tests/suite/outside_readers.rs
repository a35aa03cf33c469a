//! Readers from outside the project over what it reads and writes: serde_yaml for its files, lopdf for its PDFs.

use std::collections::BTreeSet;

use lopdf::{Document, Object, ObjectId};
use yokeward::lesson::Band;

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

/// PDFs of the demo course by path.
fn pdfs() -> Vec<(String, Document)> {
    let loaded = demo();
    let files = yokeward::pipeline::pack(
        &loaded,
        &[],
        yokeward::pipeline::PackOptions::default(),
        &|_| {},
    )
    .unwrap();
    files
        .iter()
        .filter(|(path, _)| path.ends_with(".pdf"))
        .map(|(path, bytes)| (path.clone(), Document::load_mem(bytes).unwrap()))
        .collect()
}

/// What a document's structure promises, checked against its pages. Empty when all is kept.
fn structure_faults(document: &Document) -> Vec<String> {
    let mut faults = Vec::new();
    let catalog = document.catalog().unwrap();
    for key in [
        "Lang",
        "MarkInfo",
        "StructTreeRoot",
        "Outlines",
        "ViewerPreferences",
        "Metadata",
    ] {
        if !catalog.has(key.as_bytes()) {
            faults.push(format!("no {key}"));
        }
    }
    let root = catalog
        .get(b"StructTreeRoot")
        .and_then(Object::as_reference)
        .unwrap();
    let mut reached: BTreeSet<(ObjectId, i64)> = BTreeSet::new();
    walk(document, root, &mut reached, &mut faults);
    let pages = document.get_pages();
    for (number, page) in &pages {
        let content = document.get_and_decode_page_content(*page).unwrap();
        let (mut depth, mut seen) = (0, 0);
        for operation in &content.operations {
            match operation.operator.as_str() {
                "BDC" => {
                    depth += 1;
                    let mcid = operation.operands[1]
                        .as_dict()
                        .unwrap()
                        .get(b"MCID")
                        .and_then(Object::as_i64)
                        .unwrap();
                    seen += 1;
                    if !reached.contains(&(*page, mcid)) {
                        faults.push(format!(
                            "page {number}: content {mcid} is not in the structure"
                        ));
                    }
                }
                "BMC" => depth += 1,
                "EMC" => depth -= 1,
                "Tj" | "TJ" | "f" | "S" | "B" if depth == 0 => {
                    faults.push(format!("page {number}: untagged content"))
                }
                _ => {}
            }
        }
        let promised = reached.iter().filter(|(p, _)| p == page).count();
        if promised != seen {
            faults.push(format!("page {number}: {promised} promised, {seen} there"));
        }
        for (name, font) in document.get_page_fonts(*page).unwrap() {
            if !font.has(b"ToUnicode") {
                faults.push(format!(
                    "font {} without ToUnicode",
                    String::from_utf8_lossy(&name)
                ));
            }
        }
    }
    faults
}

fn walk(
    document: &Document,
    id: ObjectId,
    reached: &mut BTreeSet<(ObjectId, i64)>,
    faults: &mut Vec<String>,
) {
    let element = document.get_dictionary(id).unwrap();
    let role = element
        .get(b"S")
        .and_then(Object::as_name)
        .map(|n| String::from_utf8_lossy(n).into_owned());
    let role = role.unwrap_or_default();
    if role == "Figure" && !element.has(b"Alt") {
        faults.push("a figure without Alt".to_owned());
    }
    if role == "TH" && !element.has(b"A") {
        faults.push("a head cell without scope".to_owned());
    }
    let kids = match element.get(b"K").unwrap() {
        Object::Array(kids) => kids.clone(),
        other => vec![other.clone()],
    };
    for kid in kids {
        match kid {
            Object::Reference(child) => walk(document, child, reached, faults),
            Object::Dictionary(content) => {
                let page = content.get(b"Pg").and_then(Object::as_reference).unwrap();
                let mcid = content.get(b"MCID").and_then(Object::as_i64).unwrap();
                if !reached.insert((page, mcid)) {
                    faults.push(format!("content {mcid} is promised twice"));
                }
            }
            other => faults.push(format!("strange child {other:?}")),
        }
    }
}

#[test]
fn lopdf_finds_every_page_tagged_and_every_font_readable() {
    let pdfs = pdfs();
    assert!(pdfs.len() > 10);
    for (path, document) in &pdfs {
        let faults = structure_faults(document);
        assert!(faults.is_empty(), "{path}: {faults:?}");
        let pages: Vec<u32> = document.get_pages().into_keys().collect();
        let text = document.extract_text(&pages).unwrap();
        assert!(text.contains("Saltmarsh Guild"), "{path}");
    }
}

/// A check that cannot fail is none: planted faults are found.
#[test]
fn planted_structure_faults_are_caught() {
    let (_, document) = pdfs()
        .into_iter()
        .find(|(path, _)| path.contains("pebble"))
        .unwrap();
    let mut plain = document.clone();
    plain.catalog_mut().unwrap().remove(b"Lang");
    assert!(!structure_faults(&plain).is_empty());
    for key in [b"Alt".as_slice(), b"A"] {
        let mut plain = document.clone();
        let victim = plain
            .objects
            .iter()
            .find(|(_, o)| {
                o.as_dict()
                    .is_ok_and(|d| d.has(key) && d.has(b"S") && d.has(b"K"))
            })
            .map(|(id, _)| *id);
        let dict = plain
            .get_object_mut(victim.unwrap())
            .unwrap()
            .as_dict_mut()
            .unwrap();
        dict.remove(key);
        let role = dict.get(b"S").unwrap().as_name().unwrap().to_vec();
        if role != b"L" {
            assert!(!structure_faults(&plain).is_empty(), "{role:?}");
        }
    }
    let mut plain = document.clone();
    let victim = plain.objects.iter().find(|(_, o)| {
        o.as_dict().is_ok_and(|d| {
            d.get(b"S")
                .and_then(Object::as_name)
                .is_ok_and(|n| n == b"P")
                && d.has(b"K")
        })
    });
    let id = *victim.unwrap().0;
    plain
        .get_object_mut(id)
        .unwrap()
        .as_dict_mut()
        .unwrap()
        .set("K", Vec::<Object>::new());
    assert!(!structure_faults(&plain).is_empty());
}
