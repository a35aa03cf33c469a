//! Needles by what the trade sells and does: lengths of 40, 60, 80, 100 and 120 cm; work at least as long as its needle and
//! up to twice; below about 42 cm double points or a long loop. Common practice, no source.

use crate::harness::all_pieces;
use yokeward::ground::units::Length;
use yokeward::piece::needles::{NeedleFor, SMALLEST_ROUND, markers, needles};

use crate::demo_course::demo;

#[test]
fn every_round_of_the_demo_course_lies_on_a_needle_that_holds_it() {
    let loaded = demo();
    let mut rounds = 0;
    for lesson in &loaded.course.lessons {
        let pieces = all_pieces(lesson).unwrap();
        let found = needles(lesson, &pieces);
        for stage in pieces.iter().flat_map(|p| &p.parts).flat_map(|p| &p.stages) {
            let girth = lesson.plain_gauge().width(stage.after as f64).to_mm();
            if stage.after == 0 || found.is_empty() {
                continue;
            }
            let held = found.iter().any(|needles| {
                let on_circular = |cm: &u32| {
                    let long = Length::cm(f64::from(*cm)).to_mm();
                    (long..=2.0 * long).contains(&girth)
                };
                needles.circulars.iter().any(on_circular)
                    || (girth < SMALLEST_ROUND && needles.double_points)
            });
            assert!(held, "{}: {girth} mm on {found:?}", lesson.id);
            rounds += 1;
        }
    }
    assert!(rounds > 200);
}

#[test]
fn a_hat_has_double_points_for_its_crown_and_mitts_have_nothing_else() {
    let loaded = demo();
    let of = |id: &str| {
        let lesson = loaded
            .course
            .lessons
            .iter()
            .find(|lesson| lesson.id == id)
            .unwrap();
        let pieces = all_pieces(lesson).unwrap();
        let found = needles(lesson, &pieces);
        let work = found.into_iter().find(|n| n.what == NeedleFor::Work);
        (
            work.map(|n| (n.circulars, n.double_points)),
            markers(lesson, &pieces),
        )
    };
    // A hat of 48 to 57 cm: the shortest circular, then the crown. The crown has up to eight sections, the first of which
    // begins with the round.
    assert_eq!(of("pebble-hat"), (Some((vec![40], true)), 8));
    assert_eq!(of("turnstone-mitts").0, Some((Vec::new(), true)));
    assert_eq!(of("sanderling-headband"), (Some((vec![40], false)), 1));
    // Four joins, the middle of the back, the start.
    assert_eq!(of("dunlin-yoke").1, 6);
    // One between every two sprigs: the largest size has sixteen.
    assert_eq!(of("samphire-yoke").1, 16);
    assert_eq!(of("reed-sampler"), (None, 0));
}
