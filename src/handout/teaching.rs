//! The teacher's guide: meetings with their minutes, and for each lesson what to look for.

use serde::Serialize;

use crate::course::{Lesson, Sessions};
use crate::handout::cards::cards_of;
use crate::handout::pitfalls::pitfalls;
use crate::path::StudiedCourse;
use crate::piece::time::{self, Pace};
use crate::study::Studied;
use crate::words::{
    Begun, ClassReach, Doing, HomeLoad, RowNames, Wording, ahead, before, behind, doing, goal,
    home_text, meeting_own, patterned, stops_in, talk, technique_title,
};

/// A stretch of a meeting.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Stretch {
    /// Minutes from the beginning.
    pub from: u32,
    /// See above.
    pub to: u32,
    /// What happens.
    pub what: String,
}

/// A meeting of the class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Meeting {
    /// Its number.
    pub number: usize,
    /// Its lessons: number and title.
    pub lessons: Vec<String>,
    /// Its minutes.
    pub stretches: Vec<Stretch>,
    /// What to show, what to draw on the board, when all hands stop.
    pub own: Vec<String>,
    /// Whether all hands stop somewhere.
    pub stops: bool,
    /// What it leaves to do at home, and whether that fits.
    pub home: String,
    /// Whether it does.
    pub fits: bool,
}

/// What can go wrong with something new.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Trouble {
    /// The technique.
    pub title: String,
    /// Signs, causes and cures, in Markdown with trade words to be filled in.
    pub items: Vec<String>,
}

/// A lesson as it is taught.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Teaching {
    /// Its place.
    pub number: usize,
    /// Its title.
    pub title: String,
    /// What is done at home before.
    pub before: String,
    /// How far everyone should come in class, and what if not.
    pub goal: String,
    /// For those who are ahead.
    pub ahead: String,
    /// For those who are behind.
    pub behind: String,
    /// What to talk about, from the measures.
    pub talk: Vec<String>,
    /// What goes wrong.
    pub trouble: Vec<Trouble>,
}

/// The meetings of a course; none if it does not say how it is held.
pub(super) fn meetings(course: &StudiedCourse<'_>) -> Vec<Meeting> {
    let Some(sessions) = course.course.sessions else {
        return Vec::new();
    };
    let placed = &course.order.placed;
    let number = usize::try_from(sessions.count).unwrap_or(1).max(1);
    let tasks = course.tasks();
    let in_class = sessions.class_hours(placed.len());
    let wording = Wording::of_course(course.course);
    let mut begun = 0;
    (0..number)
        .map(|meeting| {
            // Lessons are shared out evenly; with more meetings than lessons a lesson goes on in the next one.
            let from = meeting * placed.len() / number;
            let to = ((meeting + 1) * placed.len() / number).max(from + 1);
            let lessons: Vec<(usize, &Lesson, usize)> = placed
                .iter()
                .enumerate()
                .take(to)
                .skip(from)
                .filter_map(|(i, p)| {
                    let lesson = course.course.lessons.get(p.index)?;
                    Some((i + 1, lesson, p.step.new_techniques.len()))
                })
                .collect();
            // A lesson that goes on in the next meeting is counted where it begins.
            let loads: Vec<(&str, f64)> = lessons
                .iter()
                .filter(|(n, ..)| *n > begun)
                .filter_map(|(n, lesson, _)| {
                    let usual = tasks.get(n - 1)?.hours.usual();
                    Some((lesson.title.as_str(), (usual - in_class).max(0.0)))
                })
                .collect();
            let begins = |place: &usize| *place >= begun.max(from);
            let own: Vec<Begun<'_>> = (from..to)
                .filter(begins)
                .filter_map(|place| {
                    let placed = placed.get(place)?;
                    Some(Begun {
                        number: place + 1,
                        lesson: course.course.lessons.get(placed.index)?,
                        studied: course.lessons.get(placed.index)?,
                        placed,
                    })
                })
                .collect();
            begun = begun.max(to);
            let load = HomeLoad {
                lessons: &loads,
                a_week: sessions.home_hours,
                weeks: (meeting + 1 < number).then_some(sessions.weeks_between),
            };
            Meeting {
                stops: own.iter().any(|one| stops_in(one, wording)),
                own: meeting_own(&own, wording),
                home: home_text(&load),
                fits: load.fits(),
                number: meeting + 1,
                stretches: stretches(&lessons, sessions, meeting),
                lessons: lessons
                    .iter()
                    .map(|(n, lesson, _)| format!("{n}. {}", lesson.title))
                    .collect(),
            }
        })
        .collect()
}

/// Every lesson as it is taught, in order.
pub(super) fn teaching(course: &StudiedCourse<'_>) -> Vec<Teaching> {
    let placed = &course.order.placed;
    let sessions = course.course.sessions;
    let wording = Wording::of_course(course.course);
    let minutes = sessions.map(|s| s.class_hours(placed.len()) * 60.0);
    let each = placed.iter().enumerate().filter_map(|(place, p)| {
        let lesson = course.course.lessons.get(p.index)?;
        let studied = course.lessons.get(p.index)?;
        let next = placed
            .get(place + 1)
            .and_then(|p| course.course.lessons.get(p.index));
        let minutes = minutes.filter(|_| lesson.craft.has_rows());
        let reach = minutes.map(|minutes| reach(lesson, studied, minutes));
        let names = RowNames::of_lesson(lesson, wording).with_places(lesson, &studied.work);
        Some(Teaching {
            number: place + 1,
            title: lesson.title.clone(),
            before: before(lesson, studied, place == 0, wording),
            goal: reach.map_or_else(String::new, |reach| goal(reach, &names)),
            ahead: ahead(reach, next, &names),
            behind: behind(reach, lesson, studied, &names),
            talk: talk(studied, &names),
            trouble: p
                .step
                .new_techniques
                .iter()
                .map(|id| Trouble {
                    title: technique_title(id, wording),
                    items: cards_of(id)
                        .into_iter()
                        .flat_map(pitfalls)
                        .cloned()
                        .collect(),
                })
                .collect(),
        })
    });
    each.collect()
}

/// The minutes of a meeting, in fives: looking round, then for each lesson explaining and work, then the way home.
fn stretches(
    lessons: &[(usize, &Lesson, usize)],
    sessions: Sessions,
    meeting: usize,
) -> Vec<Stretch> {
    let all = (sessions.hours * 60.0).max(20.0);
    let teach = all * sessions.teaching_share;
    let (look, home) = (teach * 0.2, teach * 0.15);
    let explain = teach - look - home;
    let weights: f64 = lessons.iter().map(|(_, _, new)| 1.0 + *new as f64).sum();
    let mut parts: Vec<(f64, Doing<'_>)> = Vec::new();
    let begin = if meeting == 0 {
        let cloth = lessons
            .first()
            .is_some_and(|(_, one, _)| !one.craft.has_rows());
        Doing::FirstLook(cloth)
    } else {
        Doing::Look
    };
    parts.push((look, begin));
    for (number, lesson, new) in lessons {
        let share = (1.0 + *new as f64) / weights.max(1.0);
        parts.push((explain * share, Doing::Show(*number, &lesson.title)));
        let work = (all - teach) / lessons.len().max(1) as f64;
        parts.push((work, Doing::Work(*number)));
    }
    parts.push((home, Doing::Home));
    let mut at = 0.0;
    let mut from = 0;
    let last = parts.len() - 1;
    let mut found = Vec::new();
    for (i, (minutes, what)) in parts.into_iter().enumerate() {
        at += minutes;
        let to = if i == last {
            all.round() as u32
        } else {
            ((at / 5.0).round() * 5.0) as u32
        };
        if to > from {
            let what = doing(what);
            found.push(Stretch { from, to, what });
            from = to;
        }
    }
    found
}

/// How many rows of the colourwork are worked in class.
fn reach(lesson: &Lesson, studied: &Studied<'_>, minutes: f64) -> ClassReach {
    let all = patterned(lesson);
    let rows = |pace| time::rows_within(&studied.work, minutes, pace).min(all);
    ClassReach {
        slow: rows(Pace::Slow),
        fast: rows(Pace::Fast),
        all,
    }
}
