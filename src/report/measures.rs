//! `measure --json`.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::report::{Parts, fraction, tenth};
use crate::rows::catches::Catch;
use crate::rows::grade::Grade;
use crate::rows::measure::Measures;
use crate::rows::walk::Work;

/// The whole document.
#[derive(Debug, Serialize)]
pub struct MeasureReport {
    format: &'static str,
    lessons: Vec<Entry>,
    charts: Vec<Entry>,
}

impl MeasureReport {
    /// Lessons and charts in the order they are to be written.
    #[must_use]
    pub fn new(lessons: Vec<Entry>, charts: Vec<Entry>) -> Self {
        Self {
            format: "yokeward/measure/1",
            lessons,
            charts,
        }
    }
}

/// One lesson or chart.
#[derive(Debug, Serialize)]
pub struct Entry {
    id: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    size: Option<Option<String>>,
    #[serde(
        skip_serializing_if = "Option::is_none",
        serialize_with = "some_fraction"
    )]
    round: Option<f64>,
    stitches: usize,
    rows: usize,
    repeats: usize,
    #[serde(serialize_with = "fraction")]
    gauge: f64,
    floats: Floats,
    colours: Colours,
    reading: Reading,
    relief: Relief,
    #[serde(serialize_with = "tenth")]
    busyness: f64,
    parts: Parts,
    #[serde(serialize_with = "tenth")]
    grade: f64,
    level: &'static str,
    techniques: BTreeSet<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    per_row: Option<Vec<RowEntry>>,
}

fn some_fraction<S: serde::Serializer>(
    value: &Option<f64>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    fraction(&value.unwrap_or(0.0), serializer)
}

#[derive(Debug, Serialize)]
struct Floats {
    longest: usize,
    #[serde(serialize_with = "fraction")]
    longest_mm: f64,
    #[serde(serialize_with = "fraction")]
    mean: f64,
    limit: usize,
    rows_over: usize,
    #[serde(serialize_with = "fraction")]
    share_over_16: f64,
    catches: usize,
    #[serde(serialize_with = "fraction")]
    catches_per_100: f64,
    histogram: BTreeMap<usize, usize>,
}

#[derive(Debug, Serialize)]
struct Colours {
    total: usize,
    most: usize,
    #[serde(serialize_with = "fraction")]
    mean: f64,
    #[serde(serialize_with = "fraction")]
    mean_16: f64,
    changes: usize,
    ends: usize,
}

#[derive(Debug, Serialize)]
struct Reading {
    #[serde(serialize_with = "fraction")]
    looks_mean: f64,
    #[serde(serialize_with = "fraction")]
    looks_16: f64,
    looks_most: usize,
    chunks_most: usize,
}

#[derive(Debug, Serialize)]
struct Relief {
    rows: usize,
    #[serde(serialize_with = "fraction")]
    share: f64,
    stretch: usize,
}

#[derive(Debug, Serialize)]
struct RowEntry {
    row: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    band: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    chart_row: Option<Option<usize>>,
    colours: usize,
    changes: usize,
    chunks: usize,
    learn: usize,
    looks: usize,
    floats: Vec<FloatEntry>,
    catches: Vec<CatchEntry>,
}

#[derive(Debug, Serialize)]
struct FloatEntry {
    colour: String,
    start: u32,
    stitches: usize,
}

#[derive(Debug, Serialize)]
struct CatchEntry {
    colour: String,
    stitch: u32,
}

/// Puts one piece of work into words of JSON. `size` is the id of a lesson's middle size.
#[must_use]
pub fn entry(
    id: &str,
    work: &Work<'_>,
    measures: &Measures,
    grade: &Grade,
    plan: Option<&[Vec<Catch>]>,
    size: Option<Option<String>>,
) -> Entry {
    let is_lesson = size.is_some();
    let m = measures;
    Entry {
        id: id.to_owned(),
        round: is_lesson.then_some(work.round),
        size,
        stitches: work.stitches,
        rows: work.rows.len(),
        repeats: work.repeats,
        gauge: work.gauge.stitches,
        floats: Floats {
            longest: m.floats.longest,
            longest_mm: m.floats.longest_mm,
            mean: m.floats.mean,
            limit: m.floats.limit,
            rows_over: m.floats.rows_over,
            share_over_16: m.floats.share_over_16,
            catches: m.floats.catches,
            catches_per_100: m.floats.catches_per_100,
            histogram: m.floats.histogram.clone(),
        },
        colours: Colours {
            total: m.colours.total,
            most: m.colours.most,
            mean: m.colours.mean,
            mean_16: m.colours.mean_16,
            changes: m.colours.changes,
            ends: m.colours.ends,
        },
        reading: Reading {
            looks_mean: m.reading.looks_mean,
            looks_16: m.reading.looks_16,
            looks_most: m.reading.looks_most,
            chunks_most: m.reading.chunks_most,
        },
        relief: Relief {
            rows: m.relief.rows,
            share: m.relief.share,
            stretch: m.relief.stretch,
        },
        busyness: m.busyness,
        parts: Parts {
            values: grade.parts,
            digits: 4,
        },
        grade: grade.grade,
        level: grade.level.name(),
        techniques: grade.techniques.clone(),
        per_row: plan.map(|plan| rows(work, measures, plan, is_lesson)),
    }
}

fn rows(
    work: &Work<'_>,
    measures: &Measures,
    plan: &[Vec<Catch>],
    is_lesson: bool,
) -> Vec<RowEntry> {
    let name = |colour: u8| {
        work.colours
            .get(usize::from(colour))
            .cloned()
            .unwrap_or_default()
    };
    let each = work.rows.iter().zip(&measures.rows).enumerate();
    each.map(|(index, (row, m))| {
        let origin = &row.origin;
        RowEntry {
            row: if is_lesson {
                index + 1
            } else {
                origin.drawn.map_or(0, |drawn| drawn.row.index() + 1)
            },
            band: is_lesson.then_some(origin.band.map_or(0, |band| band + 1)),
            chart_row: is_lesson.then_some(origin.drawn.map(|drawn| drawn.row.index() + 1)),
            colours: m.colours,
            changes: m.changes,
            chunks: m.chunks,
            learn: m.learn,
            looks: m.looks,
            floats: m
                .floats
                .iter()
                .map(|f| FloatEntry {
                    colour: name(f.colour),
                    start: f.start.get(),
                    stitches: f.stitches,
                })
                .collect(),
            catches: plan
                .get(index)
                .map(Vec::as_slice)
                .unwrap_or_default()
                .iter()
                .map(|c| CatchEntry {
                    colour: name(c.colour),
                    stitch: c.stitch.get(),
                })
                .collect(),
        }
    })
    .collect()
}
