//! Whole schedules: every count whole, following from the one before by what is printed, fitting every chart.

use yokeward::course::chart::{Chart, Mark};
use yokeward::course::{Band, Lesson};
use yokeward::piece::schedule::{Round, RoundWork};
use yokeward::piece::{Piece, Stage, StageKind};
use yokeward::words::why;
use yokeward::words::{Verbs, round_words, spread_words};

use crate::harness::{Random, all_pieces, load};
use crate::short_forms::work_through;

/// Stitches of a chart after its last row, each row counted from its marks, `repeats` of its repeat between its edges.
fn through_chart(chart: &Chart, repeats: usize, mut stitches: usize) -> usize {
    for row in 0..chart.height {
        let effect = |columns: std::ops::Range<usize>| -> i64 {
            columns
                .map(|c| match chart.mark(row, c) {
                    Mark::RightDecrease | Mark::LeftDecrease => -1,
                    Mark::DoubleDecrease => -2,
                    Mark::MakeOne => 1,
                    _ => 0,
                })
                .sum()
        };
        let repeat = chart.repeat_stitches.clone();
        let inside = effect(repeat.clone()) * i64::try_from(repeats).unwrap();
        let change = inside + effect(0..repeat.start) + effect(repeat.end..chart.width);
        stitches = usize::try_from(i64::try_from(stitches).unwrap() + change).unwrap();
    }
    stitches
}

/// Rounds of a crown or top, each by what is printed of it.
fn check_rounds(stage: &Stage, rounds: &[Round], note: &str) {
    let (before, after) = (stage.before, stage.after);

    let mut now = before;
    for round in rounds {
        assert_eq!(round.before, now, "{note}");
        match &round.work {
            RoundWork::Plain => assert_eq!(round.before, round.after, "{note}"),
            RoundWork::Sides { middle } => {
                assert_eq!(
                    (round.before, round.after),
                    (2 * middle + 12, 2 * middle + 8),
                    "{note}"
                );
            }
            RoundWork::Even(spread) => {
                let words = spread_words(spread, &Verbs::knitted());
                assert_eq!(
                    work_through(&words),
                    (round.before, round.after),
                    "{note}: {words}"
                );
                // The table's shorter form, over and over to the end, says the same.
                let table = round_words(&round.work, round.after, &Verbs::knitted());
                let (work, count) = table.rsplit_once(':').unwrap();
                let (used, left) = work_through(work);
                assert_eq!(round.before % used, 0, "{note}: {table}");
                assert_eq!(left * (round.before / used), round.after, "{note}: {table}");
                assert_eq!(count.trim(), format!("{} left", round.after), "{note}");
            }
        }
        assert!(2 * round.after >= round.before, "{note}");
        now = round.after;
    }
    assert_eq!(now, after, "{note}");
    assert_eq!(stage.rounds, rounds.len(), "{note}");
}

fn check_stage(stage: &Stage, lesson: &Lesson, note: &str) {
    let (before, after) = (stage.before, stage.after);
    match &stage.kind {
        StageKind::CastOn | StageKind::PickUp(_) => assert!(before == 0 && after > 0, "{note}"),
        StageKind::Rib(Some(band)) => {
            assert_eq!(before, after, "{note}");
            if let Band::Rib { multiple, .. } = &lesson.bands[*band] {
                assert_eq!(before % multiple, 0, "{note}: rib over {before}");
            }
        }
        StageKind::Rib(None)
        | StageKind::Plain(..)
        | StageKind::Opening { .. }
        | StageKind::ShortRows(_) => {
            assert_eq!(before, after, "{note}");
        }
        StageKind::Band(band, repeats) => match &lesson.bands[*band] {
            Band::Chart { what, .. } => {
                let chart = &what.chart;
                let (multiple, edges) = (
                    chart.repeat_stitches.len(),
                    chart.width - chart.repeat_stitches.len(),
                );
                if !chart.is_shaped() {
                    assert_eq!(before, edges + repeats * multiple, "{note}");
                }
                assert_eq!(after, through_chart(chart, *repeats, before), "{note}");
            }
            _ => assert_eq!(before, after, "{note}"),
        },
        StageKind::Change(spread) => {
            assert_eq!((spread.before, spread.after), (before, after), "{note}");
            assert!(
                2 * after >= before,
                "{note}: {before} to {after} in one round"
            );
            if before != after {
                let words = spread_words(spread, &Verbs::knitted());
                assert_eq!(work_through(&words), (before, after), "{note}: {words}");
            }
        }
        StageKind::Rounds(rounds) => check_rounds(stage, rounds, note),
        StageKind::Increases { first, every } => {
            let times: usize = every.iter().map(|run| run.times).sum();
            let rounds = times + usize::from(*first > 0);
            let gained = after - before;
            assert!(
                gained == 2 * rounds || gained + 1 == 2 * rounds,
                "{note}: {gained} in {rounds}"
            );
            let last = first + every.iter().map(|run| run.gap * run.times).sum::<usize>();
            assert!(
                last <= stage.rounds,
                "{note}: round {last} of {}",
                stage.rounds
            );
        }
        StageKind::Hold(held) => {
            assert!(
                after + held == before || after + 2 * held == before,
                "{note}"
            );
        }
        StageKind::Join {
            body,
            sleeve,
            underarm,
        } => {
            assert_eq!(
                after,
                body - 2 * underarm + 2 * (sleeve - underarm),
                "{note}"
            );
        }
        StageKind::CastOff => assert_eq!(after, 0, "{note}"),
        StageKind::DrawUp => {
            assert_eq!(after, 0, "{note}");
            assert!(
                before <= 12,
                "{note}: {before} stitches are too many to draw up"
            );
        }
    }
}

fn check_piece(piece: &Piece, lesson: &Lesson, note: &str) {
    for part in &piece.parts {
        let mut now = 0;
        for (i, stage) in part.stages.iter().enumerate() {
            let note = format!("{note}, {:?} stage {i} {:?}", part.name, stage.kind);
            assert_eq!(stage.before, now, "{note}");
            check_stage(stage, lesson, &note);
            now = stage.after;
        }
        let ends = matches!(
            part.stages.last().map(|s| &s.kind),
            Some(StageKind::CastOff | StageKind::DrawUp | StageKind::Hold(_))
        );
        assert!(ends, "{note}: {:?} does not end", part.name);
    }
}

const SIZES: [&str; 27] = [
    "baby-newborn",
    "baby-6m",
    "baby-12m",
    "child-2",
    "child-4",
    "child-6",
    "child-8",
    "child-10",
    "child-12",
    "child-14",
    "adult-small",
    "adult-medium",
    "adult-large",
    "woman-xs",
    "woman-s",
    "woman-m",
    "woman-l",
    "woman-1x",
    "woman-2x",
    "woman-3x",
    "woman-4x",
    "woman-5x",
    "man-s",
    "man-m",
    "man-l",
    "man-xl",
    "man-xxl",
];

/// A course of one lesson, at random: gauge 10 to 40, repeats 2 to 36, any makes and sizes.
fn random_course(random: &mut Random) -> String {
    let makes = [
        "swatch", "scarf", "cowl", "headband", "hat", "mitts", "mittens", "yoke", "yoke",
    ][random.below(9)];
    let (stitches, rows) = (10 + random.below(31), 12 + random.below(36));
    let mut charts = String::new();
    let mut bands = Vec::new();
    if makes != "yoke" {
        bands.push(format!(
            "rib: {{ multiple: {}, height: {} cm }}",
            [2, 4, 5][random.below(3)],
            1 + random.below(6)
        ));
    }
    for i in 0..1 + random.below(3) {
        if random.below(5) > 0 {
            bands.push(format!("plain: {{ rows: {} }}", 1 + random.below(4)));
        }
        if makes == "yoke" && random.below(3) > 0 {
            bands.push("decrease".to_owned());
        }
        let width = 2 + random.below(35);
        let height = 1 + random.below(if makes == "yoke" { 9 } else { 20 });
        let edges = if random.below(5) == 0 {
            1 + random.below(2)
        } else {
            0
        };
        charts.push_str(&format!(
            "=== charts/c{i}.yaml\ntitle: C{i}\ncolours: {{ \".\": a, \"x\": b }}\nrights: own\n"
        ));
        if edges > 0 {
            charts.push_str(&format!(
                "repeat: {{ stitches: {}-{} }}\n",
                1 + edges,
                width + edges
            ));
        }
        charts.push_str("rows: |\n");
        for _ in 0..height {
            let row: String = (0..width + edges)
                .map(|_| if random.below(3) == 0 { 'x' } else { '.' })
                .collect();
            charts.push_str(&format!("  {row}\n"));
        }
        bands.push(format!("chart: c{i}"));
    }
    if makes == "yoke" {
        bands.push("plain: { rows: 2 }".to_owned());
        bands.push("decrease".to_owned());
    }
    if random.below(2) == 0 || makes == "yoke" {
        bands.push("rib: { multiple: 4, height: 2 cm }".to_owned());
    }
    let flat = if makes != "yoke" && random.below(6) == 0 {
        "worked: flat\n"
    } else {
        ""
    };
    let sizes: Vec<&str> = (0..1 + random.below(4))
        .map(|_| SIZES[random.below(SIZES.len())])
        .collect();
    let bands: Vec<String> = bands.iter().map(|band| format!("  - {band}")).collect();
    format!(
        "=== course.yaml\ntitle: Any\n=== 01-it.yaml\ntitle: It\nmakes: {makes}\n{flat}gauge: {{ colourwork: {{ stitches: {stitches}, rows: {rows} }}, plain: {{ stitches: {}, rows: {} }} }}\ncolours: {{ a: {{ name: Peat, hex: \"#3b2f2a\" }}, b: {{ name: Fleece, hex: \"#f2ead8\" }} }}\nbands:\n{}\nsizes: [{}]\n{charts}",
        stitches + random.below(3),
        rows + random.below(4),
        bands.join("\n"),
        sizes.join(", ")
    )
}

#[test]
fn schedules_of_any_course_add_up_or_a_fault_says_why() {
    let mut random = Random::new(11);
    let (mut whole, mut faults) = (0, 0);
    for round in 0..600 {
        let text = random_course(&mut random);
        let loaded = load(&text);
        assert!(!loaded.has_errors(), "{:?}\n{text}", loaded.faults);
        let lesson = &loaded.course.lessons[0];
        match all_pieces(lesson) {
            Ok(pieces) => {
                whole += 1;
                let first = &pieces[0];
                for piece in &pieces {
                    let size = piece.size.as_ref().map_or("", |s| s.id.as_str());
                    check_piece(piece, lesson, &format!("{round} {size}"));
                    // All sizes have the same stages, so that they can be told side by side.
                    for (a, b) in first.parts.iter().zip(&piece.parts) {
                        let kinds = |p: &yokeward::piece::PiecePart| -> Vec<_> {
                            p.stages
                                .iter()
                                .map(|s| std::mem::discriminant(&s.kind))
                                .collect()
                        };
                        assert_eq!(kinds(a), kinds(b), "{round}");
                    }
                }
            }
            Err(reason) => {
                faults += 1;
                let (_, what, help) = why(&reason, lesson);
                assert!(what.len() > 10 && help.len() > 10, "{reason:?}");
                let codes: Vec<&str> = loaded.faults.iter().map(|f| f.code.name()).collect();
                assert!(codes.contains(&"no-counts"), "{codes:?}");
            }
        }
    }
    // A test of faults alone, or of none, would say little.
    assert!(whole > 300 && faults > 20, "{whole} {faults}");
}

#[test]
fn the_demo_course_has_counts_for_every_size() {
    let loaded = crate::demo_course::demo();
    for lesson in &loaded.course.lessons {
        let pieces = all_pieces(lesson).unwrap_or_else(|e| panic!("{}: {e:?}", lesson.id));
        for piece in &pieces {
            check_piece(piece, lesson, &lesson.id);
        }
    }
}
