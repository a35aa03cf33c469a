//! Counts of bands against sums done by hand.
#![allow(clippy::unwrap_used, reason = "tests may panic")]

use yokeward::ground::units::Length;
use yokeward::piece::schedule::counts::{BandWish, CountError, plan};
use yokeward::piece::schedule::even::Ends;
use yokeward::piece::schedule::multiple::Fit;

fn band(fit: Fit, girth: f64, plain_before: bool) -> BandWish {
    BandWish {
        fit,
        girth: Length::mm(girth),
        gauge: 20.0,
        needle: Some(Length::mm(4.5)),
        plain_before,
    }
}

#[test]
fn a_common_count_is_taken_where_it_is_close() {
    let found = plan(
        &[
            band(Fit::of(4), 540.0, true),
            band(Fit::of(6), 540.0, false),
            band(Fit::FREE, 540.0, false),
        ],
        Ends::Round,
    )
    .unwrap();
    assert!(found.common && found.changes.is_empty());
    assert_eq!(found.cast_on, 108);
    assert_eq!(found.bands[1].outcome.percent, 0.0);
}

#[test]
fn otherwise_a_plain_round_joins_them() {
    // 4 and 19 share only 76 and 152; 100 stitches are wanted: 100, then 95.
    let bands = |plain| {
        [
            band(Fit::of(4), 500.0, true),
            band(Fit::of(19), 500.0, plain),
        ]
    };
    let found = plan(&bands(true), Ends::Round).unwrap();
    assert!(!found.common);
    assert_eq!(found.cast_on, 100);
    assert_eq!(found.bands[1].outcome.stitches, 95);
    let remedies = found.bands[1].remedies.clone().unwrap();
    assert_eq!(remedies.gauge, 19.0);
    assert_eq!(remedies.needle.unwrap().needle, Length::mm(5.0));
    assert_eq!(remedies.fewer.unwrap().stitches, 76);
    assert_eq!(remedies.more.unwrap().stitches, 114);
    assert_eq!(
        (found.changes[0].band, found.changes[0].spread.changes()),
        (1, 5)
    );
    assert_eq!(
        plan(&bands(false), Ends::Round),
        Err(CountError::NoPlainRound {
            below: (0, 100),
            above: (1, 95)
        })
    );
}

#[test]
fn free_bands_keep_the_count_of_a_neighbour() {
    let found = plan(
        &[
            band(Fit::of(4), 500.0, true),
            band(Fit::FREE, 505.0, true),
            band(Fit::of(14), 490.0, true),
            band(Fit::FREE, 495.0, true),
        ],
        Ends::Round,
    )
    .unwrap();
    let counts: Vec<usize> = found.bands.iter().map(|b| b.outcome.stitches).collect();
    assert_eq!(counts, [100, 100, 98, 98]);
    assert_eq!(found.changes.len(), 1);
}

#[test]
fn flat_pieces_may_add_edge_stitches() {
    let found = plan(
        &[band(
            Fit {
                multiple: 24,
                edges: 2,
            },
            540.0,
            true,
        )],
        Ends::Flat,
    )
    .unwrap();
    assert_eq!(found.cast_on, 98);
    let (added, with) = found.bands[0].remedies.clone().unwrap().edges.unwrap();
    assert_eq!((added, with.stitches), (10, 108));
}

#[test]
fn nonsense_is_refused() {
    let refused = |fit, girth| plan(&[band(fit, girth, true)], Ends::Round).unwrap_err();
    for girth in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e300, 1e-300] {
        assert_eq!(
            refused(Fit::of(4), girth),
            CountError::BadMeasure { band: 0 }
        );
    }
    assert_eq!(
        refused(Fit::of(0), 500.0),
        CountError::BadRepeat { band: 0 }
    );
    assert_eq!(plan(&[], Ends::Round), Err(CountError::NoBands));
}
