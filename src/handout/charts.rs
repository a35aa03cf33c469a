//! Charts of a handout: picture, rows in words, and silence where the right to copy is missing.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::ops::Range;

use crate::course::Reads;
use crate::course::chart::Chart;
use crate::course::{Band, ChartUse, Lesson};
use crate::handout::looks::looks;
use crate::handout::{ChartSheet, Print, RowWords};
use crate::picture::{ChartPicture, Strand, WIDEST};
use crate::rows::catches::Catch;
use crate::rows::drawn::rows_worked;
use crate::rows::traps::{Edges, Trap, traps};
use crate::study::Studied;
use crate::words::{
    Catching, CraftWords, RowNames, UPSIDE_DOWN, Wording, catching, chart_alt, passes_words,
    reading, rights_text, row_words, trap_tag, trap_words, work_over_words,
};

/// The sheets of a lesson's charts.
pub(super) fn sheets<'a>(
    lesson: &'a Lesson,
    studied: &Studied<'_>,
    print: &Print,
    wording: Wording,
) -> Vec<ChartSheet<'a>> {
    let mut told = BTreeSet::new();
    lesson
        .charts()
        .into_iter()
        .map(|what| {
            let (mut sheet, asked) = sheet(lesson, what, studied, print, wording);
            sheet.catching = catching(&asked.difference(&told).copied().collect());
            told.extend(asked);
            sheet
        })
        .collect()
}

fn sheet<'a>(
    lesson: &'a Lesson,
    what: &'a ChartUse,
    studied: &Studied<'_>,
    print: &Print,
    wording: Wording,
) -> (ChartSheet<'a>, BTreeSet<Catching>) {
    // A left-handed worker meets the chart from its other end: her stitch 1 is its last.
    let chart: Cow<'a, Chart> = if print.is_left_handed() {
        Cow::Owned(what.chart.backwards())
    } else {
        Cow::Borrowed(&*what.chart)
    };
    let column = |column: usize| {
        if print.is_left_handed() {
            chart.width.saturating_sub(column + 1)
        } else {
            column
        }
    };
    let names = RowNames::of_lesson(lesson, wording);
    let rights = rights_text(&chart);
    let mut sheet = ChartSheet {
        id: chart.id.clone(),
        title: chart.title.clone(),
        picture: None,
        rows: Vec::new(),
        reading: read_so(lesson, wording),
        has_catches: false,
        catching: String::new(),
        rights,
    };
    if !chart.rights.may_print() {
        return (sheet, BTreeSet::new());
    }
    let rows = first_rows(what, lesson, studied);
    let catches = caught(&rows, studied, &column);
    sheet.has_catches = !catches.is_empty();
    let mut asked = asked(&chart, &rows, studied);
    let mut tags = Vec::new();
    // Of the chart as it was drawn, whichever hand reads it.
    let edges = what
        .chart
        .has_edges()
        .then_some(&what.chart.repeat_stitches);
    let label = |row: usize| format!("{} {}", names.line_title(), row + 1);
    let told = if lesson.craft.has_rows() {
        chart.height
    } else {
        0
    };
    let worked = times_worked(what, lesson);
    sheet.rows = (0..told)
        .map(|row| {
            let yarn = |ink: u8| yarn_name(lesson, what, ink);
            let leans = CraftWords::of(lesson, wording).leans(print.hand);
            let first = rows
                .iter()
                .find(|(r, _)| *r == row)
                .map(|(_, index)| *index);
            let traps = first.map_or_else(Vec::new, |index| {
                traps_of(
                    studied,
                    index,
                    (row, lesson.reads(), edges),
                    print.is_left_handed(),
                )
            });
            // Where catches differ from one repeat of the row to the next, the row is told as far as they do.
            let whole = traps.iter().any(Trap::varies);
            let mut words = row_words(&chart, (row, lesson.reads()), (&yarn, &leans), whole);
            if let Some(index) = first {
                let repeats = studied.work.rows.get(index).is_some_and(|r| r.repeats > 1);
                if let Some(trapping) = trap_words(&traps, repeats, &names) {
                    words = format!("{trapping}: {words}");
                }
                asked.extend((whole && edges.is_some()).then_some(Catching::Varying));
                tags.extend(trap_tag(&traps, edges.is_some()).map(|tag| (row, tag)));
                words.push_str(&work_over_words(studied, index, &names));
            }
            let words = match lesson.reads() {
                Reads::ForwardAndReturn => passes_words(&words, names.wording),
                _ => format!("{}{words}", names.way_back(row).unwrap_or_default()),
            };
            RowWords {
                label: label(row),
                words,
                boxes: worked.get(row).copied().unwrap_or(0),
            }
        })
        .collect();
    let numbered = tags
        .iter()
        .any(|(_, tag): &(usize, String)| tag.contains('×'));
    asked.extend(numbered.then_some(Catching::Numbered));
    let strands = strands(&rows, studied, print.is_left_handed(), &column);
    sheet.picture = Some(ChartPicture {
        catches,
        tags,
        strands: if_calm(strands, chart.height),
        ..picture(lesson, what, chart, (print, wording))
    });
    (sheet, asked)
}

/// The picture of a chart, without what is told of its rows.
fn picture<'a>(
    lesson: &Lesson,
    what: &ChartUse,
    chart: Cow<'a, Chart>,
    (print, wording): (&Print, Wording),
) -> ChartPicture<'a> {
    let looks = looks(what, lesson);
    let yarns: Vec<String> = looks.iter().map(|look| look.name.clone()).collect();
    let names = RowNames::of_lesson(lesson, wording);
    ChartPicture {
        alt: chart_alt(&chart, lesson.reads(), &yarns, &names),
        looks,
        aspect: lesson.colourwork.gauge.stitches / lesson.colourwork.gauge.rows,
        reads: lesson.reads(),
        one_colour_row: CraftWords::of(lesson, wording).one_colour_row(),
        catches: Vec::new(),
        tags: Vec::new(),
        strands: Vec::new(),
        changed: Vec::new(),
        fills: !print.is_black(),
        large: print.is_large(),
        from_left: print.is_left_handed(),
        widest: WIDEST,
        turned: false,
        chart,
    }
}

/// Strands of a chart that stays calm with them: where more than one row in three has any, marks alone say as much.
fn if_calm(strands: Vec<Strand>, rows: usize) -> Vec<Strand> {
    let stranded: BTreeSet<usize> = strands.iter().map(|strand| strand.row).collect();
    match stranded.len() * 3 <= rows {
        true => strands,
        false => Vec::new(),
    }
}

/// What the yarn of an ink is called.
fn yarn_name(lesson: &Lesson, what: &ChartUse, ink: u8) -> String {
    let place = what.yarns.get(usize::from(ink));
    let yarn = place.and_then(|&place| lesson.yarns.get(place));
    yarn.map(|yarn| yarn.name.clone()).unwrap_or_default()
}

/// Which way a chart is read, and how the fabric differs from its picture.
fn read_so(lesson: &Lesson, wording: Wording) -> String {
    let drift = CraftWords::of(lesson, wording).drift();
    let drift = drift.map_or_else(String::new, |drift| format!(" {drift}"));
    let turned = if lesson.crown_first { UPSIDE_DOWN } else { "" };
    reading(lesson.reads(), wording) + turned + &drift
}

/// What is to be said of a chart's catches, but that places differ.
fn asked(chart: &Chart, rows: &[(usize, usize)], studied: &Studied<'_>) -> BTreeSet<Catching> {
    let plans = rows
        .iter()
        .filter_map(|(_, index)| studied.plan().get(*index));
    let any = |is: fn(&[Catch]) -> bool| plans.clone().any(|plan| is(plan));
    let caught = any(|plan| !plan.is_empty());
    [
        (caught, Catching::Stretches),
        (caught && chart.is_shaped(), Catching::Decreases),
        (any(is_shared), Catching::Shared),
        (any(is_on_end), Catching::OnEnd),
    ]
    .into_iter()
    .filter_map(|(is, what)| is.then_some(what))
    .collect()
}

/// Chart row and column of each catch, as the worker counts columns.
fn caught(
    rows: &[(usize, usize)],
    studied: &Studied<'_>,
    column: &dyn Fn(usize) -> usize,
) -> Vec<(usize, usize)> {
    let plans = rows
        .iter()
        .filter_map(|(row, index)| Some((*row, studied.plan().get(*index)?)));
    plans
        .flat_map(|(row, plan)| plan.iter().map(move |c| (row, column(c.stitch.index()))))
        .collect()
}

/// Whether two strands are caught at one stitch of a row.
fn is_shared(plan: &[Catch]) -> bool {
    let other = |one: &Catch| {
        plan.iter()
            .any(|c| c.at == one.at && c.colour != one.colour)
    };
    plan.iter().any(other)
}

/// Whether a strand is caught at two stitches on end.
fn is_on_end(plan: &[Catch]) -> bool {
    let next = |one: &Catch| {
        let same = |c: &&Catch| (c.colour, c.from) == (one.colour, one.from);
        plan.iter().filter(same).any(|c| c.place == one.place + 1)
    };
    plan.iter().any(next)
}

/// The catches of a measured row in the order in which a worker comes to them; `edges` are outside this repeat.
fn traps_of(
    studied: &Studied<'_>,
    index: usize,
    (chart_row, reads, edges): (usize, Reads, Option<&Range<usize>>),
    left_handed: bool,
) -> Vec<Trap> {
    let work = &studied.work;
    let (Some(row), Some(plan)) = (work.rows.get(index), studied.plan().get(index)) else {
        return Vec::new();
    };
    let back = reads.is_back(chart_row);
    let edges = edges.map(|repeat| {
        let drawn = work.drawn(row);
        let count = |is: &dyn Fn(usize) -> bool| drawn.iter().filter(|n| is(n.index())).count();
        Edges {
            right: count(&|column| column < repeat.start),
            left: count(&|column| column >= repeat.end),
        }
    });
    traps(plan, work.cells(row), edges, back != left_handed)
}

/// Most boxes before a row in words.
const MOST_BOXES: usize = 4;

/// How often each row of the chart is worked in the lesson; nothing where that is too often for boxes.
fn times_worked(what: &ChartUse, lesson: &Lesson) -> Vec<usize> {
    let mut all = vec![0; what.chart.height];
    for band in &lesson.bands {
        let Band::Chart { what: used, times } = band else {
            continue;
        };
        if used.is_same(what) {
            for row in rows_worked(&used.chart, *times) {
                if let Some(count) = all.get_mut(row) {
                    *count += 1;
                }
            }
        }
    }
    if lesson.reads() == Reads::ForwardAndReturn {
        all.iter_mut().for_each(|count| *count *= 2);
    }
    if all.iter().any(|count| *count > MOST_BOXES) {
        return Vec::new();
    }
    all
}

/// Where each row of the chart is first worked in the lesson: chart row and index among the measured rows.
fn first_rows(what: &ChartUse, lesson: &Lesson, studied: &Studied<'_>) -> Vec<(usize, usize)> {
    let work = &studied.work;
    let band = lesson.bands.iter().position(|band| match band {
        Band::Chart { what: used, .. } => used.is_same(what),
        _ => false,
    });
    let Some(band) = band else { return Vec::new() };
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (index, row) in work.rows.iter().enumerate() {
        let drawn = row.origin.drawn.filter(|_| row.origin.band == Some(band));
        if let Some(at) = drawn.map(|drawn| drawn.row.index())
            && !found.iter().any(|(known, _)| *known == at)
        {
            found.push((at, index));
        }
    }
    found
}

/// Strands over the limit, with their columns as the worker counts them.
fn strands(
    rows: &[(usize, usize)],
    studied: &Studied<'_>,
    backwards: bool,
    column: &dyn Fn(usize) -> usize,
) -> Vec<Strand> {
    let work = &studied.work;
    let mut found: Vec<Strand> = Vec::new();
    for (chart_row, index) in rows {
        let (Some(row), Some(measures)) =
            (work.rows.get(*index), studied.measures.rows.get(*index))
        else {
            continue;
        };
        let drawn = work.drawn(row);
        let over = |stitches: usize| stitches > work.limit && !work.craft.carries_inside();
        for float in measures.floats.iter().filter(|f| over(f.stitches)) {
            // From the stitch before the float to the one after it.
            let first = float.from + drawn.len() - 1;
            let mut columns: Vec<usize> = (0..float.stitches + 2)
                .filter_map(|i| {
                    drawn
                        .get((first + i) % drawn.len())
                        .map(|d| column(d.index()))
                })
                .collect();
            if backwards {
                columns.reverse();
            }
            let strand = Strand {
                row: *chart_row,
                columns,
            };
            if !found.contains(&strand) {
                found.push(strand);
            }
        }
    }
    found
}
