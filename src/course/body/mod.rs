//! Bodies: girths by size id, each with its source, and the girth a piece is made to.
//!
//! Adult sizes are sex-neutral: the mean of women's and men's 15th, 50th and 85th percentile, each taken as
//! mean + z · sd (z = ∓1.0364) of the ANSUR II survey. Garment sizes keep the trade body's chest and the median
//! head and hand of that sex. Between five years (WHO) and grown up (ANSUR II) nothing is published in these
//! sources that joins both: those heads lie on a straight line from five years to the adult median at seventeen.

mod garment;

pub use garment::{Garment, Given, garment, measures_of};

use crate::ground::named::{meant, word_of, words};
use crate::ground::units::{Length, stitches_in};

/// Where a girth comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// WHO Child Growth Standards 2006/2007, head circumference for age; mean of girls' and boys' median.
    Who,
    /// ANSUR II, NATICK/TR-15/007 (2014), computed from the public raw data.
    Ansur,
    /// The trade body's garment size charts (edition 2018), partly from memory.
    TradeBody,
    /// Between two sources, or above the last one, in a straight line.
    Bridged,
    /// From memory, not confirmed; a plausible hand or chest of that age.
    Memory,
    /// Given by the course.
    Course,
}

impl Source {
    /// What stands in small print.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Who => "WHO Child Growth Standards (2007), median of girls and boys",
            Self::Ansur => "ANSUR II survey (2014)",
            Self::TradeBody => {
                "the yarn trade body's size charts (2018 edition), partly from memory"
            }
            Self::Bridged => "bridged in a straight line between two sources",
            Self::Memory => "from memory, not confirmed",
            Self::Course => "given by this course",
        }
    }
}

/// A size: girths in millimetres, each with its source.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// The size id of the files.
    pub id: String,
    /// What stands on pages.
    pub label: String,
    /// Head girth above the ears.
    pub head: (Length, Source),
    /// Hand girth at the knuckles.
    pub hand: (Length, Source),
    /// Chest girth.
    pub chest: (Length, Source),
    /// Garment measures that the course gives.
    pub given: Given,
    /// Under 36 months: fingers and toes catch in floats.
    pub infant: bool,
    /// Grown up: decides the ease of a yoke.
    pub adult: bool,
}

/// A row of the built-in table.
#[derive(Clone, Copy, Debug)]
pub struct SizeRow {
    /// The size id.
    pub id: &'static str,
    label: &'static str,
    head: (f64, Source),
    hand: (f64, Source),
    chest: (f64, Source),
    infant: bool,
    adult: bool,
}

use Source::{Ansur, Bridged, Memory, TradeBody, Who};

const fn row(
    id: &'static str,
    label: &'static str,
    head: (f64, Source),
    hand: (f64, Source),
    chest: (f64, Source),
) -> SizeRow {
    SizeRow {
        id,
        label,
        head,
        hand,
        chest,
        infant: false,
        adult: false,
    }
}

const fn infant(mut row: SizeRow) -> SizeRow {
    row.infant = true;
    row
}

const fn adult(mut row: SizeRow) -> SizeRow {
    row.adult = true;
    row
}

const fn woman(id: &'static str, label: &'static str, chest: f64) -> SizeRow {
    adult(row(
        id,
        label,
        (560.0, Ansur),
        (187.0, Ansur),
        (chest, TradeBody),
    ))
}

const fn man(id: &'static str, label: &'static str, chest: f64) -> SizeRow {
    adult(row(
        id,
        label,
        (574.0, Ansur),
        (212.0, Ansur),
        (chest, TradeBody),
    ))
}

/// All built-in sizes. Lengths in millimetres; garment sizes take the middle of the chart's chest range.
pub const TABLE: &[SizeRow] = &[
    infant(row(
        "baby-newborn",
        "Baby, newborn",
        (341.7, Who),
        (95.0, Memory),
        (360.0, Memory),
    )),
    infant(row(
        "baby-6m",
        "Baby, 6 months",
        (427.7, Who),
        (110.0, Memory),
        (430.0, TradeBody),
    )),
    infant(row(
        "baby-12m",
        "Baby, 12 months",
        (454.8, Who),
        (118.0, Memory),
        (455.0, TradeBody),
    )),
    infant(row(
        "child-2",
        "Child, 2 years",
        (477.2, Who),
        (125.0, Memory),
        (530.0, TradeBody),
    )),
    row(
        "child-4",
        "Child, 4 years",
        (497.7, Who),
        (135.0, Memory),
        (585.0, TradeBody),
    ),
    row(
        "child-6",
        "Child, 6 years",
        (508.7, Bridged),
        (145.0, Memory),
        (635.0, TradeBody),
    ),
    row(
        "child-8",
        "Child, 8 years",
        (519.4, Bridged),
        (155.0, Memory),
        (670.0, TradeBody),
    ),
    row(
        "child-10",
        "Child, 10 years",
        (530.2, Bridged),
        (164.0, Memory),
        (710.0, TradeBody),
    ),
    row(
        "child-12",
        "Child, 12 years",
        (540.9, Bridged),
        (173.0, Memory),
        (760.0, TradeBody),
    ),
    row(
        "child-14",
        "Child, 14 years",
        (551.7, Bridged),
        (182.0, Memory),
        (800.0, TradeBody),
    ),
    adult(row(
        "adult-small",
        "Adult small",
        (549.4, Ansur),
        (189.6, Ansur),
        (914.7, Ansur),
    )),
    adult(row(
        "adult-medium",
        "Adult medium",
        (567.8, Ansur),
        (199.5, Ansur),
        (1002.8, Ansur),
    )),
    adult(row(
        "adult-large",
        "Adult large",
        (586.1, Ansur),
        (209.3, Ansur),
        (1090.9, Ansur),
    )),
    woman("woman-xs", "Woman XS", 737.5),
    woman("woman-s", "Woman S", 837.5),
    woman("woman-m", "Woman M", 940.0),
    woman("woman-l", "Woman L", 1040.0),
    woman("woman-1x", "Woman 1X", 1142.5),
    woman("woman-2x", "Woman 2X", 1245.0),
    woman("woman-3x", "Woman 3X", 1345.0),
    woman("woman-4x", "Woman 4X", 1445.0),
    woman("woman-5x", "Woman 5X", 1550.0),
    man("man-s", "Man S", 887.5),
    man("man-m", "Man M", 990.0),
    man("man-l", "Man L", 1090.0),
    man("man-xl", "Man XL", 1192.5),
    man("man-xxl", "Man XXL", 1295.0),
];

impl SizeRow {
    /// The row as a [`Body`].
    #[must_use]
    pub fn body(&self) -> Body {
        let girth = |(mm, source): (f64, Source)| (Length::mm(mm), source);
        Body {
            id: self.id.to_owned(),
            label: self.label.to_owned(),
            head: girth(self.head),
            hand: girth(self.hand),
            chest: girth(self.chest),
            given: Given::default(),
            infant: self.infant,
            adult: self.adult,
        }
    }
}

/// What a lesson makes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "each variant is the word of the files")]
pub enum Makes {
    Swatch,
    Scarf,
    Cowl,
    Headband,
    Hat,
    Mitts,
    Mittens,
    Yoke,
    Band,
    Sampler,
}

impl Makes {
    /// All, with the word of the files and the words of a page.
    const NAMES: [(Self, &'static str); 10] = [
        (Self::Swatch, "swatch"),
        (Self::Scarf, "scarf"),
        (Self::Cowl, "cowl"),
        (Self::Headband, "headband"),
        (Self::Hat, "hat"),
        (Self::Mitts, "mitts"),
        (Self::Mittens, "mittens"),
        (Self::Yoke, "yoke"),
        (Self::Band, "band"),
        (Self::Sampler, "sampler"),
    ];

    /// The words of the files.
    pub const WORDS: [&'static str; 10] = words(&Self::NAMES);

    /// By the word of the files.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        meant(&Self::NAMES, name)
    }

    /// The word of the files.
    #[must_use]
    pub fn name(self) -> &'static str {
        word_of(&Self::NAMES, &self)
    }

    /// Whether the piece must fit a body.
    #[must_use]
    pub fn has_sizes(self) -> bool {
        !matches!(
            self,
            Self::Swatch | Self::Scarf | Self::Band | Self::Sampler
        )
    }

    /// Which girth of the body decides, and what it is called.
    #[must_use]
    pub fn girth_of(self, body: &Body) -> (&'static str, Length, Source) {
        match self {
            Self::Mitts | Self::Mittens => ("hand", body.hand.0, body.hand.1),
            Self::Yoke => ("chest", body.chest.0, body.chest.1),
            _ => ("head", body.head.0, body.head.1),
        }
    }
}

/// The girth a piece is made to at its colourwork, before any rounding. `ease` replaces the usual ease; common
/// practice, no source. `None` for pieces that fit nobody in particular (swatch, scarf).
#[must_use]
pub fn target_girth(makes: Makes, body: &Body, ease: Option<Length>) -> Option<Length> {
    let (_, girth, _) = makes.girth_of(body);
    let (share, more) = girth_rule(makes, body.adult, ease)?;
    let mm = girth.to_mm() * share + more;
    Some(Length::mm(if ease.is_some() { mm.max(10.0) } else { mm }))
}

/// The girth of a body that a piece of this girth is made to: [`target_girth`] read backwards. `adult` decides the ease
/// of a yoke. `None` for pieces that fit nobody in particular, and for girths that no body has.
#[must_use]
pub fn body_girth(
    makes: Makes,
    girth: Length,
    ease: Option<Length>,
    adult: bool,
) -> Option<Length> {
    let (share, more) = girth_rule(makes, adult, ease)?;
    let mm = (girth.to_mm() - more) / share;
    (mm > 0.0 && mm.is_finite()).then_some(Length::mm(mm))
}

/// What a piece is wider or narrower than the body: a share of the girth, and millimetres more. Common practice, no
/// source.
fn girth_rule(makes: Makes, adult: bool, ease: Option<Length>) -> Option<(f64, f64)> {
    let usual = match makes {
        Makes::Swatch | Makes::Scarf | Makes::Band | Makes::Sampler => return None,
        Makes::Hat => (0.95, 0.0),
        Makes::Headband => (0.92, 0.0),
        Makes::Cowl => (1.0, 50.0),
        Makes::Mitts | Makes::Mittens => (0.98, 0.0),
        Makes::Yoke => (1.0, if adult { 80.0 } else { 50.0 }),
    };
    Some(ease.map_or(usual, |ease| (1.0, ease.to_mm())))
}

/// Stitches (not rounded) in the round at which a lesson is graded: the target girth at its gauge; for a yoke 1.34
/// times that, the joined round of body and sleeves; 96 for what fits nobody in particular.
#[must_use]
pub fn grading_stitches(makes: Makes, girth: Option<Length>, stitches_per_10cm: f64) -> f64 {
    let Some(girth) = girth else { return 96.0 };
    let stitches = stitches_in(girth, stitches_per_10cm);
    if makes == Makes::Yoke {
        1.34 * stitches
    } else {
        stitches
    }
}

/// What stays on the rib of a piece as a share of the bare girth: rib pulls in. Common practice, no source.
#[must_use]
pub fn rib_girth(makes: Makes, body: &Body) -> Option<Length> {
    let (_, girth, _) = makes.girth_of(body);
    match makes {
        Makes::Hat | Makes::Headband | Makes::Mitts | Makes::Mittens => {
            Some(Length::mm(girth.to_mm() * 0.9))
        }
        _ => None,
    }
}
