//! The keys of course, lesson and chart files: the file formats in one table.

use crate::course::body::{self, Makes};
use crate::course::chart::Reflect;
use crate::course::{Closing, Craft, CrochetStitch};
use crate::read::shape::{Key, Shape};

const WORKED: Shape = Shape::Word(&["round", "flat"]);
pub(super) const POSITIVE: Shape = Shape::Number(0.0, 1000.0);
const ROWS: Shape = Shape::Whole(1, 2000);

/// Levels of permission to copy.
pub(super) const RIGHTS: &[&str] = &["own", "public-domain", "permission", "reference-only"];

/// A chart file.
pub(super) const CHART: &[Key] = &[
    Key::must("title", Shape::Name, "the chart's name on pages"),
    Key::may("worked", WORKED, "round (default) or flat"),
    Key::must(
        "colours",
        Shape::Named(&Shape::Name),
        "one visible character -> a colour role",
    ),
    Key::must(
        "rows",
        Shape::Grid,
        "the picture; the top line is worked last",
    ),
    Key::may(
        "repeat",
        Shape::Map(REPEAT),
        "which part repeats; default: all of it",
    ),
    Key::may(
        "reflect",
        Shape::Word(&Reflect::NAMES),
        "the half that is not drawn is the mirror of the drawn one",
    ),
    Key::may(
        "shaping",
        Shape::Grid,
        "an overlay of the same shape: . / \\ ^ + - #",
    ),
    Key::may(
        "rights",
        Shape::Word(RIGHTS),
        "own, public-domain, permission or reference-only",
    ),
    Key::may("from", Shape::Text, "with rights: permission, who gave it"),
    Key::may(
        "scope",
        Shape::Word(&["class", "guild", "sale"]),
        "with rights: permission, what for",
    ),
    Key::may("source", Shape::Text, "where the chart comes from; printed"),
];

const REPEAT: &[Key] = &[
    Key::may(
        "stitches",
        Shape::Range,
        "columns from the right edge, such as 1-4",
    ),
    Key::may("rows", Shape::Range, "rows from the bottom, such as 1-3"),
];

/// A lesson file.
pub(super) const LESSON: &[Key] = &[
    Key::must("title", Shape::Name, "the lesson's name on pages"),
    Key::must(
        "makes",
        Shape::Word(&Makes::WORDS),
        "what comes off the needles",
    ),
    Key::may(
        "craft",
        Shape::Word(&Craft::WORDS),
        "knit (default), crochet, tunisian or counted-thread",
    ),
    Key::may("worked", WORKED, "round (default) or flat"),
    Key::may(
        "stitch",
        Shape::Word(&CrochetStitch::WORDS),
        "of crochet, by its name in US terms; default single",
    ),
    Key::may(
        "closing",
        Shape::Word(&Closing::WORDS),
        "of rounds of crochet; default joined",
    ),
    Key::may(
        "from",
        Shape::Word(&["brim", "crown"]),
        "where a crochet hat is begun; default brim",
    ),
    Key::may(
        "hook",
        Shape::Word(&["double-ended"]),
        "for Tunisian crochet in the round",
    ),
    Key::may(
        "fabric",
        Shape::Map(FABRIC),
        "the cloth of counted thread, in place of a gauge",
    ),
    Key::may(
        "gauge",
        Shape::Map(GAUGE),
        "of the washed fabric; only counted thread does without",
    ),
    Key::may("yarn", Shape::Map(YARN), "weight category and length"),
    Key::must(
        "colours",
        Shape::Named(&Shape::Map(COLOUR)),
        "role -> name and colour of a yarn",
    ),
    Key::may("limit", Shape::Map(LIMIT), "how far a float may run free"),
    Key::may(
        "ease",
        Shape::SignedLength,
        "wider (or, with a minus sign, narrower) than the body",
    ),
    Key::may(
        "width",
        Shape::Width,
        "of a scarf or swatch; default 96 stitches",
    ),
    Key::must("bands", Shape::List(&BAND), "from the cast-on upwards"),
    Key::may("sizes", Shape::List(&SIZE), "size ids, smallest first"),
    Key::may(
        "needs",
        Shape::List(&Shape::Id),
        "lessons that must come first",
    ),
    Key::may(
        "techniques",
        Shape::List(&Shape::Name),
        "techniques that the chart cannot show",
    ),
    Key::may("text", Shape::Markdown, "the teacher's own Markdown"),
];

const SIZE: Shape = Shape::Text;

const FABRIC: &[Key] = &[
    Key::must(
        "count",
        Shape::Number(4.0, 60.0),
        "threads or squares to an inch",
    ),
    Key::may(
        "over",
        Shape::Whole(1, 4),
        "threads that a cross covers; default 1",
    ),
];

const GAUGE: &[Key] = &[
    Key::must(
        "colourwork",
        Shape::Map(GAUGE_OF),
        "gauge of the colourwork",
    ),
    Key::may("plain", Shape::Map(GAUGE_OF), "gauge of plain fabric"),
    Key::may("rib", Shape::Map(NEEDLE), "needle of the rib"),
];
const GAUGE_OF: &[Key] = &[
    Key::must("stitches", POSITIVE, "stitches in `over`"),
    Key::must("rows", POSITIVE, "rows in `over`"),
    Key::may(
        "over",
        Shape::Length,
        "the length counted over; default 10 cm",
    ),
    Key::may("needle", Shape::Length, "needle or hook"),
];
const NEEDLE: &[Key] = &[Key::may("needle", Shape::Length, "needle or hook")];
const YARN: &[Key] = &[
    Key::may("weight", Shape::Whole(0, 7), "weight category 0 to 7"),
    Key::may(
        "metres_per_100g",
        Shape::Number(0.0, 10_000.0),
        "metres in 100 g",
    ),
    Key::may("weighed", Shape::Map(WEIGHED), "a weighed swatch"),
];
const WEIGHED: &[Key] = &[
    Key::must(
        "stitches",
        Shape::Whole(1, 100_000),
        "stitches of the swatch",
    ),
    Key::must("rows", Shape::Whole(1, 100_000), "rows of the swatch"),
    Key::must("grams", Shape::Number(0.0, 100_000.0), "its mass in grams"),
];
const COLOUR: &[Key] = &[
    Key::must("name", Shape::Name, "the yarn's name on pages"),
    Key::must("hex", Shape::Hex, "its colour"),
];
const LIMIT: &[Key] = &[
    Key::may(
        "stitches",
        Shape::Whole(1, 100),
        "most stitches a float may pass",
    ),
    Key::may("length", Shape::Length, "longest free strand"),
];

const BAND: Shape = Shape::Either(&Shape::Word(&["decrease"]), &Shape::OneOf(BANDS));
const BANDS: &[Key] = &[
    Key::may("rib", Shape::Map(RIB), "ribbing"),
    Key::may("plain", Shape::Map(PLAIN), "rows of one colour"),
    Key::may(
        "chart",
        Shape::Either(&Shape::Id, &Shape::Map(CHART_USE)),
        "a chart, by id",
    ),
    Key::may(
        "across",
        Shape::List(&Shape::Map(PART)),
        "several things side by side in one round",
    ),
];
const RIB: &[Key] = &[
    Key::may(
        "multiple",
        Shape::Whole(1, 64),
        "stitches of one rib repeat",
    ),
    Key::may("height", Shape::Length, "how high"),
    Key::may("rows", ROWS, "how many rows"),
    Key::may("colour", Shape::Text, "colour role"),
];
const PLAIN: &[Key] = &[
    Key::may("rows", ROWS, "how many rows"),
    Key::may("height", Shape::Length, "how high"),
    Key::may("colour", Shape::Text, "colour role"),
    Key::may(
        "say",
        Shape::Text,
        "what else is done in them; Markdown, added to the step",
    ),
];
const CHART_USE: &[Key] = &[
    Key::must("id", Shape::Id, "the chart"),
    Key::may(
        "times",
        Shape::Whole(1, 1000),
        "how often its rows are worked",
    ),
    Key::may(
        "colours",
        Shape::Named(&Shape::Text),
        "the chart's role -> another colour of this lesson",
    ),
    Key::may(
        "rows",
        Shape::Named(&Shape::Named(&Shape::Text)),
        "rows as drawn, such as 1-3 -> the chart's role -> another colour in them",
    ),
];
const PART: &[Key] = &[
    Key::may("chart", Shape::Id, "a chart, by id"),
    Key::may("plain", Shape::Whole(1, 1000), "stitches of one colour"),
    Key::may(
        "times",
        Shape::Either(&Shape::Text, &Shape::Text),
        "how often across, or fill",
    ),
    Key::may(
        "colours",
        Shape::Named(&Shape::Text),
        "the chart's role -> another colour of this lesson",
    ),
    Key::may("colour", Shape::Text, "colour role of a plain part"),
];

/// A course file.
pub(super) const COURSE: &[Key] = &[
    Key::may(
        "id",
        Shape::Id,
        "name of the output folder; default: the folder's name",
    ),
    Key::must("title", Shape::Name, "the course's name on pages"),
    Key::may("guild", Shape::Name, "who gives it"),
    Key::may("footer", Shape::Text, "imprint and copy line on every page"),
    Key::may(
        "units",
        Shape::Word(&["metric", "imperial", "both"]),
        "units on pages",
    ),
    Key::may("paper", Shape::Word(&["a4", "letter"]), "paper size"),
    Key::may("terms", Shape::Word(&["uk", "us"]), "trade words"),
    Key::may("limit", Shape::Map(LIMIT), "how far a float may run free"),
    Key::may(
        "weights",
        Shape::Map(WEIGHTS),
        "points of the five parts; they sum to 100",
    ),
    Key::may(
        "levels",
        Shape::Map(LEVELS),
        "grades at which the levels begin",
    ),
    Key::may("budget", Shape::Map(BUDGET), "how large a step may be"),
    Key::may("sessions", Shape::Map(SESSIONS), "how the workshop is held"),
    Key::may(
        "assumes",
        Shape::List(&Shape::Word(&Craft::WORDS)),
        "crafts whose first steps the class has; default: knit",
    ),
    Key::may(
        "bodies",
        Shape::Named(&Shape::Map(BODY)),
        "own sizes, or corrections",
    ),
];
const WEIGHT: Shape = Shape::UpTo(100.0);
const WEIGHTS: &[Key] = &[
    Key::may("floats", WEIGHT, "points"),
    Key::may("colours", WEIGHT, "points"),
    Key::may("reading", WEIGHT, "points"),
    Key::may("relief", WEIGHT, "points"),
    Key::may("handling", WEIGHT, "points"),
];
const LEVELS: &[Key] = &[
    Key::may("easy", WEIGHT, "grade"),
    Key::may("intermediate", WEIGHT, "grade"),
    Key::may("complex", WEIGHT, "grade"),
];
const BUDGET: &[Key] = &[
    Key::may("step", WEIGHT, "largest step"),
    Key::may(
        "doorstep",
        WEIGHT,
        "largest step of the first two-colour lesson",
    ),
    Key::may("techniques", Shape::Whole(0, 100), "most new techniques"),
];
const SESSIONS: &[Key] = &[
    Key::may("count", Shape::Whole(1, 1000), "how many meetings"),
    Key::may("hours", Shape::Number(0.0, 24.0), "hours of each"),
    Key::may("weeks_between", Shape::UpTo(100.0), "weeks between two"),
    Key::may(
        "teaching_share",
        Shape::UpTo(1.0),
        "share of the time spent explaining",
    ),
    Key::may(
        "home_hours",
        Shape::UpTo(168.0),
        "hours at home in a week; default 3",
    ),
    Key::may(
        "learners",
        Shape::Either(&Shape::Whole(1, 10_000), &Shape::List(&Shape::Map(LEARNER))),
        "how many people, or each with her name and size",
    ),
];
const LEARNER: &[Key] = &[
    Key::must("name", Shape::Name, "her name"),
    Key::must("size", SIZE, "her size, by its id"),
];
const BODY: &[Key] = &[
    Key::may("head", Shape::Length, "head girth"),
    Key::may("hand", Shape::Length, "hand girth"),
    Key::may("chest", Shape::Length, "chest girth"),
    Key::may("armhole", Shape::Length, "armhole depth, for a yoke"),
    Key::may(
        "sleeve",
        Shape::Length,
        "sleeve to the underarm, for a yoke",
    ),
    Key::may(
        "upper-arm",
        Shape::Length,
        "girth of the upper arm, for a yoke",
    ),
    Key::may("neck", Shape::Length, "girth at the base of the neck"),
];

/// The size ids of the built-in body table.
#[must_use]
pub(super) fn size_ids() -> Vec<&'static str> {
    body::TABLE.iter().map(|row| row.id).collect()
}
