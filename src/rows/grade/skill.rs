//! Skills that a piece can be seen to ask for. What else a lesson declares is a free word.

/// A skill that is derived from rows or from what is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Skill {
    /// Two neighbouring rows of one colour each, in different colours.
    Stripes,
    /// A colour first used after row 1.
    JoiningColours,
    /// A row of at least two colours.
    TwoColours,
    /// A row of at least three.
    ThreeColours,
    /// A float to catch.
    Catching,
    /// Rows with catches at most two apart.
    StaggeredCatches,
    /// More than twelve blocks of colour in a unit.
    LongUnit,
    /// Purling in a row of two or more colours.
    PurlInColour,
    /// Decreases or increases in a row of two or more colours.
    ShapingInColour,
    /// Less than 30 cm round.
    NarrowTube,
    /// A hat has a crown.
    CrownDecreases,
    /// Mitts have thumbs.
    Thumb,
    /// Sleeves of a yoke widen from cuff to underarm.
    SleeveIncreases,
    /// Body and sleeves of a yoke come together.
    JoiningSleeves,
    /// A yoke is higher behind.
    ShortRows,
    /// The tools and the basic stitch of a craft that the class does not have.
    FirstSteps,
}

/// Whether a technique is that of the doorstep, two colours in whatever craft: the first lesson that brings one has a
/// budget of its own.
#[must_use]
pub fn is_of_doorstep(technique: &str) -> bool {
    split_craft(technique).1 == Skill::TwoColours.id()
}

impl Skill {
    /// All of them.
    pub const ALL: [Self; 16] = [
        Self::Stripes,
        Self::JoiningColours,
        Self::TwoColours,
        Self::ThreeColours,
        Self::Catching,
        Self::StaggeredCatches,
        Self::LongUnit,
        Self::PurlInColour,
        Self::ShapingInColour,
        Self::NarrowTube,
        Self::CrownDecreases,
        Self::Thumb,
        Self::SleeveIncreases,
        Self::JoiningSleeves,
        Self::ShortRows,
        Self::FirstSteps,
    ];

    /// The word for it in files and JSON.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Stripes => "stripes",
            Self::JoiningColours => "joining-colours",
            Self::TwoColours => "two-colours",
            Self::ThreeColours => "three-colours",
            Self::Catching => "catching",
            Self::StaggeredCatches => "staggered-catches",
            Self::LongUnit => "long-unit",
            Self::PurlInColour => "purl-in-colour",
            Self::ShapingInColour => "shaping-in-colour",
            Self::NarrowTube => "narrow-tube",
            Self::CrownDecreases => "crown-decreases",
            Self::Thumb => "thumb",
            Self::SleeveIncreases => "sleeve-increases",
            Self::JoiningSleeves => "joining-sleeves",
            Self::ShortRows => "short-rows",
            Self::FirstSteps => "first-steps",
        }
    }

    /// How many techniques it weighs in a step: the first steps in a craft ask as much as three.
    #[must_use]
    pub fn weight(self) -> u32 {
        if self == Self::FirstSteps { 3 } else { 1 }
    }

    /// The skill of a technique's id, its craft left aside; `None` for a declared one.
    #[must_use]
    pub fn of(technique: &str) -> Option<Self> {
        let (_, name) = split_craft(technique);
        Self::ALL.into_iter().find(|skill| skill.id() == name)
    }
}

/// The craft before a technique's id, if one stands there, and the rest.
#[must_use]
pub fn split_craft(technique: &str) -> (Option<&str>, &str) {
    match technique.split_once('/') {
        Some((craft, name)) => (Some(craft), name),
        None => (None, technique),
    }
}
