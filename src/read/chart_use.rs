//! A chart as a lesson uses it: in the lesson's yarns, some of its rows in others.

use std::ops::Range;
use std::sync::Arc;

use crate::course::ChartUse;
use crate::course::chart::Chart;
use crate::ground::fault::{Code, Fault, Label, did_you_mean};
use crate::read::lesson_file::Reader;
use crate::read::node::Node;
use crate::read::shape::parse_range;

/// Rows (from 0) of a chart, and for each ink that changes there the yarn it changes into.
type Shade = (Range<usize>, Vec<(u8, usize)>);

impl Reader<'_> {
    /// A chart and the yarns of its inks.
    pub(super) fn chart_use(&mut self, id: &Node, recolour: Option<&Node>) -> Option<ChartUse> {
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
        let of = self.craft();
        if of.craft.has_rows() && chart.worked != of.worked {
            let title = format!(
                "chart `{name}` is drawn to be worked {}, this lesson is worked {}",
                chart.worked.name(),
                of.worked.name()
            );
            self.faults.push(
                Fault::new(Code::WorkedDiffers, title, id.span, "the lesson counts")
                    .help("check the edge stitches and where each row starts"),
            );
        }
        self.check_roles(chart, recolour);
        let mut yarns = Vec::new();
        for (i, ink) in chart.inks.iter().enumerate() {
            let given = recolour.and_then(|r| r.get(&ink.role));
            let wanted = given.and_then(Node::text).unwrap_or(&ink.role);
            let yarn = self.yarn_of(wanted, given.map_or(id.span, |n| n.span));
            let place = chart
                .ink_places
                .get(i)
                .filter(|_| yarn.is_none() && given.is_none());
            if let (Some(place), Some(fault)) = (place, self.faults.last_mut()) {
                let text = format!("chart `{name}` names it here");
                fault.labels.push(Label { span: *place, text });
            }
            yarns.push(yarn);
        }
        let yarns: Option<Vec<usize>> = yarns.into_iter().collect();
        Some(ChartUse {
            chart: Arc::clone(chart),
            yarns: yarns?,
        })
    }

    /// Every key must be a colour of the chart.
    fn check_roles(&mut self, chart: &Chart, recolour: Option<&Node>) {
        let roles: Vec<&str> = chart.inks.iter().map(|ink| ink.role.as_str()).collect();
        for (role, _) in recolour.map(Node::entries).unwrap_or_default() {
            let name = role.text().unwrap_or("");
            if !roles.contains(&name) {
                let title = format!("chart `{}` has no colour `{name}`", chart.id);
                self.faults.push(
                    Fault::new(Code::UnknownColour, title, role.span, "")
                        .help(did_you_mean(name, &roles)),
                );
            }
        }
    }

    /// With the rows that the lesson works in other yarns.
    pub(super) fn shaded(&mut self, what: ChartUse, rows: Option<&Node>) -> ChartUse {
        let entries = rows.map(Node::entries).unwrap_or_default();
        let mut shades: Vec<Shade> = Vec::new();
        for (key, roles) in entries {
            let rows = self.rows_of(key, &what.chart, &shades);
            self.check_roles(&what.chart, Some(roles));
            let mut changed = Vec::new();
            for (index, ink) in (0..=u8::MAX).zip(&what.chart.inks) {
                let other = roles.get(&ink.role);
                let yarn = other.and_then(|other| self.yarn_of(other.text()?, other.span));
                changed.extend(yarn.map(|yarn| (index, yarn)));
            }
            shades.extend(rows.map(|rows| (rows, changed)));
        }
        if shades.is_empty() {
            return what;
        }
        let other = |row: usize, ink: u8| {
            let (_, changed) = shades.iter().find(|(rows, _)| rows.contains(&row))?;
            let (_, yarn) = changed.iter().find(|(known, _)| *known == ink)?;
            Some(*yarn)
        };
        let roles: Vec<&str> = self.yarns.iter().map(|yarn| yarn.role.as_str()).collect();
        what.shaded(&other, &roles)
    }

    /// `1-3` or `3`: rows of the chart that no shade has yet, from 0.
    fn rows_of(&mut self, key: &Node, chart: &Chart, taken: &[Shade]) -> Option<Range<usize>> {
        let text = key.text().unwrap_or("");
        let one = || text.trim().parse().ok().map(|row: usize| (row, row));
        let Some((first, last)) = parse_range(text).or_else(one) else {
            let title = format!("`{text}` names no rows");
            let fault = Fault::new(Code::WrongValue, title, key.span, "rows as drawn");
            self.faults
                .push(fault.help("write `1-3` or `3`: the bottom line is row 1"));
            return None;
        };
        let fault = if first < 1 || last > chart.height {
            let title = format!("chart `{}` has rows 1 to {}", chart.id, chart.height);
            Fault::new(Code::WrongValue, title, key.span, "outside the chart")
        } else if taken
            .iter()
            .any(|(rows, _)| rows.start < last && first <= rows.end)
        {
            let title = "these rows have other colours already";
            Fault::new(Code::WrongValue, title, key.span, "named twice").help("name every row once")
        } else {
            return Some(first - 1..last);
        };
        self.faults.push(fault);
        None
    }
}
