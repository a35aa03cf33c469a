//! Heads of tables, headings and captions that do not stand in a template.

mod handout;

pub use handout::*;

use crate::course::{Binding, Units};
use crate::ground::units::{Length, plain_number};
use crate::words::{Wording, capital, literal, short_text};

/// Over what is new.
pub const NEW: &str = "New in this one";
/// Over cautions.
pub const TAKE_CARE: &str = "Take care";
/// Over several things in one row.
pub const SIDE_BY_SIDE: &str = "Side by side";
/// Over a rib.
pub const RIB: &str = "Rib";
/// Over plain rounds.
pub const PLAIN: &str = "Plain";
/// The way back from a handout.
pub const WHOLE_COURSE: &str = "The whole course";
/// A drawing that scrolls.
pub const DRAWING: &str = "Drawing";
/// A table that scrolls.
pub const TABLE: &str = "Table";
/// Links between pages of a course.
pub const COURSE: &str = "Course";
/// What stands for an amount that is not known.
pub const UNKNOWN: &str = "–";

/// The plan of a course, as a document.
pub const PLAN: &str = "Course plan";
/// The teacher's guide, as a document.
pub const TEACHER: &str = "For the teacher";
/// The quiz, as a document.
pub const QUIZ: &str = "Which is harder?";

/// A round in which the count changes: for more or fewer stitches in some size.
#[must_use]
pub const fn change(more: bool, less: bool) -> &'static str {
    match (more, less) {
        (true, false) => "Widen",
        (false, _) => "Narrow",
        (true, true) => "Change",
    }
}

/// The forward and the return pass of a Tunisian row, in short.
pub const PASSES: [&str; 2] = ["F", "R"];

/// At the side of a row of one colour.
pub const RELIEF: &str = "relief";

/// A round without shaping, in a table of rounds.
pub const PLAIN_ROUND: &str = "plain";

/// A chart by its title.
#[must_use]
pub fn chart_title(title: &str) -> String {
    format!("Chart “{title}”")
}

/// A lesson by its number.
#[must_use]
pub fn lesson_label(number: usize) -> String {
    format!("{LESSON} {number}")
}

/// A lesson.
pub const LESSON: &str = "Lesson";

/// A lesson by its number and title.
#[must_use]
pub fn lesson_titled(number: usize, title: &str) -> String {
    format!("{LESSON} {number}: {title}")
}

/// Words that stay on one line with the number after them.
pub const COUNTED: [&str; 8] = [
    "round", "Round", "rounds", "row", "rows", "stitch", "lesson", "page",
];

/// Words of a row that stay on one line.
pub const REPEAT_FROM: &str = "repeat from *";

/// How many lessons there are, beside the number of one.
#[must_use]
pub fn of_lessons(of: usize) -> String {
    format!("of {of}")
}

/// A lesson by its number, and how many there are.
#[must_use]
pub fn lesson_of(number: usize, of: usize) -> String {
    format!("{LESSON} {number} {}", of_lessons(of))
}

/// Over a technique card.
pub const CARD: &str = "TECHNIQUE CARD";

/// A handout as a document.
#[must_use]
pub fn handout_title(title: &str, number: usize, of: usize) -> String {
    format!("{title}, lesson {number} of {of}")
}

/// Heads of the contents of a course; `pages` of print have a column of their own.
#[must_use]
pub fn contents_head(pages: bool) -> Vec<&'static str> {
    let mut head = vec![
        "No.",
        "Lesson",
        "Level",
        "How hard",
        "Step",
        "Hours",
        "What is new",
    ];
    if pages {
        head.push("Page");
    }
    head
}

/// Heads of the ladder: its lessons, their grades, what is new, their steps.
pub const LADDER_HEAD: [&str; 4] = ["Lesson", "Grade", "What is new", "Step"];

/// Heads of the skills of a course.
#[must_use]
pub fn skills_head(wording: Wording) -> [String; 3] {
    let again = format!("{} again", capital(wording.practised()));
    [SKILL.to_owned(), "First met".to_owned(), again]
}

/// Where a skill is met: `Stripes: lesson 1, then 3, 5–8`.
#[must_use]
pub fn skill_met(title: &str, first: &str, again: &str) -> String {
    match again {
        "" => format!("{title}: lesson {first}"),
        again => format!("{title}: lesson {first}, then {again}"),
    }
}

/// Over the names of skills.
pub const SKILL: &str = "Skill";

/// Heads of the minutes of a meeting.
pub const MEETING_HEAD: [&str; 2] = ["Minutes", "What happens"];

/// Heads of the sheets of paper for so many.
#[must_use]
pub fn sheets_head(learners: usize) -> [String; 4] {
    ["Handout", "Pages", "Sheets", &format!("For {learners}")].map(str::to_owned)
}

/// The last line of the sheets of paper.
pub const ALL_LESSONS: &str = "All lessons";

/// Heads of the shopping list, for one and for a class.
#[must_use]
pub fn shopping_head(learners: Option<u32>, wording: Wording) -> Vec<String> {
    let colour = capital(wording.colour());
    let mut head = [&colour, "In lessons", "Used", "Balls of 50 g"]
        .map(str::to_owned)
        .to_vec();
    if let Some(learners) = learners {
        head.push(format!("Used by {learners}"));
        head.push(format!("Balls for {learners}"));
    }
    head
}

/// Heads of the hours of each lesson; with those `in_class` where it is known how the course is held.
#[must_use]
pub fn hours_head(in_class: bool) -> Vec<&'static str> {
    let mut head = vec!["Lesson, hours", "Fluent", "Learner"];
    if in_class {
        head.extend(["In class", "At home"]);
    }
    head
}

/// Where no yarns clash.
#[must_use]
pub fn no_clash(wording: Wording) -> String {
    format!(
        "All yarns that meet in a row read apart, in full sight, in {} and for people who do not see red, green or blue.",
        wording.grey()
    )
}

/// Under the finished piece, in Markdown.
#[must_use]
pub fn finished_caption(size: &str) -> String {
    format!("**Finished,** {}.", literal(size))
}

/// Under a yoke from above, in Markdown.
#[must_use]
pub fn yoke_caption(size: &str) -> String {
    format!(
        "{}. A picture, not a pattern: rounds are drawn closer together than they are knitted. Stitch counts are exact.",
        literal(size)
    )
}

/// Under a fabric that is so many times larger than life.
#[must_use]
pub fn magnified_caption(times: f64) -> String {
    format!(
        "The band, {} times as large as in the piece.",
        plain_number(times, 1)
    )
}

/// Under the line to check a print by.
#[must_use]
pub fn check_line_caption(binding: Binding, units: Units) -> String {
    let full = check_line_words(units);
    match binding {
        Binding::Sheets => {
            format!("Printed right? This line is {full} long. If not, print again at 100 %.")
        }
        Binding::Booklets => {
            let small = if units == Units::Imperial {
                "1.4 in"
            } else {
                "36 mm"
            };
            format!(
                "Printed right? On a full page this line is {full} long, in a booklet about {small}."
            )
        }
    }
}

/// The length of the line to check a print by, as it is drawn.
#[must_use]
pub const fn check_line(units: Units) -> Length {
    match units {
        Units::Imperial => Length::mm(50.8),
        Units::Metric | Units::Both => Length::mm(50.0),
    }
}

/// The same in words.
#[must_use]
pub fn check_line_words(units: Units) -> String {
    let one = match units {
        Units::Imperial => Units::Imperial,
        Units::Metric | Units::Both => Units::Metric,
    };
    short_text(check_line(units), one)
}

/// A pair of the quiz.
#[must_use]
pub fn pair_heading(number: usize) -> String {
    format!("Pair {number}")
}

/// A lesson and whose print it is, in a running head.
#[must_use]
pub fn lesson_for(lesson: &str, learner: &str) -> String {
    format!("{learner} · {lesson}")
}

/// The title of a learner's handouts.
#[must_use]
pub fn handouts_for(course: &str, learner: &str) -> String {
    format!("{course}: all handouts for {learner}")
}

/// Over the register, before the numbers of the lessons.
pub const REGISTER_HEAD: [&str; 3] = ["Name", "Size", "Yarns"];

/// A chart of two, under its picture.
#[must_use]
pub fn contender(letter: &str, title: &str) -> String {
    format!("{letter}: {title}")
}

/// In place of a picture that may not be printed.
#[must_use]
pub fn not_ours(letter: &str, title: &str) -> String {
    format!("{letter}: {title}. The chart is not ours to copy: please bring your own copy.")
}

/// The sheet of two charts, in its running head.
pub const COMPARED: &str = "Two charts";

/// The title of the sheet of two charts.
#[must_use]
pub fn compared(titles: &[String; 2]) -> String {
    let [a, b] = titles;
    format!("{a} and {b}: which is harder?")
}

/// Over the names of measures.
pub const MEASURED: &str = "Measured";

/// A box of the quiz to tick.
#[must_use]
pub fn pair_tick(letter: &str) -> String {
    format!("{letter} is harder, because …")
}

/// A part of a chart that is drawn in several: which of how many, its rows and stitches from 1.
#[must_use]
pub fn part_caption(
    (part, parts): (usize, usize),
    rows: (usize, usize),
    stitches: (usize, usize),
    line: &str,
) -> String {
    let again = if rows.0 > 1 {
        format!(
            " {} {} is drawn again, to join on; do not work it twice.",
            capital(line),
            rows.0
        )
    } else {
        String::new()
    };
    format!(
        "Part {part} of {parts}: {line}s {} to {}, stitches {} to {}.{again}",
        rows.0, rows.1, stitches.0, stitches.1
    )
}

/// Where body measures come from.
#[must_use]
pub fn size_note(sources: &[&str]) -> String {
    if sources.is_empty() {
        return String::new();
    }
    format!("Body measures: {}.", sources.join("; "))
}

/// A yarn whose name stands for several weights.
#[must_use]
pub fn yarn_of_weight(name: &str, weight: u32) -> String {
    format!("{name}, category {weight}")
}

/// Grams used, and the lessons that are not among them, drawn together.
#[must_use]
pub fn used_without(grams: f64, without: &str) -> String {
    let grams = plain_number(grams.ceil(), 0);
    if without.is_empty() {
        format!("{grams} g")
    } else {
        let lessons = if without.contains(|c: char| !c.is_ascii_digit()) {
            "lessons"
        } else {
            "lesson"
        };
        format!("{grams} g, without {lessons} {without}")
    }
}
