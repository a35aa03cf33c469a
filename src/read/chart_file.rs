//! A chart file's tree to a [`Chart`].

use crate::course::CLOTH;
use crate::course::chart::{self, Chart, Line, RawChart, Reflect, Spanned, Worked};
use crate::ground::fault::{Fault, SourceMap, Span};
use crate::read::check::{check, mended};
use crate::read::keys::CHART;
use crate::read::node::Node;
use crate::read::shape::{Shape, parse_range};
use crate::read::yaml;

/// Understands a chart file; `on_cloth`: a lesson stitches it, and a `.` that no colour names is bare cloth. `None` when it
/// has errors; all of them are in `faults`.
pub(super) fn read_chart(
    id: &str,
    node: &Node,
    on_cloth: bool,
    sources: &SourceMap,
    faults: &mut Vec<Fault>,
) -> Option<Chart> {
    let mut found = Vec::new();
    check(node, &Shape::Map(CHART), "a chart", &mut found);
    let shape_is_right = !found.iter().any(Fault::is_error);
    faults.append(&mut found);
    let meant = mended(node, &Shape::Map(CHART));
    let chart = chart::build(raw_chart(id, &meant, on_cloth, sources)?, faults)?;
    shape_is_right.then_some(chart)
}

/// The place that stands for the whole file: its title, or its first key.
pub(super) fn head_span(node: &Node) -> Span {
    node.get("title")
        .map(|title| title.span)
        .or_else(|| node.entries().first().map(|(key, _)| key.span))
        .unwrap_or(node.span)
}

/// `worked`, round when missing.
pub(super) fn worked(node: &Node) -> Worked {
    match node.get("worked").and_then(Node::text) {
        Some("flat") => Worked::Flat,
        _ => Worked::Round,
    }
}

fn raw_chart(id: &str, node: &Node, on_cloth: bool, sources: &SourceMap) -> Option<RawChart> {
    let text = |key: &str| node.get(key).and_then(Node::text).map(str::to_owned);
    let lines = |key: &str| {
        let value = node.get(key).filter(|n| n.text().is_some())?;
        let lines = value.lines(sources);
        Some(
            lines
                .into_iter()
                .map(|(text, span, exact)| clean_line(text, span, exact))
                .collect(),
        )
    };
    let range = |key: &str| {
        let value = node.get("repeat")?.get(key)?;
        let range = parse_range(value.text()?)?;
        Some(Spanned {
            value: range,
            span: value.span,
        })
    };
    let named = node.get("colours")?;
    let bare = (on_cloth && named.get(".").is_none()).then(|| {
        let letter = Spanned {
            value: ".".to_owned(),
            span: named.span,
        };
        (letter, CLOTH.to_owned())
    });
    let colours = named.entries().iter().filter_map(|(key, value)| {
        let letter = Spanned {
            value: key.text()?.to_owned(),
            span: key.span,
        };
        Some((letter, value.text()?.to_owned()))
    });
    let reflect = node.get("reflect").and_then(|value| {
        Some(Spanned {
            value: Reflect::from_name(value.text()?)?,
            span: value.span,
        })
    });
    Some(RawChart {
        reflect,
        id: id.to_owned(),
        title: text("title").unwrap_or_default(),
        worked: worked(node),
        colours: colours.chain(bare).collect(),
        rows: lines("rows")?,
        shaping: lines("shaping"),
        repeat_stitches: range("stitches"),
        repeat_rows: range("rows"),
        rights: node.get("rights").and_then(|n| {
            Some(Spanned {
                value: n.text()?.to_owned(),
                span: n.span,
            })
        }),
        from: text("from"),
        scope: text("scope"),
        source: text("source"),
        span: head_span(node),
    })
}

/// Blanks at a line's end are invisible and mean nothing.
fn clean_line(text: String, span: Span, exact: bool) -> Line {
    let kept = text.trim_end().len();
    let cut = text.len() - kept;
    let span = if exact {
        Span {
            end: span.end - cut,
            ..span
        }
    } else {
        span
    };
    Line {
        text: text.get(..kept).unwrap_or("").to_owned(),
        span,
        exact,
    }
}

/// A chart's text on its way: what it says even while it is not right yet.
#[derive(Debug)]
pub struct ChartText {
    /// Its values, each with its place.
    pub raw: RawChart,
    /// The chart, once nothing is wrong with it.
    pub chart: Option<Chart>,
    /// What is wrong with it.
    pub faults: Vec<Fault>,
    /// The text, for places.
    pub sources: SourceMap,
}

/// Reads the text of one chart, whatever is wrong with it. `None` where it is not YAML or has no rows or colours.
#[must_use]
pub fn read_chart_text(id: &str, text: &str) -> Option<ChartText> {
    let mut sources = SourceMap::default();
    let file = sources.add(id, text);
    let mut faults = Vec::new();
    let node = yaml::read(&sources, file, &mut faults).ok()?;
    let raw = raw_chart(id, &node, false, &sources)?;
    let chart = read_chart(id, &node, false, &sources, &mut faults);
    Some(ChartText {
        raw,
        chart: chart.filter(|_| !faults.iter().any(Fault::is_error)),
        faults,
        sources,
    })
}
