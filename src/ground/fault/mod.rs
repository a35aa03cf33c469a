//! Faults as data: what is wrong, where, and a way out. Words for the terminal are formed in `emit`.

mod code;
mod emit;
mod explain;
mod source_map;

pub use code::{Code, Severity};
pub use emit::{Form, MOST_SHOWN, render, render_json, tally, visible};
pub use explain::explanation;
pub use source_map::{FileId, SourceMap, Span};

/// A place in a file and what is to be said about it.
#[derive(Clone, Debug)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What stands beside the caret; may be empty.
    pub text: String,
}

/// One thing that is wrong.
#[derive(Clone, Debug)]
pub struct Fault {
    /// Which kind of fault; decides its severity.
    pub code: Code,
    /// The headline.
    pub title: String,
    /// Places, the main one first. Never empty for faults of a file.
    pub labels: Vec<Label>,
    /// A way out, if one can be named.
    pub help: Option<String>,
}

impl Fault {
    /// A fault at `span`.
    pub fn new(code: Code, title: impl Into<String>, span: Span, label: impl Into<String>) -> Self {
        Self {
            code,
            title: title.into(),
            labels: vec![Label {
                span,
                text: label.into(),
            }],
            help: None,
        }
    }

    /// Adds a way out.
    #[must_use]
    pub fn help(mut self, text: impl Into<String>) -> Self {
        self.help = Some(text.into());
        self
    }

    /// Adds a second place.
    #[must_use]
    pub fn also(mut self, span: Span, text: impl Into<String>) -> Self {
        self.labels.push(Label {
            span,
            text: text.into(),
        });
        self
    }

    /// Whether the fault stops a pack.
    #[must_use]
    pub fn is_error(&self) -> bool {
        self.code.severity() == Severity::Error
    }
}

/// The known name nearest to `name`, if one is near enough to be a slip of the pen.
#[must_use]
pub fn nearest<'a>(name: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let most = (name.chars().count() / 3).max(1) + 1;
    // Insertions, deletions, replacements and swaps of neighbours; long names are cut: beyond that nothing is a slip of
    // the pen.
    let small = |name: &str| -> String { name.to_lowercase().chars().take(64).collect() };
    let wanted = small(name);
    known
        .into_iter()
        .map(|candidate| (strsim::osa_distance(&wanted, &small(candidate)), candidate))
        .filter(|(distance, _)| *distance <= most)
        .min()
        .map(|(_, candidate)| candidate)
}

/// A help line from the nearest known name, or the list of all when none is near.
#[must_use]
pub fn did_you_mean(name: &str, known: &[&str]) -> String {
    match nearest(name, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if known.is_empty() => "nothing by that kind of name is known here".to_owned(),
        None => format!("known here: {}", known.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_found_and_strangers_are_not() {
        assert_eq!(nearest("pebbel", ["pebble", "limpet"]), Some("pebble"));
        assert_eq!(nearest("gague", ["gauge", "yarn"]), Some("gauge"));
        assert_eq!(nearest("zzzzzz", ["gauge", "yarn"]), None);
    }
}
