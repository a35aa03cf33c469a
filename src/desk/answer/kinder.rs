//! What would make a chart kinder: fewer long floats, rows for rest, a plan of catches. Shown before it is taken.

use serde_json::{Value, json};

use crate::course::Lesson;
use crate::course::chart::Chart;
use crate::desk::answer::chart::ChartOnDesk;
use crate::desk::numbers::tenth;
use crate::desk::present::Present;
use crate::desk::refusal::Refusal;
use crate::desk::state::Desk;
use crate::ground::units::round_half_up;
use crate::rows::tame::{Recoloured, Request, rest_after, tame};
use crate::study::{self, Studied};
use crate::words::{catch_proposal, rest_proposal, shorter_proposal};

/// Rows on end after which a row for rest is proposed.
const REST_AFTER: [usize; 2] = [6, 4];

/// How hard a chart is, for before and after.
#[derive(Clone, Copy)]
struct Stand {
    grade: f64,
    step: Option<f64>,
    longest: usize,
}

impl Stand {
    fn of(present: &Present, lesson: Option<&Lesson>, bare: &Studied<'_>) -> Self {
        let course = present.course();
        let graded = lesson.map(|lesson| (lesson, study::lesson(lesson, course)));
        let stands = graded
            .as_ref()
            .and_then(|(lesson, graded)| present.standing(&lesson.id, graded));
        Self {
            grade: graded.map_or(bare.grade.grade, |(_, graded)| graded.grade.grade),
            step: stands.map(|placed| placed.step.size),
            longest: bare.measures.floats.longest,
        }
    }

    fn answer(self) -> Value {
        json!({"grade": tenth(self.grade), "step": self.step.map(tenth), "longest": self.longest})
    }
}

/// The proposals for a chart, the best first.
///
/// # Errors
/// When there is no such chart, or it has faults.
pub(in crate::desk) fn kinder(
    desk: &Desk,
    id: &str,
    wanted: Option<&str>,
) -> Result<Value, Refusal> {
    let draft = desk.draft(id)?;
    let present = desk.last_present();
    let read = ChartOnDesk::read(id, &draft.text, wanted, &present);
    let on_desk = read.ok_or_else(|| Refusal::unknown("chart", id))?;
    let Some(chart) = &on_desk.text.chart else {
        return Err(Refusal::cannot("the chart has faults; mend them first"));
    };
    let bare = on_desk.bare(chart);
    let lesson = on_desk.lesson.as_ref().filter(|_| on_desk.in_lesson);
    let now = Stand::of(&present, lesson, &bare);
    let mut found: Vec<(f64, Value)> = Vec::new();
    for (other, what) in shorter(chart, &bare).into_iter().chain(rests(chart)) {
        let lesson = lesson.map(|lesson| {
            lesson.with_charts(&mut |old| (old.id == other.id).then(|| other.clone()))
        });
        let after = Stand::of(&present, lesson.as_ref(), &on_desk.bare(&other));
        // What a rounded figure does not show is no kindness.
        let (was, is) = (round_half_up(now.grade, 1), round_half_up(after.grade, 1));
        if is < was {
            found.push((after.grade, proposal(&other, what, after)));
        }
    }
    found.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    let mut proposals: Vec<Value> = found.into_iter().map(|(_, proposal)| proposal).collect();
    proposals.dedup_by(|a, b| a["rows"] == b["rows"]);
    proposals.extend(catches(&bare, now));
    Ok(json!({"format": "yokeward/desk/1", "now": now.answer(), "proposals": proposals}))
}

/// Up to four charts are tamed for one answer, while somebody waits.
const KINDER_SHARE: usize = 6;

/// What was done to a chart.
enum What {
    /// Cells recoloured, so that floats are shorter.
    Recoloured(Vec<Recoloured>),
    /// Plain rows put in, by their numbers from 1.
    Rests(Vec<usize>, usize),
}

fn shorter(chart: &Chart, bare: &Studied<'_>) -> Vec<(Chart, What)> {
    let floats = &bare.measures.floats;
    let mut goals = vec![floats.longest.saturating_sub(1), floats.limit];
    goals.retain(|goal| *goal > 0 && *goal < floats.longest);
    goals.dedup();
    let each = goals.into_iter().filter_map(|longest| {
        let request = Request {
            longest,
            mirror: false,
            keep_edges: false,
            share: KINDER_SHARE,
        };
        // A mirrored chart stays mirrored where it can.
        let mirrored = Request {
            mirror: true,
            ..request
        };
        let tamed = tame(chart, mirrored)
            .or_else(|_| tame(chart, request))
            .ok()?;
        (!tamed.cells.is_empty()).then_some((tamed.chart, What::Recoloured(tamed.cells)))
    });
    each.collect()
}

fn rests(chart: &Chart) -> Vec<(Chart, What)> {
    let each = REST_AFTER.into_iter().map(|after| {
        let (rested, rows) = rest_after(chart, after);
        (rested, What::Rests(rows, after))
    });
    each.filter(|(_, what)| !matches!(what, What::Rests(rows, _) if rows.is_empty()))
        .collect()
}

fn proposal(chart: &Chart, what: What, after: Stand) -> Value {
    let rows: Vec<String> = (0..chart.height)
        .rev()
        .map(|row| chart.drawn_line(row))
        .collect();
    let letter = |ink: u8| chart.inks.get(usize::from(ink)).map(|ink| ink.letter);
    let (kind, (title, why), cells) = match what {
        What::Recoloured(cells) => {
            let words = shorter_proposal(cells.len(), after.longest);
            let cells = cells.iter().map(|cell| {
                json!({
                    "row": cell.row + 1,
                    "stitch": cell.column + 1,
                    "from": letter(cell.from),
                    "to": letter(cell.to),
                })
            });
            ("recolour", words, cells.collect::<Vec<_>>())
        }
        What::Rests(rows, after) => ("plain", rest_proposal(&rows, after), Vec::new()),
    };
    json!({
        "kind": kind,
        "title": title,
        "why": why,
        "rows": rows,
        "cells": cells,
        "catches": [],
        "edits": edits(chart, &rows),
        "after": after.answer(),
    })
}

/// The changes of the file that make the chart this one.
fn edits(chart: &Chart, rows: &[String]) -> Value {
    let lines = |lines: &[String]| {
        lines
            .iter()
            .map(|line| format!("{line}\n"))
            .collect::<String>()
    };
    let mut edits = vec![json!({"at": ["rows"], "block": lines(rows)})];
    if chart.declares_rows {
        let range = &chart.repeat_rows;
        let range = format!("{}-{}", range.start + 1, range.end);
        edits.push(json!({"at": ["repeat", "rows"], "text": range}));
    }
    if chart.marks.is_some() {
        let marks: Vec<String> = (0..chart.height)
            .rev()
            .map(|row| {
                let columns = (0..chart.width).rev();
                columns
                    .map(|column| chart.mark(row, column).to_char())
                    .collect()
            })
            .collect();
        edits.push(json!({"at": ["shaping"], "block": lines(&marks)}));
    }
    json!(edits)
}

/// The plan of catches, where any float asks for one.
fn catches(bare: &Studied<'_>, now: Stand) -> Option<Value> {
    let rows = bare.work.rows.iter().zip(bare.plan());
    let catches: Vec<Value> = rows
        .flat_map(|(row, catches)| {
            let drawn = row.origin.drawn.map(|drawn| drawn.row.get());
            catches.iter().map(move |catch| {
                let letter = bare.work.colours.get(usize::from(catch.colour));
                json!({"row": drawn, "letter": letter, "stitch": catch.stitch.get()})
            })
        })
        .collect();
    if catches.is_empty() {
        return None;
    }
    let (title, why) = catch_proposal(catches.len(), bare.measures.floats.limit);
    Some(json!({
        "kind": "catch",
        "title": title,
        "why": why,
        "rows": null,
        "cells": [],
        "edits": [],
        "catches": catches,
        "after": now.answer(),
    }))
}
