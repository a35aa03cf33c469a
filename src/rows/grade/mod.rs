//! From measures to a grade of 0 to 100 in five parts, with the reason for each. Facts only: words come later.

mod cause;
mod parts;
mod setting;
mod skill;
mod techniques;

pub use cause::{Cause, Fact};
pub use parts::{NARROW_TUBE, colours_part, floats_part, reading_part, relief_part};
pub use setting::{HandlingReason, Setting};
pub use skill::{Skill, is_of_doorstep, split_craft};
pub use techniques::with_craft;

use std::collections::BTreeSet;

use crate::course::{Levels, Part, Weights};
use crate::rows::measure::Measures;
use crate::rows::walk::Work;

/// What a lesson asks, as far as steps see it.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// Each part, 0 to 1.
    pub parts: [f64; 5],
    /// Its techniques.
    pub techniques: BTreeSet<String>,
}

/// Whether techniques have two colours, in whatever craft.
#[must_use]
pub fn has_doorstep(techniques: &BTreeSet<String>) -> bool {
    techniques.iter().any(|id| is_of_doorstep(id))
}

/// The trade body's four project levels (2018 edition).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "each variant is the trade body's word")]
pub enum Level {
    Basic,
    Easy,
    Intermediate,
    Complex,
}

impl Level {
    /// All of them, from the lowest.
    pub const ALL: [Self; 4] = [Self::Basic, Self::Easy, Self::Intermediate, Self::Complex];

    /// The level of an unrounded grade.
    #[must_use]
    pub fn of(grade: f64, levels: Levels) -> Self {
        let [easy, intermediate, complex] = levels.0;
        match grade {
            g if g < easy => Self::Basic,
            g if g < intermediate => Self::Easy,
            g if g < complex => Self::Intermediate,
            _ => Self::Complex,
        }
    }

    /// The trade body's word.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Basic => "Basic",
            Self::Easy => "Easy",
            Self::Intermediate => "Intermediate",
            Self::Complex => "Complex",
        }
    }
}

/// A grade, its parts and what they come from.
#[derive(Clone, Debug)]
pub struct Grade {
    /// Each part, 0 to 1.
    pub parts: [f64; 5],
    /// Weight × part.
    pub points: [f64; 5],
    /// Sum of the points, unrounded.
    pub grade: f64,
    /// Its level.
    pub level: Level,
    /// Techniques met, with their craft.
    pub techniques: BTreeSet<String>,
    /// For each part what causes it.
    pub causes: [Cause; 5],
}

/// Grades measured work.
#[must_use]
pub fn grade(
    work: &Work<'_>,
    measures: &Measures,
    setting: Setting<'_>,
    weights: Weights,
    levels: Levels,
) -> Grade {
    let handling = parts::handling(work, measures, setting);
    let parts = [
        floats_part(&measures.floats, setting.craft),
        colours_part(&measures.colours),
        reading_part(&measures.reading),
        relief_part(&measures.relief),
        handling.part(),
    ];
    let mut points = [0.0; 5];
    for part in Part::ALL {
        points[part.index()] = weights.0[part.index()] * parts[part.index()];
    }
    let grade = points.iter().sum();
    Grade {
        parts,
        points,
        grade,
        level: Level::of(grade, levels),
        techniques: techniques::techniques(work, measures, setting),
        causes: cause::causes(work, measures, &handling),
    }
}
