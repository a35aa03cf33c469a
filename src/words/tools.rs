//! Needles, hooks and what lies beside them.

use crate::course::body::Makes;
use crate::course::{Lesson, Units};
use crate::ground::units::Length;
use crate::piece::Piece;
use crate::piece::needles::{CIRCULARS, NeedleFor, Needles, markers, needles};
use crate::words::{
    CraftWords, RowNames, Wording, capital, count, gauge_text, join_and, needle_text, yarn_text,
};

/// A circular needle's length as sold.
fn circular(cm: u32, units: Units) -> String {
    let inches = CIRCULARS
        .iter()
        .find(|(known, _)| *known == cm)
        .map_or(0, |(_, inches)| *inches);
    match units {
        Units::Metric => format!("{cm} cm"),
        Units::Imperial => format!("{inches} in"),
        Units::Both => format!("{cm} cm ({inches} in)"),
    }
}

/// The kinds of needle of one thickness: `circular, 40 cm`, `double points or a long loop`.
#[must_use]
pub fn needle_kinds(needles: &Needles, units: Units) -> Vec<String> {
    let mut kinds = Vec::new();
    if !needles.circulars.is_empty() {
        let lengths: Vec<String> = needles
            .circulars
            .iter()
            .map(|cm| circular(*cm, units))
            .collect();
        kinds.push(format!("circular, {}", join_and(&lengths)));
    }
    if needles.double_points {
        kinds.push("double points or a long loop".to_owned());
    }
    kinds
}

/// What the needles or the hook of a lesson are.
fn needles_text(lesson: &Lesson, pieces: &[Piece], wording: Wording) -> String {
    let (says, units) = (CraftWords::of(lesson, wording), wording.units());
    let thick = |size: Option<Length>| {
        size.map_or_else(
            || "to reach the stitches above".to_owned(),
            |size| needle_text(size, units),
        )
    };
    let found = needles(lesson, pieces);
    if found.is_empty() {
        let mut text = format!(
            "{} {}",
            capital(says.tool()),
            thick(lesson.colourwork.needle)
        );
        text.push_str(says.tool_kind(pieces.first().map(|piece| piece.main.girth)));
        if let Some(rib) = lesson.rib_needle {
            text.push_str(&format!("; {} for the rib", needle_text(rib, units)));
        }
        return text + ".";
    }
    let one = |needles: &Needles| {
        let kinds = needle_kinds(needles, units).join("; ");
        match needles.what {
            NeedleFor::Work => format!("Needles {}: {kinds}", thick(needles.size)),
            NeedleFor::Rib => format!("For the rib {}: {kinds}", thick(needles.size)),
        }
    };
    let all: Vec<String> = found.iter().map(one).collect();
    all.join(". ") + "."
}

/// What lies beside the needles: markers counted, and what the piece asks for.
fn notions_text(lesson: &Lesson, pieces: &[Piece]) -> String {
    let mut things = Vec::new();
    match markers(lesson, pieces) {
        0 => {}
        n => things.push(count(n, "marker", "markers")),
    }
    if matches!(lesson.makes, Makes::Mitts | Makes::Mittens | Makes::Yoke) {
        things.push("waste yarn".to_owned());
    }
    things.extend(
        [
            "a blunt needle",
            "a tape measure",
            "a row counter or pencil",
        ]
        .map(str::to_owned),
    );
    format!("{}.", capital(&join_and(&things)))
}

/// Needles or hook, notions and the yarn, in sentences.
#[must_use]
pub fn tools(lesson: &Lesson, pieces: &[Piece], wording: Wording) -> String {
    let units = wording.units();
    let mut text = needles_text(lesson, pieces, wording);
    text.push(' ');
    text.push_str(&notions_text(lesson, pieces));
    let (plain, colour) = (lesson.plain_gauge(), lesson.colourwork.gauge);
    if (plain.stitches, plain.rows) != (colour.stitches, colour.rows) {
        let lines = RowNames::of_lesson(lesson, wording).lines;
        text.push_str(&format!(" Plain: {}.", gauge_text(plain, lines, units)));
    }
    if let Some(metres) = lesson.metres_per_100g {
        text.push_str(&format!(
            " Yarn of about {} to 100 g",
            yarn_text(metres, units)
        ));
        if let Some(weight) = lesson.yarn_weight {
            text.push_str(&format!(", category {weight}"));
        }
        text.push('.');
    }
    if let Some(curls) = CraftWords::of(lesson, wording).curls() {
        text.push_str(&format!(" {curls}"));
    }
    text
}
