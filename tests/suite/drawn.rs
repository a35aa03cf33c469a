//! Everything drawn on a few pages, with the words in pictures, as a list that can be read: what, in which paint, how thick,
//! where, of how many points, and a sum over these that changes when any of them moves.

use std::fmt::Write as _;

use yokeward::app::{PackOptions, pages};
use yokeward::course::{Printer, TypeSize};
use yokeward::handout::Print;
use yokeward::page::pdf::{Document, Item, PageMark};
use yokeward::picture::{Path, Seg, Stroke};

use crate::demo_course::demo;

pub(crate) fn points(path: &Path) -> Vec<(f64, f64)> {
    let each = path.0.iter().flat_map(|seg| match *seg {
        Seg::Move(p) | Seg::Line(p) => vec![p],
        Seg::Curve(a, b, c) => vec![a, b, c],
        Seg::Close => Vec::new(),
    });
    each.collect()
}

/// `12.0 18.5 to 30.2 40.1, 9 points, 1234.5`.
fn place(path: &Path) -> String {
    let points = points(path);
    let low = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).fold(f64::MAX, f64::min);
    let high = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).fold(f64::MIN, f64::max);
    // Weighted by place, so that two points that change places are seen, too.
    let each = points.iter().enumerate();
    let sum: f64 = each
        .map(|(i, (x, y))| (1.0 + (i % 7) as f64) * (x + 2.0 * y))
        .sum();
    format!(
        "{:.1} {:.1} to {:.1} {:.1}, {} points, {sum:.1}",
        low(|p| p.0),
        low(|p| p.1),
        high(|p| p.0),
        high(|p| p.1),
        points.len()
    )
}

fn line(stroke: &Stroke) -> String {
    let dash = stroke
        .dash
        .map(|(on, off)| format!(" dashed {on:.2} {off:.2}"));
    format!(
        "{:?} {:.3}{}",
        stroke.paint,
        stroke.width,
        dash.unwrap_or_default()
    )
}

fn drawn(document: &Document, page: usize) -> String {
    let mut out = String::new();
    for item in &document.pages[page - 1].items {
        match &item.mark {
            PageMark::Fill(path, paint) => writeln!(out, "fill {paint:?} {}", place(path)),
            PageMark::Line(path, stroke) => writeln!(out, "line {} {}", line(stroke), place(path)),
            PageMark::Both(path, paint, stroke) => {
                writeln!(out, "both {paint:?} {} {}", line(stroke), place(path))
            }
            // Running text is looked at elsewhere; words of pictures belong to no block.
            PageMark::Run(_) if item.node.is_some() => Ok(()),
            PageMark::Run(run) => {
                let (face, size) = (run.face, run.size);
                writeln!(
                    out,
                    "text {face:?} {size:.2} at {:.1} {:.1}: {}",
                    run.x,
                    run.y,
                    run.text()
                )
            }
            PageMark::Drawing(_) => panic!("a drawing that was not taken apart"),
        }
        .unwrap();
    }
    out
}

#[test]
fn pictures_are_drawn_as_before() {
    let in_ink = |ink| {
        let print = Print {
            ink,
            ..Print::default()
        };
        let options = PackOptions {
            print,
            ..PackOptions::default()
        };
        pages(&demo(), &[], options).unwrap()
    };
    let (colour, black) = (in_ink(Printer::Colours), in_ink(Printer::Black));
    // A tube with a crown, one with thumbs, a jersey; the yoke from above; a shaped chart; the cover, whose
    // picture is scaled; the ladder; the quiz.
    for (name, path, page) in [
        ("hat", "lessons/06-pebble-hat/handout.pdf", 1),
        ("mitts", "lessons/05-turnstone-mitts/handout.pdf", 1),
        ("yoke", "lessons/12-samphire-yoke/handout.pdf", 1),
        ("cover", "course.pdf", 1),
        ("ladder", "course.pdf", 2),
        ("quiz", "quiz.pdf", 1),
    ] {
        insta::assert_snapshot!(name, drawn(&colour[path], page));
    }
    let yoke = "lessons/12-samphire-yoke/handout.pdf";
    let above = (1..=colour[yoke].pages.len())
        .find(|page| drawn(&colour[yoke], *page).contains(": neck: "))
        .unwrap();
    insta::assert_snapshot!("yoke_from_above", drawn(&colour[yoke], above));
    for (name, page) in [("yoke_in_black", 1), ("yoke_from_above_in_black", above)] {
        insta::assert_snapshot!(name, drawn(&black[yoke], page));
    }
    // Words and marks of pictures grow with the print.
    let print = Print {
        type_size: TypeSize::Large,
        ..Print::default()
    };
    let options = PackOptions {
        print,
        ..PackOptions::default()
    };
    let large = pages(&demo(), &[], options).unwrap();
    let above = (1..=large[yoke].pages.len())
        .map(|page| drawn(&large[yoke], page))
        .find(|drawn| drawn.contains(": neck:"));
    insta::assert_snapshot!("yoke_from_above_large", above.unwrap());
}

/// Where each page of the largest and of the smallest print ends, in millimetres from its top: what moves to another page
/// moves these.
#[test]
fn pages_end_where_they_did() {
    let mut out = String::new();
    for type_size in [TypeSize::Ordinary, TypeSize::Large] {
        let print = Print {
            type_size,
            ..Print::default()
        };
        let options = PackOptions {
            print,
            ..PackOptions::default()
        };
        writeln!(out, "{type_size:?}").unwrap();
        for (name, document) in pages(&demo(), &[], options).unwrap() {
            let ends: Vec<String> = document.pages.iter().map(|page| end(&page.items)).collect();
            writeln!(out, "{name}: {}", ends.join(" ")).unwrap();
        }
    }
    insta::assert_snapshot!("ends", out);
}

/// The lowest mark of a page's text and figures, without its foot.
fn end(items: &[Item]) -> String {
    let own = items.iter().filter(|item| item.node.is_some());
    let lowest = own.map(|item| match &item.mark {
        PageMark::Fill(path, _) | PageMark::Line(path, _) | PageMark::Both(path, ..) => {
            points(path).iter().map(|p| p.1).fold(0.0, f64::max)
        }
        PageMark::Run(run) => run.y,
        PageMark::Drawing(_) => panic!("a drawing that was not taken apart"),
    });
    format!("{:.0}", lowest.fold(0.0, f64::max))
}

/// The places of SVG path data that is written as this project writes it: `M` absolute, `l` and `c` relative, `z`
/// (SVG 1.1, section 8.3).
pub(crate) fn places_of(data: &str) -> Vec<[f64; 2]> {
    let mut places = Vec::new();
    let (mut pen, mut first) = ([0.0, 0.0], [0.0, 0.0]);
    let mut rest = data;
    while let Some(sign) = rest.chars().next() {
        rest = &rest[1..];
        let end = rest
            .find(|c: char| c.is_ascii_alphabetic())
            .unwrap_or(rest.len());
        let (numbers, after) = rest.split_at(end);
        rest = after;
        let spaced = numbers.replace('-', " -");
        let numbers: Vec<f64> = spaced
            .split_whitespace()
            .map(|n| n.parse().unwrap())
            .collect();
        match sign {
            'M' => {
                pen = [numbers[0], numbers[1]];
                first = pen;
                places.push(pen);
            }
            'l' => {
                for by in numbers.chunks(2) {
                    pen = [pen[0] + by[0], pen[1] + by[1]];
                    places.push(pen);
                }
            }
            'c' => {
                for by in numbers.chunks(6) {
                    for control in by.chunks(2) {
                        places.push([pen[0] + control[0], pen[1] + control[1]]);
                    }
                    pen = [pen[0] + by[4], pen[1] + by[5]];
                }
            }
            'z' => pen = first,
            other => panic!("{other}"),
        }
    }
    places
}
