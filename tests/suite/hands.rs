//! Mitts, mittens and hats at random, with short and tall bands: thumbs where hands have them, depths that heads have, or
//! a warning.

use yokeward::course::Lesson;
use yokeward::course::body::Makes;
use yokeward::piece::{Measured, Piece, StageKind};

use crate::harness::{Random, all_pieces, course, load};

/// A course of one lesson with a rib of 4 cm, then random bands; mitts end in a rib half of the time.
fn random_lesson(random: &mut Random, makes: &str) -> String {
    let stitches = 16 + random.below(17);
    // One in twenty is as coarse as a rope.
    let coarse = random.below(20) == 0;
    let rows = if coarse {
        2
    } else {
        stitches + 4 + random.below(8)
    };
    let gauge = format!("{{ stitches: {stitches}, rows: {rows} }}");
    let mut bands = vec!["rib: { multiple: 4, height: 4 cm }".to_owned()];
    for _ in 0..1 + random.below(3) {
        bands.push(match random.below(4) {
            0 => "chart: dot".to_owned(),
            1 => format!("chart: {{ id: dot, times: {} }}", 2 + random.below(14)),
            _ => format!("plain: {{ rows: {} }}", 1 + random.below(40)),
        });
    }
    if random.below(2) == 0 {
        bands.push("rib: { multiple: 2, height: 2 cm }".to_owned());
    }
    format!(
        "=== course.yaml\ntitle: Hands\n=== charts/dot.yaml\ntitle: Dot\ncolours: {{ \".\": ground, \"x\": motif }}\nrows: |\n  \
         .x\n  ..\n  x.\nrights: own\n=== 01-it.yaml\ntitle: It\nmakes: {makes}\ngauge: {{ colourwork: {gauge}, plain: {gauge} \
         }}\ncolours: {{ ground: {{ name: Peat, hex: \"#3b2f2a\" }}, motif: {{ name: Fleece, hex: \"#f2ead8\" }} }}\nbands:\n  - \
         {}\nsizes: [child-4, child-10, adult-medium]\n",
        bands.join("\n  - ")
    )
}

fn warned(text: &str, code: &str) -> bool {
    load(text)
        .faults
        .iter()
        .any(|fault| fault.code.name() == code)
}

/// Millimetres of all rounds above the cuff, from the lesson's one gauge, and those beneath the thumb's round.
fn above_cuff(lesson: &Lesson, piece: &Piece) -> (f64, f64) {
    let row = 100.0 / lesson.colourwork.gauge.rows;
    let stages = &piece.parts[0].stages;
    let (at, round) = stages
        .iter()
        .enumerate()
        .find_map(|(i, s)| match s.kind {
            StageKind::Opening { round, .. } => Some((i, round)),
            _ => None,
        })
        .unwrap();
    let straight = stages[at..]
        .iter()
        .filter(|s| !matches!(s.kind, StageKind::Rounds(_)));
    let all: usize = straight.map(|s| s.rounds).sum();
    assert!((1..=all).contains(&round), "round {round} of {all}");
    // No change of the count and no end is so near that the thumb would sit in it.
    let mut left = round;
    let within = stages[at..].iter().find(|s| {
        let here = left <= s.rounds;
        left = left.saturating_sub(s.rounds);
        here
    });
    if all > 6 {
        assert!(!matches!(within.unwrap().kind, StageKind::Change(_)));
        assert!(round > 2 && round + 2 <= all, "round {round} of {all}");
    }
    (row * all as f64, row * (round - 1) as f64)
}

#[test]
fn thumbs_open_where_hands_have_them_or_a_warning_says_so() {
    // standards of section 5: ANSUR II palm medians 116.5 mm (men) and 108.7 mm (women); the thumb's share of it, 0.62,
    // from memory. An adult's thumb is then 67 to 72 mm above the wrist.
    let mut random = Random::new(7);
    let (mut warnings, mut right) = (0, 0);
    for i in 0..200 {
        let makes = ["mitts", "mittens"][i % 2];
        let text = random_lesson(&mut random, makes);
        let course = course(&text);
        let lesson = &course.lessons[0];
        let Ok(pieces) = all_pieces(lesson) else {
            continue;
        };
        let mut off = false;
        for piece in &pieces {
            let hand = piece.size.as_ref().unwrap().hand.0.to_mm();
            let (height, thumb) = above_cuff(lesson, piece);
            let row = 100.0 / lesson.colourwork.gauge.rows;
            let wanted = 0.62 * 0.565 * hand;
            off |= (thumb - wanted).abs() > 25.0;
            // Where the hand is high enough, the thumb is at its place but for a round in which the count changes.
            if height > wanted + 4.0 * row {
                assert!(
                    (thumb - wanted).abs() <= 1.51 * row,
                    "{thumb} for {wanted}\n{text}"
                );
                right += 1;
            }
            if piece.size.as_ref().unwrap().id == "adult-medium" && height > 90.0 {
                assert!(
                    (67.0 - 1.51 * row..=72.0 + 1.51 * row).contains(&thumb),
                    "{thumb}"
                );
            }
            // A mitt covers the palm, however low its bands are.
            if lesson.makes == Makes::Mitts {
                assert!(height > 0.565 * hand - row, "{height} of {hand}\n{text}");
            }
        }
        assert_eq!(off, warned(&text, "thumb-off"), "{text}");
        warnings += usize::from(off);
    }
    assert!(
        right > 300 && warnings > 2,
        "{right} right, {warnings} with a warning"
    );
}

#[test]
fn hats_are_as_deep_as_heads_or_a_warning_says_so() {
    let mut random = Random::new(8);
    let (mut deep, mut fine) = (0, 0);
    for _ in 0..100 {
        let text = random_lesson(&mut random, "hat");
        let course = course(&text);
        let Ok(pieces) = all_pieces(&course.lessons[0]) else {
            continue;
        };
        let too_deep = pieces.iter().any(|piece| {
            // Contract: a hat is at most head ÷ 3 + 5 cm deep.
            let head = piece.size.as_ref().unwrap().head.0.to_mm();
            let depth = piece.finished.iter().find(|f| f.what == Measured::Depth);
            depth.unwrap().length.to_mm() > head / 3.0 + 50.0 + 1e-6
        });
        assert_eq!(too_deep, warned(&text, "too-deep"), "{text}");
        deep += usize::from(too_deep);
        fine += usize::from(!too_deep);
    }
    assert!(deep > 10 && fine > 10, "{deep} too deep, {fine} not");
}

#[test]
fn charts_share_a_count_wherever_one_is_close_for_all() {
    // A rib that stands away from both keeps one count for all from being close; 120 is within 3 % of the girth for a repeat
    // of 3 (alone 117) and for one of 8 (alone 120), also with a rib between them.
    let lesson = |between: &str| {
        format!(
            "=== course.yaml\ntitle: Shared\n=== charts/three.yaml\ntitle: Three\ncolours: {{ \".\": ground, \"x\": motif }}\nrows: |\n  \
             .x.\n  x..\nrights: own\n=== charts/eight.yaml\ntitle: Eight\ncolours: {{ \".\": ground, \"x\": motif }}\nrows: |\n  \
             .x.xx.x.\n  xx..x..x\nrights: own\n=== 01-hat.yaml\ntitle: Hat\nmakes: hat\ngauge: {{ colourwork: {{ stitches: 21.6, \
             rows: 30 }}, plain: {{ stitches: 21.6, rows: 30 }} }}\ncolours: {{ ground: {{ name: Peat, hex: \"#3b2f2a\" }}, motif: {{ \
             name: Fleece, hex: \"#f2ead8\" }} }}\nbands:\n  - rib: {{ multiple: 2, height: 4 cm }}\n  - plain: {{ rows: 2 }}\n  \
             - chart: three\n  - plain: {{ rows: 2 }}\n{between}  - chart: eight\n  - plain: {{ rows: 2 }}\nsizes: \
             [adult-medium]\n"
        )
    };
    for between in [
        "",
        "  - rib: { multiple: 2, rows: 4 }\n  - plain: { rows: 2 }\n",
    ] {
        let course = course(&lesson(between));
        let pieces = all_pieces(&course.lessons[0]).unwrap();
        let charts: Vec<usize> = pieces[0].parts[0]
            .stages
            .iter()
            .filter(|stage| matches!(stage.kind, StageKind::Band(..)))
            .map(|stage| stage.before)
            .collect();
        assert_eq!(charts, [120, 120], "{between}");
    }
    // Alone each is nearer to its girth.
    let alone = course(&lesson("").replace("  - chart: eight\n", ""));
    let pieces = all_pieces(&alone.lessons[0]).unwrap();
    assert_eq!(pieces[0].main.stitches, 117);
}
