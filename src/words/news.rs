//! What is new in a lesson, and where in it.

use crate::course::{Lesson, Part};
use crate::path::Placed;
use crate::rows::grade::Skill;
use crate::study::Studied;
use crate::words::{
    RowNames, Wording, capital, join_and, number_word, part_title, technique_title,
};

/// Something new, and where it happens.
#[derive(Clone, Debug)]
pub struct NewThing {
    /// Its name.
    pub title: String,
    /// One or two sentences.
    pub text: String,
}

/// What is said of all that is new, together.
#[must_use]
pub fn new_intro(
    new: &[NewThing],
    studied: &Studied<'_>,
    placed: &Placed,
    wording: Wording,
) -> String {
    if !new.is_empty() {
        let all = studied.demand.techniques.len();
        let things = if new.len() == 1 { "thing" } else { "things" };
        let met = match all.saturating_sub(placed.step.new_techniques.len()) {
            0 => "",
            1 => " The other technique you have met before.",
            _ => " The other techniques you have met before.",
        };
        return format!("{} {things}.{met}", capital(&number_word(new.len())));
    }
    let raised = &placed.step.raised;
    let grown: Vec<String> = Part::ALL
        .into_iter()
        .filter(|p| raised[p.index()] >= 0.05)
        .map(|part| part_title(part, wording))
        .collect();
    if grown.is_empty() {
        format!(
            "Nothing new: a lesson to {} what you know.",
            wording.practise()
        )
    } else {
        format!(
            "No new technique. What grows: {}.",
            join_and(&grown).to_lowercase()
        )
    }
}

/// Each new technique with the place where it is met.
#[must_use]
pub fn new_things(
    lesson: &Lesson,
    studied: &Studied<'_>,
    placed: &Placed,
    wording: Wording,
) -> Vec<NewThing> {
    let names = RowNames::of_lesson(lesson, wording).with_places(lesson, &studied.work);
    let (colour, colours) = (wording.colour(), wording.colours());
    let line = names.line;
    let rows = &studied.measures.rows;
    let first = |is: &dyn Fn(usize) -> bool| {
        let found = (0..rows.len()).find(|&i| is(i))?;
        Some(match names.row_at(found) {
            place if place.is_empty() => format!("{line} {}", found + 1),
            place => place,
        })
    };
    let at = |is: &dyn Fn(usize) -> bool| {
        first(is)
            .map(|p| format!(" First in {p}."))
            .unwrap_or_default()
    };
    let each = placed.step.new_techniques.iter().map(|id| {
        let text = match Skill::of(id) {
            Some(skill) if !lesson.craft.has_rows() => threads_text(skill, wording),
            Some(Skill::Stripes) => {
                format!("One {colour} a {line}, the other resting at the start of the {line}.")
            }
            Some(Skill::JoiningColours) => "A second yarn is joined on the way.".to_owned(),
            Some(Skill::TwoColours) => format!(
                "Two yarns are worked in one {line}.{}",
                at(&|i| rows[i].colours >= 2)
            ),
            Some(Skill::ThreeColours) => format!(
                "Three yarns are worked in one {line}.{}",
                at(&|i| rows[i].colours >= 3)
            ),
            Some(Skill::Catching) => {
                let limit = studied.measures.floats.limit;
                format!(
                    "A strand passes more than {limit} stitches; trap it on its way.{}",
                    at(&|i| rows[i].catches > 0)
                )
            }
            Some(Skill::StaggeredCatches) => format!(
                "Catches come close above each other; set them side by side.{}",
                at(&|i| rows[i].catches > 0)
            ),
            Some(Skill::LongUnit) => format!(
                "A repeat of {} blocks of {colour}: read it in groups of four.",
                studied.measures.reading.chunks_most
            ),
            Some(Skill::PurlInColour) if !names.is_knitted => {
                format!("Every second row is worked from the wrong side in two {colours}, read the other way.")
            }
            Some(Skill::PurlInColour) => {
                format!("Every second row is purled in two {colours}, strands towards you.")
            }
            Some(Skill::ShapingInColour) => {
                let shaped = |i: usize| studied.work.rows.get(i).is_some_and(|r| r.shaping);
                format!("Stitches are lost inside the pattern.{}", at(&shaped))
            }
            Some(Skill::NarrowTube) => "Few stitches round a small tube.".to_owned(),
            Some(Skill::CrownDecreases) if lesson.crown_first => {
                "The top grows from a ring, laid flat.".to_owned()
            }
            Some(Skill::CrownDecreases) => "The top is closed in sections.".to_owned(),
            Some(Skill::Thumb) => "An opening is left, and a thumb grown from it.".to_owned(),
            Some(Skill::SleeveIncreases) => {
                "A stitch is made on either side of the sleeve’s round start.".to_owned()
            }
            Some(Skill::JoiningSleeves) => {
                "Body and sleeves come on to one needle; stitches under the arms wait, and are closed last.".to_owned()
            },
            Some(Skill::ShortRows) => {
                "Part of the work is made higher by turning before its end.".to_owned()
            }
            Some(Skill::FirstSteps) => format!(
                "Other tools, and another stitch: {} it in one plain yarn before you begin.",
                wording.practise()
            ),
            None => "See its card.".to_owned(),
        };
        NewThing {
            title: technique_title(id, wording),
            text,
        }
    });
    each.collect()
}

/// The same on cloth, where one thread follows the other.
fn threads_text(skill: Skill, wording: Wording) -> String {
    let colour = wording.colour();
    match skill {
        Skill::JoiningColours => format!("One {colour} is ended and another begun."),
        Skill::TwoColours => "Two threads, one after the other.".to_owned(),
        Skill::ThreeColours => "Three threads, one after the other.".to_owned(),
        Skill::FirstSteps => format!(
            "Cloth, needle and the cross: {} them on a corner before you begin.",
            wording.practise()
        ),
        _ => "See its card.".to_owned(),
    }
}
