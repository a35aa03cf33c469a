//! The keys of files that lie beside courses: learners' logs, teachers' judgements.

use crate::read::keys::POSITIVE;
use crate::read::shape::{Key, Shape};

/// A learner's log.
pub(super) const LOG: &[Key] = &[
    Key::may("learner", Shape::Text, "whose log it is"),
    Key::may(
        "stock",
        Shape::ListOrNothing(&Shape::Map(STOCK)),
        "yarn at hand",
    ),
    Key::may("done", DONE, "things made, the first first"),
];
/// An empty value stands for an empty list.
const DONE: Shape = Shape::ListOrNothing(&Shape::Map(MADE));
const STOCK: &[Key] = &[
    Key::must("name", Shape::Text, "the yarn's name"),
    Key::may("weight", Shape::Whole(0, 7), "weight category 0 to 7"),
    Key::may(
        "grams",
        Shape::UpTo(100_000.0),
        "how much there is, in grams",
    ),
];
const MADE: &[Key] = &[
    Key::must("made", Shape::Id, "id of a lesson or chart"),
    Key::may(
        "course",
        Shape::Id,
        "id of its course, where several have the id",
    ),
    Key::must(
        "went",
        Shape::Word(crate::course::log::Went::NAMES),
        "easy, right or hard",
    ),
    Key::may("on", Shape::Text, "the day, such as 2026-10-02"),
    Key::may(
        "gauge",
        Shape::Map(OWN_GAUGE),
        "gauge measured on it, to 10 cm",
    ),
    Key::may("note", Shape::Text, "anything else"),
];
const OWN_GAUGE: &[Key] = &[
    Key::must("stitches", POSITIVE, "stitches to 10 cm"),
    Key::may("rows", POSITIVE, "rows to 10 cm"),
];

/// The register of a class.
pub(super) const REGISTER: &[Key] = &[Key::may(
    "learners",
    Shape::ListOrNothing(&Shape::Map(LEARNER)),
    "who is in the class",
)];
const LEARNER: &[Key] = &[
    Key::must("name", Shape::Text, "the learner's name"),
    Key::may("size", Shape::Text, "her size"),
    Key::may("colours", Shape::Text, "her colours"),
    Key::may(
        "done",
        Shape::ListOrNothing(&Shape::Id),
        "ids of lessons that she has finished",
    ),
];

/// A teacher's judgements.
pub(super) const PAIRS: &[Key] = &[Key::must(
    "pairs",
    Shape::List(&Shape::Map(PAIR)),
    "judgements: one thing is harder than another",
)];
const PAIR: &[Key] = &[
    Key::must("harder", Shape::Id, "id of the harder lesson or chart"),
    Key::must("easier", Shape::Id, "id of the easier one"),
    Key::may(
        "times",
        Shape::Whole(1, 1000),
        "how often it was said; default 1",
    ),
];
