//! Where to catch each float that is over the limit: an exact plan, row by row from the bottom.
//!
//! Every free span is within the limit. Minimised in turn: catches that stand on something (the column of a catch in the
//! row beneath, a shaping stitch, or the column above one), which would show and make a ridge; catches; catches on the
//! first or last stitch of their float, beside the change of colour; catches near others (the column of one two rows
//! beneath, or beside one in the row beneath); the sum of squared free spans; the row's sorted list of (stitch, colour).
//!
//! Each of these is a sum over catches or spans, and the last compares sorted lists, of which the smaller stays smaller
//! when the same is added to both. So floats of a row do not bear on each other (two strands may be caught at one stitch),
//! and each is solved by itself: dynamic programming over its stitches.

use crate::ground::units::Number;
use crate::rows::measure::{Measures, RowMeasures, YarnFloat, catches_needed};
use crate::rows::walk::{Row, Work};

/// A catch: the strand of `colour` is trapped behind the stitch in drawn column `stitch`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Catch {
    /// The strand that is caught.
    pub colour: u8,
    /// Drawn number of the stitch.
    pub stitch: Number,
    /// Place of the stitch in the worked row, from 0.
    pub at: usize,
    /// Place of the float's first stitch in the worked row, from 0.
    pub from: usize,
    /// Place of the stitch in its float, from 0 and from the float's first stitch.
    pub place: usize,
    /// Stitches of the float.
    pub of: usize,
}

/// The plan: for each worked row its catches, sorted by stitch, then by the colour's name.
#[must_use]
pub fn plan(work: &Work<'_>, measures: &Measures) -> Vec<Vec<Catch>> {
    let mut plan: Vec<Vec<Catch>> = Vec::with_capacity(work.rows.len());
    for (index, (row, row_measures)) in work.rows.iter().zip(&measures.rows).enumerate() {
        if !row_measures.over {
            plan.push(Vec::new());
            continue;
        }
        let beneath = Beneath {
            shaped: index
                .checked_sub(1)
                .and_then(|i| work.rows.get(i))
                .map(|r| shaped_columns(work, r))
                .unwrap_or_default(),
            caught: columns(index.checked_sub(1).and_then(|i| plan.get(i))),
            caught_lower: columns(index.checked_sub(2).and_then(|i| plan.get(i))),
        };
        let mut catches: Vec<Catch> = Vec::new();
        for float in &row_measures.floats {
            if catches_needed(float.stitches, work.limit) > 0 {
                catches.extend(best(work, row, float, &beneath));
            }
        }
        catches.sort_by(|a, b| {
            let name = |c: &Catch| work.colours.get(usize::from(c.colour));
            a.stitch.cmp(&b.stitch).then_with(|| name(a).cmp(&name(b)))
        });
        plan.push(catches);
    }
    plan
}

fn columns(catches: Option<&Vec<Catch>>) -> Vec<Number> {
    catches
        .map(|c| c.iter().map(|catch| catch.stitch).collect())
        .unwrap_or_default()
}

fn shaped_columns(work: &Work<'_>, row: &Row) -> Vec<Number> {
    if !row.shaping {
        return Vec::new();
    }
    let marks = work.marks(row).iter().zip(work.drawn(row));
    marks
        .filter(|(mark, _)| mark.is_shaping())
        .map(|(_, column)| *column)
        .collect()
}

/// What lies under the row that is being planned, in drawn columns.
struct Beneath {
    shaped: Vec<Number>,
    caught: Vec<Number>,
    caught_lower: Vec<Number>,
}

impl Beneath {
    /// Whether a catch in this column would stand on a catch or a shaping stitch of the row beneath.
    fn carries(&self, column: Number) -> bool {
        self.caught.contains(&column) || self.shaped.contains(&column)
    }

    /// Whether a catch in this column would be near another.
    fn is_near(&self, column: Number, row: &Row) -> bool {
        let last = row.last_column.saturating_sub(1);
        let beside = |other: &Number| {
            let (low, high) = (column.min(*other).index(), column.max(*other).index());
            high - low == 1 || (row.closed && high > low && low == 0 && high == last)
        };
        self.caught.iter().any(beside) || self.caught_lower.contains(&column)
    }
}

/// What is minimised for one float, in turn.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
struct Cost {
    standing: usize,
    catches: usize,
    at_ends: usize,
    near: usize,
    squares: usize,
    columns: Vec<Number>,
}

/// The best catches for one float.
fn best(work: &Work<'_>, row: &Row, float: &YarnFloat, beneath: &Beneath) -> Vec<Catch> {
    let length = work.cells(row).len();
    let at = |p: usize| (float.from + p) % length;
    let column = |p: usize| {
        let drawn = work.drawn(row).get(at(p)).copied();
        drawn.unwrap_or(Number::FIRST)
    };
    let shapes = |p: usize| work.marks(row).get(at(p)).is_some_and(|m| m.is_shaping());
    // The cheapest way to have caught last at stitch p of the float, given the way to the catch before and the stitches
    // that are free between the two; and where its catches lie.
    let step = |before: Option<&(Cost, Vec<usize>)>, p: usize, free: usize| {
        let (mut cost, mut places) = before.cloned().unwrap_or_default();
        let column = column(p);
        cost.standing += usize::from(shapes(p) || beneath.carries(column));
        cost.catches += 1;
        cost.at_ends += usize::from(p == 0 || p + 1 == float.stitches);
        cost.near += usize::from(beneath.is_near(column, row));
        cost.squares += free * free;
        let place = cost.columns.partition_point(|&c| c <= column);
        cost.columns.insert(place, column);
        places.push(p);
        (cost, places)
    };
    let mut table: Vec<(Cost, Vec<usize>)> = Vec::with_capacity(float.stitches);
    for p in 0..float.stitches {
        let first = (p <= work.limit).then(|| step(None, p, p));
        let from = p.saturating_sub(work.limit + 1);
        let later = (from..p).filter_map(|q| Some(step(Some(table.get(q)?), p, p - q - 1)));
        // Some catch always is near enough: the stitch before is.
        if let Some(cheapest) = first.into_iter().chain(later).min_by(|a, b| a.0.cmp(&b.0)) {
            table.push(cheapest);
        }
    }
    let last = table.into_iter().enumerate();
    let last = last.skip(float.stitches.saturating_sub(work.limit + 1));
    let finished = last.map(|(p, (mut cost, places))| {
        let free = float.stitches - 1 - p;
        cost.squares += free * free;
        (cost, places)
    });
    let cheapest = finished.min_by(|a, b| a.0.cmp(&b.0));
    let places = cheapest.map(|(_, places)| places).unwrap_or_default();
    let catch = |place: usize| Catch {
        colour: float.colour,
        stitch: column(place),
        at: at(place),
        from: float.from,
        place,
        of: float.stitches,
    };
    places.into_iter().map(catch).collect()
}

/// The longest stretch that a strand runs free once all catches of the plan are made, in stitches.
#[must_use]
pub fn longest_free(work: &Work<'_>, measures: &Measures, plan: &[Vec<Catch>]) -> usize {
    let mut longest = 0;
    for ((row, measures), plan) in work.rows.iter().zip(&measures.rows).zip(plan) {
        let length = work.cells(row).len().max(1);
        for float in &measures.floats {
            let mut free = 0;
            for i in 0..float.stitches {
                let at = (float.from + i) % length;
                if plan.iter().any(|c| c.colour == float.colour && c.at == at) {
                    free = 0;
                } else {
                    free += 1;
                    longest = longest.max(free);
                }
            }
        }
    }
    longest
}

/// Why stitches of a colour are better worked over afterwards than carried to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WorkOver {
    /// One stitch of it in so many.
    Alone(usize),
    /// A float of so many stitches that would be caught so often.
    Caught(usize, usize),
}

/// More catches than this in one float show more than the stitches are worth (common practice, no source).
const MOST_CATCHES: usize = 3;
/// A single stitch in more than so many is not worth its strand (common practice, no source).
const ALONE_IN: usize = 15;

/// Colours of a row that are better worked over afterwards, each once, by index. None where nothing is over the limit.
#[must_use]
pub fn worked_over(work: &Work<'_>, row: &Row, measures: &RowMeasures) -> Vec<(u8, WorkOver)> {
    if !measures.over {
        return Vec::new();
    }
    let cells = work.cells(row);
    let mut found: Vec<(u8, WorkOver)> = Vec::new();
    for float in &measures.floats {
        let catches = catches_needed(float.stitches, work.limit);
        let used = cells.iter().filter(|cell| **cell == float.colour).count();
        let reason = if catches > 0 && used == 1 && cells.len() > ALONE_IN {
            Some(WorkOver::Alone(cells.len()))
        } else if catches > MOST_CATCHES && 2 * used < cells.len() {
            Some(WorkOver::Caught(float.stitches, catches))
        } else {
            None
        };
        if let Some(reason) = reason
            && !found.iter().any(|(colour, _)| *colour == float.colour)
        {
            found.push((float.colour, reason));
        }
    }
    found.sort_by_key(|(colour, _)| *colour);
    found
}
