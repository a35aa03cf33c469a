//! A chart from one line of JSON, as it comes down a pipe.

use std::borrow::Cow;
use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, MapAccess, Visitor};

use crate::course::chart::{self, Chart, Line, RawChart, Spanned, Worked};
use crate::ground::fault::{Code, Fault, SourceMap, Span};
use crate::read::shape::parse_range;

/// A chart and the gauge it is to be measured at.
#[derive(Debug)]
pub struct LineChart {
    /// The chart.
    pub chart: Chart,
    /// Stitches to 10 cm, if the line says so.
    pub gauge: Option<f64>,
}

/// What is wrong with a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineError {
    /// The chart's id, if it could be read.
    pub id: Option<String>,
    /// The kind of fault.
    pub code: Code,
    /// The headline.
    pub message: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Fields<'a> {
    #[serde(borrow)]
    id: Cow<'a, str>,
    #[serde(borrow, default)]
    title: Option<Cow<'a, str>>,
    #[serde(default)]
    worked: Option<Cow<'a, str>>,
    #[serde(borrow)]
    rows: Cow<'a, str>,
    #[serde(borrow)]
    colours: Pairs<'a>,
    #[serde(default)]
    repeat: Option<Repeat<'a>>,
    #[serde(borrow, default)]
    shaping: Option<Cow<'a, str>>,
    #[serde(default)]
    gauge: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Repeat<'a> {
    #[serde(borrow, default)]
    stitches: Option<Cow<'a, str>>,
    #[serde(borrow, default)]
    rows: Option<Cow<'a, str>>,
}

/// An object's entries in the order written.
struct Pairs<'a>(Vec<(Cow<'a, str>, Cow<'a, str>)>);

impl<'de: 'a, 'a> Deserialize<'de> for Pairs<'a> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Entries;
        impl<'de> Visitor<'de> for Entries {
            type Value = Pairs<'de>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object of letters and colour roles")
            }
            fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Self::Value, M::Error> {
                let mut pairs = Vec::new();
                while let Some((key, value)) = map.next_entry::<Text<'de>, Text<'de>>()? {
                    pairs.push((key.0, value.0));
                }
                Ok(Pairs(pairs))
            }
        }
        deserializer.deserialize_map(Entries)
    }
}

/// Text that borrows from the line where it can.
#[derive(Deserialize)]
#[serde(transparent)]
struct Text<'a>(#[serde(borrow)] Cow<'a, str>);

/// Most kinds of fault that one line reports.
const MOST_MESSAGES: usize = 3;

/// Understands one line.
///
/// # Errors
/// When it is not JSON, lacks a field or has a strange one, or the chart has faults.
pub fn read_line_chart(line: &[u8]) -> Result<LineChart, LineError> {
    let wrong = |id: Option<String>, code: Code, message: String| LineError { id, code, message };
    let fields: Fields<'_> = serde_json::from_slice(line).map_err(|error| {
        let code = if error.is_data() {
            Code::WrongValue
        } else {
            Code::BrokenJson
        };
        wrong(None, code, error.to_string())
    })?;
    let id = fields.id.into_owned();
    let fail = |message: String| wrong(Some(id.clone()), Code::WrongValue, message);
    let worked = match fields.worked.as_deref() {
        None | Some("round") => Worked::Round,
        Some("flat") => Worked::Flat,
        Some(other) => return Err(fail(format!("`{other}` is not a value of `worked`"))),
    };
    if fields.gauge.is_some_and(|g| !(g > 0.0 && g <= 10_000.0)) {
        return Err(fail(
            "`gauge` must be stitches to 10 cm, above 0".to_owned(),
        ));
    }
    if fields.rows.trim().is_empty() {
        return Err(fail("`rows` holds no row".to_owned()));
    }
    let span = nowhere();
    let range = |text: Option<Cow<'_, str>>, what: &str| match text {
        None => Ok(None),
        Some(text) => match parse_range(&text) {
            Some(value) => Ok(Some(Spanned { value, span })),
            None => Err(fail(format!(
                "`repeat.{what}` must be two numbers from 1 on, such as \"3-10\", not `{text}`"
            ))),
        },
    };
    let (stitches, rows) = fields
        .repeat
        .map_or((None, None), |repeat| (repeat.stitches, repeat.rows));
    let raw = RawChart {
        reflect: None,
        title: fields.title.map(Cow::into_owned).unwrap_or_default(),
        worked,
        colours: fields
            .colours
            .0
            .into_iter()
            .map(|(letter, role)| {
                let value = letter.into_owned();
                (Spanned { value, span }, role.into_owned())
            })
            .collect(),
        rows: lines(&fields.rows, span),
        shaping: fields.shaping.as_deref().map(|text| lines(text, span)),
        repeat_stitches: range(stitches, "stitches")?,
        repeat_rows: range(rows, "rows")?,
        // The right to copy is nothing that measuring asks for.
        rights: Some(Spanned {
            value: "own".to_owned(),
            span,
        }),
        from: None,
        scope: None,
        source: None,
        span,
        id: id.clone(),
    };
    let mut faults = Vec::new();
    let chart = chart::build(raw, &mut faults);
    match chart {
        Some(chart) => Ok(LineChart {
            chart,
            gauge: fields.gauge,
        }),
        None => {
            let errors: Vec<&Fault> = faults.iter().filter(|f| f.is_error()).collect();
            let code = errors.first().map_or(Code::WrongValue, |fault| fault.code);
            let titles: Vec<&str> = errors.iter().map(|f| f.title.as_str()).collect();
            let mut message = titles
                .iter()
                .take(MOST_MESSAGES)
                .copied()
                .collect::<Vec<_>>()
                .join("; ");
            if titles.len() > MOST_MESSAGES {
                message.push_str(&format!("; and {} more", titles.len() - MOST_MESSAGES));
            }
            Err(wrong(Some(id), code, message))
        }
    }
}

/// The lines of a grid. Cut by bytes: a search for each of many short lines would cost more than it finds.
fn lines(text: &str, span: Span) -> Vec<Line> {
    let mut rest = text.trim_end_matches(['\n', '\r', ' ']);
    let mut lines = Vec::new();
    while !rest.is_empty() {
        let end = rest.bytes().position(|b| b == b'\n').unwrap_or(rest.len());
        let (line, after) = rest.split_at_checked(end).unwrap_or((rest, ""));
        lines.push(Line {
            text: line.trim_end().to_owned(),
            span,
            exact: false,
        });
        rest = after.get(1..).unwrap_or_default();
    }
    lines
}

/// A place for faults of a chart that lies in no file.
fn nowhere() -> Span {
    SourceMap::default().anywhere()
}
