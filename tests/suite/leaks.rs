//! Nothing leaks: no command to a terminal, no formula to a spreadsheet, no HTML through Markdown, no broken XML, no file from
//! outside a course's folder, no cell of a chart that may not be printed.

use std::collections::BTreeMap;

use pulldown_cmark::{Event, Options, Parser, Tag};
use yokeward::app::{self, PackOptions, pack};

use crate::fuzzed::entries::html_in;
use crate::harness::{Random, load, yokeward};

#[test]
fn nothing_acts_on_a_terminal() {
    let folder = tempfile::tempdir().unwrap();
    let evil = "\u{1b}]0;gone\u{7}\u{1b}[2J\u{9b}31m\u{202e}";
    let course = folder.path().join("course");
    assert_eq!(yokeward(folder.path(), &["begin", "course"]).0, 0);
    let lesson = course.join("01-first-stripes.yaml");
    let text = std::fs::read_to_string(&lesson).unwrap();
    let title = text
        .lines()
        .find(|l| l.starts_with("title:"))
        .unwrap()
        .to_owned();
    let quoted = "\\e]0;gone\\a\\e[2J\\N31m";
    std::fs::write(
        &lesson,
        text.replace(
            &title,
            &format!("title: \"Cap {quoted}\"\nstrange{}: 1", '\u{202e}'),
        ),
    )
    .unwrap();
    std::fs::write(course.join(format!("{evil}.yaml")), "rows: |\n  zz\n").unwrap();
    let acts = |text: &str| {
        text.chars()
            .any(|c| (c.is_control() && c != '\n') || ('\u{202a}'..='\u{202e}').contains(&c))
    };
    for arguments in [
        &["proof", "course"] as &[&str],
        &["proof", "course", "--concise"],
        &["order", "course"],
        &["grade", "course"],
        &["measure", "course"],
        &["measure", "course", "--json"],
        &["pack", "course"],
        &[&format!("frob{evil}")],
        &["proof", &format!("nowhere{evil}")],
    ] {
        let (_, out, report) = yokeward(folder.path(), arguments);
        assert!(
            !acts(&out) && !acts(&report),
            "{arguments:?}: {out:?} {report:?}"
        );
        assert!(!out.is_empty() || !report.is_empty());
    }
}

#[cfg(unix)]
#[test]
fn a_folder_says_what_it_does_not_read() {
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::symlink;
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(yokeward(folder.path(), &["begin", "course"]).0, 0);
    let course = folder.path().join("course");
    let chart =
        "title: Far\ncolours: { \".\": ground, \"x\": motif }\nrows: |\n  .x\nrights: own\n";
    std::fs::write(folder.path().join("far.yaml"), chart).unwrap();
    std::fs::create_dir_all(course.join("hats/deep")).unwrap();
    std::fs::create_dir_all(course.join("other")).unwrap();
    std::fs::write(course.join("hats/deep/near.YAML"), chart).unwrap();
    std::fs::write(course.join("other/course.yaml"), "title: Other\n").unwrap();
    std::fs::write(course.join("copy.yaml.txt"), "title: Copy\n").unwrap();
    std::fs::write(course.join("notes.txt"), "tea\n").unwrap();
    std::fs::write(
        course.join(std::ffi::OsStr::from_bytes(b"od\xffd.yaml")),
        "x: 1\n",
    )
    .unwrap();
    symlink("nowhere", course.join("charts/dead.yaml")).unwrap();
    symlink(
        folder.path().join("far.yaml"),
        course.join("charts/far.yaml"),
    )
    .unwrap();
    symlink("../hats/deep/near.YAML", course.join("charts/again.yaml")).unwrap();
    let (code, out, _) = yokeward(folder.path(), &["proof", "course", "--concise"]);
    assert_eq!(code, 0, "{out}");
    for (name, said) in [
        ("copy.yaml.txt", "ending"),
        ("charts/dead.yaml", "leads nowhere"),
        ("charts/far.yaml", "leads out"),
        ("other", "course of its own"),
        ("od\u{fffd}d.yaml", "name is not text"),
    ] {
        let line = out.lines().find(|line| line.contains(name));
        assert!(
            line.is_some_and(|line| line.contains("not-read") && line.contains(said)),
            "{name}: {out}"
        );
    }
    assert_eq!(out.lines().count(), 5, "{out}");
    // Read wherever they lie: in folders of folders, in large letters, through links that stay inside.
    let (_, table, _) = yokeward(folder.path(), &["measure", "course"]);
    assert!(
        table.contains("near") && table.contains("again") && !table.contains("far "),
        "{table}"
    );
    let (_, table, _) = yokeward(folder.path(), &["--links-out", "measure", "course"]);
    assert!(table.contains("far "), "{table}");
}

/// A text between quotes, every letter that is not plain by its number.
fn quoted(text: &str) -> String {
    let letter = |c: char| match c {
        ' '..='~' if c != '"' && c != '\\' => c.to_string(),
        _ => format!("\\U{:08x}", u32::from(c)),
    };
    format!("\"{}\"", text.chars().map(letter).collect::<String>())
}

/// A course whose every name is out to do harm.
fn hostile(name: &str) -> String {
    let quoted = quoted(name);
    format!(
        "=== course.yaml\ntitle: {quoted}\nguild: {quoted}\nfooter: {quoted}\nsessions: {{ learners: [ {{ name: Wren, size: adult-medium }} ] }}\n\
         === 01-cap.yaml\ntitle: {quoted}\nmakes: hat\ngauge: {{ colourwork: {{ stitches: 20, rows: 26 }}, plain: {{ stitches: 21, rows: 28 }} }}\n\
         colours: {{ ground: {{ name: {quoted}, hex: \"#3b2f2a\" }}, motif: {{ name: {quoted}, hex: \"#f2ead8\" }} }}\n\
         bands:\n  - plain: {{ rows: 2, say: {quoted} }}\n  - chart: dot\nsizes: [adult-medium]\ntext: {quoted}\n\
         === charts/dot.yaml\ntitle: {quoted}\nsource: {quoted}\ncolours: {{ \".\": ground, \"x\": motif }}\nrows: |\n  ..x.\n  x...\nrights: own\n"
    )
}

fn files(course: &str) -> BTreeMap<String, Vec<u8>> {
    let loaded = load(course);
    assert!(!loaded.has_errors(), "{:?}", loaded.faults);
    pack(&loaded, &[], PackOptions::default(), &|_| {}).unwrap()
}

#[test]
fn a_spreadsheet_runs_nothing() {
    for name in ["=1+1", "+SUM(A1)", "-2", "@cmd", "\u{ff1d}1+1"] {
        let all = files(&hostile(name));
        let table = String::from_utf8(all["shopping.csv"].clone()).unwrap();
        let cells = table.lines().skip(1).flat_map(|line| line.split(','));
        let mut seen = 0;
        for cell in cells {
            let text = cell.trim_matches('"');
            assert!(
                !text.starts_with(['=', '+', '-', '@', '\u{ff1d}']),
                "{name}: {table}"
            );
            seen += usize::from(text == format!("'{name}"));
        }
        assert_eq!(seen, 2, "{name}: {table}");
    }
}

#[test]
fn markdown_holds_no_html_and_no_broken_code() {
    for name in [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "a `` b ` c",
        "``` rust\n<b>x</b>\n```",
        "````\n```\nfn main() {}\n```\n````",
        "[a](http://example.org/<b>) <!-- c --> &lt;",
        "| a | b |",
        "# not a heading",
        "1. `` ` ``\n2. `x`",
    ] {
        let flat = name.replace('\n', " ");
        let text = hostile(&flat).replace(
            &format!("text: {}", quoted(&flat)),
            &format!("text: {}", quoted(name)),
        );
        for (path, bytes) in files(&text) {
            if !path.ends_with(".md") {
                continue;
            }
            let page = String::from_utf8(bytes).unwrap();
            assert_eq!(html_in(&page), None, "{name}: {path}");
            // The lesson's own code comes back as it was.
            let written = codes(name);
            let kept = codes(&page);
            assert!(
                written.iter().all(|code| kept.contains(code)),
                "{name}: {written:?} not in {kept:?}\n{page}"
            );
        }
    }
}

/// All code of a text: fenced and in lines.
fn codes(text: &str) -> Vec<String> {
    let mut all = Vec::new();
    let mut block: Option<String> = None;
    for event in Parser::new_ext(text, Options::ENABLE_TABLES) {
        match event {
            Event::Code(code) => all.push(code.into_string()),
            Event::Start(Tag::CodeBlock(_)) => block = Some(String::new()),
            Event::Text(text) => {
                if let Some(block) = &mut block {
                    block.push_str(&text);
                }
            }
            Event::End(pulldown_cmark::TagEnd::CodeBlock) => all.extend(block.take()),
            _ => {}
        }
    }
    all
}

#[test]
fn xml_is_well_formed_whatever_the_title() {
    for name in [
        "a & b < c > d \" ' ]]>",
        "x\u{1}\u{8}\u{b}\u{1f}y",
        "z\u{fffe}\u{ffff}",
        "\u{e000}\u{1f9f6}",
        "<?xml?><!DOCTYPE a>",
    ] {
        // Control characters cannot stand in a title of a YAML file unescaped; escaped they can.
        for (path, bytes) in files(&hostile(name)) {
            let texts: Vec<String> = match path.rsplit('.').next() {
                Some("svg") => vec![String::from_utf8(bytes).unwrap()],
                Some("pdf") => vec![metadata(&bytes)],
                Some("html") => svgs(&String::from_utf8(bytes).unwrap()),
                _ => continue,
            };
            for text in texts {
                let read = roxmltree::Document::parse(&text);
                assert!(read.is_ok(), "{name:?}: {path}: {read:?}");
            }
        }
    }
}

/// The XMP packet of a PDF.
fn metadata(pdf: &[u8]) -> String {
    let file = lopdf::Document::load_mem(pdf).unwrap();
    let id = file
        .catalog()
        .unwrap()
        .get(b"Metadata")
        .unwrap()
        .as_reference()
        .unwrap();
    let stream = file.get_object(id).unwrap().as_stream().unwrap();
    let text = String::from_utf8(stream.content.clone()).unwrap();
    assert!(text.contains("<dc:title>"));
    text
}

/// The drawings of a page.
fn svgs(page: &str) -> Vec<String> {
    let starts: Vec<usize> = page.match_indices("<svg").map(|(at, _)| at).collect();
    let each = starts.into_iter().filter_map(|at| {
        let end = page[at..].find("</svg>")? + "</svg>".len();
        Some(page[at..at + end].to_owned())
    });
    each.collect()
}

/// Of two charts with equal measures, neither of which may be printed, the packs are the same bytes: nothing of the cells is
/// in them.
#[test]
fn nothing_of_a_chart_that_may_not_be_printed_is_in_a_pack() {
    let course = |rows: &[String]| {
        let rows: String = rows.iter().map(|row| format!("  {row}\n")).collect();
        hostile("Cap")
            .replace("rights: own", "rights: reference-only")
            .replace("  ..x.\n  x...\n", &rows)
    };
    let measures = |text: &str| {
        let loaded = load(text);
        let studied = app::study_course(&loaded.course);
        let each = studied
            .lessons
            .iter()
            .map(|lesson| (lesson.measures.clone(), lesson.grade.clone()));
        format!(
            "{:?}",
            each.map(|(mut measures, grade)| {
                measures.rows.clear();
                (measures, grade)
            })
            .collect::<Vec<_>>()
        )
    };
    let mut dice = Random::new(16);
    let mut pairs = 0;
    for _ in 0..300 {
        let rows: Vec<String> = (0..6)
            .map(|_| {
                (0..8)
                    .map(|_| if dice.below(2) == 0 { '.' } else { 'x' })
                    .collect()
            })
            .collect();
        let turned: Vec<String> = rows
            .iter()
            .map(|row| format!("{}{}", &row[3..], &row[..3]))
            .collect();
        let (a, b) = (course(&rows), course(&turned));
        if rows == turned || measures(&a) != measures(&b) {
            continue;
        }
        let (a, b) = (files(&a), files(&b));
        let differ: Vec<&String> = a
            .keys()
            .filter(|path| a.get(*path) != b.get(*path))
            .collect();
        assert!(
            differ.is_empty() && a.len() == b.len(),
            "{rows:?}: {differ:?}"
        );
        pairs += 1;
        if pairs == 3 {
            return;
        }
    }
    panic!("only {pairs} pairs of equal measures");
}

#[test]
fn a_picture_of_a_chart_that_may_not_be_printed_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let chart = |rights: &str| {
        format!(
            "title: Far\nrights: {rights}\ncolours: {{ \".\": ground, \"x\": motif }}\nrows: |\n  .......x\n  x.......\n"
        )
    };
    for (name, rights) in [("own.yaml", "own"), ("far.yaml", "reference-only")] {
        std::fs::write(folder.path().join(name), chart(rights)).unwrap();
        let made = format!("tamed-{name}");
        let picture = format!("{name}.svg");
        let arguments = [
            "tame",
            name,
            "--longest",
            "4",
            "--to",
            &made,
            "--picture",
            &picture,
        ];
        let (code, _, report) = yokeward(folder.path(), &arguments);
        assert_eq!(code, 0, "{report}");
        assert_eq!(
            report.contains("for reference only"),
            rights == "reference-only",
            "{report}"
        );
        let written = std::fs::read_to_string(folder.path().join(&made)).unwrap();
        assert!(written.contains(&format!("rights: {rights}")), "{written}");
    }
}
