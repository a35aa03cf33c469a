//! Why a piece has no schedule, in words, and what to change.

use crate::course::{Band, Lesson};
use crate::piece::NoSchedule;
use crate::piece::schedule::counts::CountError;
use crate::piece::schedule::yoke::{NoWay, YokeError, YokePlace, YokeRemedy};

/// The band that stands in the way (by index), what is wrong, and what to change.
#[must_use]
pub fn why(reason: &NoSchedule, lesson: &Lesson) -> (Option<usize>, String, String) {
    match reason {
        NoSchedule::Empty => (
            None,
            "no band asks for any stitches".to_owned(),
            "add a plain band or a chart".to_owned(),
        ),
        NoSchedule::Counts(error, bands) => counts(error, bands, lesson),
        NoSchedule::TooSteep { from, to } => (
            None,
            format!("from {from} stitches to {to} is too much for one round"),
            "put a band between, or plain rounds with a smaller change".to_owned(),
        ),
        NoSchedule::DoesNotFit {
            band,
            stitches,
            multiple,
            edges,
        } => (
            Some(*band),
            format!(
                "{} asks for a multiple of {multiple}{}, and {stitches} stitches are there",
                name(*band, lesson),
                plus(*edges)
            ),
            "put a plain band beneath it, in which the count can change".to_owned(),
        ),
        NoSchedule::Crown(stitches) => (
            None,
            format!("a top cannot be closed from {stitches} stitches"),
            "look at the gauge: it makes too few or too many stitches".to_owned(),
        ),
        NoSchedule::Thumb(stitches) => (
            None,
            format!("a hand of {stitches} stitches has no room for a thumb"),
            "look at the gauge, or at the size".to_owned(),
        ),
        NoSchedule::Sleeve(cuff, upper) => (
            None,
            format!("no sleeve leads from {cuff} stitches to {upper}"),
            "look at the gauge, or at the size".to_owned(),
        ),
        NoSchedule::Yoke(error, bands) => yoke(error, bands, lesson),
    }
}

fn plus(edges: usize) -> String {
    if edges == 0 {
        String::new()
    } else {
        format!(" + {edges}")
    }
}

fn name(band: usize, lesson: &Lesson) -> String {
    match lesson.bands.get(band) {
        Some(Band::Chart { what, .. }) => format!("the chart {}", what.chart.id),
        Some(Band::Rib { .. }) => "the rib".to_owned(),
        Some(Band::Across(_)) => "the band side by side".to_owned(),
        _ => "the plain band".to_owned(),
    }
}

fn counts(error: &CountError, bands: &[usize], lesson: &Lesson) -> (Option<usize>, String, String) {
    let band = |i: usize| bands.get(i).copied().unwrap_or(0);
    match error {
        CountError::NoBands => why(&NoSchedule::Empty, lesson),
        CountError::BadMeasure { band: i } => (
            Some(band(*i)),
            format!("{} cannot be counted at this gauge", name(band(*i), lesson)),
            "look at the gauge and the size: they make less than one stitch, or thousands"
                .to_owned(),
        ),
        CountError::BadRepeat { band: i } => (
            Some(band(*i)),
            format!("{} repeats over no stitches", name(band(*i), lesson)),
            "give it stitches to repeat".to_owned(),
        ),
        CountError::NoPlainRound { below, above } => (
            Some(band(above.0)),
            format!(
                "{} needs {} stitches and {} needs {}, with no plain round between them",
                name(band(below.0), lesson),
                below.1,
                name(band(above.0), lesson),
                above.1
            ),
            "put `- plain: { rows: 1 }` between them, in which the count can change".to_owned(),
        ),
        CountError::TooSteep { band: i, .. } => (
            Some(band(*i)),
            format!(
                "{} needs more or fewer stitches than one round can gain or lose",
                name(band(*i), lesson)
            ),
            "choose a chart with a smaller repeat".to_owned(),
        ),
    }
}

/// The band of the lesson that one of the yoke stands for.
fn yoke_band(bands: &[Option<usize>], i: usize) -> Option<usize> {
    bands.get(i).copied().flatten()
}

fn place_name(place: YokePlace, bands: &[Option<usize>], lesson: &Lesson) -> String {
    match place {
        YokePlace::Band(i) => yoke_band(bands, i).map_or_else(
            || "the plain rounds between two narrowings".to_owned(),
            |band| name(band, lesson),
        ),
        YokePlace::Neck => "the neck".to_owned(),
    }
}

fn yoke(
    error: &YokeError,
    bands: &[Option<usize>],
    lesson: &Lesson,
) -> (Option<usize>, String, String) {
    match error {
        YokeError::NoWay(no_way) => no_way_words(no_way, bands, lesson),
        YokeError::TooDeep { .. } => (
            None,
            "the bands are deeper than this size's yoke may be".to_owned(),
            "leave out a band or plain rounds, or leave out this size".to_owned(),
        ),
        YokeError::BadBand { band } => {
            let at = yoke_band(bands, *band);
            (
                at,
                format!(
                    "{} cannot stand in a yoke: it grows, or loses more than half in a round",
                    place_name(YokePlace::Band(*band), bands, lesson)
                ),
                "look at its shaping".to_owned(),
            )
        }
        other => (
            None,
            format!("no yoke at this gauge and size: {}", plain_words(other)),
            "look at the gauge, the ease and the sizes".to_owned(),
        ),
    }
}

fn plain_words(error: &YokeError) -> &'static str {
    match error {
        YokeError::BadMeasure(_) => "a measure cannot be reckoned with",
        YokeError::TooLarge => "it has thousands of stitches",
        YokeError::NeckTooWide { .. } => "the neck would be wider than the yoke",
        _ => "the body has too few stitches",
    }
}

fn no_way_words(
    no_way: &NoWay,
    bands: &[Option<usize>],
    lesson: &Lesson,
) -> (Option<usize>, String, String) {
    let place = place_name(no_way.place, bands, lesson);
    let (few, many) = no_way.allowed;
    let near = [no_way.fewer, no_way.more];
    let near: Vec<String> = near.iter().flatten().map(usize::to_string).collect();
    let text = match no_way.neck {
        // The neck has a count of its own; what its repeat offers elsewhere is no help.
        Some(neck) if neck < few => format!(
            "{place} needs about {neck} stitches, and {few} are the fewest that the rounds beneath it can leave"
        ),
        Some(neck) => format!(
            "{place} needs about {neck} stitches, and no count beneath it leads there ({few} to {many} could be had)"
        ),
        None => format!(
            "{place} can have {few} to {many} stitches there, and its repeat of {}{} offers {}",
            no_way.fit.multiple,
            plus(no_way.fit.edges),
            if near.is_empty() {
                "none".to_owned()
            } else {
                near.join(" or ")
            }
        ),
    };
    let remedies: Vec<String> = no_way
        .remedies
        .iter()
        .take(3)
        .map(|remedy| match remedy {
            YokeRemedy::DecreaseBefore(place) => {
                format!(
                    "put `- decrease` before {}",
                    place_name(*place, bands, lesson)
                )
            }
            YokeRemedy::DecreaseEverywhere => {
                "put `- decrease` before every band and the neck".to_owned()
            }
            YokeRemedy::Repeat { band, multiple } => format!(
                "give {} a repeat of {multiple}",
                place_name(YokePlace::Band(*band), bands, lesson)
            ),
        })
        .collect();
    let help = if remedies.is_empty() {
        "take charts with smaller repeats, or put `- decrease` between more of them".to_owned()
    } else {
        remedies.join("; or ")
    };
    let band = match no_way.place {
        YokePlace::Band(i) => yoke_band(bands, i),
        YokePlace::Neck => None,
    };
    (band, text, help)
}
