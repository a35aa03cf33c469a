//! The colour module against published values. Each test names its source.

use serde_json::Value;
use yokeward::ground::colour::{
    Lab, Rgb, Sight, Which, at_lightness, contrast, difference, difference_lab, lab, luminance,
    nearest_change, reads_apart, seen,
};

const SHARMA: &str = include_str!("../reference/ciede2000_sharma.csv");
const SRGB_LAB: &str = include_str!("../reference/srgb_lab_d65.json");
const CONTRAST: &str = include_str!("../reference/wcag_contrast.json");
const DEFICIENCIES: &str = include_str!("../reference/cvd_machado2009.json");

fn rgb(hex: &Value) -> Rgb {
    let digits = hex.as_str().unwrap().trim_start_matches('#');
    let [_, r, g, b] = u32::from_str_radix(digits, 16).unwrap().to_be_bytes();
    [r, g, b]
}

fn numbers(list: &Value) -> Vec<f64> {
    let list = list.as_array().unwrap();
    list.iter().map(|v| v.as_f64().unwrap()).collect()
}

/// The list `key` of a reference file; it must hold at least `least` entries, lest a test pass on nothing.
fn entries(text: &str, key: &str, least: usize) -> Vec<Value> {
    let all: Value = serde_json::from_str(text).unwrap();
    let list = all[key].as_array().unwrap().clone();
    assert!(list.len() >= least);
    list
}

/// Sharma, Wu and Dalal, Color Research and Application 30(1), 21-30 (2005), Table 1, all 34 pairs, both directions.
/// Four decimals are published, so 1e-4. In a pair marked as on the edge of 180 degrees the rounding of the hue angles
/// decides: pair 14 may be 4.7461 too.
#[test]
fn ciede2000_equals_the_table_of_sharma_wu_and_dalal() {
    let mut pairs = 0;
    let rows = SHARMA.lines().filter(|line| !line.starts_with('#')).skip(1);
    for row in rows {
        let fields: Vec<f64> = row.split(',').map(|f| f.parse().unwrap()).collect();
        let [pair, l1, a1, b1, l2, a2, b2, published] = fields[..8].try_into().unwrap();
        let one = Lab {
            l: l1,
            a: a1,
            b: b1,
        };
        let two = Lab {
            l: l2,
            a: a2,
            b: b2,
        };
        for got in [difference_lab(one, two), difference_lab(two, one)] {
            let close = |wanted: f64| (got - wanted).abs() <= 1e-4;
            let other_side = pair == 14.0 && close(4.7461);
            assert!(close(published) || other_side, "pair {pair}: {got}");
        }
        pairs += 1;
    }
    assert_eq!(pairs, 34);
}

/// IEC 61966-2-1 and CIE 1976 L*a*b* (D65, 2 degrees); own reference code and three libraries, which differ by up to
/// 0.02 in their rounding of matrix and white.
#[test]
fn lab_equals_the_reference() {
    for colour in entries(SRGB_LAB, "colours", 22) {
        let got = lab(rgb(&colour["hex"]));
        let wanted = numbers(&colour["lab"]);
        for (got, wanted) in [got.l, got.a, got.b].into_iter().zip(wanted) {
            assert!((got - wanted).abs() <= 0.02, "{colour}: {got}");
        }
        let wanted = colour["relative_luminance_wcag"].as_f64().unwrap();
        assert!((luminance(rgb(&colour["hex"])) - wanted).abs() <= 1e-6);
    }
}

/// WCAG 2.x, relative luminance and contrast ratio; values of one library, reached by other code as well.
#[test]
fn contrast_equals_the_reference() {
    for pair in entries(CONTRAST, "pairs", 18) {
        let got = contrast(rgb(&pair["a"]), rgb(&pair["b"]));
        let wanted = pair["ratio"].as_f64().unwrap();
        assert!((got - wanted).abs() <= 1e-6, "{pair}: {got}");
        for (key, least) in [("passes_3", 3.0), ("passes_4_5", 4.5), ("passes_7", 7.0)] {
            assert_eq!(pair[key].as_bool().unwrap(), got >= least, "{pair}");
        }
    }
}

/// Machado, Oliveira and Fernandes, IEEE Transactions on Visualization and Computer Graphics 15(6), 1291-1298 (2009),
/// severity 1.0, on linear values; two libraries. One step of 8 bits is allowed for the rounding.
#[test]
fn deficiencies_equal_the_reference() {
    for colour in entries(DEFICIENCIES, "colours", 16) {
        for (name, sight) in [
            ("protanopia", Sight::Protan),
            ("deuteranopia", Sight::Deutan),
            ("tritanopia", Sight::Tritan),
        ] {
            let got = seen(rgb(&colour["hex"]), sight);
            let wanted = numbers(&colour[name]["srgb255_clipped"]);
            for (got, wanted) in got.into_iter().zip(wanted) {
                assert!((f64::from(got) - wanted).abs() <= 1.0, "{colour} {name}");
            }
            assert_eq!(got, rgb(&colour[name]["hex_clipped"]), "{colour} {name}");
        }
    }
}

/// Colours in even steps through all of sRGB, the corners among them.
fn lattice(steps: u8) -> Vec<Rgb> {
    let side = steps + 1;
    let at = |i: u16| (i * 255 / u16::from(steps)) as u8;
    (0..u16::from(side).pow(3))
        .map(|i| {
            let side = u16::from(side);
            [at(i / side / side), at(i / side % side), at(i % side)]
        })
        .collect()
}

/// No published value: the measure must be a number, the same both ways, and nothing for a colour beside itself.
#[test]
fn the_difference_is_symmetric_and_finite() {
    let colours = lattice(4);
    for a in &colours {
        assert_eq!(difference(*a, *a), 0.0);
        for b in &colours {
            let got = difference(*a, *b);
            assert!(got.is_finite() && got >= 0.0, "{a:?} {b:?}");
            assert_eq!(got, difference(*b, *a), "{a:?} {b:?}");
        }
    }
}

/// No published value: a change is offered exactly when the pair does not read, and then the pair reads.
#[test]
fn every_pair_reads_or_can_be_made_to() {
    let colours = lattice(2);
    for first in &colours {
        for second in &colours {
            let Some(change) = nearest_change(*first, *second) else {
                assert!(reads_apart(*first, *second), "{first:?} {second:?}");
                continue;
            };
            assert!(!reads_apart(*first, *second));
            let (other, old) = match change.which {
                Which::First => (*second, *first),
                Which::Second => (*first, *second),
            };
            assert!(reads_apart(change.rgb, other), "{first:?} {second:?}");
            assert!((change.before - lab(old).l).abs() < 1e-9);
            assert!((change.after - lab(change.rgb).l).abs() < 1e-9);
            // On a lattice of eight steps the furthest move was 26.1.
            assert!((change.after - change.before).abs() < 30.0, "{change:?}");
        }
    }
}

/// No published value: of all smaller moves on the grid of quarters, by either colour, none will do.
#[test]
fn no_smaller_change_will_do() {
    for (first, second) in [
        ([181, 72, 60], [68, 119, 67]),
        ([31, 74, 94], [140, 59, 29]),
        ([220, 196, 154], [159, 195, 207]),
        ([255, 0, 255], [255, 0, 0]),
        ([227, 178, 60], [244, 236, 218]),
    ] {
        let change = nearest_change(first, second).unwrap();
        // Half a unit is left for the rounding to 8 bits.
        let least = (change.after - change.before).abs() - 0.5;
        assert!(least > 0.0, "{change:?}");
        for distance in (1..)
            .map(|step| f64::from(step) / 4.0)
            .take_while(|d| *d < least)
        {
            for distance in [distance, -distance] {
                let at = |rgb: Rgb| at_lightness(rgb, lab(rgb).l + distance);
                assert!(!reads_apart(at(first), second), "{change:?} {distance}");
                assert!(!reads_apart(first, at(second)), "{change:?} {distance}");
            }
        }
    }
}
