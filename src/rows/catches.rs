//! Where to catch each float that is over the limit: an exact plan, row by row from the bottom.
//!
//! Minimised in turn: catches; catches on a shaping stitch or straight above one; catches that stand above another
//! (same column in one of the two rows beneath, or a neighbouring column in the row beneath); the sum of squared free
//! spans; the row's sorted list of (stitch, colour). Floats of a row do not bear on each other (two strands may be
//! caught at one stitch, and a sorted list grows smaller when any part of it does), so each float is solved by itself:
//! dynamic programming over its stitches.

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
            caught: columns(plan.last()),
            caught_lower: columns(index.checked_sub(2).and_then(|i| plan.get(i))),
        };
        let mut catches: Vec<Catch> = Vec::new();
        for float in &row_measures.floats {
            let needed = catches_needed(float.stitches, work.limit);
            if needed > 0 {
                catches.extend(best(work, row, float, needed, &beneath));
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
    /// Whether a catch here stands above another.
    fn stands_above(&self, column: Number, row: &Row) -> bool {
        let last = row.last_column.saturating_sub(1);
        let neighbours = |a: Number, b: Number| {
            let (low, high) = (a.min(b).index(), a.max(b).index());
            high - low == 1 || (row.closed && high > low && low == 0 && high == last)
        };
        self.caught
            .iter()
            .any(|&c| c == column || neighbours(c, column))
            || self.caught_lower.contains(&column)
    }
}

/// What is minimised for one float, in turn.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Cost {
    on_shaping: usize,
    above_another: usize,
    squares: usize,
    columns: Vec<Number>,
}

/// The best `needed` catches for one float.
fn best(
    work: &Work<'_>,
    row: &Row,
    float: &YarnFloat,
    needed: usize,
    beneath: &Beneath,
) -> Vec<Catch> {
    let length = work.cells(row).len();
    let place = |p: usize| (float.from + p) % length;
    let drawn = |p: usize| {
        work.drawn(row)
            .get(place(p))
            .copied()
            .unwrap_or(Number::FIRST)
    };
    let limit = work.limit;
    let cost_of = |p: usize| {
        let column = drawn(p);
        let shaping = work
            .marks(row)
            .get(place(p))
            .is_some_and(|mark| mark.is_shaping());
        let on_shaping = usize::from(shaping || beneath.shaped.contains(&column));
        (
            on_shaping,
            usize::from(beneath.stands_above(column, row)),
            column,
        )
    };
    if needed == 1 {
        // The usual case needs no table.
        let reach = float.stitches.saturating_sub(limit + 1)..=limit.min(float.stitches - 1);
        let best = reach.min_by_key(|&p| {
            let (on_shaping, above, column) = cost_of(p);
            let after = float.stitches - 1 - p;
            (on_shaping, above, p * p + after * after, column)
        });
        let found = best.map(|p| Catch {
            colour: float.colour,
            stitch: drawn(p),
            at: place(p),
        });
        return found.into_iter().collect();
    }
    // table[p]: cheapest way to have caught `count` times with the last catch at stitch p of the float (from 0),
    // and where those catches lie.
    type Entry = Option<(Cost, Vec<usize>)>;
    let step = |before: Option<&(Cost, Vec<usize>)>, p: usize, free: usize| {
        let (on_shaping, above, column) = cost_of(p);
        let (mut cost, mut places) = before.cloned().unwrap_or((
            Cost {
                on_shaping: 0,
                above_another: 0,
                squares: 0,
                columns: Vec::new(),
            },
            Vec::new(),
        ));
        cost.on_shaping += on_shaping;
        cost.above_another += above;
        cost.squares += free * free;
        let at = cost.columns.partition_point(|&c| c <= column);
        cost.columns.insert(at, column);
        places.push(p);
        (cost, places)
    };
    let mut table: Vec<Entry> = (0..float.stitches)
        .map(|p| (p <= limit).then(|| step(None, p, p)))
        .collect();
    for _ in 1..needed {
        let next: Vec<Entry> = (0..float.stitches)
            .map(|p| {
                let from = p.saturating_sub(limit + 1);
                let ways = (from..p)
                    .filter_map(|q| Some(step(Some(table.get(q)?.as_ref()?), p, p - q - 1)));
                ways.min_by(|a, b| a.0.cmp(&b.0))
            })
            .collect();
        table = next;
    }
    let finished = table.into_iter().enumerate().filter_map(|(p, entry)| {
        let free = float.stitches - 1 - p;
        let (mut cost, places) = entry.filter(|_| free <= limit)?;
        cost.squares += free * free;
        Some((cost, places))
    });
    let places = finished
        .min_by(|a, b| a.0.cmp(&b.0))
        .map(|(_, places)| places)
        .unwrap_or_default();
    places
        .into_iter()
        .map(|p| Catch {
            colour: float.colour,
            stitch: drawn(p),
            at: place(p),
        })
        .collect()
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
