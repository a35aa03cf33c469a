//! The course as it stands on the desk, worked out once for every change: read, studied, in order, with all faults.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use serde_json::{Value, json};

use crate::app::{BareOptions, late_faults, study_chart, study_course};
use crate::course::body::{Makes, TABLE};
use crate::course::{Course, Lesson, Part, Terms, Units};
use crate::desk::draft::Draft;
use crate::desk::faults::fault;
use crate::desk::numbers::tenth;
use crate::path::{Candidate, Placed, StudiedCourse, order};
use crate::read::{Loaded, Text, load_texts};
use crate::rows::grade::Demand;
use crate::study::Studied;
use crate::words::{Wording, gap_cause};

/// What a lesson asks, for the order.
#[derive(Debug)]
struct Asks {
    grade: f64,
    demand: Demand,
}

/// The course as it stands on the desk.
#[derive(Debug)]
pub(super) struct Present {
    /// As read.
    pub loaded: Loaded,
    /// The course as its files say, where lessons of that have errors on the desk.
    saved: Option<Course>,
    /// The lesson without a file that is in it.
    pub tried: Option<String>,
    /// Which state of the desk this is.
    pub version: u64,
    /// Ids of the lessons in the order of the ladder.
    pub ladder: Vec<String>,
    /// What each lesson asks, in the order of the course.
    asks: Vec<Asks>,
    /// What `GET /api/course` answers.
    pub answer: Value,
}

impl Present {
    /// Works the course out.
    pub(super) fn of(
        root: &Path,
        (texts, saved): (Vec<Text>, Vec<Text>),
        version: u64,
        drafts: &[Draft],
    ) -> Self {
        let changed: BTreeSet<String> = drafts.iter().map(|draft| draft.id.clone()).collect();
        let folder = root.canonicalize().unwrap_or_else(|_| root.to_owned());
        let folder = folder.file_name().and_then(|name| name.to_str());
        let folder = folder.unwrap_or("course");
        let mut loaded = load_texts(folder, texts, true);
        let broken = loaded.has_errors() && !changed.is_empty();
        let saved = broken.then(|| load_texts(folder, saved, true).course);
        let studied = study_course(&loaded.course);
        let late = late_faults(&loaded, &studied);
        let ladder = placed(&studied)
            .iter()
            .map(|(_, l, _)| l.id.clone())
            .collect();
        let asks = studied.lessons.iter().map(|a| Asks {
            grade: a.grade.grade,
            demand: a.demand.clone(),
        });
        let asks = asks.collect();
        let mut answer = course(&studied, &changed);
        drop(studied);
        loaded.faults.extend(late);
        let faults = loaded.faults.iter().map(|f| fault(f, &loaded));
        answer["drafts"] = drafts.iter().map(draft_answer).collect();
        answer["version"] = json!(version);
        answer["faults"] = faults.collect();
        Self {
            loaded,
            saved,
            tried: None,
            version,
            ladder,
            asks,
            answer,
        }
    }

    /// The course.
    pub(super) fn course(&self) -> &Course {
        &self.loaded.course
    }

    /// A lesson.
    pub(super) fn lesson(&self, id: &str) -> Option<&Lesson> {
        self.course().lessons.iter().find(|lesson| lesson.id == id)
    }

    /// Where a lesson would stand on the ladder if it asked this: what was met before it, and the step to it.
    pub(super) fn standing(&self, lesson: &str, a: &Studied<'_>) -> Option<Placed> {
        let course = self.course();
        let index = course.lessons.iter().position(|one| one.id == lesson)?;
        let each = course.lessons.iter().zip(&self.asks).enumerate();
        let candidates: Vec<Candidate<'_>> = each
            .map(|(at, (lesson, asks))| {
                let (grade, demand) = match at == index {
                    true => (a.grade.grade, &a.demand),
                    false => (asks.grade, &asks.demand),
                };
                Candidate {
                    id: &lesson.id,
                    grade,
                    demand,
                    needs: &lesson.needs,
                }
            })
            .collect();
        let order = order(&candidates, course.weights, course.budget);
        order
            .placed
            .into_iter()
            .find(|placed| placed.index == index)
    }

    /// The first lesson that uses a chart; one that has errors on the desk as its file has it.
    pub(super) fn lesson_of_chart(&self, chart: &str) -> Option<&Lesson> {
        let placed = self.ladder.iter().filter_map(|id| self.lesson(id));
        let saved = self.saved.iter().flat_map(|course| &course.lessons);
        placed.chain(saved).find(|lesson| uses(lesson, chart))
    }
}

/// A draft that is not saved: what it is and what it is called.
fn draft_answer(draft: &Draft) -> Value {
    let title = draft
        .text
        .lines()
        .find_map(|line| line.strip_prefix("title:"));
    let title = title.map(|title| title.trim().trim_matches('"'));
    let title = title.filter(|title| !title.is_empty()).unwrap_or(&draft.id);
    json!({
        "id": draft.id,
        "kind": draft.kind.name(),
        "title": title,
        "fresh": draft.fresh,
    })
}

/// Whether a lesson uses a chart.
pub(super) fn uses(lesson: &Lesson, chart: &str) -> bool {
    lesson.charts().iter().any(|what| what.chart.id == chart)
}

fn placed<'a>(studied: &'a StudiedCourse<'a>) -> Vec<(&'a Placed, &'a Lesson, &'a Studied<'a>)> {
    let each = studied.order.placed.iter();
    each.filter_map(|placed| {
        let lesson = studied.course.lessons.get(placed.index)?;
        Some((placed, lesson, studied.lessons.get(placed.index)?))
    })
    .collect()
}

/// A value for each part of the grade, by its name.
pub(super) fn by_part(value: impl Fn(Part) -> Option<f64>) -> Value {
    let each = Part::ALL.into_iter();
    each.filter_map(|part| Some((part.name().to_owned(), json!(tenth(value(part)?)))))
        .collect::<serde_json::Map<String, Value>>()
        .into()
}

fn course(studied: &StudiedCourse<'_>, changed: &BTreeSet<String>) -> Value {
    let course = studied.course;
    let wording = Wording::of_course(course);
    let tasks = studied.tasks();
    let lessons = placed(studied).into_iter().zip(&tasks);
    let lessons = lessons.map(|((placed, lesson, a), task)| {
        let raised = |part: Part| Some(placed.step.raised[part.index()]).filter(|r| *r > 0.0);
        json!({
            "id": lesson.id,
            "title": lesson.title,
            "makes": lesson.makes.name(),
            "craft": lesson.craft.name(),
            "grade": tenth(a.grade.grade),
            "level": a.grade.level.name(),
            "busyness": tenth(a.measures.busyness),
            "points": by_part(|part| Some(a.grade.points[part.index()])),
            "step": tenth(placed.step.size),
            "newTechniques": placed.step.new_techniques,
            "raised": by_part(raised),
            "needs": lesson.needs,
            "charts": lesson.charts().iter().map(|what| &what.chart.id).collect::<Vec<_>>(),
            "sizes": lesson.sizes.iter().map(|size| &size.id).collect::<Vec<_>>(),
            "hours": [tenth(task.hours.from), tenth(task.hours.to)],
            "changed": changed.contains(&lesson.id),
        })
    });
    let gaps = studied.order.gaps.iter().filter_map(|gap| {
        let placed = studied.order.placed.get(gap.place)?;
        Some(json!({
            "id": course.lessons.get(placed.index)?.id,
            "step": tenth(placed.step.size),
            "cause": gap_cause(gap, placed, course.budget, wording),
            "remedies": [],
        }))
    });
    json!({
        "format": "yokeward/desk/1",
        "id": course.id,
        "title": course.title,
        "guild": course.guild,
        "terms": if course.terms == Terms::Uk { "uk" } else { "us" },
        "units": match course.units {
            Units::Metric => "metric",
            Units::Imperial => "imperial",
            Units::Both => "both",
        },
        "budget": {
            "step": course.budget.step,
            "doorstep": course.budget.doorstep,
            "techniques": course.budget.techniques,
        },
        "lessons": lessons.collect::<Vec<_>>(),
        "charts": charts(course, changed),
        "gaps": gaps.collect::<Vec<_>>(),
        "sizes": sizes(),
        "makes": Makes::WORDS,
    })
}

/// The sizes that a lesson may have.
pub(super) fn sizes() -> Value {
    let bodies = TABLE.iter().map(|row| row.body());
    bodies
        .map(|body| json!({"id": body.id, "label": body.label}))
        .collect()
}

fn charts(course: &Course, changed: &BTreeSet<String>) -> Value {
    let mut used: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for lesson in &course.lessons {
        for what in lesson.charts() {
            let by = used.entry(what.chart.id.as_str()).or_default();
            if !by.contains(&lesson.id.as_str()) {
                by.push(&lesson.id);
            }
        }
    }
    let each = course.charts.values().map(|chart| {
        let a = study_chart(chart, BareOptions::default(), course);
        json!({
            "id": chart.id,
            "title": chart.title,
            "stitches": chart.width,
            "rows": chart.height,
            "colours": chart.inks.len(),
            "grade": tenth(a.grade.grade),
            "level": a.grade.level.name(),
            "busyness": tenth(a.measures.busyness),
            "longest": a.measures.floats.longest,
            "rights": chart.rights.name(),
            "mayPrint": chart.rights.may_print(),
            "usedBy": used.get(chart.id.as_str()).cloned().unwrap_or_default(),
            "changed": changed.contains(&chart.id),
        })
    });
    each.collect()
}
