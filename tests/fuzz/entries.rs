//! Entry points that take any bytes: what comes out is checked as far as it can be without knowing the answer. They are run by
//! the fuzzer's targets, and for a short while by `cargo test`.

#![allow(
    dead_code,
    unreachable_pub,
    reason = "a fuzzer's target runs one of them"
)]

use pulldown_cmark::{Event, Options, Parser, Tag};
use yokeward::app::{BareOptions, PackOptions, measure_stream, pack, study_course};
use yokeward::ground::fault::{Form, SourceMap, render, render_json};
use yokeward::read::{
    At, Change, EditError, Loaded, Text, edited, load_texts, log_grows, read_chart_text,
    read_line_chart,
};

const COURSE: &str = "title: T\n";
const CHART: &str =
    "title: C\nrights: own\ncolours: { \".\": ground, \"x\": motif }\nrows: |\n  ..x.\n  x...\n";
const LESSON: &str = "title: L\nmakes: hat\ngauge: { colourwork: { stitches: 20, rows: 26 }, plain: { stitches: 20, rows: 28 } }\n\
    colours: { ground: { name: Peat, hex: \"#3b2f2a\" }, motif: { name: Fleece, hex: \"#f2ead8\" } }\n\
    bands: [ { plain: { rows: 4 } }, { chart: c } ]\nsizes: [adult-medium]\n";

fn file(inside: &str, text: &str) -> Text {
    Text {
        shown: inside.to_owned(),
        inside: inside.to_owned(),
        text: Some(text.to_owned()),
    }
}

fn loaded(files: Vec<Text>) -> Loaded {
    let loaded = load_texts("course", files, true);
    told(&loaded);
    loaded
}

/// Faults can be told in every form, and each lies within its file.
fn told(loaded: &Loaded) {
    reported(&loaded.faults, &loaded.sources);
}

fn reported(faults: &[yokeward::ground::fault::Fault], sources: &SourceMap) {
    for form in [Form::Plain, Form::Coloured, Form::Concise] {
        let text = render(faults, sources, form);
        assert!(faults.is_empty() || !text.is_empty());
    }
    let _ = render_json(faults, sources);
    for label in faults.iter().flat_map(|fault| &fault.labels) {
        let (line, column) = sources.line_column(label.span);
        assert!(line >= 1 && column >= 1);
        assert!(
            label.span.start <= label.span.end
                && label.span.end <= sources.text(label.span.file).len()
        );
    }
}

/// Worked out to the last number, not printed.
fn studied(loaded: &Loaded) {
    let studied = study_course(&loaded.course);
    for lesson in &studied.lessons {
        let grade = lesson.grade.grade;
        assert!((0.0..=100.0).contains(&grade), "{grade}");
        let _ = (lesson.plan(), lesson.made());
    }
    let _ = yokeward::app::late_faults(loaded, &studied);
}

fn text(data: &[u8]) -> Option<&str> {
    std::str::from_utf8(data)
        .ok()
        .filter(|text| text.len() < 1 << 16)
}

pub fn chart_text(data: &[u8]) {
    let Some(text) = text(data) else { return };
    let rows: String = text.lines().map(|line| format!("  {line}\n")).collect();
    let yaml =
        format!("title: C\ncolours: {{ \".\": ground, \"x\": motif, o: third }}\nrows: |\n{rows}");
    if let Some(read) = read_chart_text("c", &yaml) {
        reported(&read.faults, &read.sources);
        if let Some(chart) = read.chart {
            assert_eq!(chart.cells.len(), chart.width * chart.height);
        }
    }
}

pub fn chart_yaml(data: &[u8]) {
    let Some(text) = text(data) else { return };
    studied(&loaded(vec![
        file("course.yaml", COURSE),
        file("charts/c.yaml", text),
        file("01-l.yaml", LESSON),
    ]));
}

pub fn lesson_yaml(data: &[u8]) {
    let Some(text) = text(data) else { return };
    studied(&loaded(vec![
        file("course.yaml", COURSE),
        file("charts/c.yaml", CHART),
        file("01-l.yaml", text),
    ]));
}

/// A folder from one text: a line `=== path` begins each file.
pub fn course_folder(data: &[u8]) {
    let Some(text) = text(data) else { return };
    let mut files: Vec<Text> = Vec::new();
    for line in text.split_inclusive('\n') {
        if let Some(path) = line.strip_prefix("=== ") {
            files.push(file(path.trim(), ""));
        } else if let Some(Some(text)) = files.last_mut().map(|file| file.text.as_mut()) {
            text.push_str(line);
        }
    }
    studied(&loaded(files));
}

pub fn template(data: &[u8]) {
    let Some(text) = text(data) else { return };
    let files = vec![
        file("course.yaml", COURSE),
        file("charts/c.yaml", CHART),
        file("01-l.yaml", LESSON),
        file("templates/handout.md", text),
        file("techniques/two-colours.md", text),
    ];
    let _ = pack(&loaded(files), &[], PackOptions::default(), &|_| {});
}

/// A lesson's text to every output: the PDF is read back by another reader, the Markdown holds no HTML.
pub fn markdown(data: &[u8]) {
    let Some(text) = text(data).filter(|text| text.len() < 4096) else {
        return;
    };
    let quoted = serde_json::to_string(text).unwrap_or_default();
    let lesson = format!("{LESSON}text: {quoted}\n");
    let loaded = loaded(vec![
        file("course.yaml", COURSE),
        file("charts/c.yaml", CHART),
        file("01-l.yaml", &lesson),
    ]);
    if loaded.has_errors() {
        return;
    }
    let Ok(files) = pack(&loaded, &[], PackOptions::default(), &|_| {}) else {
        return;
    };
    for (path, bytes) in files {
        if path.ends_with("handout.pdf") {
            let read = lopdf::Document::load_mem(&bytes);
            assert!(read.is_ok_and(|pdf| !pdf.get_pages().is_empty()));
        } else if path.ends_with(".md") {
            let page = String::from_utf8(bytes).unwrap_or_default();
            assert_eq!(html_in(&page), None);
        }
    }
}

/// HTML that a reader of Markdown would take as such.
pub fn html_in(page: &str) -> Option<String> {
    let mut events = Parser::new_ext(page, Options::ENABLE_TABLES);
    let html = |event: &Event<'_>| {
        matches!(
            event,
            Event::Html(_) | Event::InlineHtml(_) | Event::Start(Tag::HtmlBlock)
        )
    };
    events.find(html).map(|event| format!("{event:?}"))
}

/// Every line of a stream is answered by one line of JSON.
pub fn stream_line(data: &[u8]) {
    let lines = data
        .split(|b| *b == b'\n')
        .filter(|line| !line.trim_ascii().is_empty())
        .count();
    let course = load_texts("", Vec::new(), false).course;
    let mut out = Vec::new();
    let done = measure_stream(&mut &*data, &mut out, true, BareOptions::default(), &course);
    let answers: Vec<&[u8]> = out
        .split(|b| *b == b'\n')
        .filter(|line| !line.is_empty())
        .collect();
    assert!(done.is_ok_and(|done| done.charts + done.faults == lines as u64));
    assert_eq!(answers.len(), lines);
    for answer in answers {
        assert!(serde_json::from_slice::<serde_json::Value>(answer).is_ok());
    }
    let _ = read_line_chart(data);
}

/// An entry added to any log is one entry more, or refused.
pub fn log_edit(data: &[u8]) {
    let Some(text) = text(data) else { return };
    let (log, entry) = text.split_once('\0').unwrap_or((text, "pebble-hat"));
    let list = yokeward::course::log::ListPlace::Missing;
    let new = yokeward::course::log::NewEntry {
        made: entry,
        went: "easy",
        ..yokeward::course::log::NewEntry::default()
    };
    let grown = yokeward::course::log::with_entry(log, list, &new);
    if log_grows(log, &grown) {
        assert!(grown.len() > log.len());
    }
}

/// A value changed in any file: the text is then the same tree with the one change, or the change is refused.
pub fn file_edit(data: &[u8]) {
    let Some(text) = text(data) else { return };
    let mut parts = text.splitn(3, '\0');
    let (yaml, key, value) = (
        parts.next().unwrap_or(""),
        parts.next().unwrap_or("title"),
        parts.next().unwrap_or("x"),
    );
    let at = [At::Key(key.to_owned())];
    for change in [
        Change::Text(value.to_owned()),
        Change::Block(value.to_owned()),
        Change::Remove,
    ] {
        if let Ok(new) = edited(yaml, &at, &change) {
            // What comes out can be read and edited in its turn.
            let again = edited(&new, &at, &change);
            assert_ne!(again, Err(EditError::Unreadable), "{new}");
        }
    }
}

pub fn picture(data: &[u8]) {
    if let Ok(traced) = yokeward::trace::trace(data, &yokeward::trace::Options::default()) {
        let chart = yokeward::app::traced_chart(&traced, "c");
        assert!(!chart.rights.may_print());
        assert_eq!(chart.cells.len(), chart.width * chart.height);
    }
}
