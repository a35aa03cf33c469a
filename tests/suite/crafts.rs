//! Four crafts: what each says and never says, rows of Tunisian crochet worked back from their words, crochet whose counts
//! add up, and threads that never travel too far behind the cloth.

use std::collections::BTreeSet;

use yokeward::course::{CLOTH, CrochetStitch, Hand, Reads, Terms};
use yokeward::ground::units::Length;
use yokeward::piece::StageKind;
use yokeward::rows::thread::{FURTHEST, Field, Square, gap, route};
use yokeward::words::{
    CraftWords, Leans, Wording, passes_words, round_words, row_words, spread_words,
};

use crate::charts::{knit, worked};
use crate::harness::{Random, all_pieces, chart, course, load, read, study_lesson};
use crate::short_forms::work_through;
use crate::terms::all_said;

/// Words that a craft never says, wherever something is printed of a course that has only it.
const NEVER: [(&str, &[&str]); 3] = [
    (
        "crochet",
        &[
            "knit", "purl", "cast on", "cast off", "bind off", "needles", "k2tog", "ssk",
            "forward", "tapestry",
        ],
    ),
    (
        "tunisian",
        &[
            "knit",
            "purl",
            "cast on",
            "cast off",
            "bind off",
            "needles",
            "wrong side",
            "k2tog",
            "turn;",
            "tapestry",
        ],
    ),
    (
        "thread",
        &[
            "knit",
            "purl",
            "cast on",
            "cast off",
            "bind off",
            "hook",
            "chain",
            "wrong side",
            "k2tog",
            "rounds",
            "yarn over",
            "ball",
            "float",
            "gauge",
            "tension",
        ],
    ),
];

#[test]
fn no_craft_says_what_is_anothers() {
    let mut found = BTreeSet::new();
    for (name, words) in NEVER {
        let text = read(&format!("tests/fixtures/courses/{name}.txt"));
        for (place, said) in all_said(&text) {
            // A chart by itself is one of knitting, whatever a course makes of it.
            if place == "next" || place.contains("\"next\"") || place.contains("route") {
                continue;
            }
            let said = said.to_lowercase();
            for word in words {
                // Parts of a grade have one name in all crafts where a course is told as a whole, and `fit` its option.
                let whole = !place.starts_with("lessons/");
                if whole && ["float", "gauge"].contains(word) {
                    continue;
                }
                for (at, _) in said.match_indices(word) {
                    let before = said[..at].chars().next_back();
                    let blunt = said[..at].ends_with("blunt sewing ");
                    if before.is_some_and(char::is_alphanumeric) || blunt {
                        continue;
                    }
                    let near: String = said[at..].chars().take(40).collect();
                    found.insert(format!("{name}, {place}: {}", near.replace('\n', " ")));
                }
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Every row is read from the right, whichever side of a turned piece it would lie on.
#[test]
fn tunisian_rows_in_words_work_back_into_the_chart() {
    let mut random = Random::new(12);
    let wording = Wording::of(Terms::Uk);
    for _ in 0..200 {
        let (width, height) = (2 + random.below(9), 2 + random.below(6));
        let line = |random: &mut Random| -> String {
            (0..width)
                .map(|_| ['.', 'x', 'o'][random.below(3)])
                .collect()
        };
        let rows: Vec<String> = (0..height).map(|_| line(&mut random)).collect();
        let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
        let it = chart(
            &rows,
            &format!("worked: flat\nrepeat: {{ stitches: 1-{width} }}"),
        );
        for row in 0..height {
            let yarn = |ink: u8| it.inks[usize::from(ink)].role.clone();
            let leans = Leans::knitted(Hand::Right);
            let words = row_words(&it, (row, Reads::ForwardAndReturn), (&yarn, &leans), false);
            let expected = worked(&it, row, false, 3);
            let told = passes_words(&words, wording);
            if let Some(colour) = told.strip_prefix("F and R all ") {
                assert!(expected.iter().all(|c| c == colour), "{told}");
                continue;
            }
            let forward = told.strip_prefix("F ").unwrap();
            let (forward, back) = forward.split_once(". R ").unwrap();
            assert_eq!(back, "back, each loop in its own colour");
            assert_eq!(knit(forward, expected.len()), expected, "{told}");
        }
    }
}

/// Every round of a hat is worked through by its words: what it uses up is what the round beneath left.
#[test]
fn crochet_hats_add_up_round_by_round() {
    let mut random = Random::new(23);
    let (mut rounds, mut widened, mut grown) = (0, 0, 0);
    for _ in 0..200 {
        let width = 3 + random.below(12);
        let row: String = (0..width).map(|i| if i == 0 { 'x' } else { '.' }).collect();
        let text = format!(
            "=== course.yaml\ntitle: Hats\n=== 01-hat.yaml\ntitle: Hat\nmakes: hat\ncraft: crochet\nfrom: {}\n\
             gauge: {{ colourwork: {{ stitches: {}, rows: 18 }}, plain: {{ stitches: {}, rows: 17 }} }}\n\
             colours: {{ ground: {{ name: Peat, hex: \"#3b2f2a\" }}, motif: {{ name: Fleece, hex: \"#f2ead8\" }} }}\n\
             bands:\n  - rib: {{ multiple: 2, rows: 3, colour: ground }}\n  - plain: {{ rows: 2, colour: ground }}\n  - chart: dot\n  \
             - plain: {{ rows: 2, colour: ground }}\nsizes: [{}]\n=== charts/dot.yaml\ntitle: Dot\ncolours: {{ \".\": ground, \
             \"x\": motif }}\nrows: |\n  {row}\n  {row}\nrights: own\n",
            ["brim", "crown"][random.below(2)],
            12 + random.below(10),
            12 + random.below(10),
            ["child-4", "child-10", "adult-small", "adult-large"][random.below(4)],
        );
        let course = course(&text);
        let lesson = &course.lessons[0];
        let verbs = CraftWords::of(lesson, Wording::of(Terms::Uk)).verbs();
        for piece in all_pieces(lesson).unwrap() {
            let mut stitches = piece.parts[0].stages[0].after;
            for stage in &piece.parts[0].stages[1..] {
                assert_eq!(stage.before, stitches, "{text}");
                match &stage.kind {
                    StageKind::Change(spread) if spread.changes() > 0 => {
                        let words = spread_words(spread, &verbs);
                        assert_eq!(work_through(&words), (stage.before, stage.after), "{words}");
                        widened += usize::from(stage.after > stage.before);
                    }
                    StageKind::Rounds(shaped) => {
                        for round in shaped {
                            assert_eq!(round.before, stitches, "{text}");
                            stitches = round.after;
                            let words = round_words(&round.work, round.after, &verbs);
                            let Some((once, left)) = words.rsplit_once(": ") else {
                                assert_eq!((words.as_str(), round.before), ("plain", round.after));
                                continue;
                            };
                            let (left, _) = left.split_once(' ').unwrap();
                            assert_eq!(left.parse(), Ok(round.after));
                            // Over and over to the end.
                            let (used, leaves) = work_through(once);
                            assert_eq!(round.before % used, 0, "{words}");
                            assert_eq!(round.before / used * leaves, round.after, "{words}");
                            rounds += 1;
                            grown += usize::from(round.after > round.before);
                        }
                    }
                    _ => {}
                }
                stitches = stage.after;
            }
        }
    }
    assert!(
        rounds > 1500 && widened > 15 && grown > 500,
        "{rounds} {widened} {grown}"
    );
}

/// A square of cloth with areas at random.
fn cloth(random: &mut Random) -> Vec<String> {
    let (width, height) = (6 + random.below(24), 4 + random.below(20));
    let bare = 1 + random.below(4);
    (0..height)
        .map(|_| {
            let square = |random: &mut Random| match random.below(bare + 2) {
                0 => 'x',
                1 => 'o',
                _ => '.',
            };
            (0..width).map(|_| square(random)).collect()
        })
        .collect()
}

/// Squares of a colour that hang together, corners included, by a plain search.
fn area(field: &Field, from: Square) -> Vec<Square> {
    let mut found = vec![from];
    let mut next = 0;
    while next < found.len() {
        let (x, y) = found[next];
        next += 1;
        for other in (0..field.height).flat_map(|v| (0..field.width).map(move |u| (u, v))) {
            let beside = other.0.abs_diff(x) <= 1 && other.1.abs_diff(y) <= 1;
            if beside && field.at(other) == field.at(from) && !found.contains(&other) {
                found.push(other);
            }
        }
    }
    found
}

#[test]
fn threads_never_travel_too_far_and_end_only_where_they_must() {
    // Common practice names 6 to 13 mm, no source.
    assert_eq!(FURTHEST, Length::mm(12.0));
    let mut random = Random::new(34);
    let (mut ways, mut breaks) = (0, 0);
    for _ in 0..200 {
        let rows = cloth(&mut random);
        let picture: String = rows.iter().map(|row| format!("  {row}\n")).collect();
        let count = [11, 14, 18, 28][random.below(4)];
        let text = format!(
            "=== course.yaml\ntitle: Cloth\n=== 01-square.yaml\ntitle: Square\nmakes: swatch\ncraft: counted-thread\n\
             fabric: {{ count: {count} }}\ncolours: {{ cloth: {{ name: Linen, hex: \"#efe7d6\" }}, a: {{ name: Tide, hex: \"#1f4a5e\" \
             }}, b: {{ name: Rust, hex: \"#a4472b\" }} }}\nbands:\n  - chart: it\n=== charts/it.yaml\ntitle: It\nworked: \
             flat\ncolours: {{ \".\": cloth, \"x\": a, \"o\": b }}\nrows: |\n{picture}rights: own\n"
        );
        let course = course(&text);
        let studied = study_lesson(&course.lessons[0]);
        let field = Field::of(&studied.work);
        let pitch = Length::mm(25.4 / f64::from(count));
        let (threads, travels) = route(&field, pitch);
        let reach = FURTHEST.to_mm() / pitch.to_mm();
        for way in &travels {
            assert!(gap(way.from, way.to) <= reach, "{text}");
            assert!(field.is_covered(way.from, way.to), "{text}");
            assert_eq!(
                (field.at(way.from), field.at(way.to)),
                (Some(way.colour), Some(way.colour))
            );
        }
        ways += travels.len();
        // Each thread walked again: from its start, by its travels, area by area.
        let drawn = rows
            .iter()
            .flat_map(|row| row.chars())
            .filter(|c| *c != '.')
            .count();
        assert_eq!(
            threads.iter().map(|thread| thread.crosses).sum::<usize>(),
            drawn
        );
        for thread in &threads {
            let mut way = travels
                .iter()
                .filter(|way| way.colour == thread.colour)
                .peekable();
            let mut done: BTreeSet<Square> = BTreeSet::new();
            for start in &thread.starts {
                let mut here = area(&field, (start.stitch.index(), start.row.index()));
                let mut crosses = 0;
                loop {
                    crosses += here.len();
                    assert!(
                        here.iter().all(|square| done.insert(*square)),
                        "worked twice: {text}"
                    );
                    match way.next_if(|way| here.contains(&way.from) && crosses < start.crosses) {
                        Some(next) => here = area(&field, next.to),
                        None => break,
                    }
                }
                assert_eq!(crosses, start.crosses, "{text}");
                // Where it ends, nothing of its colour that is left can be reached.
                let left = (0..field.height).flat_map(|y| (0..field.width).map(move |x| (x, y)));
                for to in
                    left.filter(|to| field.at(*to) == Some(thread.colour) && !done.contains(to))
                {
                    let near = here
                        .iter()
                        .any(|from| gap(*from, to) <= reach && field.is_covered(*from, to));
                    assert!(!near, "could go on to {to:?}: {text}");
                }
                breaks += 1;
            }
            assert!(way.next().is_none());
        }
    }
    assert!(ways > 200 && breaks > 1000, "{ways} {breaks}");
}

/// Names of crochet stitches on either side of the ocean, as every bilingual chart has them (common practice; those of the
/// extended stitch from memory).
#[test]
fn stitches_of_crochet_have_both_their_names() {
    for (stitch, uk, us) in [
        (
            CrochetStitch::Single,
            "dc: double crochet (its UK name)",
            "sc: single crochet (its US name)",
        ),
        (
            CrochetStitch::HalfDouble,
            "htr: half treble (its UK name)",
            "hdc: half double crochet (its US name)",
        ),
        (
            CrochetStitch::Double,
            "tr: treble (its UK name)",
            "dc: double crochet (its US name)",
        ),
        (
            CrochetStitch::ExtendedSingle,
            "exdc: extended double crochet (its UK name)",
            "exsc: extended single crochet (its US name)",
        ),
    ] {
        for (terms, name) in [(Terms::Uk, uk), (Terms::Us, us)] {
            let told = Wording::of(terms).for_stitch(stitch).crochet_named();
            assert!(told.starts_with(&format!("{name}: ")), "{told}");
        }
    }
    // Turning chains: common practice.
    let chains = CrochetStitch::NAMES.map(|(stitch, name)| (name, stitch.turning_chain()));
    assert_eq!(
        chains,
        [
            ("single", 1),
            ("extended-single", 2),
            ("half-double", 2),
            ("double", 3)
        ]
    );
}

/// A `.` that no colour names is bare cloth wherever a lesson stitches the chart, beside another one, too.
#[test]
fn bare_cloth_needs_no_name_in_a_part_across() {
    let text = read("tests/fixtures/courses/thread.txt");
    let beside = "bands:\n  - across:\n      - chart: limpet\n        times: 2\n";
    let loaded = load(&text.replacen("bands:\n  - chart: limpet\n", beside, 1));
    assert!(!loaded.has_errors(), "{:?}", loaded.faults);
    let stitched = &loaded.course.charts["limpet"];
    assert!(stitched.inks.iter().any(|ink| ink.role == CLOTH));
}
