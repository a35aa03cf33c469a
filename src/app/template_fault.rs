//! What the template engine says, as a fault at its place.

use crate::ground::fault::{Code, Fault};
use crate::page::TemplateError;
use crate::read::Loaded;

/// A fault at the place in a course's template that an error names, else at the beginning of the first template.
pub(super) fn template_fault(error: &TemplateError, loaded: &Loaded) -> Fault {
    let text = error.to_string();
    let place = text
        .lines()
        .find_map(|line| line.trim().strip_prefix("--> course/"));
    let span = place.and_then(|place| {
        let mut parts = place.split(':');
        let name = parts.next()?;
        let (line, column) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
        loaded
            .sources
            .at_line(&format!("templates/{name}"), line, column)
    });
    let name = loaded
        .course
        .templates
        .keys()
        .find(|name| text.contains(name.as_str()));
    let whole = name.and_then(|name| loaded.sources.find(&format!("templates/{name}")));
    let span = span.or(whole).unwrap_or_else(|| loaded.sources.anywhere());
    Fault::new(Code::BrokenTemplate, headline(error), span, "")
        .help("compare it with the built-in template of the same name")
}

/// What the template engine says first, and its cause.
pub(super) fn headline(error: &TemplateError) -> String {
    let text = error.to_string();
    let first = text.lines().next().unwrap_or("the template is not valid");
    first
        .trim_start_matches("error: ")
        .trim_end_matches('.')
        .to_owned()
}
