//! The four crafts: what each can make, how its rows run, what it has and has not. What each says stands in `words::craft`.

use crate::course::body::Makes;
use crate::course::chart::{Mark, Worked};
use crate::ground::named::{meant, word_of, words};
use crate::ground::units::Length;

/// What a lesson is worked in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "each variant is the word of the files")]
pub enum Craft {
    Knit,
    Crochet,
    Tunisian,
    CountedThread,
}

/// Whether a craft is worked in the round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InTheRound {
    /// As a matter of course.
    Always,
    /// Only on a hook with a point at either end.
    DoubleEnded,
    /// Nothing goes round.
    Never,
}

impl Default for Craft {
    fn default() -> Self {
        Self::USUAL
    }
}

impl Craft {
    /// The one of a bare chart, of a lesson that names none, and of a class that assumes nothing else.
    pub const USUAL: Self = Self::Knit;

    /// All of them, with the word of the files.
    const NAMES: [(Self, &'static str); 4] = [
        (Self::Knit, "knit"),
        (Self::Crochet, "crochet"),
        (Self::Tunisian, "tunisian"),
        (Self::CountedThread, "counted-thread"),
    ];

    /// The words of the files.
    pub const WORDS: [&'static str; 4] = words(&Self::NAMES);

    /// By the word of the files.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        meant(&Self::NAMES, name)
    }

    /// Stitches to 10 cm, of knitting's and crochet's what holds for this craft, and usual rows to a stitch: loops of
    /// knitting are wider than high, tall stitches of crochet higher than wide. Common practice, no source.
    pub(super) fn loops(
        self,
        knit: Option<(f64, f64)>,
        crochet: Option<(f64, f64)>,
    ) -> (Option<(f64, f64)>, (f64, f64)) {
        let both = knit.zip(crochet);
        match self {
            Self::Knit => (knit, (0.8, 2.0)),
            Self::Crochet => (crochet, (0.35, 1.7)),
            // Between the two.
            Self::Tunisian | Self::CountedThread => {
                (both.map(|(a, b)| (a.0.min(b.0), a.1.max(b.1))), (0.35, 1.7))
            }
        }
    }

    /// The word of the files.
    #[must_use]
    pub fn name(self) -> &'static str {
        word_of(&Self::NAMES, &self)
    }

    /// Whether the unused strand is carried inside the stitches, so that nothing floats free.
    #[must_use]
    pub const fn carries_inside(self) -> bool {
        matches!(self, Self::Crochet | Self::Tunisian)
    }

    /// Whether flat work is turned after each row, so that every second one is worked from the wrong side. Tunisian rows
    /// go forward and return and always face the worker; on cloth nothing is turned.
    #[must_use]
    pub const fn turns(self) -> bool {
        matches!(self, Self::Knit | Self::Crochet)
    }

    /// Whether it grows row by row; on cloth areas of colour are filled instead.
    #[must_use]
    pub const fn has_rows(self) -> bool {
        !matches!(self, Self::CountedThread)
    }

    /// Whether it is worked on a pair of needles or a circular one, and purled on the way back.
    #[must_use]
    pub const fn purls(self) -> bool {
        matches!(self, Self::Knit)
    }

    /// Whether the loops of its fabric are known by a formula, and drawn.
    #[must_use]
    pub const fn knows_loops(self) -> bool {
        matches!(self, Self::Knit)
    }

    /// Stitches a minute, plain and in two colours or more: of a fluent hand, and in a class of learners. Common practice of
    /// knitting, no source; of the others our estimate.
    #[must_use]
    pub const fn rates(self) -> [(f64, f64); 2] {
        match self {
            Self::Knit => [(20.0, 12.0), (12.0, 7.0)],
            Self::Crochet => [(15.0, 10.0), (9.0, 6.0)],
            // Each stitch is worked twice, forward and back.
            Self::Tunisian => [(12.0, 8.0), (7.0, 5.0)],
            Self::CountedThread => [(3.0, 3.0), (1.5, 1.5)],
        }
    }

    /// What it makes here.
    #[must_use]
    pub const fn makes(self) -> &'static [Makes] {
        match self {
            Self::Knit => &[
                Makes::Swatch,
                Makes::Scarf,
                Makes::Cowl,
                Makes::Headband,
                Makes::Hat,
                Makes::Mitts,
                Makes::Mittens,
                Makes::Yoke,
            ],
            Self::Crochet => &[
                Makes::Swatch,
                Makes::Scarf,
                Makes::Cowl,
                Makes::Headband,
                Makes::Hat,
            ],
            Self::Tunisian => &[Makes::Swatch, Makes::Scarf, Makes::Cowl, Makes::Headband],
            Self::CountedThread => &[Makes::Swatch, Makes::Band, Makes::Sampler],
        }
    }

    /// Whether it goes round.
    #[must_use]
    pub const fn in_the_round(self) -> InTheRound {
        match self {
            Self::Knit | Self::Crochet => InTheRound::Always,
            Self::Tunisian => InTheRound::DoubleEnded,
            Self::CountedThread => InTheRound::Never,
        }
    }

    /// How a lesson is worked that does not say.
    #[must_use]
    pub const fn usual(self) -> Worked {
        match self.in_the_round() {
            InTheRound::Always => Worked::Round,
            InTheRound::DoubleEnded | InTheRound::Never => Worked::Flat,
        }
    }

    /// How high a row of rib is, in plain rows: stitches round the post are about twice as high as plain ones. From memory.
    #[must_use]
    pub const fn rib_rows(self) -> f64 {
        match self {
            Self::Crochet => 2.0,
            _ => 1.0,
        }
    }

    /// The side of the swatch that is bought for: what a gauge is counted over where it is unravelled again, more where it is
    /// not.
    #[must_use]
    pub const fn swatch(self) -> Length {
        match self {
            Self::Knit | Self::CountedThread => Length::mm(100.0),
            Self::Crochet | Self::Tunisian => Length::mm(150.0),
        }
    }

    /// Whether it has ribs.
    #[must_use]
    pub const fn has_rib(self) -> bool {
        matches!(self, Self::Knit | Self::Crochet)
    }

    /// Whether a mark of a chart can be worked in it.
    #[must_use]
    pub const fn has_mark(self, mark: Mark) -> bool {
        match self {
            Self::Knit => true,
            Self::Crochet | Self::Tunisian => !matches!(mark, Mark::Purl),
            Self::CountedThread => matches!(mark, Mark::Plain),
        }
    }
}

/// How the rows of a chart are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reads {
    /// In rounds, each from right to left.
    Rounds,
    /// Turned after each row: odd ones from the right side, even ones from the wrong side and the other way.
    Turning,
    /// Forward from right to left and return, the right side always facing.
    ForwardAndReturn,
    /// Not in rows: counted from the middle.
    FromTheMiddle,
}

impl Reads {
    /// A chart by itself.
    #[must_use]
    pub const fn of_chart(worked: Worked) -> Self {
        match worked {
            Worked::Round => Self::Rounds,
            Worked::Flat => Self::Turning,
        }
    }

    /// In rounds.
    #[must_use]
    pub const fn is_round(self) -> bool {
        matches!(self, Self::Rounds)
    }

    /// Whether a chart's row (from 0) is worked from its other end.
    #[must_use]
    pub const fn is_back(self, row: usize) -> bool {
        matches!(self, Self::Turning) && row % 2 == 1
    }
}

/// The stitch that crochet colourwork is worked in, by its name in the United States.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "each variant is the word of the files")]
pub enum CrochetStitch {
    #[default]
    Single,
    ExtendedSingle,
    HalfDouble,
    Double,
}

impl CrochetStitch {
    /// All of them, with the word of the files.
    pub const NAMES: [(Self, &'static str); 4] = [
        (Self::Single, "single"),
        (Self::ExtendedSingle, "extended-single"),
        (Self::HalfDouble, "half-double"),
        (Self::Double, "double"),
    ];

    /// The words of the files.
    pub const WORDS: [&'static str; 4] = words(&Self::NAMES);

    /// By the word of the files.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        meant(&Self::NAMES, name)
    }

    /// Chains that lift the hook to its height at the start of a row. Common practice; that of the extended stitch from
    /// memory.
    #[must_use]
    pub const fn turning_chain(self) -> usize {
        match self {
            Self::Single => 1,
            Self::ExtendedSingle | Self::HalfDouble => 2,
            Self::Double => 3,
        }
    }

    /// Stitches of the ring that a flat disc begins with, and by which it grows each round. Common practice; that of the
    /// extended stitch from memory.
    #[must_use]
    pub const fn ring(self) -> usize {
        match self {
            Self::Single => 6,
            Self::ExtendedSingle | Self::HalfDouble => 8,
            Self::Double => 12,
        }
    }

    /// Whether those chains count as the row's first stitch. Common practice.
    #[must_use]
    pub const fn chain_counts(self) -> bool {
        matches!(self, Self::Double)
    }
}

/// How rounds of crochet are closed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Closing {
    /// Each with a slip stitch into its first stitch.
    #[default]
    Joined,
    /// Not at all: the next goes on above.
    Spiral,
}

impl Closing {
    /// Both, with the word of the files.
    const NAMES: [(Self, &'static str); 2] = [(Self::Joined, "joined"), (Self::Spiral, "spiral")];

    /// The words of the files.
    pub const WORDS: [&'static str; 2] = words(&Self::NAMES);

    /// By the word of the files.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        meant(&Self::NAMES, name)
    }
}

/// The role of what is not stitched.
pub const CLOTH: &str = "cloth";

/// The cloth that counted thread is stitched on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cloth {
    /// Threads, or squares of an even weave, to an inch.
    pub count: f64,
    /// Threads that a cross covers each way.
    pub over: u32,
}

impl Cloth {
    /// Crosses to 10 cm.
    #[must_use]
    pub fn crosses(self) -> f64 {
        self.count / f64::from(self.over.max(1)) / 25.4 * 100.0
    }
}
