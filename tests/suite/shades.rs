//! Charts whose rows a lesson works in other yarns, and crafts that a class does not have yet.

use yokeward::app;
use yokeward::study;

use crate::harness::{course, load};

const YARNS: &str = "colours:\n  ground: { name: Peat, hex: \"#3b2f2a\" }\n  motif: { name: Fleece, hex: \"#f2ead8\" }\n  \
                     mist: { name: Mist, hex: \"#9fb4bc\" }\n";
const DOT: &str = "title: Dot\ncolours: { \".\": ground, \"x\": motif }\nrows: |\n  .xx.\n  x..x\n  .x..\nrights: own\n";

fn with_band(band: &str, more: &str) -> String {
    format!(
        "=== course.yaml\ntitle: Shades\n{more}\n=== charts/dot.yaml\n{DOT}=== 01-hat.yaml\ntitle: Hat\nmakes: hat\n\
         gauge: {{ colourwork: {{ stitches: 20, rows: 26 }}, plain: {{ stitches: 20, rows: 26 }} }}\n{YARNS}bands:\n  \
         - plain: {{ rows: 2 }}\n  - chart: {band}\nsizes: [adult-medium]\n"
    )
}

/// The roles of each worked row of the chart, stitch 1 first.
fn worked(text: &str) -> Vec<String> {
    let course = course(text);
    let studied = study::lesson(&course.lessons[0], &course);
    let letter = |cell: &u8| {
        studied.work.colours[usize::from(*cell)]
            .chars()
            .next()
            .unwrap()
    };
    let rows = studied.work.rows.iter();
    rows.map(|row| studied.work.cells(row).iter().map(letter).collect())
        .collect()
}

#[test]
fn rows_of_a_lesson_are_shaded_from_the_bottom() {
    // g ground, m motif, s mist (its role begins with m as motif does, so it is told by another first letter).
    let text = with_band("{ id: dot, rows: { 1-2: { motif: shade } } }", "")
        .replace("  mist:", "  shade:");
    assert_eq!(worked(&text), ["ggsg", "sggs", "gmmg"]);
    let one = with_band(
        "{ id: dot, rows: { 3: { motif: shade, ground: motif } } }",
        "",
    )
    .replace("  mist:", "  shade:");
    assert_eq!(worked(&one), ["ggmg", "mggm", "mssm"]);
    let whole = with_band("{ id: dot, rows: { 1-3: { motif: shade } } }", "")
        .replace("  mist:", "  shade:");
    assert_eq!(worked(&whole), ["ggsg", "sggs", "gssg"]);
    // A yarn that no row shows is none of the chart's.
    let shaded = course(&whole);
    let charts = shaded.lessons[0].charts();
    assert_eq!(charts[0].chart.inks.len(), 2);
}

#[test]
fn a_shaded_row_is_told_and_drawn_in_its_yarn() {
    let text = with_band("{ id: dot, rows: { 1-2: { motif: mist } } }", "");
    let files = app::pack(&load(&text), &[], app::PackOptions::default(), &|_| {}).unwrap();
    let page = String::from_utf8(files["lessons/01-hat/handout.md"].clone()).unwrap();
    for words in [
        "2 Peat, 1 Mist, 1 Peat",
        "1 Mist, 2 Peat, 1 Mist",
        "1 Peat, 2 Fleece, 1 Peat",
    ] {
        assert!(page.contains(words), "{words}\n{page}");
    }
    // Two bands of one chart in different shades are two charts.
    let two = text.replace("sizes:", "  - chart: dot\nsizes:");
    assert_eq!(course(&two).lessons[0].charts().len(), 2);
}

#[test]
fn shades_that_cannot_be_are_told() {
    for (band, said) in [
        (
            "{ id: dot, rows: { 3-4: { motif: mist } } }",
            "chart `dot` has rows 1 to 3",
        ),
        (
            "{ id: dot, rows: { 0: { motif: mist } } }",
            "chart `dot` has rows 1 to 3",
        ),
        (
            "{ id: dot, rows: { top: { motif: mist } } }",
            "`top` names no rows",
        ),
        (
            "{ id: dot, rows: { 1: { mitif: mist } } }",
            "chart `dot` has no colour `mitif`",
        ),
        (
            "{ id: dot, rows: { 1: { motif: fog } } }",
            "the lesson gives no yarn to `fog`",
        ),
        (
            "{ id: dot, rows: { 1-2: { motif: mist }, 2-3: { motif: ground } } }",
            "these rows have other colours already",
        ),
    ] {
        let titles: Vec<String> = load(&with_band(band, ""))
            .faults
            .iter()
            .map(|f| f.title.clone())
            .collect();
        assert_eq!(
            titles.iter().filter(|title| *title == said).count(),
            1,
            "{band}: {titles:?}"
        );
    }
}

#[test]
fn a_craft_that_the_class_does_not_have_costs_its_first_steps() {
    let step = |more: &str, craft: &str| {
        let text = with_band("dot", more).replace(
            "makes: hat\n",
            &format!("makes: headband\ncraft: {craft}\n"),
        );
        let text = match craft {
            "tunisian" => text.replace(
                "craft: tunisian\n",
                "craft: tunisian\nhook: double-ended\nworked: round\n",
            ),
            _ => text,
        };
        let course = course(&text);
        let studied = app::study_course(&course);
        let placed = &studied.order.placed[0];
        let first = placed
            .step
            .new_techniques
            .iter()
            .find(|t| t.ends_with("first-steps"))
            .cloned();
        (placed.step.size, placed.step.new_techniques.len(), first)
    };
    let (known, few, none) = step("assumes: [knit, crochet]", "crochet");
    let (new, more, first) = step("", "crochet");
    assert_eq!(
        (none, first.as_deref()),
        (None, Some("crochet/first-steps"))
    );
    // The contract: counted three times in the step, once among the techniques.
    assert!((new - known - 9.0).abs() < 1e-9, "{known} {new}");
    assert_eq!(more, few + 1);
    assert_eq!(step("", "knit").2, None);
    assert_eq!(
        step("assumes: [crochet]", "knit").2.as_deref(),
        Some("knit/first-steps")
    );
    assert_eq!(
        step("assumes: []", "tunisian").2.as_deref(),
        Some("tunisian/first-steps")
    );
}
