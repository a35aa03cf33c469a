//! The bands of a lesson: charts, colours and heights looked up.

use crate::course::chart::Chart;
use crate::course::{Across, AcrossPart, Band, Extent};
use crate::ground::bounds::BANDS;
use crate::ground::fault::{Code, Fault, Span, did_you_mean};
use crate::read::lesson_file::Reader;
use crate::read::node::Node;
use crate::read::values::length;

impl Reader<'_> {
    pub(super) fn bands(&mut self) -> Vec<Band> {
        let Some(list) = self.node.get("bands") else {
            return Vec::new();
        };
        if let Some(over) = list.items().get(BANDS) {
            let title = format!("the lesson has more than {BANDS} bands");
            let fault = Fault::new(Code::TooLarge, title, over.span, "one too many");
            self.faults
                .push(fault.help("draw what repeats as one chart, or part the lesson"));
        }
        let bands: Vec<Band> = list
            .items()
            .iter()
            .take(BANDS)
            .filter_map(|item| self.band(item))
            .collect();
        // What could not be read has been told.
        let all_read = bands.len() == list.items().len();
        if all_read && !bands.iter().any(|band| !matches!(band, Band::Decrease)) {
            self.faults.push(
                Fault::new(
                    Code::EmptyBands,
                    "nothing is worked in this lesson",
                    list.span,
                    "",
                )
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
            let multiple = rib
                .get("multiple")
                .and_then(Node::text)
                .and_then(|t| t.parse().ok());
            return Some(Band::Rib {
                multiple: multiple.unwrap_or(4),
                extent,
                yarn: self.yarn(rib)?,
            });
        }
        if let Some(plain) = item.get("plain") {
            let extent = self.extent(plain, "plain")?;
            let say = plain.get("say").and_then(Node::text).unwrap_or_default();
            return Some(Band::Plain {
                extent,
                yarn: self.yarn(plain)?,
                say: say.split_whitespace().collect::<Vec<_>>().join(" "),
            });
        }
        if let Some(parts) = item.get("across") {
            let found: Vec<AcrossPart> = parts
                .items()
                .iter()
                .filter_map(|part| self.part(part))
                .collect();
            let fills = found
                .iter()
                .filter(|part| matches!(part, AcrossPart::Chart(_, Across::Fill)))
                .count();
            if fills > 1 {
                self.faults.push(
                    Fault::new(
                        Code::AcrossPart,
                        "only one part can fill the round",
                        parts.span,
                        "",
                    )
                    .help("give the other a number of times"),
                );
            }
            if found.is_empty() && parts.items().is_empty() {
                self.faults.push(Fault::new(
                    Code::AcrossPart,
                    "`across` holds no part",
                    parts.span,
                    "",
                ));
            }
            return Some(Band::Across(found));
        }
        let chart = item.get("chart")?;
        let id = if chart.text().is_some() {
            chart
        } else {
            chart.get("id")?
        };
        let times = chart
            .get("times")
            .and_then(Node::text)
            .and_then(|t| t.parse().ok())
            .unwrap_or(1);
        let what = self.chart_use(id, chart.get("colours"))?;
        let what = self.shaded(what, chart.get("rows"));
        if times > 1 {
            self.refuse_shaped_repeat(&what.chart, chart.get("times").map_or(id.span, |n| n.span));
        }
        Some(Band::Chart { what, times })
    }

    fn refuse_shaped_repeat(&mut self, chart: &Chart, span: Span) {
        let changes = (1..chart.height).any(|row| chart.live(row) != chart.live(row - 1));
        if changes {
            self.faults.push(
                Fault::new(
                    Code::ShapedRepeat,
                    "rows that change the stitch count cannot repeat",
                    span,
                    "",
                )
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
                    self.faults
                        .push(bad("`times` is a whole number from 1 on, or `fill`"));
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
                Some(AcrossPart::Plain {
                    stitches,
                    yarn: self.yarn(part)?,
                })
            }
            _ => {
                self.faults
                    .push(bad("a part of `across` is either a chart or plain"));
                None
            }
        }
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

    pub(super) fn yarn_of(&mut self, role: &str, span: Span) -> Option<usize> {
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
        let rows = band
            .get("rows")
            .and_then(Node::text)
            .and_then(|t| t.parse().ok());
        match (rows, length(band, "height")) {
            (Some(rows), None) if band.get("height").is_none() => Some(Extent::Rows(rows)),
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
}
