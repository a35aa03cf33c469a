//! One step of the instructions for each band of a lesson.

use crate::assess::Assessed;
use crate::body::Makes;
use crate::chart::Worked;
use crate::handout::Step;
use crate::handout::steps::{all_sizes, line, verbs, yarn_name};
use crate::lesson::{AcrossPart, Band, Extent, Lesson};
use crate::sizing::SizeCount;
use crate::units::plain_number;
use crate::words::{count, number_word};

pub(super) fn is_plain_rows(band: &Band) -> bool {
    matches!(
        band,
        Band::Plain {
            extent: Extent::Rows(_),
            ..
        }
    )
}

/// Several plain bands in a row as one step: `Knit 4 rounds in Tide, 2 in Foam and 4 in Tide`.
pub(super) fn stripes(lesson: &Lesson, bands: std::ops::Range<usize>) -> Step {
    let mut parts = Vec::new();
    for (i, band) in lesson
        .bands
        .get(bands)
        .unwrap_or_default()
        .iter()
        .enumerate()
    {
        if let Band::Plain {
            extent: Extent::Rows(rows),
            yarn,
        } = band
        {
            let many = if i == 0 {
                count(*rows, line(lesson), &format!("{}s", line(lesson)))
            } else {
                rows.to_string()
            };
            parts.push(format!("{many} in {}", yarn_name(lesson, *yarn)));
        }
    }
    let text = format!(
        "{} {}.",
        verbs(lesson.craft).work,
        crate::words::join_and(&parts)
    );
    Step {
        title: "Stripes".to_owned(),
        text,
    }
}

fn extent_words(lesson: &Lesson, extent: Extent) -> String {
    match extent {
        Extent::Height(height) => format!("{} cm", plain_number(height.to_cm(), 1)),
        Extent::Rows(rows) => count(rows, line(lesson), &format!("{}s", line(lesson))),
    }
}

pub(super) fn band_step(
    lesson: &Lesson,
    band: &Band,
    sizes: &[SizeCount],
    assessed: &Assessed<'_>,
    number: usize,
    closing: Option<&str>,
) -> Option<Step> {
    let verbs = verbs(lesson.craft);
    Some(match band {
        Band::Rib {
            multiple,
            extent,
            yarn,
        } => {
            let (knit, purl) = (multiple.div_ceil(2), multiple / 2);
            let end = closing
                .map(|cast_off| format!(" Then {cast_off} loosely."))
                .unwrap_or_default();
            Step {
                title: "Rib".to_owned(),
                text: format!(
                    "In {}, knit {knit}, purl {purl} for {}.{end}",
                    yarn_name(lesson, *yarn),
                    extent_words(lesson, *extent)
                ),
            }
        }
        Band::Plain { extent, yarn } => Step {
            title: "Plain".to_owned(),
            text: match extent {
                Extent::Rows(_) => {
                    format!(
                        "{} {} in {}.",
                        verbs.work,
                        extent_words(lesson, *extent),
                        yarn_name(lesson, *yarn)
                    )
                }
                Extent::Height(_) => {
                    format!(
                        "{} on in {} for {}.",
                        verbs.work,
                        yarn_name(lesson, *yarn),
                        extent_words(lesson, *extent)
                    )
                }
            },
        },
        Band::Chart { what, times } => {
            chart_step(lesson, &what.chart, *times, sizes, assessed, number)
        }
        Band::Across(parts) => {
            let names: Vec<String> = parts
                .iter()
                .map(|part| match part {
                    AcrossPart::Chart(what, _) => format!("chart “{}”", what.chart.title),
                    AcrossPart::Plain { stitches, .. } => {
                        count(*stitches, "plain stitch", "plain stitches")
                    }
                })
                .collect();
            let text = format!(
                "In each {} work side by side, from the right: {}.",
                line(lesson),
                crate::words::join_and(&names)
            );
            Step {
                title: "Side by side".to_owned(),
                text,
            }
        }
        Band::Decrease => Step {
            title: "Narrow".to_owned(),
            text: format!(
                "In the next plain {} decrease evenly, to a number that the next chart divides. No {} loses more than \
                 half.",
                line(lesson),
                line(lesson)
            ),
        },
    })
}

fn chart_step(
    lesson: &Lesson,
    chart: &crate::chart::Chart,
    times: usize,
    sizes: &[SizeCount],
    assessed: &Assessed<'_>,
    band: usize,
) -> Step {
    let lines = if lesson.worked == Worked::Round {
        "rounds"
    } else {
        "rows"
    };
    let mut text = format!(
        "Work {lines} 1 to {} of chart “{}”",
        chart.height, chart.title
    );
    if times > 1 {
        text.push_str(&format!(", {} times over", number_word(times)));
    }
    let deciding = crate::sizing::deciding_chart(lesson).is_some_and(|d| d.id == chart.id);
    let repeats: Vec<usize> = sizes.iter().map(|s| s.repeats).collect();
    let many = repeats.iter().any(|r| *r > 1);
    if deciding && many && lesson.makes != Makes::Yoke {
        text.push_str(&format!(
            ": {} repeats in each {}",
            all_sizes(&repeats),
            line(lesson)
        ));
    }
    text.push('.');
    if chart.rights.may_print() {
        let caught: Vec<String> = assessed
            .work
            .rows
            .iter()
            .zip(&assessed.plan)
            .filter(|(row, plan)| row.origin.band == band && !plan.is_empty())
            .map(|(row, _)| row.origin.chart_row.to_string())
            .collect();
        let mut rows = caught;
        rows.dedup();
        if rows.len() == 1 {
            text.push_str(&format!(
                " Catch as marked in {} {}.",
                line(lesson),
                rows.join("")
            ));
        } else if rows.len() > 1 && rows.len() <= 6 {
            text.push_str(&format!(
                " Catch as marked in {lines} {}.",
                crate::words::join_and(&rows)
            ));
        } else if !rows.is_empty() {
            text.push_str(&format!(" Catch as marked, in {} {lines}.", rows.len()));
        }
    } else {
        let limit = assessed.work.limit;
        text.push_str(&format!(
            " You need your own copy of it. Where a strand passes more than {limit} stitches, catch it about half-way."
        ));
    }
    Step {
        title: format!("Chart “{}”", chart.title),
        text,
    }
}
