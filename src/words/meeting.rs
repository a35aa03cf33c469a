//! What a meeting has of its own: what to show, what to draw on the board, when all hands stop. In Markdown.

use crate::course::{Band, Hand, Lesson, Reads};
use crate::ground::units::Number;
use crate::path::Placed;
use crate::rows::grade::Skill;
use crate::study::Studied;
use crate::words::{
    CraftWords, RowNames, Wording, join_and, literal, row_words, small, technique_titles,
};

/// A lesson that a meeting begins.
#[derive(Clone, Copy, Debug)]
pub struct Begun<'a> {
    /// Its number.
    pub number: usize,
    /// The lesson.
    pub lesson: &'a Lesson,
    /// What is known of it.
    pub studied: &'a Studied<'a>,
    /// Its place in the order.
    pub placed: &'a Placed,
}

/// What to show, what to draw, when to stop: a sentence each, none where there is nothing to say.
#[must_use]
pub fn meeting_own(begun: &[Begun<'_>], wording: Wording) -> Vec<String> {
    let shown: Vec<String> = begun.iter().filter_map(|one| show(one, wording)).collect();
    let stops: Vec<String> = begun.iter().flat_map(|one| stops(one, wording)).collect();
    // One row for the board: the one that must be looked at most.
    let rows = begun.iter().filter(|one| one.lesson.craft.has_rows());
    let hardest = rows.map(|one| (one, most_looks(one)));
    let hardest = hardest.reduce(|a, b| if b.1 > a.1 { b } else { a });
    let board = hardest.and_then(|(one, looks)| board(one, looks, wording));
    let show = (!shown.is_empty()).then(|| {
        format!(
            "**Show** slowly, on thick yarn: {}.",
            literal(&shown.join("; "))
        )
    });
    let stop = (!stops.is_empty()).then(|| {
        format!(
            "**All hands stop** before {}.",
            literal(&stops.join("; before "))
        )
    });
    show.into_iter().chain(board).chain(stop).collect()
}

/// Whether all hands stop somewhere in a lesson.
#[must_use]
pub fn stops_in(one: &Begun<'_>, wording: Wording) -> bool {
    !stops(one, wording).is_empty()
}

/// `stripes and joining a colour (lesson 1)`.
fn show(one: &Begun<'_>, wording: Wording) -> Option<String> {
    let titles = technique_titles(&one.placed.step.new_techniques, wording);
    let titles: Vec<String> = titles.iter().map(|title| small(title)).collect();
    (!titles.is_empty()).then(|| format!("{} (lesson {})", join_and(&titles), one.number))
}

fn most_looks(one: &Begun<'_>) -> usize {
    let rows = one.studied.measures.rows.iter();
    rows.map(|row| row.looks).max().unwrap_or(0)
}

/// The row of the work, by index, that fulfils something first, with its place in a chart.
fn first_row(one: &Begun<'_>, is: &dyn Fn(usize) -> bool) -> Option<(usize, usize, Number)> {
    let rows = one.studied.work.rows.iter().enumerate();
    let mut placed = rows.filter_map(|(i, row)| Some((i, row.origin.band?, row.origin.drawn?.row)));
    placed.find(|(i, ..)| is(*i))
}

/// A row that must be looked at so often, in words to stand under its squares.
fn board(one: &Begun<'_>, looks: usize, wording: Wording) -> Option<String> {
    let rows = &one.studied.measures.rows;
    let most = |i: usize| {
        rows.get(i)
            .is_some_and(|row| row.looks == looks && row.colours > 1)
    };
    let (_, band, row) = first_row(one, &most)?;
    let Some(Band::Chart { what, .. }) = one.lesson.bands.get(band) else {
        return None;
    };
    let title = literal(&what.chart.title);
    let line = RowNames::of_lesson(one.lesson, wording).line;
    if !what.chart.rights.may_print() {
        return Some(format!(
            "**Point at** {line} {row} of “{title}” in everybody’s own copy, and let one say it aloud."
        ));
    }
    let yarn = |ink: u8| {
        let yarn = what
            .yarns
            .get(usize::from(ink))
            .and_then(|yarn| one.lesson.yarns.get(*yarn));
        yarn.map(|yarn| yarn.name.clone()).unwrap_or_default()
    };
    let leans = CraftWords::of(one.lesson, wording).leans(Hand::Right);
    let at = (row.index(), one.lesson.reads());
    let words = row_words(&what.chart, at, (&yarn, &leans), false);
    Some(format!(
        "**On the board**, as squares and in words: {line} {row} of “{title}”, {}.",
        literal(&words)
    ))
}

/// Before what everybody stops, because it is new and must not be missed.
fn stops(one: &Begun<'_>, wording: Wording) -> Vec<String> {
    if !one.lesson.craft.has_rows() {
        return Vec::new();
    }
    let (rows, work, plan) = (
        &one.studied.measures.rows,
        &one.studied.work,
        one.studied.plan(),
    );
    let names = RowNames::of_lesson(one.lesson, wording);
    let (colour, colours) = (wording.colour(), wording.colours());
    let many = |least: usize, i: usize| rows.get(i).is_some_and(|row| row.colours >= least);
    let row = |is: &dyn Fn(usize) -> bool, what: String| {
        let (_, band, row) = first_row(one, is)?;
        let title = match one.lesson.bands.get(band) {
            Some(Band::Chart { what, .. }) => format!(" of “{}”", what.chart.title),
            _ => String::new(),
        };
        // The first loop of a Tunisian row is the last of the return pass beneath.
        let beneath = match one.lesson.reads() {
            Reads::ForwardAndReturn => "the return pass beneath ",
            _ => "",
        };
        Some(format!("{beneath}{} {row}{title}, {what}", names.line))
    };
    let caught = |i: usize| plan.get(i).is_some_and(|catches| !catches.is_empty());
    let shaped = |i: usize| work.rows.get(i).is_some_and(|row| row.shaping);
    let purled = |i: usize| many(2, i) && work.rows.get(i).is_some_and(|row| row.wrong_side);
    let stop = |id: &String| match Skill::of(id)? {
        Skill::TwoColours => row(
            &|i| many(2, i),
            format!("where the second {colour} comes in"),
        ),
        Skill::ThreeColours => row(&|i| many(3, i), format!("which has three {colours}")),
        Skill::Catching => row(&caught, "where the first strand is trapped".to_owned()),
        Skill::ShapingInColour => row(&shaped, "which loses stitches in the pattern".to_owned()),
        Skill::PurlInColour => row(
            &purled,
            match names.is_knitted {
                true => format!("the first that is purled in two {colours}"),
                false => format!("the first of the wrong side in two {colours}"),
            },
        ),
        Skill::Thumb => Some("the thumb’s stitches go on waste yarn".to_owned()),
        Skill::JoiningSleeves => Some("body and sleeves come on to one needle".to_owned()),
        Skill::ShortRows => Some("the first turn of the short rows".to_owned()),
        _ => None,
    };
    let new = &one.placed.step.new_techniques;
    new.iter().filter_map(stop).collect()
}
