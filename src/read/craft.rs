//! What a craft has not: makes, ways, bands, marks and options that a lesson asks of it in vain.

use std::collections::BTreeSet;

use crate::course::body::Makes;
use crate::course::chart::{Mark, Worked};
use crate::course::{AcrossPart, Band, Closing, Cloth, Craft, CrochetStitch, GaugeOn, InTheRound};
use crate::ground::fault::{Code, Fault, Span};
use crate::ground::units::Gauge;
use crate::read::chart_file::head_span;
use crate::read::lesson_file::{Reader, read_gauge};
use crate::read::node::Node;

/// What a lesson says of its craft.
pub(super) struct CraftOf {
    pub(super) craft: Craft,
    pub(super) worked: Worked,
    pub(super) stitch: CrochetStitch,
    pub(super) closing: Closing,
    pub(super) cloth: Option<Cloth>,
    pub(super) crown_first: bool,
}

/// How a craft is spoken of in a fault.
const fn spoken(craft: Craft) -> &'static str {
    match craft {
        Craft::Knit => "knitting",
        Craft::Crochet => "crochet",
        Craft::Tunisian => "Tunisian crochet",
        Craft::CountedThread => "counted thread",
    }
}

/// Ids of the charts that are stitched on cloth in one of these lessons.
pub(super) fn stitched_charts<'a>(lessons: impl Iterator<Item = &'a Node>) -> BTreeSet<&'a str> {
    let on_cloth = |lesson: &&Node| {
        let craft = lesson.get("craft").and_then(Node::text);
        craft.and_then(Craft::from_name) == Some(Craft::CountedThread)
    };
    let charts = |lesson: &'a Node| {
        let bands = lesson.get("bands").map(Node::items).unwrap_or_default();
        let parts = bands.iter().flat_map(|band| {
            let across = band.get("across").map(Node::items).unwrap_or_default();
            std::iter::once(band).chain(across)
        });
        parts.filter_map(|part| {
            let chart = part.get("chart")?;
            chart.text().or_else(|| chart.get("id")?.text())
        })
    };
    lessons.filter(on_cloth).flat_map(charts).collect()
}

/// Options that only one craft has.
const OPTIONS: [(&str, Craft); 5] = [
    ("from", Craft::Crochet),
    ("stitch", Craft::Crochet),
    ("closing", Craft::Crochet),
    ("hook", Craft::Tunisian),
    ("fabric", Craft::CountedThread),
];

impl Reader<'_> {
    /// The craft and its options.
    pub(super) fn craft(&self) -> CraftOf {
        let text = |key: &str| self.node.get(key).and_then(Node::text);
        let craft = text("craft")
            .and_then(Craft::from_name)
            .unwrap_or(Craft::USUAL);
        let worked = match text("worked") {
            Some("flat") => Worked::Flat,
            Some(_) => Worked::Round,
            None => craft.usual(),
        };
        let fabric = self.node.get("fabric");
        let number = |key: &str| fabric?.get(key)?.text()?.parse::<f64>().ok();
        let over = fabric.and_then(|f| f.get("over")?.text()?.parse().ok());
        CraftOf {
            crown_first: craft == Craft::Crochet && text("from") == Some("crown"),
            craft,
            worked,
            stitch: text("stitch")
                .and_then(CrochetStitch::from_name)
                .unwrap_or_default(),
            closing: text("closing")
                .and_then(Closing::from_name)
                .unwrap_or_default(),
            cloth: number("count")
                .filter(|count| *count > 0.0)
                .map(|count| Cloth {
                    count,
                    over: over.unwrap_or(1),
                }),
        }
    }

    /// The gauge of the colourwork: as the file says, or that of the cloth.
    pub(super) fn gauge(&mut self, of: &CraftOf) -> Option<GaugeOn> {
        if let Some(cloth) = of.cloth.filter(|_| of.craft == Craft::CountedThread) {
            let crosses = cloth.crosses();
            return Some(GaugeOn {
                gauge: Gauge {
                    stitches: crosses,
                    rows: crosses,
                },
                needle: None,
            });
        }
        if self.node.get("gauge").is_none() {
            let (key, help) = match of.craft {
                Craft::CountedThread => ("fabric", "add `fabric: { count: 14, over: 1 }`"),
                _ => (
                    "gauge",
                    "add `gauge: { colourwork: { stitches: …, rows: … } }`",
                ),
            };
            let title = format!("a lesson needs `{key}`");
            let fault = Fault::new(Code::MissingKey, title, head_span(self.node), "");
            self.faults.push(fault.help(help));
        }
        read_gauge(self.node, "colourwork")
    }

    /// One fault for each thing that the craft has not.
    pub(super) fn check_craft(&mut self, of: &CraftOf, makes: Makes, bands: &[Band]) {
        let craft = of.craft;
        let name = spoken(craft);
        let span_of = |key: &str| self.node.get(key).map(|node| node.span);
        let at = |key: &str| span_of(key).unwrap_or_else(|| head_span(self.node));
        let cannot = |title: String, span: Span, help: String| {
            Fault::new(Code::CraftCannot, title, span, "").help(help)
        };
        let mut found = Vec::new();
        if !craft.makes().contains(&makes) {
            let others: Vec<&str> = craft.makes().iter().map(|makes| makes.name()).collect();
            found.push(cannot(
                format!("{name} makes no {} here", makes.name()),
                at("makes"),
                format!("it makes {}", others.join(", ")),
            ));
        }
        let double_ended = span_of("hook").is_some();
        if of.worked == Worked::Round {
            match craft.in_the_round() {
                InTheRound::DoubleEnded if !double_ended => found.push(cannot(
                    format!("{name} goes round only with a double-ended hook"),
                    at("worked"),
                    "add `hook: double-ended`, or write `worked: flat`".to_owned(),
                )),
                InTheRound::Never => found.push(cannot(
                    format!("{name} has no rounds"),
                    at("worked"),
                    "take `worked` out".to_owned(),
                )),
                _ => {}
            }
        }
        for (key, owner) in OPTIONS {
            if let Some(span) = span_of(key).filter(|_| owner != craft) {
                found.push(cannot(
                    format!("`{key}` means nothing in {name}"),
                    span,
                    format!("take it out; it belongs to {}", spoken(owner)),
                ));
            }
        }
        if of.crown_first && makes != Makes::Hat {
            found.push(cannot(
                format!(
                    "only a hat has a crown to begin with, not a {}",
                    makes.name()
                ),
                at("from"),
                "take `from` out".to_owned(),
            ));
        }
        let places = self.node.get("bands").map(Node::items).unwrap_or_default();
        for (band, place) in bands.iter().zip(places) {
            let asked = band_cannot(craft, band).into_iter();
            let asked = asked.chain(crown_cannot(of.crown_first, band));
            found.extend(asked.map(|(title, help)| cannot(title, place.span, help)));
        }
        self.faults.extend(found);
    }
}

/// What a band asks that the craft has not, and what it has instead.
fn band_cannot(craft: Craft, band: &Band) -> Vec<(String, String)> {
    let name = spoken(craft);
    let mut found = Vec::new();
    if matches!(band, Band::Rib { .. }) && !craft.has_rib() {
        let instead = if craft.has_rows() {
            "make it a `plain` band; a hook of one size thicker keeps its edge flat"
        } else {
            "take the band out; a hem holds the edge of the cloth"
        };
        found.push((format!("{name} has no rib"), instead.to_owned()));
    }
    let charts = match band {
        Band::Chart { what, .. } => vec![what],
        Band::Across(parts) => parts
            .iter()
            .filter_map(|part| match part {
                AcrossPart::Chart(what, _) => Some(what),
                AcrossPart::Plain { .. } => None,
            })
            .collect(),
        _ => Vec::new(),
    };
    for what in charts {
        let mut marks = what.chart.marks_used().into_iter();
        if let Some(mark) = marks.find(|mark| !craft.has_mark(*mark)) {
            found.push((
                format!(
                    "chart `{}` holds {}, which {name} has not",
                    what.chart.id,
                    marked(mark)
                ),
                "draw the chart without it for this craft".to_owned(),
            ));
        }
    }
    found
}

/// What a hat that is begun at its crown cannot have: charts that change their count, side by side.
fn crown_cannot(crown_first: bool, band: &Band) -> Option<(String, String)> {
    let shaped = match band {
        Band::Chart { what, .. } => !what.chart.marks_used().is_empty(),
        Band::Across(_) => true,
        _ => false,
    };
    (crown_first && shaped).then(|| {
        (
            "a hat from the crown down takes plain charts only".to_owned(),
            "work it from the brim: take `from` out".to_owned(),
        )
    })
}

const fn marked(mark: Mark) -> &'static str {
    match mark {
        Mark::Plain => "a plain stitch",
        Mark::RightDecrease | Mark::LeftDecrease | Mark::DoubleDecrease => "a decrease",
        Mark::MakeOne => "an increase",
        Mark::Purl => "a purl stitch",
        Mark::NoStitch => "a place without a stitch",
    }
}
