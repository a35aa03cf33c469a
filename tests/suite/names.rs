//! Names that people give keep every character, wherever they stand: a yarn called `Peat *lot 7*` is no emphasis.

use yokeward::app::{PackOptions, pack, pages};

use crate::goldens::page_text;
use crate::harness::{load, read};

#[test]
fn stars_and_strokes_in_names_are_printed_everywhere() {
    let named = [
        ("Kelp", "Kelp *lot 7*"),
        ("Chalk *lot 7*", "Chalk _old_ `3`"),
        ("Aunt", "Aunt *May*"),
        ("title: Cove\n", "title: Cove *wide*\n"),
        ("title: Cove cap", "title: Cap _of_ coves"),
        ("Sandgrain", "Sand"),
    ];
    let mut course = read("tests/fixtures/courses/us.txt");
    for (plain, marked) in named {
        course = course.replace(plain, marked);
    }
    // One chart more, so that there is a pair to ask about.
    course.push_str(
        "\n=== charts/grains.yaml\ntitle: Sand *grains*\ncolours: { \".\": ground, \"x\": motif, \"o\": third }\nrows: |\n  \
         x.o.x.\n  .x.x.o\n  ......\n  x.x.o.\nrights: own\n",
    );
    let loaded = load(&course);
    assert!(!loaded.has_errors(), "{:?}", loaded.faults);
    let files = pack(&loaded, &[], PackOptions::default(), &|_| {}).unwrap();
    let mut texts: Vec<(String, String)> = files
        .iter()
        .filter(|(path, _)| path.ends_with(".html"))
        .map(|(path, bytes)| {
            let page = String::from_utf8(bytes.clone()).unwrap();
            // What stands between tags, tags of emphasis left out.
            let words = page.split("<main>").nth(1).unwrap();
            let words: Vec<&str> = words
                .split('<')
                .filter_map(|t| t.split_once('>'))
                .map(|(_, t)| t)
                .collect();
            (path.clone(), words.concat())
        })
        .collect();
    for (path, document) in pages(&loaded, &[], PackOptions::default()).unwrap() {
        texts.push((path, page_text(&document).replace('\n', " ")));
    }
    assert!(texts.len() >= 8);
    let mut kept = 0;
    for (path, text) in texts {
        for lost in [
            "Kelp lot 7",
            "Chalk old",
            "Aunt May",
            "Cove wide",
            "Cap of coves",
            "_old_ 3",
            "Sand grains",
        ] {
            let at = text.find(lost).unwrap_or(0);
            let near: String = text.chars().skip(at.saturating_sub(60)).take(140).collect();
            assert!(!text.contains(lost), "{path}: “{lost}” in “{near}”");
        }
        kept += text.matches("Kelp *lot 7*").count() + text.matches("Chalk _old_ `3`").count();
    }
    assert!(kept > 60, "{kept}");
}

/// On cloth a thread's name is the title of its step and stands in a table of its own.
#[test]
fn a_thread_keeps_every_character_of_its_name() {
    let course =
        read("tests/fixtures/courses/thread.txt").replace("name: Tide", "name: \"Tide *old*_7\"");
    let loaded = load(&course);
    assert!(!loaded.has_errors(), "{:?}", loaded.faults);
    let pages = pages(&loaded, &[], PackOptions::default()).unwrap();
    let text = page_text(&pages["lessons/01-boat-square/handout.pdf"]);
    assert!(text.matches("Tide *old*_7").count() >= 4, "{text}");
    assert!(!text.contains('\\'), "{text}");
}
