//! Prints for other hands and eyes: left-handed, one size, large; and what never reaches a page.

use std::collections::BTreeSet;

use yokeward::app::{PackOptions, pack, pages, study_course};
use yokeward::course::Paper;
use yokeward::handout::{Handout, Print, handouts};
use yokeward::picture::{Paint, Path, Seg, Shape, parts_of};

use crate::demo_course::demo;
use crate::drawn::points;
use yokeward::course::{Hand, PrintedSizes, Printer, TypeSize};

fn left_handed() -> Print {
    Print {
        hand: Hand::Left,
        ..Print::default()
    }
}

/// The runs of a row's words: (stitches, yarn), the repeat said once, catches left out.
fn runs(words: &str) -> Vec<(usize, String)> {
    let words = words.split(". Or leave").next().unwrap();
    let words = words.rsplit(": ").next().unwrap();
    words
        .trim_start_matches("(wrong side, purl) ")
        .trim_start_matches('*')
        .split(';')
        .next()
        .unwrap()
        .split(", ")
        .filter_map(|run| {
            let (number, yarn) = run.split_once(' ')?;
            Some((number.parse().ok()?, yarn.to_owned()))
        })
        .collect()
}

#[test]
fn words_and_catches_for_the_left_hand_are_those_for_the_right_read_backwards() {
    let loaded = demo();
    let studied = study_course(&loaded.course);
    let right = handouts(&studied, &Print::default());
    let left = handouts(&studied, &left_handed());
    let (mut rows, mut caught) = (0, 0);
    for (r, l) in right.iter().zip(&left) {
        for (r, l) in r.charts.iter().zip(&l.charts) {
            let (Some(picture), Some(other)) = (&r.picture, &l.picture) else {
                continue;
            };
            let chart = &picture.chart;
            let whole = chart.width;
            let plain = chart.marks.is_none();
            for (a, b) in r.rows.iter().zip(&l.rows) {
                let label = &a.label;
                assert_eq!((label, a.boxes), (&b.label, b.boxes));
                let (a, b) = (&a.words, &b.words);
                let (a_runs, mut b_runs) = (runs(a), runs(b));
                b_runs.reverse();
                // A repeat inside the repeat may be said from another stitch on; only whole rows compare run by run.
                let full: usize = a_runs.iter().map(|(n, _)| n).sum();
                if full == whole && plain {
                    assert_eq!(a_runs, b_runs, "{}: {label}", r.title);
                    rows += 1;
                }
                assert_eq!(
                    a.contains("trap "),
                    b.contains("trap "),
                    "{label}: {a} | {b}"
                );
            }
            // The same stitches of the fabric are marked, whatever they are numbered.
            let marked: BTreeSet<(usize, usize)> = picture.catches.iter().copied().collect();
            let mirrored = other
                .catches
                .iter()
                .map(|(row, x)| (*row, whole - 1 - x))
                .collect();
            assert_eq!(marked, mirrored, "{}", r.title);
            caught += marked.len();
            // "3rd of 5" is the 3rd from the other side.
            for ((row, a), (_, b)) in picture.tags.iter().zip(&other.tags) {
                let (Some((a, of)), Some((b, same))) = (a.split_once(" of "), b.split_once(" of "))
                else {
                    continue;
                };
                let numbers = |text: &str| -> Vec<usize> {
                    let digits = |word: &str| word.trim_end_matches(char::is_alphabetic).parse();
                    text.split(", ").map(|word| digits(word).unwrap()).collect()
                };
                let of_all: usize = of.parse().unwrap();
                let turned: Vec<usize> = numbers(b).iter().rev().map(|n| of_all + 1 - n).collect();
                assert_eq!((numbers(a), of), (turned, same), "{} row {row}", r.title);
            }
            assert!(l.reading.contains("bottom left") && r.reading.contains("bottom right"));
        }
    }
    assert!(rows > 40 && caught > 60, "{rows} rows, {caught} catches");
}

/// The places that are filled in each yarn, in tenths of a millimetre from the left edge of the grid.
fn filled(handout: &Handout<'_>, chart: usize) -> BTreeSet<(i64, i64, [u8; 3])> {
    let picture = handout.charts[chart].picture.as_ref().unwrap();
    let part = parts_of(picture).remove(0);
    let drawing = picture.draw(&part);
    let mut found = BTreeSet::new();
    let mut least = i64::MAX;
    for shape in &drawing.shapes {
        let Shape::Fill(Path(segs), Paint::Yarn(rgb)) = shape else {
            continue;
        };
        for corners in segs
            .split(|seg| *seg == Seg::Close)
            .filter(|c| c.len() == 4)
        {
            let xs = corners.iter().filter_map(|seg| match seg {
                Seg::Move((x, y)) | Seg::Line((x, y)) => {
                    Some(((x * 10.0).round() as i64, (y * 10.0).round() as i64))
                }
                _ => None,
            });
            let corner = xs.min().unwrap();
            least = least.min(corner.0);
            found.insert((corner.0, corner.1, *rgb));
        }
    }
    found
        .into_iter()
        .map(|(x, y, rgb)| (x - least, y, rgb))
        .collect()
}

#[test]
fn the_picture_for_the_left_hand_is_the_same_picture() {
    let loaded = demo();
    let studied = study_course(&loaded.course);
    let right = handouts(&studied, &Print::default());
    let left = handouts(&studied, &left_handed());
    let mut same = 0;
    for (r, l) in right.iter().zip(&left) {
        for (i, sheet) in r
            .charts
            .iter()
            .enumerate()
            .filter(|(_, sheet)| sheet.picture.is_some())
        {
            assert_eq!(filled(r, i), filled(l, i), "{}", sheet.title);
            same += 1;
        }
    }
    assert!(same > 10);
}

#[test]
fn a_learners_size_is_bold_among_others_or_stands_alone() {
    let print = |alone: bool| PackOptions {
        print: Print {
            sizes: if alone {
                PrintedSizes::Only("adult-medium".to_owned())
            } else {
                PrintedSizes::Marked("adult-medium".to_owned())
            },
            ..Print::default()
        },
        ..PackOptions::default()
    };
    let text = |options: PackOptions| {
        let files = pack(&demo(), &[], options, &|_| {}).unwrap();
        String::from_utf8(files["lessons/06-pebble-hat/handout.md"].clone()).unwrap()
    };
    let (all, bold, alone) = (
        text(PackOptions::default()),
        text(print(false)),
        text(print(true)),
    );
    // Of the five sizes of this hat, adult medium has 108 stitches.
    assert!(all.contains("96 (102, 102, 108, 114)"), "{all}");
    assert!(bold.contains("96 (102, 102, **108**, 114)"));
    assert!(bold.contains("**Adult medium**"));
    assert!(
        alone.contains("108 stitches") && !alone.contains("114"),
        "{alone}"
    );
    assert!(!alone.contains("Adult large"));
}

#[test]
fn charts_that_are_not_ours_to_copy_reach_no_file() {
    let loaded = demo();
    let hidden: Vec<_> = loaded
        .course
        .charts
        .values()
        .filter(|c| !c.rights.may_print())
        .collect();
    assert!(!hidden.is_empty());
    let options = PackOptions {
        booklet: true,
        ..PackOptions::default()
    };
    let files = pack(&loaded, &[], options, &|_| {}).unwrap();
    let texts: Vec<(&String, String)> = files
        .iter()
        .map(|(name, bytes)| {
            let text = if name.ends_with(".pdf") {
                let pdf = lopdf::Document::load_mem(bytes).unwrap();
                let pages: Vec<u32> = pdf.get_pages().into_keys().collect();
                pdf.extract_text(&pages).unwrap()
            } else {
                String::from_utf8(bytes.clone()).unwrap()
            };
            (name, text.split_whitespace().collect::<Vec<_>>().join(" "))
        })
        .collect();
    let studied = study_course(&loaded.course);
    for chart in hidden {
        // Its letters, its rows in the words of every lesson that uses it, its picture as a file.
        let letters: Vec<String> = (0..chart.height).map(|row| chart.drawn_line(row)).collect();
        let mut words: Vec<String> = Vec::new();
        for lesson in &loaded.course.lessons {
            for what in lesson
                .charts()
                .into_iter()
                .filter(|what| what.chart.id == chart.id)
            {
                let yarn = |ink: u8| lesson.yarns[what.yarns[usize::from(ink)]].name.clone();
                let leans = yokeward::words::Leans::knitted(Hand::Right);
                let row = |row| {
                    yokeward::words::row_words(chart, (row, lesson.reads()), (&yarn, &leans), false)
                };
                words.extend(
                    (0..chart.height)
                        .map(row)
                        .filter(|words| words.contains(", ")),
                );
            }
        }
        assert!(!words.is_empty());
        for (name, text) in &texts {
            assert!(!name.contains(&format!("chart-{}", chart.id)), "{name}");
            for secret in letters.iter().filter(|l| l.len() > 5).chain(&words) {
                assert!(!text.contains(secret.as_str()), "{name}: {secret}");
            }
        }
        // No drawing either, in any handout.
        for handout in handouts(&studied, &Print::default()) {
            let sheets = handout.charts.iter().filter(|sheet| sheet.id == chart.id);
            assert!(
                sheets
                    .clone()
                    .all(|sheet| sheet.picture.is_none() && sheet.rows.is_empty())
            );
            if sheets.count() > 0 {
                assert!(handout.fabric.is_none());
            }
        }
    }
}

/// A page in the middle of a document is at least a third full, on either paper, in either size of print.
#[test]
fn pages_are_at_least_a_third_full_but_the_last() {
    let mut thin = Vec::new();
    let mut seen = 0;
    for variant in 0..8_u8 {
        let has = |bit: u8| variant >> bit & 1 == 1;
        let print = Print {
            type_size: [TypeSize::Ordinary, TypeSize::Large][usize::from(has(0))],
            ink: [Printer::Colours, Printer::Black][usize::from(has(1))],
            ..Print::default()
        };
        let (paper, top) = if has(2) {
            (Paper::Letter, 12.2)
        } else {
            (Paper::A4, 18.0)
        };
        let options = PackOptions {
            paper: Some(paper),
            print: print.clone(),
            ..PackOptions::default()
        };
        for (path, document) in pages(&demo(), &[], options).unwrap() {
            let last = document.pages.len() - 1;
            for (i, page) in document.pages.iter().enumerate().take(last) {
                let lowest = page
                    .items
                    .iter()
                    .filter_map(|item| match &item.mark {
                        yokeward::page::pdf::PageMark::Run(run) => Some(run.y - top),
                        // Lines to write on are content, too; those of the foot lie below the content box.
                        yokeward::page::pdf::PageMark::Line(path, _) => crate::drawn::points(path)
                            .iter()
                            .map(|(_, y)| y - top)
                            .filter(|y| *y <= 255.0)
                            .reduce(f64::max),
                        _ => None,
                    })
                    .fold(0.0, f64::max);
                seen += 1;
                // The content box is 255 mm high.
                if lowest / 255.0 < 1.0 / 3.0 {
                    thin.push(format!("{path} page {} {print:?}: {lowest:.0} mm", i + 1));
                }
            }
        }
    }
    assert!(seen > 1000, "{seen}");
    assert!(thin.is_empty(), "{thin:#?}");
}

/// Contrast of words against what they stand on, by WCAG 2.2's formula (1.4.3: 4.5 to 1), in colour and in black.
#[test]
fn words_stand_out_from_what_they_stand_on() {
    use yokeward::ground::colour::contrast;
    let pairs = [
        (Paint::Ink, Paint::White),
        (Paint::Text2, Paint::White),
        (Paint::Estuary, Paint::White),
        (Paint::Buoy, Paint::White),
        (Paint::White, Paint::Estuary),
        (Paint::White, Paint::Buoy),
        (Paint::Ink, Paint::Wash),
        (Paint::Text2, Paint::Wash),
        (Paint::Estuary, Paint::Wash),
    ];
    for (words, ground) in pairs {
        for (a, b) in [(words, ground), (words.in_black(), ground.in_black())] {
            let ratio = contrast(a.rgb(), b.rgb());
            assert!(ratio >= 4.5, "{a:?} on {b:?}: {ratio:.2}");
        }
    }
    // And on the pages themselves: no word in a paint that is for lines only.
    for (path, document) in pages(&demo(), &[], PackOptions::default()).unwrap() {
        for page in &document.pages {
            for item in &page.items {
                if let yokeward::page::pdf::PageMark::Run(run) = &item.mark {
                    let lines_only = [Paint::Rule, Paint::Hair, Paint::Mid, Paint::CellLine];
                    assert!(!lines_only.contains(&run.paint), "{path}: {}", run.text());
                }
            }
        }
    }
}

/// Where the arrows of each part point, in squares from its upper right corner.
fn arrows(large: bool) -> Vec<Vec<(f64, f64)>> {
    let course = crate::harness::course(&crate::harness::read("tests/fixtures/courses/thread.txt"));
    let studied = study_course(&course);
    let print = Print {
        type_size: [TypeSize::Ordinary, TypeSize::Large][usize::from(large)],
        ..Print::default()
    };
    let handouts = handouts(&studied, &print);
    let boat = &handouts[0];
    let picture = boat.charts[0].picture.as_ref().unwrap();
    let each = parts_of(picture).into_iter().map(|part| {
        let drawing = picture.draw(&part);
        let frame = drawing.shapes.iter().rev().find_map(|shape| match shape {
            Shape::Line(path, stroke) if stroke.width > 0.65 => Some(points(path)),
            _ => None,
        });
        let frame = frame.unwrap();
        let low = |of: fn(&(f64, f64)) -> f64| frame.iter().map(of).fold(f64::MAX, f64::min);
        let high = |of: fn(&(f64, f64)) -> f64| frame.iter().map(of).fold(f64::MIN, f64::max);
        let (right, top) = (high(|p| p.0), low(|p| p.1));
        let square = (right - low(|p| p.0)) / part.columns.len() as f64;
        let tips = drawing.shapes.iter().filter_map(|shape| match shape {
            Shape::Fill(path, Paint::Ink) if path.0.len() == 4 => points(path).first().copied(),
            _ => None,
        });
        tips.map(|(x, y)| {
            let tenths = |length: f64| (length / square * 10.0).round() / 10.0;
            (tenths(right - x), tenths(y - top))
        })
        .collect()
    });
    each.collect()
}

/// Thirty squares by fourteen: the middle lies between square 15 and 16, and between row 7 and 8, in whichever part.
#[test]
fn arrows_stand_at_the_middle_of_a_cloth_in_every_part_it_runs_through() {
    let whole = arrows(false);
    assert_eq!(whole, [[(15.0, -0.1), (-0.1, 7.0), (30.1, 7.0)]]);
    let parts = arrows(true);
    let beside = [(-0.1, 7.0), (10.1, 7.0)];
    assert_eq!(parts[0], beside);
    assert_eq!(parts[1], [&[(5.0, -0.1)][..], &beside].concat());
    assert_eq!(parts[2], beside);
}
