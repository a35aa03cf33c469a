//! What a handout says of the piece as a whole: its lead, its swatch, its tools, its checks.

use crate::course::body::Makes;
use crate::course::chart::Worked;
use crate::course::{Band, Binding, Lesson, Units};
use crate::ground::units::plain_number;
use crate::path::Task;
use crate::piece::time::Hours;
use crate::rows::{across, drawn};
use crate::study::Studied;
use crate::words::short_text;
use crate::words::{CraftWords, RowNames, Wording, capital, count, gauge_text, number_word};

/// How many rows of colourwork a lesson has: those of its charts, or of its stripes where there are none.
#[must_use]
pub fn patterned(lesson: &Lesson) -> usize {
    let plain = lesson.plain_gauge();
    let charts = lesson.bands.iter().map(|band| match band {
        Band::Chart { what, times } => drawn::count_worked(&what.chart, *times),
        Band::Across(parts) => across::height(parts),
        _ => 0,
    });
    let stripes = lesson.bands.iter().map(|band| match band {
        Band::Plain { extent, .. } => extent.rows(plain),
        _ => 0,
    });
    match charts.sum() {
        0 => stripes.sum(),
        rows => rows,
    }
}

/// What it is, in two sentences; `sizes` are printed.
#[must_use]
pub fn lead(
    lesson: &Lesson,
    sizes: usize,
    studied: &Studied<'_>,
    task: Option<Task>,
    wording: Wording,
) -> String {
    let names = RowNames::of_lesson(lesson, wording);
    let rows = patterned(lesson);
    let makes = lesson.makes.name();
    let what = match lesson.makes {
        Makes::Mitts | Makes::Mittens => format!("{} in", capital(makes)),
        _ => format!("A {makes} in"),
    };
    let sizes = match sizes {
        _ if !lesson.makes.has_sizes() => String::new(),
        0 | 1 => " one size,".to_owned(),
        n => format!(" {} sizes,", number_word(n)),
    };
    let what = if sizes.is_empty() {
        what.trim_end_matches(" in").to_owned() + ","
    } else {
        what + &sizes
    };
    let craft = CraftWords::of(lesson, wording).lead();
    let stranded = studied.measures.relief.stranded > 0;
    let band = if stranded {
        format!("{}work", wording.colour())
    } else {
        "stripes".to_owned()
    };
    let gauge = lesson.colourwork.gauge;
    format!(
        "{what}{craft} with {} of {band}. {}.{}",
        count(rows, names.line, names.lines),
        gauge_text(gauge, names.lines, wording.units()),
        task.map_or_else(String::new, |task| format!(" {}", task_text(task)))
    )
}

/// What stands under the fabric of a front page that is shown so large, life size being 1.
#[must_use]
pub fn fabric_note(binding: Binding, scale: f64) -> String {
    let small = format!(
        "**The band,** at {} % of life size.",
        plain_number(scale * 100.0, 0)
    );
    match binding {
        _ if scale < 1.0 => small,
        Binding::Sheets => {
            "**The band, life size on paper.** Lay your own washed swatch on it.".to_owned()
        }
        Binding::Booklets => {
            "**The band, life size** on a full page; a booklet shows it smaller.".to_owned()
        }
    }
}

/// What to look at in the finished piece.
#[must_use]
pub fn checks(lesson: &Lesson, studied: &Studied<'_>, wording: Wording) -> Vec<String> {
    let mut checks = Vec::new();
    let gauge = lesson.colourwork.gauge;
    let measures = &studied.measures;
    if measures.relief.stranded > 0 {
        checks.push(CraftWords::of(lesson, wording).evenness());
    }
    if measures.floats.catches > 0 {
        checks.push(
            "Inside, no strand lets a finger through, and no catch shows on the right side."
                .to_owned(),
        );
    } else if measures.floats.longest > 0 && !lesson.craft.carries_inside() {
        checks
            .push("Inside, the strands lie flat: none is tight, none hangs in a loop.".to_owned());
    }
    if lesson.worked == Worked::Round && measures.relief.stranded > 0 {
        checks.push("The pattern meets itself at the start of the round; no motif is broken but by the one step up.".to_owned());
    }
    let units = wording.units();
    let (short, long) = match units {
        Units::Imperial => ("in", "in"),
        Units::Metric | Units::Both => ("mm", "cm"),
    };
    checks.push(format!(
        "Across 20 stitches of the washed piece I measure ________ {short}. Should be {}.",
        short_text(gauge.width(20.0), units)
    ));
    checks.push(format!(
        "More than that? Take a thinner {} next time. Less? A thicker one.",
        CraftWords::of(lesson, wording).tool()
    ));
    checks.push(if lesson.makes.has_sizes() {
        format!("It has ________ stitches and measures ________ {long} round; it fits ________.")
    } else {
        format!("It has ________ stitches, is ________ {long} wide and ________ {long} long.")
    });
    checks
}

/// Which lesson comes next: its place and title; nothing after the last.
#[must_use]
pub fn next_lesson(next: Option<(usize, &str)>) -> String {
    match next {
        Some((number, title)) => format!("Next: lesson {number}, {title}"),
        None => "The last lesson of the course".to_owned(),
    }
}

/// What the count of stitches of a size is called: a yoke is counted at its body.
#[must_use]
pub const fn count_name(makes: Makes) -> &'static str {
    match makes {
        Makes::Yoke => "Body",
        _ => "Stitches",
    }
}

/// `6–13`: hours, whole ones from ten on.
#[must_use]
pub fn hours_range(hours: Hours) -> String {
    let digits = u32::from(hours.to < 10.0);
    format!(
        "{}–{}",
        plain_number(hours.from, digits),
        plain_number(hours.to, digits)
    )
}

/// How long a piece takes a learner, and whether that is by far the longest yet.
#[must_use]
pub fn task_text(task: Task) -> String {
    let largest = if task.by_far_the_largest {
        ": by far the largest piece yet"
    } else {
        ""
    };
    format!("About {} hours{largest}.", hours_range(task.hours))
}
