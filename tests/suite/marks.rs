//! Yokes with several places for decreases: every mark is a round of its own, and what can be reached is reached.

use yokeward::app::study_course;
use yokeward::course::PrintedSizes;
use yokeward::course::body::Makes;
use yokeward::handout::{Print, course_plan, handouts};
use yokeward::piece::{NoSchedule, PartName, Piece, StageKind, pieces};

use crate::harness::{Random, all_pieces, course, load};

/// One line of `bands:`.
#[derive(Clone, Copy, Debug)]
enum Line {
    Chart(usize),
    Plain(usize),
    Decrease,
}

/// Bands of a yoke with one to five marks; plain rounds or none between them.
fn bands(random: &mut Random) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut marks = 1 + random.below(5);
    for _ in 0..1 + random.below(3) {
        if marks > 0 && random.below(3) > 0 {
            lines.push(Line::Decrease);
            marks -= 1;
        }
        lines.push(Line::Plain(1 + random.below(3)));
        lines.push(Line::Chart([4, 6, 8, 12][random.below(4)]));
    }
    for _ in 0..marks {
        lines.push(Line::Plain(1 + random.below(8)));
        lines.push(Line::Decrease);
    }
    lines
}

fn lesson(lines: &[Line], rib: usize) -> String {
    let mut text = "=== course.yaml\ntitle: Marks\n".to_owned();
    for repeat in [4, 6, 8, 12] {
        let row = ".".repeat(repeat - 1);
        text.push_str(&format!(
            "=== charts/c{repeat}.yaml\ntitle: C{repeat}\nrights: own\ncolours: {{ \".\": ground, x: motif }}\nrows: |\n  {row}x\n  x{row}\n"
        ));
    }
    text.push_str(
        "=== 01-yoke.yaml\ntitle: Yoke\nmakes: yoke\ngauge: { colourwork: { stitches: 20, rows: 26 }, plain: { stitches: 20, rows: 26 } }\n\
         colours: { ground: { name: Peat, hex: \"#3b2f2a\" }, motif: { name: Fleece, hex: \"#f2ead8\" } }\nbands:\n",
    );
    for line in lines {
        text.push_str(&match line {
            Line::Chart(repeat) => format!("  - chart: c{repeat}\n"),
            Line::Plain(rows) => format!("  - plain: {{ rows: {rows}, colour: ground }}\n"),
            Line::Decrease => "  - decrease\n".to_owned(),
        });
    }
    text.push_str(&format!(
        "  - rib: {{ multiple: {rib}, height: 2 cm, colour: ground }}\nsizes: [adult-medium]\n"
    ));
    text
}

/// Whether any counts lead from this joined round to a neck, by keeping all counts as a set: a mark may lose two fifths,
/// plain rounds without one a tenth, and a long plain stretch with a mark may lose twice.
fn feasible(lines: &[Line], joined: usize, necks: &[usize]) -> bool {
    let mut counts: Vec<bool> = (0..=joined).map(|n| n == joined).collect();
    let lose = |counts: &[bool], least: fn(usize) -> usize| -> Vec<bool> {
        let mut next = vec![false; counts.len()];
        for from in (0..counts.len()).filter(|n| counts[*n]) {
            (least(from)..=from).for_each(|to| next[to] = true);
        }
        next
    };
    let fifths = |n: usize| (6 * n).saturating_sub(5).div_ceil(10);
    let tenth = |n: usize| (9 * n).div_ceil(10);
    // Plain rounds before the first mark, between marks, after the last; a long stretch has room for one round more. A
    // stretch with one mark is one, wherever the mark stands in it.
    let gap = |counts: Vec<bool>, parts: &[usize]| -> Vec<bool> {
        let marks = parts.len() - 1;
        match (marks, parts[0]) {
            (0, 0) => counts,
            (0, _) => lose(&counts, tenth),
            (1, _) => {
                let rounds = 1 + usize::from(parts[0] + parts[1] >= 6);
                (0..rounds).fold(counts, |counts, _| lose(&counts, fifths))
            }
            _ => {
                let room = parts.iter().filter(|rows| **rows >= 6).count();
                (0..marks + room).fold(counts, |counts, _| lose(&counts, fifths))
            }
        }
    };
    let mut parts = vec![0];
    // Rounds clear the underarm before the first band, so there is plain work in any case.
    let mut first = true;
    for line in lines {
        match line {
            Line::Plain(rows) => *parts.last_mut().unwrap() += rows,
            Line::Decrease => parts.push(0),
            Line::Chart(repeat) => {
                if first && parts.len() == 1 {
                    parts[0] = parts[0].max(3);
                }
                first = false;
                counts = gap(counts, &parts);
                counts
                    .iter_mut()
                    .enumerate()
                    .for_each(|(n, is)| *is &= n % repeat == 0);
                parts = vec![0];
            }
        }
    }
    counts = gap(counts, &parts);
    necks.iter().any(|neck| counts.get(*neck) == Some(&true))
}

fn check(piece: &Piece, lines: &[Line], rib: usize) {
    let yoke = piece
        .parts
        .iter()
        .find(|part| part.name == PartName::Yoke)
        .unwrap();
    let mut narrowings = 0;
    for stage in &yoke.stages {
        if matches!(stage.kind, StageKind::Change(_)) && stage.after < stage.before {
            assert!(
                10 * stage.after + 5 >= 6 * stage.before,
                "{lines:?}: {} to {}",
                stage.before,
                stage.after
            );
            narrowings += 1;
        }
    }
    let marks = lines
        .iter()
        .filter(|line| matches!(line, Line::Decrease))
        .count();
    let charts = lines
        .iter()
        .filter(|line| matches!(line, Line::Chart(_)))
        .count();
    assert!(
        narrowings > 0 && narrowings <= 2 * marks + charts + 1,
        "{lines:?}"
    );
    // Adult medium: chest 1001.5 mm or so and 8 cm; the neck within one repeat of its rule.
    let neck = yoke.stages.last().unwrap().before;
    assert_eq!(neck % rib, 0);
    assert!((neck as f64 - 86.4).abs() <= rib as f64, "{neck}");
    let cuff = piece.parts[1].stages[0].after as f64 * 5.0;
    let wrist = piece.size.as_ref().unwrap().hand.0.to_mm() * 0.83 + 40.0;
    assert!(cuff <= wrist + rib as f64 * 5.0 + 5.0, "{cuff} {wrist}");
}

#[test]
fn every_mark_is_a_round_of_its_own() {
    let mut random = Random::new(59);
    let (mut made, mut refused) = (0, 0);
    for _ in 0..300 {
        let (lines, rib) = (bands(&mut random), [2, 4][random.below(2)]);
        let course = course(&lesson(&lines, rib));
        let lesson = &course.lessons[0];
        assert_eq!(lesson.makes, Makes::Yoke);
        match all_pieces(lesson) {
            Ok(all) => {
                check(&all[0], &lines, rib);
                made += 1;
            }
            Err(NoSchedule::Yoke(error, _)) => {
                let text = format!("{error:?}");
                if text.contains("TooDeep") {
                    continue;
                }
                // Body 216, so a neck of 86.4 stitches, no more than one repeat off.
                let near = |neck: &usize| (*neck as f64 - 86.4).abs() <= rib as f64;
                let necks: Vec<usize> = (70..=100).filter(|n| n % rib == 0).filter(near).collect();
                assert!(!feasible(&lines, 288, &necks), "{lines:?}: {text}");
                refused += 1;
            }
            Err(other) => panic!("{lines:?}: {other:?}"),
        }
    }
    assert!(made > 150, "{made} made, {refused} refused");
}

/// The commonest yoke: a patterned band, then plain work that narrows to the neck.
#[test]
fn a_band_and_plain_narrowing_above_it_lead_to_the_neck() {
    use Line::{Chart, Decrease, Plain};
    let lines = [
        Plain(2),
        Chart(8),
        Decrease,
        Plain(10),
        Decrease,
        Plain(10),
        Decrease,
    ];
    let course = course(&lesson(&lines, 4));
    let all = all_pieces(&course.lessons[0]).unwrap();
    let yoke = all[0]
        .parts
        .iter()
        .find(|part| part.name == PartName::Yoke)
        .unwrap();
    let lost: Vec<(usize, usize)> = yoke
        .stages
        .iter()
        .filter(|s| matches!(s.kind, StageKind::Change(_)) && s.after < s.before)
        .map(|s| (s.before, s.after))
        .collect();
    assert!(lost.len() >= 3, "{lost:?}");
}

/// A size without counts takes nothing from the others: they are printed and summed, and it is named with its reason.
#[test]
fn a_size_without_counts_leaves_the_others_theirs() {
    let text = |sizes: &str| {
        format!(
            "=== course.yaml\ntitle: Part\n=== 01-jersey.yaml\ntitle: Jersey\nmakes: yoke\ngauge: {{ colourwork: {{ stitches: 20, rows: 26 }}, plain: {{ stitches: 20, rows: 28 }} }}\nyarn: {{ metres_per_100g: 200 }}\ncolours: {{ ground: {{ name: Peat, hex: \"#3b2f2a\" }}, motif: {{ name: Fleece, hex: \"#f2ead8\" }} }}\nbands: [ plain: {{ rows: 2 }}, chart: reef, decrease, chart: reef, decrease, rib: {{ rows: 4 }} ]\nsizes: [{sizes}]\n=== charts/reef.yaml\ntitle: Reef\ncolours: {{ \".\": ground, \"x\": motif }}\nrights: own\nrows: |\n  x.xx..x.xx..x.xx..x.xx\n  .xx.x..xx.x..xx.x..xx.\n"
        )
    };
    let (both, alone) = (
        load(&text("baby-newborn, adult-medium")),
        load(&text("baby-newborn")),
    );
    let faults: Vec<String> = both.faults.iter().map(|f| f.title.clone()).collect();
    let named = "no counts for Jersey, adult-medium: the neck needs about 88 stitches";
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(faults[0].starts_with(named), "{faults:?}");
    let made = pieces(&both.course.lessons[0]);
    assert_eq!(made.made, all_pieces(&alone.course.lessons[0]).unwrap());
    assert_eq!(made.without.len(), 1);
    let studied = [&both, &alone].map(|loaded| study_course(&loaded.course));
    let [with, without] = studied
        .each_ref()
        .map(|s| handouts(s, &Print::default()).remove(0));
    let texts = |steps: &[yokeward::words::Instruction]| {
        steps.iter().map(|s| s.text.clone()).collect::<Vec<_>>()
    };
    assert_eq!(texts(&with.steps), texts(&without.steps));
    assert!(
        with.size_notes
            .iter()
            .any(|n| n.starts_with("**Adult medium** has no counts: the neck")),
        "{:?}",
        with.size_notes
    );
    let sums = studied
        .each_ref()
        .map(|s| course_plan(s, &Print::default()).yarns);
    assert!(sums[0].iter().all(|yarn| yarn.used.is_some()));
    assert_eq!(sums[0].len(), sums[1].len());
    // She whose size it is gets no counts of another.
    let own = Print {
        sizes: PrintedSizes::Only("adult-medium".to_owned()),
        ..Print::default()
    };
    let own = handouts(&studied[0], &own).remove(0);
    assert_eq!(own.steps.len(), 1);
    assert!(
        own.steps[0]
            .text
            .contains("the neck needs about 88 stitches"),
        "{}",
        own.steps[0].text
    );
}
