//! Whom each size is to fit.

use crate::course::Lesson;
use crate::ground::units::Length;
use crate::piece::{Piece, body_range};

/// For each size the part of the body and the girths that it is to fit.
pub(super) fn fits(lesson: &Lesson, pieces: &[Piece]) -> Vec<(&'static str, (Length, Length))> {
    pieces
        .iter()
        .filter_map(|piece| {
            let size = piece.size.as_ref()?;
            let (name, ..) = lesson.makes.girth_of(size);
            let girth = piece.main.girth;
            Some((
                name,
                body_range(lesson.makes, girth, lesson.ease, size.adult)?,
            ))
        })
        .collect()
}
