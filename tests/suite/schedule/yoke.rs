//! The circular yoke against published values, and its rules one by one.
#![allow(clippy::unwrap_used, reason = "tests may panic")]

use yokeward::ground::units::{Gauge, Length};
use yokeward::piece::schedule::multiple::Fit;
use yokeward::piece::schedule::yoke::{
    DepthRule, Loss, NeckRule, Percentages, Yoke, YokeBand, YokeError, YokePlace, YokeRemedy,
    YokeStageKind, YokeWish, plan,
};

/// A third three times at the same places. Source: Zimmermann, *Knitting Without Tears* (1971), from a reader's summary.
const WITHOUT_TEARS: Percentages = Percentages {
    steps: [(0.5, 2.0 / 3.0), (0.75, 2.0 / 3.0), (1.0, 2.0 / 3.0)],
    ..Percentages::KNITTING_AROUND
};

fn band(plain_before: usize, loss: Loss, rounds: usize, multiple: usize) -> YokeBand {
    YokeBand {
        plain_before,
        loss,
        rounds,
        fit: Fit::of(multiple),
        shaped: Vec::new(),
        plain: false,
    }
}

/// 40 inches at 5 stitches and 6.6 rounds to the inch, with no clamps: the published worked example. Three free bands
/// fill the 66 rounds, so that the decreases fall on rounds 33, 50 and 66 as printed.
fn published(inches: f64, percentages: Percentages) -> YokeWish {
    let gauge = Gauge {
        stitches: 500.0 / 25.4,
        rows: 660.0 / 25.4,
    };
    YokeWish {
        chest: Length::inches(inches),
        ease: Length::mm(0.0),
        head: None,
        neck_base: None,
        armhole: None,
        upper_sleeve: None,
        wrist: None,
        wrist_ease: Length::mm(40.0),
        plain: gauge,
        colourwork: gauge,
        percentages,
        bands: vec![
            band(10, Loss::Adjust, 22, 1),
            band(1, Loss::Decrease, 16, 1),
            band(1, Loss::Decrease, 15, 1),
        ],
        plain_before_neck: 1,
        neck_loss: Loss::Decrease,
        rib: 4,
        clear: None,
    }
}

fn decreases(yoke: &Yoke) -> Vec<(usize, usize)> {
    let mut round = 0;
    let mut found = Vec::new();
    for stage in &yoke.stages {
        round += stage.rounds;
        if matches!(stage.kind, YokeStageKind::Decrease(_)) {
            found.push((round, stage.after));
        }
    }
    found
}

#[test]
fn the_published_yoke_comes_out() {
    // Zimmermann, Knitting Around (1989), worked example of a reader's summary: K 200, sleeve 66, underarm 16,
    // joined 268, then 201, 134, 80 at rounds 33, 50 and the neck of 66 rounds. Cuff 20 % from memory.
    let yoke = plan(&published(40.0, Percentages::KNITTING_AROUND)).unwrap();
    let p = yoke.parts;
    assert_eq!((p.body, p.cuff, p.sleeve, p.underarm), (200, 40, 66, 16));
    assert_eq!((yoke.joined, yoke.neck, yoke.rounds), (268, 80, 66));
    assert_eq!(decreases(&yoke), [(33, 201), (50, 134), (66, 80)]);
    assert_eq!(yoke.neck_rule, NeckRule::Percentage);
    assert_eq!(yoke.depth_rule, DepthRule::Percentage);
    assert!((yoke.depth.to_mm() - 254.0).abs() < 1e-6 && yoke.body_percent.abs() < 1e-9);
}

#[test]
fn the_older_percentages_come_out_within_one() {
    // Zimmermann, Knitting Without Tears (1971), the same summary: 179, 120, 80. The book rounds up to stay
    // divisible by three; ours may be one off.
    let yoke = plan(&published(40.0, WITHOUT_TEARS)).unwrap();
    for ((_, after), book) in decreases(&yoke).iter().zip([179_usize, 120, 80]) {
        assert!(after.abs_diff(book) <= 1, "{after} for {book}");
    }
}

#[test]
fn joined_rounds_are_a_third_more_than_the_body() {
    // Computed: 1.34 K = 214.4, 241.2, 294.8, 321.6; pieces are rounded to even counts, so within 4 stitches.
    for (body, joined) in [
        (160.0, 214.4),
        (180.0, 241.2),
        (220.0, 294.8),
        (240.0, 321.6),
    ] {
        let mut wish = published(body / 5.0, Percentages::KNITTING_AROUND);
        wish.bands.iter_mut().for_each(|band| band.rounds = 5);
        let yoke = plan(&wish).unwrap();
        assert_eq!(yoke.parts.body as f64, body);
        assert!(
            (yoke.joined as f64 - joined).abs() <= 4.0,
            "{}",
            yoke.joined
        );
    }
}

/// A child's yoke of four bands at 20 stitches, 26 rounds (28 plain).
fn child(chest: f64, head: f64, armhole: f64) -> YokeWish {
    YokeWish {
        chest: Length::mm(chest),
        ease: Length::mm(50.0),
        head: Some(Length::mm(head)),
        armhole: Some(Length::mm(armhole)),
        plain: Gauge {
            stitches: 20.0,
            rows: 28.0,
        },
        colourwork: Gauge::BARE_CHART,
        bands: vec![
            band(2, Loss::Adjust, 4, 8),
            band(2, Loss::Decrease, 7, 12),
            band(2, Loss::Decrease, 5, 8),
            band(2, Loss::Decrease, 3, 4),
        ],
        plain_before_neck: 1,
        neck_loss: Loss::Adjust,
        ..published(40.0, Percentages::KNITTING_AROUND)
    }
}

#[test]
fn a_neck_goes_over_the_head() {
    for (chest, head, armhole) in [
        (360.0, 341.7, 80.0),
        (585.0, 497.7, 120.6),
        (760.0, 540.9, 165.1),
    ] {
        let yoke = plan(&child(chest, head, armhole)).unwrap();
        assert_eq!(yoke.neck_rule, NeckRule::Head);
        assert!(yoke.neck_girth.to_mm() >= 0.72 * head - 1e-6);
        assert_eq!(yoke.neck % 4, 0);
    }
    let mut wish = child(1550.0, 560.0, 260.0);
    wish.neck_loss = Loss::Decrease;
    wish.neck_base = Some(Length::mm(420.0));
    let yoke = plan(&wish).unwrap();
    // 50 cm at 20 stitches to 10 cm, no more than one repeat of four off.
    assert_eq!(yoke.neck_rule, NeckRule::NeckBase);
    assert!((96..=104).contains(&yoke.neck), "{}", yoke.neck);
    assert_eq!(yoke.depth_rule, DepthRule::Armhole);
    assert!((yoke.depth.to_mm() - 300.0).abs() < 100.0 / 28.0);
}

#[test]
fn charts_with_shaping_lose_their_stitches_inside() {
    // A 19-stitch repeat that loses two stitches in rounds 11, 15, 18, 21 and 24.
    let lost = |round: usize| [11, 15, 18, 21, 24].iter().filter(|r| **r <= round).count();
    let mut wish = child(940.0, 560.0, 184.0);
    wish.ease = Length::mm(80.0);
    wish.bands = vec![
        band(6, Loss::Adjust, 4, 8),
        band(3, Loss::Adjust, 3, 4),
        YokeBand {
            shaped: (1..=24).map(|round| 19 - 2 * lost(round)).collect(),
            ..band(3, Loss::Adjust, 24, 19)
        },
    ];
    wish.neck_loss = Loss::Decrease;
    let yoke = plan(&wish).unwrap();
    let sprigs = &yoke.bands[2];
    assert_eq!(sprigs.before, 19 * sprigs.repeats);
    assert_eq!(sprigs.counts.last(), Some(&(9 * sprigs.repeats)));
    assert!(yoke.bands.iter().all(|band| band.percent.abs() < 10.0));
}

#[test]
fn what_cannot_be_says_why_and_what_helps() {
    // Nothing may be lost before the neck, and one round cannot lose seven tenths.
    let mut wish = child(585.0, 497.7, 120.6);
    for band in &mut wish.bands {
        band.loss = Loss::Adjust;
    }
    let Err(YokeError::NoWay(why)) = plan(&wish) else {
        panic!("no way leads to the neck");
    };
    assert_eq!(why.place, YokePlace::Neck);
    assert_eq!(why.neck, Some(72));
    assert!(why.beneath.0 > 80 && why.allowed.0 > 72);
    assert_eq!(
        why.remedies.first(),
        Some(&YokeRemedy::DecreaseBefore(YokePlace::Neck))
    );

    // Two bands that meet: 22 and 8 share only 88, 176, …
    let mut wish = child(700.0, 500.0, 150.0);
    wish.bands = vec![
        band(2, Loss::Decrease, 4, 8),
        band(0, Loss::Keep, 4, 35),
        band(2, Loss::Decrease, 4, 4),
    ];
    let Err(YokeError::NoWay(why)) = plan(&wish) else {
        panic!("8 and 35 share only 280");
    };
    assert_eq!((why.place, why.loss), (YokePlace::Band(1), Loss::Keep));
    assert_eq!(why.fit, Fit::of(35));
    assert!(
        why.remedies
            .contains(&YokeRemedy::DecreaseBefore(YokePlace::Band(1)))
    );
    assert!(
        why.remedies.contains(&YokeRemedy::Repeat {
            band: 1,
            multiple: 34
        }),
        "{why:?}"
    );
}

#[test]
fn nonsense_is_refused() {
    let good = child(585.0, 497.7, 120.6);
    assert!(plan(&good).is_ok());
    let bad = [0.0, -5.0, f64::NAN, f64::INFINITY, 1e300, 1e-300];
    for value in bad {
        let mm = Length::mm(value);
        let gauge = |g: Gauge| {
            [
                Gauge {
                    stitches: value,
                    ..g
                },
                Gauge { rows: value, ..g },
            ]
        };
        let mut wishes = vec![
            YokeWish {
                chest: mm,
                ..good.clone()
            },
            YokeWish {
                head: Some(mm),
                ..good.clone()
            },
            YokeWish {
                neck_base: Some(mm),
                ..good.clone()
            },
            YokeWish {
                armhole: Some(mm),
                ..good.clone()
            },
            YokeWish {
                upper_sleeve: Some(mm),
                ..good.clone()
            },
        ];
        wishes.extend(gauge(good.plain).map(|plain| YokeWish {
            plain,
            ..good.clone()
        }));
        wishes.extend(gauge(good.colourwork).map(|colourwork| YokeWish {
            colourwork,
            ..good.clone()
        }));
        for wish in wishes {
            // A tiny head, a tiny base of the neck or a huge armhole forbids nothing.
            if let Ok(yoke) = plan(&wish) {
                assert!(yoke.neck > 0 && yoke.rounds > 0);
            }
        }
    }
    for band in [
        band(usize::MAX, Loss::Keep, 1, 1),
        band(0, Loss::Keep, usize::MAX, 1),
        band(0, Loss::Keep, 0, 1),
        band(0, Loss::Keep, 1, 0),
        band(0, Loss::Keep, 1, usize::MAX),
    ] {
        let wish = YokeWish {
            bands: vec![band],
            ..good.clone()
        };
        assert_eq!(plan(&wish), Err(YokeError::BadBand { band: 0 }));
    }
    for wish in [
        YokeWish {
            plain_before_neck: usize::MAX,
            ..good.clone()
        },
        YokeWish {
            clear: Some(usize::MAX),
            ..good.clone()
        },
        YokeWish {
            rib: 0,
            ..good.clone()
        },
        YokeWish {
            rib: usize::MAX,
            ..good.clone()
        },
    ] {
        assert!(plan(&wish).is_err());
    }
}
