//! The circular yoke, bottom-up: body, sleeves, the joined round, every band of the yoke, and the neck.
//!
//! The starting curve is Elizabeth Zimmermann's percentage system (*Knitting Around*, 1989, after readers' summaries
//! that agree with each other). Bands have counts that are multiples of their repeats, found by dynamic programming
//! nearest to that curve between the joined round and the neck. The rest are rules of the trade, marked where they
//! stand.

mod advice;
mod layout;
mod parts;
mod solve;
mod stages;

pub use advice::{NoWay, YokePlace, YokeRemedy};
pub use parts::{ARMHOLE_OVER, DepthRule, NECK_OVER, NeckRule, Parts};
pub use stages::{BandPlan, Turn, Yoke, YokeStage, YokeStageKind, plan};

use crate::ground::units::{Gauge, Length};
use crate::piece::schedule::multiple::Fit;

/// Shares of the body's stitches or girth, each a fraction of 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Percentages {
    /// Upper sleeve.
    pub sleeve: f64,
    /// Cuff.
    pub cuff: f64,
    /// Underarm, set aside on the body and on each sleeve.
    pub underarm: f64,
    /// Neck.
    pub neck: f64,
    /// Depth of the yoke, of the body's girth.
    pub depth: f64,
    /// Decrease rounds of the bare yoke: at which share of the depth, and what share of the stitches stays.
    pub steps: [(f64, f64); 3],
}

impl Percentages {
    /// Decreases of 25, 33.3 and 40 % at one half, three quarters and the neck. Source: Zimmermann, *Knitting Around*
    /// (1989), from readers' summaries; the cuff from memory.
    pub const KNITTING_AROUND: Self = Self {
        sleeve: 0.33,
        cuff: 0.20,
        underarm: 0.08,
        neck: 0.40,
        depth: 0.25,
        steps: [(0.5, 3.0 / 4.0), (0.75, 2.0 / 3.0), (1.0, 3.0 / 5.0)],
    };
}

/// How a count may change in the plain rounds beneath a band or the neck.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Loss {
    /// Not at all: the bands meet.
    Keep,
    /// By a tenth at most, in the last of the plain rounds that lie there, so that the repeat fits. Our choice: what
    /// does not show as shaping. Without a plain round it is [`Loss::Keep`].
    Adjust,
    /// By two fifths at most, as the steepest of the published rounds: a place for a decrease round, which is added if no
    /// plain round lies there.
    Decrease,
}

/// A band of the yoke.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct YokeBand {
    /// Plain rounds beneath it that the lesson asks for; the schedule may add more where stitches may be lost.
    pub plain_before: usize,
    /// How the count may change in them.
    pub loss: Loss,
    /// Its rounds.
    pub rounds: usize,
    /// Its repeat and edge stitches.
    pub fit: Fit,
    /// For a chart with shaping: stitches that one repeat has after each round, from its first; empty if nothing is
    /// lost inside.
    pub shaped: Vec<usize>,
    /// Plain rounds between two places for decreases rather than a pattern: any count will do, at the plain gauge.
    pub plain: bool,
}

impl YokeBand {
    /// Plain rounds between two places for decreases, with one below them.
    #[must_use]
    pub const fn between(plain_before: usize, rounds: usize) -> Self {
        Self {
            plain_before,
            loss: Loss::Decrease,
            rounds,
            fit: Fit::FREE,
            shaped: Vec::new(),
            plain: true,
        }
    }
}

/// What a yoke is made from.
#[derive(Clone, Debug, PartialEq)]
pub struct YokeWish {
    /// Chest girth of the size.
    pub chest: Length,
    /// What the body is wider: usually 5 cm for a child, 8 cm for an adult. Common practice, no source.
    pub ease: Length,
    /// Head girth; the neck must pass over it.
    pub head: Option<Length>,
    /// Girth at the base of the neck; the neck is not much wider.
    pub neck_base: Option<Length>,
    /// Armhole depth; the yoke is not much deeper.
    pub armhole: Option<Length>,
    /// Girth of the wrist; a cuff is not much wider.
    pub wrist: Option<Length>,
    /// What a cuff is wider than the wrist at most.
    pub wrist_ease: Length,
    /// Finished girth of the upper sleeve instead of the percentage, for arms that it is too narrow for.
    pub upper_sleeve: Option<Length>,
    /// Gauge of body, sleeves, plain rounds and neck.
    pub plain: Gauge,
    /// Gauge of the bands.
    pub colourwork: Gauge,
    /// The percentages.
    pub percentages: Percentages,
    /// Bands from the join upwards.
    pub bands: Vec<YokeBand>,
    /// Plain rounds beneath the neck rib.
    pub plain_before_neck: usize,
    /// How the count may change in them.
    pub neck_loss: Loss,
    /// Repeat of the rib at neck and cuffs; 1 if any count will do.
    pub rib: usize,
    /// Plain rounds after joining before the first band, so that the underarm is clear; `None` for the usual
    /// 2 cm, three rounds at least. Common practice, no source.
    pub clear: Option<usize>,
}

/// Why there is no yoke.
#[derive(Clone, Debug, PartialEq)]
pub enum YokeError {
    /// A length, gauge or percentage that cannot be reckoned with.
    BadMeasure(Measure),
    /// More stitches or rounds than any garment has.
    TooLarge,
    /// A body of so few stitches has no yoke.
    TooFew {
        /// Stitches of the body.
        body: usize,
    },
    /// A band without rounds or repeat, or whose shaping grows, loses more than half in a round, or has another number
    /// of rounds.
    BadBand {
        /// Index of the band.
        band: usize,
    },
    /// The neck has more stitches than the joined round.
    NeckTooWide {
        /// Stitches of the neck.
        neck: usize,
        /// Stitches of the joined round.
        joined: usize,
    },
    /// Bands and plain rounds are deeper than the yoke may be.
    TooDeep {
        /// What they need.
        needed: Length,
        /// What there is, with the three centimetres that are forgiven.
        allowed: Length,
    },
    /// No counts lead from the joined round to the neck.
    NoWay(Box<NoWay>),
}

/// A measure of a [`YokeWish`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "each variant is a field of the wish")]
pub enum Measure {
    Chest,
    Head,
    NeckBase,
    Armhole,
    UpperSleeve,
    Wrist,
    PlainGauge,
    ColourworkGauge,
    Percentages,
    Rib,
}
