//! Techniques that a piece asks for: most derived from its rows, some from what it makes, the rest declared.

use std::collections::BTreeSet;

use crate::course::Craft;
use crate::course::body::Makes;
use crate::rows::grade::parts::handling;
use crate::rows::grade::setting::{HandlingReason, Setting};
use crate::rows::grade::skill::{Skill, split_craft};
use crate::rows::measure::Measures;
use crate::rows::walk::{Row, Work};

/// More chunks than this in a unit is a long unit.
const LONG_UNIT: usize = 12;
/// Rows with catches this close must be staggered.
const STAGGERED_ROWS: usize = 2;

pub(super) fn techniques(
    work: &Work<'_>,
    measures: &Measures,
    setting: Setting<'_>,
) -> BTreeSet<String> {
    let mut found: BTreeSet<&str> = BTreeSet::new();
    let rows = || work.rows.iter().zip(&measures.rows);
    let one_colour = |index: usize| {
        let row = work.rows.get(index)?;
        let measures = measures.rows.get(index)?;
        (measures.colours == 1)
            .then(|| work.cells(row).first().copied())
            .flatten()
    };
    let striped = (1..work.rows.len()).any(|i| match (one_colour(i - 1), one_colour(i)) {
        (Some(a), Some(b)) => a != b,
        _ => false,
    });
    // Some colour is not in the first row.
    let in_first = measures.rows.first().map_or(0, |row| row.colours);
    let joins = measures.colours.total > in_first;
    let caught: Vec<usize> = (0..measures.rows.len())
        .filter(|&i| measures.rows[i].catches > 0)
        .collect();
    let staggered = caught
        .windows(2)
        .any(|pair| pair[1] - pair[0] <= STAGGERED_ROWS);
    let in_colour = |is: fn(&Row) -> bool| rows().any(|(row, m)| m.colours > 1 && is(row));
    let handling = handling(work, measures, setting);
    let purls = handling.has(HandlingReason::PurlingBack) || in_colour(|row| row.purls);
    for (is, skill) in [
        (striped, Skill::Stripes),
        (joins, Skill::JoiningColours),
        (measures.colours.most >= 2, Skill::TwoColours),
        (measures.colours.most >= 3, Skill::ThreeColours),
        (measures.floats.catches > 0, Skill::Catching),
        (staggered, Skill::StaggeredCatches),
        (measures.reading.chunks_most > LONG_UNIT, Skill::LongUnit),
        (purls, Skill::PurlInColour),
        (in_colour(|row| row.shaping), Skill::ShapingInColour),
        (handling.has(HandlingReason::NarrowTube), Skill::NarrowTube),
    ] {
        if is {
            found.insert(skill.id());
        }
    }
    let made: &[Skill] = match setting.makes {
        Some(Makes::Hat) => &[Skill::CrownDecreases],
        Some(Makes::Mitts | Makes::Mittens) => &[Skill::Thumb],
        Some(Makes::Yoke) => &[
            Skill::SleeveIncreases,
            Skill::JoiningSleeves,
            Skill::ShortRows,
        ],
        _ => &[],
    };
    found.extend(made.iter().map(|skill| skill.id()));
    found.extend(setting.declared.iter().map(String::as_str));
    let first = format!("{}/{}", setting.craft.name(), Skill::FirstSteps.id());
    let named = found.into_iter();
    named
        .map(|name| with_craft(setting.craft, name))
        .chain(setting.first_steps.then_some(first))
        .collect()
}

/// A technique as it is counted: in every craft but knitting with the craft before it, and so new once a craft.
#[must_use]
pub fn with_craft(craft: Craft, technique: &str) -> String {
    if craft == Craft::USUAL || split_craft(technique).0.is_some() {
        technique.to_owned()
    } else {
        format!("{}/{technique}", craft.name())
    }
}
