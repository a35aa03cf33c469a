//! House rules, checked: size of files, module docs, layer order, disk access, names of crates, built-in cards.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::harness::root;

fn rust_files(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            rust_files(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
}

/// Relative path and text of every source file.
pub(crate) fn sources(folder: &str) -> Vec<(String, String)> {
    let mut files = Vec::new();
    rust_files(&root().join(folder), &mut files);
    let name = |path: &Path| path.strip_prefix(root()).unwrap().display().to_string();
    files
        .iter()
        .map(|path| (name(path), std::fs::read_to_string(path).unwrap()))
        .collect()
}

/// Modules in the order that lib.rs lists them.
fn layers() -> Vec<String> {
    let lib = std::fs::read_to_string(root().join("src/lib.rs")).unwrap();
    lib.lines()
        .filter_map(|line| {
            Some(
                line.strip_prefix("pub mod ")?
                    .trim_end_matches(';')
                    .to_owned(),
            )
        })
        .collect()
}

/// Top-level modules that a file names, grouped imports included.
fn named_modules(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices("crate::") {
        let rest = &text[at + 7..];
        if let Some(group) = rest.strip_prefix('{') {
            let inside = group.split('}').next().unwrap_or("");
            found.extend(
                inside
                    .split(',')
                    .map(|part| part.trim().split("::").next().unwrap_or("").to_owned()),
            );
        } else {
            found.push(
                rest.chars()
                    .take_while(|c| c.is_alphanumeric() || *c == '_')
                    .collect(),
            );
        }
    }
    found
}

/// Whether a line of code holds a literal of two words or more that somebody may read.
fn says_something(line: &str) -> bool {
    let line = line.trim_start();
    if line.starts_with("//")
        || line.starts_with("reason = ")
        || line.contains(".expect(")
        || line.contains("Atkinson")
    {
        return false;
    }
    let word = |word: &str| word.len() > 1 && word.chars().all(char::is_alphabetic);
    let literals = line.split('"').skip(1).step_by(2);
    literals
        .filter(|text| !text.contains(['<', '>']))
        .any(|text| {
            let words: Vec<&str> = text.split_whitespace().collect();
            words.windows(2).any(|pair| pair.iter().all(|w| word(w)))
        })
}

/// Which craft it is, is asked where its facts and its words are, and where a lesson is read.
fn asks_the_craft(path: &str, text: &str) -> bool {
    let crafts = [
        "Craft::Knit",
        "Craft::Crochet",
        "Craft::Tunisian",
        "Craft::CountedThread",
    ];
    let own = [
        "src/course/craft.rs",
        "src/read/craft.rs",
        "src/words/craft/",
    ];
    crafts.iter().any(|craft| text.contains(craft)) && !own.iter().any(|own| path.starts_with(own))
}

/// Everything wrong with these files.
fn faults(files: &[(String, String)], layers: &[String]) -> Vec<String> {
    let place: BTreeMap<&str, usize> = layers
        .iter()
        .enumerate()
        .map(|(i, l)| (l.as_str(), i))
        .collect();
    let mut faults = Vec::new();
    for (path, text) in files {
        if text.lines().count() > 400 {
            faults.push(format!("{path}: {} lines", text.lines().count()));
        }
        if !text.starts_with("//!") {
            faults.push(format!("{path}: no module doc"));
        }
        if text.contains("super::super") {
            faults.push(format!("{path}: super::super"));
        }
        if let Some(line) = text.lines().find(|line| line.ends_with(' ')) {
            faults.push(format!("{path}: blanks at the end of `{line}`"));
        }
        let module = path
            .strip_prefix("src/")
            .unwrap_or(path)
            .split(['/', '.'])
            .next()
            .unwrap_or("");
        let Some(own) = place.get(module) else {
            continue;
        };
        for named in named_modules(text) {
            match place.get(named.as_str()) {
                Some(other) if other > own => {
                    faults.push(format!("{path}: names {named}, which comes later"))
                }
                _ => {}
            }
        }
        if text.contains("crate::read") && !["read", "app", "desk", "cli"].contains(&module) {
            faults.push(format!("{path}: names read"));
        }
        let disk = [
            "fs::read",
            "fs::write",
            "File::create",
            "File::open",
            "fs::rename",
            "fs::remove",
        ];
        if disk.iter().any(|d| text.contains(d))
            && path != "src/read/files.rs"
            && !path.starts_with("src/app/store/")
        {
            faults.push(format!("{path}: touches the disk"));
        }
        for (name, home) in [
            ("granit_parser", "src/read/yaml.rs"),
            ("tera::", "src/page/template/"),
            ("pulldown_cmark", "src/page/blocks/parse.rs"),
            ("printpdf::", "src/page/pdf/write/"),
            ("rustybuzz", "src/page/pdf/face.rs"),
            ("unicode_linebreak", "src/page/pdf/text.rs"),
            ("annotate_snippets", "src/ground/fault/emit.rs"),
            ("rayon::", "src/app/ src/page/pack/ src/trace/grid.rs"),
            ("image::", "src/trace/"),
            ("flate2::", "src/page/pdf/deflate.rs"),
            ("clap::", "src/cli/"),
            ("axum::", "src/desk/http/"),
            ("tokio::", "src/desk/"),
            ("hyper", "src/desk/http/serve.rs"),
            ("getrandom::", "src/desk/http/serve.rs"),
            ("notify::", "src/desk/watch.rs"),
        ] {
            let allowed = home.split(' ').any(|home| path.starts_with(home));
            if text
                .lines()
                .any(|l| l.contains(name) && !l.trim_start().starts_with("//"))
                && !allowed
            {
                faults.push(format!("{path}: names {name}"));
            }
        }
        if asks_the_craft(path, text) {
            faults.push(format!("{path}: asks which craft it is"));
        }
        // Sentences stand in one room; reasons of lints and the parts of a file's own language are none.
        let silent =
            ["picture", "handout", "page"].contains(&module) && path != "src/page/pdf/promises.rs";
        let code = text.split("#[cfg(test)]").next().unwrap_or("");
        for line in code.lines().filter(|_| silent) {
            if says_something(line) {
                faults.push(format!("{path}: a sentence: {}", line.trim()));
            }
        }
        let prints = ["println!", "eprintln!", "print!("]
            .iter()
            .any(|p| text.contains(p));
        if prints && module != "cli" {
            faults.push(format!("{path}: prints"));
        }
    }
    faults
}

#[test]
fn the_house_is_tidy() {
    let layers = layers();
    assert!((12..=16).contains(&layers.len()));
    let found = faults(&sources("src"), &layers);
    assert!(found.is_empty(), "{found:#?}");
    let tests: Vec<String> = sources("tests")
        .iter()
        // What a fuzzer built is nobody's.
        .filter(|(p, _)| !p.starts_with("tests/fuzz/target/"))
        .filter(|(_, t)| t.lines().count() > 400 || !t.starts_with("//!"))
        .map(|(p, _)| p.clone())
        .collect();
    assert!(tests.is_empty(), "{tests:?}");
}

/// A check that cannot fail is none.
#[test]
fn planted_faults_are_found() {
    let layers: Vec<String> = ["ground", "read", "rows", "page", "app", "cli"]
        .map(str::to_owned)
        .to_vec();
    let file = |path: &str, text: &str| (path.to_owned(), text.to_owned());
    let long = "//! x\n".to_owned() + &"a\n".repeat(400);
    for (planted, word) in [
        (file("src/ground/units.rs", "no doc\n"), "module doc"),
        (
            file(
                "src/ground/units.rs",
                "//! x\nuse crate::rows::measure::A;\n",
            ),
            "comes later",
        ),
        (
            file("src/ground/units.rs", "//! x\nuse crate::{ground, app};\n"),
            "comes later",
        ),
        (
            file("src/rows/walk.rs", "//! x\nuse crate::read::A;\n"),
            "names read",
        ),
        (
            file(
                "src/rows/walk.rs",
                "//! x\nfn f() { std::fs::write(1, 2) }\n",
            ),
            "disk",
        ),
        (
            file("src/rows/walk.rs", "//! x\nuse super::super::A;\n"),
            "super::super",
        ),
        (
            file("src/rows/walk.rs", "//! x\nfn f() { println!() }\n"),
            "prints",
        ),
        (file("src/rows/walk.rs", "//! x\nuse tera::Tera;\n"), "tera"),
        (
            file(
                "src/rows/x.rs",
                "//! x\nfn f() -> bool { craft == Craft::Crochet }\n",
            ),
            "which craft",
        ),
        (file("src/rows/walk.rs", &long), "lines"),
        (
            file(
                "src/page/svg.rs",
                "//! x\nfn f() -> &'static str {\n\"Round by round\"\n}\n",
            ),
            "a sentence",
        ),
    ] {
        let found = faults(&[planted], &layers);
        assert!(found.iter().any(|f| f.contains(word)), "{word}: {found:?}");
    }
}

#[test]
fn every_built_in_card_is_listed_and_keeps_its_form() {
    let mut on_disk: Vec<String> = std::fs::read_dir(root().join("templates/techniques"))
        .unwrap()
        .map(|e| {
            e.unwrap()
                .file_name()
                .into_string()
                .unwrap()
                .replace(".md", "")
                .replace("--", "/")
        })
        .collect();
    on_disk.sort();
    let listed: Vec<&str> = yokeward::handout::BUILT_IN_CARDS
        .iter()
        .map(|(id, _)| *id)
        .collect();
    assert_eq!(on_disk, listed);
    for (id, text) in yokeward::handout::BUILT_IN_CARDS {
        assert!(text.starts_with("# "), "{id}");
        let steps = text
            .lines()
            .filter(|l| l.starts_with(|c: char| c.is_ascii_digit()))
            .count();
        assert!((1..=3).contains(&steps), "{id}: {steps} steps");
        assert!(
            text.contains("**Tip:**") && text.contains("**Goes wrong when**"),
            "{id}"
        );
    }
}
