//! Instructions from the bands of a lesson, sizes in the trade's notation.

use crate::assess::Assessed;
use crate::body::Makes;
use crate::chart::Worked;
use crate::handout::Step;
use crate::lesson::{AcrossPart, Band, Craft, Extent, Lesson};
use crate::sizing::{SizeCount, plain_count};
use crate::units::plain_number;
use crate::words::{count, number_word};

/// Numbers of all sizes: `88 (96, 104)`, one alone when they agree.
#[must_use]
pub(super) fn all_sizes(values: &[usize]) -> String {
    match values {
        [] => String::new(),
        [first, rest @ ..] if rest.iter().all(|v| v == first) => first.to_string(),
        [first, rest @ ..] => {
            let rest: Vec<String> = rest.iter().map(usize::to_string).collect();
            format!("{first} ({})", rest.join(", "))
        }
    }
}

/// Verbs of a craft.
struct Verbs {
    cast_on: &'static str,
    work: &'static str,
}

fn verbs(craft: Craft) -> Verbs {
    match craft {
        Craft::Knit => Verbs { cast_on: "cast on", work: "Knit" },
        Craft::Crochet => Verbs { cast_on: "make a chain of", work: "Work" },
        Craft::Tunisian => Verbs { cast_on: "make a chain of", work: "Work" },
        Craft::CountedThread => Verbs { cast_on: "mark off", work: "Stitch" },
    }
}

/// The instructions of a lesson.
pub(super) fn steps(lesson: &Lesson, sizes: &[SizeCount], assessed: &Assessed<'_>, cast_off: &str) -> Vec<Step> {
    let counts: Vec<usize> = sizes.iter().map(|s| s.stitches).collect();
    let counts = if counts.is_empty() { vec![plain_count(lesson).1] } else { counts };
    let cast_on: Vec<usize> = sizes.iter().map(|s| s.cast_on).collect();
    let cast_on = if cast_on.is_empty() { counts.clone() } else { cast_on };
    let mut steps = vec![begin(lesson, &cast_on, &counts)];
    let mut at_full_count = cast_on == counts;
    let mut striped = 0;
    for (index, band) in lesson.bands.iter().enumerate() {
        if index < striped {
            continue;
        }
        if !matches!(band, Band::Rib { .. } | Band::Decrease) && !at_full_count {
            steps.push(Step {
                title: "Widen".to_owned(),
                text: format!("In the next {} make stitches, evenly spread, until there are {}.", line(lesson), all_sizes(&counts)),
            });
            at_full_count = true;
        }
        let run = lesson.bands.iter().skip(index).take_while(|b| is_plain_rows(b)).count();
        if run > 1 {
            steps.push(stripes(lesson, index..index + run));
            striped = index + run;
            continue;
        }
        let last = index + 1 == lesson.bands.len();
        steps.extend(band_step(lesson, band, sizes, assessed, index + 1, last.then_some(cast_off)));
    }
    steps.extend(ending(lesson, cast_off));
    steps.push(finish(assessed));
    steps
}

fn is_plain_rows(band: &Band) -> bool {
    matches!(band, Band::Plain { extent: Extent::Rows(_), .. })
}

/// Several plain bands in a row as one step: `Knit 4 rounds in Tide, 2 in Foam and 4 in Tide`.
fn stripes(lesson: &Lesson, bands: std::ops::Range<usize>) -> Step {
    let mut parts = Vec::new();
    for (i, band) in lesson.bands.get(bands).unwrap_or_default().iter().enumerate() {
        if let Band::Plain { extent: Extent::Rows(rows), yarn } = band {
            let many = if i == 0 { count(*rows, line(lesson), &format!("{}s", line(lesson))) } else { rows.to_string() };
            parts.push(format!("{many} in {}", yarn_name(lesson, *yarn)));
        }
    }
    let text = format!("{} {}.", verbs(lesson.craft).work, crate::words::join_and(&parts));
    Step { title: "Stripes".to_owned(), text }
}

fn line(lesson: &Lesson) -> &'static str {
    if lesson.worked == Worked::Round { "round" } else { "row" }
}

fn yarn_name(lesson: &Lesson, yarn: usize) -> &str {
    lesson.yarns.get(yarn).map_or("the yarn", |y| y.name.as_str())
}

fn begin(lesson: &Lesson, cast_on: &[usize], counts: &[usize]) -> Step {
    let verbs = verbs(lesson.craft);
    let yarn = lesson.bands.iter().find_map(|band| match band {
        Band::Rib { yarn, .. } | Band::Plain { yarn, .. } => Some(*yarn),
        Band::Chart { what, .. } => what.yarns.first().copied(),
        _ => None,
    });
    let yarn = yarn_name(lesson, yarn.unwrap_or(0));
    if lesson.makes == Makes::Yoke {
        let text = format!(
            "Work body and sleeves plain to the underarm and set 8 % of the body's stitches aside at each underarm, on \
             the body and on each sleeve. Join front, sleeve, back, sleeve in one round: about {} stitches. The bands \
             below begin here.",
            all_sizes(counts)
        );
        return Step { title: "Join".to_owned(), text };
    }
    let rib_first = matches!(lesson.bands.first(), Some(Band::Rib { .. }));
    let needle = if rib_first { lesson.rib_needle.or(lesson.colourwork.needle) } else { lesson.colourwork.needle };
    let tool = if lesson.craft.carries_inside() { "hook" } else { "needle" };
    let with = needle.map(|n| format!(" and the {} mm {tool}", plain_number(n.to_mm(), 2))).unwrap_or_default();
    let join = if lesson.worked == Worked::Round { " Join into a round without a twist; mark the start." } else { "" };
    let stitches = all_sizes(cast_on);
    let text = format!("With {yarn}{with} {} {stitches} stitches.{join}", verbs.cast_on);
    Step { title: "Begin".to_owned(), text }
}

fn extent_words(lesson: &Lesson, extent: Extent) -> String {
    match extent {
        Extent::Height(height) => format!("{} cm", plain_number(height.to_cm(), 1)),
        Extent::Rows(rows) => count(rows, line(lesson), &format!("{}s", line(lesson))),
    }
}

fn band_step(
    lesson: &Lesson,
    band: &Band,
    sizes: &[SizeCount],
    assessed: &Assessed<'_>,
    number: usize,
    closing: Option<&str>,
) -> Option<Step> {
    let verbs = verbs(lesson.craft);
    Some(match band {
        Band::Rib { multiple, extent, yarn } => {
            let (knit, purl) = (multiple.div_ceil(2), multiple / 2);
            let end = closing.map(|cast_off| format!(" Then {cast_off} loosely.")).unwrap_or_default();
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
                    format!("{} {} in {}.", verbs.work, extent_words(lesson, *extent), yarn_name(lesson, *yarn))
                }
                Extent::Height(_) => {
                    format!("{} on in {} for {}.", verbs.work, yarn_name(lesson, *yarn), extent_words(lesson, *extent))
                }
            },
        },
        Band::Chart { what, times } => chart_step(lesson, &what.chart, *times, sizes, assessed, number),
        Band::Across(parts) => {
            let names: Vec<String> = parts
                .iter()
                .map(|part| match part {
                    AcrossPart::Chart(what, _) => format!("chart “{}”", what.chart.title),
                    AcrossPart::Plain { stitches, .. } => count(*stitches, "plain stitch", "plain stitches"),
                })
                .collect();
            let text = format!("In each {} work side by side, from the right: {}.", line(lesson), crate::words::join_and(&names));
            Step { title: "Side by side".to_owned(), text }
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
    let lines = if lesson.worked == Worked::Round { "rounds" } else { "rows" };
    let mut text = format!("Work {lines} 1 to {} of chart “{}”", chart.height, chart.title);
    if times > 1 {
        text.push_str(&format!(", {} times over", number_word(times)));
    }
    let deciding = crate::sizing::deciding_chart(lesson).is_some_and(|d| d.id == chart.id);
    let repeats: Vec<usize> = sizes.iter().map(|s| s.repeats).collect();
    let many = repeats.iter().any(|r| *r > 1);
    if deciding && many && lesson.makes != Makes::Yoke {
        text.push_str(&format!(": {} repeats in each {}", all_sizes(&repeats), line(lesson)));
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
            text.push_str(&format!(" Catch as marked in {} {}.", line(lesson), rows.join("")));
        } else if rows.len() > 1 && rows.len() <= 6 {
            text.push_str(&format!(" Catch as marked in {lines} {}.", crate::words::join_and(&rows)));
        } else if !rows.is_empty() {
            text.push_str(&format!(" Catch as marked, in {} {lines}.", rows.len()));
        }
    } else {
        let limit = assessed.work.limit;
        text.push_str(&format!(
            " You need your own copy of it. Where a strand passes more than {limit} stitches, catch it about half-way."
        ));
    }
    Step { title: format!("Chart “{}”", chart.title), text }
}

fn ending(lesson: &Lesson, cast_off: &str) -> Option<Step> {
    let (title, text) = match (lesson.makes, lesson.craft) {
        (Makes::Hat, Craft::Knit) => (
            "Crown",
            "Work plain until the hat reaches the crown of your head less 6 cm. Place markers for eight sections as \
             even as you can. In every second round decrease at the end of each section until half the stitches are \
             left, then in every round until 8 remain. Draw the yarn through them.",
        ),
        (Makes::Hat, _) => (
            "Crown",
            "Work plain until the hat reaches the crown of your head less 6 cm. Decrease in eight places, evenly \
             spread, in every second round, then in every round, until 8 stitches remain. Draw the yarn through them.",
        ),
        (Makes::Mitts, _) => (
            "Thumb",
            "Where the lesson's text says so, put the thumb's stitches on waste yarn and make as many new ones over \
             the gap. Then {cast_off} the top edge loosely, and work the thumb on the stitches that waited.",
        ),
        (Makes::Mittens, _) => (
            "Thumb and top",
            "Put the thumb's stitches on waste yarn and make as many new ones over the gap. Close the top by \
             decreasing at both sides in every second round; work the thumb last.",
        ),
        (Makes::Yoke, _) => (
            "Neck",
            "Raise the back neck with short rows in plain yarn. Work the neck edge, try it over the head it is for, \
             and only then {cast_off} loosely. Graft the underarms.",
        ),
        (Makes::Swatch, _) => return None,
        _ if matches!(lesson.bands.last(), Some(Band::Rib { .. })) => return None,
        _ => ("Edge", "Then {cast_off} loosely: this edge must stretch as far as the first."),
    };
    Some(Step { title: title.to_owned(), text: text.replace("{cast_off}", cast_off) })
}

fn finish(assessed: &Assessed<'_>) -> Step {
    let ends = assessed.measures.colours.ends;
    let ends = if ends > 2 { format!("Weave in the ends; the colourwork alone has {ends}. ") } else { "Weave in the ends. ".to_owned() };
    Step {
        title: "Finish".to_owned(),
        text: format!("{ends}Soak for 20 minutes, press in a towel, dry flat in shape. Then measure."),
    }
}
