//! Charts of a handout: picture, rows in words, and silence where the right to copy is missing.

use std::borrow::Cow;

use crate::course::chart::{Chart, Rights, Worked};
use crate::course::{ChartUse, Lesson};
use crate::handout::{ChartSheet, Print};
use crate::picture::{ChartPicture, InkLook, Strand};
use crate::rows::catches::{self, Catch, WorkOver};
use crate::rows::drawn;
use crate::study::Studied;
use crate::words::{RowNames, count, list_and, row_words};

/// The sheets of a lesson's charts.
pub(super) fn sheets<'a>(
    lesson: &'a Lesson,
    studied: &Studied<'_>,
    print: &Print,
) -> Vec<ChartSheet<'a>> {
    lesson
        .charts()
        .into_iter()
        .map(|what| sheet(lesson, what, studied, print))
        .collect()
}

/// Which way a chart is read.
fn reading(worked: Worked, left_handed: bool) -> String {
    let (here, there) = if left_handed {
        ("left", "right")
    } else {
        ("right", "left")
    };
    match worked {
        Worked::Round => format!(
            "Start at the bottom {here}. Read **every round** from {here} to {there}, then go up to the next line."
        ),
        Worked::Flat => format!(
            "Start at the bottom {here}. Read odd rows (the right side) from {here} to {there}, even rows from {there} to \
             {here}. A number stands at the side where its row begins."
        ),
    }
}

fn sheet<'a>(
    lesson: &'a Lesson,
    what: &'a ChartUse,
    studied: &Studied<'_>,
    print: &Print,
) -> ChartSheet<'a> {
    // A left-handed worker meets the chart from its other end: her stitch 1 is its last.
    let chart: Cow<'a, Chart> = if print.left_handed {
        Cow::Owned(what.chart.backwards())
    } else {
        Cow::Borrowed(&*what.chart)
    };
    let column = |column: usize| {
        if print.left_handed {
            chart.width.saturating_sub(column + 1)
        } else {
            column
        }
    };
    let names = RowNames::of_lesson(lesson);
    let rights = rights_text(&chart);
    let mut sheet = ChartSheet {
        id: chart.id.clone(),
        title: chart.title.clone(),
        picture: None,
        rows: Vec::new(),
        reading: reading(lesson.worked, print.left_handed),
        has_catches: false,
        has_relief: (0..chart.height).any(|row| drawn::one_colour(&chart, row).is_some()),
        rights,
    };
    if !chart.rights.may_print() {
        return sheet;
    }
    let rows = first_rows(what, lesson, studied);
    let catches: Vec<(usize, usize)> = rows
        .iter()
        .flat_map(|(row, index)| {
            let plan = studied
                .plan()
                .get(*index)
                .map(Vec::as_slice)
                .unwrap_or_default();
            plan.iter()
                .map(|c| (*row, column(c.stitch.saturating_sub(1) as usize)))
        })
        .collect();
    sheet.has_catches = !catches.is_empty();
    sheet.rows = (0..chart.height)
        .map(|row| {
            let yarn = |ink: u8| {
                let yarn = what
                    .yarns
                    .get(usize::from(ink))
                    .and_then(|&i| lesson.yarns.get(i));
                yarn.map(|y| y.name.clone()).unwrap_or_default()
            };
            let mut words = row_words(&chart, row, lesson.worked, &yarn);
            if let Some((_, index)) = rows.iter().find(|(r, _)| *r == row) {
                let plan = studied.plan().get(*index).map(Vec::as_slice);
                let live = drawn::columns_standing(&chart, row).count() == chart.width;
                // Where no-stitch cells stand between, the chart's numbers are not those of the stitches worked.
                let worked = studied
                    .work
                    .rows
                    .get(*index)
                    .map(|row| studied.work.cells(row).len());
                let number = |c: &Catch| {
                    if live {
                        column(c.stitch.saturating_sub(1) as usize) + 1
                    } else if print.left_handed {
                        worked.unwrap_or(0).saturating_sub(c.at)
                    } else {
                        c.at + 1
                    }
                };
                words.push_str(&catch_words(
                    plan.unwrap_or_default(),
                    &names,
                    live,
                    &number,
                ));
                words.push_str(&work_over_words(studied, *index, &names));
            }
            (format!("{} {}", names.line_title(), row + 1), words)
        })
        .collect();
    sheet.picture = Some(ChartPicture {
        looks: looks(what, lesson),
        aspect: lesson.colourwork.gauge.stitches / lesson.colourwork.gauge.rows,
        worked: lesson.worked,
        catches,
        strands: strands(&rows, studied, print.left_handed, &column),
        changed: Vec::new(),
        fills: !print.black,
        large: print.large,
        from_left: print.left_handed,
        alt: alt(&chart, what, lesson, &names),
        chart,
    });
    sheet
}

/// Where each row of the chart is first worked in the lesson: chart row and index among the measured rows.
fn first_rows(what: &ChartUse, lesson: &Lesson, studied: &Studied<'_>) -> Vec<(usize, usize)> {
    let work = &studied.work;
    let band = lesson.bands.iter().position(|band| match band {
        crate::course::Band::Chart { what: used, .. } => {
            used.chart.id == what.chart.id && used.yarns == what.yarns
        }
        _ => false,
    });
    let Some(band) = band else { return Vec::new() };
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (index, row) in work.rows.iter().enumerate() {
        let chart_row = row.origin.chart_row;
        if row.origin.band == band + 1
            && chart_row > 0
            && !found.iter().any(|(r, _)| *r == chart_row - 1)
        {
            found.push((chart_row - 1, index));
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
                        .map(|d| column(d.saturating_sub(1) as usize))
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

/// What is better not carried at all in this row, and why.
fn work_over_words(studied: &Studied<'_>, index: usize, names: &RowNames) -> String {
    let work = &studied.work;
    let (Some(row), Some(measures)) = (work.rows.get(index), studied.measures.rows.get(index))
    else {
        return String::new();
    };
    catches::worked_over(work, row, measures)
        .into_iter()
        .map(|(colour, why)| {
            let name = names.colour(colour);
            let line = names.line;
            match why {
                WorkOver::Alone(of) => format!(
                    ". Or leave {name} out of this {line} and work its one stitch over afterwards: one in {of} is not \
                     worth a strand"
                ),
                WorkOver::Caught(stitches, catches) => format!(
                    ". Or leave {name} out of this {line} and work its stitches over afterwards: a strand past {stitches} \
                     would be caught {catches} times, which shows"
                ),
            }
        })
        .collect()
}

/// `; catch Fleece behind stitches 4 and 9`.
fn catch_words(
    plan: &[Catch],
    names: &RowNames,
    live: bool,
    number: &dyn Fn(&Catch) -> usize,
) -> String {
    let mut colours: Vec<u8> = plan.iter().map(|c| c.colour).collect();
    colours.sort_unstable();
    colours.dedup();
    colours
        .into_iter()
        .map(|colour| {
            let mut stitches: Vec<usize> = plan
                .iter()
                .filter(|c| c.colour == colour)
                .map(number)
                .collect();
            stitches.sort_unstable();
            stitches.dedup();
            let word = match (stitches.len(), live) {
                (1, true) => "stitch",
                (1, false) => "worked stitch",
                (_, true) => "stitches",
                (_, false) => "worked stitches",
            };
            format!(
                ". Catch {} behind {word} {}",
                names.colour(colour),
                list_and(&stitches)
            )
        })
        .collect()
}

fn looks(what: &ChartUse, lesson: &Lesson) -> Vec<InkLook> {
    what.yarns
        .iter()
        .map(|&yarn| lesson.yarns.get(yarn))
        .map(|yarn| InkLook {
            name: yarn.map(|y| y.name.clone()).unwrap_or_default(),
            rgb: yarn.map(|y| y.rgb).unwrap_or_default(),
        })
        .collect()
}

/// Looks of a chart's inks in the first lesson that uses it; greys for a chart that no lesson uses.
#[must_use]
pub fn looks_anywhere(chart: &Chart, course: &crate::course::Course) -> Vec<InkLook> {
    let mut lessons = course.lessons.iter();
    let used = lessons.find_map(|lesson| {
        let uses = lesson.charts();
        let what = uses.into_iter().find(|what| what.chart.id == chart.id)?;
        Some(looks(what, lesson))
    });
    used.unwrap_or_else(|| grey_looks(chart))
}

/// Greys for the roles of a chart that has no yarns.
#[must_use]
pub fn grey_looks(chart: &Chart) -> Vec<InkLook> {
    // Light, dark, then between: neighbours in the list lie far apart.
    const GREYS: [u8; 5] = [245, 60, 150, 200, 105];
    let inks = chart.inks.iter().zip(GREYS.iter().cycle());
    inks.map(|(ink, grey)| InkLook {
        name: ink.role.clone(),
        rgb: [*grey; 3],
    })
    .collect()
}

fn alt(chart: &Chart, what: &ChartUse, lesson: &Lesson, names: &RowNames) -> String {
    let colours: Vec<String> = looks(what, lesson)
        .into_iter()
        .map(|look| look.name)
        .collect();
    format!(
        "Chart {}: {} by {}, in {}. The same is said under “The {} in words”.",
        chart.title,
        count(chart.width, "stitch", "stitches"),
        count(chart.height, names.line, names.lines),
        crate::words::join_and(&colours),
        names.lines,
    )
}

/// Rights and source of a chart in a sentence.
pub(super) fn rights_text(chart: &Chart) -> String {
    let rights = match &chart.rights {
        Rights::Own => "own work, free to copy for your class".to_owned(),
        Rights::PublicDomain => "in the public domain".to_owned(),
        Rights::Permission { from, scope } => format!("by permission of {from}, for {scope} use"),
        Rights::ReferenceOnly => {
            "not ours to copy: please bring your own copy of the chart".to_owned()
        }
    };
    let source = chart.source.as_deref().unwrap_or("").trim();
    let stop = if source.is_empty() || source.ends_with(['.', '!', '?']) {
        ""
    } else {
        "."
    };
    format!("Chart “{}”: {rights}. {source}{stop}", chart.title)
        .trim_end()
        .to_owned()
}
