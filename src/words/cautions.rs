//! Cautions where someone can be hurt: the measured trigger first, others' rules last.

use crate::course::body::Makes;
use crate::course::{Lesson, Part};
use crate::ground::units::Length;
use crate::rows::grade::Fact;
use crate::study::Studied;
use crate::words::{CraftWords, RowNames, Wording, count, literal, short_text};

/// The cautions of a lesson; the last one defers to local rules and professionals.
#[must_use]
pub fn cautions(lesson: &Lesson, studied: &Studied<'_>, wording: Wording) -> Vec<String> {
    let mut found = Vec::new();
    let measures = &studied.measures;
    let infants = lesson.sizes.iter().any(|size| size.infant);
    let children = lesson.sizes.iter().any(|size| !size.adult);
    if lesson.fingers_catch() && measures.floats.longest > 0 && !lesson.craft.carries_inside() {
        let limit = measures.floats.limit;
        let stitches = limit.min(measures.floats.longest) as f64;
        let free = short_text(studied.work.gauge.width(stitches), wording.units());
        let who = if infants {
            "a baby's fingers and toes"
        } else {
            "fingers"
        };
        found.push(format!(
            "**Strands inside.** {} Here none may run free for longer than {free}, so that {who} do not catch. Turn \
             the piece inside out and look for loose ends before it is worn.",
            longest_strand(lesson, studied, wording)
        ));
    }
    if infants {
        found.push(
            "**Under three years.** No cords, buttons, beads or pompoms. Look inside for loose threads before each \
             wearing: a thread can tie itself round a toe or finger."
                .to_owned(),
        );
    }
    if children && lesson.makes == Makes::Hat {
        found.push("**Small children.** No cords on a hat, no loose pompom. Take it off for sleep and in a car seat.".to_owned());
    }
    if children && matches!(lesson.makes, Makes::Mitts | Makes::Mittens) {
        found.push(
            "**Small children.** No string through the sleeves to hold the pair together."
                .to_owned(),
        );
    }
    if children && matches!(lesson.makes, Makes::Yoke | Makes::Cowl) {
        // Live stitches on a short needle do not go over a head: a cowl is tried before its last round is worked.
        let what = match lesson.makes {
            Makes::Cowl => format!(
                "Measure the head that it must go over, and {} as loosely as that asks",
                wording.cast_off()
            ),
            _ => format!(
                "Before you {}, pull the neck over the wearer's head",
                wording.cast_off()
            ),
        };
        found.push(format!(
            "**Over the head.** {what}. No cords at the neck of a child's garment."
        ));
    }
    if lesson.techniques.iter().any(|t| t == "steek") {
        found.push(
            "**Before you cut.** Only in a wool that grips itself, secured on both sides of the cut. If in doubt, try \
             it on a swatch with somebody who has done it."
                .to_owned(),
        );
    }
    let says = CraftWords::of(lesson, wording);
    found.extend(says.own_caution().map(str::to_owned));
    found.push(format!(
        "{}. Put the {} down for five minutes in every half-hour; stop if it hurts, and ask a professional if it stays.",
        says.tires(),
        says.tools()
    ));
    found.push(format!(
        "Rules where you live, and your doctor or {}, come first.",
        wording.nurse()
    ));
    found
}

/// The longest strand as it was measured: `Round 9 carries Peat past 6 stitches (30 mm).`
fn longest_strand(lesson: &Lesson, studied: &Studied<'_>, wording: Wording) -> String {
    let names = RowNames::of_lesson(lesson, wording);
    let cause = &studied.grade.causes[Part::Floats.index()];
    match (&cause.fact, cause.row) {
        (
            Fact::LongestFloat {
                stitches,
                mm,
                colour,
                ..
            },
            Some(row),
        ) => format!(
            "{} {row} carries {} past {} ({}).",
            names.line_title(),
            literal(names.colour(*colour)),
            count(*stitches, "stitch", "stitches"),
            short_text(Length::mm(*mm), wording.units())
        ),
        _ => String::new(),
    }
}
