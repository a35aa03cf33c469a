//! The stages of a piece, each with the stitches it begins and ends with.

use crate::course::Lesson;
use crate::course::body::Body;
use crate::ground::units::Length;
use crate::piece::schedule::Round;
use crate::piece::schedule::counts::{Outcome, Remedies};
use crate::piece::schedule::even::Spread;
use crate::piece::schedule::runs::GapRun;
use crate::piece::schedule::yoke::{DepthRule, NeckRule, Turn};

/// What is done in a stage.
#[derive(Clone, Debug, PartialEq)]
pub enum StageKind {
    /// The stitches to begin with.
    CastOn,
    /// A rib; its band, or `None` for one that the garment has by custom.
    Rib(Option<usize>),
    /// Plain rounds or rows of a band (or by custom); where a length says when to stop, it.
    Plain(Option<usize>, Option<Length>),
    /// The rows of a chart band, so many repeats across.
    Band(usize, usize),
    /// One plain round that gains or loses stitches evenly; possibly none.
    Change(Spread),
    /// The shaping rounds of a crown, mitten top or thumb, told as one.
    Rounds(Vec<Round>),
    /// Sleeve increases: two stitches in a round, first after so many rounds, then by these runs.
    Increases {
        /// The first increase round.
        first: usize,
        /// Every so many rounds, so many times.
        every: Vec<GapRun>,
    },
    /// Stitches that wait: at an underarm, or a thumb's.
    Hold(usize),
    /// Body and sleeves on one needle: body, sleeve, and what was set aside at each underarm.
    Join {
        /// Body stitches.
        body: usize,
        /// Stitches of one sleeve.
        sleeve: usize,
        /// Set aside at each underarm, on body and sleeve alike.
        underarm: usize,
    },
    /// The opening of a thumb, told before the rounds in which it comes.
    Opening {
        /// So many stitches on waste yarn, worked once more.
        held: usize,
        /// In this of the rounds that follow, from 1.
        round: usize,
    },
    /// Stitches picked up round an opening.
    PickUp(usize),
    /// Short rows.
    ShortRows(Vec<Turn>),
    /// Bound off.
    CastOff,
    /// Drawn up on the yarn.
    DrawUp,
}

/// A stage.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// What is done.
    pub kind: StageKind,
    /// Rounds or rows; 0 for what is no round of its own.
    pub rounds: usize,
    /// Stitches at its beginning.
    pub before: usize,
    /// Stitches at its end.
    pub after: usize,
}

impl Stage {
    /// How high its rounds are.
    #[must_use]
    pub fn height(&self, lesson: &Lesson) -> Length {
        let gauge = match self.kind {
            StageKind::Band(..) => lesson.colourwork.gauge,
            _ => lesson.plain_gauge(),
        };
        gauge.height(self.rounds as f64)
    }
}

/// Which part of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartName {
    /// All of it: the piece has no parts.
    Whole,
    /// The hand of a mitt.
    Hand,
    /// Its thumb.
    Thumb,
    /// A jersey's body, to the underarm.
    Body,
    /// Its sleeves, to the underarm.
    Sleeves,
    /// All above the join.
    Yoke,
}

/// A part of a piece: the stages of a body, a sleeve, a thumb.
#[derive(Clone, Debug, PartialEq)]
pub struct PiecePart {
    /// Which.
    pub name: PartName,
    /// How many are made of it.
    pub times: usize,
    /// Its stages; each begins with the stitches that the one before left.
    pub stages: Vec<Stage>,
}

/// What is measured of a finished piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// All round.
    Girth,
    /// Of a flat piece.
    Width,
    /// From the cast-on to the end.
    Length,
    /// Of a band or cowl.
    Height,
    /// Of a hat, from the edge to the crown's top.
    Depth,
    /// Round a jersey's body.
    Chest,
    /// A jersey's body.
    HemToUnderarm,
    /// A jersey's sleeve.
    SleeveToUnderarm,
    /// Round the sleeve where it is widest.
    UpperSleeve,
    /// From the join to the neck.
    YokeDepth,
    /// Round the neck.
    Neck,
}

/// A measure of the finished piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finished {
    /// What is measured.
    pub what: Measured,
    /// How much.
    pub length: Length,
}

/// Rules that decided something which a reader may want to know.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decided {
    /// The neck of a yoke.
    Neck(NeckRule),
    /// Its depth.
    Depth(DepthRule),
}

/// A piece in one size.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The size; `None` for a piece that fits nobody in particular.
    pub size: Option<Body>,
    /// The girth aimed at; the width of a flat piece.
    pub target: Option<Length>,
    /// The count that decides how it fits, what it measures, and how far that is off.
    pub main: Outcome,
    /// Repeats of the widest chart in that count; 0 without a chart.
    pub repeats: usize,
    /// What would help a count that is more than 3 % off.
    pub remedies: Option<Remedies>,
    /// Its parts in the order of work.
    pub parts: Vec<PiecePart>,
    /// Finished measures.
    pub finished: Vec<Finished>,
    /// Rules that decided something.
    pub decided: Vec<Decided>,
}

impl Piece {
    /// Whether it is the same piece in another size: every stage and every measure, and for bodies as grown up.
    #[must_use]
    pub fn is_like(&self, other: &Self) -> bool {
        let adult = |piece: &Self| piece.size.as_ref().map(|size| size.adult);
        self.parts == other.parts && self.finished == other.finished && adult(self) == adult(other)
    }
}

impl Piece {
    /// Stitches to cast on in its first part.
    #[must_use]
    pub fn cast_on(&self) -> usize {
        let first = self.parts.first().and_then(|part| part.stages.first());
        first.map_or(0, |stage| stage.after)
    }
}
