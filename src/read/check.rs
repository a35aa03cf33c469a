//! The check of a file against its shape, with every disagreement; and keys as they are meant.

use crate::course::Width;
use crate::course::chart::is_seen;
use crate::ground::bounds::{
    FAULTS_OF_A_KIND, GIRTH_CM, NAME_LETTERS, TEXT_LETTERS, WORDS_LETTERS,
};
use crate::ground::fault::{Code, Fault, did_you_mean, nearest};
use crate::ground::units::Length;
use crate::read::node::{Kind, Node};
use crate::read::shape::{Key, Shape, is_id, parse_hex, parse_range};

/// Whether a text can stand on a page as a name: something of it is seen, and it is short.
fn is_name(text: &str) -> bool {
    text.chars().any(is_seen) && text.chars().count() <= NAME_LETTERS
}

/// The keys of a group as they are meant: a key that is a slip of one that is missing is read as that one, so that what
/// would follow from its absence is not told besides.
#[must_use]
pub(super) fn mended(node: &Node, shape: &Shape) -> Node {
    let kind = match (&node.kind, shape) {
        (Kind::Map(entries), Shape::Map(keys) | Shape::OneOf(keys)) => Kind::Map(
            entries
                .iter()
                .map(|(key, value)| {
                    let name = key.text().unwrap_or("");
                    let meant = meant(name, entries, keys).unwrap_or(name);
                    let shape = keys.iter().find(|k| k.name == meant).map(|k| &k.shape);
                    let value = shape.map_or_else(|| value.clone(), |shape| mended(value, shape));
                    (key.renamed(meant), value)
                })
                .collect(),
        ),
        (Kind::Map(entries), Shape::Named(shape)) => {
            let each = entries
                .iter()
                .map(|(key, value)| (key.clone(), mended(value, shape)));
            Kind::Map(each.collect())
        }
        (Kind::List(items), Shape::List(shape) | Shape::ListOrNothing(shape)) => {
            Kind::List(items.iter().map(|item| mended(item, shape)).collect())
        }
        (Kind::Map(_) | Kind::List(_), Shape::Either(_, shape)) => return mended(node, shape),
        _ => return node.clone(),
    };
    Node {
        kind,
        span: node.span,
    }
}

/// The missing key that an unknown one is a slip of; one slip for each.
fn meant(name: &str, entries: &[(Node, Node)], keys: &[Key]) -> Option<&'static str> {
    if entries.len() > FAULTS_OF_A_KIND || keys.iter().any(|key| key.name == name) {
        return None;
    }
    let has = |key: &str| entries.iter().any(|(k, _)| k.text() == Some(key));
    let absent = keys.iter().map(|key| key.name).filter(|key| !has(key));
    let near = nearest(name, absent)?;
    let strange = |name: &&str| !keys.iter().any(|key| key.name == *name);
    let slips = entries
        .iter()
        .filter_map(|(key, _)| key.text())
        .filter(strange);
    let first = slips
        .into_iter()
        .find(|slip| nearest(slip, [near]).is_some());
    (first == Some(name)).then_some(near)
}

/// Whether a group is a file of this kind but for a slip in the key that says so.
#[must_use]
pub(super) fn slip_of(node: &Node, key: &str) -> bool {
    let few = node.entries().len() <= FAULTS_OF_A_KIND;
    let names = node.entries().iter().filter_map(|(k, _)| k.text());
    few && names.into_iter().any(|name| nearest(name, [key]).is_some())
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
                    let name = key.text().unwrap_or("");
                    if !is_name(name) {
                        let shown: String = name.chars().take(20).collect();
                        let title = format!("`{shown}` cannot be a name");
                        let fault = Fault::new(Code::WrongValue, title, key.span, "not usable");
                        faults.push(fault.help(format!("write 1 to {NAME_LETTERS} letters")));
                    }
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
    let mut strange = 0;
    for (key_node, value) in entries {
        let name = key_node.text().unwrap_or("");
        let Some(key) = keys.iter().find(|k| k.name == name) else {
            let title = format!("`{name}` is not a key of {what}");
            let fault = Fault::new(Code::UnknownKey, title, key_node.span, "not known here");
            strange += 1;
            // Near names are looked for as long as faults are told.
            faults.push(match strange > FAULTS_OF_A_KIND {
                true => fault,
                false => fault.help(did_you_mean(name, &names)),
            });
            continue;
        };
        check(value, &key.shape, name, faults);
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
    let slip = |key: &str| {
        let names = entries.iter().filter_map(|(k, _)| k.text());
        names
            .into_iter()
            .any(|name| meant(name, entries, keys) == Some(key))
    };
    for key in keys.iter().filter(|k| k.required) {
        if !entries.iter().any(|(k, _)| k.text() == Some(key.name)) && !slip(key.name) {
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
        Shape::Name => (
            is_name(text),
            format!("what people are to read there, in at most {NAME_LETTERS} letters"),
        ),
        Shape::Text => (
            text.chars().count() <= WORDS_LETTERS,
            format!("at most {WORDS_LETTERS} letters"),
        ),
        Shape::Markdown => (
            text.chars().count() <= TEXT_LETTERS,
            format!("at most {TEXT_LETTERS} letters, or part it into several lessons"),
        ),
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
            Length::parse(text).is_some_and(|l| l.to_mm() > 0.0 && l.to_mm() <= GIRTH_CM * 10.0),
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
                format!("`{what}` cannot be `{}`", first_of(text)),
                node.span,
                "not usable",
            )
            .help(format!("write {wanted}")),
        );
    }
}

/// The beginning of a text, for a headline.
fn first_of(text: &str) -> String {
    let line = text.lines().next().unwrap_or("");
    let shown: String = line.chars().take(60).collect();
    if shown.len() < line.len() {
        return shown + "…";
    }
    shown
}
