//! The course as a whole: its ladder, where each skill is met, what to buy.

use std::collections::BTreeMap;

use crate::course::{Course, Learner, Lesson};
use crate::ground::units::{plain_number, round_half_up};
use crate::handout::fabric::fabric_of;
use crate::handout::shape::{shown as shown_piece, yoke_view};
use crate::handout::teaching::{meetings, teaching};
use crate::handout::{Meeting, Print, Quiz, Teaching, YokeView};
use crate::path::{Placed, StudiedCourse};
use crate::picture::{Fabric, LadderRung, Rung};
use crate::piece::Piece;
use crate::piece::time::Hours;
use crate::piece::yarn::{Amount, Basis};
use crate::rows::grade::Skill;
use crate::study::Studied;
use crate::words::{
    Wording, clash_sentences, kit, labels, largest_step_words, rates, technique_title,
    technique_titles,
};

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
    /// Hours in a class, in the middle size.
    pub class: Hours,
    /// Hours of a fluent knitter.
    pub fluent: Hours,
    /// Yarns of one row that do not read apart, in words.
    pub clashes: Vec<String>,
}

/// A yarn colour of the course, each lesson made once in its middle size.
#[derive(Clone, Debug)]
pub struct PlanYarn {
    /// Its name.
    pub name: String,
    /// Its colour.
    pub rgb: [u8; 3],
    /// Places of the lessons that use it.
    pub lessons: Vec<usize>,
    /// Grams used in the lessons whose amount is known; `None` where none is.
    pub used: Option<f64>,
    /// Balls of 50 g to buy for them.
    pub balls: Option<u32>,
    /// Places of the lessons that use it and whose amount is not known.
    pub without: Vec<usize>,
    /// Grams used by the whole class, and balls for it: each learner who has a name in her own size.
    pub class: (Option<f64>, Option<u32>),
    /// Its weight category: yarns of one name and two weights are two yarns.
    weight: Option<u32>,
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
    /// The climb.
    pub climb: Vec<Rung>,
    /// Grades at which levels begin.
    pub levels: [f64; 3],
    /// Skills in the order they are met.
    pub skills: Vec<SkillRow>,
    /// Whether a lesson brings the first steps in a craft.
    pub first_steps: bool,
    /// The largest step: in one decimal, its place, what is said about it.
    pub largest: Option<(String, usize, String)>,
    /// Yarn colours and the lessons that use them.
    pub yarns: Vec<PlanYarn>,
    /// What hours are reckoned from.
    pub rates: String,
    /// People in the class, if the course says so.
    pub learners: Option<u32>,
    /// Their names and sizes, if the course says so.
    pub register: Vec<(String, String)>,
    /// Hours of work in class that each lesson may have, if the course says how it is held.
    pub class_hours: Option<f64>,
    /// A yoke for the cover: of the last lesson that has one to show.
    pub yoke: Option<YokeView>,
    /// Strips of fabric for a cover without one, from the first lesson on.
    pub strata: Vec<Fabric>,
    /// Meetings of the class, if the course says how it is held.
    pub meetings: Vec<Meeting>,
    /// Every lesson as it is taught.
    pub teaching: Vec<Teaching>,
    /// What a class needs besides yarn.
    pub kit: Vec<String>,
    /// Pages of each lesson's handout; empty before they are laid out.
    pub pages: Vec<usize>,
    /// Questions for the class.
    pub quiz: Quiz,
    /// How it is printed.
    pub print: Print,
    /// The words of the course.
    pub wording: Wording,
}

/// Resolves the plan of a course.
#[must_use]
pub fn course_plan(studied: &StudiedCourse<'_>, print: &Print) -> CoursePlan {
    let course = studied.course;
    let order = &studied.order;
    let wording = Wording::of_course(course);
    let largest_size = order.largest_step();
    let largest_place = order
        .placed
        .iter()
        .position(|p| p.step.size >= largest_size);
    let mut lessons = Vec::new();
    let mut ladder = Vec::new();
    let mut met: BTreeMap<&str, Vec<Option<bool>>> = BTreeMap::new();
    let mut sequence: Vec<&str> = Vec::new();
    let mut yarns: Vec<PlanYarn> = Vec::new();
    for (place, placed) in order.placed.iter().enumerate() {
        let (Some(lesson), Some(a)) = (
            course.lessons.get(placed.index),
            studied.lessons.get(placed.index),
        ) else {
            continue;
        };
        let one = plan_lesson((lesson, a), placed, place + 1, wording);
        ladder.push(LadderRung {
            title: one.title.clone(),
            points: a.grade.points,
            grade: one.grade.clone(),
            new: one.new.clone(),
            step: one.step.clone(),
            largest: largest_place == Some(place),
        });
        lessons.push(one);
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
        add_yarns((lesson, a), course, place + 1, &mut yarns);
    }
    let is_first = |id: &&str| Skill::of(id) == Some(Skill::FirstSteps);
    let first_steps = sequence.iter().any(is_first);
    let skills = sequence
        .into_iter()
        .map(|id| SkillRow {
            title: technique_title(id, wording),
            met: met.get(id).cloned().unwrap_or_default(),
        })
        .collect();
    name_weights(&mut yarns);
    yarns.sort_by(|a, b| (&a.name, a.rgb).cmp(&(&b.name, b.rgb)));
    let sessions = course.sessions;
    CoursePlan {
        title: course.title.clone(),
        guild: course.guild.clone(),
        footer: course.footer.clone(),
        lessons,
        climb: ladder
            .iter()
            .map(|rung| Rung {
                grade: rung.points.iter().sum(),
            })
            .collect(),
        ladder,
        levels: course.levels.0,
        skills,
        first_steps,
        largest: largest_place.map(|place| largest(studied, place)),
        yarns,
        learners: sessions.map(|s| s.learners),
        register: course
            .learners
            .iter()
            .map(|learner| (learner.name.clone(), learner.size.label.clone()))
            .collect(),
        rates: rates(course),
        class_hours: sessions.map(|s| s.class_hours(course.lessons.len())),
        yoke: last_yoke(studied, print),
        strata: strata(studied, print),
        meetings: meetings(studied),
        teaching: teaching(studied),
        kit: kit(studied),
        pages: Vec::new(),
        quiz: Quiz::default(),
        print: print.clone(),
        wording,
    }
}

/// A lesson at its place, from 1.
fn plan_lesson(
    (lesson, a): (&Lesson, &Studied<'_>),
    placed: &Placed,
    number: usize,
    wording: Wording,
) -> PlanLesson {
    let made = a.made();
    let clashes = made.clashes.iter();
    PlanLesson {
        number,
        id: lesson.id.clone(),
        title: lesson.title.clone(),
        grade: plain_number(a.grade.grade, 0),
        level: a.grade.level.name(),
        step: format!("+{:.1}", round_half_up(placed.step.size, 1)),
        new: technique_titles(&placed.step.new_techniques, wording),
        class: made.stitches.in_class(),
        fluent: made.stitches.fluent(),
        clashes: clashes
            .map(|clash| clash_sentences(clash, lesson, wording))
            .collect(),
    }
}

/// The yoke of the last lesson that has one whose charts may be printed, in its middle size.
fn last_yoke(studied: &StudiedCourse<'_>, print: &Print) -> Option<YokeView> {
    studied.order.placed.iter().rev().find_map(|placed| {
        let lesson = studied.course.lessons.get(placed.index)?;
        let of = studied.lessons.get(placed.index)?;
        let charts = lesson.charts();
        let shown = charts.iter().all(|what| what.chart.rights.may_print());
        let piece = shown_piece(&of.made().pieces, None).filter(|_| shown)?;
        yoke_view(lesson, piece, of, print)
    })
}

/// Most strips of a cover, and the height of each in millimetres.
const STRATA: usize = 7;
const STRATUM: f64 = 20.0;

/// A strip of the fabric of every lesson that shows some; of many, so many at equal distances, the last one among them.
fn strata(studied: &StudiedCourse<'_>, print: &Print) -> Vec<Fabric> {
    let placed = &studied.order.placed;
    let wording = Wording::of_course(studied.course);
    let all: Vec<Fabric> = placed
        .iter()
        .filter_map(|p| {
            let lesson = studied.course.lessons.get(p.index)?;
            fabric_of(
                lesson,
                studied.lessons.get(p.index)?,
                (STRATUM, print),
                wording,
            )
        })
        .collect();
    let count = all.len();
    let kept = count.min(STRATA);
    let keep = |i: usize| (i + 1) * kept / count.max(1) > i * kept / count.max(1);
    all.into_iter()
        .enumerate()
        .filter(|(i, _)| keep(*i))
        .map(|(_, fabric)| fabric)
        .collect()
}

/// The sum of what is known.
fn sum<T: std::ops::Add<Output = T>>(a: Option<T>, b: Option<T>) -> Option<T> {
    match (a, b) {
        (Some(a), Some(b)) => Some(a + b),
        (one, other) => one.or(other),
    }
}

/// The yarns of a lesson, in its middle size and for the class.
fn add_yarns(
    (lesson, studied): (&Lesson, &Studied<'_>),
    course: &Course,
    place: usize,
    yarns: &mut Vec<PlanYarn>,
) {
    // Floss is told with its lesson, by length.
    if !lesson.craft.has_rows() {
        return;
    }
    let made = studied.made();
    let one = made.middle_amounts();
    // Whoever has no name, or a size that the lesson does not have, makes the middle one.
    let size = |learner: &Learner| {
        let hers = |piece: &Piece| piece.size.as_ref().is_some_and(|s| s.id == learner.size.id);
        let at = made.pieces.iter().position(hers);
        at.and_then(|at| made.amounts.get(at)).or(one)
    };
    let named: Vec<_> = course.learners.iter().map(size).collect();
    let unnamed = course
        .sessions
        .map_or(1, |sessions| sessions.learners as usize);
    let class = if named.is_empty() {
        vec![one; unnamed]
    } else {
        named
    };
    for (i, yarn) in lesson.yarns.iter().enumerate() {
        let amount =
            |of: Option<&(Basis, Vec<Amount>)>| of.and_then(|(_, all)| all.get(i).copied());
        let grams = |of| amount(of).and_then(|a| a.grams);
        let balls = |of| amount(of).and_then(|a| a.balls);
        let all_grams: Option<f64> = class.iter().map(|of| grams(*of)).sum();
        let all_balls: Option<u32> = class.iter().map(|of| balls(*of)).sum();
        let known = yarns.iter_mut().find(|known| {
            (&known.name, known.rgb, known.weight) == (&yarn.name, yarn.rgb, lesson.yarn_weight)
        });
        let (grams, balls) = (grams(one), balls(one));
        match known {
            Some(known) => {
                known.lessons.push(place);
                // What is not known takes nothing from the sum of the others, which says so.
                known.used = sum(known.used, grams);
                known.balls = sum(known.balls, balls);
                known.class = (sum(known.class.0, all_grams), sum(known.class.1, all_balls));
                known.without.extend(grams.is_none().then_some(place));
            }
            None => yarns.push(PlanYarn {
                name: yarn.name.clone(),
                rgb: yarn.rgb,
                lessons: vec![place],
                used: grams,
                balls,
                class: (all_grams, all_balls),
                without: grams.is_none().then_some(place).into_iter().collect(),
                weight: lesson.yarn_weight,
            }),
        }
    }
}

/// The largest step: its size, its place from 1, what is said about it.
fn largest(studied: &StudiedCourse<'_>, place: usize) -> (String, usize, String) {
    let is_door = studied.order.doorstep == Some(place);
    let size = studied.order.placed.get(place).map_or(0.0, |p| p.step.size);
    let words = largest_step_words(
        studied.course.budget,
        (size, is_door),
        place,
        Wording::of_course(studied.course),
    );
    (plain_number(size, 1), place + 1, words)
}

/// Where a course has yarns of one name and several weights, each is told by its weight, too.
fn name_weights(yarns: &mut [PlanYarn]) {
    let known: Vec<(String, Option<u32>)> =
        yarns.iter().map(|y| (y.name.clone(), y.weight)).collect();
    for yarn in yarns {
        let other =
            |(name, weight): &(String, Option<u32>)| *name == yarn.name && *weight != yarn.weight;
        if let Some(weight) = yarn.weight.filter(|_| known.iter().any(other)) {
            yarn.name = labels::yarn_of_weight(&yarn.name, weight);
        }
    }
}
