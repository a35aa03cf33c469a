//! Bounds on what a template may do, since one may have come with a course from anywhere.
//!
//! The template engine has no bound on work or on memory, so both are counted from inside the template: after each tag
//! that begins a round of a loop, or a component, stands a call that counts, and after each tag that keeps a value one that
//! measures it. The calls write nothing, and every line keeps its number.

use std::cell::Cell;

use tera::{Error, Kwargs, State, Tera, TeraResult, Value};

use crate::ground::bounds::{TEMPLATE_LETTERS, TEMPLATE_ROUNDS};
use crate::words::template;

const COUNT: &str = "counted__";
const MEASURE: &str = "measured__";
/// Rounds that a call of a component counts for: it may call itself, and each call needs room on the stack.
const COMPONENT: u64 = TEMPLATE_ROUNDS / 100;

thread_local! {
    /// Rounds left to the rendering that this thread is at.
    static LEFT: Cell<u64> = const { Cell::new(0) };
}

/// Begins a rendering on this thread with all its rounds.
pub(super) fn begin() {
    LEFT.set(TEMPLATE_ROUNDS);
}

/// What guarded templates call, and filters that could make much of little.
pub(super) fn register(tera: &mut Tera) {
    tera.register_function(
        COUNT,
        |arguments: Kwargs, _: &State<'_>| -> TeraResult<&'static str> {
            let rounds = arguments.must_get::<u64>("rounds")?;
            match LEFT.get().checked_sub(rounds) {
                Some(left) => {
                    LEFT.set(left);
                    Ok("")
                }
                None => Err(Error::message(template::too_many_rounds(TEMPLATE_ROUNDS))),
            }
        },
    );
    tera.register_function(
        MEASURE,
        |arguments: Kwargs, _: &State<'_>| -> TeraResult<&'static str> {
            let value = arguments.must_get::<Value>("value")?;
            within(value.as_str().map_or(0, str::len))?;
            Ok("")
        },
    );
    tera.register_filter(
        "replace",
        |text: &str, arguments: Kwargs, _: &State<'_>| -> TeraResult<String> {
            let (from, to) = (
                arguments.must_get::<&str>("from")?,
                arguments.must_get::<&str>("to")?,
            );
            within(text.len() + text.matches(from).count().saturating_mul(to.len()))?;
            Ok(text.replace(from, to))
        },
    );
    tera.register_filter(
        "join",
        |parts: Vec<Value>, arguments: Kwargs, _: &State<'_>| -> TeraResult<String> {
            let between = arguments.get::<&str>("sep")?.unwrap_or("");
            let parts: Vec<String> = parts.iter().map(ToString::to_string).collect();
            let letters: usize = parts.iter().map(String::len).sum();
            within(letters + parts.len().saturating_mul(between.len()))?;
            Ok(parts.join(between))
        },
    );
    tera.register_filter(
        "indent",
        |_: &str, _: Kwargs, _: &State<'_>| -> TeraResult<String> {
            Err(Error::message(template::NO_INDENT))
        },
    );
}

fn within(letters: usize) -> TeraResult<()> {
    if letters > TEMPLATE_LETTERS {
        return Err(Error::message(template::too_long_a_text(TEMPLATE_LETTERS)));
    }
    Ok(())
}

/// The text of a template with the calls that count and measure put in.
pub(super) fn guarded(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + text.len() / 8);
    let mut rest = text;
    let mut kept: Vec<String> = Vec::new();
    while let Some(start) = rest.find('{') {
        let (before, tag) = rest.split_at(start);
        out.push_str(before);
        let end = if tag.starts_with("{#") {
            end_of(tag, "#}")
        } else if tag.starts_with("{{") {
            end_of_quoted(tag, "}}")
        } else if tag.starts_with("{%") {
            end_of_quoted(tag, "%}")
        } else {
            1
        };
        let (tag, after) = tag.split_at(end);
        out.push_str(tag);
        rest = after;
        if !tag.starts_with("{%") {
            continue;
        }
        let said = tag.trim_start_matches("{%").trim_start_matches('-');
        let said = said.trim_end_matches("%}").trim_end_matches('-').trim();
        let mut words = said.split_whitespace();
        let call = match words.next() {
            Some("raw") => {
                // What is not read is not guarded: up to the end that the engine will find.
                let end = rest
                    .find("endraw")
                    .map_or(rest.len(), |at| at + "endraw".len());
                out.push_str(rest.get(..end).unwrap_or(""));
                rest = rest.get(end..).unwrap_or("");
                continue;
            }
            Some("for") => format!("{COUNT}(rounds=1)"),
            Some("component") => format!("{COUNT}(rounds={COMPONENT})"),
            Some("set" | "set_global") => {
                let name = said.split_whitespace().nth(1).unwrap_or("");
                let name: String = name
                    .chars()
                    .take_while(|c| c.is_alphanumeric() || *c == '_')
                    .collect();
                if !said.contains('=') {
                    kept.push(name);
                    continue;
                }
                format!("{MEASURE}(value={name})")
            }
            Some("endset" | "endset_global") => match kept.pop() {
                Some(name) => format!("{MEASURE}(value={name})"),
                None => continue,
            },
            _ => continue,
        };
        // A tag that takes the blanks after it still does.
        out.push_str(&match tag.ends_with("-%}") {
            true => format!("{{{{- {call} -}}}}"),
            false => format!("{{{{ {call} }}}}"),
        });
    }
    out.push_str(rest);
    out
}

fn end_of(text: &str, close: &str) -> usize {
    text.find(close).map_or(text.len(), |at| at + close.len())
}

/// The end of a tag; what stands in quotes does not end it.
fn end_of_quoted(text: &str, close: &str) -> usize {
    let mut quote = None;
    for (at, c) in text.char_indices() {
        match quote {
            Some(open) if c == open => quote = None,
            Some(_) => {}
            None if matches!(c, '"' | '\'' | '`') => quote = Some(c),
            None if text.get(at..).is_some_and(|rest| rest.starts_with(close)) => {
                return at + close.len();
            }
            None => {}
        }
    }
    text.len()
}
