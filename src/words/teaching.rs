//! What a teacher reads of each lesson, and what a class needs.

use std::collections::BTreeSet;

use crate::course::{Course, Craft, Lesson, Part};
use crate::ground::units::{Length, plain_number, round_half_up};
use crate::path::StudiedCourse;
use crate::piece::needles::{markers, needles};
use crate::piece::time::Stitches;
use crate::study::Studied;
use crate::words::CraftWords;
use crate::words::{
    RowNames, Wording, capital, cause_text, count, list_and, needle_kinds, needle_text, part_name,
};

/// How many rows of the colourwork are worked in class.
#[derive(Clone, Copy, Debug)]
pub struct ClassReach {
    /// By a slow hand.
    pub slow: usize,
    /// By a quick hand.
    pub fast: usize,
    /// Of so many.
    pub all: usize,
}

/// How far everyone should come in class.
#[must_use]
pub fn goal(reach: ClassReach, names: &RowNames) -> String {
    match reach.slow {
        0 => format!(
            "Nobody needs to finish a {line}: a {line} takes a slow hand longer than the time there is. All have begun \
             the first one.",
            line = names.line
        ),
        n if n >= reach.all => format!(
            "Everyone can have worked all {} of the {colour}work before leaving.",
            count(reach.all, names.line, names.lines),
            colour = names.wording.colour()
        ),
        n => format!(
            "Everyone is past {} {n} of the {}work’s {} before leaving; a slow hand gets so far in class.",
            names.line,
            names.wording.colour(),
            reach.all
        ),
    }
}

/// For those who are ahead; `next` is the next lesson.
#[must_use]
pub fn ahead(reach: Option<ClassReach>, next: Option<&Lesson>, names: &RowNames) -> String {
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
        Some(next) => format!(
            "{far}Then begin {} for lesson “{}”.",
            CraftWords::of(next, names.wording).preparation(),
            next.title
        ),
        None => format!(
            "{far}Then help a {} to read her own work.",
            names.wording.neighbour()
        ),
    }
}

/// The first row with something that must not be missed, for those who will not come to it in class.
#[must_use]
pub fn behind(
    reach: Option<ClassReach>,
    lesson: &Lesson,
    studied: &Studied<'_>,
    names: &RowNames,
) -> String {
    let first = studied.plan().iter().position(|plan| !plan.is_empty());
    let slow = reach.map_or(0, |reach| reach.slow);
    let mut text = match first {
        Some(row) if row >= slow => format!(
            "The first catch comes in {} {} of the {}work: let her try it on the swatch before she goes home. ",
            names.line,
            row + 1,
            names.wording.colour()
        ),
        _ => String::new(),
    };
    let hours = studied.made().stitches.in_class();
    if hours.to > 0.0 {
        let smaller = match lesson.sizes.len() {
            0 | 1 => "",
            _ => ", or the smallest size is made",
        };
        text.push_str(&format!(
            "The whole piece takes {}–{} hours; what is left is done at home{smaller}.",
            plain_number(hours.from, 1),
            plain_number(hours.to, 1)
        ));
    }
    text
}

/// What is done at home before: the swatch, and what lies beneath the colourwork.
#[must_use]
pub fn before(lesson: &Lesson, studied: &Studied<'_>, first: bool, wording: Wording) -> String {
    let hours = studied.made().before_colourwork.map(Stitches::in_class);
    let swatch = CraftWords::of(lesson, wording).at_home();
    match hours {
        Some(hours) if hours.to >= 0.1 && lesson.craft.has_rows() => format!(
            "{swatch}; then {} and all that lies beneath the {}work ({}–{} hours).",
            CraftWords::of(lesson, wording).lower_edge(),
            wording.colour(),
            plain_number(round_half_up(hours.from, 1), 1),
            plain_number(round_half_up(hours.to, 1), 1)
        ),
        _ if first => format!("{swatch}, and nothing else."),
        _ => format!("{swatch}."),
    }
}

/// How hard a thing is against how hard it looks.
#[must_use]
pub fn against_looks(grade: f64, busyness: f64) -> &'static str {
    if busyness > grade + 10.0 {
        "It looks harder than it is"
    } else if grade > busyness + 10.0 {
        "It is harder than it looks"
    } else {
        "It looks about as hard as it is"
    }
}

/// What the measures say that a class may wonder at.
#[must_use]
pub fn talk(studied: &Studied<'_>, names: &RowNames) -> Vec<String> {
    let mut points: Vec<String> = Vec::new();
    let (grade, busy) = (studied.grade.grade, studied.measures.busyness);
    let looks = against_looks(grade, busy);
    points.push(format!(
        "{looks}: {} of 100 busy, {} of 100 hard.",
        plain_number(round_half_up(busy, 0), 0),
        plain_number(round_half_up(grade, 0), 0)
    ));
    let mut parts: Vec<(f64, String)> = Part::ALL
        .into_iter()
        .filter_map(|part| {
            let points = *studied.grade.points.get(part.index())?;
            let cause = studied.grade.causes.get(part.index())?;
            let text = capital(&cause_text(part, cause, names));
            Some((
                points,
                format!(
                    "{} ({} points): {text}.",
                    part_name(part, cause, names.wording),
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
#[must_use]
pub fn kit(course: &StudiedCourse<'_>) -> Vec<String> {
    let learners = course.course.sessions.map_or(1, |s| s.learners);
    let units = course.course.units;
    let wording = Wording::of_course(course.course);
    let mut sizes: Vec<(Length, String, Vec<usize>)> = Vec::new();
    let mut most_markers = 0;
    for (place, p) in course.order.placed.iter().enumerate() {
        let (Some(lesson), Some(studied)) = (
            course.course.lessons.get(p.index),
            course.lessons.get(p.index),
        ) else {
            continue;
        };
        let pieces = &studied.made().pieces;
        most_markers = most_markers.max(markers(lesson, pieces));
        let tool = CraftWords::of(lesson, wording).tool();
        let of_kinds: Vec<(Length, String)> = needles(lesson, pieces)
            .iter()
            .flat_map(|needles| {
                let kinds = needle_kinds(needles, units).into_iter();
                kinds.filter_map(|kind| Some((needles.size?, kind)))
            })
            .collect();
        let plain = [lesson.rib_needle, lesson.colourwork.needle]
            .into_iter()
            .flatten();
        let width = pieces.first().map(|piece| piece.main.girth);
        let kind = format!("{tool}{}", CraftWords::of(lesson, wording).tool_kind(width));
        let plain = plain.map(|size| (size, kind.clone()));
        let all = if of_kinds.is_empty() {
            plain.collect()
        } else {
            of_kinds
        };
        for (length, kind) in all {
            match sizes
                .iter_mut()
                .find(|(l, k, _)| *l == length && *k == kind)
            {
                Some((_, _, lessons)) => {
                    if lessons.last() != Some(&(place + 1)) {
                        lessons.push(place + 1);
                    }
                }
                None => sizes.push((length, kind, vec![place + 1])),
            }
        }
    }
    sizes.sort_by(|a, b| {
        a.0.to_mm()
            .total_cmp(&b.0.to_mm())
            .then_with(|| a.1.cmp(&b.1))
    });
    let mut items: Vec<String> = sizes
        .into_iter()
        .map(|(length, kind, lessons)| {
            let word = if lessons.len() == 1 {
                "lesson"
            } else {
                "lessons"
            };
            format!(
                "{learners} of {} ({kind}), for {word} {}",
                needle_text(length, units),
                list_and(&lessons)
            )
        })
        .collect();
    let lessons = course.course.lessons.iter();
    let cloth = lessons.clone().any(|lesson| !lesson.craft.has_rows());
    let rows = lessons.clone().any(|lesson| lesson.craft.has_rows());
    let colour = wording.colour();
    if cloth {
        items.push(format!(
            "{learners} hoops or frames, blunt tapestry needles as the lessons say, one for each thread, scissors with points; cloth and \
             floss for {learners}"
        ));
        items.push(
            "A lamp from one side, a magnifier to pass round, and a chair for every table"
                .to_owned(),
        );
    }
    if rows {
        items.push(format!(
            "{} stitch markers, {learners} blunt sewing needles, {learners} tape measures",
            most_markers.max(1) * learners as usize
        ));
        items.push(format!(
            "Scissors for every four, waste yarn in a smooth light {colour}, pencils, and a scale to weigh the swatches"
        ));
        items.push("A lamp that shows dark yarn, and a chair for every table: tired eyes and shoulders make tight floats".to_owned());
    }
    items
}

/// What happens in a stretch of a meeting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doing<'a> {
    /// The first hour begins; whether with cloth.
    FirstLook(bool),
    /// A later one begins.
    Look,
    /// A lesson is shown: its number and title.
    Show(usize, &'a str),
    /// A lesson is worked at.
    Work(usize),
    /// The end.
    Home,
}

/// What happens, for the list of a meeting.
#[must_use]
pub fn doing(what: Doing<'_>) -> String {
    match what {
        Doing::FirstLook(true) => "Look at everybody’s cloth; find its middle together".to_owned(),
        Doing::FirstLook(false) => "Look at everybody’s swatch; measure it together".to_owned(),
        Doing::Look => {
            "Look round: what came from home is laid out, ticked off and praised".to_owned()
        }
        Doing::Show(number, title) => format!("Lesson {number}, {title}: show what is new"),
        Doing::Work(number) => format!("Lesson {number}: everyone works, you go round"),
        Doing::Home => "What to do at home, and what to bring".to_owned(),
    }
}

/// What hours are reckoned from, for the crafts of a course.
#[must_use]
pub fn rates(course: &Course) -> String {
    let crafts: BTreeSet<Craft> = course.lessons.iter().map(|lesson| lesson.craft).collect();
    let number = |n: f64| plain_number(n, 1);
    let several = crafts.len() > 1;
    let told = crafts.iter().map(|craft| {
        let [fluent, class] = craft.rates();
        let of = if several {
            format!(" ({})", craft.name().replace('-', " "))
        } else {
            String::new()
        };
        if craft.has_rows() {
            format!(
                "fluent{of}: {} plain stitches a minute, {} in two {}; learner: {} and {}",
                number(fluent.0),
                number(fluent.1),
                Wording::of_course(course).colours(),
                number(class.0),
                number(class.1)
            )
        } else {
            format!(
                "fluent{of}: {} crosses a minute; learner: {}",
                number(fluent.0),
                number(class.0)
            )
        }
    });
    let told: Vec<String> = told.collect();
    format!(
        "{}; each from seven tenths to one and a half of that (common practice, no source).",
        capital(&told.join("; "))
    )
}
