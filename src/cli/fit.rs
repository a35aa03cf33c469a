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
use crate::words::{join_and, length_text, needle_text, range_number, stitches_text, unit_name};

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
    let units = one.course.units;
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
        show_finished(first, args, usize::from(stitches), girth, units, screen);
        return outcome;
    }
    for lesson in lessons {
        show(lesson, args, units, screen);
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

fn body_part(lesson: &Lesson) -> &'static str {
    let size = lesson.middle_size();
    size.map_or("body", |size| lesson.makes.girth_of(size).0)
}

fn fits_text(lesson: &Lesson, girth: Length, adult: bool, units: Units) -> String {
    range(lesson, girth, adult).map_or_else(
        || "nobody in particular".to_owned(),
        |range| {
            format!(
                "{} {} {}",
                body_part(lesson),
                range_number(range, units),
                unit_name(units)
            )
        },
    )
}

fn show(lesson: &Lesson, args: &FitArgs, units: Units, screen: &mut Screen) {
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
    let head = match args.gauge {
        Some(_) => [
            "size",
            ">stitches",
            ">comes out",
            ">at your gauge",
            "to fit",
        ],
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
            fits_text(lesson, yours.unwrap_or(girth), adult, units),
        ]);
    }
    screen.say(&table.text());
    if let Some(yours) = args.gauge {
        let now = args.needle.map(Length::mm).or(lesson.colourwork.needle);
        let guess = now.and_then(|needle| needle_for(needle, yours, gauge));
        let text = match guess {
            Some(guess) => format!(
                "to reach {}, try {}: about {} (a rule of thumb; only a swatch tells)",
                stitches_text(gauge, units),
                needle_text(guess.needle, units),
                stitches_text(guess.gauge, units)
            ),
            None => "no other needle as sold comes nearer".to_owned(),
        };
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
    units: Units,
    screen: &mut Screen,
) {
    let gauge = stitches_per_10cm(stitches as f64, girth);
    screen.say(&format!(
        "{stitches} stitches in {}: your gauge is {}, the lesson's {}",
        length_text(girth, units),
        stitches_text(gauge, units),
        stitches_text(lesson.colourwork.gauge.stitches, units)
    ));
    // Children and adults wear the same piece with different ease.
    for (adult, who) in [(true, "adults"), (false, "children")] {
        if lesson.sizes.iter().any(|size| size.adult == adult) {
            let fits = fits_text(lesson, girth, adult, units);
            screen.say(&format!("fits {who}: {fits}"));
        }
    }
    let names = names(lesson, girth);
    if !names.is_empty() {
        screen.say(&format!("that is {}", join_and(&names)));
    }
    let text = match next_needle(lesson, args, stitches, girth) {
        Some(needle) => format!(
            "next time try {} (a rule of thumb; only a swatch tells)",
            needle_text(needle, units)
        ),
        None => "the needle is right, as near as needles are sold".to_owned(),
    };
    screen.say(&text);
}
