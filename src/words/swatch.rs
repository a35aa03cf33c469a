//! The swatch that is worked before anything is cast on: how many stitches, in what way, and what it must measure.

use crate::course::chart::Chart;
use crate::course::{Lesson, Reads};
use crate::ground::units::{Length, nearest_at_least, stitches_in};
use crate::words::{
    CraftWords, RowNames, Wording, count, gauge_text, literal, needle_text, number_word,
};

/// A swatch is so wide and so high that its middle 10 cm lie clear of its edges. Common practice, no source.
const SIDE: Length = Length::mm(130.0);
/// A chart wider than so many swatches is not worked whole in one.
const WIDEST: usize = 2;

/// How to measure before anything is cast on.
#[must_use]
pub fn measure_first(lesson: &Lesson, wording: Wording) -> String {
    let tool = CraftWords::of(lesson, wording).tool();
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
        "{} Washed and dry it should have {gauge} in its middle. More stitches? Take a thicker {tool}. Fewer? A thinner \
         one.{part}",
        swatch(lesson, wording)
    )
}

/// What to cast on and how to go on.
fn swatch(lesson: &Lesson, wording: Wording) -> String {
    let (stitches, pattern) = pattern(lesson);
    let says = CraftWords::of(lesson, wording);
    let with = lesson.colourwork.needle.map_or_else(String::new, |size| {
        format!(
            " with the {} {}",
            needle_text(size, wording.units()),
            says.tool()
        )
    });
    says.swatch(stitches, &with, &pattern)
}

/// Stitches of the swatch, and what is worked on them.
fn pattern(lesson: &Lesson) -> (usize, String) {
    let gauge = lesson.colourwork.gauge;
    let asked = nearest_at_least(stitches_in(SIDE, gauge.stitches), 1);
    let high = nearest_at_least(gauge.rows_spanning(SIDE), 1);
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
    let once = lesson.reads() == Reads::Turning && chart.height * 2 > high;
    let what = if once {
        format!("{own}chart “{title}” once")
    } else {
        format!("{rows} of {own}chart “{title}”")
    };
    (whole, format!("{what}, {repeats} across"))
}
