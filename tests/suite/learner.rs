//! Logs, the next step, the way to a goal, remedies of gaps.

use std::collections::BTreeSet;

use serde_json::Value;
use yokeward::course::Weights;
use yokeward::path::{Map, State, Stop, route};
use yokeward::rows::grade::Demand;

use crate::harness::{Random, root, yokeward};

fn json(folder: &std::path::Path, arguments: &[&str]) -> Value {
    let (code, out, err) = yokeward(folder, arguments);
    assert_eq!(code, 0, "{err}");
    serde_json::from_str(&out).unwrap()
}

fn lessons() -> String {
    root().join("lessons").display().to_string()
}

#[test]
fn an_empty_log_proposes_the_stripe() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("me.yaml"), "# nothing yet\n").unwrap();
    let lessons = lessons();
    for log in [&["--log", "me.yaml"][..], &[]] {
        let mut arguments = vec!["next", "--json", &lessons];
        arguments.extend(log);
        let next = json(folder.path(), &arguments);
        assert_eq!(next["proposals"][0]["id"], "tideline-cowl");
        assert_eq!(next["aim"]["basis"], "smallest");
    }
}

#[test]
fn proposals_are_ranked_by_what_grade_and_state_say() {
    let folder = tempfile::tempdir().unwrap();
    let log = "done:\n  - { made: tideline-cowl, went: easy }\n  - { made: sanderling-headband, went: right }\n  - { made: pebble, went: hard }\n";
    std::fs::write(folder.path().join("me.yaml"), log).unwrap();
    let lessons = lessons();
    let next = json(
        folder.path(),
        &["next", "--json", "--log", "me.yaml", &lessons],
    );
    let grades = json(folder.path(), &["grade", "--json", &lessons]);
    let charts = json(folder.path(), &["measure", "--json", &lessons]);
    // The state by hand: part-wise maximum, a hard thing at 0.6.
    let names = ["floats", "colours", "reading", "relief", "handling"];
    let graded = |id: &str| -> Value {
        let all = grades["lessons"].as_array().unwrap();
        let bare = charts["charts"].as_array().unwrap();
        all.iter()
            .chain(bare)
            .find(|g| g["id"] == id)
            .unwrap()
            .clone()
    };
    let mut state = [0.0_f64; 5];
    let mut techniques = BTreeSet::new();
    for (id, share) in [
        ("tideline-cowl", 1.0),
        ("sanderling-headband", 1.0),
        ("pebble", 0.6),
    ] {
        let thing = graded(id);
        for (met, name) in state.iter_mut().zip(names) {
            *met = met.max(share * thing["parts"][name].as_f64().unwrap());
        }
        let new = thing["techniques"].as_array().unwrap().clone();
        techniques.extend(new.iter().map(|t| t.as_str().unwrap().to_owned()));
    }
    for (met, name) in state.iter().zip(names) {
        let said = next["state"]["parts"][name].as_f64().unwrap();
        assert!((said - met).abs() < 1e-4, "{name}: {said} {met}");
    }
    let proposals = next["proposals"].as_array().unwrap();
    assert!(proposals.len() > 15);
    let mut before = 0.0;
    for proposal in proposals {
        let id = proposal["id"].as_str().unwrap();
        assert!(!["tideline-cowl", "sanderling-headband", "pebble"].contains(&id));
        let thing = graded(id);
        assert_eq!(proposal["grade"], thing["grade"], "{id}");
        let weights = [30.0, 20.0, 20.0, 15.0, 15.0];
        let mut step = 0.0;
        for ((weight, met), name) in weights.iter().zip(state).zip(names) {
            step += weight * (thing["parts"][name].as_f64().unwrap() - met).max(0.0);
        }
        let asked = thing["techniques"].as_array().unwrap();
        let new = asked
            .iter()
            .filter(|t| !techniques.contains(t.as_str().unwrap()));
        step += 3.0 * new.count() as f64;
        let said = proposal["step"].as_f64().unwrap();
        // Parts are written with four decimals, steps with one.
        assert!((said - step).abs() < 0.06, "{id}: {said} {step}");
        let off = (step - 8.0).abs();
        assert!(off >= before - 0.02, "{id} stands too low");
        before = off;
    }
}

#[test]
fn a_recorded_entry_moves_nothing_else() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("me.yaml");
    let before = "# mine\nlearner: Wren   # me\ndone:   # so far\n  - made: tideline-cowl   # lovely\n    went: right\n\n  # then\n  - made: pebble\n    went: hard   # ouch\n\n# at home\nstock:\n  - { name: Peat, weight: 4 }\n";
    std::fs::write(&path, before).unwrap();
    let lessons = lessons();
    let arguments = [
        "record",
        "tern",
        "--log",
        "me.yaml",
        "--went",
        "easy",
        "--note",
        "a \"bird\"",
        &lessons,
    ];
    let (code, _, err) = yokeward(folder.path(), &arguments);
    assert_eq!(code, 0, "{err}");
    let after = std::fs::read_to_string(&path).unwrap();
    let new: Vec<&str> = after
        .lines()
        .filter(|l| !before.lines().any(|b| b == *l))
        .collect();
    assert_eq!(
        new,
        [
            "  - made: tern",
            "    went: easy",
            "    note: \"a \\\"bird\\\"\""
        ]
    );
    assert_eq!(after.lines().count(), before.lines().count() + 3);
    // The outside reader sees three things.
    let read: serde_yaml::Value = serde_yaml::from_str(&after).unwrap();
    assert_eq!(read["done"].as_sequence().unwrap().len(), 3);
    let (code, _, err) = yokeward(
        folder.path(),
        &[
            "record", "ten", "--log", "me.yaml", "--went", "easy", &lessons,
        ],
    );
    assert_eq!(code, 2);
    assert!(err.contains("did you mean `tern`"), "{err}");
    assert_eq!(std::fs::read_to_string(&path).unwrap(), after);
}

/// Steps of a way; `None` when a need is not met.
fn walk(way: &[usize], demands: &[Demand], needs: &[Vec<usize>]) -> Option<Vec<f64>> {
    let mut state = State::default();
    let mut steps = Vec::new();
    for (i, stop) in way.iter().enumerate() {
        if needs[*stop].iter().any(|need| !way[..i].contains(need)) {
            return None;
        }
        steps.push(state.step(&demands[*stop], Weights::default()).size);
        state.learn(&demands[*stop]);
    }
    Some(steps)
}

/// All ways through any of `left` to `goal`, shortest first.
fn ways(n: usize, goal: usize) -> Vec<Vec<usize>> {
    let mut all: Vec<Vec<usize>> = vec![Vec::new()];
    let mut from = 0;
    while from < all.len() {
        for next in (0..n).filter(|i| *i != goal) {
            if !all[from].contains(&next) {
                let mut way = all[from].clone();
                way.push(next);
                all.push(way);
            }
        }
        from += 1;
    }
    for way in &mut all {
        way.push(goal);
    }
    all
}

#[test]
fn no_way_has_a_smaller_largest_step_or_fewer_stops() {
    let mut random = Random::new(5);
    for round in 0..80 {
        let n = 2 + random.below(4);
        let goal = random.below(n);
        let demands: Vec<Demand> = (0..n)
            .map(|_| Demand {
                parts: std::array::from_fn(|_| random.below(11) as f64 / 10.0),
                techniques: ["stripes", "two-colours", "catching", "thumb"]
                    .iter()
                    .filter(|_| random.below(3) == 0)
                    .map(|t| (*t).to_owned())
                    .collect(),
            })
            .collect();
        let mut needs = vec![Vec::new(); n];
        for (i, need) in needs.iter_mut().enumerate().skip(1) {
            if random.below(3) == 0 {
                need.push(random.below(i));
            }
        }
        let all = ways(n, goal);
        let walked = all.iter().filter_map(|way| walk(way, &demands, &needs));
        let costs: Vec<(f64, usize)> = walked
            .map(|steps| (steps.iter().copied().fold(0.0, f64::max), steps.len()))
            .collect();
        let best = costs.iter().map(|c| c.0).fold(f64::MAX, f64::min);
        let fewest = costs
            .iter()
            .filter(|c| c.0 <= best + 1e-9)
            .map(|c| c.1)
            .min()
            .unwrap();
        let stops: Vec<Stop<'_>> = demands
            .iter()
            .zip(&needs)
            .map(|(demand, needs)| Stop {
                demand,
                needs: needs.clone(),
            })
            .collect();
        let map = Map::new(
            &stops,
            &State::default(),
            &vec![false; n],
            Weights::default(),
        );
        let (found, largest) = route(&map, goal).unwrap();
        assert!((largest - best).abs() < 1e-9, "{round}: {largest} {best}");
        assert!(found.proven);
        assert_eq!(found.stops.len(), fewest, "{round}");
        let steps = walk(&found.stops, &demands, &needs).unwrap();
        assert!(
            steps.iter().all(|s| *s <= best + 1e-9),
            "{round}: {steps:?}"
        );
    }
}

#[test]
fn nobody_is_sent_over_the_budget_and_what_went_hard_may_come_again() {
    let folder = tempfile::tempdir().unwrap();
    let ids = [
        "dunlin-yoke",
        "tideline-cowl",
        "sanderling-headband",
        "drizzle-hat",
        "reed-sampler",
    ];
    // A first step of over fifty points that went easily says that any step goes well.
    let log: String = ids
        .iter()
        .map(|id| format!("  - {{ made: {id}, went: easy }}\n"))
        .collect();
    std::fs::write(folder.path().join("bold.yaml"), format!("done:\n{log}")).unwrap();
    let lessons = lessons();
    let next = json(
        folder.path(),
        &["next", "--json", "--log", "bold.yaml", &lessons],
    );
    assert_eq!(next["aim"]["step"], 15.0, "{}", next["aim"]);
    let text = next["aim"]["text"].as_str().unwrap();
    assert!(
        text.contains("15, the most that the course allows; your 5 results say"),
        "{text}"
    );
    let log = "done:\n  - { made: tideline-cowl, went: easy }\n  - { made: little-tern-hat, went: hard }\n";
    std::fs::write(folder.path().join("hard.yaml"), log).unwrap();
    let way = ["route", "--to", "little-tern-hat", "--log", "hard.yaml"];
    let report = json(folder.path(), &[&way[..], &["--json", &lessons]].concat());
    let stops = report["lessons"].as_array().unwrap();
    assert_eq!(stops.last().unwrap()["again"], true, "{report:#}");
    for stop in &stops[..stops.len() - 1] {
        assert_eq!(stop["again"], false, "{report:#}");
    }
    let (code, words, _) = yokeward(folder.path(), &[&way[..], &[&lessons]].concat());
    assert_eq!(code, 0);
    assert_eq!(words.matches("hat, once more").count(), 1, "{words}");
}

#[test]
fn yarn_at_hand_is_weighed_against_each_colour() {
    // The headband: two colours of weight 4, 31 and 9 g in its middle size.
    let told = |stock: &str| {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(
            folder.path().join("me.yaml"),
            format!("done: []\nstock: {stock}\n"),
        )
        .unwrap();
        let lessons = root().join("lessons").display().to_string();
        let (_, out, _) = yokeward(
            folder.path(),
            &["next", "--json", "--log", "me.yaml", &lessons],
        );
        let report: serde_json::Value = serde_json::from_str(&out).unwrap();
        let all = report["proposals"].as_array().unwrap();
        let hat = all
            .iter()
            .find(|p| p["id"] == "sanderling-headband")
            .unwrap()["reasons"]
            .as_array()
            .unwrap();
        let yarn = hat
            .iter()
            .filter_map(|r| r.as_str())
            .find(|r| r.contains("yarn of its weight"));
        yarn.unwrap_or("").to_owned()
    };
    let takes = "it takes 2 colours: 31 g and 9 g";
    for (stock, wanted) in [
        ("[]", String::new()),
        ("[{ name: Sea, weight: 3, grams: 500 }]", String::new()),
        (
            "[{ name: Grey, weight: 4, grams: 9 }, { name: Peat, weight: 4, grams: 31 }]",
            format!(
                "you have yarn of its weight: Grey (9 g) and Peat (31 g); {takes}; enough for all"
            ),
        ),
        (
            "[{ name: Grey, weight: 4, grams: 500 }]",
            format!("you have yarn of its weight: Grey (500 g); {takes}; enough for 1 of them"),
        ),
        (
            "[{ name: Grey, weight: 4, grams: 8 }, { name: Peat, weight: 4, grams: 2 }]",
            format!(
                "you have yarn of its weight: Grey (8 g) and Peat (2 g); {takes}; enough for none of them"
            ),
        ),
        (
            "[{ name: Grey, weight: 4, grams: 10 }, { name: Peat, weight: 4, grams: 12 }]",
            format!(
                "you have yarn of its weight: Grey (10 g) and Peat (12 g); {takes}; enough for 1 of them"
            ),
        ),
        (
            "[{ name: Grey, weight: 4 }]",
            format!("you have yarn of its weight: Grey; {takes}; weigh what you have"),
        ),
    ] {
        assert_eq!(told(stock), wanted, "{stock}");
    }
}
