//! Files of the demo course with one character changed, as slips of the finger change them: is what is said about it said
//! where it happened, and first?
//!
//! ```text
//! cargo bench --bench edits -- 20000
//! ```
//!
//! A slip is a character lost, doubled, swapped with its neighbour or struck beside its place. Ends with 1 where fewer
//! than 97 % of the slips that are noticed are told within two lines, or fewer than 90 % are told there first.

#![allow(clippy::print_stdout, reason = "a benchmark prints what it found")]

use std::process::ExitCode;

use rayon::prelude::*;
use yokeward::app::{late_faults, study_course};
use yokeward::ground::fault::Fault;
use yokeward::read::{Loaded, Text, load_texts};

/// How near is near: lines above or below.
const NEAR: usize = 2;

/// A small random source (splitmix64), so that every run slips alike.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, most: usize) -> usize {
        usize::try_from(self.next() % most.max(1) as u64).unwrap_or(0)
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Told {
    Not,
    First,
    Near,
    Elsewhere,
}

fn texts() -> Vec<Text> {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("lessons");
    let mut texts = Vec::new();
    for (folder, below) in [("", ""), ("charts", "charts/")] {
        let mut names: Vec<String> = std::fs::read_dir(root.join(folder))
            .map(|entries| {
                entries
                    .flatten()
                    .filter_map(|e| e.file_name().into_string().ok())
                    .collect()
            })
            .unwrap_or_default();
        names.sort();
        for name in names.into_iter().filter(|name| name.ends_with(".yaml")) {
            let text = std::fs::read_to_string(root.join(folder).join(&name)).ok();
            let inside = format!("{below}{name}");
            texts.push(Text {
                shown: inside.clone(),
                inside,
                text,
            });
        }
    }
    texts
}

fn faults(texts: Vec<Text>) -> (Loaded, Vec<Fault>) {
    let mut loaded = load_texts("lessons", texts, true);
    let late = late_faults(&loaded, &study_course(&loaded.course));
    loaded.faults.extend(late);
    let faults = loaded.faults.clone();
    (loaded, faults)
}

/// The text with one slip, and the line it is in.
fn slip(text: &str, dice: &mut Dice) -> (String, usize) {
    let mut letters: Vec<char> = text.chars().collect();
    let at = dice.below(letters.len());
    let line = letters.iter().take(at).filter(|c| **c == '\n').count() + 1;
    match dice.below(4) {
        0 => drop(letters.remove(at)),
        1 => letters.insert(at, letters[at]),
        2 if at + 1 < letters.len() => letters.swap(at, at + 1),
        _ => {
            let struck: Vec<char> = "abcdefghijklmnopqrstuvwxyz0123456789.,:;-#'\"[]{} x"
                .chars()
                .collect();
            letters[at] = struck[dice.below(struck.len())];
        }
    }
    (letters.into_iter().collect(), line)
}

/// What is known of faults before any slip: their codes and headlines.
type Known = Vec<(String, String)>;

/// One slip in one of the texts: how it was told, and what was seen.
fn slipped(round: u64, texts: &[Text], known: &Known) -> (Told, String) {
    let mut dice = Dice(round);
    let mut texts = texts.to_vec();
    // Each character of the course is as likely as any other.
    let length = |text: &Text| text.text.as_ref().map_or(0, String::len);
    let mut place = dice.below(texts.iter().map(length).sum());
    let index = texts.iter().position(|text| {
        let here = place < length(text);
        place = place.saturating_sub(if here { 0 } else { length(text) });
        here
    });
    let index = index.unwrap_or(0);
    let before = texts[index].text.clone().unwrap_or_default();
    let (after, line) = slip(&before, &mut dice);
    if after == before {
        return (Told::Not, String::new());
    }
    let path = texts[index].inside.clone();
    let was = before.lines().nth(line - 1).unwrap_or("").to_owned();
    let is = after.lines().nth(line - 1).unwrap_or("").to_owned();
    texts[index].text = Some(after);
    let (loaded, faults) = faults(texts);
    let is_new = |f: &&Fault| !known.contains(&(f.code.name().to_owned(), f.title.clone()));
    let new: Vec<&Fault> = faults.iter().filter(is_new).collect();
    let near = |fault: &&Fault| {
        fault.labels.iter().any(|label| {
            let (found, _) = loaded.sources.line_column(label.span);
            loaded.sources.path(label.span.file) == path && found.abs_diff(line) <= NEAR
        })
    };
    let kind = match () {
        () if new.is_empty() => Told::Not,
        () if new.first().is_some_and(near) => Told::First,
        () if new.iter().any(near) => Told::Near,
        () => Told::Elsewhere,
    };
    let first = new.first().map_or("", |fault| fault.title.as_str());
    (kind, format!("{path}:{line}: `{was}` -> `{is}`: {first}"))
}

/// Numbers of the gauges, needles, yarns, limits and hours, each changed by a factor: how many are told of.
fn misjudged(texts: &[Text], known: &Known, factor: f64) -> (usize, usize) {
    let wanted = [
        "stitches:",
        "rows:",
        "needle:",
        "metres_per_100g:",
        "over:",
        "hours:",
    ];
    let mut changes: Vec<(usize, String)> = Vec::new();
    for (index, text) in texts.iter().enumerate() {
        let text = text.text.as_deref().unwrap_or("");
        let lines = text.lines().filter(|line| {
            [
                "colourwork:",
                "plain: { stitches",
                "rib: { needle",
                "yarn:",
                "sessions:",
            ]
            .iter()
            .any(|key| line.trim_start().starts_with(key))
        });
        for line in lines {
            for key in wanted {
                let Some(at) = line.find(key).map(|at| at + key.len() + 1) else {
                    continue;
                };
                let number: String = line[at..]
                    .chars()
                    .take_while(|c| c.is_ascii_digit() || *c == '.')
                    .collect();
                let Ok(value) = number.parse::<f64>() else {
                    continue;
                };
                let new = format!(
                    "{}{:.2}{}",
                    &line[..at],
                    value * factor,
                    &line[at + number.len()..]
                );
                changes.push((index, text.replacen(line, &new, 1)));
            }
        }
    }
    let told = changes.par_iter().filter(|(index, text)| {
        let mut texts = texts.to_vec();
        texts[*index].text = Some(text.clone());
        let new = faults(texts).1;
        new.iter()
            .any(|f| !known.contains(&(f.code.name().to_owned(), f.title.clone())))
    });
    (told.count(), changes.len())
}

fn main() -> ExitCode {
    let count = std::env::args()
        .filter_map(|a| a.parse().ok())
        .next()
        .unwrap_or(2000);
    let list = std::env::args().any(|a| a == "--list");
    let texts = texts();
    let before = faults(texts.clone()).1;
    let known: Known = before
        .iter()
        .map(|f| (f.code.name().to_owned(), f.title.clone()))
        .collect();
    let slips = (0..count).into_par_iter();
    let told: Vec<(Told, String)> = slips
        .map(|round: u64| slipped(round, &texts, &known))
        .collect();
    for (kind, text) in &told {
        if list && matches!(kind, Told::Near | Told::Elsewhere) {
            println!("{text}");
        }
    }
    let of = |wanted: Told| told.iter().filter(|(kind, _)| *kind == wanted).count();
    let noticed = told.len() - of(Told::Not);
    let share = |count: usize| 100.0 * count as f64 / noticed.max(1) as f64;
    let (near, first) = (
        share(of(Told::First) + of(Told::Near)),
        share(of(Told::First)),
    );
    println!(
        "{count} slips, {noticed} noticed: {near:.1} % told within two lines, {first:.1} % there and first"
    );
    for factor in [1.9, 1.0 / 1.9, 10.0, 0.1, 2.54, 1.0 / 2.54] {
        let (told, all) = misjudged(&texts, &known, factor);
        println!("{all} numbers times {factor:.2}: {told} told of");
    }
    if near < 97.0 || first < 90.0 {
        ExitCode::FAILURE
    } else {
        ExitCode::SUCCESS
    }
}
