//! Fits against published methods and a general library's values.

use yokeward::ground::statistics::{
    BEST_ERROR, Judged, Prior, agreement, leave_one_out, strengths, target_of, to_hundred,
};

use crate::harness::reference;

/// One part an item: a row of the unit matrix.
fn unit(n: usize) -> Vec<Vec<f64>> {
    (0..n)
        .map(|i| (0..n).map(|j| if i == j { 1.0 } else { 0.0 }).collect())
        .collect()
}

fn centred(mut values: Vec<f64>) -> Vec<f64> {
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    values.iter_mut().for_each(|v| *v -= mean);
    values
}

#[test]
fn strengths_equal_those_of_bradley_and_terry() {
    // tests/reference/pairwise_rank.json: choix 0.4.1 (MIT), Hunter (Annals of Statistics 32, 384, 2004), own MM.
    let mut seen = 0;
    for case in reference("pairwise_rank.json")["bradley_terry"]
        .as_array()
        .unwrap()
    {
        let n = usize::try_from(case["n_items"].as_u64().unwrap()).unwrap();
        let index = |v: &serde_json::Value| usize::try_from(v.as_u64().unwrap()).unwrap();
        let wins = case["wins"].as_array().unwrap();
        let judged: Vec<Judged> = wins
            .iter()
            .map(|win| Judged {
                harder: index(&win["winner"]),
                easier: index(&win["loser"]),
                times: win["count"].as_f64().unwrap(),
            })
            .collect();
        let wanted = |key: &str| -> Option<Vec<f64>> {
            let list = case[key].as_array()?;
            Some(list.iter().map(|v| v.as_f64().unwrap()).collect())
        };
        let parts = unit(n);
        if let Some(wanted) = wanted("params_zero_mean") {
            let found = strengths(&parts, &judged, None, false).unwrap();
            for (a, b) in centred(found.weights).iter().zip(&wanted) {
                assert!((a - b).abs() < 1e-6, "{}: {a} {b}", case["name"]);
            }
            let likelihood = case["log_likelihood"].as_f64().unwrap();
            assert!((found.log_likelihood - likelihood).abs() < 1e-6);
            seen += 1;
        }
        let keys = case.as_object().unwrap();
        for key in keys.keys().filter(|k| k.starts_with("map_alpha_0_1")) {
            let Some(wanted) = wanted(key) else { continue };
            let prior = Prior {
                centre: vec![0.0; n],
                strength: 0.1,
            };
            let found = strengths(&parts, &judged, Some(&prior), false).unwrap();
            for (a, b) in found.weights.iter().zip(&wanted) {
                assert!((a - b).abs() < 1e-5, "{} {key}: {a} {b}", case["name"]);
            }
            seen += 1;
        }
    }
    assert!(seen >= 6, "{seen}");
}

#[test]
fn things_judged_always_one_way_have_no_best_strength() {
    let judged = [Judged {
        harder: 0,
        easier: 1,
        times: 3.0,
    }];
    assert_eq!(strengths(&unit(2), &judged, None, false), None);
    let prior = Prior {
        centre: vec![0.0; 2],
        strength: 0.5,
    };
    assert!(strengths(&unit(2), &judged, Some(&prior), false).is_some());
}

#[test]
fn weights_stay_above_nothing_and_follow_the_judgements() {
    // The second part is what makes the first two harder; the first part speaks against them.
    let parts = vec![
        vec![0.1, 0.9],
        vec![0.2, 0.8],
        vec![0.9, 0.1],
        vec![0.8, 0.2],
    ];
    let say = |harder, easier| Judged {
        harder,
        easier,
        times: 4.0,
    };
    let judged = [say(0, 2), say(1, 3), say(0, 3), say(1, 2)];
    let prior = Prior {
        centre: vec![2.0, 1.0],
        strength: 0.02,
    };
    let found = strengths(&parts, &judged, Some(&prior), true).unwrap();
    assert!(
        found.weights.iter().all(|w| *w >= 0.0),
        "{:?}",
        found.weights
    );
    assert!(found.weights[1] > found.weights[0]);
    let exact = |a: f64, b: f64| assert!((a - b).abs() < 1e-12, "{a} {b}");
    exact(agreement(&parts, &judged, &prior.centre), 0.0);
    exact(agreement(&parts, &judged, &found.weights), 1.0);
    exact(leave_one_out(&parts, &judged, &prior), 1.0);
}

#[test]
fn hundred_is_reached_to_the_tenth() {
    assert_eq!(to_hundred(&[1.0, 1.0, 1.0]), Some(vec![33.4, 33.3, 33.3]));
    assert_eq!(to_hundred(&[0.0, 0.0]), None);
    let whole = to_hundred(&[31.07, 19.4, 22.22, 9.0, 18.31]).unwrap();
    assert!(
        (whole.iter().sum::<f64>() - 100.0).abs() < 1e-9,
        "{whole:?}"
    );
}

#[test]
fn the_best_error_is_a_deviation_below_the_middle() {
    // Φ(−1) = 0.1587 in tables of the normal distribution; Wilson et al. 2019 print 15.87 %. Summed here by Simpson's
    // rule from −12 to −1.
    let density = |x: f64| (-x * x / 2.0).exp() / (2.0 * std::f64::consts::PI).sqrt();
    let (from, to, n) = (-12.0, -1.0, 20_000);
    let step = (to - from) / f64::from(n);
    let sum: f64 = (0..=n)
        .map(|i| {
            let weight = if i == 0 || i == n {
                1.0
            } else {
                f64::from(2 + 2 * (i % 2))
            };
            weight * density(from + f64::from(i) * step)
        })
        .sum();
    let phi = sum * step / 3.0;
    assert!((phi - BEST_ERROR).abs() < 1e-10, "{phi}");
    assert!((BEST_ERROR - 0.1587).abs() < 5e-5);
}

#[test]
fn the_right_step_follows_results_and_admits_how_little_it_knows() {
    let nothing = target_of(&[]);
    assert!((nothing.step - 8.0).abs() < 0.5, "{nothing:?}");
    let all = |went: f64, n: usize| -> Vec<(f64, f64)> {
        (0..n).map(|i| (6.0 + (i % 5) as f64 * 3.0, went)).collect()
    };
    let (well, badly) = (target_of(&all(1.0, 10)), target_of(&all(0.0, 10)));
    assert!(
        well.step > nothing.step && badly.step < nothing.step,
        "{well:?} {badly:?}"
    );
    for target in [
        nothing,
        well,
        badly,
        target_of(&[(f64::NAN, 1.0), (5.0, 1.0)]),
    ] {
        assert!(target.low <= target.step && target.step <= target.high);
        assert!(target.low >= 1.0 && target.high <= 30.0);
    }
    // A learner whose success falls from certain to none round 12: the aim lies below that, and many results narrow it.
    let sharp = |n: usize| -> Vec<(f64, f64)> {
        (0..n)
            .map(|i| {
                let step = (i * 7 % 25) as f64;
                (step, if step < 12.0 { 1.0 } else { 0.0 })
            })
            .collect()
    };
    let (few, many) = (target_of(&sharp(6)), target_of(&sharp(200)));
    assert!(many.step > 6.0 && many.step < 12.0, "{many:?}");
    assert!(
        many.high - many.low < few.high - few.low,
        "{few:?} {many:?}"
    );
}
