//! The swatch that is worked before anything is cast on: how many stitches, in what way, and what it must measure.

use crate::course::chart::{Chart, Worked};
use crate::course::{Craft, Lesson};
use crate::ground::units::{Length, nearest_at_least, stitches_in};
use crate::words::steps::to_begin;
use crate::words::tools::tool_name;
use crate::words::{
    RowNames, Wording, capital, count, gauge_text, literal, needle_text, number_word,
};

/// A swatch is so wide that its middle 10 cm lie clear of its edges. Common practice, no source.
const WIDTH: Length = Length::mm(130.0);
/// And as high.
const HEIGHT: Length = Length::mm(130.0);
/// A chart wider than so many swatches is not worked whole in one.
const WIDEST: usize = 2;

/// How to measure before anything is cast on.
#[must_use]
pub fn measure_first(lesson: &Lesson, wording: Wording) -> String {
    let tool = tool_name(lesson);
    let part = match lesson
        .sizes
        .first()
        .map(|size| lesson.makes.girth_of(size).0)
    {
        Some("hand") => " Measure the hand round the knuckles, without the thumb.",
        Some("chest") => " Measure the chest under the arms, breathing normally.",
        Some(_) if lesson.makes.has_sizes() => {
            " Measure the head above the ears, where it is widest."
        }
        _ => "",
    };
    let gauge = gauge_text(
        lesson.colourwork.gauge,
        RowNames::of_lesson(lesson, wording).lines,
        wording.units(),
    );
    format!(
        "{} Wash and dry it. Measured in its middle it should have {gauge}. More stitches? Take a thicker {tool}. Fewer? A thinner \
         one.{part}",
        swatch(lesson, wording)
    )
}

/// What to cast on and how to go on.
fn swatch(lesson: &Lesson, wording: Wording) -> String {
    let (stitches, pattern) = pattern(lesson);
    let tool = tool_name(lesson);
    let with = lesson.colourwork.needle.map_or_else(String::new, |size| {
        format!(" with the {} {tool}", needle_text(size, wording.units()))
    });
    let (chain, from) = match lesson.craft {
        Craft::Crochet => (stitches + 1, ", begin in the second from the hook"),
        _ => (stitches, ""),
    };
    let begin = capital(to_begin(lesson.craft));
    let begin = format!("{begin} {}{with}{from}", count(chain, "stitch", "stitches"));
    match (lesson.craft, lesson.worked) {
        (Craft::Knit, Worked::Round) => format!(
            "**Swatch as in the round.** {begin} and work {pattern}, the right side always before you: do not turn, but \
             slide the stitches back to the other tip, and let the yarn hang across the back in loops so loose that it lies flat. {}; \
             unravelled once it is measured, its yarn serves again.",
            capital(wording.cast_off())
        ),
        (Craft::Knit, Worked::Flat) => format!(
            "**Swatch.** {begin} and work {pattern}, purling back. {}.",
            capital(wording.cast_off())
        ),
        (Craft::Crochet, Worked::Round) => format!(
            "**Swatch as in the round.** {begin} and work {pattern}, the right side always before you: fasten off after \
             each row and begin the next where that one began."
        ),
        _ => format!("**Swatch.** {begin} and work {pattern}."),
    }
}

/// Stitches of the swatch, and what is worked on them.
fn pattern(lesson: &Lesson) -> (usize, String) {
    let gauge = lesson.colourwork.gauge;
    let asked = nearest_at_least(stitches_in(WIDTH, gauge.stitches), 1);
    let high = nearest_at_least(gauge.rows_spanning(HEIGHT), 1);
    let rows = format!("about {}", count(high, "row", "rows"));
    let charts = lesson.charts();
    let even = |chart: &&Chart| !chart.is_shaped();
    let tallest = charts
        .iter()
        .map(|what| &*what.chart)
        .filter(even)
        .rev()
        .max_by_key(|chart| chart.height);
    let Some(chart) = tallest else {
        let stripes = match lesson.yarns.len() {
            1 => "in its yarn",
            _ => "of stripes as they come in the piece",
        };
        return (asked, format!("{rows} {stripes}"));
    };
    let repeat = chart.repeat_stitches.len().max(1);
    let edges = chart.width - repeat;
    let times = asked.saturating_sub(edges).div_ceil(repeat).max(1);
    let whole = edges + times * repeat;
    let title = literal(&chart.title);
    let own = if chart.rights.may_print() {
        ""
    } else {
        "your copy of "
    };
    if whole > asked * WIDEST {
        return (
            asked,
            format!("of the first {asked} stitches of {own}chart “{title}”"),
        );
    }
    let repeats = match times {
        1 => "one repeat".to_owned(),
        n => format!("{} repeats", number_word(n)),
    };
    // Flat, its yarns do not lie where it could begin again.
    let once = lesson.worked == Worked::Flat && chart.height * 2 > high;
    let what = if once {
        format!("{own}chart “{title}” once")
    } else {
        format!("{rows} of {own}chart “{title}”")
    };
    (whole, format!("{what}, {repeats} across"))
}
