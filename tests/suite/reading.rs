//! What a path names, and whose faults are told.

use std::path::Path;

use crate::harness::{load, yokeward};

fn write(folder: &Path, files: &[(&str, &str)]) {
    for (name, text) in files {
        let path = folder.join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }
}

const COLOURS: &str = "colours: { ground: { name: Peat, hex: \"#3b2f2a\" }, motif: { name: Fleece, hex: \"#f2ead8\" } }\n";

fn lesson(bands: &str) -> String {
    format!(
        "title: It\nmakes: scarf\nworked: flat\ngauge: {{ colourwork: {{ stitches: 20, rows: 26 }} }}\n{COLOURS}{bands}\n"
    )
}

#[test]
fn a_lesson_is_a_lesson_however_its_keys_are_written() {
    let bands = [
        "bands: [ { plain: { rows: 2 } } ]".to_owned(),
        "\"bands\": [ { plain: { rows: 2 } } ]".to_owned(),
        "? bands\n: - plain: { rows: 2 }".to_owned(),
    ];
    let flow = "{ title: It, makes: scarf, worked: flat, gauge: { colourwork: { stitches: 20, rows: 26 } }, \
                colours: { a: { name: Peat, hex: \"#3b2f2a\" } }, bands: [ { plain: { rows: 2, colour: a } } ] }\n";
    let all = bands
        .iter()
        .map(|bands| lesson(bands))
        .chain([flow.to_owned()]);
    for text in all {
        for with_course in [false, true] {
            let folder = tempfile::tempdir().unwrap();
            write(folder.path(), &[("it.yaml", &text)]);
            if with_course {
                write(folder.path(), &[("course.yaml", "title: C\n")]);
            }
            let (code, out, err) = yokeward(folder.path(), &["measure", "--json", "it.yaml"]);
            assert_eq!(code, 0, "{text}{err}");
            assert!(out.contains("\"lessons\":[{\"id\":\"it\""), "{text}{out}");
        }
    }
}

#[test]
fn a_run_over_one_lesson_tells_no_faults_of_its_neighbours() {
    let folder = tempfile::tempdir().unwrap();
    let torn =
        "title: Torn\nworked: flat\ncolours: { \".\": ground }\nrights: own\nrows: |\n  ..x\n";
    let whole = "title: Whole\nworked: flat\ncolours: { \".\": ground, x: motif }\nrights: own\nrows: |\n  ..x\n";
    write(
        folder.path(),
        &[
            ("course.yaml", "title: C\n"),
            ("01-own.yaml", &lesson("bands: [ { chart: whole } ]")),
            ("02-other.yaml", &lesson("bands: [ { chart: torn } ]")),
            ("charts/torn.yaml", torn),
            ("charts/whole.yaml", whole),
        ],
    );
    let (code, _, err) = yokeward(folder.path(), &["proof", "--concise", "."]);
    assert_eq!(code, 1, "{err}");
    let (code, out, err) = yokeward(folder.path(), &["measure", "--json", "01-own.yaml"]);
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    // The fault of a chart that the lesson rests on is its business.
    let (code, _, err) = yokeward(folder.path(), &["measure", "--json", "02-other.yaml"]);
    assert_eq!(code, 1);
    assert!(err.contains("charts/torn.yaml:6:5"), "{err}");
}

#[test]
fn more_colours_than_anybody_can_tell_apart_are_refused_once() {
    let letters =
        |n: u32| -> Vec<char> { (0..n).filter_map(|i| char::from_u32(0x4e00 + i)).collect() };
    for (number, faults) in [(64, 0), (65, 1), (300, 1)] {
        let all = letters(number);
        let named: Vec<String> = all
            .iter()
            .map(|c| format!("{c}: role-{}", u32::from(*c)))
            .collect();
        let row: String = all.iter().collect();
        let chart = format!(
            "=== course.yaml\ntitle: C\n=== charts/it.yaml\ntitle: It\nrights: own\ncolours: {{ {} }}\nrows: |\n  {row}\n",
            named.join(", ")
        );
        let found = load(&chart);
        let large = |loaded: &yokeward::read::Loaded| {
            loaded
                .faults
                .iter()
                .filter(|fault| fault.code.name() == "too-large")
                .count()
        };
        assert_eq!(large(&found), faults, "{number}");
        let yarns: Vec<String> = (0..number)
            .map(|n| format!("r{n}: {{ name: Y{n}, hex: \"#000000\" }}"))
            .collect();
        let lesson = format!(
            "=== course.yaml\ntitle: C\n=== it.yaml\ntitle: It\nmakes: scarf\n\
             gauge: {{ colourwork: {{ stitches: 20, rows: 26 }} }}\ncolours: {{ {} }}\nbands: [ {{ plain: {{ rows: 2 }} }} ]\n",
            yarns.join(", ")
        );
        assert_eq!(large(&load(&lesson)), faults, "{number}");
    }
}
