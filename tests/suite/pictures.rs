//! What pictures show is what is worked: stitch 1 at the right, row 1 at the bottom.

use std::collections::BTreeSet;

use yokeward::ground::colour::Rgb;
use yokeward::picture::{Fabric, Paint, Shape, cloth};

/// Where the leaves of each colour stand: whole stitches from the left and whole rows from the top.
fn places(fabric: &Fabric) -> BTreeSet<(i64, i64, Rgb)> {
    let drawing = cloth(fabric);
    let mut found = BTreeSet::new();
    for shape in &drawing.shapes {
        if let Shape::Stamps {
            fill: Some(Paint::Yarn(rgb)),
            at,
            ..
        } = shape
        {
            for (x, y) in at {
                let column = (x / fabric.pitch).round() as i64;
                found.insert((column, (y / fabric.rise).floor() as i64, *rgb));
            }
        }
    }
    found
}

#[test]
fn fabric_begins_at_the_right_and_at_the_bottom() {
    let (peat, fleece) = ([59, 47, 42], [242, 234, 216]);
    let row = |colours: [Rgb; 3]| colours.map(Some).to_vec();
    let fabric = Fabric {
        rows: vec![row([fleece, peat, peat]), row([peat, peat, peat])],
        ground: peat,
        pitch: 5.0,
        rise: 4.0,
        stitches: 5,
        alt: String::new(),
    };
    let places = places(&fabric);
    // Stitch 1 of row 1 is the right-most of the bottom row; after three the repeat begins anew.
    let light: Vec<(i64, i64)> = places
        .iter()
        .filter(|(_, _, rgb)| *rgb == fleece)
        .map(|(x, y, _)| (*x, *y))
        .collect();
    let bottom = places.iter().map(|(_, y, _)| *y).max().unwrap();
    assert_eq!(light, [(1, bottom), (4, bottom)]);
    assert_eq!(places.len(), 10);
}
