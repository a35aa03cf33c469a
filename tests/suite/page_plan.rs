//! How much paper the demo course takes: pages of every handout and of the course, and that they are full. The numbers are
//! the guild's own budget: what is printed for thirty people is carried home by thirty people.

use yokeward::app::{PackOptions, pages};
use yokeward::course::{Paper, PrintedSizes, Printer, TypeSize};
use yokeward::handout::Print;
use yokeward::page::pdf::{Document, PageMark, Role};

use crate::demo_course::demo;

/// The most pages of a handout, by what is made.
fn most(makes: &str, alone: bool) -> usize {
    match (makes, alone) {
        ("cowl" | "headband" | "hat", _) => 4,
        ("yoke", false) => 8,
        ("yoke", true) => 7,
        _ => 6,
    }
}

/// Where the content of a page ends, in millimetres below its head; the content box is 255 mm high.
fn lowest(document: &Document, page: usize, top: f64) -> f64 {
    let marks = document.pages[page].items.iter().map(|item| &item.mark);
    marks
        .map(|mark| match mark {
            PageMark::Run(run) => run.y - top,
            PageMark::Fill(path, _) | PageMark::Line(path, _) | PageMark::Both(path, ..) => {
                let places = crate::drawn::points(path).into_iter();
                places.map(|(_, y)| y - top).fold(0.0, f64::max)
            }
            PageMark::Drawing(_) => panic!("a drawing that was not taken apart"),
        })
        .fold(0.0, f64::max)
}

#[test]
fn handouts_and_course_keep_to_their_pages_and_fill_them() {
    let loaded = demo();
    let lesson = |id: &str| loaded.course.lessons.iter().find(|l| l.id == id).unwrap();
    for (paper, top) in [(Paper::A4, 18.0), (Paper::Letter, 12.2)] {
        for ink in [Printer::Colours, Printer::Black] {
            let options = PackOptions {
                paper: Some(paper),
                print: Print {
                    ink,
                    ..Print::default()
                },
                ..PackOptions::default()
            };
            let (mut all, mut rows) = (0, 0);
            for (path, document) in pages(&loaded, &[], options).unwrap() {
                let count = document.pages.len();
                if let Some(name) = path.strip_prefix("lessons/") {
                    let id = &name[3..name.find('/').unwrap()];
                    let most = most(lesson(id).makes.name(), false);
                    assert!(count <= most, "{path}: {count} pages, {most} allowed");
                    all += count;
                    let (faults, seen) = overleaf(&document);
                    assert_eq!(faults, [""; 0], "{path}");
                    rows += seen;
                } else if path == "course.pdf" {
                    all += count;
                } else {
                    continue;
                }
                // A cover is bled; all but the last are at least two thirds full.
                let first = usize::from(path == "course.pdf");
                for page in first..count - 1 {
                    let used = lowest(&document, page, top) / 255.0;
                    assert!(used >= 2.0 / 3.0, "{path} page {}: {used:.2}", page + 1);
                }
            }
            assert!(all <= 64, "{all} pages of {paper:?} {ink:?}");
            assert!(rows > 150, "{rows} rows in words");
        }
    }
}

#[test]
fn a_yoke_in_one_size_is_a_page_shorter() {
    let loaded = demo();
    let mut seen = 0;
    for lesson in loaded
        .course
        .lessons
        .iter()
        .filter(|l| l.makes.name() == "yoke")
    {
        for size in &lesson.sizes {
            let options = PackOptions {
                print: Print {
                    sizes: PrintedSizes::Only(size.id.clone()),
                    ..Print::default()
                },
                ..PackOptions::default()
            };
            let pages = pages(&loaded, &[], options).unwrap();
            let own = pages
                .iter()
                .find(|(path, _)| path.contains(&lesson.id))
                .unwrap();
            let count = own.1.pages.len();
            let most = most("yoke", true);
            assert!(
                count <= most,
                "{} in {}: {count} pages",
                lesson.id,
                size.label
            );
            seen += 1;
        }
    }
    assert!(seen > 8);
}

/// Rows in words that are not seen with their chart: neither on its page nor on the one that faces it when leaves are
/// printed on both sides. And how many rows there are.
fn overleaf(document: &Document) -> (Vec<String>, usize) {
    let (mut faults, mut seen, mut chart) = (Vec::new(), 0, 0);
    for (page, frame) in document.pages.iter().enumerate() {
        for item in &frame.items {
            let Some(node) = item.node.map(|at| &document.tree.nodes[at]) else {
                continue;
            };
            if node
                .alt
                .as_deref()
                .is_some_and(|alt| alt.contains("Chart "))
            {
                chart = page;
            }
            let PageMark::Run(run) = &item.mark else {
                continue;
            };
            let words = run.text();
            let is_row = words.starts_with("Round ") || words.starts_with("Row ");
            if node.role != Role::Label || !is_row {
                continue;
            }
            seen += 1;
            // Pages count from 1: an even one lies at the left.
            let faces = (chart + 1) % 2 == 0 && page == chart + 1;
            if page != chart && !faces {
                faults.push(format!(
                    "{words} on page {}, its chart on {}",
                    page + 1,
                    chart + 1
                ));
            }
        }
    }
    (faults, seen)
}

/// Words of less than 16 pt, furniture with them, but those in a chart and the tags in its key.
fn too_small(document: &Document) -> impl Iterator<Item = String> {
    let in_chart = |near: Option<usize>| {
        let figure = near.and_then(|node| document.tree.nodes[node].alt.as_deref());
        figure.is_some_and(|alt| alt.contains("Chart "))
    };
    let pages = document.pages.iter().enumerate();
    pages.flat_map(move |(number, page)| {
        let furniture = page.furniture.iter().map(|mark| (mark, None));
        let items = page
            .items
            .iter()
            .map(|item| (&item.mark, item.node.or(item.near)));
        let runs = items
            .chain(furniture)
            .filter_map(move |(mark, near)| match mark {
                PageMark::Run(run) if run.size < 16.0 - 1e-9 && !in_chart(near) => Some(run.text()),
                _ => None,
            });
        let words = runs.filter(|words| !["relief", "plain"].contains(&words.as_str()));
        words.map(move |words| format!("“{words}” on page {}", number + 1))
    })
}

#[test]
fn pages_of_large_print_are_full_too() {
    let loaded = demo();
    let mut faults = Vec::new();
    for (paper, top) in [(Paper::A4, 18.0), (Paper::Letter, 12.2)] {
        for ink in [Printer::Colours, Printer::Black] {
            let options = PackOptions {
                paper: Some(paper),
                print: Print {
                    ink,
                    type_size: TypeSize::Large,
                    ..Print::default()
                },
                ..PackOptions::default()
            };
            for (path, document) in pages(&loaded, &[], options).unwrap() {
                let count = document.pages.len();
                faults.extend(too_small(&document).map(|words| format!("{path}: {words}")));
                let first = usize::from(path == "course.pdf");
                for page in first..count - 1 {
                    let used = lowest(&document, page, top) / 255.0;
                    if used < 0.6 {
                        faults.push(format!(
                            "{path} page {} of {paper:?}, {ink:?}: {used:.2}",
                            page + 1
                        ));
                    }
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
