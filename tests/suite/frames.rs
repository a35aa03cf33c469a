//! Page frames of every document in every variant: nothing outside the margins, nothing too small, no heading left
//! behind and no row of a table by itself.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use yokeward::app::{PackOptions, pages};
use yokeward::course::Paper;
use yokeward::handout::Print;
use yokeward::page::blocks::{Block, Directives, parse};
use yokeward::page::pdf::{Document, Furniture, PageMark, Role, Section, Sheet, lay_out};
use yokeward::read::Loaded;

use crate::harness::read;
use yokeward::course::{Binding, Hand, PrintedSizes, Printer, TypeSize};

const ORDINARY: Sheet = Sheet {
    paper: Paper::A4,
    large: false,
    black: false,
};

fn section(blocks: Vec<Block>) -> Section {
    Section {
        blocks,
        furniture: Furniture {
            guild: "Saltmarsh Guild".to_owned(),
            course: "From tideline to yoke".to_owned(),
            label: "Lesson 1".to_owned(),
            foot: "A foot".to_owned(),
        },
        title: "A lesson".to_owned(),
    }
}

/// Left, top, right, bottom of every text run of a page, with its words.
fn boxes(document: &Document, page: usize) -> Vec<(f64, f64, f64, f64, String, f64)> {
    let page = &document.pages[page];
    let marks = page.items.iter().map(|item| &item.mark);
    marks
        .chain(&page.furniture)
        .filter_map(|mark| match mark {
            PageMark::Run(run) if run.turned => {
                let height = run.size * 25.4 / 72.0;
                let (top, bottom) = (run.y - run.width(), run.y);
                let (left, right) = (run.x - 0.7 * height, run.x + 0.15 * height);
                Some((left, top, right, bottom, run.text(), run.size))
            }
            PageMark::Run(run) => {
                let height = run.size * 25.4 / 72.0;
                Some((
                    run.x,
                    run.y - 0.7 * height,
                    run.x + run.width(),
                    run.y + 0.15 * height,
                    run.text(),
                    run.size,
                ))
            }
            _ => None,
        })
        .filter(|b| !b.4.trim().is_empty())
        .collect()
}

/// Tables of which one row stands by itself, before the page ends or overleaf: the page, from 0.
fn lone_rows(document: &Document) -> Vec<usize> {
    let node = |at: usize| &document.tree.nodes[at];
    let mut tables: BTreeMap<usize, BTreeMap<usize, BTreeSet<usize>>> = BTreeMap::new();
    for (page, frame) in document.pages.iter().enumerate() {
        for mut at in frame.items.iter().filter_map(|item| item.node) {
            while at > 0 && node(at).role != Role::Row {
                if node(at).role == Role::ColumnHead {
                    break;
                }
                at = node(at).parent;
            }
            if node(at).role == Role::Row {
                let pages = tables.entry(node(at).parent).or_default();
                pages.entry(page).or_default().insert(at);
            }
        }
    }
    let cut = tables.values().filter(|pages| pages.len() > 1);
    cut.flatten()
        .filter(|(_, rows)| rows.len() == 1)
        .map(|(page, _)| *page)
        .collect()
}

fn check(id: &str, document: &Document, (left, top): (f64, f64), least: f64) {
    assert_eq!(lone_rows(document), [0; 0], "{id}: a row by itself");
    for page in 0..document.pages.len() {
        let boxes = boxes(document, page);
        for (x0, y0, x1, y1, words, size) in &boxes {
            assert!(
                *size >= least - 1e-9,
                "{id} page {page}: “{words}” in {size} pt"
            );
            let inside =
                *x0 >= left - 2.0 && *x1 <= left + 182.0 && *y0 >= top - 0.5 && *y1 <= top + 255.5;
            assert!(
                inside,
                "{id} page {page}: “{words}” at {x0:.1} {y0:.1} {x1:.1} {y1:.1}"
            );
        }
        for (i, a) in boxes.iter().enumerate() {
            for b in boxes.iter().skip(i + 1) {
                let across = a.2.min(b.2) - a.0.max(b.0);
                let down = a.3.min(b.3) - a.1.max(b.1);
                // Runs of one line touch; overlaps are more than a hair both ways.
                assert!(
                    !(across > 0.6 && down > 0.6),
                    "{id} page {page}: “{}” over “{}”",
                    a.4,
                    b.4
                );
            }
        }
        let last = document.pages[page]
            .items
            .iter()
            .filter_map(|item| item.node)
            .next_back();
        let role = last
            .and_then(|node| document.tree.nodes.get(node))
            .map(|node| node.role);
        assert!(
            !matches!(role, Some(Role::H1 | Role::H2 | Role::H3)),
            "{id} page {page} ends with a heading"
        );
    }
}

/// The least size of type: the floor of ordinary print, and that of figures in pictures of large print.
const FLOOR: f64 = 8.5;
const LARGE_FLOOR: f64 = 14.0;

#[test]
fn every_page_keeps_its_margins_in_every_variant() {
    every_variant(&crate::demo_course::demo(), 0..32);
}

#[test]
fn every_page_of_other_crafts_keeps_its_margins_too() {
    for name in ["crochet", "tunisian", "thread", "flat", "us", "young"] {
        let text = read(&format!("tests/fixtures/courses/{name}.txt"));
        every_variant(&crate::harness::load(&text), 0..32);
    }
}

fn every_variant(loaded: &Loaded, variants: Range<u8>) {
    for variant in variants {
        let mut seen = 0;
        let has = |bit: u8| variant >> bit & 1 == 1;
        let (paper, origin, size) = if has(0) {
            (Paper::Letter, (17.95, 12.2), (215.9, 279.4))
        } else {
            (Paper::A4, (15.0, 18.0), (210.0, 297.0))
        };
        let size_id = "adult-medium".to_owned();
        let print = Print {
            type_size: [TypeSize::Ordinary, TypeSize::Large][usize::from(has(1))],
            ink: [Printer::Colours, Printer::Black][usize::from(has(2))],
            hand: [Hand::Right, Hand::Left][usize::from(has(3))],
            sizes: match (has(4), has(3)) {
                (false, _) => PrintedSizes::All,
                (true, false) => PrintedSizes::Marked(size_id),
                (true, true) => PrintedSizes::Only(size_id),
            },
            binding: [Binding::Sheets, Binding::Booklets][usize::from(has(2))],
        };
        let options = PackOptions {
            paper: Some(paper),
            print: print.clone(),
            ..PackOptions::default()
        };
        let least = if print.is_large() { LARGE_FLOOR } else { FLOOR };
        for (path, document) in pages(loaded, &[], options).unwrap() {
            assert_eq!(document.paper, size);
            check(&format!("{path} {print:?}"), &document, origin, least);
            seen += document.pages.len();
        }
        let lessons = loaded.course.lessons.len();
        assert!(seen > 3 * lessons, "{seen} pages of {lessons} lessons");
    }
}

#[test]
fn headings_stay_with_what_follows_wherever_the_page_ends() {
    let none = <dyn Directives>::none();
    for lines in 1..60 {
        let text = "Filler.\n\n".repeat(lines)
            + "## A heading\n\nTwo lines of text that are long enough to need a second line, and then a few words more to be sure of it.\n\n### Another\n\n- one\n- two\n\n| a | b |\n|---|--:|\n| 1 | 2 |\n| 3 | 4 |\n| 5 | 6 |\n| 7 | 8 |\n";
        let document = lay_out(&[section(parse(&text, none.as_ref()))], ORDINARY);
        check(&format!("{lines} lines"), &document, (15.0, 18.0), FLOOR);
    }
}

#[test]
fn a_first_page_reads_as_before() {
    let loaded = crate::demo_course::demo();
    let pages = pages(&loaded, &[], PackOptions::default()).unwrap();
    let document = &pages["lessons/06-pebble-hat/handout.pdf"];
    let lines: Vec<String> = boxes(document, 0)
        .iter()
        .map(|(x, _, _, y, words, size)| format!("{x:6.1} {y:6.1} {size:4.1} {}", words.trim()))
        .collect();
    insta::assert_snapshot!("frame__pebble_hat_page_1", lines.join("\n"));
}

#[test]
fn a_hostile_text_is_laid_out_as_text() {
    let text = read("tests/fixtures/hostile.md");
    let none = <dyn Directives>::none();
    let blocks = parse(&text, none.as_ref());
    let document = lay_out(&[section(blocks.clone())], ORDINARY);
    check("hostile", &document, (15.0, 18.0), FLOOR);
    let html = yokeward::page::html::page(&blocks, &yokeward::page::html::PageInfo::default());
    let main = html.split("<main>").nth(1).unwrap();
    let main = main.split("</main>").next().unwrap();
    for live in [
        "<script",
        "<img",
        "onerror=\"",
        "javascript:",
        "<iframe",
        "href=\"data:",
    ] {
        assert!(!main.contains(live), "{live}");
    }
    assert!(main.contains("&lt;script&gt;"));
}
