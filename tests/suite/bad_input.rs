//! Every fault has a code, a fixture named by it, and a snapshot of what a person sees.

use std::collections::BTreeSet;

use yokeward::ground::fault::{Code, Form, explanation, render};

use crate::harness::{load, read, root, texts, yokeward_reading};

fn fixtures() -> BTreeSet<String> {
    std::fs::read_dir(root().join("tests/fixtures/bad"))
        .unwrap()
        .map(|entry| {
            entry
                .unwrap()
                .file_name()
                .into_string()
                .unwrap()
                .replace(".txt", "")
        })
        .collect()
}

#[test]
fn every_code_has_a_fixture_and_an_explanation() {
    let codes: BTreeSet<String> = Code::ALL
        .iter()
        .map(|code| code.name().to_owned())
        .collect();
    assert_eq!(codes, fixtures());
    for code in Code::ALL {
        let text = explanation(*code);
        assert!(
            text.contains("Why it matters:") && text.contains("To mend it:"),
            "{}",
            code.name()
        );
        assert_eq!(Code::from_name(code.name()), Some(*code));
    }
}

#[test]
fn every_fixture_reports_its_code_and_reads_as_before() {
    for name in fixtures() {
        let all = read(&format!("tests/fixtures/bad/{name}.txt"));
        if all.starts_with("=== command") {
            insta::assert_snapshot!(format!("bad__{name}"), command_report(&name, &all));
            continue;
        }
        let loaded = load(&read(&format!("tests/fixtures/bad/{name}.txt")));
        let found: Vec<&str> = loaded
            .faults
            .iter()
            .map(|fault| fault.code.name())
            .collect();
        assert!(found.contains(&name.as_str()), "{name}: {found:?}");
        let report = render(&loaded.faults, &loaded.sources, Form::Plain);
        let concise = render(&loaded.faults, &loaded.sources, Form::Concise);
        // A line of a thousand cells belongs into no snapshot.
        let report: String = report
            .lines()
            .map(|l| {
                l.chars()
                    .take(160)
                    .collect::<String>()
                    .trim_end()
                    .to_owned()
                    + "\n"
            })
            .collect();
        insta::assert_snapshot!(format!("bad__{name}"), format!("{concise}\n{report}"));
    }
}

/// The report of a command that a fixture names: faults that show only when something is asked of a course.
fn command_report(name: &str, all: &str) -> String {
    let folder = tempfile::tempdir().unwrap();
    let (mut command, mut stdin) = (String::new(), String::new());
    for text in texts(all) {
        let content = text.text.unwrap();
        if text.inside == "command" {
            command = content;
        } else if text.inside == "stdin" {
            stdin = content;
        } else {
            let path = folder.path().join(&text.inside);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, content).unwrap();
        }
    }
    let arguments: Vec<&str> = command.split_whitespace().collect();
    let (_, answer, report) = yokeward_reading(folder.path(), &arguments, stdin);
    if arguments.contains(&"-") {
        assert!(answer.contains(&format!("\"{name}\"")), "{answer}");
        return answer + &report;
    }
    assert!(report.contains(&format!("[{name}]")), "{report}");
    report
}

#[test]
fn carets_stand_under_the_very_stitch() {
    let loaded = load(&read("tests/fixtures/bad/unknown-letter.txt"));
    let fault = loaded
        .faults
        .iter()
        .find(|f| f.code == Code::UnknownLetter)
        .unwrap();
    let span = fault.labels[0].span;
    assert_eq!(loaded.sources.slice(span), "q");
    assert_eq!(loaded.sources.line_column(span), (5, 5));
    assert_eq!(fault.labels[0].text, "stitch 2");
}

#[test]
fn all_faults_of_a_run_are_reported_and_the_rest_is_still_read() {
    let text = "=== course.yaml\ntitle: T\n\
        === 01-good.yaml\ntitle: Good\nmakes: scarf\ngauge: { colourwork: { stitches: 20, rows: 26 } }\n\
        colours: { a: { name: A, hex: \"#000000\" } }\nbands: [ { plain: { rows: 2 } } ]\n\
        === 02-bad.yaml\ntitle: Bad\nmakes: sock\ngaueg: 3\ncolours: { a: { name: A, hex: black } }\nbands: [ { plian: { rows: 0 } } ]\n\
        === 03-bare.yaml\ntitle: Bare\nbands: []\n";
    let loaded = load(text);
    let codes: Vec<&str> = loaded.faults.iter().map(|f| f.code.name()).collect();
    for wanted in ["wrong-value", "unknown-key", "missing-key"] {
        assert!(codes.contains(&wanted), "{wanted} not in {codes:?}");
    }
    assert!(codes.len() >= 5, "{codes:?}");
    let ids: Vec<&str> = loaded
        .course
        .lessons
        .iter()
        .map(|l| l.id.as_str())
        .collect();
    assert_eq!(ids, ["good"]);
}

#[test]
fn nothing_makes_the_reader_panic() {
    let mut random = crate::harness::Random::new(7);
    let seed = read("lessons/06-pebble-hat.yaml") + &read("lessons/charts/samphire.yaml");
    let pieces: Vec<char> = seed.chars().collect();
    for _ in 0..300 {
        let mut text = pieces.clone();
        for _ in 0..=random.below(12) {
            let at = random.below(text.len());
            match random.below(4) {
                0 if text.len() > 1 => drop(text.remove(at)),
                1 => text.insert(
                    at,
                    ['[', '{', '"', '\t', '|', '#', 'é', '\u{0}', '&', ':'][random.below(10)],
                ),
                2 => text.truncate(at.max(1)),
                _ => text[at] = pieces[random.below(pieces.len())],
            }
        }
        let text: String = text.into_iter().collect();
        let loaded = load(&format!(
            "=== course.yaml\ntitle: T\n=== charts/a.yaml\n{text}\n=== 01-b.yaml\n{text}\n"
        ));
        let _ = render(&loaded.faults, &loaded.sources, Form::Plain);
    }
    let brackets = "[".repeat(200_000);
    assert!(load(&format!("=== course.yaml\ntitle: {brackets}\n")).has_errors());
}
