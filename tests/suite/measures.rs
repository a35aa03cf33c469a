//! Measures against published values and worked examples.

use serde_json::{Value, json};
use yokeward::app::{self, BareOptions};
use yokeward::read::{Wanted, load_texts};
use yokeward::rows::measure::lempel_ziv;

use crate::harness::{Random, chart, reference, study_chart, texts};

/// Lempel & Ziv, IEEE Trans. Inf. Theory 22 (1976), 75-81, and Kaspar & Schuster, Phys. Rev. A 36 (1987), 842; values
/// of tests/reference/lz76_entropy.json, computed with two libraries and two routines.
#[test]
fn lempel_ziv_complexity_equals_the_reference() {
    let reference = reference("lz76_entropy.json");
    let strings = reference["strings"].as_array().unwrap();
    assert!(strings.len() >= 5);
    for string in strings {
        let text = string["s"].as_str().unwrap();
        assert_eq!(
            lempel_ziv(text.as_bytes()) as u64,
            string["lz76"].as_u64().unwrap(),
            "{text}"
        );
    }
    // The main example of the paper's p. 76, and strings of a published test table.
    for (text, words) in [
        ("0001101001000101", 6),
        ("01011010001101110010", 7),
        ("010", 3),
        ("0001", 2),
        ("1111111", 2),
        ("1010101010101010", 3),
        ("100111101100001000001010", 8),
        ("ABCABCABCABCABCABC", 4),
        ("AZSEDRFTGYGUJIJOKB", 16),
        ("ABCDEFGHIJKLMNOPQRSTUVWXYZ", 26),
    ] {
        assert_eq!(lempel_ziv(text.as_bytes()), words, "{text}");
    }
}

/// Words straight from the definition: each is the shortest that does not occur before its own last letter.
fn lempel_ziv_by_definition(text: &[u8]) -> usize {
    let (mut start, mut words) = (0, 0);
    while start < text.len() {
        let mut end = start + 1;
        while end <= text.len()
            && text[..end - 1]
                .windows(end - start)
                .any(|w| w == &text[start..end])
        {
            end += 1;
        }
        words += 1;
        start = end.min(text.len());
    }
    words
}

#[test]
fn the_automaton_agrees_with_the_definition() {
    let mut random = Random::new(1);
    for _ in 0..400 {
        let letters = 1 + random.below(12);
        let length = random.below(160);
        let period = 1 + random.below(9);
        let mut text: Vec<u8> = (0..length).map(|_| random.below(letters) as u8).collect();
        if random.below(2) == 0 {
            for i in period..length {
                text[i] = text[i - period];
            }
        }
        assert_eq!(
            lempel_ziv(&text),
            lempel_ziv_by_definition(&text),
            "{text:?}"
        );
    }
}

/// A chart of three rows worked through by hand: every number of it can be counted on the fingers.
#[test]
fn a_small_chart_gives_the_numbers_counted_by_hand() {
    let text = "=== charts/pebble.yaml\ntitle: Pebble\ncolours: { \".\": ground, \"x\": motif }\n\
        rows: |\n  ..x.\n  .xxx\n  ..x.\nrepeat: { stitches: 1-4, rows: 1-3 }\nrights: own\n";
    let mut loaded = load_texts("", texts(text), false);
    loaded.wanted = Wanted::Chart("pebble".to_owned());
    let report = serde_json::to_value(app::measure(&[loaded], BareOptions::default())).unwrap();
    let expected: Value = json!({
        "id": "pebble", "stitches": 4, "rows": 3, "repeats": 24, "gauge": 20.0,
        "floats": {"longest": 3, "longest_mm": 15.0, "mean": 2.0, "limit": 5, "rows_over": 0, "share_over_16": 0.0,
            "catches": 0, "catches_per_100": 0.0, "histogram": {"1": 3, "3": 3}},
        "colours": {"total": 2, "most": 2, "mean": 2.0, "mean_16": 2.0, "changes": 144, "ends": 4},
        "reading": {"looks_mean": 0.6667, "looks_16": 0.6667, "looks_most": 1, "chunks_most": 2},
        "relief": {"rows": 0, "share": 0.0, "stretch": 24},
        "busyness": 28.5,
        "parts": {"floats": 0.1375, "colours": 0.28, "reading": 0.1587, "relief": 0.9374, "handling": 0.0},
        "grade": 27.0, "level": "Easy", "techniques": ["two-colours"],
    });
    let chart = report["charts"][0].as_object().unwrap();
    for (key, value) in expected.as_object().unwrap() {
        assert_eq!(&chart[key], value, "{key}");
    }
    assert_eq!(
        chart["per_row"][0],
        json!({"row": 1, "colours": 2, "changes": 48, "chunks": 2, "learn": 0, "looks": 0, "catches": [],
            "floats": [{"colour": ".", "start": 2, "stitches": 1}, {"colour": "x", "start": 3, "stitches": 3}]})
    );
}

/// Floats found by walking round the ring stitch by stitch.
#[test]
fn floats_agree_with_a_walk_round_the_row() {
    let mut random = Random::new(3);
    for _ in 0..300 {
        let width = 1 + random.below(14);
        let row: String = (0..width)
            .map(|_| ['.', 'x', 'o'][random.below(3)])
            .collect();
        let flat = random.below(2) == 0;
        let it = chart(
            &[&row],
            if flat {
                "worked: flat"
            } else {
                "worked: round"
            },
        );
        let studied = study_chart(&it, 20.0);
        let mut found: Vec<usize> = studied.measures.rows[0]
            .floats
            .iter()
            .map(|f| f.stitches)
            .collect();
        found.sort_unstable();
        let cells: Vec<char> = row.chars().rev().collect();
        let mut expected = Vec::new();
        let colours: std::collections::BTreeSet<char> = cells.iter().copied().collect();
        for (i, &colour) in cells.iter().enumerate().filter(|_| colours.len() > 1) {
            let end = if flat { width - i - 1 } else { width };
            let next = (1..=end).find(|step| cells[(i + step) % width] == colour);
            expected.extend(next.map(|step| step - 1).filter(|gap| *gap > 0));
        }
        expected.sort_unstable();
        assert_eq!(found, expected, "{row} flat {flat}");
    }
}

#[test]
fn a_lonely_stitch_and_a_strand_caught_often_are_better_worked_over() {
    use yokeward::rows::catches::{WorkOver, worked_over};
    let advice = |row: &str| {
        let chart = chart(&[row], "");
        let a = study_chart(&chart, 20.0);
        let found = worked_over(&a.work, &a.work.rows[0], &a.measures.rows[0]);
        found.into_iter().map(|(_, why)| why).collect::<Vec<_>>()
    };
    // L is 5 at this gauge. One stitch in 20 (more than 15): the practice of duplicate stitch, no source.
    assert_eq!(advice("...................x"), [WorkOver::Alone(20)]);
    assert_eq!(advice("...........x"), []);
    // A strand past 24 would be caught 4 times (24 - 5 over 6, rounded up), more than three.
    let row = format!("{}xxxx", ".".repeat(24));
    assert_eq!(advice(&row), [WorkOver::Caught(24, 4)]);
    assert_eq!(advice(&format!("{}xxxx", ".".repeat(23))), []);
    assert_eq!(advice("..xx"), []);
}

/// Chunks to learn, row by row, by the definition and nothing clever: units and axes by trying all of them.
#[test]
fn what_is_to_learn_follows_its_definition() {
    let mut random = Random::new(29);
    let mut kinds = [0; 6];
    for _ in 0..400 {
        let (width, height) = (1 + random.below(9), 1 + random.below(8));
        let mut rows: Vec<String> = Vec::new();
        for at in 0..height {
            // Every third row is one that was there before.
            let again = at > 0 && random.below(3) == 0;
            let row = match again.then(|| random.below(at)) {
                Some(earlier) => rows[earlier].clone(),
                None => (0..width)
                    .map(|_| ['.', '.', 'x', 'o'][random.below(4)])
                    .collect(),
            };
            rows.push(row);
        }
        let lines: Vec<&str> = rows.iter().map(String::as_str).collect();
        let (flat, repeats) = (random.below(2) == 0, random.below(2) == 0);
        let how = if flat { "flat" } else { "round" };
        let repeat = if repeats {
            format!("\nrepeat: {{ rows: 1-{height} }}")
        } else {
            String::new()
        };
        let it = chart(&lines, &format!("worked: {how}{repeat}"));
        let studied = study_chart(&it, 20.0);
        // From the bottom, each from stitch 1.
        let rows: Vec<Vec<char>> = rows
            .iter()
            .rev()
            .map(|row| row.chars().rev().collect())
            .collect();
        for (i, row) in rows.iter().enumerate() {
            let found = studied.measures.rows[i].learn;
            let beneath = match i {
                0 if repeats => rows.last(),
                0 => None,
                _ => rows.get(i - 1),
            };
            let stranded = |row: &Vec<char>| row.iter().any(|c| *c != row[0]);
            let earlier = rows[..i]
                .iter()
                .filter(|other| stranded(other) && *other == row)
                .count();
            let (expected, kind) = learn(row, beneath, earlier, !flat);
            assert_eq!(
                found,
                expected,
                "row {} of {lines:?} {how} {repeats}",
                i + 1
            );
            kinds[kind] += 1;
        }
    }
    assert!(kinds.iter().all(|n| *n > 10), "{kinds:?}");
}

fn learn(
    row: &[char],
    beneath: Option<&Vec<char>>,
    earlier: usize,
    closed: bool,
) -> (usize, usize) {
    let n = row.len();
    let set = |row: &[char]| {
        row.iter()
            .copied()
            .collect::<std::collections::BTreeSet<char>>()
    };
    if set(row).len() < 2 || beneath.is_some_and(|beneath| beneath == row) {
        return (0, 0);
    }
    if earlier >= 2 {
        return (1, 1);
    }
    if let Some(beneath) = beneath {
        let moved = |by: usize| (0..n).all(|i| row[i] == beneath[(i + by) % n]);
        let swapped =
            set(row).len() == 2 && set(row) == set(beneath) && (0..n).all(|i| row[i] != beneath[i]);
        if swapped || (closed && (moved(1) || moved(n - 1))) {
            return (1, 2);
        }
    }
    let unit = if closed {
        (1..=n)
            .find(|p| n.is_multiple_of(*p) && (0..n).all(|i| row[i] == row[(i + p) % n]))
            .unwrap()
    } else {
        n
    };
    let row = &row[..unit];
    let changes = (1..unit).filter(|i| row[*i] != row[i - 1]).count();
    let chunks = match closed {
        true => changes + usize::from(row[0] != row[unit - 1]),
        false => changes + 1,
    };
    let axis = |a: usize| (0..unit).all(|i| row[i] == row[(a + unit - i) % unit]);
    let mirrored = if closed {
        (0..unit).any(axis)
    } else {
        (0..unit).all(|i| row[i] == row[unit - 1 - i])
    };
    let chunks = if mirrored { chunks / 2 + 1 } else { chunks };
    match (earlier, mirrored) {
        (1, _) => (chunks.div_ceil(2), 3),
        (_, true) => (chunks, 4),
        _ => (chunks, 5),
    }
}
