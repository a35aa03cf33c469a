//! What techniques are called.

use crate::course::Craft;
use crate::course::chart::Worked;
use crate::rows::grade::{Skill, split_craft};
use crate::words::numbers::{capital, small};
use crate::words::terms::Wording;

/// The name of a technique on pages. Unknown ones are shown as written, hyphens as blanks.
#[must_use]
pub fn technique_title(id: &str, wording: Wording) -> String {
    let (craft, name) = split_craft(id);
    let title = match Skill::of(name) {
        Some(skill) => skill_title(skill, wording),
        None if name == "duplicate-stitch" => "Stitches worked over".to_owned(),
        None if name == "colour-run" => format!("{} run", capital(wording.colour())),
        None if name == "underarm" => "The underarm".to_owned(),
        None if name == "steek" => "A steek".to_owned(),
        None => capital(&name.replace('-', " ")),
    };
    match craft {
        Some(craft) => {
            let title = match Skill::of(name) {
                Some(Skill::PurlInColour) => {
                    format!("Working back in two {}", wording.colours())
                }
                _ => title,
            };
            // What goes round is called so in the crafts that go round.
            let title = match Craft::from_name(craft).map(Craft::usual) {
                Some(Worked::Flat) => title.replace(" in a round", ""),
                _ => title,
            };
            format!("{}: {}", capital(&craft.replace('-', " ")), small(&title))
        }
        None => title,
    }
}

fn skill_title(skill: Skill, wording: Wording) -> String {
    let (colour, colours) = (wording.colour(), wording.colours());
    let fixed = match skill {
        Skill::JoiningColours => return format!("Joining a {colour}"),
        Skill::TwoColours => return format!("Two {colours} in a round"),
        Skill::ThreeColours => return format!("Three {colours} in a round"),
        Skill::PurlInColour => return format!("Purling in two {colours}"),
        Skill::ShapingInColour => return format!("Shaping in {colour}"),
        Skill::Stripes => "Stripes",
        Skill::Catching => "Catching a float",
        Skill::StaggeredCatches => "Staggering the catches",
        Skill::LongUnit => "A long unit",
        Skill::NarrowTube => "Working a narrow tube",
        Skill::CrownDecreases => "The crown",
        Skill::Thumb => "A thumb",
        Skill::SleeveIncreases => "Widening a sleeve",
        Skill::JoiningSleeves => "Joining the sleeves",
        Skill::ShortRows => "Short rows",
        Skill::FirstSteps => "First steps",
    };
    fixed.to_owned()
}

/// The names of techniques, in the order given.
#[must_use]
pub fn technique_titles(ids: &[String], wording: Wording) -> Vec<String> {
    ids.iter().map(|id| technique_title(id, wording)).collect()
}
