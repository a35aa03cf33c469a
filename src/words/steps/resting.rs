//! Where a yarn rests between its rounds: carried, or cut and joined anew.

use crate::course::Band;
use crate::course::chart::Worked;
use crate::piece::yarn::TAIL;
use crate::rows::measure::{CARRIED_ROWS, Cut, cuts, is_cut};
use crate::rows::walk::Row;
use crate::words::steps::author::Author;
use crate::words::{RowNames, join_and, literal, number_word, round_text};

/// What becomes of yarns that rest; nothing where rows turn (the edge they lie at is told of elsewhere), and where no yarn
/// rests. Where the unused strand lies inside the stitches: how it comes in.
pub(super) fn resting(author: &Author<'_>) -> String {
    let (lesson, work) = (author.lesson, &author.studied.work);
    let closed = work.rows.iter().all(|row| row.closed);
    let many = author.studied.measures.colours.total > 1;
    if !closed || !many {
        return String::new();
    }
    if lesson.craft.carries_inside() {
        return laid_in(author);
    }
    let names = RowNames::of_lesson(lesson, author.wording).with_places(lesson, work);
    let told: Vec<String> = cuts(work)
        .iter()
        .filter_map(|cut| told(cut, author, &names))
        .collect();
    let carried = format!(
        " Carry resting yarns up the inside, laid over the working one where every second {} begins",
        author.line()
    );
    if told.is_empty() {
        format!("{carried}.")
    } else {
        let most = number_word(CARRIED_ROWS);
        format!(
            "{carried}; cut those that rest more than {most}: {}.",
            join_and(&told)
        )
    }
}

/// `Peat after round 1 (again in round 9)`; nothing for a rest that no chart holds.
fn told(cut: &Cut, author: &Author<'_>, names: &RowNames) -> Option<String> {
    let place = |row: usize| {
        author.studied.work.rows.get(row)?.origin.drawn?;
        Some(names.row_at(row))
    };
    Some(format!(
        "{} after {} (again in {})",
        literal(names.colour(cut.colour)),
        place(cut.after)?,
        place(cut.again)?
    ))
}

/// How the other yarns come into stitches that close over them, and leave them.
fn laid_in(author: &Author<'_>) -> String {
    let lesson = author.lesson;
    let chart = lesson
        .bands
        .iter()
        .position(|band| matches!(band, Band::Chart { .. }));
    let worked = chart.and_then(|at| lesson.bands.get(at.checked_sub(1)?));
    let ground = match worked {
        Some(Band::Plain { yarn, .. } | Band::Rib { yarn, .. }) => Some(*yarn),
        _ => None,
    };
    let used = lesson
        .charts()
        .into_iter()
        .flat_map(|what| what.yarns.iter().copied());
    let mut others: Vec<usize> = used.filter(|yarn| Some(*yarn) != ground).collect();
    others.sort_unstable();
    others.dedup();
    let names: Vec<String> = others
        .iter()
        .filter_map(|yarn| Some(literal(&lesson.yarns.get(*yarn)?.name)))
        .collect();
    let tail = round_text(TAIL, author.wording.units());
    author.says().laid_in(&names, &tail)
}

/// In stripes alone: that a yarn is cut after a band, because it rests too long to be carried or is not used again.
pub(super) fn cut_after(author: &Author<'_>, band: Option<usize>, yarn: Option<usize>) -> String {
    let (lesson, work) = (author.lesson, &author.studied.work);
    let (Some(band), Some(yarn)) = (band, yarn) else {
        return String::new();
    };
    let striped = lesson.charts().is_empty() && lesson.worked == Worked::Round;
    let last = work
        .rows
        .iter()
        .rposition(|row| row.origin.band == Some(band));
    let Some(last) = last.filter(|last| striped && last + 1 < work.rows.len()) else {
        return String::new();
    };
    let has = |row: &Row| {
        work.cells(row)
            .iter()
            .any(|cell| usize::from(*cell) == yarn)
    };
    let again = work.rows.iter().skip(last + 1).position(has);
    match again {
        Some(rest) if !is_cut(last, last + 1 + rest) => String::new(),
        _ => format!(" Cut {}.", author.ground(Some(yarn))),
    }
}
