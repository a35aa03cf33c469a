//! Words in pictures, and pictures in words for those who cannot see them.

use crate::course::Units;
use crate::ground::units::{Length, plain_number};
use crate::piece::Measured;
use crate::words::{RowNames, Wording, count, join_and, length_text, measured_name};

/// The fabric at life size: stitches and rows shown, and whose they are.
#[must_use]
pub fn fabric_alt(rows: usize, title: &str, names: &RowNames) -> String {
    format!(
        "The fabric of {title}, {} of it",
        count(rows, names.line, names.lines),
    )
}

/// A finished piece in one size with its measures; `hidden` hides the band of a chart that may not be printed.
#[must_use]
pub fn piece_alt(title: &str, size: &str, hidden: bool, measures: &[String]) -> String {
    let bands = if hidden {
        "the band of a chart that is not printed left plain"
    } else {
        "its bands in their places"
    };
    format!(
        "{title} as a finished piece, {size}, {bands}: {}",
        measures.join(", ")
    )
}

/// A yoke from above: stitches at its outer edge and at the neck, and how often it narrows.
#[must_use]
pub fn yoke_alt(title: &str, size: &str, (outer, neck): (usize, usize), narrowed: usize) -> String {
    format!(
        "The yoke of {title} seen from above, {size}: {outer} stitches at the outer edge, {neck} at the neck, narrowed in \
         {narrowed} rounds between its bands"
    )
}

/// A girth on a picture: `54.5 cm round`.
#[must_use]
pub fn round_about(girth: Length, units: Units) -> String {
    format!("{} round", length_text(girth, units))
}

/// A measure on a picture: `chest 98 cm`.
#[must_use]
pub fn measured_text(what: Measured, length: Length, units: Units) -> String {
    format!("{} {}", measured_name(what), length_text(length, units))
}

/// In the middle of a yoke seen from above.
#[must_use]
pub fn neck_stitches(stitches: usize) -> String {
    format!("neck: {stitches} stitches")
}

/// The back of a yoke.
pub const BACK: &str = "back";
/// The front of a yoke.
pub const FRONT: &str = "front";
/// A register to write in.
#[must_use]
pub fn register_alt(lines: &[(String, String)], lessons: usize) -> String {
    let named = lines.iter().filter(|(name, _)| !name.is_empty());
    let names: Vec<String> = named
        .map(|(name, size)| format!("{name} ({size})"))
        .collect();
    let of = if names.is_empty() {
        String::new()
    } else {
        format!(": {}", join_and(&names))
    };
    format!(
        "a register to write in, {} with name, size, yarns and {}{of}",
        count(lines.len(), "line", "lines"),
        count(lessons, "box, one a lesson", "boxes, one a lesson")
    )
}

/// A chart of the quiz.
#[must_use]
pub fn glance_alt(title: &str) -> String {
    format!("the chart {title}, without numbers")
}

/// Over the repeat of a chart: its first and last stitch from 1, where there is `room` for them.
#[must_use]
pub fn repeat_mark(from: usize, to: usize, room: bool) -> String {
    if room {
        format!("stitches {from} to {to}: the repeat")
    } else {
        REPEAT.to_owned()
    }
}

/// At the side of repeated rows, and where there is little room.
pub const REPEAT: &str = "repeat";
/// Over a repeat of which only a part is shown.
pub const PART_OF_REPEAT: &str = "a part of the repeat";

/// Over the second copy of a repeat.
#[must_use]
pub const fn again_mark(room: bool) -> &'static str {
    if room {
        "the same again, to show the join"
    } else {
        "again"
    }
}

/// At the side of a row with so many catches.
#[must_use]
pub fn catches_tag(catches: usize) -> String {
    format!("catch × {catches}")
}

/// The climb of a course, with the lesson that is marked.
#[must_use]
pub fn climb_alt(number: usize, of: usize) -> String {
    format!("Lesson {number} of {of} on the climb of the course")
}

/// The climb of a whole course, on its cover.
#[must_use]
pub fn whole_climb_alt(lessons: usize) -> String {
    format!("The climb of the course: {lessons} lessons")
}

/// The strips of fabric on a cover.
#[must_use]
pub fn strata_alt(lessons: usize) -> String {
    format!("Strips of fabric from {lessons} lessons, the first at the bottom")
}

/// The ladder: each lesson's title and grade, from the bottom up.
#[must_use]
pub fn ladder_alt(rungs: &[String]) -> String {
    format!(
        "The ladder of the course from the bottom up: {}. The same is said in the table of skills and the list of lessons.",
        rungs.join(", ")
    )
}

/// A bar as long as a float.
#[must_use]
pub fn bar_alt(length: &str, stitches: usize) -> String {
    format!("A bar {length} long, {stitches} stitches")
}

/// The line to check a print by.
#[must_use]
pub fn check_line_alt(length: &str) -> String {
    format!("A line that is {length} long when printed at full size")
}

/// A measure as a bar: of 100, and the most met before.
#[must_use]
pub fn measure_alt(name: &str, value: f64, met: Option<f64>) -> String {
    let of_100 = |value: f64| plain_number(value * 100.0, 0);
    let met = met.map_or_else(String::new, |met| {
        format!(", the most met before {}", of_100(met))
    });
    format!("{name}: {} of 100{met}", of_100(value))
}

/// A mark of the table of skills.
#[must_use]
pub fn skill_alt(first: bool, wording: Wording) -> String {
    if first {
        "met for the first time".to_owned()
    } else {
        format!("{} again", wording.practised())
    }
}

/// The words that stand in drawings of techniques.
pub mod technique_words {
    /// A float on the inside.
    pub const HELD: &str = "held under this bump";
    /// As it should be.
    pub const RIGHT: &str = "right";
    /// As it should not be.
    pub const WRONG: &str = "wrong";
    /// The strand that comes from under the other.
    pub const FROM_BENEATH: &str = "from under";
    /// The strand that comes over the other.
    pub const FROM_ABOVE: &str = "over";
    /// The strand that lies lower.
    pub const LOWER: &str = "lies lower, stands out";
    /// A stripe at the start of the round.
    pub const STEP: &str = "the step";
    /// The same with its first stitch slipped.
    pub const SLIPPED: &str = "slipped";
    /// The end of a yarn.
    pub const TAIL: &str = "the tail, over and under";
    /// A decrease.
    pub const TAKES_TWO: &str = "takes two";
    /// A turned stitch.
    pub const TWO_LEGS: &str = "two legs, one stitch";
    /// Where a thumb will be.
    pub const WASTE: &str = "waste yarn";
}

/// What the drawing of a technique shows.
#[must_use]
pub fn technique_alt(drawing: &str) -> &'static str {
    match drawing {
        "caught-float" => {
            "The inside of the fabric: a row of bumps. A pale strand runs from one pale bump to the next behind five dark ones, and \
             the third of these lies over it and holds it"
        }
        "tension" => {
            "Two floats from the inside. Right: the strand sags a little and its stitches lie as wide as the others. Wrong: the strand \
             is straight and draws its stitches together"
        }
        "two-hands" => {
            "A strand over each forefinger, both to the points of the needles: the dark one comes from under, the pale one over it"
        }
        "lower-strand" => {
            "The inside of the fabric: wherever the two strands pass, the dark one lies lower than the pale one; it stands out on the front"
        }
        "jog" => {
            "A stripe of two rounds where rounds begin. Left: it steps up by one round. Right: its first stitch was slipped in the \
             second round and stands two rounds high, so that the step is hardly seen"
        }
        "trapped-end" => {
            "The inside of the fabric: the tail of a new yarn runs over one bump and under the next, for six stitches"
        }
        "corner" => {
            "A float from one needle to the next of a narrow tube. Right: it goes round the corner. Wrong: it cuts the corner straight"
        }
        "bricks" => {
            "Catches in four rounds. Right: scattered like the joints of a brick wall. Wrong: one above the other in one column"
        }
        "three-strands" => {
            "Three balls side by side, each with its strand to the needle, numbered one to three in an order that stays"
        }
        "two-together" => {
            "Three stitches in a row; in the row above one stitch stands on two of them"
        }
        "turned-stitch" => {
            "Loops on a needle; the stitch at which the work was turned shows two legs over the needle and counts as one"
        }
        "opening" => {
            "Three rows of stitches; in the middle one four stitches are of waste yarn, and a ring at either end of them marks where one \
             stitch more is picked up"
        }
        _ => "",
    }
}
