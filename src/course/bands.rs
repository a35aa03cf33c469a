//! What a lesson is worked of, from the cast-on upwards: charts in their yarns, plain rows, ribs.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::course::chart::{self, Chart};
use crate::ground::units::{Gauge, Length};

/// How a chart is used in a band or part.
#[derive(Clone, Debug)]
pub struct ChartUse {
    /// The chart.
    pub chart: Arc<Chart>,
    /// For each of the chart's inks, the index of the lesson's yarn.
    pub yarns: Vec<usize>,
}

impl ChartUse {
    /// Whether both show the same cells in the same yarns.
    #[must_use]
    pub fn is_same(&self, other: &Self) -> bool {
        let same = |a: &Chart, b: &Chart| a.id == b.id && a.cells == b.cells;
        self.yarns == other.yarns
            && (Arc::ptr_eq(&self.chart, &other.chart) || same(&self.chart, &other.chart))
    }

    /// With some of its rows in other yarns: for a row and an ink (both from 0) `other` tells the index of the yarn, where it
    /// is not the ink's own. `roles` are those of the lesson's yarns.
    #[must_use]
    pub fn shaded(self, other: &dyn Fn(usize, u8) -> Option<usize>, roles: &[&str]) -> Self {
        let mut inks = self.chart.inks.clone();
        let mut yarns = self.yarns.clone();
        let mut ink_of = |yarn: usize| {
            let known = yarns.iter().position(|known| *known == yarn);
            known.unwrap_or_else(|| {
                inks.push(chart::Ink {
                    letter: free_letter(&inks),
                    role: roles.get(yarn).copied().unwrap_or_default().to_owned(),
                });
                yarns.push(yarn);
                yarns.len() - 1
            })
        };
        let width = self.chart.width.max(1);
        let cells = self.chart.cells.iter().enumerate();
        let cells: Vec<usize> = cells
            .map(|(at, &ink)| other(at / width, ink).map_or(usize::from(ink), &mut ink_of))
            .collect();
        // An ink that no cell shows any more is none of the chart's.
        let used: BTreeSet<usize> = cells.iter().copied().collect();
        let places: BTreeMap<usize, u8> = used.iter().copied().zip(0..=u8::MAX).collect();
        let place = |ink: &usize| places.get(ink).copied().unwrap_or_default();
        let chart = Chart {
            cells: cells.iter().map(place).collect(),
            inks: used
                .iter()
                .filter_map(|&ink| inks.get(ink).cloned())
                .collect(),
            ..(*self.chart).clone()
        };
        Self {
            chart: Arc::new(chart),
            yarns: used
                .iter()
                .filter_map(|&ink| yarns.get(ink).copied())
                .collect(),
        }
    }

    /// The index of the lesson's yarn at a cell; rows and columns from 0.
    #[must_use]
    pub fn yarn_at(&self, row: usize, column: usize) -> usize {
        let ink = self.chart.row(row).get(column).copied().unwrap_or(0);
        self.yarns.get(usize::from(ink)).copied().unwrap_or(0)
    }
}

/// A letter that none of these inks has.
fn free_letter(inks: &[chart::Ink]) -> char {
    let mut letters = ('a'..='z').chain('A'..='Z').chain('\u{c0}'..='\u{17f}');
    letters
        .find(|letter| !inks.iter().any(|ink| ink.letter == *letter))
        .unwrap_or('?')
}

/// How often a part of an `across` band is repeated sideways.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Across {
    /// So many times.
    Times(usize),
    /// As often as fills the round.
    Fill,
}

/// One of several things side by side in a round.
#[derive(Clone, Debug)]
pub enum AcrossPart {
    /// A chart.
    Chart(ChartUse, Across),
    /// Stitches of one colour.
    Plain {
        /// How many.
        stitches: usize,
        /// Index of the yarn.
        yarn: usize,
    },
}

impl AcrossPart {
    /// Rows before it begins anew.
    #[must_use]
    pub fn rows(&self) -> usize {
        match self {
            Self::Chart(what, _) => what.chart.height,
            Self::Plain { .. } => 1,
        }
    }

    /// Stitches that it is written for; of a part that fills a round, once.
    #[must_use]
    pub fn width(&self) -> usize {
        match self {
            Self::Chart(what, Across::Times(times)) => what.chart.width.saturating_mul(*times),
            Self::Chart(what, Across::Fill) => what.chart.width,
            Self::Plain { stitches, .. } => *stitches,
        }
    }
}

/// How high a plain band or rib is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Extent {
    /// In rows.
    Rows(usize),
    /// As a length.
    Height(Length),
}

impl Extent {
    /// Rows at the gauge of plain fabric.
    #[must_use]
    pub fn rows(self, plain: Gauge) -> usize {
        match self {
            Self::Rows(rows) => rows,
            Self::Height(height) => plain.rows_in(height),
        }
    }
}

/// A stretch of the work, from the cast-on upwards.
#[derive(Clone, Debug)]
pub enum Band {
    /// Ribbing.
    Rib {
        /// Stitches of one rib repeat.
        multiple: usize,
        /// How high.
        extent: Extent,
        /// Index of the yarn.
        yarn: usize,
    },
    /// Rows of one colour.
    Plain {
        /// How high.
        extent: Extent,
        /// Index of the yarn.
        yarn: usize,
        /// The teacher's own words to the step, in Markdown on one line; empty without.
        say: String,
    },
    /// A chart, its rows worked `times` over.
    Chart {
        /// Chart and colours.
        what: ChartUse,
        /// How often its repeat of rows is worked.
        times: usize,
    },
    /// Several things side by side.
    Across(Vec<AcrossPart>),
    /// A place where a yoke may lose stitches.
    Decrease,
}
