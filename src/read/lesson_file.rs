//! A lesson file's tree to a [`Lesson`], every name looked up.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::body::Makes;
use crate::chart::Chart;
use crate::fault::{Code, Fault, SourceMap, Span, did_you_mean};
use crate::lesson::{Across, AcrossPart, Band, ChartUse, Craft, Extent, GaugeOn, Lesson, Weighed, Yarn};
use crate::read::chart_file::{head_span, worked};
use crate::read::course_file::{Sizes, number, read_limit, whole};
use crate::read::keys::LESSON;
use crate::read::shape::{Shape, check, parse_hex};
use crate::read::yaml::Node;
use crate::units::{FloatLimit, Gauge, Length};

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
pub(super) fn read_lesson(id: &str, node: &Node, known: &Known<'_>, faults: &mut Vec<Fault>) -> Option<Lesson> {
    let mut reader = Reader { node, known, faults: Vec::new(), yarns: Vec::new(), uses_faulty: false };
    check(node, &Shape::Map(LESSON), "a lesson", &mut reader.faults);
    let lesson = reader.lesson(id);
    let fine = !reader.faults.iter().any(Fault::is_error) && !reader.uses_faulty;
    faults.append(&mut reader.faults);
    lesson.filter(|_| fine)
}

struct Reader<'a> {
    node: &'a Node,
    known: &'a Known<'a>,
    faults: Vec<Fault>,
    yarns: Vec<Yarn>,
    uses_faulty: bool,
}

impl Reader<'_> {
    fn lesson(&mut self, id: &str) -> Option<Lesson> {
        let node = self.node;
        let text = |key: &str| node.get(key).and_then(Node::text);
        let makes = Makes::from_name(text("makes").unwrap_or("")).unwrap_or(Makes::Swatch);
        self.yarns = read_yarns(node);
        let bands = self.bands();
        let sizes = self.sizes(makes);
        self.check_plain_gauge(makes, &bands);
        let list = |key: &str| {
            let items = node.get(key).map(Node::items).unwrap_or_default();
            items.iter().filter_map(|n| n.text().map(str::to_owned)).collect::<Vec<_>>()
        };
        Some(Lesson {
            id: id.to_owned(),
            title: text("title").unwrap_or_default().to_owned(),
            makes,
            craft: Craft::from_name(text("craft").unwrap_or("knit")).unwrap_or(Craft::Knit),
            worked: worked(node),
            colourwork: read_gauge(node, "colourwork")?,
            plain: read_gauge(node, "plain"),
            rib_needle: node.get("gauge").and_then(|g| length(g.get("rib")?, "needle")),
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
            ease: length(node, "ease"),
            bands,
            sizes,
            needs: list("needs"),
            techniques: list("techniques"),
            text: text("text").unwrap_or_default().to_owned(),
            text_lines: node
                .get("text")
                .map(|t| t.lines(self.known.sources).into_iter().map(|(_, span, _)| span).collect())
                .unwrap_or_default(),
        })
    }

    fn bands(&mut self) -> Vec<Band> {
        let Some(list) = self.node.get("bands") else { return Vec::new() };
        let bands: Vec<Band> = list.items().iter().filter_map(|item| self.band(item)).collect();
        if !bands.iter().any(|band| !matches!(band, Band::Decrease)) {
            self.faults.push(
                Fault::new(Code::EmptyBands, "nothing is worked in this lesson", list.span, "")
                    .help("give it at least one `- plain:` or `- chart:` band"),
            );
        }
        bands
    }

    fn band(&mut self, item: &Node) -> Option<Band> {
        if item.text() == Some("decrease") {
            return Some(Band::Decrease);
        }
        if let Some(rib) = item.get("rib") {
            let extent = self.extent(rib, "rib")?;
            let multiple = rib.get("multiple").and_then(Node::text).and_then(|t| t.parse().ok());
            return Some(Band::Rib { multiple: multiple.unwrap_or(4), extent, yarn: self.yarn(rib)? });
        }
        if let Some(plain) = item.get("plain") {
            let extent = self.extent(plain, "plain")?;
            return Some(Band::Plain { extent, yarn: self.yarn(plain)? });
        }
        if let Some(parts) = item.get("across") {
            let found: Vec<AcrossPart> = parts.items().iter().filter_map(|part| self.part(part)).collect();
            let fills = found.iter().filter(|part| matches!(part, AcrossPart::Chart(_, Across::Fill))).count();
            if fills > 1 {
                self.faults.push(
                    Fault::new(Code::AcrossPart, "only one part can fill the round", parts.span, "")
                        .help("give the other a number of times"),
                );
            }
            if found.is_empty() && parts.items().is_empty() {
                self.faults.push(Fault::new(Code::AcrossPart, "`across` holds no part", parts.span, ""));
            }
            return Some(Band::Across(found));
        }
        let chart = item.get("chart")?;
        let id = if chart.text().is_some() { chart } else { chart.get("id")? };
        let times = chart.get("times").and_then(Node::text).and_then(|t| t.parse().ok()).unwrap_or(1);
        let what = self.chart_use(id, chart.get("colours"))?;
        if times > 1 {
            self.refuse_shaped_repeat(&what.chart, chart.get("times").map_or(id.span, |n| n.span));
        }
        Some(Band::Chart { what, times })
    }

    fn refuse_shaped_repeat(&mut self, chart: &Chart, span: Span) {
        let changes = (1..chart.height).any(|row| chart.live(row) != chart.live(row - 1));
        if changes {
            self.faults.push(
                Fault::new(Code::ShapedRepeat, "rows that change the stitch count cannot repeat", span, "")
                    .help("work a shaped chart once"),
            );
        }
    }

    fn part(&mut self, part: &Node) -> Option<AcrossPart> {
        let bad = |title: &str| {
            Fault::new(Code::AcrossPart, title, part.span, "")
                .help("write `{ chart: back }`, `{ chart: palm, times: fill }` or `{ plain: 1 }`")
        };
        let times = match part.get("times").and_then(Node::text) {
            None => Across::Times(1),
            Some("fill") => Across::Fill,
            Some(number) => match number.parse::<usize>() {
                Ok(n) if (1..=1000).contains(&n) => Across::Times(n),
                _ => {
                    self.faults.push(bad("`times` is a whole number from 1 on, or `fill`"));
                    return None;
                }
            },
        };
        match (part.get("chart"), part.get("plain")) {
            (Some(id), None) => {
                let what = self.chart_use(id, part.get("colours"))?;
                Some(AcrossPart::Chart(what, times))
            }
            (None, Some(plain)) => {
                let stitches = plain.text()?.parse().ok()?;
                Some(AcrossPart::Plain { stitches, yarn: self.yarn(part)? })
            }
            _ => {
                self.faults.push(bad("a part of `across` is either a chart or plain"));
                None
            }
        }
    }

    /// A chart and the yarns of its inks.
    fn chart_use(&mut self, id: &Node, recolour: Option<&Node>) -> Option<ChartUse> {
        let name = id.text()?;
        if self.known.faulty.contains(name) {
            self.uses_faulty = true;
            return None;
        }
        let Some(chart) = self.known.charts.get(name) else {
            let names: Vec<&str> = self.known.charts.keys().map(String::as_str).collect();
            let title = format!("there is no chart `{name}`");
            self.faults.push(
                Fault::new(Code::UnknownChart, title, id.span, "not in this course")
                    .help(did_you_mean(name, &names)),
            );
            return None;
        };
        if chart.worked != worked(self.node) {
            let title = format!(
                "chart `{name}` is drawn to be worked {}, this lesson is worked {}",
                chart.worked.name(),
                worked(self.node).name()
            );
            self.faults.push(
                Fault::new(Code::WorkedDiffers, title, id.span, "the lesson counts")
                    .help("check the edge stitches and where each row starts"),
            );
        }
        let roles: Vec<&str> = chart.inks.iter().map(|ink| ink.role.as_str()).collect();
        for (role, _) in recolour.map(Node::entries).unwrap_or_default() {
            let name = role.text().unwrap_or("");
            if !roles.contains(&name) {
                let title = format!("chart `{}` has no colour `{name}`", chart.id);
                self.faults.push(
                    Fault::new(Code::UnknownColour, title, role.span, "").help(did_you_mean(name, &roles)),
                );
            }
        }
        let mut yarns = Vec::new();
        for role in &roles {
            let given = recolour.and_then(|r| r.get(role));
            let wanted = given.and_then(Node::text).unwrap_or(role);
            yarns.push(self.yarn_of(wanted, given.map_or(id.span, |n| n.span)));
        }
        let yarns: Option<Vec<usize>> = yarns.into_iter().collect();
        Some(ChartUse { chart: Arc::clone(chart), yarns: yarns? })
    }

    /// The yarn of a band's `colour`; without the key, `ground` or else the lesson's first yarn.
    fn yarn(&mut self, band: &Node) -> Option<usize> {
        match band.get("colour") {
            Some(colour) => self.yarn_of(colour.text()?, colour.span),
            None => {
                let ground = self.yarns.iter().position(|yarn| yarn.role == "ground");
                ground.or((!self.yarns.is_empty()).then_some(0))
            }
        }
    }

    fn yarn_of(&mut self, role: &str, span: Span) -> Option<usize> {
        let found = self.yarns.iter().position(|yarn| yarn.role == role);
        if found.is_none() {
            let roles: Vec<&str> = self.yarns.iter().map(|yarn| yarn.role.as_str()).collect();
            let title = format!("the lesson gives no yarn to `{role}`");
            let fault = Fault::new(Code::UnknownColour, title, span, format!("needs `{role}`"))
                .help(did_you_mean(role, &roles));
            self.faults.push(fault);
        }
        found
    }

    fn extent(&mut self, band: &Node, what: &str) -> Option<Extent> {
        let rows = band.get("rows").and_then(Node::text).and_then(|t| t.parse().ok());
        match (rows, length(band, "height")) {
            (Some(rows), None) if !matches!(band.get("height"), Some(_)) => Some(Extent::Rows(rows)),
            (None, Some(height)) if band.get("rows").is_none() => Some(Extent::Height(height)),
            (rows, height) => {
                let both = rows.is_some() && height.is_some();
                if both || (band.get("rows").is_none() && band.get("height").is_none()) {
                    let title = format!("`{what}` needs either `rows` or `height`");
                    let label = if both { "has both" } else { "has neither" };
                    self.faults.push(
                        Fault::new(Code::BandExtent, title, band.span, label)
                            .help("write `rows: 3` or `height: 5 cm`"),
                    );
                }
                None
            }
        }
    }

    fn sizes(&mut self, makes: Makes) -> Vec<crate::body::Body> {
        let items = self.node.get("sizes").map(Node::items).unwrap_or_default();
        let mut sizes = Vec::new();
        for item in items {
            let Some(name) = item.text() else { continue };
            let Some((body, missing)) = self.known.sizes.find(name) else {
                let names = self.known.sizes.names();
                let title = format!("there is no size `{name}`");
                self.faults.push(
                    Fault::new(Code::UnknownSize, title, item.span, "not in the body table")
                        .help(did_you_mean(name, &names)),
                );
                continue;
            };
            let (girth, ..) = makes.girth_of(&body);
            if makes.has_sizes() && missing.contains(&girth) {
                let title = format!("size `{name}` has no {girth} girth");
                self.faults.push(
                    Fault::new(Code::UnknownSize, title, item.span, "")
                        .help(format!("add `{girth}:` to it under `bodies` in course.yaml")),
                );
            }
            sizes.push(body);
        }
        if makes.has_sizes() && items.is_empty() {
            let at = self.node.get("makes").unwrap_or(self.node);
            let title = format!("a {} must fit somebody, but no sizes are given", makes.name());
            self.faults.push(
                Fault::new(Code::NoSizes, title, at.span, "needs `sizes`")
                    .help("add for example `sizes: [adult-small, adult-medium, adult-large]`"),
            );
        }
        sizes
    }

    /// Heights of plain fabric are only as good as its gauge.
    fn check_plain_gauge(&mut self, makes: Makes, bands: &[Band]) {
        let by_height = bands.iter().any(|band| {
            matches!(band, Band::Plain { extent: Extent::Height(_), .. } | Band::Rib { extent: Extent::Height(_), .. })
        });
        let has_plain_parts = matches!(makes, Makes::Hat | Makes::Mittens | Makes::Yoke);
        let gauge = self.node.get("gauge");
        if (by_height || has_plain_parts) && gauge.is_some_and(|g| g.get("plain").is_none()) {
            let at = gauge.map_or(head_span(self.node), |g| g.span);
            self.faults.push(
                Fault::new(Code::NoPlainGauge, "plain fabric has no gauge of its own", at, "that of the colourwork is taken")
                    .help("knit a plain swatch and add `plain: { stitches: …, rows: … }`"),
            );
        }
    }
}

fn length(node: &Node, key: &str) -> Option<Length> {
    Length::parse(node.get(key)?.text()?)
}

fn read_gauge(node: &Node, which: &str) -> Option<GaugeOn> {
    let gauge = node.get("gauge")?;
    let over = gauge.get(which).and_then(|g| length(g, "over")).map_or(100.0, Length::to_mm);
    let to_10cm = |key| number(gauge, which, key).map(|n| n * 100.0 / over).filter(|n| n.is_finite() && *n > 0.0);
    Some(GaugeOn {
        gauge: Gauge { stitches: to_10cm("stitches")?, rows: to_10cm("rows")? },
        needle: gauge.get(which).and_then(|g| length(g, "needle")),
    })
}

fn read_yarns(node: &Node) -> Vec<Yarn> {
    let entries = node.get("colours").map(Node::entries).unwrap_or_default();
    let yarn = |(role, value): &(Node, Node)| {
        Some(Yarn {
            role: role.text()?.to_owned(),
            name: value.get("name").and_then(Node::text).unwrap_or_default().to_owned(),
            rgb: value.get("hex").and_then(Node::text).and_then(parse_hex).unwrap_or_default(),
        })
    };
    entries.iter().filter_map(yarn).collect()
}
