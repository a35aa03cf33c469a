//! Edits of one value in a file's text: an outside reader finds that value changed and nothing else; every remark and every
//! other line stays as it is.

use std::path::PathBuf;

use proptest::prelude::*;
use serde_json::json;
use serde_yaml::Value;
use yokeward::read::{At, Change, EditError, edited};

use crate::harness::root;

fn key(key: &str) -> At {
    At::Key(key.to_owned())
}

fn yaml(text: &str) -> Value {
    serde_yaml::from_str(text).unwrap_or_else(|e| panic!("{e}:\n{text}"))
}

/// Every course file of the repository.
fn files() -> Vec<(String, String)> {
    let mut found = Vec::new();
    for folder in [
        "lessons",
        "lessons/charts",
        "templates/begin",
        "templates/begin/charts",
    ] {
        let mut paths: Vec<PathBuf> = std::fs::read_dir(root().join(folder))
            .unwrap()
            .map(|e| e.unwrap().path())
            .filter(|path| path.extension().is_some_and(|e| e == "yaml"))
            .collect();
        paths.sort();
        for path in paths {
            let text = std::fs::read_to_string(&path).unwrap();
            found.push((path.display().to_string(), text));
        }
    }
    assert!(found.len() > 30);
    found
}

/// The ways to all single values.
fn leaves(value: &Value, at: &[At], found: &mut Vec<(Vec<At>, bool)>) {
    let with = |step: At| at.iter().cloned().chain([step]).collect::<Vec<At>>();
    match value {
        Value::Mapping(entries) => entries.iter().for_each(|(name, value)| {
            let name = match name {
                Value::String(name) => name.clone(),
                other => serde_yaml::to_string(other).unwrap().trim().to_owned(),
            };
            leaves(value, &with(At::Key(name)), found);
        }),
        Value::Sequence(items) => items
            .iter()
            .enumerate()
            .for_each(|(i, item)| leaves(item, &with(At::Item(i)), found)),
        Value::String(text) => found.push((at.to_vec(), text.contains('\n'))),
        _ => found.push((at.to_vec(), false)),
    }
}

/// Puts a value where a way leads.
fn set(value: &mut Value, at: &[At], new: Value) {
    let Some((step, rest)) = at.split_first() else {
        *value = new;
        return;
    };
    let next = match step {
        At::Key(name) => value.get_mut(name.as_str()).unwrap(),
        At::Item(i) => value.get_mut(*i).unwrap(),
    };
    set(next, rest, new);
}

fn remarks(text: &str) -> Vec<&str> {
    text.lines()
        .filter(|line| line.trim_start().starts_with("# "))
        .collect()
}

#[test]
fn every_value_of_every_file_can_be_changed_by_itself() {
    let mut changed = 0;
    for (path, text) in files() {
        let mut all = Vec::new();
        leaves(&yaml(&text), &[], &mut all);
        for (at, is_block) in all {
            let new = if is_block {
                "one line\n\n  another: # no remark\n"
            } else {
                "a: \"new\" #1"
            };
            let change = if is_block {
                Change::Block(new.to_owned())
            } else {
                Change::Text(new.to_owned())
            };
            let after =
                edited(&text, &at, &change).unwrap_or_else(|e| panic!("{path} {at:?}: {e}"));
            let mut wanted = yaml(&text);
            set(&mut wanted, &at, Value::String(new.to_owned()));
            assert_eq!(yaml(&after), wanted, "{path} {at:?}\n{after}");
            assert_eq!(remarks(&after), remarks(&text), "{path} {at:?}");
            if !is_block {
                let same = |a: &mut dyn Iterator<Item = (&str, &str)>| {
                    a.take_while(|(a, b)| a == b).count()
                };
                let above = same(&mut text.lines().zip(after.lines()));
                let below = same(&mut text.lines().rev().zip(after.lines().rev()));
                assert_eq!(
                    above + below + 1,
                    after.lines().count(),
                    "{path} {at:?}\n{after}"
                );
            }
            changed += 1;
        }
    }
    assert!(changed > 500, "{changed}");
}

const SMALL: &str = "\
# Above.
title: Dune # behind
colours: { \".\": ground, x: motif } # yarns
rows: | # top row last
  ..x.
  .xxx

# Between.
repeat: { stitches: 1-4 }
list:
  - one: 1
    two: 2 # two
  - three
rights: own
";

#[test]
fn keys_come_and_go_where_they_belong() {
    let put = edited(
        SMALL,
        &[key("repeat"), key("rows")],
        &Change::Text("1-2".to_owned()),
    )
    .unwrap();
    assert!(
        put.contains("repeat: { stitches: 1-4, rows: 1-2 }\n"),
        "{put}"
    );
    let gone = edited(SMALL, &[key("repeat")], &Change::Remove).unwrap();
    assert_eq!(gone, SMALL.replace("repeat: { stitches: 1-4 }\n", ""));
    let one = edited(SMALL, &[key("colours"), key(".")], &Change::Remove).unwrap();
    assert!(one.contains("colours: { x: motif } # yarns\n"), "{one}");
    let last = edited(SMALL, &[key("colours"), key("x")], &Change::Remove).unwrap();
    assert!(
        last.contains("colours: { \".\": ground } # yarns\n"),
        "{last}"
    );
    let with_map = edited(SMALL, &[key("repeat"), key("stitches")], &Change::Remove);
    assert_eq!(with_map.unwrap(), gone, "a map goes with its last key");
    let deep = edited(
        SMALL,
        &[key("yarn"), key("weight")],
        &Change::Value(json!(4)),
    )
    .unwrap();
    assert!(
        deep.ends_with("rights: own\nyarn: { weight: 4 }\n"),
        "{deep}"
    );
    let shaping = edited(
        SMALL,
        &[key("shaping")],
        &Change::Block("....\n./..\n".to_owned()),
    )
    .unwrap();
    assert!(
        shaping.ends_with("shaping: |\n  ....\n  ./..\n"),
        "{shaping}"
    );
    let item = edited(
        SMALL,
        &[key("list"), At::Item(0), key("two")],
        &Change::Value(json!([1, "b c"])),
    )
    .unwrap();
    assert!(item.contains("    two: [1, b c] # two\n"), "{item}");
    let rows = edited(SMALL, &[key("rows")], &Change::Block("xx\n".to_owned())).unwrap();
    assert!(
        rows.contains("rows: | # top row last\n  xx\n\n# Between.\n"),
        "{rows}"
    );
    // What was a block becomes one line, and what was one line a block; the remark stays behind it.
    let line = edited(SMALL, &[key("rows")], &Change::Text("none".to_owned())).unwrap();
    assert!(
        line.contains("rows: none # top row last\n\n# Between.\n"),
        "{line}"
    );
    let text = edited(
        SMALL,
        &[key("title")],
        &Change::Block("  indented\nnot\n".to_owned()),
    )
    .unwrap();
    assert_eq!(yaml(&text)["title"].as_str(), Some("  indented\nnot\n"));
    assert!(text.contains("title: |2 # behind\n"), "{text}");
}

#[test]
fn what_cannot_be_done_is_refused() {
    let text = Change::Text("x".to_owned());
    assert_eq!(
        edited("title: [", &[key("title")], &text),
        Err(EditError::Unreadable)
    );
    assert_eq!(
        edited("a: 1\na: 2\n", &[key("a")], &text),
        Err(EditError::Unreadable)
    );
    assert_eq!(
        edited(SMALL, &[key("title"), key("deeper")], &text),
        Err(EditError::NoSuchPlace)
    );
    assert_eq!(
        edited(SMALL, &[key("list"), At::Item(9)], &text),
        Err(EditError::NoSuchPlace)
    );
    assert_eq!(
        edited("title: a\n", &[key("title")], &Change::Remove),
        Err(EditError::WouldChangeMore)
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Any text, put anywhere, is read back as that text by an outside reader, or refused.
    #[test]
    fn any_text_is_read_back(words in "\\PC{0,24}", block in prop::collection::vec("[ -~äø]{0,12}", 1..5)) {
        for at in [vec![key("title")], vec![key("colours"), key("x")], vec![key("list"), At::Item(0), key("one")], vec![key("new")]] {
            if let Ok(after) = edited(SMALL, &at, &Change::Text(words.clone())) {
                let mut found = &yaml(&after);
                let whole = found.clone();
                for step in &at {
                    found = match step { At::Key(k) => &found[k.as_str()], At::Item(i) => &found[*i] };
                }
                let said = match found {
                    Value::String(said) => said.clone(),
                    Value::Null => String::new(),
                    other => serde_yaml::to_string(other).unwrap().trim().to_owned(),
                };
                prop_assert_eq!(said, words.clone(), "{:?}\n{}", whole, after);
            }
        }
        let lines = block.join("\n");
        if let Ok(after) = edited(SMALL, &[key("rows")], &Change::Block(lines.clone())) {
            let found = yaml(&after);
            let said = found["rows"].as_str().unwrap_or("").trim_end_matches('\n').to_owned();
            prop_assert_eq!(said, lines.trim_end_matches('\n').to_owned(), "{}", after);
            prop_assert_eq!(&found["rights"], &Value::from("own"));
        }
    }
}
