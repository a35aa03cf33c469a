//! Sizes that come out far off, or not at all, and the abbreviations of all.

use crate::course::{Lesson, Units};
use crate::ground::units::{Length, plain_number};
use crate::piece::schedule::counts::CLOSE;
use crate::piece::{NoSchedule, Piece, Without};
use crate::words::steps::{Instruction, RoundTable};
use crate::words::why::why;
use crate::words::{length_text, literal, needle_text, stitches_text};

/// Sizes that are more than 3 % off: why, by how much, and what would hit; nothing where none is.
#[must_use]
pub fn size_notes(lesson: &Lesson, pieces: &[Piece], units: Units) -> Vec<String> {
    let notes = pieces
        .iter()
        .filter_map(|piece| size_note(lesson, piece, units));
    let notes: Vec<String> = notes.collect();
    if notes.is_empty() {
        return notes;
    }
    let repeat = lesson
        .charts()
        .iter()
        .map(|what| what.chart.repeat_stitches.len())
        .max();
    vec![format!(
        "The pattern repeats over {} stitches, so not every size comes out as its body asks; as written each fits what the table \
         says. {}",
        repeat.unwrap_or(1),
        notes.join(" ")
    )]
}

fn size_note(lesson: &Lesson, piece: &Piece, units: Units) -> Option<String> {
    let size = piece.size.as_ref()?;
    if piece.main.percent.abs() <= CLOSE + 1e-9 {
        return None;
    }
    let (body, girth, _) = lesson.makes.girth_of(size);
    let own = length_text(girth, units);
    let mut ways = Vec::new();
    if let Some(remedies) = &piece.remedies {
        let needle = remedies.needle.as_ref().map_or_else(String::new, |guess| {
            let thinner = lesson
                .colourwork
                .needle
                .is_some_and(|own| guess.needle < own);
            let rib = match (lesson.rib_needle, thinner) {
                (None, _) => "",
                (Some(_), true) => ", the rib as much thinner",
                (Some(_), false) => ", the rib as much thicker",
            };
            format!(" (try {}{rib})", needle_text(guess.needle, units))
        });
        ways.push(format!(
            "for a {body} of {own} work the same counts at {}{needle}",
            stitches_text(remedies.gauge, units)
        ));
        let others = [remedies.fewer, remedies.more].into_iter().flatten();
        let others: Vec<String> = others
            .map(|other| {
                let girth = length_text(other.girth, units);
                format!("{} stitches make {girth}", other.stitches)
            })
            .collect();
        if !others.is_empty() {
            ways.push(others.join(", "));
        }
        if let Some((added, _)) = remedies.edges {
            ways.push(format!("{added} edge stitches more would do"));
        }
    }
    Some(format!(
        "**{}** is {} % ({}) too {}: {}.",
        literal(&size.label),
        plain_number(piece.main.percent.abs(), 1),
        length_text(Length::mm(piece.main.error.to_mm().abs()), units),
        if piece.main.percent > 0.0 {
            "wide"
        } else {
            "narrow"
        },
        ways.join("; or ")
    ))
}

/// What to do between two sizes, where the girths that they are to fit leave a gap.
#[must_use]
pub fn between_sizes(fits: &[(&'static str, (Length, Length))]) -> Option<String> {
    let mut ranges: Vec<(f64, f64)> = fits
        .iter()
        .map(|(_, (low, high))| (low.to_mm(), high.to_mm()))
        .collect();
    ranges.sort_by(|a, b| a.0.total_cmp(&b.0));
    let gap = |pair: &[(f64, f64)]| match pair {
        [(_, high), (low, _)] => low - high > GAP,
        _ => false,
    };
    let (name, _) = fits.first()?;
    ranges
        .windows(2)
        .any(gap)
        .then(|| format!("A {name} between two sizes: the smaller sits closer, the larger looser."))
}

/// Millimetres between two sizes that are no gap: what is lost in rounding.
const GAP: f64 = 5.0;

/// What stands in place of instructions where no counts do.
#[must_use]
pub fn without_counts(reason: &NoSchedule, lesson: &Lesson) -> Instruction {
    let (_, what, help) = why(reason, lesson);
    let text = format!(
        "The stitches of this piece could not be worked out: {}. To mend it, {}.",
        literal(&what),
        literal(&help)
    );
    Instruction::new("No counts", text)
}

/// A size without counts among others that have them, and why.
#[must_use]
pub fn lacking_size(without: &Without, lesson: &Lesson) -> Option<String> {
    let (_, what, _) = why(&without.reason, lesson);
    let label = literal(&without.size.as_ref()?.label);
    Some(format!("**{label}** has no counts: {}.", literal(&what)))
}

/// What has no counts: a lesson, or a size of it.
#[must_use]
pub fn without_name(without: &Without, lesson: &Lesson) -> String {
    let title = &lesson.title;
    let size = without.size.as_ref();
    size.map_or_else(|| title.clone(), |size| format!("{title}, {}", size.id))
}

/// The abbreviations that steps and tables use, each written out.
#[must_use]
pub fn abbreviations(steps: &[Instruction], tables: &[RoundTable], rows: &[&str]) -> String {
    let cells = tables.iter().flat_map(|table| table.rows.iter().flatten());
    let steps = steps.iter().map(|step| step.text.as_str());
    let cells = cells.map(String::as_str);
    let texts: Vec<&str> = steps.chain(cells).chain(rows.iter().copied()).collect();
    let used = |short: &str| texts.iter().any(|text| text.contains(short));
    let known = [
        ("k 1", "k", "knit"),
        ("k2tog", "k2tog", "knit two stitches together as one"),
        (
            "ssk",
            "ssk",
            "slip two stitches knitwise, one by one, and knit them together through their backs",
        ),
        ("p2tog", "p", "purl"),
        ("p2tog", "p2tog", "purl two stitches together as one"),
        (
            "make 1 purlwise",
            "make 1 purlwise",
            "lift the strand between two stitches from front to back and purl it through its back",
        ),
        (
            "make 1",
            "make 1",
            "lift the strand between two stitches from front to back and knit it through its back",
        ),
    ];
    let found: Vec<String> = known
        .iter()
        .filter(|(look_for, short, _)| used(look_for) || (*short == "k" && used(", k2tog")))
        .map(|(_, short, long)| format!("{short}: {long}"))
        .collect();
    found.join("; ")
}
