//! Pages as speech: what a reader hears of a PDF has its blanks, one heading of the first level a lesson, and no heading twice.

use std::collections::BTreeMap;

use yokeward::app::{PackOptions, pages};
use yokeward::handout::Print;
use yokeward::page::pdf::{Document, PageMark, Role};

use crate::demo_course::demo;
use yokeward::course::TypeSize;

/// The words of each node in the order in which they are painted, with the places where a new line begins.
fn words(document: &Document) -> BTreeMap<usize, Vec<(f64, String)>> {
    let mut all: BTreeMap<usize, Vec<(f64, String)>> = BTreeMap::new();
    for (page, frame) in document.pages.iter().enumerate() {
        for item in &frame.items {
            let (Some(node), PageMark::Run(run)) = (item.node, &item.mark) else {
                continue;
            };
            let line = page as f64 * 1000.0 + if run.turned { run.x } else { run.y };
            all.entry(node).or_default().push((line, run.text()));
        }
    }
    all
}

fn variants() -> [PackOptions; 2] {
    let large = Print {
        type_size: TypeSize::Large,
        ..Print::default()
    };
    [
        PackOptions::default(),
        PackOptions {
            print: large,
            ..PackOptions::default()
        },
    ]
}

#[test]
fn words_do_not_run_together_at_the_end_of_a_line() {
    let mut seen = 0;
    for options in variants() {
        for (path, document) in pages(&demo(), &[], options).unwrap() {
            for runs in words(&document).values() {
                for pair in runs.windows(2) {
                    let ((above, before), (below, after)) = (&pair[0], &pair[1]);
                    if (above - below).abs() < 0.5 || before.is_empty() || after.is_empty() {
                        continue;
                    }
                    seen += 1;
                    // A line may end after a hyphen, a dash or a slash without a blank.
                    let parts = before.ends_with([' ', '-', '–', '/']);
                    assert!(parts, "{path}: “{before}” runs into “{after}”");
                }
            }
        }
    }
    assert!(seen > 2000, "{seen}");
}

#[test]
fn a_lesson_has_one_title_and_every_heading_has_words() {
    for options in variants() {
        for (path, document) in pages(&demo(), &[], options).unwrap() {
            let words = words(&document);
            let heading = |role: Role| {
                let nodes = document.tree.nodes.iter().enumerate();
                nodes
                    .filter(move |(at, node)| node.role == role && words.contains_key(at))
                    .count()
            };
            if path.starts_with("lessons/") {
                assert_eq!(heading(Role::H1), 1, "{path}");
            }
        }
    }
}
