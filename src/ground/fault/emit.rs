//! Faults as text for people and as JSON for programs.

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet, normalize_untrusted_str};
use serde_json::{Value, json};

use crate::ground::fault::{Fault, FileId, Label, Severity, SourceMap};

/// How faults are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// With the line, carets and help, in plain text.
    Plain,
    /// The same in colour, for a terminal.
    Coloured,
    /// One line a fault: `file:line:column: error[code]: title`.
    Concise,
}

/// Most faults shown with their lines: nobody mends more in one go, and many follow from the first.
pub const MOST_SHOWN: usize = 40;

/// Bytes between two places of a file up to which they are shown in one picture of it.
const TOGETHER: usize = 16 << 10;

/// All faults as one report, in the order given; of more than [`MOST_SHOWN`] the first, errors before warnings, and how
/// many are left, unless each takes but a line.
#[must_use]
pub fn render(faults: &[Fault], sources: &SourceMap, form: Form) -> String {
    let mut out = String::new();
    let errors = faults.iter().filter(|fault| fault.is_error()).count();
    let shown = if form == Form::Concise {
        usize::MAX
    } else {
        MOST_SHOWN
    };
    let (mut errors_left, mut warnings_left) = (shown.min(errors), shown.saturating_sub(errors));
    let mut left = [0, 0];
    for fault in faults {
        let (room, over) = if fault.is_error() {
            (&mut errors_left, &mut left[0])
        } else {
            (&mut warnings_left, &mut left[1])
        };
        if *room == 0 {
            *over += 1;
            continue;
        }
        *room -= 1;
        match form {
            Form::Concise => out.push_str(&concise(fault, sources)),
            Form::Plain => out.push_str(&full(fault, sources, &Renderer::plain())),
            Form::Coloured => out.push_str(&full(fault, sources, &Renderer::styled())),
        }
        out.push('\n');
    }
    let mut out = without_c1(&out);
    if left != [0, 0] {
        let kinds = [(left[0], "error"), (left[1], "warning")];
        let kinds = kinds.iter().filter(|(count, _)| *count > 0);
        let kinds: Vec<String> = kinds.map(|(n, word)| count(*n, word)).collect();
        out.push_str(&format!(
            "and {} more: mend these first; `yokeward proof --json` lists them all\n",
            kinds.join(" and ")
        ));
    }
    out
}

/// `2 errors, 1 warning`.
#[must_use]
pub fn tally(faults: &[Fault]) -> String {
    let errors = faults.iter().filter(|fault| fault.is_error()).count();
    let warnings = faults.len() - errors;
    format!("{}, {}", count(errors, "error"), count(warnings, "warning"))
}

/// `1 error`, `2 errors`.
fn count(n: usize, word: &str) -> String {
    format!("{n} {word}{}", if n == 1 { "" } else { "s" })
}

/// Text of somebody else as a terminal may show it: what would move its cursor, colour it or turn its direction is
/// replaced by a sign. Line ends stay.
#[must_use]
pub fn visible(text: &str) -> String {
    let lines: Vec<String> = text.split('\n').map(normalize_untrusted_str).collect();
    without_c1(&lines.join("\n"))
}

/// Without the control characters from U+0080 on, which some terminals take for the beginning of a command.
fn without_c1(text: &str) -> String {
    text.replace(|c| ('\u{80}'..='\u{9f}').contains(&c), "\u{fffd}")
}

fn severity_word(fault: &Fault) -> &'static str {
    match fault.code.severity() {
        Severity::Error => "error",
        Severity::Warning => "warning",
    }
}

fn concise(fault: &Fault, sources: &SourceMap) -> String {
    let place = fault.labels.first().map_or_else(String::new, |label| {
        let (line, column) = sources.line_column(label.span);
        format!("{}:{line}:{column}: ", sources.path(label.span.file))
    });
    let (word, code) = (severity_word(fault), fault.code.name());
    normalize_untrusted_str(&format!("{place}{word}[{code}]: {}", fault.title))
}

fn full(fault: &Fault, sources: &SourceMap, renderer: &Renderer) -> String {
    let level = match fault.code.severity() {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let title = level
        .primary_title(normalize_untrusted_str(&fault.title))
        .id(fault.code.name());
    let mut group = annotate_snippets::Group::with_title(title);
    // Labels of one file share a snippet, so that both places of a clash are seen together, unless they lie far apart.
    let mut groups: Vec<(FileId, Vec<(bool, &Label)>)> = Vec::new();
    for (i, label) in fault.labels.iter().enumerate() {
        let start = label.span.start;
        let near = |other: &Label| other.span.start.abs_diff(start) <= TOGETHER;
        let last = groups.last_mut().filter(|(file, labels)| {
            *file == label.span.file && labels.iter().all(|(_, other)| near(other))
        });
        match last {
            Some((_, labels)) => labels.push((i == 0, label)),
            None => groups.push((label.span.file, vec![(i == 0, label)])),
        }
    }
    for (file, labels) in groups {
        let ends = labels.iter().map(|(_, l)| one_line_end(sources, l.span));
        let starts = labels.iter().map(|(_, l)| l.span.start);
        let bytes = starts.min().unwrap_or(0)..ends.max().unwrap_or(0);
        let (lines, first_line) = sources.lines_around(file, bytes);
        let window = sources.text(file).get(lines.clone()).unwrap_or("");
        let mut snippet = Snippet::source(window)
            .path(normalize_untrusted_str(sources.path(file)))
            .line_start(first_line);
        for (is_main, label) in labels {
            let kind = if is_main {
                AnnotationKind::Primary
            } else {
                AnnotationKind::Context
            };
            let inside = |at: usize| at.saturating_sub(lines.start).min(window.len());
            let end = one_line_end(sources, label.span);
            let annotation = kind.span(inside(label.span.start)..inside(end));
            let text = normalize_untrusted_str(&label.text);
            snippet = snippet.annotation(if text.is_empty() {
                annotation
            } else {
                annotation.label(text)
            });
        }
        group = group.element(snippet);
    }
    if let Some(help) = &fault.help {
        group = group.element(Level::HELP.message(normalize_untrusted_str(help)));
    }
    let mut text = renderer.render(&[group]);
    text.push('\n');
    text
}

/// Carets stay on the first line of a span: a caret under forty lines of a block helps nobody.
fn one_line_end(sources: &SourceMap, span: crate::ground::fault::Span) -> usize {
    let length = sources
        .slice(span)
        .find('\n')
        .unwrap_or(span.end - span.start);
    span.start + length
}

/// The `proof --json` object.
#[must_use]
pub fn render_json(faults: &[Fault], sources: &SourceMap) -> Value {
    let faults: Vec<Value> = faults
        .iter()
        .map(|fault| {
            let place = fault.labels.first();
            let (line, column) = place.map_or((0, 0), |l| sources.line_column(l.span));
            json!({
                "code": fault.code.name(),
                "severity": severity_word(fault),
                "file": place.map_or("", |l| sources.path(l.span.file)),
                "line": line,
                "column": column,
                "message": fault.title,
                "help": fault.help,
            })
        })
        .collect();
    json!({"format": "yokeward/proof/1", "faults": faults})
}
