//! Random yokes: every stage follows, every band fits, or the refusal is true.
#![allow(clippy::unwrap_used, reason = "tests may panic")]

use proptest::prelude::*;
use yokeward::ground::units::{Gauge, Length};
use yokeward::piece::schedule::multiple::Fit;
use yokeward::piece::schedule::yoke::{
    Loss, NeckRule, Percentages, Yoke, YokeBand, YokeError, YokePlace, YokeRemedy, YokeStageKind,
    YokeWish, plan,
};

/// Repeat, edge stitches, kind.
type Repeat = (usize, usize, usize);
/// Plain rounds beneath, loss, rounds, whether stitches are lost inside.
type Rest = (usize, usize, usize, usize);

fn bands() -> impl Strategy<Value = Vec<YokeBand>> {
    let band = (
        (2..=36_usize, 0..4_usize, 0..5_usize),
        (0..4_usize, 0..6_usize, 1..12_usize, 0..6_usize),
    );
    let make = |(repeat, rest): (Repeat, Rest)| {
        let (multiple, edges, kind) = repeat;
        let (plain_before, loss, rounds, lost) = rest;
        let fit = match kind {
            0 => Fit::FREE,
            1 => Fit { multiple, edges },
            _ => Fit::of(multiple),
        };
        let mut live = fit.multiple;
        let mut shaped = Vec::new();
        if lost == 0 {
            shaped = (0..rounds)
                .map(|round| {
                    live -= if round % 3 == 1 && live > 4 { 2 } else { 0 };
                    live
                })
                .collect();
        }
        // Every sixth is plain rounds between two places for decreases.
        if loss == 5 {
            return YokeBand::between(plain_before, rounds);
        }
        YokeBand {
            plain_before,
            loss: [Loss::Keep, Loss::Adjust][..]
                .get(loss)
                .copied()
                .unwrap_or(Loss::Decrease),
            rounds,
            fit,
            shaped,
            plain: false,
        }
    };
    prop::collection::vec(band.prop_map(make), 0..7)
}

fn wishes() -> impl Strategy<Value = YokeWish> {
    let body = (
        300.0..1500.0_f64,
        30.0..100.0_f64,
        340.0..620.0_f64,
        0.2..0.5_f64,
        60.0..260.0_f64,
    );
    let gauges = (10.0..40.0_f64, 1.2..1.5_f64, 0.85..1.1_f64);
    let rest = (0..4_usize, 0..4_usize, 0..16_usize);
    (body, gauges, bands(), rest).prop_map(|(body, gauges, bands, (plain, loss, known))| {
        let (chest, ease, head, base, armhole) = body;
        let (stitches, up, plainer) = gauges;
        let given = |bit: usize, mm: f64| (known & bit == 0).then_some(Length::mm(mm));
        YokeWish {
            chest: Length::mm(chest),
            ease: Length::mm(ease),
            head: given(1, head),
            neck_base: given(2, base * chest),
            armhole: given(4, armhole),
            wrist: (known & 1 != 0).then_some(Length::mm(chest * 0.17)),
            wrist_ease: Length::mm(40.0),
            upper_sleeve: (known & 8 != 0).then_some(Length::mm(chest * 0.4)),
            plain: Gauge {
                stitches: stitches * plainer,
                rows: stitches * up,
            },
            colourwork: Gauge {
                stitches,
                rows: stitches * up * 0.95,
            },
            percentages: Percentages::KNITTING_AROUND,
            bands,
            plain_before_neck: plain,
            neck_loss: [Loss::Keep, Loss::Adjust][..]
                .get(loss)
                .copied()
                .unwrap_or(Loss::Decrease),
            rib: [1, 2, 3, 4][plain],
            clear: None,
        }
    })
}

fn check_pieces(wish: &YokeWish, yoke: &Yoke) {
    let parts = yoke.parts;
    for count in [parts.body, parts.cuff, parts.sleeve, parts.underarm] {
        assert!(count > 0 && count % 2 == 0);
    }
    assert_eq!(parts.cuff % wish.rib, 0);
    let pieces = parts.body - 2 * parts.underarm + 2 * (parts.sleeve - parts.underarm);
    assert_eq!(yoke.joined, pieces);
    let one_stitch = 100.0 / wish.plain.stitches / (wish.chest.to_mm() + wish.ease.to_mm()) * 100.0;
    assert!(yoke.body_percent.abs() <= 3.0_f64.max(one_stitch) + 1e-6);
    assert_eq!(yoke.neck % wish.rib, 0);
    check_rules(wish, yoke);
    if let Some(head) = wish.head {
        assert!(yoke.neck_girth.to_mm() + 1e-6 >= 0.72 * head.to_mm());
    } else {
        assert_ne!(yoke.neck_rule, NeckRule::Head);
    }
}

/// The neck lies within one repeat of its rule, a cuff is no wider than its own.
fn check_rules(wish: &YokeWish, yoke: &Yoke) {
    let girth = |stitches: usize| stitches as f64 * 100.0 / wish.plain.stitches;
    let (one, rib) = (girth(1), girth(wish.rib));
    let even = |mm: f64| 2.0 * (mm * wish.plain.stitches / 200.0 + 0.5).floor();
    let body = 100.0 * even(wish.chest.to_mm() + wish.ease.to_mm()) / wish.plain.stitches;
    let base = wish
        .neck_base
        .map_or(f64::INFINITY, |base| base.to_mm() + 80.0);
    let head = wish.head.map_or(0.0, |head| 0.72 * head.to_mm());
    let rule = (0.4 * body).min(base).max(head);
    assert!(
        (yoke.neck_girth.to_mm() - rule).abs() <= rib + 1e-6,
        "{} {rule} {body} {base} {head} {rib} {:?}",
        yoke.neck_girth.to_mm(),
        (
            yoke.neck_rule,
            yoke.neck,
            yoke.body_girth,
            wish.rib,
            wish.plain
        )
    );
    let wrist = wish
        .wrist
        .map_or(f64::INFINITY, |wrist| wrist.to_mm() + 40.0);
    let cuff = (0.2 * body).min(wrist);
    // The nearest count: half of the repeat, which is made even.
    assert!(
        girth(yoke.parts.cuff) <= cuff.max(2.0 * rib) + rib + one,
        "{} {cuff}",
        girth(yoke.parts.cuff)
    );
}

fn check_stages(wish: &YokeWish, yoke: &Yoke) {
    let mut count = yoke.joined;
    let mut plain_so_far = 0;
    let mut may_lose = false;
    let mut seen = 0;
    let mut mm = 0.0;
    for stage in &yoke.stages {
        assert_eq!(stage.before, count);
        let patterned = match stage.kind {
            YokeStageKind::Band(at) => !wish.bands[at].plain,
            _ => false,
        };
        let gauge = if patterned {
            wish.colourwork
        } else {
            wish.plain
        };
        mm += stage.rounds as f64 * 100.0 / gauge.rows;
        let loss = wish
            .bands
            .get(seen)
            .map_or(wish.neck_loss, |band| band.loss);
        match &stage.kind {
            YokeStageKind::Plain => {
                assert!(stage.rounds > 0 && stage.after == stage.before);
                plain_so_far += stage.rounds;
                may_lose = true;
            }
            YokeStageKind::Decrease(spread) => {
                assert_eq!(stage.rounds, 1);
                assert_eq!((spread.before, spread.after), (stage.before, stage.after));
                assert_eq!(spread.counted(), (stage.before, stage.after));
                // The published rounds lose 25, 33 and 40 per cent.
                assert!(stage.after < stage.before && 10 * stage.after + 5 >= 6 * stage.before);
                assert_ne!(loss, Loss::Keep);
                if loss == Loss::Adjust {
                    assert!(10 * stage.after >= 9 * stage.before);
                }
                plain_so_far += 1;
                may_lose = true;
            }
            YokeStageKind::Band(at) => {
                assert_eq!(*at, seen);
                let band = &wish.bands[*at];
                let plan = &yoke.bands[*at];
                assert!(band.fit.holds(stage.before) && plan.before == stage.before);
                assert_eq!(plan.counts.len(), stage.rounds);
                assert_eq!(plan.counts.last(), Some(&stage.after));
                let mut live = stage.before;
                for next in &plan.counts {
                    assert!(*next <= live && 2 * next >= live);
                    live = *next;
                }
                if seen == 0 {
                    assert!(plain_so_far >= 3, "the underarm is not clear");
                }
                assert!(may_lose || band.plain_before == 0);
                seen += 1;
                may_lose = false;
            }
            YokeStageKind::ShortRows(turns) => {
                assert_eq!(turns.len(), 6);
                assert!(
                    turns
                        .iter()
                        .all(|turn| 0 < turn.past_centre && 3 * turn.past_centre <= count)
                );
                assert_eq!(stage.after, stage.before);
            }
        }
        count = stage.after;
    }
    assert_eq!(count, yoke.neck);
    assert_eq!(seen, wish.bands.len());
    assert_eq!(
        yoke.stages.iter().map(|s| s.rounds).sum::<usize>(),
        yoke.rounds
    );
    assert!((mm - yoke.depth.to_mm()).abs() < 1e-6);
    let quarter = 0.25 * yoke.body_girth.to_mm() * 1.03;
    let depth = wish
        .armhole
        .map_or(quarter, |a| quarter.min(a.to_mm() + 40.0));
    assert!(yoke.depth.to_mm() <= depth + 30.0 + 100.0 / wish.plain.rows);
}

/// Applies a remedy, to see whether it keeps its word.
fn cured(wish: &YokeWish, remedy: YokeRemedy) -> YokeWish {
    let mut cured = wish.clone();
    match remedy {
        YokeRemedy::DecreaseBefore(YokePlace::Band(band)) => {
            cured.bands[band].loss = Loss::Decrease
        }
        YokeRemedy::DecreaseBefore(YokePlace::Neck) => cured.neck_loss = Loss::Decrease,
        YokeRemedy::Repeat { band, multiple } => cured.bands[band].fit.multiple = multiple,
        YokeRemedy::DecreaseEverywhere => {
            cured
                .bands
                .iter_mut()
                .for_each(|band| band.loss = Loss::Decrease);
            cured.neck_loss = Loss::Decrease;
        }
    }
    cured
}

/// Whether any counts lead from these joined rounds to one of these necks, by keeping all counts as a set.
fn reachable(wish: &YokeWish, mut counts: Vec<usize>, neck: usize) -> bool {
    for at in 0..=wish.bands.len() {
        let band = wish.bands.get(at);
        let (mut loss, plain) = band.map_or((wish.neck_loss, wish.plain_before_neck), |band| {
            (band.loss, band.plain_before)
        });
        if loss == Loss::Adjust && plain == 0 && at > 0 {
            loss = Loss::Keep;
        }
        let may = |from: usize, to: usize| match loss {
            Loss::Keep => from == to,
            Loss::Adjust => to <= from && 10 * to >= 9 * from,
            Loss::Decrease => to <= from && 10 * to + 5 >= 6 * from,
        };
        let Some(band) = band else {
            return counts.iter().any(|from| may(*from, neck));
        };
        let most = counts.iter().max().copied().unwrap_or(0);
        counts = (1..=most)
            .filter(|to| band.fit.holds(*to) && counts.iter().any(|from| may(*from, *to)))
            .map(|to| {
                let repeats = (to - band.fit.edges) / band.fit.multiple;
                band.shaped
                    .last()
                    .map_or(to, |live| band.fit.edges + repeats * live)
            })
            .collect();
    }
    false
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]
    #[test]
    fn every_yoke_adds_up_or_says_why(wish in wishes()) {
        match plan(&wish) {
            Ok(yoke) => {
                check_pieces(&wish, &yoke);
                check_stages(&wish, &yoke);
                prop_assert_eq!(plan(&wish).unwrap(), yoke);
            }
            Err(YokeError::NoWay(why)) => {
                for remedy in &why.remedies {
                    let cured = cured(&wish, *remedy);
                    let yoke = plan(&cured);
                    prop_assert!(yoke.is_ok(), "{:?} {:?}", remedy, yoke);
                    check_stages(&cured, &yoke.unwrap());
                }
                // With the pieces as the percentages give them nothing leads to the nearest neck, either.
                let body = (wish.chest.to_mm() + wish.ease.to_mm()) * wish.plain.stitches / 100.0;
                let even = |n: f64| 2 * (n / 2.0 + 0.5 + 1e-9).floor() as usize;
                let body = even(body);
                let sleeve = wish.upper_sleeve.map_or(even(0.33 * body as f64), |girth| {
                    even(girth.to_mm() * wish.plain.stitches / 100.0)
                });
                let joined = body + 2 * sleeve - 4 * even(0.08 * body as f64).max(2);
                if let Some(neck) = why.neck {
                    prop_assert!(!reachable(&wish, vec![joined], neck));
                }
                prop_assert!(why.beneath.0 <= why.beneath.1 && why.allowed.0 <= why.allowed.1);
            }
            Err(YokeError::TooDeep { needed, allowed }) => {
                prop_assert!(needed > allowed && !wish.bands.is_empty());
            }
            Err(YokeError::NeckTooWide { neck, joined }) => prop_assert!(neck > joined),
            Err(YokeError::TooFew { body }) => prop_assert!(body < 60),
            Err(error) => prop_assert!(false, "{:?}", error),
        }
    }
}

#[test]
fn most_sensible_yokes_are_found() {
    // Three or four bands, a place for decreases beneath each and the neck: all sizes, gauges and repeats up to 24.
    let (mut found, mut all) = (0, 0);
    for chest in [585.0, 760.0, 940.0, 1142.0, 1550.0] {
        for stitches in [14.0, 18.0, 20.0, 24.0, 30.0] {
            for repeat in 2..=24 {
                let band = |rounds, multiple| YokeBand {
                    plain_before: 2,
                    loss: Loss::Decrease,
                    rounds,
                    fit: Fit::of(multiple),
                    shaped: Vec::new(),
                    plain: false,
                };
                let gauge = Gauge {
                    stitches,
                    rows: stitches * 1.3,
                };
                let wish = YokeWish {
                    chest: Length::mm(chest),
                    ease: Length::mm(80.0),
                    head: Some(Length::mm(540.0)),
                    neck_base: None,
                    armhole: None,
                    upper_sleeve: None,
                    wrist: None,
                    wrist_ease: Length::mm(40.0),
                    plain: gauge,
                    colourwork: gauge,
                    percentages: Percentages::KNITTING_AROUND,
                    bands: vec![band(4, 4), band(8, repeat), band(4, 6)],
                    plain_before_neck: 2,
                    neck_loss: Loss::Decrease,
                    rib: 4,
                    clear: None,
                };
                all += 1;
                match plan(&wish) {
                    Ok(yoke) => {
                        check_stages(&wish, &yoke);
                        found += 1;
                    }
                    Err(YokeError::TooDeep { .. }) => {}
                    Err(error) => panic!("{chest} {stitches} {repeat}: {error:?}"),
                }
            }
        }
    }
    assert!(10 * found > 9 * all, "{found} of {all}");
}
