//! The order is exactly minimal in its largest step, and respects what lessons need.

use std::cell::RefCell;
use std::collections::BTreeSet;

use yokeward::course::{Budget, Weights};
use yokeward::path::{Candidate, Map, State, Stop, Stride, order};
use yokeward::rows::grade::Demand;
use yokeward::words::{Wording, largest_step_words};

use crate::harness::{Random, load};

fn random_demand(random: &mut Random) -> Demand {
    let mut parts = [0.0; 5];
    for part in &mut parts {
        *part = random.below(21) as f64 / 20.0;
    }
    let names = [
        "stripes",
        "two-colours",
        "catching",
        "three-colours",
        "thumb",
    ];
    let techniques: BTreeSet<String> = names
        .iter()
        .filter(|_| random.below(3) == 0)
        .map(|n| (*n).to_owned())
        .collect();
    Demand { parts, techniques }
}

/// Largest step of an order; `None` if it breaks a need.
fn largest(order: &[usize], demands: &[Demand], needs: &[Vec<String>]) -> Option<f64> {
    let mut state = State::default();
    let mut done: Vec<String> = Vec::new();
    let mut largest: f64 = 0.0;
    for &i in order {
        if !needs[i].iter().all(|need| done.contains(need)) {
            return None;
        }
        largest = largest.max(state.step(&demands[i], Weights::default()).size);
        state.learn(&demands[i]);
        done.push(i.to_string());
    }
    Some(largest)
}

fn permutations(n: usize) -> Vec<Vec<usize>> {
    if n == 0 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for shorter in permutations(n - 1) {
        for at in 0..n {
            let mut one = shorter.clone();
            one.insert(at, n - 1);
            all.push(one);
        }
    }
    all
}

#[test]
fn no_permutation_has_a_smaller_largest_step() {
    let mut random = Random::new(21);
    for round in 0..60 {
        let n = 1 + random.below(6);
        let demands: Vec<Demand> = (0..n).map(|_| random_demand(&mut random)).collect();
        let ids: Vec<String> = (0..n).map(|i| i.to_string()).collect();
        let mut needs: Vec<Vec<String>> = vec![Vec::new(); n];
        for (i, need) in needs.iter_mut().enumerate().skip(1) {
            if random.below(3) == 0 {
                need.push(random.below(i).to_string());
            }
        }
        let candidates: Vec<Candidate<'_>> = (0..n)
            .map(|i| Candidate {
                id: &ids[i],
                grade: 0.0,
                demand: &demands[i],
                needs: &needs[i],
            })
            .collect();
        let found = order(&candidates, Weights::default(), Budget::default());
        let places: Vec<usize> = found.placed.iter().map(|p| p.index).collect();
        let ours = largest(&places, &demands, &needs).expect("needs are respected");
        assert!((ours - found.largest_step()).abs() < 1e-9);
        let best = permutations(n)
            .iter()
            .filter_map(|p| largest(p, &demands, &needs))
            .fold(f64::MAX, f64::min);
        assert!(ours <= best + 1e-9, "round {round}: {ours} against {best}");
    }
}

#[test]
fn a_cycle_of_needs_names_every_edge() {
    let loaded = load(&crate::harness::read("tests/fixtures/bad/needs-cycle.txt"));
    let fault = loaded
        .faults
        .iter()
        .find(|f| f.code.name() == "needs-cycle")
        .unwrap();
    assert_eq!(fault.labels.len(), 3);
    let named: Vec<&str> = fault
        .labels
        .iter()
        .map(|l| loaded.sources.slice(l.span))
        .collect();
    assert_eq!(named.iter().collect::<BTreeSet<_>>().len(), 3, "{named:?}");
    assert!(loaded.course.lessons.is_empty());
}

/// Two colours are met for the first time once, in whatever craft; a course, a walk through a library and their budgets agree.
#[test]
fn the_doorstep_is_the_first_two_colours_of_any_craft() {
    let demand = |techniques: &[&str]| Demand {
        parts: [0.0; 5],
        techniques: techniques.iter().map(|t| (*t).to_owned()).collect(),
    };
    let (hook, needles) = (demand(&["crochet/two-colours"]), demand(&["two-colours"]));
    let (stripes, three) = (demand(&["stripes"]), demand(&["crochet/three-colours"]));
    let doorstep = |lessons: &[&Demand]| {
        let ids: Vec<String> = (0..lessons.len()).map(|i| i.to_string()).collect();
        let candidates: Vec<Candidate<'_>> = lessons
            .iter()
            .zip(&ids)
            .enumerate()
            .map(|(i, (demand, id))| Candidate {
                id,
                grade: 0.0,
                demand,
                needs: ids.get(i.wrapping_sub(1)..i).unwrap_or_default(),
            })
            .collect();
        order(&candidates, Weights::default(), Budget::default()).doorstep
    };
    assert_eq!(doorstep(&[&stripes, &hook, &needles]), Some(1));
    assert_eq!(doorstep(&[&needles, &hook]), Some(0));
    assert_eq!(doorstep(&[&stripes, &three]), None);
    let strides = |met: &Demand, next: &Demand| {
        let mut state = State::default();
        state.learn(met);
        let stops = [Stop {
            demand: next,
            needs: Vec::new(),
        }];
        let map = Map::new(&stops, &state, &[false], Weights::default());
        let seen = RefCell::new(Vec::new());
        let walked = map.shortest(0, &|stride: Stride| {
            seen.borrow_mut().push(stride.doorstep);
            true
        });
        assert!(walked.is_some());
        seen.into_inner()
    };
    assert_eq!(strides(&stripes, &hook), [true]);
    assert_eq!(strides(&needles, &hook), [false]);
    assert_eq!(strides(&hook, &needles), [false]);
    assert_eq!(strides(&stripes, &three), [false]);
}

/// Before the first lesson there is none to work again; what is over its budget is not of it.
#[test]
fn the_largest_step_is_told_by_its_place_and_its_size() {
    let wording =
        Wording::of_course(&load(&crate::harness::read("tests/fixtures/courses/us.txt")).course);
    let words =
        |size, door, place| largest_step_words(Budget::default(), (size, door), place, wording);
    let hard = "somebody finds it hard, let her work the";
    let first = format!("of the 15 allowed. If {hard} piece twice with other yarns.");
    assert_eq!(words(15.0, false, 0), first);
    let later = format!("where 15 is allowed. If {hard} lesson before it twice with other yarns.");
    assert_eq!(words(15.1, false, 3), later);
    let met = "The doorstep: two colors meet for the first time. Nobody is spared it; if";
    let door = format!("of the 28 allowed. {met} {hard} piece twice with other yarns.");
    assert_eq!(words(20.0, true, 3), door);
}
