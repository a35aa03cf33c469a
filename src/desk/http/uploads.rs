//! What is sent to change something: strokes, new charts, orders, entries.

use serde::Deserialize;
use serde_json::{Map, Value};

use crate::desk::draft::Draft;
use crate::desk::numbers::is_out;
use crate::desk::refusal::Refusal;
use crate::desk::state::{Desk, Step};
use crate::ground::bounds::COLOURS;
use crate::ground::quoted::quoted;
use crate::read::{At, Change, edited, is_id};

/// Most edits in one stroke.
const MOST_EDITS: usize = 100;
/// Most bytes of a file on the desk.
const MOST_TEXT: usize = 4 << 20;

/// The state that something is done to.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct State {
    pub at: u64,
    #[serde(default)]
    pub over: bool,
}

/// Keys, and numbers of items from 0.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Place {
    Item(usize),
    Key(String),
}

/// One change.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Edit {
    at: Vec<Place>,
    block: Option<String>,
    text: Option<String>,
    #[serde(default, deserialize_with = "present")]
    value: Option<Value>,
    #[serde(default)]
    remove: bool,
}

/// A value that is there, `null` among them.
fn present<'de, D: serde::Deserializer<'de>>(from: D) -> Result<Option<Value>, D::Error> {
    Value::deserialize(from).map(Some)
}

impl Edit {
    fn change(self) -> Result<(Vec<At>, Change), Refusal> {
        let at = self.at.into_iter().map(|place| match place {
            Place::Item(item) => At::Item(item),
            Place::Key(key) => At::Key(key),
        });
        let change = match (self.block, self.text, self.value, self.remove) {
            (Some(lines), None, None, false) => Change::Block(lines),
            (None, Some(text), None, false) => Change::Text(text),
            (None, None, Some(value), false) => Change::Value(value),
            (None, None, None, true) => Change::Remove,
            _ => {
                return Err(Refusal::senseless(
                    "an edit has one of block, text, value, remove",
                ));
            }
        };
        Ok((at.collect(), change))
    }
}

/// A stroke: changes of a file, or its whole text.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Stroke {
    at: u64,
    #[serde(default)]
    edits: Vec<Edit>,
    text: Option<String>,
}

impl Stroke {
    /// Makes the stroke.
    pub(super) fn make(self, desk: &Desk, id: &str) -> Result<Draft, Refusal> {
        if self.edits.len() > MOST_EDITS {
            return Err(Refusal::senseless("these are too many changes at once"));
        }
        let edits = self.edits.into_iter().map(Edit::change);
        let edits = edits.collect::<Result<Vec<_>, _>>()?;
        desk.step(id, self.at, |draft| {
            let mut text = self.text.unwrap_or_else(|| draft.text.clone());
            for (at, change) in &edits {
                text = edited(&text, at, change)
                    .map_err(|error| Refusal::cannot(error.to_string()))?;
            }
            match text.len() > MOST_TEXT {
                true => Err(Refusal::cannot("a file on the desk has at most 4 MB")),
                false => Ok(Step::Text(text)),
            }
        })
    }
}

/// A colour of a new chart.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct NewColour {
    letter: String,
    role: String,
}

/// A new chart.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct NewChart {
    pub id: String,
    #[serde(rename = "kind")]
    _kind: String,
    title: Option<String>,
    stitches: Option<usize>,
    rows: Option<usize>,
    lines: Option<Vec<String>>,
    colours: Option<Value>,
    copy: Option<String>,
}

/// Letters and roles.
type Colours = Vec<(String, String)>;

/// Letters of a new chart's colours.
const LETTERS: [char; 6] = ['.', 'x', 'o', 's', 'n', 'v'];
/// Their roles.
const ROLES: [&str; 6] = ["ground", "motif", "third", "fourth", "fifth", "sixth"];

impl NewChart {
    /// The text of its file.
    pub(super) fn text(&self, desk: &Desk) -> Result<String, Refusal> {
        if let Some(copy) = &self.copy {
            if !is_id(copy) {
                return Err(Refusal::unknown("chart", copy));
            }
            let text = desk.draft(copy)?.text;
            let title = self.title.as_deref().unwrap_or(&self.id);
            let at = [At::Key("title".to_owned())];
            let text = edited(&text, &at, &Change::Text(title.to_owned()));
            return text.map_err(|error| Refusal::cannot(error.to_string()));
        }
        let (lines, colours, rights) = match &self.lines {
            Some(lines) => (lines.clone(), self.named()?, "reference-only"),
            None => {
                let (lines, colours) = self.blank()?;
                (lines, colours, "own")
            }
        };
        if is_out(lines.len())
            || lines.iter().any(|line| {
                is_out(line.chars().count())
                    || line.chars().any(|c| c.is_whitespace() || c.is_control())
            })
        {
            return Err(Refusal::cannot(
                "a new chart has 1 to 500 stitches and rounds",
            ));
        }
        let named: Vec<String> = colours
            .iter()
            .map(|(letter, role)| format!("{}: {}", quoted(letter), quoted(role)))
            .collect();
        let rows: String = lines.iter().map(|line| format!("  {line}\n")).collect();
        let source = match rights {
            "own" => String::new(),
            _ => format!("source: {}\n", quoted(crate::words::SOURCE_TO_FILL_IN)),
        };
        Ok(format!(
            "title: {}\ncolours: {{ {} }}\nrows: |\n{rows}rights: {rights}\n{source}",
            quoted(self.title.as_deref().unwrap_or(&self.id)),
            named.join(", ")
        ))
    }

    /// A sheet of ground alone.
    fn blank(&self) -> Result<(Vec<String>, Colours), Refusal> {
        let (Some(stitches), Some(rows)) = (self.stitches, self.rows) else {
            return Err(Refusal::senseless("a new chart needs stitches and rows"));
        };
        if is_out(stitches) || is_out(rows) {
            return Err(Refusal::cannot(
                "a new chart has 1 to 500 stitches and rounds",
            ));
        }
        let wished = self.colours.as_ref().and_then(Value::as_u64).unwrap_or(2);
        let wished = usize::try_from(wished).unwrap_or(2).clamp(1, LETTERS.len());
        let colours = LETTERS.iter().zip(ROLES).take(wished);
        let colours = colours.map(|(letter, role)| (letter.to_string(), role.to_owned()));
        Ok((vec![".".repeat(stitches); rows], colours.collect()))
    }

    /// The colours that were sent with lines.
    fn named(&self) -> Result<Colours, Refusal> {
        let colours = self.colours.clone().unwrap_or(Value::Object(Map::new()));
        let colours: Vec<NewColour> = serde_json::from_value(colours)
            .map_err(|error| Refusal::senseless(format!("colours: {error}")))?;
        let right = |colour: &NewColour| {
            let mut letters = colour.letter.chars();
            let one = letters
                .next()
                .is_some_and(|c| !c.is_whitespace() && !c.is_control());
            one && letters.next().is_none() && !colour.role.trim().is_empty()
        };
        match colours.len() <= COLOURS && colours.iter().all(right) {
            true => Ok(colours.into_iter().map(|c| (c.letter, c.role)).collect()),
            false => Err(Refusal::cannot("every colour needs one letter and a name")),
        }
    }
}
