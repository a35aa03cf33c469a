//! Everything that is printed, as goldens that are read in review: Markdown, a page of HTML, charts as SVG, tables for
//! spreadsheets, the text of every PDF page, all JSON; of the demo course, and of small courses that say the same things
//! otherwise (inches and American words, small children, flat work, other crafts, own bodies).

use std::collections::BTreeMap;
use std::fmt::Write;

use yokeward::app::{PackOptions, pack, pages};
use yokeward::course::PrintedSizes;
use yokeward::handout::Print;
use yokeward::page::pdf::{Document, PageMark};
use yokeward::read::Loaded;

use crate::demo_course::demo;
use crate::harness::{load, read, root, yokeward};

/// The small courses, by the names of their files.
const SMALL: [&str; 6] = ["us", "young", "flat", "crochet", "tunisian", "thread"];

fn small(name: &str) -> Loaded {
    let loaded = load(&read(&format!("tests/fixtures/courses/{name}.txt")));
    assert!(!loaded.has_errors(), "{name}: {:?}", loaded.faults);
    loaded
}

pub(crate) fn packed(loaded: &Loaded) -> BTreeMap<String, Vec<u8>> {
    pack(loaded, &[], PackOptions::default(), &|_| {}).unwrap()
}

fn text(files: &BTreeMap<String, Vec<u8>>, path: &str) -> String {
    String::from_utf8(files[path].clone()).unwrap()
}

/// The words of every page, a line of type a line, in the order in which they are set; links with their targets.
pub(crate) fn page_text(document: &Document) -> String {
    let mut out = String::new();
    for (number, page) in document.pages.iter().enumerate() {
        writeln!(out, "--- page {}", number + 1).unwrap();
        let marks = page.items.iter().map(|item| &item.mark);
        let mut line: Option<(f64, f64)> = None;
        for mark in page.furniture.iter().chain(marks) {
            let PageMark::Run(run) = mark else { continue };
            match line {
                Some((y, end)) if (y - run.y).abs() < 0.01 && run.x >= end - 0.01 => {
                    // What stands apart is shown apart.
                    out.push_str(if run.x > end + 2.5 { " | " } else { "" });
                }
                Some(_) => out.push('\n'),
                None => {}
            }
            out.push_str(&run.text());
            line = Some((run.y, run.x + run.width()));
        }
        out.push('\n');
        for link in &page.links {
            writeln!(out, "link: {}", link.href).unwrap();
        }
    }
    let lines = out.lines().map(|line| format!("{}\n", line.trim_end()));
    lines.collect()
}

/// A page of HTML without the bytes of its fonts, a tag a line where tags follow each other.
fn without_fonts(html: &str) -> String {
    let mut parts = html.split("base64,");
    let mut out = parts.next().unwrap().to_owned();
    for part in parts {
        let end = part.find(')').unwrap();
        write!(out, "base64,…{}", &part[end..]).unwrap();
    }
    out.replace("><", ">\n<")
}

/// JSON with a line for each entry, its keys in the order in which they were written.
fn lines_of(json: &str) -> String {
    json.replace("},{", "},\n{").replace("[{", "[\n{")
}

#[test]
fn handouts_of_the_demo_course_read_as_before() {
    let files = packed(&demo());
    let mut seen = 0;
    for path in files.keys().filter(|path| path.ends_with(".md")) {
        let id = path.split('/').nth(1).unwrap();
        insta::assert_snapshot!(format!("demo__{id}.md"), text(&files, path));
        seen += 1;
    }
    assert_eq!(seen, 12);
}

/// One learner's size in bold wherever it stands among others: columns of crowns, of stages, of measures, of yarn.
#[test]
fn a_marked_size_stands_out_as_before() {
    for (stem, size) in [
        ("06-pebble-hat", "adult-medium"),
        ("12-samphire-yoke", "woman-m"),
    ] {
        let options = PackOptions {
            print: Print {
                sizes: PrintedSizes::Marked(size.to_owned()),
                ..Print::default()
            },
            ..PackOptions::default()
        };
        let files = pack(&demo(), &[], options, &|_| {}).unwrap();
        let page = text(&files, &format!("lessons/{stem}/handout.md"));
        let bold: String = page
            .lines()
            .filter(|line| line.contains("**"))
            .map(|line| format!("{line}\n"))
            .collect();
        insta::assert_snapshot!(format!("marked__{stem}"), bold);
    }
}

#[test]
fn pages_of_html_are_as_before() {
    let files = packed(&demo());
    for (name, path) in [
        ("index", "index.html"),
        (
            "sanderling-headband",
            "lessons/02-sanderling-headband/handout.html",
        ),
    ] {
        let page = without_fonts(&text(&files, path));
        insta::assert_snapshot!(format!("demo__{name}.html"), page);
    }
}

#[test]
fn charts_are_drawn_as_before() {
    let files = packed(&demo());
    let mut drawn = String::new();
    for (path, bytes) in files.iter().filter(|(path, _)| path.ends_with(".svg")) {
        let picture = String::from_utf8(bytes.clone()).unwrap();
        // Short pictures whole: a round one, one with catches, a flat one with edges, a shaped one, one of three colours.
        let stem = path.rsplit('/').next().unwrap();
        if ["pebble", "reeds", "samphire", "starfish", "tern"]
            .iter()
            .any(|id| stem.starts_with(&format!("chart-{id}")))
        {
            insta::assert_snapshot!(format!("demo__{stem}"), picture.replace("><", ">\n<"));
        }
        writeln!(drawn, "{path}: {} bytes", bytes.len()).unwrap();
    }
    insta::assert_snapshot!("demo__charts", drawn);
    // One that is counted from its middle.
    let files = packed(&small("thread"));
    let path = files.keys().find(|path| path.ends_with("chart-boat.svg"));
    let picture = text(&files, path.unwrap());
    insta::assert_snapshot!("thread__chart-boat.svg", picture.replace("><", ">\n<"));
}

#[test]
fn tables_and_lists_are_as_before() {
    let files = packed(&demo());
    insta::assert_snapshot!("demo__shopping.csv", text(&files, "shopping.csv"));
    insta::assert_snapshot!("demo__grades.json", text(&files, "grades.json"));
    let names: Vec<&str> = files.keys().map(String::as_str).collect();
    insta::assert_snapshot!("demo__files", names.join("\n"));
}

#[test]
fn pages_of_the_course_say_what_they_said() {
    let documents = pages(&demo(), &[], PackOptions::default()).unwrap();
    for name in ["course.pdf", "teacher.pdf", "quiz.pdf"] {
        insta::assert_snapshot!(format!("demo__{name}"), page_text(&documents[name]));
    }
    // A yoke has everything: tables that run on overleaf, rounds to tick off, the picture from above.
    let yoke = &documents["lessons/09-dunlin-yoke/handout.pdf"];
    insta::assert_snapshot!("demo__dunlin-yoke.pdf", page_text(yoke));
}

#[test]
fn small_courses_read_as_before() {
    for name in SMALL {
        let loaded = small(name);
        let files = packed(&loaded);
        let mut all = String::new();
        for path in files.keys().filter(|path| path.ends_with(".md")) {
            writeln!(all, "=== {path}\n{}", text(&files, path)).unwrap();
        }
        writeln!(all, "=== shopping.csv\n{}", text(&files, "shopping.csv")).unwrap();
        let documents = pages(&loaded, &[], PackOptions::default()).unwrap();
        for path in ["course.pdf", "teacher.pdf", "quiz.pdf"] {
            // Where no pair of charts is worth asking about, there is no quiz.
            if let Some(document) = documents.get(path) {
                writeln!(all, "=== {path}\n{}", page_text(document)).unwrap();
            }
        }
        insta::assert_snapshot!(format!("small__{name}"), all);
    }
}

/// Everything that a command gives as JSON.
#[test]
fn all_json_is_as_before() {
    let folder = tempfile::tempdir().unwrap();
    let lessons = root().join("lessons");
    let file = |name: &str| lessons.join(name).display().to_string();
    let course = lessons.display().to_string();
    let log = "done:\n  - { made: tideline-cowl, went: easy }\n  - { made: sanderling-headband, went: right }\n  \
               - { made: pebble, went: hard }\nstock:\n  - { name: Grey, weight: 4, grams: 200 }\n";
    let pairs = "pairs:\n  - { harder: tern, easier: drizzle }\n  - { harder: reeds, easier: pebble, times: 2 }\n";
    std::fs::write(folder.path().join("me.yaml"), log).unwrap();
    std::fs::write(folder.path().join("pairs.yaml"), pairs).unwrap();
    let (hat, yoke) = (file("06-pebble-hat.yaml"), file("09-dunlin-yoke.yaml"));
    let (scarf, tern) = (file("10-reed-sampler.yaml"), file("charts/tern.yaml"));
    let (pebble, samphire) = (file("charts/pebble.yaml"), file("charts/samphire.yaml"));
    let wants: [(&str, &[&str]); 15] = [
        ("measure-hat", &["measure", "--json", &hat, &pebble]),
        ("measure-flat", &["measure", "--json", &scarf]),
        ("measure-shaped", &["measure", "--json", &samphire]),
        ("grade", &["grade", "--json", &course]),
        ("order", &["order", "--json", &course]),
        ("proof", &["proof", "--json", &course]),
        ("fit-hat", &["fit", "--json", &hat]),
        ("fit-yoke", &["fit", "--json", &yoke]),
        ("fit-gauge", &["fit", "--json", &hat, "--gauge", "19"]),
        ("next", &["next", "--json", "--log", "me.yaml", &course]),
        (
            "route",
            &[
                "route",
                "--json",
                "--log",
                "me.yaml",
                "--to",
                "dunlin-yoke",
                &course,
            ],
        ),
        ("compare", &["compare", "--json", &tern, &pebble]),
        ("tame", &["tame", "--json", &tern, "--longest", "4"]),
        (
            "tame-mirror",
            &["tame", "--json", &tern, "--longest", "4", "--mirror"],
        ),
        (
            "judge",
            &["judge", "--json", "--pairs", "pairs.yaml", &course],
        ),
    ];
    for (name, arguments) in wants {
        let (code, out, err) = yokeward(folder.path(), arguments);
        insta::assert_snapshot!(
            format!("json__{name}"),
            format!("exit {code}\n{err}{}", lines_of(&out))
        );
    }
}
