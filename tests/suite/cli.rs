//! The command line as a newcomer meets it.

use crate::harness::{root, yokeward};

fn here(arguments: &[&str]) -> (i32, String, String) {
    yokeward(&root(), arguments)
}

#[test]
fn help_teaches() {
    for command in [
        "",
        "begin",
        "proof",
        "measure",
        "grade",
        "order",
        "tame",
        "trace",
        "next",
        "record",
        "route",
        "fit",
        "judge",
        "pack",
        "desk",
        "schema",
        "explain",
        "completions",
        "notices",
    ] {
        let arguments: Vec<&str> = command.split_whitespace().chain(["--help"]).collect();
        let (code, out, err) = here(&arguments);
        assert_eq!((code, err.as_str()), (0, ""), "{command}");
        let name = if command.is_empty() {
            "yokeward"
        } else {
            command
        };
        insta::assert_snapshot!(format!("help__{name}"), out);
    }
}

#[test]
fn wrong_usage_could_not_run() {
    for arguments in [
        &["knot"][..],
        &["measure", "--guage", "20"],
        &["measure", "lessons", "--gauge", "20"],
        &["measure", "lessons/06-pebble-hat.yaml", "--limit-mm", "20"],
        &["measure", "lessons/charts/pebble.yaml", "--gauge", "0"],
        &["order", "no-such-folder"],
        &["explain", "no-such-code"],
        &["begin", "src"],
    ] {
        let (code, out, err) = here(arguments);
        assert_eq!((code, out.as_str()), (2, ""), "{arguments:?}");
        assert!(!err.is_empty());
    }
}

#[test]
fn tables_fit_eighty_columns_and_reports_keep_off_stdout() {
    for arguments in [
        &["measure"][..],
        &["grade"],
        &["order"],
        &["explain"],
        &["proof", "--concise"],
    ] {
        let (code, out, _) = here(arguments);
        assert_eq!(code, 0, "{arguments:?}");
        let table = out.lines().take_while(|line| !line.is_empty());
        assert!(
            table.clone().all(|line| line.chars().count() <= 80),
            "{arguments:?}\n{out}"
        );
        assert!(
            !out.contains('\u{1b}'),
            "{arguments:?} writes colour into a pipe"
        );
    }
    insta::assert_snapshot!("order__demo", here(&["order"]).1);
    insta::assert_snapshot!(
        "measure__pebble",
        here(&["measure", "lessons/charts/pebble.yaml"]).1
    );
}

#[test]
fn json_is_json_and_the_same_twice() {
    for arguments in [
        &["measure", "--json"][..],
        &["grade", "--json"],
        &["order", "--json"],
        &["proof", "--json"],
    ] {
        let (code, once, _) = here(arguments);
        assert_eq!(code, 0);
        let value: serde_json::Value = serde_json::from_str(&once).unwrap();
        assert!(value["format"].as_str().unwrap().starts_with("yokeward/"));
        assert_eq!(once, here(arguments).1);
    }
}

#[test]
fn a_first_course_packs_without_a_fault() {
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(yokeward(folder.path(), &["begin", "mine"]).0, 0);
    let (code, _, report) = yokeward(folder.path(), &["proof", "mine"]);
    assert_eq!(
        (code, report.as_str()),
        (0, "no faults in 2 lessons and 1 chart\n")
    );
    assert_eq!(yokeward(folder.path(), &["order", "mine"]).0, 0);
    assert_eq!(yokeward(folder.path(), &["pack", "mine"]).0, 0);
    assert!(
        folder
            .path()
            .join("out/mine/lessons/02-sandgrain-headband/handout.pdf")
            .is_file()
    );
    // A second time the folder is not empty.
    assert_eq!(yokeward(folder.path(), &["begin", "mine"]).0, 2);
}

#[test]
fn a_single_file_of_a_course_takes_the_course_settings() {
    let (code, out, _) = here(&["measure", "lessons/charts/pebble.yaml", "--json"]);
    assert_eq!(code, 0);
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    // The demo course says four stitches; the default would be five at this gauge.
    assert_eq!(value["charts"][0]["floats"]["limit"], 4);
    let (_, out, _) = here(&[
        "measure",
        "lessons/charts/pebble.yaml",
        "--json",
        "--limit-stitches",
        "7",
    ]);
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(value["charts"][0]["floats"]["limit"], 5);
}

#[test]
fn a_bad_file_is_reported_and_the_rest_measured() {
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(yokeward(folder.path(), &["begin", "mine"]).0, 0);
    let chart = folder.path().join("mine/charts/torn.yaml");
    std::fs::write(
        chart,
        "title: Torn\ncolours: { \".\": a }\nrights: own\nrows: |\n  ..x.\n",
    )
    .unwrap();
    let (code, out, report) = yokeward(folder.path(), &["measure", "mine", "--json"]);
    assert_eq!(code, 1);
    assert!(report.contains("mine/charts/torn.yaml:5:5"), "{report}");
    let value: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(value["lessons"].as_array().unwrap().len(), 2);
    assert_eq!(value["charts"].as_array().unwrap().len(), 1);
}

#[test]
fn a_size_that_no_lesson_has_is_named_and_so_are_those_there_are() {
    let (code, out, err) = here(&["pack", "lessons", "--size", "giant", "--to", "out"]);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("no lesson has the size `giant`"), "{err}");
    assert!(err.contains("adult-medium"), "{err}");
    let (code, _, err) = here(&["pack", "lessons", "--alone"]);
    assert_eq!(code, 2);
    assert!(err.contains("--size"), "{err}");
}
