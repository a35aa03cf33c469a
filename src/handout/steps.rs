//! Instructions from the bands of a lesson, sizes in the trade's notation.

use crate::assess::Assessed;
use crate::body::Makes;
use crate::chart::Worked;
use crate::handout::Step;
use crate::handout::bands::{band_step, is_plain_rows, stripes};
use crate::lesson::{Band, Craft, Lesson};
use crate::sizing::{SizeCount, plain_count};
use crate::units::plain_number;

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
pub(super) struct Verbs {
    pub(super) cast_on: &'static str,
    pub(super) work: &'static str,
}

pub(super) fn verbs(craft: Craft) -> Verbs {
    match craft {
        Craft::Knit => Verbs {
            cast_on: "cast on",
            work: "Knit",
        },
        Craft::Crochet => Verbs {
            cast_on: "make a chain of",
            work: "Work",
        },
        Craft::Tunisian => Verbs {
            cast_on: "make a chain of",
            work: "Work",
        },
        Craft::CountedThread => Verbs {
            cast_on: "mark off",
            work: "Stitch",
        },
    }
}

/// The instructions of a lesson.
pub(super) fn steps(
    lesson: &Lesson,
    sizes: &[SizeCount],
    assessed: &Assessed<'_>,
    cast_off: &str,
) -> Vec<Step> {
    let counts: Vec<usize> = sizes.iter().map(|s| s.stitches).collect();
    let counts = if counts.is_empty() {
        vec![plain_count(lesson).1]
    } else {
        counts
    };
    let cast_on: Vec<usize> = sizes.iter().map(|s| s.cast_on).collect();
    let cast_on = if cast_on.is_empty() {
        counts.clone()
    } else {
        cast_on
    };
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
                text: format!(
                    "In the next {} make stitches, evenly spread, until there are {}.",
                    line(lesson),
                    all_sizes(&counts)
                ),
            });
            at_full_count = true;
        }
        let run = lesson
            .bands
            .iter()
            .skip(index)
            .take_while(|b| is_plain_rows(b))
            .count();
        if run > 1 {
            steps.push(stripes(lesson, index..index + run));
            striped = index + run;
            continue;
        }
        let last = index + 1 == lesson.bands.len();
        steps.extend(band_step(
            lesson,
            band,
            sizes,
            assessed,
            index + 1,
            last.then_some(cast_off),
        ));
    }
    let close = if lesson.craft.carries_inside() {
        "fasten off"
    } else {
        cast_off
    };
    steps.extend(ending(lesson, close));
    steps.push(finish(assessed));
    steps
}

pub(super) fn line(lesson: &Lesson) -> &'static str {
    if lesson.worked == Worked::Round {
        "round"
    } else {
        "row"
    }
}

pub(super) fn yarn_name(lesson: &Lesson, yarn: usize) -> &str {
    lesson
        .yarns
        .get(yarn)
        .map_or("the yarn", |y| y.name.as_str())
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
        return Step {
            title: "Join".to_owned(),
            text,
        };
    }
    let rib_first = matches!(lesson.bands.first(), Some(Band::Rib { .. }));
    let needle = if rib_first {
        lesson.rib_needle.or(lesson.colourwork.needle)
    } else {
        lesson.colourwork.needle
    };
    let tool = if lesson.craft.carries_inside() {
        "hook"
    } else {
        "needle"
    };
    let with = needle
        .map(|n| format!(" and the {} mm {tool}", plain_number(n.to_mm(), 2)))
        .unwrap_or_default();
    let join = if lesson.worked == Worked::Round {
        " Join into a round without a twist; mark the start."
    } else {
        ""
    };
    let stitches = all_sizes(cast_on);
    let text = format!(
        "With {yarn}{with} {} {stitches} stitches.{join}",
        verbs.cast_on
    );
    Step {
        title: "Begin".to_owned(),
        text,
    }
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
        _ => (
            "Edge",
            "Then {cast_off} loosely: this edge must stretch as far as the first.",
        ),
    };
    Some(Step {
        title: title.to_owned(),
        text: text.replace("{cast_off}", cast_off),
    })
}

fn finish(assessed: &Assessed<'_>) -> Step {
    let ends = assessed.measures.colours.ends;
    let ends = if ends > 2 {
        format!("Weave in the ends; the colourwork alone has {ends}. ")
    } else {
        "Weave in the ends. ".to_owned()
    };
    Step {
        title: "Finish".to_owned(),
        text: format!(
            "{ends}Soak for 20 minutes, press in a towel, dry flat in shape. Then measure."
        ),
    }
}
