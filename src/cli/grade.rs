//! `grade`: the lessons of a course, part by part, with causes.

use crate::app;
use crate::cli::args::CourseArgs;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::cli::table::Table;
use crate::course::Part;
use crate::ground::units::round_half_up;
use crate::words::{RowNames, Wording, cause_text, lower_text};

/// One decimal, always shown, so that figures stand under each other.
pub(super) fn tenth(value: f64) -> String {
    format!("{:.1}", round_half_up(value, 1))
}

pub(super) fn run(args: &CourseArgs, screen: &mut Screen) -> Outcome {
    let loaded = match screen.load(&[&args.course]) {
        Ok(loaded) => loaded,
        Err(outcome) => return outcome,
    };
    let mut outcome = Outcome::Done;
    for one in &loaded {
        screen.faults(&one.faults, &one.sources);
        if one.has_errors() {
            outcome = Outcome::Faults;
        }
        let studied = app::study_course(&one.course);
        if args.json {
            screen.json(&app::grade(&studied), false);
            continue;
        }
        let heads = [
            "lesson",
            ">grade",
            "level",
            ">floats",
            ">colours",
            ">reading",
            ">relief",
            ">handling",
        ];
        let mut table = Table::new(&heads);
        for (lesson, a) in one.course.lessons.iter().zip(&studied.lessons) {
            let mut cells = vec![
                lesson.id.clone(),
                tenth(a.grade.grade),
                a.grade.level.name().to_owned(),
            ];
            cells.extend(a.grade.points.iter().map(|points| tenth(*points)));
            table.row(cells);
        }
        screen.say(&table.text());
        for (lesson, a) in one.course.lessons.iter().zip(&studied.lessons) {
            let names = RowNames::of_lesson(lesson, Wording::of_course(&one.course));
            let grade = tenth(a.grade.grade);
            screen.say(&format!(
                "\n{}: how hard: {grade} of 100, {}",
                lesson.title,
                a.grade.level.name()
            ));
            for (part, cause) in Part::ALL.into_iter().zip(&a.grade.causes) {
                let points = tenth(a.grade.points[part.index()]);
                screen.say(&format!(
                    "  {:<9}{points:>5}  {}",
                    part.name(),
                    cause_text(part, cause, &names)
                ));
                if let Some(text) = lower_text(a.grade.parts[part.index()], cause, &names) {
                    screen.say(&format!("                 lower: {text}"));
                }
            }
        }
    }
    outcome
}
