//! Why a thing is proposed, in words. Every number is one of the grade, of the step or of the measures.

use crate::course::Part;
use crate::course::log::{Log, Stock, Went};
use crate::ground::units::plain_number;
use crate::path::learner::{Aim, History, Proposal};
use crate::path::library::{Thing, ThingKind};
use crate::rows::grade::Skill;
use crate::words::causes::part_title;
use crate::words::numbers::{count, join_and, small};
use crate::words::skills::technique_title;
use crate::words::terms::Wording;

/// The aim, and how sure it is.
#[must_use]
pub fn aim_text(aim: Aim, results: usize) -> String {
    match aim {
        Aim::Smallest => "nothing done yet: the smallest step first".to_owned(),
        Aim::Usual => format!(
            "looking for a step of about {} (from five results on, and the log has {results}, this follows you)",
            plain_number(aim.step(), 1)
        ),
        Aim::Fitted { target, most } => {
            let says = format!(
                "your {results} results say that about 85 of 100 go well at {} (it could be anything from {} to {})",
                plain_number(target.step, 1),
                plain_number(target.low, 1),
                plain_number(target.high, 1)
            );
            if target.step > most {
                let most = plain_number(most, 1);
                format!(
                    "looking for a step of about {most}, the most that the course allows; {says}"
                )
            } else {
                let step = plain_number(target.step, 1);
                format!("looking for a step of about {step}: {says}")
            }
        }
    }
}

/// The reasons for a proposal, the most telling first.
#[must_use]
pub fn reasons(proposal: &Proposal, things: &[Thing], past: &History, log: &Log) -> Vec<String> {
    let Some(thing) = things.get(proposal.thing) else {
        return Vec::new();
    };
    let wording = Wording::of(thing.terms);
    let mut reasons = Vec::new();
    reasons.extend(floats(thing, proposal, things, past));
    let new: Vec<String> = proposal
        .step
        .new_techniques
        .iter()
        .map(|id| new_technique(id, thing, wording))
        .collect();
    if new.is_empty() {
        reasons.push("no new technique".to_owned());
    } else {
        reasons.push(format!("new: {}", join_and(&new)));
    }
    let raised: Vec<String> = Part::ALL
        .into_iter()
        .filter(|part| proposal.step.raised[part.index()] >= 0.05)
        .map(|part| {
            let points = plain_number(proposal.step.raised[part.index()], 1);
            format!("{} +{points}", part_title(part, wording).to_lowercase())
        })
        .collect();
    if raised.is_empty() && !past.results.is_empty() {
        reasons.push("nothing harder than you have done".to_owned());
    } else if !raised.is_empty() {
        reasons.push(format!("harder than before: {}", raised.join(", ")));
    }
    let done = |id: &String| {
        past.done.iter().any(|&i| {
            let other = things.get(i);
            other.is_some_and(|o| o.id == *id && o.course == thing.course)
        })
    };
    let waits: Vec<&String> = thing.needs.iter().filter(|need| !done(need)).collect();
    if !waits.is_empty() {
        reasons.push(format!("its course puts {} first", join_and(&waits)));
    }
    reasons.extend(stock_text(thing, &log.stock, wording));
    reasons
}

/// Yarn at hand of the thing's weight, and for how many of its colours it is enough: each colour from another yarn.
fn stock_text(thing: &Thing, stock: &[Stock], wording: Wording) -> Option<String> {
    let same = |yarn: &&Stock| yarn.weight.is_some() && yarn.weight == thing.yarn_weight;
    let at_hand: Vec<&Stock> = stock.iter().filter(same).collect();
    if at_hand.is_empty() {
        return None;
    }
    let whole = |grams: f64| format!("{} g", plain_number(grams.ceil(), 0));
    let named = |yarn: &&Stock| match yarn.grams {
        Some(grams) => format!("{} ({})", yarn.name, whole(grams)),
        None => yarn.name.clone(),
    };
    let names: Vec<String> = at_hand.iter().map(named).collect();
    let have = format!("you have yarn of its weight: {}", join_and(&names));
    let colours = count(thing.grams.len(), wording.colour(), wording.colours());
    let wanted: Option<Vec<f64>> = thing.grams.iter().copied().collect();
    let Some(mut wanted) = wanted.filter(|all| !all.is_empty()) else {
        return Some(match at_hand.len() < thing.grams.len() {
            true => format!("{have}; it takes {colours}"),
            false => have,
        });
    };
    wanted.sort_by(|a, b| b.total_cmp(a));
    let weights: Vec<String> = wanted.iter().map(|grams| whole(*grams)).collect();
    let takes = format!("it takes {colours}: {}", join_and(&weights));
    // The smallest amount from the smallest ball that has it: so the most colours find a yarn.
    let mut balls: Vec<f64> = at_hand.iter().filter_map(|yarn| yarn.grams).collect();
    if balls.len() < at_hand.len() {
        return Some(format!("{have}; {takes}; weigh what you have"));
    }
    balls.sort_by(f64::total_cmp);
    let mut open = wanted.iter().rev().peekable();
    let mut enough = 0;
    for ball in balls {
        if open.next_if(|grams| **grams <= ball).is_some() {
            enough += 1;
        }
    }
    let verdict = match enough {
        0 => "enough for none of them".to_owned(),
        n if n == wanted.len() => "enough for all".to_owned(),
        n => format!("enough for {n} of them"),
    };
    Some(format!("{have}; {takes}; {verdict}"))
}

/// Floats against those of things done: the nearest of them is named.
fn floats(thing: &Thing, proposal: &Proposal, things: &[Thing], past: &History) -> Option<String> {
    if thing.longest == 0 {
        return Some("nothing floats".to_owned());
    }
    let stitches = count(thing.longest, "stitch", "stitches");
    // The latest first: it is best remembered.
    let mut done = past
        .results
        .iter()
        .rev()
        .filter_map(|result| Some((things.get(result.thing)?, result.went)));
    if let Some((like, _)) = done
        .clone()
        .find(|(other, _)| other.longest == thing.longest)
    {
        return Some(format!("floats of {stitches}, as in {}", like.title));
    }
    let longer = done.find(|(other, went)| other.longest > thing.longest && *went != Went::Hard);
    if let Some((other, _)) = longer {
        return Some(format!(
            "floats of {stitches}, shorter than in {}",
            other.title
        ));
    }
    let raised = proposal.step.raised[Part::Floats.index()];
    (raised > 0.0 || past.results.is_empty()).then(|| format!("floats of {stitches}"))
}

/// A technique, with how much of it there is where that is known.
fn new_technique(id: &str, thing: &Thing, wording: Wording) -> String {
    let title = small(&technique_title(id, wording));
    if id == Skill::Catching.id() {
        let rows = count(thing.rows_over, "row", "rows");
        let only = if thing.rows_over <= 3 { " only" } else { "" };
        return format!("{title}, in {rows}{only}");
    }
    title
}

/// `Pebble hat (lesson of saltmarsh)`.
#[must_use]
pub fn thing_name(thing: &Thing) -> String {
    let kind = match thing.kind {
        ThingKind::Lesson => "lesson",
        ThingKind::Chart => "chart",
    };
    if thing.course.is_empty() {
        format!("{} ({kind})", thing.id)
    } else {
        format!("{} ({kind} of {})", thing.id, thing.course)
    }
}
