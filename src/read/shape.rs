//! The shape of our files, as data: one table drives the check of a file, its messages, and its JSON Schema.

use crate::course::Width;
use crate::ground::fault::{Code, Fault, did_you_mean};
use crate::ground::units::Length;
use crate::read::yaml::{Kind, Node};

/// What may stand in a place.
#[derive(Clone, Copy, Debug)]
pub(super) enum Shape {
    /// Any text.
    Text,
    /// Lines of chart cells or of an overlay.
    Grid,
    /// One of these words.
    Word(&'static [&'static str]),
    /// A whole number from the first to the second.
    Whole(u32, u32),
    /// A number above the first and up to the second.
    Number(f64, f64),
    /// A number from 0 to the given one.
    UpTo(f64),
    /// A length with its unit, above nothing.
    Length,
    /// A length with its unit; a minus sign is allowed.
    SignedLength,
    /// So many stitches, or a length.
    Width,
    /// `"#rrggbb"`.
    Hex,
    /// An id: small letters, digits and hyphens.
    Id,
    /// `3-10`: two whole numbers from 1 on, the second not smaller.
    Range,
    /// A list.
    List(&'static Shape),
    /// A list; nothing behind the key is an empty one.
    ListOrNothing(&'static Shape),
    /// A group of fixed keys.
    Map(&'static [Key]),
    /// A group whose keys are free names.
    Named(&'static Shape),
    /// A group with exactly one of these keys.
    OneOf(&'static [Key]),
    /// A single value of the first shape, or else the second.
    Either(&'static Shape, &'static Shape),
}

/// A key of a group.
#[derive(Clone, Copy, Debug)]
pub(super) struct Key {
    /// Its name in the file.
    pub name: &'static str,
    /// What stands behind it.
    pub shape: Shape,
    /// Whether the file is wrong without it.
    pub required: bool,
    /// One sentence for the schema.
    pub about: &'static str,
}

impl Key {
    /// A key that must be there.
    #[must_use]
    pub(super) const fn must(name: &'static str, shape: Shape, about: &'static str) -> Self {
        Self {
            name,
            shape,
            required: true,
            about,
        }
    }

    /// A key that may be left out.
    #[must_use]
    pub(super) const fn may(name: &'static str, shape: Shape, about: &'static str) -> Self {
        Self {
            name,
            shape,
            required: false,
            about,
        }
    }
}

/// Whether `text` can be an id.
#[must_use]
pub fn is_id(text: &str) -> bool {
    !text.is_empty()
        && text.len() <= 80
        && !text.starts_with('-')
        && text
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

/// Reads `3-10` as (3, 10); `None` unless 1 ≤ first ≤ second.
#[must_use]
pub(super) fn parse_range(text: &str) -> Option<(usize, usize)> {
    let (a, b) = text.split_once('-')?;
    let (a, b) = (a.trim().parse().ok()?, b.trim().parse().ok()?);
    (a >= 1 && a <= b).then_some((a, b))
}

/// Reads `#rrggbb`.
#[must_use]
pub(super) fn parse_hex(text: &str) -> Option<[u8; 3]> {
    let digits = text.strip_prefix('#')?;
    if digits.len() != 6 || !digits.bytes().all(|b| b.is_ascii_hexdigit()) {
        return None;
    }
    let value = u32::from_str_radix(digits, 16).ok()?;
    let [_, r, g, b] = value.to_be_bytes();
    Some([r, g, b])
}

/// Checks `node` against `shape` and reports every disagreement.
pub(super) fn check(node: &Node, shape: &Shape, what: &str, faults: &mut Vec<Fault>) {
    match shape {
        Shape::Either(first, second) => {
            let single = matches!(node.kind, Kind::Scalar { .. });
            check(node, if single { first } else { second }, what, faults);
        }
        Shape::ListOrNothing(_) if node.is_empty() => {}
        Shape::List(item) | Shape::ListOrNothing(item) => match &node.kind {
            Kind::List(items) => {
                for node in items {
                    check(node, item, what, faults);
                }
            }
            _ => wrong_kind(node, what, "a list", faults),
        },
        Shape::Map(keys) | Shape::OneOf(keys) => match &node.kind {
            Kind::Map(entries) => check_keys(node, entries, keys, shape, what, faults),
            _ => wrong_kind(node, what, "a group of keys", faults),
        },
        Shape::Named(value) => match &node.kind {
            Kind::Map(entries) => {
                for (key, node) in entries {
                    check(node, value, key.text().unwrap_or(what), faults);
                }
            }
            _ => wrong_kind(node, what, "a group of keys", faults),
        },
        _ => match &node.kind {
            Kind::Scalar { text, plain, .. } if !node.is_empty() => {
                check_scalar(node, text, *plain, shape, what, faults);
            }
            _ => wrong_kind(node, what, "a single value", faults),
        },
    }
}

fn wrong_kind(node: &Node, what: &str, wanted: &str, faults: &mut Vec<Fault>) {
    let title = format!("`{what}` must be {wanted}, not {}", node.kind_name());
    faults.push(Fault::new(
        Code::WrongValue,
        title,
        node.span,
        format!("expected {wanted}"),
    ));
}

fn check_keys(
    node: &Node,
    entries: &[(Node, Node)],
    keys: &[Key],
    shape: &Shape,
    what: &str,
    faults: &mut Vec<Fault>,
) {
    let names: Vec<&str> = keys.iter().map(|k| k.name).collect();
    for (key_node, value) in entries {
        let name = key_node.text().unwrap_or("");
        match keys.iter().find(|k| k.name == name) {
            Some(key) => check(value, &key.shape, name, faults),
            None => faults.push(
                Fault::new(
                    Code::UnknownKey,
                    format!("`{name}` is not a key of {what}"),
                    key_node.span,
                    "not known here",
                )
                .help(did_you_mean(name, &names)),
            ),
        }
    }
    if matches!(shape, Shape::OneOf(_)) {
        let known = entries
            .iter()
            .filter(|(k, _)| k.text().is_some_and(|t| names.contains(&t)))
            .count();
        if known != 1 && entries.len() != 1 {
            let title = format!("{what} holds exactly one of: {}", names.join(", "));
            faults.push(
                Fault::new(Code::WrongValue, title, node.span, "several keys, or none")
                    .help("begin each with a `-` of its own"),
            );
        }
        return;
    }
    for key in keys.iter().filter(|k| k.required) {
        if !entries.iter().any(|(k, _)| k.text() == Some(key.name)) {
            let at = entries.first().map_or(node.span, |(k, _)| k.span);
            faults.push(
                Fault::new(
                    Code::MissingKey,
                    format!("{what} lacks `{}`", key.name),
                    at,
                    format!("`{}` is missing from this group", key.name),
                )
                .help(format!("add `{}:` ({})", key.name, key.about)),
            );
        }
    }
}

fn check_scalar(
    node: &Node,
    text: &str,
    plain: bool,
    shape: &Shape,
    what: &str,
    faults: &mut Vec<Fault>,
) {
    let number = || {
        if plain {
            text.parse::<f64>().ok().filter(|v| v.is_finite())
        } else {
            None
        }
    };
    let (fine, wanted) = match shape {
        Shape::Word(words) => {
            if !words.contains(&text) {
                let title = format!("`{text}` is not a value of `{what}`");
                faults.push(
                    Fault::new(Code::WrongValue, title, node.span, "not known here")
                        .help(did_you_mean(text, words)),
                );
            }
            return;
        }
        Shape::Whole(least, most) => (
            plain
                && text
                    .parse::<u32>()
                    .is_ok_and(|v| (*least..=*most).contains(&v)),
            format!("a whole number from {least} to {most}"),
        ),
        Shape::Number(above, most) => (
            number().is_some_and(|v| v > *above && v <= *most),
            format!("a number above {above} and up to {most}"),
        ),
        Shape::UpTo(most) => (
            number().is_some_and(|v| v >= 0.0 && v <= *most),
            format!("a number from 0 to {most}"),
        ),
        Shape::Length => (
            Length::parse(text).is_some_and(|l| l.to_mm() > 0.0 && l.to_mm() <= 100_000.0),
            "a length with its unit, such as `5 cm`, `25 mm` or `2 in`".to_owned(),
        ),
        Shape::SignedLength => (
            Length::parse(text).is_some_and(|l| l.to_mm().abs() <= 10_000.0),
            "a length with its unit, such as `3 cm` or `-2 cm`".to_owned(),
        ),
        Shape::Width => (
            Width::parse(text).is_some(),
            "a number of stitches or a length, such as `61 stitches` or `30 cm`".to_owned(),
        ),
        Shape::Hex => (
            parse_hex(text).is_some(),
            "a colour in quotes, such as \"#3b2f2a\"".to_owned(),
        ),
        Shape::Id => (
            is_id(text),
            "an id of small letters, digits and hyphens".to_owned(),
        ),
        Shape::Range => (
            parse_range(text).is_some(),
            "two numbers from 1 on, such as `3-10`".to_owned(),
        ),
        _ => return,
    };
    if !fine {
        faults.push(
            Fault::new(
                Code::WrongValue,
                format!("`{what}` cannot be `{}`", text.lines().next().unwrap_or("")),
                node.span,
                "not usable",
            )
            .help(format!("write {wanted}")),
        );
    }
}
