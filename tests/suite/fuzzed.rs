//! The fuzzer's entry points for a short while: seeds from the demo course and the bad fixtures, changed at random, always in
//! the same way.

#[path = "../fuzz/entries.rs"]
pub(crate) mod entries;

use crate::harness::{Random, read, root};

/// Changes of each seed.
const ROUNDS: usize = 12;

/// Texts to begin from.
fn seeds() -> Vec<Vec<u8>> {
    let mut seeds: Vec<Vec<u8>> = Vec::new();
    for folder in [
        "lessons",
        "lessons/charts",
        "tests/fixtures/bad",
        "templates",
    ] {
        let mut paths: Vec<_> = std::fs::read_dir(root().join(folder))
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .filter(|path| {
                path.extension()
                    .is_some_and(|end| end == "yaml" || end == "txt" || end == "md")
            })
            .collect();
        paths.sort();
        let small = |path: &std::path::PathBuf| {
            std::fs::metadata(path).is_ok_and(|known| known.len() < 6000)
        };
        seeds.extend(
            paths
                .iter()
                .filter(|path| small(path))
                .map(|path| std::fs::read(path).unwrap()),
        );
    }
    seeds
}

/// A seed with bytes lost, doubled, swapped or from another seed.
fn changed(seed: &[u8], seeds: &[Vec<u8>], random: &mut Random) -> Vec<u8> {
    let mut bytes = seed.to_vec();
    for _ in 0..=random.below(6) {
        let at = random.below(bytes.len().max(1));
        let to = (at + random.below(40)).min(bytes.len());
        match random.below(6) {
            0 => drop(bytes.drain(at..to)),
            1 => {
                let again = bytes[at..to].to_vec();
                bytes.splice(at..at, again);
            }
            2 => bytes.insert(at, u8::try_from(random.below(256)).unwrap()),
            3 => bytes
                .splice(at..at, "\u{202e}é\u{0}".bytes())
                .for_each(drop),
            4 => {
                let other = &seeds[random.below(seeds.len())];
                let from = random.below(other.len());
                let end = (from + 60).min(other.len());
                bytes.splice(at..to, other[from..end].iter().copied());
            }
            _ => bytes.truncate(at.max(1)),
        }
        if bytes.is_empty() {
            bytes.push(b'x');
        }
    }
    bytes
}

fn run(entry: fn(&[u8]), each: usize) {
    let seeds = seeds();
    assert!(seeds.len() > 60);
    let mut random = Random::new(5);
    for seed in seeds.iter().step_by(each) {
        entry(seed);
        for _ in 0..ROUNDS {
            entry(&changed(seed, &seeds, &mut random));
        }
    }
}

#[test]
fn any_chart_is_read_or_told_of() {
    run(entries::chart_text, 1);
    run(entries::chart_yaml, 1);
}

#[test]
fn any_lesson_is_worked_out_or_told_of() {
    run(entries::lesson_yaml, 1);
}

#[test]
fn any_folder_is_read_or_told_of() {
    run(entries::course_folder, 1);
}

#[test]
fn any_template_makes_pages_or_is_told_of() {
    run(entries::template, 6);
}

#[test]
fn any_text_of_a_lesson_comes_out_whole() {
    run(entries::markdown, 8);
    let hostile = read("tests/fixtures/hostile.md");
    entries::markdown(hostile.as_bytes());
}

#[test]
fn any_line_is_answered_by_one_line() {
    run(entries::stream_line, 1);
    let line = br#"{"id":"dot","rows":".x\nx.","colours":{".":"ground","x":"motif"}}"#;
    let mut random = Random::new(6);
    for _ in 0..400 {
        entries::stream_line(&changed(line, &[line.to_vec()], &mut random));
    }
}

#[test]
fn any_file_is_edited_right_or_not_at_all() {
    run(entries::log_edit, 1);
    run(entries::file_edit, 1);
}

#[test]
fn any_picture_is_read_or_refused() {
    let seeds: Vec<Vec<u8>> = [[4_u8, 4], [9, 7]]
        .iter()
        .map(|[wide, high]| {
            let cells: String = (0..*high)
                .map(|row| {
                    (0..*wide)
                        .map(|c| if (c + row) % 3 == 0 { 'x' } else { '.' })
                        .collect::<String>()
                        + "\n"
                })
                .collect();
            let lines: Vec<&str> = cells.lines().collect();
            yokeward::app::chart_picture(&crate::harness::chart(&lines, "")).unwrap()
        })
        .collect();
    let mut random = Random::new(7);
    for seed in &seeds {
        entries::picture(seed);
        for _ in 0..60 {
            entries::picture(&changed(seed, &seeds, &mut random));
        }
    }
}
