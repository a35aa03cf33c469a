//! The five parts, each 0 to 1, with every constant and its reason in this one file.

use crate::course::Craft;
use crate::ground::units::Length;
use crate::rows::grade::setting::{HandlingReason, Setting};
use crate::rows::measure::{
    ColourMeasures, FloatMeasures, Measures, ReadingMeasures, ReliefMeasures,
};
use crate::rows::walk::Work;

/// A float of twelve stitches, or 60 mm, is as hard as floats get: it is caught twice and more.
const HARDEST_FLOAT: f64 = 12.0;
/// Five millimetres of strand weigh as much as one stitch: at 20 stitches to 10 cm they are the same.
const MM_A_STITCH: f64 = 5.0;
/// A carried strand is seen through the fabric, not felt: three tenths of a free float.
const CARRIED: f64 = 0.3;
/// Forty ends are a long evening.
const MOST_ENDS: f64 = 40.0;
/// 24 looks a row, or 30 rows without rest, count in full.
const MOST_LOOKS: f64 = 25.0;
const MOST_STRETCH: f64 = 31.0;
/// A tube narrower than this needs a technique of its own.
pub const NARROW_TUBE: Length = Length::mm(300.0);

/// Floats: how long the longest is, and how dense rows over the limit stand.
#[must_use]
pub fn floats_part(floats: &FloatMeasures, craft: Craft) -> f64 {
    if floats.longest == 0 {
        return 0.0;
    }
    let longest = (floats.longest as f64).max(floats.longest_mm / MM_A_STITCH);
    let x = if craft.carries_inside() {
        CARRIED * longest
    } else {
        longest
    };
    0.55 * (x / HARDEST_FLOAT).min(1.0) + 0.45 * floats.share_over_16.sqrt()
}

/// One colour is nothing, two at a time are 0.3, three at a time 0.9: a third strand is another craft.
fn colours_at_a_time(v: f64) -> f64 {
    if v <= 2.0 {
        0.3 * (v - 1.0)
    } else {
        (0.3 + 0.6 * (v - 2.0)).min(1.0)
    }
}

/// Colours: most in a row, the hardest sixteen rows, ends.
#[must_use]
pub fn colours_part(colours: &ColourMeasures) -> f64 {
    0.45 * colours_at_a_time(colours.most as f64)
        + 0.45 * colours_at_a_time(colours.mean_16)
        + 0.1 * (colours.ends as f64 / MOST_ENDS).min(1.0)
}

/// Reading: looks in the hardest sixteen rows, each doubling as much again.
#[must_use]
pub fn reading_part(reading: &ReadingMeasures) -> f64 {
    ((1.0 + reading.looks_16).log2() / MOST_LOOKS.log2()).min(1.0)
}

/// Relief: how long without a plain row; plain rows everywhere halve it.
#[must_use]
pub fn relief_part(relief: &ReliefMeasures) -> f64 {
    if relief.stranded == 0 {
        return 0.0;
    }
    ((1.0 + relief.stretch as f64).log2() / MOST_STRETCH.log2()).min(1.0)
        * (1.0 - relief.share / 2.0)
}

/// What the hands must do besides, and in which row first.
#[derive(Clone, Debug, Default)]
pub(super) struct Handling {
    pub(super) reasons: Vec<HandlingReason>,
    pub(super) row: Option<usize>,
}

impl Handling {
    pub(super) fn part(&self) -> f64 {
        self.reasons
            .iter()
            .map(|reason| reason.share())
            .sum::<f64>()
            .min(1.0)
    }

    pub(super) fn has(&self, reason: HandlingReason) -> bool {
        self.reasons.contains(&reason)
    }
}

pub(super) fn handling(work: &Work<'_>, measures: &Measures, setting: Setting<'_>) -> Handling {
    let rows = || work.rows.iter().zip(&measures.rows).enumerate();
    let purl = rows()
        .find(|(_, (row, m))| row.wrong_side && m.colours > 1)
        .map(|(i, _)| i);
    let shaping = rows().find(|(_, (row, _))| row.shaping).map(|(i, _)| i);
    let mut found = Handling::default();
    let mut add = |is: bool, reason, row: Option<usize>| {
        if is {
            found.reasons.push(reason);
            found.row = found.row.or(row);
        }
    };
    add(
        purl.is_some() && setting.craft.turns(),
        HandlingReason::PurlingBack,
        purl,
    );
    add(shaping.is_some(), HandlingReason::Shaping, shaping);
    add(
        setting.makes == Some(crate::course::body::Makes::Yoke),
        HandlingReason::Yoke,
        None,
    );
    add(
        setting.tube.is_some_and(|girth| girth < NARROW_TUBE),
        HandlingReason::NarrowTube,
        None,
    );
    add(
        setting.declared.iter().any(|t| t == "steek"),
        HandlingReason::Steek,
        None,
    );
    found
}
