//! `fit`: whom each size fits, at another gauge or as it came off the needles.

use crate::cli::args::FitArgs;
use crate::cli::outcome::Outcome;
use crate::cli::screen::Screen;
use crate::cli::table::Table;
use crate::course::{Lesson, Units};
use crate::ground::units::{Length, plain_number, stitches_per_10cm};
use crate::piece::schedule::needle::needle_for;
use crate::piece::{Pieces, Without, body_range, pieces, whom};
use crate::report::{FinishedEntry, FitReport, LessonFit};
use crate::words::why;
use crate::words::{
    Wording, at_your_gauge, fits_text, fits_whom, join_and, length_text, next_needle_text,
    own_gauge_text, reach_gauge_text, stitches_text,
};

pub(super) fn run(args: &FitArgs, screen: &mut Screen) -> Outcome {
    let loaded = match screen.load(&[&args.lesson]) {
        Ok(loaded) => loaded,
        Err(outcome) => return outcome,
    };
    let Some(one) = loaded.first() else {
        return Outcome::CouldNotRun;
    };
    screen.faults(&one.faults, &one.sources);
    let outcome = if one.has_errors() {
        Outcome::Faults
    } else {
        Outcome::Done
    };
    let wording = Wording::of_course(&one.course);
    let lessons: Vec<&Lesson> = one.wanted_lessons().collect();
    let Some(first) = lessons.first() else {
        screen.report(&format!(
            "error: {} holds no lesson that can be read",
            args.lesson.display()
        ));
        return Outcome::CouldNotRun;
    };
    let finished = args.stitches.zip(args.girth);
    if finished.is_some() && lessons.len() > 1 {
        screen.report("error: a finished piece belongs to one lesson; name its file");
        return Outcome::CouldNotRun;
    }
    if args.json {
        let fits = lessons.iter().map(|lesson| {
            let made = pieces(lesson);
            let lacking: Vec<String> = made.without.iter().map(|w| lacking(w, lesson)).collect();
            let no_counts = (!lacking.is_empty()).then(|| lacking.join("; "));
            let names = |girth: Length| names(lesson, girth);
            LessonFit::new(lesson, &made.made, no_counts, args.gauge, &names)
        });
        let entry = finished.map(|(stitches, girth)| {
            let stitches = usize::from(stitches);
            FinishedEntry::new(
                stitches,
                girth,
                middle_range(first, girth),
                names(first, girth),
                next_needle(first, args, stitches, girth),
            )
        });
        screen.json(&FitReport::new(fits.collect(), entry), false);
        return outcome;
    }
    if let Some((stitches, girth)) = finished {
        show_finished(first, args, usize::from(stitches), girth, wording, screen);
        return outcome;
    }
    for lesson in lessons {
        show(lesson, args, wording, screen);
    }
    outcome
}

/// The size without counts, if it is one of several, and why.
fn lacking(without: &Without, lesson: &Lesson) -> String {
    let (_, what, _) = why(&without.reason, lesson);
    let size = without.size.as_ref();
    size.map_or_else(|| what.clone(), |size| format!("{}: {what}", size.id))
}

fn names(lesson: &Lesson, girth: Length) -> Vec<String> {
    whom(lesson.makes, girth, lesson.ease)
        .into_iter()
        .map(|(size, _)| size.id)
        .collect()
}

/// Whom a girth fits, with the ease of a grown-up or of a child.
fn range(lesson: &Lesson, girth: Length, adult: bool) -> Option<(Length, Length)> {
    body_range(lesson.makes, girth, lesson.ease, adult)
}

/// Whom a girth fits that is of no size: by the ease of the lesson's middle size.
fn middle_range(lesson: &Lesson, girth: Length) -> Option<(Length, Length)> {
    range(
        lesson,
        girth,
        lesson.middle_size().is_none_or(|size| size.adult),
    )
}

fn fits(lesson: &Lesson, girth: Length, adult: bool, units: Units) -> String {
    fits_text(lesson, range(lesson, girth, adult), units)
}

fn show(lesson: &Lesson, args: &FitArgs, wording: Wording, screen: &mut Screen) {
    let units = wording.units();
    let gauge = lesson.colourwork.gauge.stitches;
    screen.say(&format!(
        "{}: {}",
        lesson.title,
        stitches_text(gauge, units)
    ));
    let Pieces { made, without } = pieces(lesson);
    for without in &without {
        let (_, _, help) = why(&without.reason, lesson);
        screen.say(&format!(
            "  no counts: {}\n  {help}\n",
            lacking(without, lesson)
        ));
    }
    if made.is_empty() {
        return;
    }
    let yours = format!(">{}", at_your_gauge(lesson, wording));
    let head = match args.gauge {
        Some(_) => ["size", ">stitches", ">comes out", &yours, "to fit"],
        None => ["size", ">stitches", ">comes out", ">off", "to fit"],
    };
    let mut table = Table::new(&head);
    for piece in &made {
        let label = piece.size.as_ref().map_or("all", |size| size.id.as_str());
        let girth = piece.main.girth;
        let adult = piece.size.as_ref().is_none_or(|size| size.adult);
        let yours = args
            .gauge
            .map(|yours| Length::mm(girth.to_mm() * gauge / yours));
        let fourth = match yours {
            Some(girth) => length_text(girth, units),
            None => format!("{} %", plain_number(piece.main.percent, 1)),
        };
        table.row(vec![
            label.to_owned(),
            piece.main.stitches.to_string(),
            length_text(girth, units),
            fourth,
            fits(lesson, yours.unwrap_or(girth), adult, units),
        ]);
    }
    screen.say(&table.text());
    if let Some(yours) = args.gauge {
        let now = args.needle.map(Length::mm).or(lesson.colourwork.needle);
        let guess = now.and_then(|needle| needle_for(needle, yours, gauge));
        let text = reach_gauge_text(guess, gauge, units);
        screen.say(&text);
    }
    screen.say("");
}

/// The needle that should bring a piece of this gauge to the lesson's.
fn next_needle(lesson: &Lesson, args: &FitArgs, stitches: usize, girth: Length) -> Option<Length> {
    let gauge = stitches_per_10cm(stitches as f64, girth);
    let now = args.needle.map(Length::mm).or(lesson.colourwork.needle)?;
    needle_for(now, gauge, lesson.colourwork.gauge.stitches).map(|guess| guess.needle)
}

fn show_finished(
    lesson: &Lesson,
    args: &FitArgs,
    stitches: usize,
    girth: Length,
    wording: Wording,
    screen: &mut Screen,
) {
    let units = wording.units();
    let gauge = stitches_per_10cm(stitches as f64, girth);
    screen.say(&own_gauge_text((stitches, girth), gauge, lesson, wording));
    // Children and adults wear the same piece with different ease.
    for adult in [true, false] {
        if lesson.sizes.iter().any(|size| size.adult == adult) {
            screen.say(&fits_whom(adult, &fits(lesson, girth, adult, units)));
        }
    }
    let names = names(lesson, girth);
    if !names.is_empty() {
        screen.say(&format!("that is {}", join_and(&names)));
    }
    let text = next_needle_text(next_needle(lesson, args, stitches, girth), units);
    screen.say(&text);
}
