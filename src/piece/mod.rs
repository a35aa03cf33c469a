//! A piece in one size as a whole working schedule: every stage with the stitches it begins and ends with.
//!
//! Instructions, tables, yarn and time are read from here and from nowhere else, so they cannot disagree. All sizes of a
//! lesson have the same stages in the same order (a change of no stitches stands where another size has one), so that
//! they can be told side by side.

pub mod contrast;
mod fits;
mod hand;
mod head;
mod jersey;
mod layout;
pub mod schedule;
pub mod time;
mod why;
pub mod yarn;

pub use fits::{body_range, whom};
pub use why::{NoSchedule, why};

use crate::course::Lesson;
use crate::course::body::{Body, Makes};
use crate::ground::units::Length;
use crate::piece::schedule::Round;
use crate::piece::schedule::counts::{Outcome, Remedies};
use crate::piece::schedule::even::{Ends, Spread, spread};
use crate::piece::schedule::multiple::Fit;
use crate::piece::schedule::runs::Run;
use crate::piece::schedule::yoke::{DepthRule, NeckRule, Turn};

/// What is done in a stage.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
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
        every: Vec<Run>,
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
    /// The opening of a thumb: so many stitches on waste yarn, worked once more.
    Opening(usize),
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
    pub kind: Kind,
    /// Rounds or rows; 0 for what is no round of its own.
    pub rounds: usize,
    /// Stitches at its beginning.
    pub before: usize,
    /// Stitches at its end.
    pub after: usize,
}

/// A part of a piece: the stages of a body, a sleeve, a thumb.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its name; empty for a piece of one part.
    pub name: &'static str,
    /// How many are made of it.
    pub times: usize,
    /// Its stages; each begins with the stitches that the one before left.
    pub stages: Vec<Stage>,
}

/// A measure of the finished piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finished {
    /// Its name.
    pub name: &'static str,
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
    pub parts: Vec<Part>,
    /// Finished measures.
    pub finished: Vec<Finished>,
    /// Rules that decided something.
    pub decided: Vec<Decided>,
}

impl Piece {
    /// Stitches to cast on in its first part.
    #[must_use]
    pub fn cast_on(&self) -> usize {
        let first = self.parts.first().and_then(|part| part.stages.first());
        first.map_or(0, |stage| stage.after)
    }
}

/// The piece in every size of its lesson, or the one that fits nobody in particular.
///
/// # Errors
/// When no counts do; the reason names the size.
pub fn pieces(lesson: &Lesson) -> Result<Vec<Piece>, NoSchedule> {
    if lesson.makes.has_sizes() {
        lesson
            .sizes
            .iter()
            .map(|size| piece(lesson, size))
            .collect()
    } else {
        Ok(vec![head::without_size(lesson)?])
    }
}

/// The piece in the middle size, the lower of two.
#[must_use]
pub fn middle(pieces: &[Piece]) -> Option<&Piece> {
    pieces.get(pieces.len().div_ceil(2).checked_sub(1)?)
}

/// The piece in one size.
///
/// # Errors
/// When no counts do.
pub fn piece(lesson: &Lesson, size: &Body) -> Result<Piece, NoSchedule> {
    match lesson.makes {
        Makes::Yoke => jersey::jersey(lesson, size),
        Makes::Mitts | Makes::Mittens => hand::hand(lesson, size),
        _ => head::tube(lesson, size),
    }
}

/// Ends of an even change in this lesson.
fn ends(lesson: &Lesson) -> Ends {
    match lesson.worked {
        crate::course::chart::Worked::Round => Ends::Round,
        crate::course::chart::Worked::Flat => Ends::Flat,
    }
}

/// Builds the stages of a part, each beginning where the last one ended.
struct Stages {
    stages: Vec<Stage>,
    now: usize,
}

impl Stages {
    fn cast_on(stitches: usize) -> Self {
        Self {
            stages: vec![Stage {
                kind: Kind::CastOn,
                rounds: 0,
                before: 0,
                after: stitches,
            }],
            now: stitches,
        }
    }

    fn add(&mut self, kind: Kind, rounds: usize, after: usize) {
        self.stages.push(Stage {
            kind,
            rounds,
            before: self.now,
            after,
        });
        self.now = after;
    }

    /// A stage that leaves the count as it is.
    fn keep(&mut self, kind: Kind, rounds: usize) {
        self.add(kind, rounds, self.now);
    }

    /// An even change to `after`, also when it changes nothing.
    fn change(&mut self, after: usize, ends: Ends) -> Result<(), NoSchedule> {
        let spread = spread(self.now, after, ends).map_err(|_| NoSchedule::TooSteep {
            from: self.now,
            to: after,
        })?;
        let rounds = usize::from(spread.changes() > 0);
        self.add(Kind::Change(spread), rounds, after);
        Ok(())
    }

    /// The rounds of a crown or top, also where a small size needs none.
    fn rounds(&mut self, rounds: Vec<Round>) {
        let after = rounds.last().map_or(self.now, |round| round.after);
        self.add(Kind::Rounds(rounds.clone()), rounds.len(), after);
    }
}

/// What a chart asks of its count.
fn chart_fit(chart: &crate::course::chart::Chart) -> Fit {
    let repeat = chart.repeat_stitches.len();
    Fit {
        multiple: repeat,
        edges: chart.width - repeat,
    }
}
