//! How long a piece takes: stitches by kind ÷ rates. Common practice, no source; therefore always a range.

use crate::chart::{Chart, Mark};
use crate::lesson::{AcrossPart, Band, Lesson};

/// Stitches a minute of a fluent knitter, plain and stranded.
const FLUENT: (f64, f64) = (20.0, 12.0);
/// Stitches a minute in a class of learners.
const CLASS: (f64, f64) = (12.0, 7.0);
/// The range round an estimate.
const RANGE: (f64, f64) = (0.7, 1.5);

/// Stitches of a piece by kind.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stitches {
    /// In rows of one colour.
    pub plain: f64,
    /// In rows of two or more.
    pub stranded: f64,
}

/// Hours, from a good day to a bad one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hours {
    /// At best.
    pub from: f64,
    /// At worst.
    pub to: f64,
}

impl Hours {
    /// On an average day.
    #[must_use]
    pub fn usual(self) -> f64 {
        self.from / RANGE.0
    }
}

impl Stitches {
    /// Hours of a fluent knitter.
    #[must_use]
    pub fn fluent(self) -> Hours {
        self.at(FLUENT)
    }

    /// Hours in a class.
    #[must_use]
    pub fn in_class(self) -> Hours {
        self.at(CLASS)
    }

    fn at(self, (plain, stranded): (f64, f64)) -> Hours {
        let hours = (self.plain / plain + self.stranded / stranded) / 60.0;
        Hours {
            from: hours * RANGE.0,
            to: hours * RANGE.1,
        }
    }
}

/// Stitches of a lesson at its middle size: every band as wide as the round that it is graded on.
#[must_use]
pub fn stitches(lesson: &Lesson) -> Stitches {
    let round = lesson.round_stitches();
    let plain_gauge = lesson.plain_gauge();
    let mut total = Stitches::default();
    let mut add = |rows: usize, stranded: usize| {
        total.stranded += stranded as f64 * round;
        total.plain += rows.saturating_sub(stranded) as f64 * round;
    };
    for band in &lesson.bands {
        match band {
            Band::Rib { extent, .. } | Band::Plain { extent, .. } => {
                add(extent.rows(plain_gauge), 0);
            }
            Band::Chart { what, times } => {
                let chart = &what.chart;
                let stranded = |row: &usize| is_stranded(chart, *row);
                let inside = chart.repeat_rows.clone();
                let again = times.saturating_sub(1);
                add(
                    chart.height + again * inside.len(),
                    (0..chart.height).filter(stranded).count()
                        + again * inside.filter(stranded).count(),
                );
            }
            Band::Across(parts) => {
                let charts = parts.iter().filter_map(|part| match part {
                    AcrossPart::Chart(what, _) => Some(what.chart.height),
                    AcrossPart::Plain { .. } => None,
                });
                let rows = charts.max().unwrap_or(1);
                add(rows, rows);
            }
            Band::Decrease => {}
        }
    }
    total
}

fn is_stranded(chart: &Chart, row: usize) -> bool {
    let mut live = (0..chart.width)
        .filter(|&c| chart.mark(row, c) != Mark::NoStitch)
        .filter_map(|c| chart.row(row).get(c));
    let first = live.next();
    live.any(|cell| Some(cell) != first)
}
