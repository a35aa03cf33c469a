//! From an studied course to its handouts.

use std::borrow::Cow;

use crate::course::CLOTH;
use crate::course::body::Source;
use crate::course::{Lesson, Part};
use crate::ground::units::plain_number;
use crate::handout::cards::{card_source, cards_of};
use crate::handout::charts::sheets;
use crate::handout::fabric::fabric;
use crate::handout::fits::fits;
use crate::handout::shape::{shape, shown, yoke_view};
use crate::handout::{ChartSheet, Handout, MeasureLine, Print, YarnLine};
use crate::path::Placed;
use crate::path::StudiedCourse;
use crate::picture::Rung;
use crate::piece::practice::{alike, distinct};
use crate::piece::yarn::{Amount, Basis};
use crate::piece::{Piece, Without};
use crate::rows::grade::Skill;
use crate::study::{Made, Studied};
use crate::words::labels::NOT_STITCHED;
use crate::words::{
    Author, CraftWords, Instruction, OnCloth, RoundTable, RowNames, Wording, abbreviations,
    between_sizes, cautions, checks, lacking_size, lead, longest, measure_first, new_intro,
    new_things, next_lesson, part_words, rights_text, shared_label, size_notes, tools,
    without_counts,
};

/// The handouts of a course, in its order.
#[must_use]
pub fn handouts<'a>(studied: &'a StudiedCourse<'a>, print: &Print) -> Vec<Handout<'a>> {
    let placed = &studied.order.placed;
    placed
        .iter()
        .enumerate()
        .filter_map(|(place, p)| handout(studied, place, p, print))
        .collect()
}

/// The handout of one lesson of a course.
#[must_use]
pub fn handout_of<'a>(
    studied: &'a StudiedCourse<'a>,
    lesson: &str,
    print: &Print,
) -> Option<Handout<'a>> {
    let index = studied.course.lessons.iter().position(|l| l.id == lesson)?;
    let mut places = studied.order.placed.iter().enumerate();
    let (place, placed) = places.find(|(_, placed)| placed.index == index)?;
    handout(studied, place, placed, print)
}

fn handout<'a>(
    course: &'a StudiedCourse<'a>,
    place: usize,
    placed: &'a Placed,
    print: &Print,
) -> Option<Handout<'a>> {
    let lesson = course.course.lessons.get(placed.index)?;
    let studied = course.lessons.get(placed.index)?;
    let order = &course.order.placed;
    let wording = Wording::of_course(course.course)
        .for_hand(print.hand)
        .for_stitch(lesson.stitch);
    let says = CraftWords::of(lesson, wording);
    let made = studied.made();
    let (pieces, amounts) = shown_pieces(lesson, made, print);
    let yours = print.yours(&pieces);
    let author = Author {
        lesson,
        pieces: &pieces,
        amounts: &amounts,
        studied,
        wording,
        yours,
    };
    let lacking = lacking(lesson, made, print);
    let (steps, differs) = match lacking.first() {
        Some(first) if pieces.is_empty() => (vec![without_counts(&first.reason, lesson)], None),
        _ => author.steps(),
    };
    let mut size_notes = size_notes(lesson, &pieces, wording.units());
    if !pieces.is_empty() {
        size_notes.extend(lacking.iter().filter_map(|one| lacking_size(one, lesson)));
    }
    let fits = fits(lesson, &pieces);
    let tables: Vec<RoundTable> = author.tables().into_iter().chain(differs).collect();
    let sizes = author.size_table(&fits);
    let piece = shown(&pieces, yours);
    let next = order
        .get(place + 1)
        .and_then(|p| course.course.lessons.get(p.index));
    let task = course.tasks().get(place).copied();
    let new = new_things(lesson, studied, placed, wording);
    let charts = sheets(lesson, studied, print, wording);
    let tools = tools(lesson, &pieces, wording);
    let handout = Handout {
        number: place + 1,
        of: order.len(),
        id: lesson.id.clone(),
        title: lesson.title.clone(),
        lead: lead(
            lesson,
            print.sizes(lesson).len().saturating_sub(lacking.len()),
            studied,
            task,
            wording,
        ),
        grade: plain_number(studied.grade.grade, 0),
        level: studied.grade.level.name(),
        new_intro: new_intro(&new, studied, placed, wording),
        cards: cards(course, lesson, placed),
        new,
        measures: measures(lesson, studied, placed, place == 0, wording),
        climb: climb(course),
        fabric: fabric(lesson, studied, print, wording),
        longest: longest(lesson, studied, wording),
        measure_first: measure_first(lesson, wording),
        size_sources: size_sources(lesson),
        abbreviations: short_forms(says, &steps, &tables, &charts),
        charts,
        steps,
        tables,
        sizes,
        shape: piece.and_then(|p| shape(lesson, p, studied, print, course.course.units)),
        shape_size: piece
            .and_then(|p| Some(p.size.as_ref()?.label.clone()))
            .unwrap_or_default(),
        yoke: piece.and_then(|p| yoke_view(lesson, p, studied, print)),
        size_notes,
        between_sizes: between_sizes(&fits),
        pieces,
        yarns: yarns(lesson),
        measure_title: says.measure_title(),
        stuff: says.stuff(),
        tool: says.tools(),
        tools,
        text: lesson.text.clone(),
        checks: checks(lesson, studied, wording),
        cautions: cautions(lesson, studied, wording),
        rights: rights(lesson),
        next: next_lesson(next.map(|n| (place + 2, n.title.as_str()))),
        leans: says.leans(print.hand),
        line: RowNames::of_lesson(lesson, wording).line,
        print: print.clone(),
        wording,
    };
    Some(if lesson.craft.has_rows() {
        handout
    } else {
        on_cloth(handout, &OnCloth::of(lesson, studied, wording))
    })
}

/// The short forms of steps, tables and rows, each written out; of crafts that have a stitch of their own, that stitch.
fn short_forms(
    says: CraftWords,
    steps: &[Instruction],
    tables: &[RoundTable],
    charts: &[ChartSheet<'_>],
) -> String {
    let rows = charts.iter().flat_map(|chart| &chart.rows);
    let rows: Vec<&str> = rows.map(|row| row.words.as_str()).collect();
    let known = abbreviations(steps, tables, &rows);
    says.basic_stitch(steps, tables).unwrap_or(known)
}

/// A handout of what is not worked in rows: nothing of rounds, ribs and floats.
fn on_cloth<'a>(handout: Handout<'a>, cloth: &OnCloth<'_>) -> Handout<'a> {
    Handout {
        lead: cloth.lead(),
        measure_first: cloth.measure_first(),
        tools: cloth.tools(),
        steps: cloth.steps(),
        tables: vec![cloth.table()],
        sizes: None,
        longest: None,
        checks: cloth.checks(),
        abbreviations: String::new(),
        ..handout
    }
}

/// The grades of the whole course, for the small ladder.
fn climb(course: &StudiedCourse<'_>) -> Vec<Rung> {
    let placed = course.order.placed.iter();
    let lessons = placed.filter_map(|p| course.lessons.get(p.index));
    lessons
        .map(|studied| Rung {
            grade: studied.grade.grade,
        })
        .collect()
}

/// Sizes that would be printed and have no counts: a learner is told why hers is not there.
fn lacking<'m>(lesson: &Lesson, made: &'m Made, print: &Print) -> Vec<&'m Without> {
    let printed = |without: &&Without| {
        let size = without.size.as_ref();
        size.is_none_or(|size| print.prints(lesson, size))
    };
    made.without.iter().filter(printed).collect()
}

type Kept<'a> = (Cow<'a, [Piece]>, Cow<'a, [(Basis, Vec<Amount>)]>);

/// The pieces of the sizes that are printed, and their yarn; sizes that come to the same piece are one.
fn shown_pieces<'a>(lesson: &Lesson, made: &'a Made, print: &Print) -> Kept<'a> {
    let wanted = print.wanted();
    let kept: Vec<&Piece> = made
        .pieces
        .iter()
        .filter(|piece| print.keeps(lesson, piece))
        .collect();
    if kept.len() == made.pieces.len() && alike(&made.pieces).is_empty() {
        return (Cow::Borrowed(&*made.pieces), Cow::Borrowed(&*made.amounts));
    }
    let places: Vec<usize> = (0..made.pieces.len())
        .filter(|at| {
            made.pieces
                .get(*at)
                .is_some_and(|piece| print.keeps(lesson, piece))
        })
        .collect();
    let kept: Vec<Piece> = kept.into_iter().cloned().collect();
    let (mut pieces, mut amounts) = (Vec::new(), Vec::new());
    for (at, group) in distinct(&kept) {
        let Some(mut piece) = kept.get(at).cloned() else {
            continue;
        };
        let sizes = group.iter().filter_map(|i| kept.get(*i)?.size.as_ref());
        let labels: Vec<&str> = sizes.clone().map(|size| size.label.as_str()).collect();
        let own = sizes.clone().find(|size| Some(size.id.as_str()) == wanted);
        if let Some(size) = &mut piece.size {
            size.label = shared_label(&labels);
            // The learner's own size is found by its id, whichever of the group it is.
            if let Some(own) = own {
                size.id.clone_from(&own.id);
            }
        }
        pieces.push(piece);
        amounts.extend(
            places
                .get(at)
                .and_then(|place| made.amounts.get(*place))
                .cloned(),
        );
    }
    (Cow::Owned(pieces), Cow::Owned(amounts))
}

fn yarns(lesson: &Lesson) -> Vec<YarnLine> {
    let each = lesson.yarns.iter().map(|yarn| YarnLine {
        name: yarn.name.clone(),
        rgb: yarn.rgb,
        // What a role is called is the file's own business; that cloth is not stitched is not.
        note: match lesson.craft.has_rows() {
            false if yarn.role == CLOTH => NOT_STITCHED.to_owned(),
            _ => String::new(),
        },
    });
    each.collect()
}

fn cards(course: &StudiedCourse<'_>, lesson: &Lesson, placed: &Placed) -> Vec<(String, String)> {
    let own = &course.course.cards;
    let found = placed
        .step
        .new_techniques
        .iter()
        .flat_map(|id| cards_of(id))
        // A crown that is begun with has another way than one that is closed.
        .map(|id| match Skill::of(id) {
            Some(Skill::CrownDecreases) if lesson.crown_first => "crochet/crown-increases",
            _ => id,
        })
        .filter_map(|id| Some((id.to_owned(), card_source(id, own)?.to_owned())));
    found.collect()
}

fn measures(
    lesson: &Lesson,
    studied: &Studied<'_>,
    placed: &Placed,
    first: bool,
    wording: Wording,
) -> Vec<MeasureLine> {
    let names = RowNames::of_lesson(lesson, wording).with_places(lesson, &studied.work);
    let each = Part::ALL
        .into_iter()
        .zip(&studied.grade.causes)
        .filter(|(part, _)| match part {
            Part::Handling => studied.grade.parts[Part::Handling.index()] > 0.0,
            Part::Relief => lesson.craft.has_rows(),
            _ => true,
        });
    each.map(|(part, cause)| {
        let value = studied.grade.parts[part.index()];
        let words = part_words(part, value, cause, &names);
        MeasureLine {
            name: words.name,
            value,
            met: (!first).then_some(placed.before.parts[part.index()]),
            verdict: words.verdict,
            fact: words.fact,
        }
    })
    .collect()
}

fn size_sources(lesson: &Lesson) -> Vec<Source> {
    let mut sources: Vec<Source> = Vec::new();
    for size in lesson.sizes.iter().filter(|_| lesson.makes.has_sizes()) {
        let (_, _, source) = lesson.makes.girth_of(size);
        if !sources.contains(&source) {
            sources.push(source);
        }
    }
    sources
}

fn rights(lesson: &Lesson) -> String {
    let mut parts: Vec<String> = lesson
        .charts()
        .iter()
        .map(|what| rights_text(&what.chart))
        .collect();
    parts.dedup();
    parts.join(" ")
}
