//! A piece in one size as a whole working schedule: every stage with the stitches it begins and ends with.
//!
//! Instructions, tables, yarn and time are read from here and from nowhere else, so they cannot disagree. All sizes of a
//! lesson have the same stages in the same order (a change of no stitches stands where another size has one), so that
//! they can be told side by side.

mod builder;
pub mod contrast;
mod fits;
pub mod floss;
mod hand;
mod head;
mod jersey;
mod layout;
pub mod needles;
mod none;
pub mod practice;
pub mod schedule;
mod stages;
pub mod time;
pub mod yarn;

pub use fits::{body_range, whom};
pub use none::NoSchedule;
pub use stages::{Decided, Finished, Measured, PartName, Piece, PiecePart, Stage, StageKind};

use crate::course::Lesson;
use crate::course::body::{Body, Makes};

/// A lesson in every size that has counts, and the sizes that have none.
#[derive(Clone, Debug, Default)]
pub struct Pieces {
    /// The piece in each size, or the one that fits nobody in particular.
    pub made: Vec<Piece>,
    /// What could not be made.
    pub without: Vec<Without>,
}

/// A size without counts.
#[derive(Clone, Debug)]
pub struct Without {
    /// The size; `None` for a piece that fits nobody in particular.
    pub size: Option<Body>,
    /// Why.
    pub reason: NoSchedule,
}

/// The piece in every size of its lesson, or the one that fits nobody in particular. A size without counts takes
/// nothing from the others.
#[must_use]
pub fn pieces(lesson: &Lesson) -> Pieces {
    let all = |one: &dyn Fn(&Body) -> Result<Piece, NoSchedule>| {
        let mut all = Pieces::default();
        for size in &lesson.sizes {
            all.add(Some(size), one(size));
        }
        all
    };
    if lesson.makes == Makes::Yoke {
        // All sizes have the same stages: where one needs more rounds to narrow in, all have them.
        let jerseys = |split| all(&|size: &Body| jersey::jersey(lesson, size, split));
        let whole = jerseys(false);
        if whole.without.is_empty() {
            return whole;
        }
        let split = jerseys(true);
        if split.made.len() > whole.made.len() {
            split
        } else {
            whole
        }
    } else if lesson.makes.has_sizes() {
        all(&|size: &Body| match lesson.makes {
            Makes::Mitts | Makes::Mittens => hand::hand(lesson, size),
            _ => head::tube(lesson, size),
        })
    } else {
        let mut one = Pieces::default();
        one.add(None, head::without_size(lesson));
        one
    }
}

impl Pieces {
    fn add(&mut self, size: Option<&Body>, made: Result<Piece, NoSchedule>) {
        match made {
            Ok(piece) => self.made.push(piece),
            Err(reason) => self.without.push(Without {
                size: size.cloned(),
                reason,
            }),
        }
    }
}
