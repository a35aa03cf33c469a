//! What a grade must know besides the measured rows.

use crate::course::body::Makes;
use crate::course::{Craft, Lesson};
use crate::ground::units::Length;

/// What a grade must know besides the measured rows.
#[derive(Clone, Copy, Debug)]
pub struct Setting<'a> {
    /// What is made; `None` for a bare chart.
    pub makes: Option<Makes>,
    /// The craft.
    pub craft: Craft,
    /// Girth of the tube at the middle size, for work in the round.
    pub tube: Option<Length>,
    /// Declared techniques.
    pub declared: &'a [String],
    /// Whether the craft is new to the class.
    pub first_steps: bool,
}

impl<'a> Setting<'a> {
    /// Of a chart by itself.
    pub const BARE: Setting<'static> = Setting {
        makes: None,
        craft: Craft::USUAL,
        tube: None,
        declared: &[],
        first_steps: false,
    };

    /// Of a lesson, for a class that has the first steps in the crafts it `assumes`.
    #[must_use]
    pub fn of(lesson: &'a Lesson, assumes: &[Craft]) -> Self {
        let round = lesson.worked == crate::course::chart::Worked::Round;
        Self {
            makes: Some(lesson.makes),
            craft: lesson.craft,
            tube: lesson
                .middle_girth()
                .filter(|_| round && lesson.makes.has_sizes()),
            declared: &lesson.techniques,
            first_steps: !assumes.contains(&lesson.craft),
        }
    }
}

/// Something the hands must do besides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandlingReason {
    /// A wrong-side row of two or more colours.
    PurlingBack,
    /// Decreases or increases inside the pattern.
    Shaping,
    /// A yoke: body and sleeves on one needle.
    Yoke,
    /// A tube under 30 cm round.
    NarrowTube,
    /// A steek.
    Steek,
}
