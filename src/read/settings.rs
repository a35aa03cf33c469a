//! Changes of course.yaml's text that leave everything else in it alone.

use std::ops::Range;
use std::path::Path;

use crate::course::{Part, Weights};
use crate::ground::fault::Span;
use crate::ground::units::plain_number;
use crate::read::files::ReadError;
use crate::read::keys::COURSE;
use crate::read::log_file::{OneFile, end_of, read_one};
use crate::read::yaml::Node;

/// The text of a course.yaml, and where its weights stand.
#[derive(Debug)]
pub struct Settings {
    text: String,
    weights: Option<WeightsPlace>,
}

/// Where `weights` stands.
#[derive(Debug)]
struct WeightsPlace {
    /// From behind the key's colon to the end of the value.
    whole: Range<usize>,
    /// The part and the place of each number that is written.
    numbers: Vec<(usize, Span)>,
}

/// Reads a course.yaml to change it.
///
/// # Errors
/// When it cannot be opened.
pub fn read_settings(path: &Path) -> Result<OneFile<Settings>, ReadError> {
    read_one(path, COURSE, "a course", |node, text| Settings {
        text: text.to_owned(),
        weights: node.and_then(|node| weights_place(node, text)),
    })
}

fn weights_place(node: &Node, text: &str) -> Option<WeightsPlace> {
    let mut entries = node.entries().iter();
    let (key, value) = entries.find(|(key, _)| key.text() == Some("weights"))?;
    let after_key = key.span.end + text.get(key.span.end..)?.find(':')? + 1;
    let places = Part::ALL
        .into_iter()
        .filter_map(|part| Some((part.index(), value.get(part.name())?.span)));
    let flow = text.get(value.span.start..)?.starts_with('{');
    let end = if flow { value.span.end } else { end_of(value) };
    Some(WeightsPlace {
        whole: after_key..end,
        numbers: places.collect(),
    })
}

impl Settings {
    /// The text with these weights. Where all five are written, only the numbers change; else they are written as one
    /// group.
    #[must_use]
    pub fn with_weights(&self, weights: Weights) -> String {
        let number = |part: usize| plain_number(weights.0.get(part).copied().unwrap_or(0.0), 1);
        let all: Vec<String> = Part::ALL
            .map(|part| format!("{}: {}", part.name(), number(part.index())))
            .to_vec();
        let group = format!("{{ {} }}", all.join(", "));
        let mut text = self.text.clone();
        match &self.weights {
            Some(place) if place.numbers.len() == Part::ALL.len() => {
                let mut places = place.numbers.clone();
                places.sort_by_key(|(_, span)| std::cmp::Reverse(span.start));
                for (part, span) in places {
                    text.replace_range(span.start..span.end, &number(part));
                }
            }
            Some(place) => text.replace_range(place.whole.clone(), &format!(" {group}")),
            None => {
                if !text.ends_with('\n') {
                    text.push('\n');
                }
                text.push_str(&format!("weights: {group}\n"));
            }
        }
        text
    }
}
