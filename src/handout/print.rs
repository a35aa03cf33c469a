//! How pages are to be printed: with or without colour, large, for the left hand, for one learner's size.

use crate::course::Lesson;
use crate::course::body::Body;
use crate::piece::Piece;

/// Wishes for the print that go beyond paper. Any combination works.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Print {
    /// For a printer of black only: symbols without fills, and no picture that lives of its colours.
    pub black: bool,
    /// Text of 18 pt, chart cells of 8 mm and more.
    pub large: bool,
    /// Charts are read from the bottom left; numbers, words and catches are mirrored, pictures are not. A lean is what
    /// the fabric shows: which decrease makes it, the cards say for either hand.
    pub left_handed: bool,
    /// The id of one learner's size, made bold wherever it stands among others.
    pub size: Option<String>,
    /// That size alone.
    pub alone: bool,
    /// Whether the pages are folded into booklets, too, in which nothing is at life size.
    pub folded: bool,
}

impl Print {
    /// The sizes of a lesson that are printed: all, or the one asked for where the lesson has it.
    pub(super) fn sizes<'l>(&self, lesson: &'l Lesson) -> Vec<&'l Body> {
        let all: Vec<&Body> = lesson.sizes.iter().collect();
        let only: Vec<&Body> = all
            .iter()
            .copied()
            .filter(|size| self.alone && self.size.as_ref() == Some(&size.id))
            .collect();
        if only.is_empty() { all } else { only }
    }

    /// Whether the size of a piece is printed.
    pub(super) fn keeps(&self, lesson: &Lesson, piece: &Piece) -> bool {
        let sizes = self.sizes(lesson);
        let size = piece.size.as_ref();
        size.is_none_or(|size| sizes.iter().any(|kept| kept.id == size.id))
    }

    /// The place of the learner's size among several.
    pub(super) fn yours(&self, pieces: &[Piece]) -> Option<usize> {
        let wanted = self.size.as_ref().filter(|_| pieces.len() > 1)?;
        pieces
            .iter()
            .position(|piece| piece.size.as_ref().is_some_and(|size| size.id == *wanted))
    }
}
