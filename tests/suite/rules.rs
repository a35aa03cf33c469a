//! Rules that no number of the demo course shows: what breaks a tie, what is too much at once, what an id may hold.

use std::collections::BTreeSet;

use yokeward::course::{Budget, Weights};
use yokeward::handout::{Print, handouts};
use yokeward::path::{Candidate, order};
use yokeward::rows::grade::Demand;

use crate::demo_course::demo;
use crate::harness::{chart, load, study_chart};
use yokeward::course::Hand;

fn demand(techniques: &[&str]) -> Demand {
    Demand {
        parts: [0.1; 5],
        techniques: techniques
            .iter()
            .map(|t| (*t).to_owned())
            .collect::<BTreeSet<_>>(),
    }
}

/// Ids in the order of these candidates: id, grade.
fn placed(candidates: &[(&str, f64)], demand: &Demand) -> Vec<String> {
    let candidates: Vec<Candidate<'_>> = candidates
        .iter()
        .map(|(id, grade)| Candidate {
            id,
            grade: *grade,
            demand,
            needs: &[],
        })
        .collect();
    let order = order(&candidates, Weights::default(), Budget::default());
    order
        .placed
        .iter()
        .map(|p| candidates[p.index].id.to_owned())
        .collect()
}

#[test]
fn equal_steps_go_by_grade_then_by_id() {
    let same = demand(&["stripes"]);
    assert_eq!(
        placed(&[("wren", 8.0), ("avocet", 9.0), ("ruff", 8.0)], &same),
        ["ruff", "wren", "avocet"]
    );
}

#[test]
fn three_new_things_are_a_gap_however_small_the_step() {
    let first = demand(&["stripes"]);
    let budget = Budget {
        step: 100.0,
        doorstep: 100.0,
        techniques: 2,
    };
    for (new, gaps) in [(&["a", "b"][..], 0), (&["a", "b", "c"], 1)] {
        let second = demand(new);
        let each = [("one", 1.0, &first), ("two", 2.0, &second)];
        let candidates: Vec<Candidate<'_>> = each
            .iter()
            .map(|(id, grade, demand)| Candidate {
                id,
                grade: *grade,
                demand,
                needs: &[],
            })
            .collect();
        let order = order(&candidates, Weights::default(), budget);
        assert_eq!(order.gaps.len(), gaps, "{new:?}");
        assert!(order.gaps.iter().all(|gap| gap.too_many && !gap.too_large));
    }
}

#[test]
fn ids_are_small_letters_digits_and_hyphens() {
    for (id, fine) in [
        ("wren-2", true),
        ("Wren", false),
        ("wren_2", false),
        ("-wren", false),
        ("brünnich", false),
    ] {
        let text = format!("=== course.yaml\nid: {id}\ntitle: It\n");
        let wrong = load(&text)
            .faults
            .iter()
            .any(|fault| fault.code.name() == "wrong-value");
        assert_eq!(wrong, !fine, "{id}");
    }
}

#[test]
fn a_row_is_its_neighbour_swapped_only_in_the_same_two_colours() {
    // Row 2 has the runs of row 1, the colours changed about: in the same two yarns that is one thing to learn, with a
    // third yarn in place of one it is as much as any row of four blocks.
    let learn = |top: &str| {
        let chart = chart(&["......", top, "..x.xx"], "");
        let rows = &study_chart(&chart, 20.0).measures.rows;
        (rows[0].learn, rows[1].learn)
    };
    assert_eq!(learn("xx.x.."), (4, 1));
    assert_eq!(learn("xxoxoo"), (4, 4));
}

#[test]
fn a_colour_carried_past_six_rows_has_ends_of_its_own() {
    // Six rows without it are carried past, seven are not: two stretches of use, four ends; the ground has two.
    let ends = |rest: usize| {
        let mut rows = vec!["x."];
        rows.extend(vec![".."; rest]);
        rows.push("x.");
        study_chart(&chart(&rows, ""), 20.0).measures.colours.ends
    };
    assert_eq!((ends(6), ends(7)), (4, 6));
}

#[test]
fn thumbs_change_sides_with_the_hand() {
    let loaded = demo();
    let studied = yokeward::app::study_course(&loaded.course);
    let opening = |left_handed: bool| {
        let print = Print {
            hand: if left_handed { Hand::Left } else { Hand::Right },
            ..Print::default()
        };
        let all = handouts(&studied, &print);
        let steps: Vec<String> = all
            .iter()
            .flat_map(|handout| &handout.steps)
            .filter(|step| step.title == "Thumb opening")
            .map(|step| step.text.clone())
            .collect();
        assert!(!steps.is_empty());
        steps
    };
    assert!(
        opening(false)
            .iter()
            .all(|text| text.contains(" Right hand: at the start"))
    );
    assert!(
        opening(true)
            .iter()
            .all(|text| text.contains(" Left hand: at the start"))
    );
}

#[test]
fn an_aim_follows_what_went_wrong_as_well_as_what_went_right() {
    use yokeward::ground::statistics::target_of;
    // Failures at steps of every size bring the aim down, successes bring it up; the nearer the step, the more.
    let of = |steps: [f64; 5], went: f64| target_of(&steps.map(|step| (step, went)));
    let (low, high) = ([3.0, 4.0, 5.0, 4.0, 3.0], [14.0, 16.0, 18.0, 16.0, 14.0]);
    let usual = target_of(&[]);
    assert!((usual.step - 8.0).abs() < 0.6, "{usual:?}");
    let (failed_low, failed_high) = (of(low, 0.0), of(high, 0.0));
    assert!(failed_low.step < failed_high.step && failed_high.step < usual.step);
    let (went_low, went_high) = (of(low, 1.0), of(high, 1.0));
    assert!(went_high.step > went_low.step && went_low.step > failed_low.step);
    assert!(
        failed_low.step < 3.0 && went_high.step > 12.0,
        "{failed_low:?} {went_high:?}"
    );
    for target in [usual, failed_low, failed_high, went_low, went_high] {
        assert!(
            target.low <= target.step && target.step <= target.high,
            "{target:?}"
        );
    }
}

#[test]
fn a_judgement_of_two_equal_things_is_half_right() {
    use yokeward::ground::statistics::{Judged, agreement};
    let parts = vec![vec![0.5, 0.0], vec![0.5, 0.0], vec![0.1, 0.0]];
    let judged = |harder, easier| Judged {
        harder,
        easier,
        times: 1.0,
    };
    let all = [judged(0, 1), judged(0, 2), judged(2, 1)];
    // Half for the equal pair, one for the right one, nothing for the wrong one.
    assert_eq!(agreement(&parts, &all, &[100.0, 0.0]), 0.5);
    assert_eq!(agreement(&parts, &all[..1], &[100.0, 0.0]), 0.5);
    assert_eq!(agreement(&parts, &all[1..2], &[100.0, 0.0]), 1.0);
}
