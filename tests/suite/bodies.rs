//! Body sizes against the published tables they come from.

use yokeward::course::body::{Makes, Source, TABLE, garment, target_girth};
use yokeward::ground::units::Length;

use crate::harness::course;

fn head(id: &str) -> f64 {
    TABLE
        .iter()
        .find(|row| row.id == id)
        .unwrap()
        .body()
        .head
        .0
        .to_mm()
}

/// WHO Child Growth Standards, head circumference for age, 2007: medians of boys and girls in cm.
#[test]
fn heads_up_to_four_years_are_the_mean_of_the_who_medians() {
    for (id, boys, girls) in [
        ("baby-newborn", 34.4618, 33.8787),
        ("baby-6m", 43.3306, 42.1995),
        ("baby-12m", 46.0661, 44.8965),
        ("child-2", 48.2515, 47.1822),
        ("child-4", 50.2115, 49.3321),
    ] {
        let mean = (boys + girls) / 2.0 * 10.0;
        assert!(
            (head(id) - mean).abs() < 0.1,
            "{id}: {} against {mean}",
            head(id)
        );
    }
}

/// ANSUR II (NATICK/TR-15/007, 2014): mean and standard deviation of men and women in mm.
#[test]
fn adult_sizes_are_the_mean_of_both_sexes_percentiles() {
    let percentile = |z: f64, men: (f64, f64), women: (f64, f64)| {
        (men.0 + z * men.1 + women.0 + z * women.1) / 2.0
    };
    // Standard normal deviates of the 15th, 50th and 85th percentile.
    for (id, z) in [
        ("adult-small", -1.0364),
        ("adult-medium", 0.0),
        ("adult-large", 1.0364),
    ] {
        let body = TABLE.iter().find(|row| row.id == id).unwrap().body();
        for (girth, men, women) in [
            (body.head.0, (574.4, 16.0), (561.1, 19.4)),
            (body.hand.0, (212.3, 10.2), (186.6, 8.8)),
            (body.chest.0, (1058.7, 87.4), (946.9, 82.7)),
        ] {
            let expected = percentile(z, men, women);
            assert!(
                (girth.to_mm() - expected).abs() <= 0.1,
                "{id}: {} against {expected}",
                girth.to_mm()
            );
        }
    }
}

#[test]
fn bridged_heads_lie_on_a_straight_line_and_sizes_rise() {
    let (five, grown) = ((50.7375 + 49.9229) / 2.0 * 10.0, head("adult-medium"));
    for (id, years) in [
        ("child-6", 6.0),
        ("child-8", 8.0),
        ("child-10", 10.0),
        ("child-12", 12.0),
        ("child-14", 14.0),
    ] {
        let expected = five + (grown - five) * (years - 5.0) / 12.0;
        assert!(
            (head(id) - expected).abs() < 0.1,
            "{id}: {} against {expected}",
            head(id)
        );
    }
    let children: Vec<f64> = TABLE
        .iter()
        .filter(|r| r.id.contains("baby") || r.id.contains("child"))
        .map(|r| head(r.id))
        .collect();
    assert!(children.windows(2).all(|pair| pair[0] < pair[1]));
}

/// Girths aimed at: common practice, no source.
#[test]
fn pieces_are_made_to_their_girth() {
    let medium = TABLE
        .iter()
        .find(|row| row.id == "adult-medium")
        .unwrap()
        .body();
    let girth =
        |makes| target_girth(makes, &medium, None).map(|g| (g.to_mm() * 10.0).round() / 10.0);
    assert_eq!(girth(Makes::Hat), Some(539.4));
    assert_eq!(girth(Makes::Headband), Some(522.4));
    assert_eq!(girth(Makes::Cowl), Some(617.8));
    assert_eq!(girth(Makes::Mitts), Some(195.5));
    assert_eq!(girth(Makes::Yoke), Some(1082.8));
    assert_eq!(girth(Makes::Scarf), None);
    assert_eq!(
        target_girth(Makes::Hat, &medium, Some(Length::cm(-3.0))).map(Length::to_mm),
        Some(537.8)
    );
}

/// Somebody of her own measures gets the garment measures of the nearest chest among those as grown up as she is.
#[test]
fn a_body_of_ones_own_borrows_from_the_nearest_chest() {
    let table = TABLE.iter();
    let of = |id: &str| table.clone().find(|row| row.id == id).unwrap().body();
    let medium = of("adult-medium");
    let mut own = medium.clone();
    own.id = "wren".to_owned();
    let lengths = |body: &yokeward::course::body::Body| {
        let found = garment(body);
        [found.armhole, found.sleeve, found.upper_arm]
    };
    assert_eq!(lengths(&own), lengths(&medium));
    // A child of the same chest is no adult.
    own.adult = false;
    assert_ne!(lengths(&own), lengths(&medium));
}

/// A course's own body gives what a jersey needs, and that is what the jersey is made to.
#[test]
fn a_jersey_is_made_to_the_measures_of_its_own_body() {
    let text = |more: &str| {
        format!(
            "=== course.yaml\ntitle: Own\nbodies: {{ Uncle: {{ chest: 100 cm, head: 59 cm, hand: 21 cm, armhole: 22 cm, sleeve: 46 cm, upper-arm: 34 cm{more} }}, Tot: {{ head: 47 cm }} }}\n=== 01-jersey.yaml\ntitle: Jersey\nmakes: yoke\ngauge: {{ colourwork: {{ stitches: 20, rows: 26 }}, plain: {{ stitches: 20, rows: 28 }} }}\ncolours: {{ ground: {{ name: Peat, hex: \"#3b2f2a\" }}, motif: {{ name: Fleece, hex: \"#f2ead8\" }} }}\nbands:\n  - plain: {{ rows: 2 }}\n  - decrease\n  - rib: {{ rows: 4 }}\nsizes: [Uncle]\n=== 02-hat.yaml\ntitle: Hat\nmakes: hat\ngauge: {{ colourwork: {{ stitches: 20, rows: 26 }}, plain: {{ stitches: 20, rows: 28 }} }}\ncolours: {{ ground: {{ name: Peat, hex: \"#3b2f2a\" }}, motif: {{ name: Fleece, hex: \"#f2ead8\" }} }}\nbands:\n  - plain: {{ rows: 2 }}\nsizes: [Tot, Uncle]\n"
        )
    };
    let course = course(&text(", neck: 41 cm"));
    let [hat, jersey] = course.lessons.as_slice() else {
        panic!()
    };
    let uncle = &jersey.sizes[0];
    let own = garment(uncle);
    let mm = [
        own.armhole,
        own.sleeve,
        own.upper_arm,
        own.neck_base.unwrap(),
    ]
    .map(Length::to_mm);
    assert_eq!(mm, [220.0, 460.0, 340.0, 410.0]);
    assert_eq!(own.source, Source::Course);
    assert!(uncle.adult && !uncle.infant);
    // WHO 2007: half of all children of two have a head of 47.7 cm; what fits one may be a small child's.
    assert!(hat.sizes[0].infant && !hat.sizes[1].infant);
}
