//! What must hold of every schedule, tried on thousands of random pieces.
#![allow(clippy::unwrap_used, reason = "tests may panic")]

use proptest::prelude::*;
use yokeward::ground::units::{Gauge, Length};
use yokeward::piece::schedule::counts::{BandWish, CLOSE, CountError, plan as counts};
use yokeward::piece::schedule::crown::crown;
use yokeward::piece::schedule::even::{Ends, Spread, spread};
use yokeward::piece::schedule::multiple::Fit;
use yokeward::piece::schedule::runs::rhythm;
use yokeward::piece::schedule::{Round, RoundWork};

/// Gaps differ by at most one, and the groups alone lead from count to count.
fn sound(spread: &Spread, ends: Ends) {
    assert_eq!(spread.counted(), (spread.before, spread.after));
    assert!(2 * spread.after >= spread.before);
    assert!(spread.groups.len() <= 2);
    let mut gaps: Vec<usize> = spread.gaps().collect();
    if ends == Ends::Flat && !gaps.is_empty() {
        let first = gaps.first().copied().unwrap();
        assert!(first - spread.last <= 1);
        gaps[0] += spread.last;
    }
    let (low, high) = (gaps.iter().min(), gaps.iter().max());
    assert!(high.unwrap_or(&0) - low.unwrap_or(&0) <= 1, "{spread:?}");
    // No decrease lies far from its perfect place.
    let share = (spread.before as f64
        - if spread.is_decrease() {
            2.0 * gaps.len() as f64
        } else {
            0.0
        })
        / gaps.len().max(1) as f64;
    let mut at = 0.0_f64;
    for gap in &gaps {
        at += *gap as f64 - share;
        assert!(
            at.abs() <= 4.0 + spread.before as f64 / 50.0,
            "{at} {spread:?}"
        );
    }
}

#[test]
fn every_even_round_adds_up() {
    for before in 1..260_usize {
        for after in before.div_ceil(2)..=2 * before {
            for ends in [Ends::Round, Ends::Flat] {
                match spread(before, after, ends) {
                    Ok(found) => sound(&found, ends),
                    Err(_) => assert!(ends == Ends::Flat && after == 2 * before),
                }
            }
        }
        assert!(spread(before, before.div_ceil(2) - 1, Ends::Round).is_err());
        assert!(spread(before, 2 * before + 1, Ends::Round).is_err());
    }
}

#[test]
fn gaps_are_those_of_the_euclidean_rhythm() {
    // Reference values from three independent formulations; a gap there counts the stitches of the decrease, too.
    let text = include_str!("../../reference/even_decreases.json");
    let reference: serde_json::Value = serde_json::from_str(text).unwrap();
    let cases = reference["cases"].as_array().unwrap();
    assert!(cases.len() > 20);
    for case in cases {
        let number = |key: &str| case[key].as_u64().unwrap() as usize;
        let list = |key: &str| -> Vec<usize> {
            let all = case[key].as_array().unwrap();
            all.iter().map(|v| v.as_u64().unwrap() as usize).collect()
        };
        let (n, k) = (number("n"), number("k"));
        let found: Vec<usize> = rhythm(n, k).collect();
        assert_eq!(found, list("floor_sequence"));
        let rotations = (0..k).map(|turn| {
            let mut turned = found.clone();
            turned.rotate_left(turn);
            turned
        });
        assert_eq!(rotations.min().unwrap(), list("canonical_rotation"));
        let Ok(spread) = spread(n, n - k, Ends::Round) else {
            assert!(2 * k > n);
            continue;
        };
        assert_eq!(spread.after, number("stitches_after"));
        let mut gaps: Vec<usize> = spread.gaps().map(|gap| gap + 2).collect();
        let mut wanted = list("floor_sequence");
        gaps.sort_unstable();
        wanted.sort_unstable();
        assert_eq!(gaps, wanted);
    }
}

fn follows(rounds: &[Round], start: usize) -> usize {
    let mut count = start;
    for round in rounds {
        assert_eq!(round.before, count);
        match &round.work {
            RoundWork::Plain => assert_eq!(round.before, round.after),
            RoundWork::Even(spread) => {
                assert_eq!((spread.before, spread.after), (round.before, round.after));
                sound(spread, Ends::Round);
            }
            RoundWork::Sides { .. } => panic!("no sides in a crown"),
        }
        count = round.after;
    }
    count
}

#[test]
fn every_crown_closes() {
    for stitches in 1..=400 {
        for (across, up) in [(10.0, 14.0), (20.0, 26.0), (24.0, 24.0), (40.0, 60.0)] {
            let gauge = Gauge {
                stitches: across,
                rows: up,
            };
            let hat = crown(stitches, gauge).unwrap();
            assert_eq!(follows(&hat.rounds, stitches), hat.end);
            assert!(hat.end <= 10 && (hat.end >= 5 || stitches < 5));
            assert!((5..=10).contains(&hat.wedges));
            if stitches > 10 {
                assert_eq!((stitches - hat.adjusted) % hat.wedges, 0);
                let last: Vec<bool> = hat
                    .rounds
                    .iter()
                    .rev()
                    .map(Round::is_plain)
                    .take(2)
                    .collect();
                assert!(!last.contains(&true), "{stitches}");
            }
            if stitches >= 64 && up / across < 1.45 {
                let off = (hat.height.to_mm() - hat.wanted.to_mm()).abs();
                assert!(off <= 151.0 / up, "{stitches} {off} {}", hat.wedges);
            }
        }
    }
}

fn wishes() -> impl Strategy<Value = Vec<BandWish>> {
    let band = (
        2..=36_usize,
        0..4_usize,
        0.9..1.1_f64,
        any::<bool>(),
        0..4_usize,
    );
    (
        300.0..1600.0_f64,
        10.0..40.0_f64,
        prop::collection::vec(band, 1..7),
    )
        .prop_map(|(girth, gauge, bands)| {
            let wish =
                |(multiple, edges, ease, plain_before, kind): (usize, usize, f64, bool, usize)| {
                    BandWish {
                        fit: match kind {
                            0 => Fit::FREE,
                            1 => Fit { multiple, edges },
                            _ => Fit::of(multiple),
                        },
                        girth: Length::mm(if kind == 3 { girth * ease } else { girth }),
                        gauge,
                        needle: Some(Length::mm(4.0)),
                        plain_before,
                    }
                };
            bands.into_iter().map(wish).collect()
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(5000))]
    #[test]
    fn counts_fit_and_follow(bands in wishes(), flat in any::<bool>()) {
        let ends = if flat { Ends::Flat } else { Ends::Round };
        match counts(&bands, ends) {
            Ok(plan) => {
                let mut count = plan.cast_on;
                for (at, (wish, band)) in bands.iter().zip(&plan.bands).enumerate() {
                    if let Some(change) = plan.changes.iter().find(|change| change.band == at) {
                        prop_assert!(wish.plain_before && !plan.common);
                        prop_assert_eq!(change.spread.before, count);
                        sound(&change.spread, ends);
                        count = change.spread.after;
                    }
                    prop_assert_eq!(band.outcome.stitches, count);
                    prop_assert!(wish.fit.holds(count));
                    let girth = count as f64 * 100.0 / wish.gauge;
                    prop_assert!((band.outcome.girth.to_mm() - girth).abs() < 1e-9);
                    let percent = 100.0 * (girth - wish.girth.to_mm()) / wish.girth.to_mm();
                    prop_assert!((band.outcome.percent - percent).abs() < 1e-9);
                    prop_assert_eq!(band.remedies.is_some(), percent.abs() > CLOSE + 1e-9);
                    if let Some(help) = &band.remedies {
                        let exact = count as f64 * 100.0 / help.gauge;
                        prop_assert!((exact - wish.girth.to_mm()).abs() < 1e-6);
                        prop_assert!(help.more.is_some_and(|more| wish.fit.holds(more.stitches)));
                    }
                }
            }
            Err(CountError::NoPlainRound { below, above }) => {
                prop_assert!(below.0 < above.0 && !bands[above.0].plain_before);
                prop_assert!(bands[below.0].fit.holds(below.1) && bands[above.0].fit.holds(above.1));
            }
            Err(CountError::TooSteep { band, .. }) => prop_assert!(bands[band].plain_before),
            Err(error) => prop_assert!(false, "{:?}", error),
        }
    }

    #[test]
    fn a_single_band_is_nearest(multiple in 1..=36_usize, edges in 0..6_usize, girth in 300.0..1600.0_f64, gauge in 10.0..40.0_f64) {
        let wish = BandWish {
            fit: Fit { multiple, edges },
            girth: Length::mm(girth),
            gauge,
            needle: None,
            plain_before: false,
        };
        let plan = counts(&[wish], Ends::Round).unwrap();
        let target = girth * gauge / 100.0;
        let miss = |count: usize| (count as f64 - target).abs();
        let best = (1..1000).map(|r| edges + r * multiple).map(miss).fold(f64::MAX, f64::min);
        prop_assert!((miss(plan.cast_on) - best).abs() < 1e-9);
    }
}
