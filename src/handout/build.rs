//! From an studied course to its handouts.

use std::borrow::Cow;

use crate::course::body::Source;
use crate::course::chart::Worked;
use crate::course::{Craft, Lesson, Part, Units};
use crate::ground::units::{plain_number, round_half_up};
use crate::handout::author::Author;
use crate::handout::cards::card_source;
use crate::handout::cautions::cautions;
use crate::handout::charts::sheets;
use crate::handout::fabric::fabric;
use crate::handout::longest::longest;
use crate::handout::news::{capital, new_intro, new_things};
use crate::handout::shape::{shape, shown, yoke_view};
use crate::handout::sizes::{abbreviations, fits, size_notes, without_counts};
use crate::handout::ticks::ticks;
use crate::handout::{Handout, MeasureLine, Print, RoundTable, YarnLine};
use crate::path::Placed;
use crate::path::StudiedCourse;
use crate::picture::Rung;
use crate::piece::Piece;
use crate::piece::yarn::{Amount, Basis};
use crate::study::{Made, Studied};
use crate::words::{RowNames, Wording, count, needle_text, number_word, part_words};

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

fn handout<'a>(
    course: &'a StudiedCourse<'a>,
    place: usize,
    placed: &'a Placed,
    print: &Print,
) -> Option<Handout<'a>> {
    let lesson = course.course.lessons.get(placed.index)?;
    let studied = course.lessons.get(placed.index)?;
    let order = &course.order.placed;
    let wording = Wording::of(course.course.terms);
    let cast_off = wording.words.get("cast_off").copied().unwrap_or("cast off");
    let made = studied.made();
    let all = made.pieces.iter().all(|piece| print.keeps(lesson, piece));
    let (pieces, amounts) = if all {
        (Cow::Borrowed(&*made.pieces), Cow::Borrowed(&*made.amounts))
    } else {
        kept(lesson, made, print)
    };
    let yours = print.yours(&pieces);
    let author = Author {
        lesson,
        pieces: &pieces,
        amounts: &amounts,
        studied,
        cast_off,
        yours,
        left_handed: print.left_handed,
        crochet: wording.words.get("dc").copied().unwrap_or(""),
        units: course.course.units,
    };
    let (steps, differs) = match &made.refused {
        None => author.steps(),
        Some(reason) => (vec![without_counts(reason, lesson)], None),
    };
    let tables: Vec<RoundTable> = differs.into_iter().chain(author.tables()).collect();
    let measured = author.measured();
    let piece = shown(&pieces, yours);
    let climb = order
        .iter()
        .filter_map(|p| {
            Some(Rung {
                grade: course.lessons.get(p.index)?.grade.grade,
            })
        })
        .collect();
    let next = order
        .get(place + 1)
        .and_then(|p| course.course.lessons.get(p.index));
    let new = new_things(lesson, studied, placed);
    Some(Handout {
        number: place + 1,
        of: order.len(),
        id: lesson.id.clone(),
        title: lesson.title.clone(),
        lead: lead(lesson, print.sizes(lesson).len(), studied),
        grade: plain_number(studied.grade.grade, 0),
        level: studied.grade.level.name(),
        new_intro: new_intro(&new, placed),
        cards: cards(course, placed),
        new,
        measures: measures(lesson, studied, placed, place == 0),
        climb,
        fabric: fabric(lesson, studied).filter(|_| !print.black),
        fabric_note: fabric_note(print).to_owned(),
        charts: sheets(lesson, studied, print),
        longest: longest(lesson, studied),
        measure_first: measure_first(lesson),
        count_name: if lesson.makes == crate::course::body::Makes::Yoke {
            "Body"
        } else {
            "Stitches"
        },
        size_sources: size_sources(lesson),
        abbreviations: abbreviations(&steps, &tables),
        steps,
        tables,
        measured,
        shape: piece.and_then(|p| shape(lesson, p, studied, print, course.course.units)),
        shape_size: piece
            .and_then(|p| Some(p.size.as_ref()?.label.clone()))
            .unwrap_or_default(),
        yoke: piece.and_then(|p| yoke_view(lesson, p, studied, print)),
        ticks: ticks(lesson, &pieces, studied),
        fits: fits(lesson, &pieces),
        size_notes: size_notes(lesson, &pieces, course.course.units),
        amounts,
        pieces,
        yarns: yarns(lesson),
        tool: if lesson.craft.carries_inside() {
            "hook"
        } else {
            "needles"
        },
        tools: tools(lesson, course.course.units),
        text: lesson.text.clone(),
        checks: checks(lesson, studied),
        cautions: cautions(lesson, studied, cast_off),
        rights: rights(lesson),
        next: next.map_or_else(
            || "The last lesson of the course".to_owned(),
            |n| format!("Next: lesson {}, {}", place + 2, n.title),
        ),
        line: RowNames::of_lesson(lesson).line,
        yours,
        print: print.clone(),
    })
}

type Kept<'a> = (Cow<'a, [Piece]>, Cow<'a, [(Basis, Vec<Amount>)]>);

/// The pieces of the sizes that are printed, and their yarn.
fn kept<'a>(lesson: &Lesson, made: &Made, print: &Print) -> Kept<'a> {
    let keeps = |at: &usize| {
        let piece = made.pieces.get(*at);
        piece.is_some_and(|piece| print.keeps(lesson, piece))
    };
    let places: Vec<usize> = (0..made.pieces.len()).filter(keeps).collect();
    let pieces = places.iter().filter_map(|at| made.pieces.get(*at).cloned());
    let amounts = places
        .iter()
        .filter_map(|at| made.amounts.get(*at).cloned());
    (Cow::Owned(pieces.collect()), Cow::Owned(amounts.collect()))
}

fn fabric_note(print: &Print) -> &'static str {
    if print.folded {
        "**The band, life size** on a full page; a booklet shows it smaller."
    } else {
        "**The band, life size.** Lay your own washed swatch on it."
    }
}

fn yarns(lesson: &Lesson) -> Vec<YarnLine> {
    let each = lesson.yarns.iter().map(|yarn| YarnLine {
        name: yarn.name.clone(),
        rgb: yarn.rgb,
        role: yarn.role.clone(),
    });
    each.collect()
}

fn lead(lesson: &Lesson, sizes: usize, studied: &Studied<'_>) -> String {
    let names = RowNames::of_lesson(lesson);
    let rows = studied.work.rows.len();
    let what = match lesson.makes.name() {
        "mitts" | "mittens" => format!("{} in", capital(lesson.makes.name())),
        makes => format!("A {makes} in"),
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
    let craft = match lesson.craft {
        Craft::Knit => "",
        Craft::Crochet => " crocheted,",
        Craft::Tunisian => " in Tunisian crochet,",
        Craft::CountedThread => " on counted thread,",
    };
    let stranded = studied.measures.relief.stranded > 0;
    let band = if stranded { "colourwork" } else { "stripes" };
    let gauge = lesson.colourwork.gauge;
    format!(
        "{what}{craft} with {} of {band}. {} stitches and {} {} to 10 cm.",
        count(rows, names.line, names.lines),
        plain_number(gauge.stitches, 1),
        plain_number(gauge.rows, 1),
        names.lines
    )
}

fn cards(course: &StudiedCourse<'_>, placed: &Placed) -> Vec<(String, String)> {
    let own = &course.course.cards;
    let found = placed
        .step
        .new_techniques
        .iter()
        .filter_map(|id| Some((id.clone(), card_source(id, own)?.to_owned())));
    found.collect()
}

fn measures(
    lesson: &Lesson,
    studied: &Studied<'_>,
    placed: &Placed,
    first: bool,
) -> Vec<MeasureLine> {
    let names = RowNames::of_lesson(lesson).with_places(lesson, &studied.work);
    let each = Part::ALL
        .into_iter()
        .zip(&studied.grade.causes)
        .filter(|(part, _)| *part != Part::Handling);
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

fn measure_first(lesson: &Lesson) -> String {
    let gauge = lesson.colourwork.gauge;
    let way = if lesson.worked == Worked::Round {
        "in the round"
    } else {
        "flat, purling back"
    };
    let what = if lesson.charts().is_empty() {
        "in plain fabric"
    } else {
        "in the pattern"
    };
    let part = match lesson
        .sizes
        .first()
        .map(|size| lesson.makes.girth_of(size).0)
    {
        Some("hand") => " Measure the hand round the knuckles, without the thumb.",
        Some("chest") => " Measure the chest under the arms, breathing normally.",
        Some(_) if lesson.makes.has_sizes() => {
            " Measure the head above the ears, where it is widest."
        }
        _ => "",
    };
    format!(
        "Work a swatch {what}, {way}, wash and dry it. Lay a ruler on it: {} stitches and {} {} should measure 10 cm. \
         More stitches? Take a thicker needle. Fewer? A thinner one.{part}",
        plain_number(gauge.stitches, 1),
        plain_number(gauge.rows, 1),
        RowNames::of_lesson(lesson).lines
    )
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

fn tools(lesson: &Lesson, units: Units) -> String {
    let tool = if lesson.craft.carries_inside() {
        "Hook"
    } else {
        "Needle"
    };
    let mm = |n: crate::ground::units::Length| needle_text(n, units);
    let mut text = match lesson.colourwork.needle {
        Some(needle) => format!("{tool} {}", mm(needle)),
        None => format!("{tool} to reach the stitches above"),
    };
    if let Some(rib) = lesson.rib_needle {
        text.push_str(&format!("; {} for the rib", mm(rib)));
    }
    text.push('.');
    let (plain, colour) = (lesson.plain_gauge(), lesson.colourwork.gauge);
    if (plain.stitches, plain.rows) != (colour.stitches, colour.rows) {
        text.push_str(&format!(
            " Plain: {} stitches and {} {} to 10 cm.",
            plain_number(plain.stitches, 1),
            plain_number(plain.rows, 1),
            RowNames::of_lesson(lesson).lines
        ));
    }
    if let Some(metres) = lesson.metres_per_100g {
        text.push_str(&format!(
            " Yarn of about {} m to 100 g",
            plain_number(metres, 0)
        ));
        if let Some(weight) = lesson.yarn_weight {
            text.push_str(&format!(", category {weight}"));
        }
        text.push('.');
    }
    text
}

fn checks(lesson: &Lesson, studied: &Studied<'_>) -> Vec<String> {
    let mut checks = Vec::new();
    let gauge = lesson.colourwork.gauge;
    let measures = &studied.measures;
    if measures.relief.stranded > 0 {
        checks.push(
            "The colourwork stretches over your spread hand as far as the plain part does."
                .to_owned(),
        );
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
    let twenty = round_half_up(gauge.width(20.0).to_mm(), 0);
    checks.push(format!(
        "Across 20 stitches of the washed piece I measure ________ mm. Should be {twenty}."
    ));
    checks.push("More than that? Take a thinner needle next time. Less? A thicker one.".to_owned());
    checks.push(
        "It has ________ stitches and measures ________ cm round; it fits ________.".to_owned(),
    );
    checks
}

fn rights(lesson: &Lesson) -> String {
    let mut parts: Vec<String> = lesson
        .charts()
        .iter()
        .map(|what| crate::handout::charts::rights_text(&what.chart))
        .collect();
    parts.dedup();
    parts.join(" ")
}
