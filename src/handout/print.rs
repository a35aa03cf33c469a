//! How pages are to be printed: with or without colour, large, for the left hand, for one learner's size.

use crate::course::body::Body;
use crate::course::{Binding, Hand, Lesson, PrintedSizes, Printer, TypeSize};
use crate::piece::Piece;

/// Wishes for the print that go beyond paper. Any combination works.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Print {
    /// What the printer has.
    pub ink: Printer,
    /// How large pages are set.
    pub type_size: TypeSize,
    /// The hand that charts are read for.
    pub hand: Hand,
    /// Which sizes are printed.
    pub sizes: PrintedSizes,
    /// What becomes of the sheets.
    pub binding: Binding,
}

impl Print {
    /// Whether it is for black ink alone.
    #[must_use]
    pub fn is_black(&self) -> bool {
        self.ink == Printer::Black
    }

    /// Whether it is large print.
    #[must_use]
    pub fn is_large(&self) -> bool {
        self.type_size == TypeSize::Large
    }

    /// Whether it is for a left-handed worker.
    #[must_use]
    pub fn is_left_handed(&self) -> bool {
        self.hand == Hand::Left
    }

    /// The sizes of a lesson that are printed: all, or the one asked for where the lesson has it.
    pub(super) fn sizes<'l>(&self, lesson: &'l Lesson) -> Vec<&'l Body> {
        let all: Vec<&Body> = lesson.sizes.iter().collect();
        let PrintedSizes::Only(id) = &self.sizes else {
            return all;
        };
        match all.iter().find(|size| size.id == *id) {
            Some(only) => vec![only],
            None => all,
        }
    }

    /// Whether the size of a piece is printed.
    pub(super) fn keeps(&self, lesson: &Lesson, piece: &Piece) -> bool {
        let size = piece.size.as_ref();
        size.is_none_or(|size| self.prints(lesson, size))
    }

    /// Whether a size is printed.
    pub(super) fn prints(&self, lesson: &Lesson, size: &Body) -> bool {
        self.sizes(lesson).iter().any(|kept| kept.id == size.id)
    }

    /// The id of the learner's size, if one was named.
    pub(super) fn wanted(&self) -> Option<&str> {
        match &self.sizes {
            PrintedSizes::All => None,
            PrintedSizes::Marked(id) | PrintedSizes::Only(id) => Some(id),
        }
    }

    /// The place of the learner's size among several.
    pub(super) fn yours(&self, pieces: &[Piece]) -> Option<usize> {
        let wanted = self.wanted()?;
        if pieces.len() < 2 {
            return None;
        }
        pieces
            .iter()
            .position(|piece| piece.size.as_ref().is_some_and(|size| size.id == *wanted))
    }
}
