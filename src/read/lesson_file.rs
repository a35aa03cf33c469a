//! A lesson file's tree to a [`Lesson`], every name looked up.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::course::body::{self, Makes};
use crate::course::chart::Chart;
use crate::course::{AcrossPart, Band, ChartUse, Extent, GaugeOn, Lesson, Weighed, Width, Yarn};
use crate::ground::bounds::{COLOURS, GAUGE, LESSON_CELLS, LESSON_ROWS, SIZES};
use crate::ground::fault::{Code, Fault, SourceMap, Span};
use crate::ground::units::{FloatLimit, Gauge, Length};
use crate::read::chart_file::head_span;
use crate::read::check::{check, mended};
use crate::read::course_file::{Sizes, read_limit};
use crate::read::keys::LESSON;
use crate::read::node::Node;
use crate::read::shape::{Shape, parse_hex};
use crate::read::unlikely;
use crate::read::values::{length, number, whole};

/// What a lesson is read against.
pub(super) struct Known<'a> {
    /// Charts without errors.
    pub charts: &'a BTreeMap<String, Arc<Chart>>,
    /// Charts that exist but have errors: a lesson on one is left out without a fault of its own.
    pub faulty: &'a BTreeSet<String>,
    /// Body sizes.
    pub sizes: &'a Sizes,
    /// The texts, for the places of lines.
    pub sources: &'a SourceMap,
    /// The course's limit.
    pub limit: FloatLimit,
}

/// Understands a lesson file. `None` when it, or a chart it uses, has errors.
pub(super) fn read_lesson(
    id: &str,
    node: &Node,
    known: &Known<'_>,
    faults: &mut Vec<Fault>,
) -> Option<Lesson> {
    let meant = mended(node, &Shape::Map(LESSON));
    let mut reader = Reader {
        node: &meant,
        known,
        faults: Vec::new(),
        yarns: Vec::new(),
        uses_faulty: false,
    };
    check(node, &Shape::Map(LESSON), "a lesson", &mut reader.faults);
    let lesson = reader.lesson(id);
    let craft = reader.craft().craft;
    unlikely::lesson(&meant, craft, &mut reader.faults);
    if lesson.is_none() && !reader.faults.iter().any(Fault::is_error) {
        // Nothing is left out without a word.
        let title = "the gauge of this lesson cannot be used";
        let at = meant
            .get("gauge")
            .map_or(head_span(node), |gauge| gauge.span);
        reader
            .faults
            .push(Fault::new(Code::WrongValue, title, at, "not usable"));
    }
    let fine = !reader.faults.iter().any(Fault::is_error) && !reader.uses_faulty;
    faults.append(&mut reader.faults);
    lesson.filter(|_| fine)
}

pub(super) struct Reader<'a> {
    pub(super) node: &'a Node,
    pub(super) known: &'a Known<'a>,
    pub(super) faults: Vec<Fault>,
    pub(super) yarns: Vec<Yarn>,
    pub(super) uses_faulty: bool,
}

impl Reader<'_> {
    fn lesson(&mut self, id: &str) -> Option<Lesson> {
        let node = self.node;
        let text = |key: &str| node.get(key).and_then(Node::text);
        let makes = Makes::from_name(text("makes").unwrap_or("")).unwrap_or(Makes::Swatch);
        self.yarns = read_yarns(node);
        if let Some((role, _)) = node.get("colours").and_then(|c| c.entries().get(COLOURS)) {
            let title = format!("the lesson names more than {COLOURS} colours");
            let fault = Fault::new(Code::TooLarge, title, role.span, "one too many");
            self.faults
                .push(fault.help("part it into several lessons, or take the unused ones out"));
        }
        self.mend_roles();
        let bands = self.bands();
        let sizes = self.sizes(makes);
        self.check_plain_gauge(makes, &bands);
        self.check_width(makes);
        let of = self.craft();
        self.check_craft(&of, makes, &bands);
        let colourwork = self
            .gauge(&of)
            .filter(|gauge| self.is_usable(gauge, "colourwork"));
        let plain = read_gauge(node, "plain").filter(|gauge| self.is_usable(gauge, "plain"));
        self.check_rows(&bands, plain.or(colourwork));
        let bands = if of.crown_first {
            from_the_crown(bands)
        } else {
            bands
        };
        let list = |key: &str| {
            let items = node.get(key).map(Node::items).unwrap_or_default();
            items
                .iter()
                .filter_map(|n| n.text().map(str::to_owned))
                .collect::<Vec<_>>()
        };
        Some(Lesson {
            id: id.to_owned(),
            title: text("title").unwrap_or_default().to_owned(),
            makes,
            craft: of.craft,
            worked: of.worked,
            stitch: of.stitch,
            closing: of.closing,
            cloth: of.cloth,
            crown_first: of.crown_first,
            colourwork: colourwork?,
            plain,
            rib_needle: node
                .get("gauge")
                .and_then(|g| length(g.get("rib")?, "needle")),
            yarn_weight: whole(node, "yarn", "weight"),
            metres_per_100g: number(node, "yarn", "metres_per_100g"),
            weighed: node.get("yarn").and_then(|yarn| {
                let swatch = |key| number(yarn, "weighed", key);
                Some(Weighed {
                    stitches: whole(yarn, "weighed", "stitches")?,
                    rows: whole(yarn, "weighed", "rows")?,
                    grams: swatch("grams")?,
                })
            }),
            yarns: std::mem::take(&mut self.yarns),
            limit: read_limit(node, self.known.limit),
            width: text("width").and_then(Width::parse),
            ease: length(node, "ease"),
            bands,
            sizes,
            needs: list("needs"),
            techniques: list("techniques"),
            text: text("text").unwrap_or_default().to_owned(),
            place: crate::read::chart_file::head_span(node),
            band_places: {
                let places = node.get("bands").map(Node::items).unwrap_or_default();
                let mut places: Vec<Span> = places.iter().map(|band| band.span).collect();
                if of.crown_first {
                    places.reverse();
                }
                places
            },
            text_lines: node
                .get("text")
                .map(|t| {
                    t.lines(self.known.sources)
                        .into_iter()
                        .map(|(_, span, _)| span)
                        .collect()
                })
                .unwrap_or_default(),
        })
    }

    fn sizes(&mut self, makes: Makes) -> Vec<crate::course::body::Body> {
        let items = self.node.get("sizes").map(Node::items).unwrap_or_default();
        let mut sizes = Vec::new();
        for item in items {
            let Some(name) = item.text() else { continue };
            let Some((body, missing)) = self.known.sizes.find(name) else {
                self.faults.push(self.known.sizes.unknown(name, item.span));
                continue;
            };
            let needed = body::measures_of(makes).iter().copied();
            let lacking: Vec<&str> = needed.filter(|what| missing.contains(what)).collect();
            if !lacking.is_empty() {
                let title = format!("size `{name}` has no {}", lacking.join(", "));
                let keys: Vec<String> = lacking.iter().map(|what| format!("`{what}:`")).collect();
                let help = format!(
                    "add {} to it under `bodies` in course.yaml",
                    keys.join(", ")
                );
                let fault = Fault::new(Code::UnknownSize, title, item.span, "");
                self.faults.push(fault.help(help));
            }
            sizes.push(body);
        }
        if let Some(over) = items.get(SIZES) {
            let title = format!("the lesson has more than {SIZES} sizes");
            let fault = Fault::new(Code::TooLarge, title, over.span, "one too many");
            self.faults.push(fault.help("part it into several lessons"));
            sizes.truncate(SIZES);
        }
        if makes.has_sizes() && items.is_empty() {
            let at = self.node.get("makes").unwrap_or(self.node);
            let title = format!(
                "a {} must fit somebody, but no sizes are given",
                makes.name()
            );
            self.faults.push(
                Fault::new(Code::NoSizes, title, at.span, "needs `sizes`")
                    .help("add for example `sizes: [adult-small, adult-medium, adult-large]`"),
            );
        }
        sizes
    }

    /// Whether a gauge can be computed with; tells of one that cannot.
    fn is_usable(&mut self, gauge: &GaugeOn, which: &str) -> bool {
        let Gauge { stitches, rows } = gauge.gauge;
        let (from, to) = GAUGE;
        if stitches.min(rows) >= from && stitches.max(rows) <= to {
            return true;
        }
        let group = self.node.get("gauge").and_then(|gauge| gauge.get(which));
        let at = group.map_or(head_span(self.node), |group| group.span);
        let title = format!("a gauge of {stitches} × {rows} to 10 cm cannot be computed with");
        let fault = Fault::new(Code::TooLarge, title, at, format!("{from} to {to} can"));
        self.faults
            .push(fault.help("check the numbers, and the length they are counted over"));
        false
    }

    /// Bands, rows and cells that a page can hold.
    fn check_rows(&mut self, bands: &[Band], plain: Option<GaugeOn>) {
        let (mut rows, mut cells) = (0_usize, 0_usize);
        let list = self.node.get("bands").map(Node::items).unwrap_or_default();
        for (place, band) in list.iter().zip(bands) {
            let (high, wide) = match band {
                Band::Rib { extent, .. } | Band::Plain { extent, .. } => {
                    (plain.map_or(0, |gauge| extent.rows(gauge.gauge)), 1)
                }
                Band::Chart { what, times } => {
                    (what.chart.height.saturating_mul(*times), what.chart.width)
                }
                Band::Across(parts) => {
                    let high = parts.iter().map(AcrossPart::rows).max();
                    (high.unwrap_or(0), parts.iter().map(AcrossPart::width).sum())
                }
                Band::Decrease => (0, 0),
            };
            rows = rows.saturating_add(high);
            cells = cells.saturating_add(high.saturating_mul(wide));
            let (is, most, what) = if rows > LESSON_ROWS {
                (rows, LESSON_ROWS, "rows")
            } else if cells > LESSON_CELLS {
                (cells, LESSON_CELLS, "cells of charts")
            } else {
                continue;
            };
            let title = format!("the lesson has {is} {what} by here; {most} are read at most");
            let fault = Fault::new(Code::TooLarge, title, place.span, "too many");
            self.faults
                .push(fault.help("work it fewer times, or part it into several lessons"));
            return;
        }
    }

    /// What has sizes has no width of its own.
    fn check_width(&mut self, makes: Makes) {
        if let Some(width) = self.node.get("width").filter(|_| makes.has_sizes()) {
            let title = format!("a {} has sizes, not a width", makes.name());
            let fault = Fault::new(Code::WrongValue, title, width.span, "for scarf and swatch");
            self.faults
                .push(fault.help("take it out; `sizes` say whom it is to fit"));
        }
    }

    /// Heights of plain fabric are only as good as its gauge.
    fn check_plain_gauge(&mut self, makes: Makes, bands: &[Band]) {
        let by_height = bands.iter().any(|band| {
            matches!(
                band,
                Band::Plain {
                    extent: Extent::Height(_),
                    ..
                } | Band::Rib {
                    extent: Extent::Height(_),
                    ..
                }
            )
        });
        let has_plain_parts = matches!(makes, Makes::Hat | Makes::Mittens | Makes::Yoke);
        let gauge = self.node.get("gauge");
        if (by_height || has_plain_parts) && gauge.is_some_and(|g| g.get("plain").is_none()) {
            let at = gauge.map_or(head_span(self.node), |g| g.span);
            self.faults.push(
                Fault::new(
                    Code::NoPlainGauge,
                    "plain fabric has no gauge of its own",
                    at,
                    "that of the colourwork is taken",
                )
                .help("work a plain swatch and add `plain: { stitches: …, rows: … }`"),
            );
        }
    }
}

/// Bands in the order of work of a hat that is begun at its crown, their charts upside down.
fn from_the_crown(bands: Vec<Band>) -> Vec<Band> {
    let turned = |band| match band {
        Band::Chart { what, times } => Band::Chart {
            what: ChartUse {
                chart: Arc::new(what.chart.turned()),
                ..what
            },
            times,
        },
        other => other,
    };
    bands.into_iter().rev().map(turned).collect()
}

pub(super) fn read_gauge(node: &Node, which: &str) -> Option<GaugeOn> {
    let gauge = node.get("gauge")?;
    let over = gauge
        .get(which)
        .and_then(|g| length(g, "over"))
        .map_or(100.0, Length::to_mm);
    let to_10cm = |key| {
        number(gauge, which, key)
            .map(|n| n * 100.0 / over)
            .filter(|n| n.is_finite() && *n > 0.0)
    };
    Some(GaugeOn {
        gauge: Gauge {
            stitches: to_10cm("stitches")?,
            rows: to_10cm("rows")?,
        },
        needle: gauge.get(which).and_then(|g| length(g, "needle")),
    })
}

fn read_yarns(node: &Node) -> Vec<Yarn> {
    let entries = node.get("colours").map(Node::entries).unwrap_or_default();
    let yarn = |(role, value): &(Node, Node)| {
        Some(Yarn {
            role: role.text()?.to_owned(),
            name: value
                .get("name")
                .and_then(Node::text)
                .unwrap_or_default()
                .to_owned(),
            rgb: value
                .get("hex")
                .and_then(Node::text)
                .and_then(parse_hex)
                .unwrap_or_default(),
            place: role.span,
        })
    };
    entries.iter().filter_map(yarn).collect()
}
