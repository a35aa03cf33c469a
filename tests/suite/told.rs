//! Faults are told where their cause is, once, in time, and the cause before what follows from it.

use std::time::Instant;

use yokeward::ground::bounds;
use yokeward::ground::fault::{Code, Fault, Form, MOST_SHOWN, render};
use yokeward::read::Loaded;

use crate::hardy::{GAUGE, YARNS, codes, first, lesson};
use crate::harness::load;

/// The text under a fault's main place, and its line.
fn under<'a>(loaded: &'a Loaded, fault: &Fault) -> (&'a str, usize) {
    let span = fault.labels[0].span;
    (
        loaded.sources.slice(span),
        loaded.sources.line_column(span).0,
    )
}

#[test]
fn a_letter_is_told_once_and_where_its_key_was_lost() {
    let rows = "  yyyy\n".repeat(500);
    let many = lesson("  - chart: dot\n", "").replace("  ..x.\n  x...\n", &rows);
    let loaded = load(&many);
    let told: Vec<&Fault> = loaded
        .faults
        .iter()
        .filter(|f| f.code == Code::UnknownLetter)
        .collect();
    assert_eq!(told.len(), 1);
    // No cell is `.` or `x`: the first of the two keys is where the letter was meant.
    assert_eq!(under(&loaded, told[0]).0, "\".\"");
    assert!(told[0].title.contains("2000 cells"), "{}", told[0].title);
    let one = load(&lesson("  - chart: dot\n", "").replace("  ..x.", "  ..q."));
    assert_eq!(under(&one, first(&one, Code::UnknownLetter)).0, "q");
}

#[test]
fn letters_that_nobody_sees_are_refused() {
    for letter in [
        "\u{200b}", "\u{202e}", "\u{200f}", "\u{feff}", "\u{301}", "\u{2066}",
    ] {
        let loaded = load(
            &lesson("  - chart: dot\n", "")
                .replace("\"x\": motif", &format!("\"{letter}\": motif")),
        );
        assert!(
            first(&loaded, Code::BadLetter).title.contains("U+"),
            "{letter:?}"
        );
    }
    for title in ["\"\"", "\" \"", "\"\u{200b}\""] {
        let loaded = load(
            &lesson("  - chart: dot\n", "").replace("title: Piece", &format!("title: {title}")),
        );
        assert!(
            first(&loaded, Code::WrongValue).title.contains("`title`"),
            "{title:?}"
        );
    }
}

#[test]
fn causes_come_before_what_follows_from_them() {
    // Another lesson needs the faulty one: its own warning stands last, though its file comes first.
    let text = lesson("  - chart: nowhere\n", "")
        + "=== 00-first.yaml\ntitle: First\nmakes: swatch\n"
        + GAUGE
        + YARNS
        + "bands: [ { plain: { rows: 2 } } ]\nneeds: [piece]\n";
    let loaded = load(&text);
    assert_eq!(codes(&loaded), ["unknown-chart", "needs-left-out"]);
    // A slip in a key is told by itself: nothing is missing, nothing is empty, nobody goes without sizes.
    for (was, is) in [
        ("bands:", "bnads:"),
        ("makes:", "amkes:"),
        ("gauge:", "guage:"),
        ("colours:", "colurs:"),
        ("title: Piece", "titel: Piece"),
    ] {
        let loaded = load(&lesson("  - chart: dot\n", "").replacen(was, is, 1));
        let key = is.split(':').next().unwrap();
        let found: Vec<(&str, &str)> = loaded
            .faults
            .iter()
            .map(|f| (f.code.name(), under(&loaded, f).0))
            .collect();
        assert_eq!(found, [("unknown-key", key)], "{was} {is}");
    }
    let chart = load(&lesson("  - chart: dot\n", "").replace("rows: |\n  ..", "rosw: |\n  .."));
    assert_eq!(codes(&chart), ["unknown-key"]);
}

#[test]
fn a_renamed_role_is_told_where_it_is_named() {
    let in_lesson = load(&lesson("  - chart: dot\n", "").replace("motif: { name", "mtif: { name"));
    let fault = first(&in_lesson, Code::UnknownColour);
    assert_eq!(
        (
            under(&in_lesson, fault).0,
            fault.labels.len(),
            in_lesson.faults.len()
        ),
        ("mtif", 2, 1)
    );
    let bands = "  - plain: { rows: 2, colour: motif }\n  - chart: dot\n";
    let in_chart = load(&lesson(bands, "").replace("\"x\": motif", "\"x\": motiv"));
    let fault = first(&in_chart, Code::UnknownColour);
    let shown = fault
        .labels
        .iter()
        .map(|label| in_chart.sources.path(label.span.file));
    assert!(
        shown.into_iter().any(|path| path == "charts/dot.yaml"),
        "{fault:?}"
    );
    assert_eq!(fault.help.as_deref(), Some("did you mean `motif`?"));
}

#[test]
fn an_unclosed_quote_or_bracket_is_told_where_it_opens() {
    for (was, is, line) in [
        (
            "name: Fleece, hex: \"#f2ead8\"",
            "name: Fleece, hex: \"#f2ead8",
            4,
        ),
        ("makes: swatch", "makes: \"swatch", 2),
        (
            "plain: { stitches: 21, rows: 28 } }",
            "plain: { stitches: 21, rows: 28 }",
            3,
        ),
    ] {
        let loaded = load(&lesson("  - chart: dot\n", "").replace(was, is));
        let fault = first(&loaded, Code::BrokenYaml);
        assert_eq!(under(&loaded, fault).1, line, "{is}: {fault:?}");
    }
}

#[test]
fn what_is_printed_has_a_cap_and_is_linear() {
    let time = |rows: usize| {
        let text: String = (0..rows)
            .map(|i| format!("  {}\n", ".".repeat(i % 3 + 4)))
            .collect();
        let text = lesson("  - chart: dot\n", "").replace("  ..x.\n  x...\n", &text);
        let begun = Instant::now();
        let loaded = load(&text);
        let report = render(&loaded.faults, &loaded.sources, Form::Plain);
        (begun.elapsed().as_secs_f64(), report)
    };
    let (short, report) = time(2500);
    assert!(
        report.matches("[ragged-rows]").count() == MOST_SHOWN,
        "{report}"
    );
    assert!(report.contains("more: mend these first"), "{report}");
    let (long, _) = time(10_000);
    // Four times the rows; quadratic would be sixteen. Room for a busy machine.
    assert!(long < 8.0 * short + 0.5, "{short} {long}");
    let keys: String = (0..20_000).map(|i| format!("k{i}: 1\n")).collect();
    let loaded =
        load(&lesson("  - chart: dot\n", "").replace("title: T\n", &format!("title: T\n{keys}")));
    let told = loaded.faults.iter().filter(|f| f.code == Code::UnknownKey);
    assert_eq!(told.count(), bounds::FAULTS_OF_A_KIND + 1);
    assert!(loaded.faults.iter().any(|f| f.title
        == format!(
            "and {} more of this kind in this file",
            20_000 - bounds::FAULTS_OF_A_KIND
        )));
}
