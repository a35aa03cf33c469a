//! The teacher's guide: meetings with their minutes, and for each lesson what to look for.

use serde::Serialize;

use crate::course::{Lesson, Sessions};
use crate::ground::units::{plain_number, round_half_up};
use crate::handout::news::capital;
use crate::handout::pitfalls::pitfalls;
use crate::path::StudiedCourse;
use crate::piece::time::{self, Pace, Stitches};
use crate::study::Studied;
use crate::words::{RowNames, cause_text, count, needle_text, part_title, technique_title};

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
            Meeting {
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
    let mut parts: Vec<(f64, String)> = Vec::new();
    parts.push((
        look,
        if meeting == 0 {
            "Look at everybody’s swatch; measure the gauge together".to_owned()
        } else {
            "Look round: what came from home is laid out, ticked off and praised".to_owned()
        },
    ));
    for (number, lesson, new) in lessons {
        let share = (1.0 + *new as f64) / weights.max(1.0);
        parts.push((
            explain * share,
            format!("Lesson {number}, {}: show what is new", lesson.title),
        ));
        let work = (all - teach) / lessons.len().max(1) as f64;
        parts.push((
            work,
            format!("Lesson {number}: everyone works, you go round"),
        ));
    }
    parts.push((home, "What to do at home, and what to bring".to_owned()));
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
            found.push(Stretch { from, to, what });
            from = to;
        }
    }
    found
}

/// Every lesson as it is taught, in order.
pub(super) fn teaching(course: &StudiedCourse<'_>) -> Vec<Teaching> {
    let placed = &course.order.placed;
    let sessions = course.course.sessions;
    let minutes = sessions.map(|s| s.class_hours(placed.len()) * 60.0);
    let each = placed.iter().enumerate().filter_map(|(place, p)| {
        let lesson = course.course.lessons.get(p.index)?;
        let studied = course.lessons.get(p.index)?;
        let next = placed
            .get(place + 1)
            .and_then(|p| course.course.lessons.get(p.index));
        let reach = minutes.map(|minutes| Reach::of(studied, minutes));
        let names = RowNames::of_lesson(lesson).with_places(lesson, &studied.work);
        Some(Teaching {
            number: place + 1,
            title: lesson.title.clone(),
            before: before(lesson, studied, place == 0),
            goal: reach
                .as_ref()
                .map_or_else(String::new, |reach| reach.goal(&names)),
            ahead: ahead(reach.as_ref(), next, &names),
            behind: behind(reach.as_ref(), studied, &names),
            talk: talk(studied, &names),
            trouble: p
                .step
                .new_techniques
                .iter()
                .map(|id| Trouble {
                    title: technique_title(id),
                    items: pitfalls(id).to_vec(),
                })
                .collect(),
        })
    });
    each.collect()
}

/// How many rows of the colourwork are worked in class.
struct Reach {
    slow: usize,
    fast: usize,
    all: usize,
}

impl Reach {
    fn of(studied: &Studied<'_>, minutes: f64) -> Self {
        let rows = |pace| time::rows_within(&studied.work, minutes, pace);
        Self {
            slow: rows(Pace::Slow),
            fast: rows(Pace::Fast),
            all: studied.work.rows.len(),
        }
    }

    fn goal(&self, names: &RowNames) -> String {
        match self.slow {
            0 => format!(
                "Nobody needs to finish a {line}: a {line} takes a slow hand longer than the time there is. All have begun \
                 the first one.",
                line = names.line
            ),
            n if n >= self.all => format!(
                "Everyone can have worked all {} of the colourwork before leaving.",
                count(self.all, names.line, names.lines)
            ),
            n => format!(
                "Everyone is past {} {n} of the colourwork’s {} before leaving; a slow hand gets so far in class.",
                names.line, self.all
            ),
        }
    }
}

fn ahead(reach: Option<&Reach>, next: Option<&Lesson>, names: &RowNames) -> String {
    let far = match reach {
        Some(reach) if reach.fast < reach.all && reach.fast > 0 => {
            format!(
                "Go on; a quick hand comes to {} {}. ",
                names.line, reach.fast
            )
        }
        _ => String::new(),
    };
    match next {
        Some(next) => format!("{far}Then begin the swatch for lesson “{}”.", next.title),
        None => format!("{far}Then help a neighbour to read her own work."),
    }
}

/// The first row with something that must not be missed, for those who will not come to it in class.
fn behind(reach: Option<&Reach>, studied: &Studied<'_>, names: &RowNames) -> String {
    let first = studied.plan().iter().position(|plan| !plan.is_empty());
    let slow = reach.map_or(0, |reach| reach.slow);
    let mut text = match first {
        Some(row) if row >= slow => format!(
            "The first catch comes in {} {} of the colourwork: let her try it on the swatch before she goes home. ",
            names.line,
            row + 1
        ),
        _ => String::new(),
    };
    let hours = studied.made().stitches.in_class();
    if hours.to > 0.0 {
        text.push_str(&format!(
            "The whole piece takes {}–{} hours; what is left is done at home, or the smallest size is made.",
            plain_number(hours.from, 1),
            plain_number(hours.to, 1)
        ));
    }
    text
}

/// What is done at home before: the swatch, and what lies beneath the colourwork.
fn before(lesson: &Lesson, studied: &Studied<'_>, first: bool) -> String {
    let hours = studied.made().before_colourwork.map(Stitches::in_class);
    let swatch = if lesson.craft.carries_inside() {
        "A swatch in the pattern"
    } else {
        "A swatch in the pattern, washed and dry"
    };
    match hours {
        Some(hours) if hours.to >= 0.1 => format!(
            "{swatch}; then the edge and all that lies beneath the colourwork ({}–{} hours).",
            plain_number(round_half_up(hours.from, 1), 1),
            plain_number(round_half_up(hours.to, 1), 1)
        ),
        _ if first => format!("{swatch}, and nothing else."),
        _ => format!("{swatch}."),
    }
}

/// What the measures say that a class may wonder at.
fn talk(studied: &Studied<'_>, names: &RowNames) -> Vec<String> {
    let mut points: Vec<String> = Vec::new();
    let (grade, busy) = (studied.grade.grade, studied.measures.busyness);
    let looks = if busy > grade + 10.0 {
        "It looks harder than it is"
    } else if grade > busy + 10.0 {
        "It is harder than it looks"
    } else {
        "It looks about as hard as it is"
    };
    points.push(format!(
        "{looks}: {} of 100 busy, {} of 100 hard.",
        plain_number(round_half_up(busy, 0), 0),
        plain_number(round_half_up(grade, 0), 0)
    ));
    let mut parts: Vec<(f64, String)> = crate::course::Part::ALL
        .into_iter()
        .filter_map(|part| {
            let points = *studied.grade.points.get(part.index())?;
            let cause = studied.grade.causes.get(part.index())?;
            let text = capital(&cause_text(part, cause, names));
            Some((
                points,
                format!(
                    "{} ({} points): {text}.",
                    part_title(part),
                    plain_number(points, 1)
                ),
            ))
        })
        .filter(|(points, _)| *points >= 0.5)
        .collect();
    parts.sort_by(|a, b| b.0.total_cmp(&a.0));
    points.extend(parts.into_iter().take(3).map(|(_, text)| text));
    points
}

/// What a class of so many needs besides yarn, in sentences.
pub(super) fn kit(course: &StudiedCourse<'_>) -> Vec<String> {
    let learners = course.course.sessions.map_or(1, |s| s.learners);
    let units = course.course.units;
    let mut sizes: Vec<(crate::ground::units::Length, &'static str, Vec<usize>)> = Vec::new();
    for (place, p) in course.order.placed.iter().enumerate() {
        let Some(lesson) = course.course.lessons.get(p.index) else {
            continue;
        };
        let tool = if lesson.craft.carries_inside() {
            "hook"
        } else {
            "needle"
        };
        for length in [lesson.rib_needle, lesson.colourwork.needle]
            .into_iter()
            .flatten()
        {
            match sizes
                .iter_mut()
                .find(|(l, t, _)| *l == length && *t == tool)
            {
                Some((_, _, lessons)) => {
                    if lessons.last() != Some(&(place + 1)) {
                        lessons.push(place + 1);
                    }
                }
                None => sizes.push((length, tool, vec![place + 1])),
            }
        }
    }
    sizes.sort_by(|a, b| a.1.cmp(b.1).then(a.0.to_mm().total_cmp(&b.0.to_mm())));
    let mut items: Vec<String> = sizes
        .into_iter()
        .map(|(length, tool, lessons)| {
            let word = if lessons.len() == 1 {
                "lesson"
            } else {
                "lessons"
            };
            format!(
                "{learners} of the {} {tool}, for {word} {}",
                needle_text(length, units),
                crate::words::list_and(&lessons)
            )
        })
        .collect();
    items.push(format!(
        "{} stitch markers, {learners} blunt sewing needles, {learners} tape measures",
        8 * learners
    ));
    items.push("Scissors for every four, waste yarn in a smooth light colour, pencils, and a scale to weigh the swatches".to_owned());
    items.push("A lamp that shows dark yarn, and a chair for every table: tired eyes and shoulders make tight floats".to_owned());
    items
}
