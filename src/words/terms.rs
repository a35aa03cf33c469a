//! Words that are not the same for everyone: on either side of the ocean, and for either hand. All of them stand here.

use std::collections::BTreeMap;

use crate::course::{Course, CrochetStitch, Hand, Terms, Units};

/// Key, word in the United Kingdom, word in the United States. Templates ask by the key: `{{ t.cast_off }}`.
const PAIRS: [(&str, &str, &str); 13] = [
    ("cast_off", "cast off", "bind off"),
    ("tension", "tension", "gauge"),
    ("colour", "colour", "color"),
    ("colours", "colours", "colors"),
    ("Colour", "Colour", "Color"),
    ("grey", "grey", "gray"),
    ("centre", "centre", "center"),
    ("neighbour", "neighbour", "neighbor"),
    ("pompom", "pompom", "pompom"),
    ("practise", "practise", "practice"),
    ("practised", "practised", "practiced"),
    ("stocking_stitch", "stocking stitch", "stockinette stitch"),
    ("nurse", "health visitor", "pediatrician"),
];

/// A stitch by its name and in short.
type Named = (&'static str, &'static str);

/// Stitches of crochet: name and short form in the United Kingdom, and in the United States. Common in every bilingual
/// chart; those of the extended stitch from memory.
const STITCHES: [(CrochetStitch, Named, Named); 4] = [
    (
        CrochetStitch::Single,
        ("double crochet", "dc"),
        ("single crochet", "sc"),
    ),
    (
        CrochetStitch::ExtendedSingle,
        ("extended double crochet", "exdc"),
        ("extended single crochet", "exsc"),
    ),
    (
        CrochetStitch::HalfDouble,
        ("half treble", "htr"),
        ("half double crochet", "hdc"),
    ),
    (
        CrochetStitch::Double,
        ("treble", "tr"),
        ("double crochet", "dc"),
    ),
];

/// The words of a course, for one hand. Every sentence that holds such a word asks here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wording {
    stitch: CrochetStitch,
    terms: Terms,
    hand: Hand,
    units: Units,
}

impl Wording {
    /// The words of one side of the ocean, for somebody who works from right to left.
    #[must_use]
    pub const fn of(terms: Terms) -> Self {
        Self {
            stitch: CrochetStitch::Single,
            terms,
            hand: Hand::Right,
            units: Units::Metric,
        }
    }

    /// The words of a course, in its units.
    #[must_use]
    pub const fn of_course(course: &Course) -> Self {
        Self {
            units: course.units,
            ..Self::of(course.terms)
        }
    }

    /// The units that lengths are told in.
    #[must_use]
    pub const fn units(self) -> Units {
        self.units
    }

    /// The same words for either hand: for somebody who works from left to right every side is the other one.
    #[must_use]
    pub const fn for_hand(self, hand: Hand) -> Self {
        Self { hand, ..self }
    }

    /// The same words for a lesson in this stitch of crochet.
    #[must_use]
    pub const fn for_stitch(self, stitch: CrochetStitch) -> Self {
        Self { stitch, ..self }
    }

    /// The word of a key; a key that is not in the list stands for itself.
    fn word(self, key: &'static str) -> &'static str {
        let found = PAIRS.iter().find(|(known, ..)| *known == key);
        found.map_or(key, |(_, uk, us)| match self.terms {
            Terms::Uk => uk,
            Terms::Us => us,
        })
    }

    /// All words by their keys, as templates ask for them.
    #[must_use]
    pub fn words(self) -> BTreeMap<&'static str, &'static str> {
        let terms = PAIRS.iter().map(|(key, ..)| (*key, self.word(key)));
        let sides = [
            ("left", self.left()),
            ("right", self.right()),
            ("dc", self.plain_crochet()),
        ];
        terms.chain(sides).collect()
    }

    /// The left, as this hand has it.
    #[must_use]
    pub const fn left(self) -> &'static str {
        match self.hand {
            Hand::Right => "left",
            Hand::Left => "right",
        }
    }

    /// The right, as this hand has it.
    #[must_use]
    pub const fn right(self) -> &'static str {
        match self.hand {
            Hand::Right => "right",
            Hand::Left => "left",
        }
    }

    /// Closing an edge.
    #[must_use]
    pub fn cast_off(self) -> &'static str {
        self.word("cast_off")
    }

    /// Which side it is.
    #[must_use]
    pub const fn side(self) -> &'static str {
        match self.terms {
            Terms::Uk => "UK",
            Terms::Us => "US",
        }
    }

    /// The stitch of a crochet lesson, by its name and in short.
    fn crochet(self) -> (&'static str, &'static str) {
        let found = STITCHES.iter().find(|(stitch, ..)| *stitch == self.stitch);
        found.map_or(("", ""), |(_, uk, us)| match self.terms {
            Terms::Uk => *uk,
            Terms::Us => *us,
        })
    }

    /// The stitch of a crochet lesson.
    #[must_use]
    pub fn plain_crochet(self) -> &'static str {
        self.crochet().0
    }

    /// The same in short.
    #[must_use]
    pub fn crochet_short(self) -> &'static str {
        self.crochet().1
    }

    /// What closes a ring.
    #[must_use]
    pub const fn slip_stitch(self) -> &'static str {
        "slip stitch"
    }

    /// The stitches of a crocheted rib: round the post from the front, and from the back.
    #[must_use]
    pub const fn post_stitches(self) -> (&'static str, &'static str, &'static str) {
        match self.terms {
            Terms::Uk => ("treble", "front post treble", "back post treble"),
            Terms::Us => (
                "double crochet",
                "front post double crochet",
                "back post double crochet",
            ),
        }
    }

    /// The stitch of a crochet lesson by its name on this side of the ocean, and how it is made.
    #[must_use]
    pub fn crochet_named(self) -> String {
        let how = match self.stitch {
            CrochetStitch::Single => "draw up a loop, yarn over and draw through both",
            CrochetStitch::ExtendedSingle => {
                "draw up a loop, yarn over and draw through one, yarn over and draw through both"
            }
            CrochetStitch::HalfDouble => "draw up a loop, yarn over and draw through all three",
            CrochetStitch::Double => {
                "draw up a loop, yarn over and draw through two, yarn over and draw through both"
            }
        };
        let over = match self.stitch {
            CrochetStitch::Single | CrochetStitch::ExtendedSingle => "",
            CrochetStitch::HalfDouble | CrochetStitch::Double => "yarn over, ",
        };
        let (name, short) = self.crochet();
        let side = self.side();
        format!(
            "{short}: {name} (its {side} name): {over}hook under both loops of the stitch, {how}"
        )
    }

    /// Stitches to 10 cm.
    #[must_use]
    pub fn tension(self) -> &'static str {
        self.word("tension")
    }

    /// One of them.
    #[must_use]
    pub fn colour(self) -> &'static str {
        self.word("colour")
    }

    /// Several of them.
    #[must_use]
    pub fn colours(self) -> &'static str {
        self.word("colours")
    }

    /// Between black and white.
    #[must_use]
    pub fn grey(self) -> &'static str {
        self.word("grey")
    }

    /// The middle.
    #[must_use]
    pub fn centre(self) -> &'static str {
        self.word("centre")
    }

    /// Who sits beside.
    #[must_use]
    pub fn neighbour(self) -> &'static str {
        self.word("neighbour")
    }

    /// Doing again what is known.
    #[must_use]
    pub fn practise(self) -> &'static str {
        self.word("practise")
    }

    /// Done again.
    #[must_use]
    pub fn practised(self) -> &'static str {
        self.word("practised")
    }

    /// Knit on one side, purl on the other.
    #[must_use]
    pub fn stocking_stitch(self) -> &'static str {
        self.word("stocking_stitch")
    }

    /// Who is asked about a small child, besides the doctor.
    #[must_use]
    pub fn nurse(self) -> &'static str {
        self.word("nurse")
    }
}
