//! Counts of each size: the multiple of the chart nearest to the girth aimed at, and what it comes out at.
//!
//! One count a size, at the widest chart. Counts of single bands, crowns and yokes are not worked out here.

use crate::body::{self, Body, Makes};
use crate::chart::{Chart, Worked};
use crate::lesson::{Band, Lesson};
use crate::units::{Length, nearest_at_least};

/// One size of a piece in stitches.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeCount {
    /// The size's name on pages.
    pub label: String,
    /// `head`, `hand` or `chest`, and its girth.
    pub body: (&'static str, Length),
    /// The girth aimed at.
    pub target: Length,
    /// Stitches in the round (or row) of the widest chart; of a yoke, where body and sleeves are joined.
    pub stitches: usize,
    /// Repeats of the widest chart; 0 without a chart.
    pub repeats: usize,
    /// What those stitches measure; of a yoke, the body they belong to.
    pub finished: Length,
    /// Finished against target, in per cent.
    pub error: f64,
    /// Stitches to cast on.
    pub cast_on: usize,
}

/// The chart that decides the count: the widest repeat, the first of equals.
#[must_use]
pub fn deciding_chart(lesson: &Lesson) -> Option<&Chart> {
    let charts = lesson.charts();
    charts
        .iter()
        .rev()
        .map(|what| &*what.chart)
        .max_by_key(|chart| chart.repeat_stitches.len())
}

/// The whole number of repeats nearest to `stitches` (ties: the larger), at least one, and the count with edges.
#[must_use]
pub fn nearest_repeats(stitches: f64, repeat: usize, edges: usize) -> (usize, usize) {
    let repeat = repeat.max(1);
    let times = nearest_at_least((stitches - edges as f64) / repeat as f64, 1);
    (times, edges + times * repeat)
}

/// The counts of every size of a lesson, as written.
#[must_use]
pub fn counts(lesson: &Lesson) -> Vec<SizeCount> {
    lesson
        .sizes
        .iter()
        .filter_map(|size| count(lesson, size))
        .collect()
}

/// The count of a piece that fits nobody in particular: 96 stitches, or what its chart makes of them.
#[must_use]
pub fn plain_count(lesson: &Lesson) -> (usize, usize) {
    let wanted = body::grading_stitches(lesson.makes, None, lesson.colourwork.gauge.stitches);
    chart_count(lesson, wanted)
}

/// Repeats and stitches nearest to `wanted` at the deciding chart; without a chart the nearest whole number.
fn chart_count(lesson: &Lesson, wanted: f64) -> (usize, usize) {
    match deciding_chart(lesson) {
        None => (0, nearest_at_least(wanted, 1)),
        Some(chart) if lesson.worked == Worked::Flat && !chart.declares_stitches => {
            (1, chart.width)
        }
        Some(chart) => {
            let repeat = chart.repeat_stitches.len();
            nearest_repeats(wanted, repeat, chart.width - repeat)
        }
    }
}

fn count(lesson: &Lesson, size: &Body) -> Option<SizeCount> {
    let target = body::target_girth(lesson.makes, size, lesson.ease)?;
    let gauge = lesson.colourwork.gauge;
    let wanted = body::grading_stitches(lesson.makes, Some(target), gauge.stitches);
    let (repeats, stitches) = chart_count(lesson, wanted);
    let share = if lesson.makes == Makes::Yoke {
        1.34
    } else {
        1.0
    };
    let finished = gauge.width(stitches as f64 / share);
    let (name, girth, _) = lesson.makes.girth_of(size);
    Some(SizeCount {
        label: size.label.clone(),
        body: (name, girth),
        target,
        stitches,
        repeats,
        finished,
        error: 100.0 * (finished.to_mm() - target.to_mm()) / target.to_mm(),
        cast_on: cast_on(lesson, size, stitches),
    })
}

/// Stitches of the first band: a rib has its own, narrower girth and multiple; anything else begins at the count.
fn cast_on(lesson: &Lesson, size: &Body, stitches: usize) -> usize {
    match lesson.bands.first() {
        Some(Band::Rib { multiple, .. }) => {
            let girth = body::rib_girth(lesson.makes, size);
            let wanted = girth.map_or(stitches as f64, |girth| {
                lesson.plain_gauge().stitches_in(girth)
            });
            nearest_repeats(wanted.min(stitches as f64), *multiple, 0).1
        }
        _ => stitches,
    }
}

#[cfg(test)]
mod tests {
    use super::nearest_repeats;

    #[test]
    fn ties_go_to_the_larger_count() {
        assert_eq!(nearest_repeats(100.0, 8, 0), (13, 104));
        assert_eq!(nearest_repeats(99.0, 8, 0), (12, 96));
        assert_eq!(nearest_repeats(2.0, 8, 0), (1, 8));
        assert_eq!(nearest_repeats(101.0, 8, 5), (12, 101));
    }
}
