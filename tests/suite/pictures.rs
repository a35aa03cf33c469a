//! What pictures show is what is worked: stitch 1 at the right, row 1 at the bottom.

use std::collections::BTreeSet;

use yokeward::app::{PackOptions, pack};
use yokeward::course::Units;
use yokeward::course::chart::Mark;
use yokeward::ground::colour::Rgb;
use yokeward::picture::{Fabric, Paint, Seg, Shape, cloth, life_size_float, mark_chip};

/// Where the leaves of each colour stand: whole stitches from the left and whole rows from the top.
fn places(fabric: &Fabric, stitches: usize) -> BTreeSet<(i64, i64, Rgb)> {
    let drawing = cloth(fabric, stitches);
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
        alt: String::new(),
    };
    let places = places(&fabric, 5);
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

#[test]
fn two_charts_are_seen_in_the_columns_of_the_wider() {
    let of = |width: usize| crate::harness::chart(&[&".x".repeat(width / 2)], "");
    let shared = |a, b| yokeward::picture::shared_columns(&of(a), &of(b));
    assert_eq!(
        [shared(4, 30), shared(30, 4), shared(4, 4), shared(70, 4)],
        [30, 30, 24, 60]
    );
}

#[test]
fn a_register_has_a_line_for_each_and_a_box_for_each_lesson() {
    let lines: Vec<(String, String)> = (0..30)
        .map(|n| (format!("Name {n}"), "Adult small".to_owned()))
        .collect();
    let parts = yokeward::picture::register(&lines, 3, false);
    assert_eq!(parts.len(), 2);
    let mut names = 0;
    for part in &parts {
        let mut ruled: Vec<f64> = Vec::new();
        for shape in &part.shapes {
            if let Shape::Line(path, _) = shape {
                ruled.extend(crate::drawn::points(path).iter().map(|(_, y)| *y));
            }
        }
        ruled.sort_by(f64::total_cmp);
        ruled.dedup();
        for shape in &part.shapes {
            let Shape::Label(label) = shape else { continue };
            if label.text.starts_with("Name ") {
                // Each name stands just above its own line, and no two on one.
                let above = ruled.iter().find(|y| **y > label.at.1).unwrap() - label.at.1;
                assert!((0.5..4.0).contains(&above), "{above} under {}", label.text);
                names += 1;
            }
        }
        assert!(
            ruled.iter().all(|y| *y <= part.height),
            "a line below the drawing"
        );
        let numbers = part
            .shapes
            .iter()
            .filter(|s| matches!(s, Shape::Label(l) if ["1", "2", "3"].contains(&l.text.as_str())));
        assert_eq!(numbers.count(), 3);
    }
    assert_eq!(names, 30);
}

/// The key of a chart shows each mark as the chart does: the long leg of a decrease leans as its stitch does.
#[test]
fn marks_of_a_key_lean_as_they_do_in_the_chart() {
    let leg = |mark| {
        let chip = mark_chip(mark, (8.0, 8.0));
        let Shape::Line(path, _) = &chip.shapes[0] else {
            panic!("{mark:?}");
        };
        let [Seg::Move(foot), Seg::Line(head), ..] = path.0.as_slice() else {
            panic!("{mark:?}");
        };
        (*foot, *head)
    };
    // From the foot, which is drawn lower, to the head.
    let (foot, head) = leg(Mark::RightDecrease);
    assert!(foot.1 > head.1 && foot.0 < head.0, "{foot:?} {head:?}");
    let (foot, head) = leg(Mark::LeftDecrease);
    assert!(foot.1 > head.1 && foot.0 > head.0, "{foot:?} {head:?}");
    // No stitch is hatched, a plain one empty but for its frame.
    assert_eq!(mark_chip(Mark::NoStitch, (8.0, 8.0)).shapes.len(), 2);
    assert_eq!(mark_chip(Mark::Plain, (8.0, 8.0)).shapes.len(), 1);
}

/// What is drawn beyond the edge of a picture is cut off on a screen, and lies over its neighbours on paper.
#[test]
fn nothing_is_drawn_beyond_the_edge_of_its_picture() {
    let number = |text: &str| text.parse::<f64>().unwrap();
    let (mut seen, mut beyond) = (0, BTreeSet::new());
    let mut look = |place: &str, page: &str| {
        for picture in page.split("<svg").skip(1) {
            let picture = picture.split("</svg>").next().unwrap();
            let room = picture.split("viewBox=\"0 0 ").nth(1).unwrap();
            let (width, height) = room.split('"').next().unwrap().split_once(' ').unwrap();
            let room = [number(width), number(height)];
            for label in picture.split("<text x=\"").skip(1) {
                let (x, rest) = label.split_once('"').unwrap();
                let word = |before: &str, after: char| {
                    let rest = rest.split_once(before).unwrap().1;
                    rest.split_once(after).unwrap().0
                };
                let size = number(word(":", 'p').split_once(' ').unwrap().1);
                let words = word(">", '<').replace("&amp;", "&");
                // A letter of this type is about 0.48 of its size wide, measured on the measures of a mitten.
                let wide = 0.48 * size * words.chars().count() as f64;
                let left = number(x)
                    - match word("anchor=\"", '"') {
                        "start" => 0.0,
                        "middle" => wide / 2.0,
                        _ => wide,
                    };
                if left < -1.0 || left + wide > room[0] + 1.0 {
                    beyond.insert(format!("{place}: “{words}” from {left} of {}", room[0]));
                }
            }
            // Stamps are placed elsewhere: their outline is drawn about its own middle.
            for path in picture.split("<path d=\"").skip(1) {
                let data = path.split('"').next().unwrap();
                for place_on in crate::drawn::places_of(data) {
                    for (i, at) in place_on.into_iter().enumerate() {
                        seen += 1;
                        if !(-0.1..=room[i] + 0.1).contains(&at) {
                            let line = ["x", "y"][i];
                            beyond.insert(format!("{place}: {line} {at} of {}", room[i]));
                        }
                    }
                }
            }
        }
    };
    let courses = ["crochet", "flat", "thread", "tunisian", "us", "young"];
    let mut all = vec![crate::demo_course::demo()];
    for name in courses {
        let text = crate::harness::read(&format!("tests/fixtures/courses/{name}.txt"));
        all.push(crate::harness::load(&text));
    }
    for loaded in &all {
        let files = pack(loaded, &[], PackOptions::default(), &|_| {}).unwrap();
        for (path, bytes) in files {
            if path.ends_with(".html") || path.ends_with(".svg") {
                look(&path, std::str::from_utf8(&bytes).unwrap());
            }
        }
    }
    assert!(seen > 100_000, "{seen}");
    assert!(beyond.is_empty(), "{beyond:#?}");
}

/// In large print a short float has words longer than itself below it: they end within the picture.
#[test]
fn words_of_a_float_have_their_room_beside_or_below_it() {
    for points in [11.0, 16.0] {
        for stitches in 2..20 {
            let paint = Paint::Yarn([59, 47, 42]);
            let float = life_size_float(stitches, 3.0, paint, (points, Units::Both));
            let words = float.shapes.iter().find_map(|shape| match shape {
                Shape::Label(label) => Some(label),
                _ => None,
            });
            let words = words.unwrap();
            let wide = 0.48 * points * 25.4 / 72.0 * words.text.chars().count() as f64;
            let end = words.at.0 + wide;
            assert!(
                end <= float.width + 0.5,
                "{}: {end} of {}",
                words.text,
                float.width
            );
            let bar = 3.0 * stitches as f64;
            assert!(
                words.at.0 > bar || words.at.1 > 6.0,
                "{} on its bar",
                words.text
            );
        }
    }
}

/// Every drawing of a technique is on a card, has words for those who do not see it, and keeps to its width; its yarns are
/// told apart in black: no two paints of yarn become one.
#[test]
fn techniques_are_drawn_on_their_cards() {
    use yokeward::picture::{TECHNIQUES, technique};
    let cards: String = yokeward::handout::BUILT_IN_CARDS
        .iter()
        .map(|(_, text)| *text)
        .collect();
    let mut list = String::new();
    for name in TECHNIQUES {
        assert!(cards.contains(&format!("```technique {name}\n")), "{name}");
        let drawing = technique(name).unwrap();
        assert!(drawing.alt.len() > 40, "{name}: {}", drawing.alt);
        assert!(
            (drawing.width - 48.0).abs() < 1e-9 && drawing.height < 26.0,
            "{name}"
        );
        let words: Vec<&str> = drawing
            .shapes
            .iter()
            .filter_map(|shape| match shape {
                Shape::Label(label) => Some(label.text.as_str()),
                _ => None,
            })
            .collect();
        list += &format!(
            "{name}: {} shapes, {words:?}\n    {}\n",
            drawing.shapes.len(),
            drawing.alt
        );
    }
    let asked = cards.matches("```technique ").count();
    let known: usize = TECHNIQUES
        .iter()
        .map(|name| cards.matches(&format!("```technique {name}\n")).count())
        .sum();
    assert_eq!(asked, known, "a card asks for a drawing that is not there");
    assert!(technique("no-such-thing").is_none());
    insta::assert_snapshot!("techniques", list);
    for name in ["caught-float", "tension", "jog"] {
        let picture = yokeward::page::svg::svg(&technique(name).unwrap(), "t", true);
        insta::assert_snapshot!(
            format!("technique__{name}.svg"),
            picture.replace("><", ">\n<")
        );
    }
    let paints = [Paint::Estuary, Paint::White, Paint::Mid].map(|paint| paint.in_black().rgb());
    assert!(paints[0] != paints[1] && paints[1] != paints[2] && paints[0] != paints[2]);
}
