//! A course with a cliff: named, explained, and closed by what is offered.

use serde_json::Value;

use crate::harness::{root, yokeward};

const LESSON: &str = "makes: cowl\ngauge: { colourwork: { stitches: 20, rows: 26 }, plain: { stitches: 20, rows: 26 } }\ncolours: { ground: { name: Peat, hex: \"#3b2f2a\" }, motif: { name: Fleece, hex: \"#f2ead8\" } }\nsizes: [adult-medium]\n";

/// Stripes, dots, then a wall of long floats that wants the dots first.
fn cliff(folder: &std::path::Path) {
    let write = |name: &str, text: String| {
        let path = folder.join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    };
    let chart = |title: &str, rows: &[&str]| {
        format!(
            "title: {title}\ncolours: {{ \".\": ground, \"x\": motif }}\nrights: own\nrows: |\n  {}\n",
            rows.join("\n  ")
        )
    };
    write("course.yaml", "title: Cliff\nid: cliff\n".to_owned());
    let bands = |chart: &str| {
        format!(
            "bands: [ plain: {{ rows: 4, colour: ground }}, chart: {chart}, plain: {{ rows: 4 , colour: ground }} ]\n"
        )
    };
    write(
        "stripes.yaml",
        format!(
            "title: Stripes\n{LESSON}bands: [ plain: {{ rows: 4, colour: ground }}, plain: {{ rows: 4, colour: motif }} ]\n"
        ),
    );
    write(
        "dotted.yaml",
        format!("title: Dotted\n{LESSON}{}", bands("dots")),
    );
    write(
        "wall-cowl.yaml",
        format!("title: Wall\n{LESSON}{}needs: [dotted]\n", bands("wall")),
    );
    write(
        "waves-cowl.yaml",
        format!(
            "title: Waves\n{LESSON}{}needs: [wall-cowl]\n",
            bands("waves")
        ),
    );
    write(
        "charts/dots.yaml",
        chart("Dots", &["....", ".x.x", "....", "x.x."]),
    );
    write(
        "charts/wall.yaml",
        chart(
            "Wall",
            &[
                "........", "x......x", "xx....xx", "........", ".xx..xx.", "..xxxx..", "...xx...",
            ],
        ),
    );
    write(
        "charts/waves.yaml",
        chart(
            "Waves",
            &["......", "..xx..", ".xxxx.", "......", "x....x", "xx..xx"],
        ),
    );
}

fn order(folder: &std::path::Path, more: &[&str]) -> Value {
    let mut arguments = vec!["order", ".", "--json"];
    arguments.extend(more);
    let (code, out, err) = yokeward(folder, &arguments);
    assert_eq!(code, 0, "{err}");
    serde_json::from_str(&out).unwrap()
}

fn gap_before(order: &Value, id: &str) -> Option<Value> {
    let gaps = order["gaps"].as_array().unwrap();
    gaps.iter().find(|gap| gap["id"] == id).cloned()
}

#[test]
fn what_is_offered_removes_the_cliff() {
    let folder = tempfile::tempdir().unwrap();
    cliff(folder.path());
    let library = root().join("lessons").display().to_string();
    let before = order(folder.path(), &["--library", &library]);
    let gap = gap_before(&before, "wall-cowl").unwrap();
    assert!(gap["cause"].as_str().unwrap().contains("floats"), "{gap}");
    let remedies = gap["remedies"].as_array().unwrap();
    let closing: Vec<&Value> = remedies.iter().filter(|r| r["closes"] == true).collect();
    assert!(closing.len() >= 2, "{gap:#}");
    let kinds: Vec<&str> = closing
        .iter()
        .map(|r| r["kind"].as_str().unwrap())
        .collect();
    for kind in ["needs", "tame"] {
        assert!(kinds.contains(&kind), "{kinds:?}");
    }
    for remedy in closing {
        let folder = tempfile::tempdir().unwrap();
        cliff(folder.path());
        match remedy["kind"].as_str().unwrap() {
            "tame" => {
                for chart in remedy["charts"].as_array().unwrap() {
                    let path = format!("charts/{}.yaml", chart.as_str().unwrap());
                    let longest = remedy["longest"].as_u64().map(|n| n.to_string());
                    let rest = remedy["rest_after"].as_u64().map(|n| n.to_string());
                    let mut arguments = vec!["tame", path.as_str(), "--to", "new.yaml"];
                    if let Some(longest) = &longest {
                        arguments.extend(["--longest", longest]);
                    }
                    if let Some(rest) = &rest {
                        arguments.extend(["--relief", rest]);
                    }
                    let (code, _, err) = yokeward(folder.path(), &arguments);
                    assert_eq!(code, 0, "{err}");
                    let new = folder.path().join("new.yaml");
                    std::fs::rename(new, folder.path().join(&path)).unwrap();
                }
            }
            "needs" => {
                let path = folder
                    .path()
                    .join(format!("{}.yaml", remedy["lesson"].as_str().unwrap()));
                let text = std::fs::read_to_string(&path).unwrap();
                let need = format!("needs: [{}]\n", remedy["need"].as_str().unwrap());
                assert!(text.contains(&need));
                std::fs::write(&path, text.replace(&need, "")).unwrap();
            }
            "between" => continue,
            other => panic!("{other}"),
        }
        let after = order(folder.path(), &[]);
        assert_eq!(
            gap_before(&after, "wall-cowl"),
            None,
            "{remedy:#}\n{after:#}"
        );
        let lessons = after["lessons"].as_array().unwrap();
        let step = &lessons.iter().find(|l| l["id"] == "wall-cowl").unwrap()["step"];
        assert_eq!(remedy["steps"][0], *step, "{remedy:#}");
        // The course as a whole is no worse for it.
        let largest = |order: &Value| order["largest_step"].as_f64().unwrap();
        let gaps = |order: &Value| order["gaps"].as_array().unwrap().len();
        assert!(largest(&after) <= largest(&before), "{remedy:#}");
        assert!(gaps(&after) <= gaps(&before), "{remedy:#}");
    }
}

#[test]
fn judgements_move_the_weights_only_when_asked() {
    let folder = tempfile::tempdir().unwrap();
    cliff(folder.path());
    let path = folder.path().join("course.yaml");
    let course = "title: Cliff   # mine\nid: cliff\nweights:   # as told\n  floats: 40   # long ones\n  colours: 15\n  reading: 15\n  relief: 15\n  handling: 15\n";
    std::fs::write(&path, course).unwrap();
    let pairs = "pairs:\n  - { harder: dotted, easier: wall-cowl, times: 20 }\n  - { harder: dots, easier: wall }\n";
    std::fs::write(folder.path().join("pairs.txt"), pairs).unwrap();
    let arguments = ["judge", "--pairs", "pairs.txt", ".", "--json"];
    let (code, out, err) = yokeward(folder.path(), &arguments);
    assert_eq!(code, 0, "{err}");
    let report: Value = serde_json::from_str(&out).unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), course);
    let after = report["after"].as_object().unwrap();
    let sum: f64 = after.values().map(|v| v.as_f64().unwrap()).sum();
    assert!((sum - 100.0).abs() < 1e-9);
    assert!(after["floats"].as_f64() < report["before"]["floats"].as_f64());
    let (code, _, err) = yokeward(
        folder.path(),
        &["judge", "--pairs", "pairs.txt", ".", "--write"],
    );
    assert_eq!(code, 0, "{err}");
    let written = std::fs::read_to_string(&path).unwrap();
    for kept in ["# mine", "# as told", "# long ones"] {
        assert!(written.contains(kept), "{written}");
    }
    assert!(
        written.contains(&format!("floats: {}", after["floats"])),
        "{written}"
    );
}

#[test]
fn the_command_that_is_offered_works_where_it_is_offered() {
    let above = tempfile::tempdir().unwrap();
    cliff(&above.path().join("shelf"));
    for (course, charts) in [
        ("shelf/", "shelf/charts"),
        ("shelf/wall-cowl.yaml", "shelf/charts"),
    ] {
        let (_, out, err) = yokeward(above.path(), &["order", course]);
        let line = out.lines().find(|line| line.contains("yokeward tame"));
        let command: Vec<&str> = line.expect(&err).split_whitespace().skip(1).collect();
        let to = command.iter().position(|word| *word == "--to").unwrap() + 1;
        assert!(
            command[to].starts_with(&format!("{charts}/wall-")),
            "{command:?}"
        );
        let (code, _, err) = yokeward(above.path(), &command);
        assert_eq!(code, 0, "{command:?}\n{err}");
        let new = above.path().join(command[to]);
        assert!(new.is_file(), "{command:?}");
        std::fs::remove_file(new).unwrap();
    }
}
