//! What has broken it once, or could: bounds, each with its fault, and what is stopped that would not end.

use yokeward::ground::bounds;
use yokeward::ground::fault::{Code, Fault};
use yokeward::read::Loaded;

use crate::harness::load;

const CHART: &str = "=== charts/dot.yaml\ntitle: Dot\ncolours: { \".\": ground, \"x\": motif }\nrows: |\n  ..x.\n  x...\nrights: own\n";
pub(crate) const GAUGE: &str =
    "gauge: { colourwork: { stitches: 20, rows: 26 }, plain: { stitches: 21, rows: 28 } }\n";
pub(crate) const YARNS: &str = "colours: { ground: { name: Peat, hex: \"#3b2f2a\" }, motif: { name: Fleece, hex: \"#f2ead8\" } }\n";

/// A course of one lesson with these bands and more keys.
pub(crate) fn lesson(bands: &str, more: &str) -> String {
    format!(
        "=== course.yaml\ntitle: T\n=== 01-piece.yaml\ntitle: Piece\nmakes: swatch\n{GAUGE}{YARNS}{more}bands:\n{bands}{CHART}"
    )
}

pub(crate) fn codes(loaded: &Loaded) -> Vec<&'static str> {
    loaded
        .faults
        .iter()
        .map(|fault| fault.code.name())
        .collect()
}

pub(crate) fn first(loaded: &Loaded, code: Code) -> &Fault {
    let found = loaded.faults.iter().find(|fault| fault.code == code);
    found.unwrap_or_else(|| panic!("no {} in {:?}", code.name(), codes(loaded)))
}

#[test]
#[allow(clippy::too_many_lines, reason = "a table of cases")]
fn each_bound_on_size_has_its_fault_and_what_lies_within_is_read() {
    let plain = |count: usize, rows: usize| {
        (0..count)
            .map(|_| format!("  - plain: {{ rows: {rows} }}\n"))
            .collect::<String>()
    };
    let sizes = |count: usize| {
        let names: Vec<String> = (0..count).map(|i| format!("s{i}")).collect();
        let bodies: Vec<String> = names
            .iter()
            .map(|n| format!("  {n}: {{ head: 55 cm }}\n"))
            .collect();
        lesson(&plain(1, 2), &format!("sizes: [{}]\n", names.join(", ")))
            .replace(
                "title: T\n",
                &format!("title: T\nbodies:\n{}", bodies.concat()),
            )
            .replace("makes: swatch", "makes: hat")
    };
    let learners = |count: usize| {
        let each: Vec<String> = (0..count)
            .map(|i| format!("    - {{ name: P{i}, size: adult-medium }}\n"))
            .collect();
        lesson(&plain(1, 2), "").replace(
            "title: T\n",
            &format!("title: T\nsessions:\n  learners:\n{}", each.concat()),
        )
    };
    let times = |n: usize| lesson(&format!("  - chart: {{ id: dot, times: {n} }}\n"), "");
    let wide = |wide: usize, high: usize| {
        let row = format!("  {}\n", ".".repeat(wide));
        lesson("  - chart: dot\n", "").replace("  ..x.\n  x...\n", &row.repeat(high))
    };
    let text = |letters: usize| {
        lesson(
            &plain(1, 2),
            &format!("text: {}\n", "a ".repeat(letters / 2)),
        )
    };
    let named = |letters: usize| {
        lesson(&plain(1, 2), "").replace("title: Piece", &format!("title: {}", "p".repeat(letters)))
    };
    let footer = |letters: usize| {
        lesson(&plain(1, 2), "").replace(
            "title: T\n",
            &format!("title: T\nfooter: {}\n", "a b ".repeat(letters / 4)),
        )
    };
    let gauge = |stitches: usize| {
        lesson(&plain(1, 2), "").replace(
            "stitches: 20, rows: 26",
            &format!("stitches: {stitches}, rows: {stitches}"),
        )
    };
    let cases: [(&str, String, String, Code); 11] = [
        (
            "bands",
            lesson(&plain(bounds::BANDS, 1), ""),
            lesson(&plain(bounds::BANDS + 1, 1), ""),
            Code::TooLarge,
        ),
        (
            "rows",
            lesson(&plain(1, 2000), ""),
            lesson(&plain(2, 1001), ""),
            Code::TooLarge,
        ),
        (
            "rows of a chart",
            times(bounds::LESSON_ROWS / 2),
            lesson(&"  - chart: { id: dot, times: 600 }\n".repeat(2), ""),
            Code::TooLarge,
        ),
        ("cells", wide(500, 500), wide(501, 500), Code::TooLarge),
        (
            "a side",
            wide(bounds::CHART_SIDE, 1),
            wide(bounds::CHART_SIDE + 1, 1),
            Code::TooLarge,
        ),
        (
            "sizes",
            sizes(bounds::SIZES),
            sizes(bounds::SIZES + 1),
            Code::TooLarge,
        ),
        (
            "learners",
            learners(bounds::LEARNERS),
            learners(bounds::LEARNERS + 1),
            Code::TooLarge,
        ),
        (
            "a text",
            text(bounds::TEXT_LETTERS - 10),
            text(bounds::TEXT_LETTERS + 10),
            Code::WrongValue,
        ),
        (
            "a name",
            named(bounds::NAME_LETTERS),
            named(bounds::NAME_LETTERS + 1),
            Code::WrongValue,
        ),
        (
            "a footer",
            footer(80),
            footer(bounds::FOOTER_LETTERS + 8),
            Code::TooLarge,
        ),
        ("a gauge", gauge(400), gauge(401), Code::TooLarge),
    ];
    for (what, within, beyond, code) in cases {
        let read =
            |text: &str| yokeward::read::load_texts("course", crate::harness::texts(text), true);
        let (within, beyond) = (read(&within), read(&beyond));
        assert!(
            !within.has_errors(),
            "{what}: {:?}",
            within.faults.iter().map(|f| &f.title).collect::<Vec<_>>()
        );
        let errors: Vec<Code> = beyond
            .faults
            .iter()
            .filter(|f| f.is_error())
            .map(|f| f.code)
            .collect();
        assert_eq!(errors, [code], "{what}");
        let fault = first(&beyond, code);
        assert!(fault.help.is_some(), "{what}: no way out");
    }
}

#[test]
fn a_footer_that_two_lines_cannot_hold_is_refused_and_one_of_two_lines_stands_whole() {
    let course = |footer: &str| {
        lesson("  - plain: { rows: 2 }\n", "")
            .replace("title: T\n", &format!("title: T\nfooter: {footer}\n"))
    };
    let long = "You may copy these pages for your own class if this line stays on them. ".repeat(3);
    let loaded = load(&course(&long));
    assert!(
        first(&loaded, Code::TooLarge)
            .title
            .contains("two lines in large print")
    );
    // About 108 letters: one line of the usual print, two of large print, cut in neither.
    let two = "Made for the winter workshop of the guild. You may copy these pages if this line stays on all of them, please";
    let loaded = load(&course(two));
    assert!(!loaded.has_errors());
    for large in [false, true] {
        let mut options = yokeward::app::PackOptions::default();
        if large {
            options.print.type_size = yokeward::course::TypeSize::Large;
        }
        let pages = yokeward::app::pages(&loaded, &[], options).unwrap();
        let text = crate::goldens::page_text(pages.values().next().unwrap());
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains(two), "{large}: {text}");
    }
}

#[test]
fn templates_that_do_too_much_are_stopped_and_proof_finds_them() {
    for (template, said) in [
        (
            "{% for a in range(end=90000) %}{% for b in range(end=90000) %}x{% endfor %}{% endfor %}",
            "goes round more than",
        ),
        (
            "{% set s = \"aaaaaaaa\" %}{% for a in range(end=60) %}{% set_global s = s ~ s %}{% endfor %}",
            "makes a text of more than",
        ),
        (
            "{% set s %}aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa{% endset %}{{ s | replace(from=\"a\", to=s) | replace(from=\"a\", to=s) | replace(from=\"a\", to=s) | replace(from=\"a\", to=s) }}",
            "makes a text of more than",
        ),
        ("{% include \"handout.md\" %}", "ircular"),
        ("{{ nowhere }}", "nowhere"),
        ("{{ title | indent(width=1000000000) }}", "not offered"),
    ] {
        let text = lesson("  - chart: dot\n", "") + "=== templates/handout.md\n" + template + "\n";
        let loaded = load(&text);
        let fault = first(&loaded, Code::BrokenTemplate);
        assert!(fault.title.contains(said), "{template}: {}", fault.title);
    }
    for name in ["course.md", "index.md", "quiz.md", "teacher.md"] {
        let own = format!("=== templates/{name}\n{{{{ nowhere }}}}\n");
        let loaded = load(&(lesson("  - chart: dot\n", "") + &own));
        // Without two charts there is no quiz to make.
        let told = codes(&loaded).contains(&"broken-template");
        assert_eq!(told, name != "quiz.md", "{name}");
    }
    // What a usual template does is left alone, the blanks that its tags take too.
    let fine = "# {{ title }}\n{% for a in [1, 2, 3] -%}\n  x{{ a }}\n{%- endfor %}\n{% set s = \"q\" %}{{ [\"a\", \"b\"] | join(sep=\"-\") }}{{ s | replace(from=\"q\", to=\"r\") }}{% raw %}{% for %}{% endraw %}\n";
    let loaded = load(&(lesson("  - chart: dot\n", "") + "=== templates/handout.md\n" + fine));
    assert!(!loaded.has_errors(), "{:?}", loaded.faults);
    let files =
        yokeward::app::pack(&loaded, &[], yokeward::app::PackOptions::default(), &|_| {}).unwrap();
    let page = String::from_utf8(files["lessons/01-piece/handout.md"].clone()).unwrap();
    assert!(
        page.contains("x1x2x3") && page.contains("a-br{% for %}"),
        "{page}"
    );
    let card = lesson("  - chart: dot\n", "techniques: [knot]\n")
        + "=== techniques/knot.md\nTie {{ t.colur }}.\n";
    assert!(codes(&load(&card)).contains(&"broken-template"));
}

#[test]
fn a_search_for_remedies_has_an_end_and_says_so() {
    let mut dice = crate::harness::Random::new(4);
    let rows: String = (0..60)
        .map(|_| {
            format!(
                "  {}\n",
                (0..24)
                    .map(|_| ['.', 'x', 'o', 'a', 'b', 'c'][dice.below(6)])
                    .collect::<String>()
            )
        })
        .collect();
    let yarns: Vec<String> = ["r0", "r1", "r2", "r3", "r4", "r5"]
        .iter()
        .zip(["000000", "ffffff", "cc0000", "00aa00", "0000cc", "cccc00"])
        .map(|(r, h)| format!("{r}: {{ name: {r}, hex: \"#{h}\" }}"))
        .collect();
    let text = format!(
        "=== course.yaml\ntitle: T\n=== 01-hat.yaml\ntitle: Hat\nmakes: hat\n{GAUGE}colours: {{ {} }}\nbands: [ {{ chart: c }} ]\nsizes: [adult-medium]\n\
         === charts/c.yaml\ntitle: C\nrights: own\ncolours: {{ \".\": r0, x: r1, o: r2, a: r3, b: r4, c: r5 }}\nrows: |\n{rows}",
        yarns.join(", ")
    );
    let loaded = load(&text);
    let studied = yokeward::app::study_course(&loaded.course);
    let found = yokeward::app::gap_remedies(&studied, &[]);
    assert!(found.iter().any(|one| one.cut_short), "{found:?}");
    // The demo course, with a gap made, is searched to its end.
    let demo = crate::demo_course::demo();
    let mut course = demo.course.clone();
    course.budget.step = 5.0;
    let studied = yokeward::app::study_course(&course);
    let found = yokeward::app::gap_remedies(&studied, &[]);
    assert!(!found.is_empty() && found.iter().all(|one| !one.cut_short));
}

/// Numbers of bounds stand in words at two more places: they are those of the code.
#[test]
fn words_about_bounds_name_the_bounds() {
    let grouped = |n: usize| match n {
        0..1000 => n.to_string(),
        _ => format!("{},{:03}", n / 1000, n % 1000),
    };
    let explained = yokeward::ground::fault::explanation(Code::TooLarge);
    let readme = crate::harness::read("README.md");
    for (bound, what) in [
        (bounds::LESSON_ROWS, "rows"),
        (bounds::SIZES, "sizes"),
        (bounds::BANDS, "bands"),
    ] {
        let words = format!("{} {what}", grouped(bound));
        assert!(explained.contains(&words), "{words}");
        assert!(what == "bands" || readme.contains(&words), "{words}");
    }
    for words in [
        format!("{} levels", bounds::YAML_DEPTH),
        format!("{} colours", bounds::COLOURS),
        format!("{} named learners", bounds::LEARNERS),
        format!("{} MiB a file", bounds::FILE_BYTES >> 20),
    ] {
        assert!(explained.contains(&words), "{words}");
    }
    assert!(
        readme
            .replace('\n', " ")
            .contains(&format!("{} cells", grouped(bounds::LESSON_CELLS)))
    );
}
