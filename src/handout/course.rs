//! The course as a whole: its ladder, where each skill is met, what to buy.

use std::collections::BTreeMap;

use crate::assess::AssessedCourse;
use crate::handout::Quiz;
use crate::picture::LadderRung;
use crate::units::{plain_number, round_half_up};
use crate::words::{technique_title, technique_titles};

/// A lesson in the course plan.
#[derive(Clone, Debug)]
pub struct PlanLesson {
    /// Place in the order, from 1.
    pub number: usize,
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its grade, whole.
    pub grade: String,
    /// Its level.
    pub level: &'static str,
    /// The step to it, one decimal.
    pub step: String,
    /// What is new.
    pub new: Vec<String>,
}

/// Where a technique is met: for each lesson in order, `None`, or whether it is the first time.
#[derive(Clone, Debug)]
pub struct SkillRow {
    /// Its name.
    pub title: String,
    /// A place for each lesson.
    pub met: Vec<Option<bool>>,
}

/// The course plan.
#[derive(Clone, Debug)]
pub struct CoursePlan {
    /// Title of the course.
    pub title: String,
    /// Who gives it.
    pub guild: Option<String>,
    /// Imprint.
    pub footer: Option<String>,
    /// Lessons in order.
    pub lessons: Vec<PlanLesson>,
    /// The ladder.
    pub ladder: Vec<LadderRung>,
    /// Grades at which levels begin.
    pub levels: [f64; 3],
    /// Skills in the order they are met.
    pub skills: Vec<SkillRow>,
    /// The largest step: in one decimal, its place, what is said about it.
    pub largest: Option<(String, usize, String)>,
    /// Yarn colours and the lessons that use them.
    pub yarns: Vec<(String, [u8; 3], Vec<usize>)>,
    /// Questions for the class.
    pub quiz: Quiz,
}

/// Resolves the plan of a course.
#[must_use]
pub fn course_plan(assessed: &AssessedCourse<'_>) -> CoursePlan {
    let course = assessed.course;
    let order = &assessed.order;
    let largest_size = order.largest_step();
    let largest_place = order
        .placed
        .iter()
        .position(|p| p.step.size >= largest_size);
    let mut lessons = Vec::new();
    let mut ladder = Vec::new();
    let mut met: BTreeMap<&str, Vec<Option<bool>>> = BTreeMap::new();
    let mut sequence: Vec<&str> = Vec::new();
    let mut yarns: Vec<(String, [u8; 3], Vec<usize>)> = Vec::new();
    for (place, placed) in order.placed.iter().enumerate() {
        let (Some(lesson), Some(a)) = (
            course.lessons.get(placed.index),
            assessed.lessons.get(placed.index),
        ) else {
            continue;
        };
        let new = technique_titles(&placed.step.new_techniques);
        let step = format!("+{:.1}", round_half_up(placed.step.size, 1));
        ladder.push(LadderRung {
            title: lesson.title.clone(),
            points: a.grade.points,
            grade: plain_number(a.grade.grade, 0),
            new: new.clone(),
            step: step.clone(),
            largest: largest_place == Some(place),
        });
        lessons.push(PlanLesson {
            number: place + 1,
            id: lesson.id.clone(),
            title: lesson.title.clone(),
            grade: plain_number(a.grade.grade, 0),
            level: a.grade.level.name(),
            step,
            new,
        });
        for technique in &a.grade.techniques {
            let row = met.entry(technique).or_insert_with(|| {
                sequence.push(technique);
                vec![None; order.placed.len()]
            });
            let is_first = placed.step.new_techniques.contains(technique);
            if let Some(cell) = row.get_mut(place) {
                *cell = Some(is_first);
            }
        }
        for yarn in &lesson.yarns {
            match yarns
                .iter_mut()
                .find(|(name, rgb, _)| *name == yarn.name && *rgb == yarn.rgb)
            {
                Some((_, _, used)) => used.push(place + 1),
                None => yarns.push((yarn.name.clone(), yarn.rgb, vec![place + 1])),
            }
        }
    }
    let skills = sequence
        .into_iter()
        .map(|id| SkillRow {
            title: technique_title(id),
            met: met.get(id).cloned().unwrap_or_default(),
        })
        .collect();
    yarns.sort();
    CoursePlan {
        title: course.title.clone(),
        guild: course.guild.clone(),
        footer: course.footer.clone(),
        lessons,
        ladder,
        levels: course.levels.0,
        skills,
        largest: largest_place.map(|place| largest_words(assessed, place)),
        yarns,
        quiz: Quiz::default(),
    }
}

fn largest_words(assessed: &AssessedCourse<'_>, place: usize) -> (String, usize, String) {
    let budget = assessed.course.budget;
    let is_door = assessed.order.doorstep == Some(place);
    let size = assessed
        .order
        .placed
        .get(place)
        .map_or(0.0, |p| p.step.size);
    let allowed = if is_door {
        budget.doorstep
    } else {
        budget.step
    };
    let why = if is_door {
        "The doorstep: two colours meet in one round for the first time. Nobody is spared it; if somebody finds it \
         hard, let her work the piece twice with other yarns."
    } else {
        "If somebody finds it hard, let her work the lesson before it twice with other yarns."
    };
    (
        plain_number(size, 1),
        place + 1,
        format!("of the {} allowed. {why}", plain_number(allowed, 1)),
    )
}
