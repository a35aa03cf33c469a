//! The ladder in an order that somebody wishes: its steps, what forbids it, and the `needs` that make it so.

use serde::Deserialize;
use serde_json::{Value, json};

use crate::app::{gap_remedies, study_course};
use crate::desk::numbers::tenth;
use crate::desk::present::Present;
use crate::desk::refusal::Refusal;
use crate::desk::state::{Desk, Step};
use crate::path::remedies::{Found, Remedy};
use crate::path::{Candidate, State, StudiedCourse, order};
use crate::read::{At, Change, edited};
use crate::report::OrderReport;
use crate::rows::grade::has_doorstep;

/// An order that somebody wishes.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::desk) struct Order {
    /// All lessons, the first first.
    pub ids: Vec<String>,
    /// The one that was moved.
    #[serde(default)]
    pub moved: String,
}

/// The lessons of a course in this order, by index.
fn indices(studied: &StudiedCourse<'_>, ids: &[String]) -> Result<Vec<usize>, Refusal> {
    let lessons = &studied.course.lessons;
    let place = |id: &String| lessons.iter().position(|lesson| lesson.id == *id);
    let found: Vec<usize> = ids.iter().filter_map(place).collect();
    let mut each = found.clone();
    each.sort_unstable();
    each.dedup();
    match each.len() == lessons.len() && found.len() == ids.len() {
        true => Ok(found),
        false => Err(Refusal::new(409, "the course has other lessons by now")),
    }
}

/// What the ladder would be in this order.
///
/// # Errors
/// When these are not the lessons of the course.
pub(in crate::desk) fn along(desk: &Desk, wished: &Order) -> Result<Value, Refusal> {
    let present = desk.present();
    let studied = study_course(present.course());
    let course = studied.course;
    let budget = course.budget;
    let mut met = State::default();
    let mut above: Vec<&str> = wished.ids.iter().map(String::as_str).collect();
    let mut largest = 0.0_f64;
    let mut lessons = Vec::new();
    for index in indices(&studied, &wished.ids)? {
        let (Some(lesson), Some(a)) = (course.lessons.get(index), studied.lessons.get(index))
        else {
            continue;
        };
        above.retain(|id| *id != lesson.id);
        let step = met.step(&a.demand, course.weights);
        let doorstep = has_doorstep(&a.demand.techniques) && !has_doorstep(&met.techniques);
        let most = if doorstep {
            budget.doorstep
        } else {
            budget.step
        };
        let late = lesson
            .needs
            .iter()
            .filter(|need| above.contains(&need.as_str()));
        let over = step.size > most + 1e-9 || step.new_techniques.len() > budget.techniques;
        largest = largest.max(step.size);
        lessons.push(json!({
            "id": lesson.id,
            "step": tenth(step.size),
            "newTechniques": step.new_techniques,
            "over": over,
            "forbidden": late.collect::<Vec<_>>(),
        }));
        met.learn(&a.demand);
    }
    Ok(json!({"format": "yokeward/desk/1", "lessons": lessons, "largest": tenth(largest)}))
}

/// Writes the `needs` that put a lesson where it was moved to into the drafts; the course then.
///
/// # Errors
/// When what it needs stands behind it, or no `needs` of its neighbours hold it there.
pub(in crate::desk) fn keep(desk: &Desk, wished: &Order) -> Result<Value, Refusal> {
    let present = desk.present();
    let plan = needs_for(&present, wished)?;
    for (id, needs) in plan {
        let draft = desk.draft(&id)?;
        let at = [At::Key("needs".to_owned())];
        let change = Change::Value(json!(needs));
        desk.step(&id, draft.number, |draft| {
            let text = edited(&draft.text, &at, &change);
            Ok(Step::Text(
                text.map_err(|error| Refusal::cannot(error.to_string()))?,
            ))
        })?;
    }
    Ok(desk.present().answer.clone())
}

/// Lessons with the `needs` that they are to have.
fn needs_for(present: &Present, wished: &Order) -> Result<Vec<(String, Vec<String>)>, Refusal> {
    let studied = study_course(present.course());
    let lessons = &studied.course.lessons;
    let wanted = indices(&studied, &wished.ids)?;
    for (place, index) in wanted.iter().enumerate() {
        let Some(lesson) = lessons.get(*index) else {
            continue;
        };
        let late = wished
            .ids
            .iter()
            .skip(place)
            .find(|id| lesson.needs.contains(id));
        if let Some(late) = late {
            let message = format!("{} needs {late}, which would come after it", lesson.id);
            return Err(Refusal::cannot(message).help("take that out of its `needs` first"));
        }
    }
    if !wished.ids.contains(&wished.moved) {
        return Err(Refusal::unknown("lesson", &wished.moved));
    }
    let mut needs: Vec<Vec<String>> = lessons.iter().map(|l| l.needs.clone()).collect();
    let added = hold(&studied, &wanted, &mut needs);
    // What is not needed to hold the order is not written.
    for (index, need) in added.iter().rev() {
        let mut fewer = needs.clone();
        if let Some(needs) = fewer.get_mut(*index) {
            needs.retain(|other| other != need);
        }
        if ordered(&studied, &fewer) == wanted {
            needs = fewer;
        }
    }
    let each = lessons.iter().zip(needs);
    let changed = each.filter(|(lesson, needs)| lesson.needs != *needs);
    Ok(changed
        .map(|(lesson, needs)| (lesson.id.clone(), needs))
        .collect())
}

/// Adds needs until the lessons come in the order wanted: wherever another lesson would come first, that one waits for the
/// one wanted there. Ends, since each is one of the pairs of lessons. What was added: lesson and need.
fn hold(
    studied: &StudiedCourse<'_>,
    wanted: &[usize],
    needs: &mut [Vec<String>],
) -> Vec<(usize, String)> {
    let lessons = &studied.course.lessons;
    let mut added = Vec::new();
    loop {
        let order = ordered(studied, needs);
        let mut differ = order.iter().zip(wanted).filter(|(is, wanted)| is != wanted);
        let Some((early, wanted)) = differ.next() else {
            return added;
        };
        let (Some(needs), Some(first)) = (needs.get_mut(*early), lessons.get(*wanted)) else {
            return added;
        };
        if needs.contains(&first.id) {
            return added;
        }
        needs.push(first.id.clone());
        added.push((*early, first.id.clone()));
    }
}

/// The order that a course has with these `needs`.
fn ordered(studied: &StudiedCourse<'_>, needs: &[Vec<String>]) -> Vec<usize> {
    let course = studied.course;
    let each = course.lessons.iter().zip(&studied.lessons).zip(needs);
    let candidates: Vec<Candidate<'_>> = each
        .map(|((lesson, a), needs)| Candidate {
            id: &lesson.id,
            grade: a.grade.grade,
            demand: &a.demand,
            needs,
        })
        .collect();
    let order = order(&candidates, course.weights, course.budget);
    order.placed.iter().map(|placed| placed.index).collect()
}

/// The gaps of the course with what closes each.
pub(in crate::desk) fn gaps(desk: &Desk) -> Value {
    let present = desk.present();
    let studied = study_course(present.course());
    let remedies = gap_remedies(&studied, &[]);
    let report = json!(report_of(&studied, &remedies));
    let mut gaps = report["gaps"].clone();
    let each = gaps.as_array_mut().into_iter().flatten().zip(&remedies);
    for (gap, remedies) in each {
        let id = gap["id"].clone();
        let listed = gap["remedies"].as_array_mut().into_iter().flatten();
        for (place, (listed, remedy)) in listed.zip(&remedies.remedies).enumerate() {
            let take = matches!(remedy, Remedy::Needs { .. });
            listed["take"] = match take {
                true => json!({"gap": id, "remedy": place}),
                false => Value::Null,
            };
        }
    }
    json!({"format": "yokeward/desk/1", "gaps": gaps})
}

fn report_of(studied: &StudiedCourse<'_>, remedies: &[Found]) -> OrderReport {
    crate::app::order(studied, remedies)
}

/// A remedy to take.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::desk) struct Taken {
    /// The lesson of the gap.
    pub gap: String,
    /// Its place among the remedies.
    pub remedy: usize,
}

/// Takes a remedy: a lesson need not wait for another one. The course then.
///
/// # Errors
/// When there is none such by now.
pub(in crate::desk) fn take(desk: &Desk, taken: &Taken) -> Result<Value, Refusal> {
    let gone = || Refusal::new(409, "the course has other gaps by now");
    let (lesson, needs) = {
        let present = desk.present();
        let studied = study_course(present.course());
        let remedies = gap_remedies(&studied, &[]);
        let lessons = &studied.course.lessons;
        let mut gaps = studied.order.gaps.iter().zip(&remedies);
        let found = gaps.find(|(gap, _)| {
            let placed = studied.order.placed.get(gap.place);
            placed
                .and_then(|p| lessons.get(p.index))
                .is_some_and(|l| l.id == taken.gap)
        });
        let (_, remedies) = found.ok_or_else(gone)?;
        let Some(Remedy::Needs { lesson, need, .. }) = remedies.remedies.get(taken.remedy) else {
            return Err(gone());
        };
        let has = lessons
            .iter()
            .find(|one| one.id == *lesson)
            .ok_or_else(gone)?;
        let needs: Vec<String> = has.needs.iter().filter(|n| *n != need).cloned().collect();
        (lesson.clone(), needs)
    };
    let draft = desk.draft(&lesson)?;
    let at = [At::Key("needs".to_owned())];
    desk.step(&lesson, draft.number, |draft| {
        let text = edited(&draft.text, &at, &Change::Value(json!(needs)));
        Ok(Step::Text(
            text.map_err(|error| Refusal::cannot(error.to_string()))?,
        ))
    })?;
    Ok(desk.present().answer.clone())
}
