//! Each caution by its trigger: with it, it stands on the page; without it, it does not.

use yokeward::app::study_course;
use yokeward::handout::{Print, handouts};

use crate::harness::course;

/// The cautions of a piece with floats of three (or none in crochet), by their bold heads.
fn heads(lesson: &str) -> Vec<String> {
    let text = format!(
        "=== course.yaml\ntitle: It\n=== 01-it.yaml\ntitle: It\n\
         gauge: {{ colourwork: {{ stitches: 26, rows: 30 }}, plain: {{ stitches: 26, rows: 30 }} }}\n\
         colours: {{ ground: {{ name: Peat, hex: \"#3b2f2a\" }}, motif: {{ name: Fleece, hex: \"#f2ead8\" }} }}\n\
         bands: [ {{ rib: {{ multiple: 2, rows: 2 }} }}, {{ chart: it-chart }}, {{ plain: {{ rows: 2 }} }} ]\n{lesson}\n\
         === charts/it-chart.yaml\ntitle: It\ncolours: {{ \".\": ground, \"x\": motif }}\nrights: own\n\
         rows: |\n  ..x.\n  .xxx\n"
    );
    let course = course(&text);
    let studied = study_course(&course);
    let handouts = handouts(&studied, &Print::default());
    let cautions = &handouts[0].cautions;
    let last = cautions.last().unwrap();
    assert!(
        last.contains("Rules where you live") && last.contains("doctor"),
        "{last}"
    );
    cautions
        .iter()
        .filter_map(|text| Some(text.strip_prefix("**")?.split(".**").next()?.to_owned()))
        .collect()
}

#[test]
fn every_caution_stands_where_its_trigger_is_and_nowhere_else() {
    let hands = "Your hands";
    for (lesson, wanted) in [
        ("makes: hat\nsizes: [adult-medium]", &[][..]),
        // Bit by bit: under three years, whatever it is; other children; mitts of any size.
        (
            "makes: hat\nsizes: [baby-6m]",
            &["Strands inside", "Under three years", "Small children"],
        ),
        (
            "makes: hat\nsizes: [child-2, adult-medium]",
            &["Strands inside", "Under three years", "Small children"],
        ),
        ("makes: hat\nsizes: [child-4]", &["Small children"]),
        (
            "makes: headband\nsizes: [baby-12m]",
            &["Strands inside", "Under three years"],
        ),
        ("makes: headband\nsizes: [child-8]", &[]),
        ("makes: mitts\nsizes: [adult-small]", &["Strands inside"]),
        (
            "makes: mittens\nsizes: [child-6]",
            &["Strands inside", "Small children"],
        ),
        ("makes: cowl\nsizes: [child-6]", &["Over the head"]),
        ("makes: cowl\nsizes: [adult-small]", &[]),
        ("makes: yoke\nsizes: [child-8]", &["Over the head"]),
        (
            "makes: cowl\nsizes: [adult-small]\ntechniques: [steek]",
            &["Before you cut"],
        ),
        // In crochet nothing floats free, so no strand can catch.
        (
            "makes: hat\ncraft: crochet\nsizes: [baby-6m]",
            &["Under three years", "Small children"],
        ),
    ] {
        let wanted: Vec<&str> = wanted.iter().copied().chain([hands]).collect();
        assert_eq!(heads(lesson), wanted, "{lesson}");
    }
}
