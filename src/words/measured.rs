//! What parts and measures of a piece are called.

use crate::piece::{Measured, PartName};

/// A measure, as it stands in a sentence.
#[must_use]
pub fn measured_name(what: Measured) -> &'static str {
    match what {
        Measured::Girth => "girth",
        Measured::Width => "width",
        Measured::Length => "length",
        Measured::Height => "height",
        Measured::Depth => "depth",
        Measured::Chest => "chest",
        Measured::HemToUnderarm => "hem to underarm",
        Measured::SleeveToUnderarm => "sleeve to underarm",
        Measured::UpperSleeve => "upper sleeve",
        Measured::YokeDepth => "yoke depth",
        Measured::Neck => "neck",
    }
}

/// A part, as it stands in a title; nothing for a piece that has no parts.
#[must_use]
pub fn part_of_piece(name: PartName) -> Option<&'static str> {
    Some(match name {
        PartName::Whole => return None,
        PartName::Hand => "Hand",
        PartName::Thumb => "Thumb",
        PartName::Body => "Body",
        PartName::Sleeves => "Sleeves",
        PartName::Yoke => "Yoke",
    })
}
