//! How hard a thing is, why, and where it would stand.

use serde_json::{Value, json};

use crate::course::Part;
use crate::desk::numbers::{fraction, tenth};
use crate::path::Placed;
use crate::report::entry;
use crate::rows::grade::Cause;
use crate::study::Studied;
use crate::words::{RowNames, against_looks, cause_text, part_name};

/// What is measured: a chart by itself, whose rows are told, and what is graded, the same or a lesson that uses it.
pub(super) struct Measured<'a> {
    /// What is graded.
    pub graded: &'a Studied<'a>,
    /// What its rows and colours are called.
    pub names: &'a RowNames,
    /// What the rows are of, and its id.
    pub rows: (&'a str, &'a Studied<'a>),
    /// Where it would stand; nothing for what no lesson uses.
    pub stands: Option<&'a Placed>,
}

impl Measured<'_> {
    /// The answer.
    pub(super) fn answer(&self) -> Value {
        let a = self.graded;
        let parts = Part::ALL.into_iter().zip(&a.grade.causes);
        let parts: serde_json::Map<String, Value> = parts
            .map(|(part, cause)| (part.name().to_owned(), self.part(part, cause)))
            .collect();
        let (id, bare) = self.rows;
        let step = self.stands.map(|placed| tenth(placed.step.size));
        json!({
            "grade": tenth(a.grade.grade),
            "level": a.grade.level.name(),
            "busyness": tenth(a.measures.busyness),
            "looks": against_looks(a.grade.grade, a.measures.busyness),
            "parts": parts,
            "techniques": a.grade.techniques,
            "measure": entry(id, &bare.work, &bare.measures, &bare.grade, None, None),
            "perRow": per_row(bare),
            "step": step,
        })
    }

    fn part(&self, part: Part, cause: &Cause) -> Value {
        let (a, at) = (self.graded, part.index());
        // The row of this chart, where the cause lies in it.
        let row = cause.row.and_then(|row| a.work.rows.get(row.index()));
        let row = row.and_then(|row| row.origin.drawn);
        let own = |chart: usize| a.work.charts.get(chart).is_some_and(|id| id == self.rows.0);
        let row = row.filter(|drawn| own(drawn.chart));
        json!({
            "title": part_name(part, cause, self.names.wording),
            "value": fraction(a.grade.parts[at]),
            "points": tenth(a.grade.points[at]),
            "cause": cause_text(part, cause, self.names),
            "row": row.map(|drawn| drawn.row.get()),
            "met": self.stands.map(|placed| fraction(placed.before.parts[at])),
        })
    }
}

/// Each row of a chart with what it asks.
fn per_row(a: &Studied<'_>) -> Value {
    let letter = |colour: u8| a.work.colours.get(usize::from(colour)).cloned();
    let limit = a.measures.floats.limit;
    let plan = a.plan();
    let each = a.work.rows.iter().zip(&a.measures.rows).enumerate();
    let each = each.map(|(index, (row, m))| {
        let longest = m.floats.iter().map(|float| float.stitches).max();
        let long = m.floats.iter().filter(|float| float.stitches > limit);
        let long = long.map(|float| {
            json!({
                "letter": letter(float.colour),
                "start": float.start.get(),
                "stitches": float.stitches,
            })
        });
        let catches = plan.get(index).map(Vec::as_slice).unwrap_or_default();
        let catches = catches
            .iter()
            .map(|catch| json!({"letter": letter(catch.colour), "stitch": catch.stitch.get()}));
        json!({
            "row": row.origin.drawn.map_or(index + 1, |drawn| drawn.row.index() + 1),
            "colours": m.colours,
            "longest": longest.unwrap_or(0),
            "over": longest.is_some_and(|longest| longest > limit),
            "looks": m.looks,
            "plain": m.colours < 2,
            "long": long.collect::<Vec<_>>(),
            "catches": catches.collect::<Vec<_>>(),
        })
    });
    each.collect()
}
