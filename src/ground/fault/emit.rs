//! Faults as text for people and as JSON for programs.

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet, normalize_untrusted_str};
use serde_json::{Value, json};

use crate::ground::fault::{Fault, Severity, SourceMap};

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

/// All faults as one report, in the order given.
#[must_use]
pub fn render(faults: &[Fault], sources: &SourceMap, form: Form) -> String {
    let mut out = String::new();
    for fault in faults {
        match form {
            Form::Concise => out.push_str(&concise(fault, sources)),
            Form::Plain => out.push_str(&full(fault, sources, &Renderer::plain())),
            Form::Coloured => out.push_str(&full(fault, sources, &Renderer::styled())),
        }
        out.push('\n');
    }
    out
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
    // Labels of one file share a snippet, so that both places of a clash are seen together.
    let mut files: Vec<_> = fault.labels.iter().map(|l| l.span.file).collect();
    files.dedup();
    let mut first = true;
    for file in files {
        let mut snippet = Snippet::source(sources.text(file)).path(sources.path(file));
        for label in fault.labels.iter().filter(|l| l.span.file == file) {
            let kind = if first {
                AnnotationKind::Primary
            } else {
                AnnotationKind::Context
            };
            first = false;
            let span = label.span;
            let annotation = kind.span(span.start..one_line_end(sources, label.span));
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
