//! What stands in a handout beside its sentences: over its tables and steps, in keys, on boxes.

use crate::course::Binding;

use crate::words::{Wording, capital};

/// A mark where a float is caught, in a list of numbers.
pub const CATCH_SHORT: &str = "catch";
/// The same in the legend of a chart.
pub const CATCH_HERE: &str =
    "catch the float here; “3rd of 5” beside a row: on the 3rd of 5 stitches passed";
/// A blank to write in.
pub const BLANK: &str = "________";
/// What a blank is.
pub const TO_FILL_IN: &str = "to fill in";
/// The way from a page to the same in print.
pub const AS_PDF: &str = "To print (PDF)";
/// The way to the page of the lesson before.
pub const LESSON_BEFORE: &str = "Before";
/// The way to the page of the lesson after.
pub const LESSON_AFTER: &str = "Next";
/// What boxes beside a step are.
pub const TO_TICK: &str = "To tick off";

/// The box before a row in words, of the time that it is worked.
#[must_use]
pub fn row_box(label: &str, time: usize) -> String {
    match time {
        1 => format!("{label} done"),
        n => format!("{label} done, time {n}"),
    }
}

/// What a course is, for those who are sent its address.
#[must_use]
pub fn about_course(title: &str, lessons: usize) -> String {
    format!("{title}: {lessons} graded colourwork lessons, one new step at a time.")
}

/// Over the longest float.
#[must_use]
pub fn longest_heading(binding: Binding) -> &'static str {
    match binding {
        Binding::Sheets => "The longest float, life size on paper",
        Binding::Booklets => "The longest float, life size on a full page",
    }
}

/// What the mark under a measure's bar means.
pub const MET_BEFORE: &str = "the most you have met so far";

/// Over a table that goes on overleaf.
#[must_use]
pub fn goes_on(title: &str) -> String {
    format!("{title}, continued")
}

/// Over a chart.
#[must_use]
pub fn chart_heading(title: &str) -> String {
    format!("Chart: {title}")
}

/// What stands in place of a chart that may not be printed.
#[must_use]
pub fn not_printed(rights: &str) -> String {
    format!(
        "This chart is **not printed here**. {rights} What you need to know about it stands under “How hard is it?”."
    )
}

/// How the words of a row of one colour begin.
pub const ALL_OF: &str = "all ";

/// Rows on end: `Rounds 7 to 12`, of the names of the first and the last.
#[must_use]
pub fn rows_on_end(first: &str, last: &str) -> String {
    let number = last.rsplit(' ').next().unwrap_or(last);
    match first.split_once(' ') {
        Some((line, from)) => format!("{line}s {from} to {number}"),
        None => format!("{first} to {number}"),
    }
}

/// Over rows in words.
#[must_use]
pub fn in_words(line: &str) -> String {
    format!("The {line}s in words")
}

/// What the tag of a row of one colour means.
#[must_use]
pub fn one_colour(line: &str, wording: Wording) -> String {
    let colour = wording.colour();
    match line {
        "round" => format!("one {colour} all round"),
        _ => format!("one {colour} all along"),
    }
}

/// Over the table of a yoke, and over the step that points to it.
pub const YOKE_TABLE: &str = "The yoke, line by line";
/// The step that works it.
pub const YOKE_STEP: &str = "Bands of the yoke";
/// The line of its short rows, which have a step of their own.
pub const SHORT_ROWS_LINE: &str = "1 round plain, with the short rows";
/// The head of its lines.
pub const LINE: &str = "Line";

/// The letter of a narrowing, from A on.
#[must_use]
pub fn letter(place: usize) -> String {
    let letter = u32::try_from(place)
        .ok()
        .and_then(|n| char::from_u32(u32::from('A') + n));
    letter.map_or_else(|| (place + 1).to_string(), String::from)
}

/// A line of a yoke that narrows.
#[must_use]
pub fn narrowing(letter: &str, line: &str) -> String {
    format!("{letter}: 1 {line}, narrowing")
}

/// The same in one size, with how.
#[must_use]
pub fn narrowing_so(line: &str, how: &str) -> String {
    format!("1 {line}, narrowing: {how}")
}

/// The last of a part.
pub const EDGE: &str = "Edge";
/// A rib that ends a part.
pub const RIB_AND_EDGE: &str = "Rib and edge";
/// What the rules of a yoke decide: its opening, …
pub const NECK: &str = "Neck";
/// … and how far it reaches down.
pub const DEPTH: &str = "Depth";
/// Over stripes on end.
pub const STRIPES: &str = "Stripes";
/// What a size does that has nothing to do in a step, in a table.
pub const NOTHING: &str = "leave it out";

/// The head of the column of names in a table of sizes.
pub const SIZE: &str = "Size";

/// The row of the bodies that sizes are to fit.
#[must_use]
pub fn to_fit(body: &str, unit: &str) -> String {
    format!("To fit {body}, {unit}")
}

/// What is said of yarn that is reckoned from loops, with tails of this length.
#[must_use]
pub fn yarn_reckoned(tail: &str) -> String {
    format!(
        "Yarn as the gauge makes it, with tails of {tail}; hands differ, so weigh your swatch. {BOUGHT}"
    )
}

const BOUGHT: &str = "The balls, of 50 g and one dye lot, hold a fifth more and a swatch.";

/// What is said of yarn that is reckoned from a weighed swatch.
#[must_use]
pub fn yarn_weighed() -> String {
    format!("Yarn from the weighed swatch. {BOUGHT}")
}

/// How numbers of all sizes are read in the steps.
pub const ORDER_OF_SIZES: &str = "In the steps numbers stand in the order of this table, those after the first in brackets; a number alone is for all sizes.";

/// The head over the names of yarns; of cloth a note stands beside them.
#[must_use]
pub fn yarns_head(wording: Wording, noted: bool) -> Vec<String> {
    let mut head = vec![capital(wording.colour())];
    if noted {
        head.push(String::new());
    }
    head
}

/// Over the table of sizes: whether it has more than one, and what the piece is made of.
#[must_use]
pub fn sizes_title(sizes: usize, stuff: &str) -> String {
    match sizes {
        0 | 1 => format!("Measures and {}", stuff.to_lowercase()),
        _ => format!("Sizes and {}", stuff.to_lowercase()),
    }
}

/// What stands beside the cloth among the threads.
pub const NOT_STITCHED: &str = "the cloth, not stitched";
