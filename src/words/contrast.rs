//! Clashes of yarns in words.

use crate::course::Lesson;
use crate::ground::colour::Sight;
use crate::ground::units::plain_number;
use crate::piece::contrast::{Clash, proposal};
use crate::words::numbers::{capital, join_and, list_and};
use crate::words::terms::Wording;

fn sight_words(sight: Sight, wording: Wording) -> String {
    match sight {
        Sight::Normal => "in full sight",
        Sight::Grey => {
            return format!("in {}, on a photocopy or in dim light", wording.grey());
        }
        Sight::Protan => "for people who do not see red",
        Sight::Deutan => "for people who do not see green",
        Sight::Tritan => "for people who do not see blue",
    }
    .to_owned()
}

fn yarn(lesson: &Lesson, index: usize) -> &str {
    lesson.yarns.get(index).map_or("?", |y| y.name.as_str())
}

/// What does not read apart, in whose eyes and where: `Peat and Rust meet in chart turnstone, rows 3 and 4, and …`.
#[must_use]
pub fn clash_text(clash: &Clash, lesson: &Lesson, wording: Wording) -> String {
    let (a, b) = (yarn(lesson, clash.yarns.0), yarn(lesson, clash.yarns.1));
    let sights: Vec<String> = clash
        .sights
        .iter()
        .map(|s| sight_words(*s, wording))
        .collect();
    let places: Vec<String> = clash
        .places
        .iter()
        .map(|(chart, rows)| {
            let rows: Vec<u32> = rows
                .iter()
                .map(|r| u32::try_from(*r).unwrap_or(0))
                .collect();
            let word = if rows.len() == 1 { "row" } else { "rows" };
            format!("chart {chart}, {word} {}", list_and(&rows))
        })
        .collect();
    format!(
        "{a} and {b} do not read apart {} (lightness {} apart, {} {}): {}",
        join_and(&sights),
        plain_number(clash.lightness, 0),
        wording.colour(),
        plain_number(clash.difference, 0),
        places.join("; ")
    )
}

/// The smallest change of lightness that helps.
#[must_use]
pub fn clash_help(clash: &Clash, lesson: &Lesson) -> Option<String> {
    let (changed, hex, before, after) = proposal(clash)?;
    let way = if after > before { "lighter" } else { "darker" };
    // A small change is told finely enough to be seen.
    let digits = u32::from(plain_number(before, 0) == plain_number(after, 0));
    Some(format!(
        "the nearest that reads: {} {way}, from lightness {} to {} (such as \"{hex}\")",
        yarn(lesson, changed),
        plain_number(before, digits),
        plain_number(after, digits)
    ))
}

/// A clash and what would do, in one sentence each.
#[must_use]
pub fn clash_sentences(clash: &Clash, lesson: &Lesson, wording: Wording) -> String {
    let help = clash_help(clash, lesson);
    let help = help.map_or(String::new(), |help| format!(". {}", capital(&help)));
    format!("{}{help}.", clash_text(clash, lesson, wording))
}
