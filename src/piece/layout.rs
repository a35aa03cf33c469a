//! The bands of a tube or strip, from the cast-on upwards: counts, changes between them, stages.

use crate::course::body::{self, Body};
use crate::course::chart::{Chart, Mark, Worked};
use crate::course::{Across, AcrossPart, Band, Extent, Lesson};
use crate::ground::units::{Length, nearest_at_least};
use crate::piece::builder::{Stages, chart_fit, ends};
use crate::piece::none::NoSchedule;
use crate::piece::schedule::counts::{BandCount, BandWish, plan};
use crate::piece::schedule::multiple::Fit;
use crate::piece::stages::StageKind;
use crate::rows::{across, drawn};

/// Bands laid out.
pub(super) struct Bands {
    pub(super) stages: Stages,
    /// The count that decides how the piece fits.
    pub(super) main: BandCount,
    /// Repeats of the widest chart in it; 0 without a chart.
    pub(super) repeats: usize,
    /// How high all bands are, and how high those above the first rib.
    pub(super) height: Length,
    pub(super) above_wrist: Length,
}

/// A band that asks something of its count.
struct Wish {
    band: usize,
    wish: BandWish,
    /// Stitches of one repeat of a chart; 0 for ribs and plain work.
    repeat: usize,
}

/// Lays out all bands for this girth. Where those above the first rib are less high than `grown`, plain rounds make up for
/// it: beneath the last rib, or at the end.
pub(super) fn bands(
    lesson: &Lesson,
    size: Option<&Body>,
    girth: Length,
    grown: Option<Length>,
) -> Result<Bands, NoSchedule> {
    let wishes = wishes(lesson, size, girth);
    let only: Vec<BandWish> = wishes.iter().map(|w| w.wish).collect();
    let asked = || wishes.iter().map(|wish| wish.band).collect();
    let plan = plan(&only, ends(lesson)).map_err(|error| NoSchedule::Counts(error, asked()))?;
    let widest = wishes
        .iter()
        .enumerate()
        .rev()
        .max_by_key(|(_, w)| w.repeat);
    let main = widest.map_or(0, |(i, _)| i);
    let main = plan.bands.get(main).cloned().ok_or(NoSchedule::Empty)?;
    let repeat = widest.map_or(0, |(_, w)| w.repeat);
    let mut stages = Stages::cast_on(plan.cast_on);
    let count_of = |band: usize| {
        let at = wishes.iter().position(|w| w.band == band)?;
        plan.bands.get(at).map(|b| b.outcome.stitches)
    };
    let plain = lesson.plain_gauge();
    let (height, above_wrist) = heights(lesson);
    let more = grown.map_or(0.0, |grown| grown.to_mm() - above_wrist.to_mm());
    let more = nearest_at_least(plain.rows_spanning(Length::mm(more.max(0.0))), 0);
    let edge = lesson
        .bands
        .len()
        .checked_sub(1)
        .filter(|last| *last > 0 && matches!(lesson.bands.get(*last), Some(Band::Rib { .. })));
    let last = edge.and_then(|edge| lesson.bands.get(edge));
    let beneath_edge = height + plain.height(more as f64)
        - last.map_or(Length::default(), |band| band_height(lesson, band));
    // So many plain rounds of the band beneath come only afterwards: the one in which the count changes.
    let grow = |stages: &mut Stages, later: usize| {
        if grown.is_some() {
            let here = beneath_edge - plain.height(later as f64);
            stages.keep(StageKind::Plain(None, Some(here)), more);
        }
    };
    let mut shaped = false;
    for (i, band) in lesson.bands.iter().enumerate() {
        let next = lesson.bands.get(i + 1);
        // Where the count may change above this band: in its last plain round, or in one plain round more.
        let above = next.and_then(|_| (i + 1..lesson.bands.len()).find_map(count_of));
        let to = above.filter(|_| !shaped).unwrap_or(stages.now);
        let rows;
        match band {
            Band::Decrease => continue,
            Band::Rib { extent, .. } => {
                rows = extent.rows(plain);
                stages.keep(StageKind::Rib(Some(i)), rows);
                if edge == Some(i + 1) {
                    grow(&mut stages, 0);
                }
                if next.is_some_and(|next| !matches!(next, Band::Plain { .. })) {
                    stages.change(to, ends(lesson))?;
                }
            }
            Band::Plain { extent, .. } => {
                rows = extent.rows(plain);
                // Of several plain bands on end the last one changes the count.
                let last = next.is_some_and(|next| !matches!(next, Band::Plain { .. }));
                let left = rows - usize::from(last && to != stages.now && rows > 0);
                stages.keep(StageKind::Plain(Some(i), None), left);
                if edge == Some(i + 1) {
                    grow(&mut stages, rows - left);
                }
                if last {
                    stages.change(to, ends(lesson))?;
                }
            }
            Band::Chart { what, times } => {
                let chart = &*what.chart;
                rows = drawn::count_worked(chart, *times);
                let after = shape(chart, &mut stages, i, rows)?;
                shaped |= after;
                if edge == Some(i + 1) {
                    grow(&mut stages, 0);
                }
                if matches!(next, Some(Band::Rib { .. })) {
                    stages.change(to, ends(lesson))?;
                }
            }
            Band::Across(parts) => {
                rows = across::height(parts);
                stages.keep(StageKind::Band(i, 1), rows);
                if edge == Some(i + 1) {
                    grow(&mut stages, 0);
                }
                if matches!(next, Some(Band::Rib { .. })) {
                    stages.change(to, ends(lesson))?;
                }
            }
        }
    }
    if edge.is_none() {
        grow(&mut stages, 0);
    }
    let more = plain.height(if grown.is_some() { more as f64 } else { 0.0 });
    Ok(Bands {
        repeats: main.outcome.stitches.checked_div(repeat).unwrap_or(0),
        main,
        stages,
        height: height + more,
        above_wrist: above_wrist + more,
    })
}

/// How high all bands of a lesson are, and how high those above its first ribs.
fn heights(lesson: &Lesson) -> (Length, Length) {
    let (mut all, mut above) = (Length::default(), Length::default());
    let mut cuff = true;
    for band in &lesson.bands {
        cuff &= matches!(band, Band::Rib { .. });
        let height = band_height(lesson, band);
        all += height;
        above += if cuff { Length::default() } else { height };
    }
    (all, above)
}

fn band_height(lesson: &Lesson, band: &Band) -> Length {
    let (plain, colour) = (lesson.plain_gauge(), lesson.colourwork.gauge);
    if let Band::Rib {
        extent: Extent::Rows(rows),
        ..
    } = band
    {
        return plain.height(*rows as f64 * lesson.craft.rib_rows());
    }
    let (gauge, rows) = match band {
        Band::Rib { extent, .. } | Band::Plain { extent, .. } => (plain, extent.rows(plain)),
        Band::Chart { what, times } => (colour, drawn::count_worked(&what.chart, *times)),
        Band::Across(parts) => (colour, across::height(parts)),
        Band::Decrease => (plain, 0),
    };
    gauge.height(rows as f64)
}

/// Adds a chart's rows; says whether it loses or gains stitches inside.
fn shape(chart: &Chart, stages: &mut Stages, band: usize, rows: usize) -> Result<bool, NoSchedule> {
    let repeat = chart.repeat_stitches.clone();
    let edges = (0..repeat.start).chain(repeat.end..chart.width);
    let (inside, outside): (Vec<usize>, Vec<usize>) = (repeat.collect(), edges.collect());
    let fits = |columns: &[usize]| (before(chart, columns), after(chart, columns));
    let ((first, last), (edge_first, edge_last)) = (fits(&inside), fits(&outside));
    let rest = stages.now.checked_sub(edge_first);
    let repeats = rest
        .filter(|rest| first > 0 && rest % first == 0)
        .map(|rest| rest / first);
    let Some(repeats) = repeats else {
        return Err(NoSchedule::DoesNotFit {
            band,
            stitches: stages.now,
            multiple: first,
            edges: edge_first,
        });
    };
    let after = edge_last + repeats * last;
    stages.add(StageKind::Band(band, repeats), rows, after);
    Ok(chart.is_shaped())
}

/// Stitches of these columns beneath a chart's first row.
fn before(chart: &Chart, columns: &[usize]) -> usize {
    let live = live(chart, 0, columns) as i64;
    let change: i64 = columns
        .iter()
        .map(|&c| match chart.mark(0, c) {
            Mark::RightDecrease | Mark::LeftDecrease => 1,
            Mark::DoubleDecrease => 2,
            Mark::MakeOne => -1,
            _ => 0,
        })
        .sum();
    usize::try_from(live + change).unwrap_or(0)
}

fn after(chart: &Chart, columns: &[usize]) -> usize {
    live(chart, chart.height.saturating_sub(1), columns)
}

fn live(chart: &Chart, row: usize, columns: &[usize]) -> usize {
    let stands = |c: &&usize| drawn::stands(chart, row, **c);
    columns.iter().filter(stands).count()
}

/// Stitches that one repeat has after each of a chart's rows; empty if none changes.
pub(super) fn live_counts(chart: &Chart) -> Vec<usize> {
    if !chart.is_shaped() {
        return Vec::new();
    }
    let columns: Vec<usize> = chart.repeat_stitches.clone().collect();
    (0..chart.height)
        .map(|row| live(chart, row, &columns))
        .collect()
}

/// What several things side by side ask: the part that fills, so often as need be, and the rest once.
pub(super) fn across_fit(parts: &[AcrossPart]) -> Fit {
    let (mut once, mut fill) = (0, 0);
    for part in parts {
        match part {
            AcrossPart::Plain { stitches, .. } => once += stitches,
            AcrossPart::Chart(what, Across::Times(times)) => {
                let fit = chart_fit(&what.chart);
                once += fit.edges + times * fit.multiple;
            }
            AcrossPart::Chart(what, Across::Fill) => {
                let fit = chart_fit(&what.chart);
                once += fit.edges;
                fill += fit.multiple;
            }
        }
    }
    if fill > 0 {
        Fit {
            multiple: fill,
            edges: once,
        }
    } else {
        Fit::of(once)
    }
}

fn wishes(lesson: &Lesson, size: Option<&Body>, girth: Length) -> Vec<Wish> {
    let (plain, colour) = (lesson.plain_gauge(), lesson.colourwork);
    let rib_girth = size
        .and_then(|size| body::rib_girth(lesson.makes, size))
        .unwrap_or(girth);
    let mut found: Vec<Wish> = Vec::new();
    let mut shaped = false;
    for (band, what) in lesson.bands.iter().enumerate() {
        // In the last plain round beneath, or, next to a rib, in a plain round of its own.
        let beneath = band.checked_sub(1).and_then(|i| lesson.bands.get(i));
        let plain_before = !matches!(beneath, Some(Band::Chart { .. } | Band::Across(_)))
            || matches!(what, Band::Rib { .. });
        let wish = |fit, girth, gauge, needle| BandWish {
            fit,
            girth,
            gauge,
            needle,
            plain_before,
        };
        let (wish, repeat) = match what {
            _ if shaped => continue,
            Band::Rib { multiple, .. } => (
                wish(
                    Fit::of(*multiple),
                    rib_girth,
                    plain.stitches,
                    lesson.rib_needle,
                ),
                0,
            ),
            Band::Chart { what, .. } => {
                let chart = &*what.chart;
                shaped = chart.is_shaped();
                let columns: Vec<usize> = chart.repeat_stitches.clone().collect();
                let edges = chart.width - columns.len();
                let fit = Fit {
                    multiple: before(chart, &columns),
                    edges,
                };
                // A line without a declared repeat is worked once, whatever it measures.
                let once = lesson.worked == Worked::Flat && !chart.declares_stitches;
                let girth = if once {
                    colour.gauge.width(chart.width as f64)
                } else {
                    girth
                };
                (
                    wish(fit, girth, colour.gauge.stitches, colour.needle),
                    fit.multiple,
                )
            }
            Band::Across(parts) => {
                let fit = across_fit(parts);
                (
                    wish(fit, girth, colour.gauge.stitches, colour.needle),
                    fit.multiple,
                )
            }
            Band::Plain { .. } | Band::Decrease => continue,
        };
        found.push(Wish { band, wish, repeat });
    }
    // Stripes alone: the girth still decides.
    if !found.iter().any(|w| w.repeat > 0)
        && let Some(band) = lesson
            .bands
            .iter()
            .position(|b| matches!(b, Band::Plain { .. }))
    {
        let at = found.iter().filter(|w| w.band < band).count();
        found.insert(
            at,
            Wish {
                band,
                wish: BandWish {
                    fit: Fit::FREE,
                    girth,
                    gauge: colour.gauge.stitches,
                    needle: colour.needle,
                    plain_before: true,
                },
                // One stitch is a repeat of anything; so this band is the main one.
                repeat: 1,
            },
        );
    }
    found
}
