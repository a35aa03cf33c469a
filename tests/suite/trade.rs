//! The trade's own judgements as orderings of grades.

use crate::harness::{Random, chart, course, study_chart, study_lesson};

fn grade(rows: &[&str], gauge: f64) -> f64 {
    let it = chart(rows, "");
    study_chart(&it, gauge).grade.grade
}

fn busyness(rows: &[&str]) -> f64 {
    let it = chart(rows, "");
    study_chart(&it, 20.0).measures.busyness
}

const STRIPE: [&str; 4] = ["xxxx", "....", "....", "xxxx"];
/// All over, two colours, floats of at most three, a plain row now and then.
const BUSY: [&str; 8] = [
    "........", "x.x...x.", ".x.x.x..", "..x.x..x", "........", "x..x.x..", ".x..x.x.", "..x..x.x",
];
/// Few motifs far apart: every stranded row carries a strand behind eleven stitches or more.
const CALM: [&str; 8] = [
    "............",
    "x...........",
    "x...........",
    "xx..........",
    "............",
    "......x.....",
    "......x.....",
    ".....xx.....",
];

/// Common practice, no source.
#[test]
fn a_plain_stripe_is_easiest_of_all() {
    let stripe = grade(&STRIPE, 20.0);
    for other in [&BUSY[..], &CALM[..], &["x.", ".x"], &["xxx.", "..x."]] {
        assert!(stripe < grade(other, 20.0));
    }
    assert!(stripe < 3.0);
}

/// Common practice, no source: short floats are kind, long ones are not, however either looks.
#[test]
fn a_busy_chart_of_short_floats_is_easier_than_a_calm_one_of_long_floats() {
    let it = chart(&CALM, "");
    let calm = study_chart(&it, 20.0);
    let limit = calm.measures.floats.limit;
    let all_long = calm
        .measures
        .rows
        .iter()
        .filter(|r| r.colours > 1)
        .all(|r| r.floats.iter().any(|f| f.stitches >= 2 * limit));
    assert!(all_long);
    let busy = chart(&BUSY, "");
    assert!(study_chart(&busy, 20.0).measures.floats.longest <= 3);
    assert!(
        busyness(&BUSY) > busyness(&CALM),
        "{} {}",
        busyness(&BUSY),
        busyness(&CALM)
    );
    assert!(
        grade(&BUSY, 20.0) < grade(&CALM, 20.0),
        "{} {}",
        grade(&BUSY, 20.0),
        grade(&CALM, 20.0)
    );
}

/// One inch is fewer stitches in bulky yarn (published rule: no float longer than an inch).
#[test]
fn a_chart_is_no_easier_in_bulky_yarn() {
    for rows in [
        &BUSY[..],
        &CALM[..],
        &["xxx...", "...xxx"],
        &["x.......", "....x..."],
    ] {
        let grades: Vec<f64> = [28.0, 24.0, 20.0, 16.0, 12.0]
            .iter()
            .map(|g| grade(rows, *g))
            .collect();
        assert!(
            grades.windows(2).all(|pair| pair[0] <= pair[1] + 1e-9),
            "{grades:?}"
        );
    }
}

/// Not more than two colours in any one row: the trade's one absolute colour rule (A. Starmore, 1988).
#[test]
fn a_third_colour_costs_far_more_in_the_same_rows_than_in_others() {
    let two = grade(&["x...", "..x.", "x...", "..x."], 20.0);
    let other_rows = grade(&["o...", "..o.", "x...", "..x."], 20.0);
    let same_rows = grade(&["x.o.", "o.x.", "x.o.", "o.x."], 20.0);
    assert!(
        same_rows - two > 3.0 * (other_rows - two),
        "{two} {other_rows} {same_rows}"
    );
}

/// Common practice, no source.
#[test]
fn plain_rows_between_bands_lower_the_grade() {
    let without = grade(&["x...", "..x.", "x...", "..x."], 20.0);
    let with = grade(&["....", "x...", "..x.", "....", "x...", "..x."], 20.0);
    assert!(with < without, "{with} {without}");
}

/// Gauge bands of the yarn weight categories, stitches to 10 cm in plain knitting: trade body's table, as copied with
/// its credit line ("Source: Craft Yarn Council's www.YarnStandards.com").
#[test]
fn the_demo_course_knits_each_yarn_at_a_gauge_of_its_category() {
    let bands = [
        (33.0, 40.0),
        (27.0, 32.0),
        (23.0, 26.0),
        (21.0, 24.0),
        (16.0, 20.0),
        (12.0, 15.0),
        (7.0, 11.0),
        (1.0, 6.0),
    ];
    let loaded = crate::demo_course::demo();
    let knit = loaded
        .course
        .lessons
        .iter()
        .filter(|l| l.craft.name() == "knit");
    let mut checked = 0;
    for lesson in knit {
        let (low, high) = bands[lesson.yarn_weight.unwrap() as usize];
        let plain = lesson.plain_gauge().stitches;
        // Stranded fabric runs a little tighter than the band says, so its own plain gauge is compared.
        assert!(
            (low - 1.0..=high + 1.0).contains(&plain),
            "{}: {plain}",
            lesson.id
        );
        checked += 1;
    }
    assert!(checked > 5);
}

#[test]
fn mitts_and_babies_have_a_shorter_limit() {
    let lesson = |makes: &str, size: &str| {
        let text = format!(
            "=== course.yaml\ntitle: T\n=== charts/c.yaml\ntitle: C\ncolours: {{ \".\": a, \"x\": b }}\nrights: own\nrows: |\n  x.....\n\
             === 01-l.yaml\ntitle: L\nmakes: {makes}\ngauge: {{ colourwork: {{ stitches: 20, rows: 26 }}, plain: {{ stitches: 20, rows: 28 }} }}\n\
             colours: {{ a: {{ name: A, hex: \"#000000\" }}, b: {{ name: B, hex: \"#ffffff\" }} }}\nbands: [ {{ chart: c }} ]\nsizes: [{size}]\n"
        );
        let course = course(&text);
        let studied = study_lesson(&course.lessons[0]);
        studied.measures.floats.limit
    };
    assert_eq!(lesson("hat", "adult-medium"), 5);
    assert_eq!(lesson("mitts", "adult-medium"), 3);
    assert_eq!(lesson("hat", "child-2"), 3);
}

/// Traditional patterns mirror both ways: common practice, no source. A mirrored row is read to its middle and back.
#[test]
fn a_mirrored_motif_reads_easier_than_its_stitches_shuffled() {
    let mirrored = [
        "x..xx..x..",
        ".xx..xx..x",
        "xx.xx.xx..",
        ".xx..xx..x",
        "x..xx..x..",
    ];
    let mut random = Random::new(17);
    for _ in 0..30 {
        let shuffled: Vec<String> = mirrored
            .iter()
            .map(|row| {
                let mut cells: Vec<char> = row.chars().collect();
                for i in (1..cells.len()).rev() {
                    cells.swap(i, random.below(i + 1));
                }
                cells.into_iter().collect()
            })
            .collect();
        let rows: Vec<&str> = shuffled.iter().map(String::as_str).collect();
        let (a, b) = (chart(&mirrored, ""), chart(&rows, ""));
        let looks = |chart| study_chart(chart, 20.0).measures.reading.looks_mean;
        assert!(looks(&a) <= looks(&b), "{rows:?}");
    }
}

/// A chart that declares no repeat of rows is worked once: a narrow border has no end to go on without rest.
#[test]
fn a_border_of_three_rounds_is_no_harder_than_a_long_band_of_them_with_rest() {
    let border = ["x..x..", ".xx.xx", "x..x.."];
    let mut band: Vec<&str> = Vec::new();
    for _ in 0..3 {
        band.extend([border; 4].concat());
        band.extend(["......", "......"]);
    }
    assert_eq!(band.len(), 42);
    let (a, b) = (chart(&border, ""), chart(&band, ""));
    let (a, b) = (study_chart(&a, 20.0), study_chart(&b, 20.0));
    assert!(
        a.grade.grade <= b.grade.grade,
        "{} {}",
        a.grade.grade,
        b.grade.grade
    );
    // Two relief rows on end rest more than one.
    let single: Vec<&str> = band
        .iter()
        .enumerate()
        .filter(|(i, _)| i % 14 != 13)
        .map(|(_, row)| *row)
        .collect();
    let c = chart(&single, "");
    let c = study_chart(&c, 20.0);
    assert!(b.measures.relief.share > c.measures.relief.share);
}
