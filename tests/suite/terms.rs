//! Trade words: a course in US terms holds no word of the UK, and the other way round, in all that is made for it.

use std::collections::BTreeMap;

use serde_json::Value;
use yokeward::app::{PackOptions, pack, pages};

use crate::goldens::page_text;
use crate::harness::{load, read, texts, yokeward};

/// Words of one side only: spelling by the usual dictionaries, trade words as in the Craft Yarn Council's and the British
/// hand-knitting trade's lists of terms (from memory). A hat is `cast off` in Bristol and `bound off` in Boston.
const UK: [&str; 13] = [
    "colour",
    "grey",
    "centre",
    "metre",
    "practise",
    "neighbour",
    "favour",
    "cast off",
    "casting off",
    "tension",
    "double crochet",
    "health visitor",
    "pompon",
];
const US: [&str; 10] = [
    "color",
    "gray",
    "center",
    "practiced",
    "neighbor",
    "favor",
    "bind off",
    "binding off",
    "single crochet",
    "pediatrician",
];

const COURSES: [&str; 6] = ["us", "young", "flat", "crochet", "tunisian", "thread"];

/// A small course in these terms, with nothing in it that its author wrote in others.
fn course(name: &str, terms: &str) -> String {
    let text = read(&format!("tests/fixtures/courses/{name}.txt"));
    let other = if terms == "us" { "uk" } else { "us" };
    let text = text.replace(&format!("terms: {other}\n"), &format!("terms: {terms}\n"));
    assert!(text.contains(&format!("terms: {terms}\n")));
    text
}

/// The words among these that stand in a text, with what stands around them.
fn strangers(text: &str, words: &[&str]) -> Vec<String> {
    let text = text.to_lowercase();
    let mut found = Vec::new();
    for word in words {
        for (at, _) in text.match_indices(word) {
            let before = text[..at].chars().next_back();
            if before.is_some_and(char::is_alphanumeric) {
                continue;
            }
            if *word == "double crochet" && text[..at].ends_with("half ") {
                continue;
            }
            // Stitches round the post, and the round that they need, have this name in the United States.
            let rib = text[..at].ends_with("post ")
                || text[at + word.len()..].starts_with(", the others round the posts");
            if *word == "double crochet" && rib {
                continue;
            }
            let from = text[..at]
                .char_indices()
                .rev()
                .nth(30)
                .map_or(0, |(i, _)| i);
            let near: String = text[from..].chars().take(70).collect();
            found.push(format!("{word}: {}", near.replace('\n', " ")));
        }
    }
    found
}

/// All sentences of an answer: its strings that hold a blank.
fn sentences(value: &Value, found: &mut String) {
    match value {
        Value::String(text) if text.contains(' ') => {
            found.push_str(text);
            found.push('\n');
        }
        Value::Array(items) => items.iter().for_each(|item| sentences(item, found)),
        Value::Object(fields) => fields.values().for_each(|field| sentences(field, found)),
        _ => {}
    }
}

/// Everything that a pack and the answers about a course say, by where it stands.
pub(crate) fn all_said(text: &str) -> BTreeMap<String, String> {
    let loaded = load(text);
    assert!(!loaded.has_errors(), "{:?}", loaded.faults);
    let mut said = BTreeMap::new();
    for (path, bytes) in pack(&loaded, &[], PackOptions::default(), &|_| {}).unwrap() {
        // The list for the shop and the answers have keys, which are a format and the same everywhere.
        if [".md", ".svg"].iter().any(|end| path.ends_with(end)) {
            said.insert(path, String::from_utf8(bytes).unwrap());
        } else if path.ends_with(".html") {
            // Style and script are no words; between tags and in their attributes there are some.
            let page = String::from_utf8(bytes).unwrap();
            let body = page
                .split("<main>")
                .nth(1)
                .unwrap()
                .split("<script>")
                .next()
                .unwrap();
            said.insert(path, body.replace("class=\"grey", ""));
        }
    }
    for (path, document) in pages(&loaded, &[], PackOptions::default()).unwrap() {
        said.insert(path, page_text(&document).replace('\n', " "));
    }
    let folder = tempfile::tempdir().unwrap();
    for one in texts(text) {
        let path = folder.path().join(&one.inside);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, one.text.unwrap()).unwrap();
    }
    for command in ["grade", "order", "next", "route", "proof"] {
        let (_, out, _) = yokeward(folder.path(), &[command, ".", "--json"]);
        let mut found = String::new();
        if let Ok(answer) = serde_json::from_str(&out) {
            sentences(&answer, &mut found);
        }
        said.insert(command.to_owned(), found);
    }
    for command in [
        &["order", "."][..],
        &["fit", "."],
        &["fit", ".", "--gauge", "19"],
    ] {
        let (_, out, _) = yokeward(folder.path(), command);
        said.insert(format!("{command:?} in words"), out);
    }
    said
}

#[test]
fn a_course_speaks_one_english() {
    for name in COURSES {
        for (terms, others) in [("us", &UK[..]), ("uk", &US[..])] {
            let said = all_said(&course(name, terms));
            assert!(said.len() > 12, "{name}");
            for (place, text) in said {
                let found = strangers(&text, others);
                assert!(found.is_empty(), "{name} in {terms}, {place}: {found:#?}");
            }
        }
    }
}

/// The words themselves: each side has its own, so that a swap of the two is seen.
#[test]
fn both_sides_have_their_words() {
    let all = |terms: &str| -> String {
        let said = COURSES.map(|name| all_said(&course(name, terms)));
        said.into_iter().flat_map(BTreeMap::into_values).collect()
    };
    let (uk, us) = (
        all("uk"),
        all("us")
            .replace("post double crochet", "")
            .replace("half double crochet", "")
            .replace("Half double crochet", "")
            .replace(
                "the first of double crochet, the others round the posts",
                "",
            ),
    );
    for word in ["colour", "cast off", "health visitor", "double crochet"] {
        assert!(uk.contains(word) && !us.contains(word), "{word}");
    }
    for word in ["color", "bind off", "pediatrician", "single crochet"] {
        assert!(us.contains(word) && !uk.contains(word), "{word}");
    }
}

/// Where inches are asked for, what is told in metres, centimetres or millimetres is told in inches beside it, or has its
/// American name: needles are sold by both. Where they are not, nothing is told in yards or American needles.
#[test]
fn a_course_speaks_in_its_units() {
    for name in COURSES {
        let text = course(name, "us");
        let units = |units: &str| {
            let plain = text
                .replace("units: both\n", "")
                .replace("units: imperial\n", "");
            all_said(&plain.replace("terms: us\n", &format!("terms: us\nunits: {units}\n")))
        };
        for (place, text) in units("imperial") {
            // Between tags there are words; in drawings numbers without any.
            let alone = metric_alone(&text.replace(['<', '>'], " "));
            assert!(alone.is_empty(), "{name}, {place}: {alone:#?}");
        }
        for (place, text) in units("metric") {
            for word in [" yd", "(US ", "to 4 in"] {
                assert!(!text.contains(word), "{name}, {place}: {word}");
            }
        }
    }
}

/// Numbers in millimetres, centimetres or metres that nothing in brackets follows, with what stands around them.
fn metric_alone(text: &str) -> Vec<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut found = Vec::new();
    for (i, pair) in words.windows(2).enumerate() {
        let unit = pair[1].trim_end_matches(|c: char| !c.is_alphanumeric());
        let number = pair[0].trim_start_matches(|c: char| !c.is_alphanumeric());
        let told =
            number.starts_with(|c: char| c.is_ascii_digit()) && ["mm", "cm", "m"].contains(&unit);
        let after = words.get(i + 2).copied().unwrap_or("");
        // Some needles have no American name.
        let needle = i > 0 && words[i - 1] == "try";
        if told && !needle && !after.starts_with('(') {
            found.push(words[i.saturating_sub(5)..(i + 5).min(words.len())].join(" "));
        }
    }
    found
}
