//! A piece in one size as a whole working schedule: every stage with the stitches it begins and ends with.
//!
//! Instructions, tables, yarn and time are read from here and from nowhere else, so they cannot disagree. All sizes of a
//! lesson have the same stages in the same order (a change of no stitches stands where another size has one), so that
//! they can be told side by side.

mod builder;
pub mod contrast;
mod fits;
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

/// The piece in every size of its lesson, or the one that fits nobody in particular.
///
/// # Errors
/// When no counts do; the reason names the size.
pub fn pieces(lesson: &Lesson) -> Result<Vec<Piece>, NoSchedule> {
    if lesson.makes == Makes::Yoke {
        // All sizes have the same stages: where one needs more rounds to narrow in, all have them.
        let all = |split| -> Result<Vec<Piece>, NoSchedule> {
            let each = lesson.sizes.iter();
            each.map(|size| jersey::jersey(lesson, size, split))
                .collect()
        };
        all(false).or_else(|reason| all(true).map_err(|_| reason))
    } else if lesson.makes.has_sizes() {
        lesson
            .sizes
            .iter()
            .map(|size| piece(lesson, size))
            .collect()
    } else {
        Ok(vec![head::without_size(lesson)?])
    }
}

/// The piece in one size.
///
/// # Errors
/// When no counts do.
pub fn piece(lesson: &Lesson, size: &Body) -> Result<Piece, NoSchedule> {
    match lesson.makes {
        Makes::Yoke => jersey::jersey(lesson, size, false),
        Makes::Mitts | Makes::Mittens => hand::hand(lesson, size),
        _ => head::tube(lesson, size),
    }
}
