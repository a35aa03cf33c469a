//! The fabric on a front page: which rows, and in which columns they stand.

use crate::course::Lesson;
use crate::ground::colour::Rgb;
use crate::handout::Print;
use crate::handout::shape::tones;
use crate::picture::Fabric;
use crate::study::Studied;
use crate::words::pictures::fabric_alt;
use crate::words::{RowNames, Wording};

/// The colourwork from its first row to its last, at life size.
pub(super) fn fabric(
    lesson: &Lesson,
    studied: &Studied<'_>,
    print: &Print,
    wording: Wording,
) -> Option<Fabric> {
    fabric_of(lesson, studied, (f64::INFINITY, print), wording)
}

/// Most rows of fabric that are drawn.
const FABRIC_ROWS: usize = 200;

/// Fabric at life size: of so many millimetres, the colourwork's liveliest rows.
pub(super) fn fabric_of(
    lesson: &Lesson,
    studied: &Studied<'_>,
    (tallest, print): (f64, &Print),
    wording: Wording,
) -> Option<Fabric> {
    if lesson
        .charts()
        .iter()
        .any(|what| !what.chart.rights.may_print())
    {
        return None;
    }
    // The picture is of knitted stitches; other crafts look different, and a wrong picture is worse than none.
    if !lesson.craft.knows_loops() {
        return None;
    }
    let gauge = lesson.colourwork.gauge;
    let (pitch, rise) = (gauge.width(1.0).to_mm(), gauge.height(1.0).to_mm());
    // Smaller stitches than those of so many rows cannot be seen.
    let most = ((tallest / rise).floor() as usize).min(FABRIC_ROWS);
    let work = &studied.work;
    let tones = tones(lesson, print);
    let rgb = |cell: u8| tones.get(usize::from(cell)).copied().unwrap_or([128; 3]);
    let rows: Vec<Vec<Option<Rgb>>> = work
        .rows
        .iter()
        .skip(liveliest(studied, most))
        .take(most)
        .map(|row| {
            let drawn = work.drawn(row);
            // Shaped rows keep their drawn columns, so that the pattern stays upright.
            let aligned = work.marks(row).len() != row.drawn_width
                && drawn.iter().all(|d| d.index() < row.drawn_width);
            if aligned {
                let mut columns = vec![None; row.drawn_width];
                for (cell, column) in work.cells(row).iter().zip(drawn) {
                    if let Some(place) = columns.get_mut(column.index()) {
                        *place = Some(rgb(*cell));
                    }
                }
                columns
            } else {
                work.cells(row)
                    .iter()
                    .map(|cell| Some(rgb(*cell)))
                    .collect()
            }
        })
        .collect();
    let ground = rows.iter().flatten().flatten().copied().fold(
        Vec::<(Rgb, usize)>::new(),
        |mut seen, colour| {
            match seen.iter_mut().find(|(c, _)| *c == colour) {
                Some((_, n)) => *n += 1,
                None => seen.push((colour, 1)),
            }
            seen
        },
    );
    let ground = ground.into_iter().max_by_key(|(_, n)| *n).map(|(c, _)| c)?;
    let names = RowNames::of_lesson(lesson, wording);
    let alt = fabric_alt(rows.len(), &lesson.title, &names);
    Some(Fabric {
        rows,
        ground,
        pitch,
        rise,
        alt,
    })
}

/// Where the most happens in `most` rows on end: colours in a row, and changes from row to row.
fn liveliest(studied: &Studied<'_>, most: usize) -> usize {
    let work = &studied.work;
    let lively: Vec<usize> = (0..work.rows.len())
        .map(|i| {
            let row = work.rows.get(i).map(|r| work.cells(r)).unwrap_or_default();
            let beneath = i
                .checked_sub(1)
                .and_then(|b| work.rows.get(b))
                .map(|r| work.cells(r))
                .unwrap_or_default();
            let colours = studied.measures.rows.get(i).map_or(0, |m| m.colours);
            (colours - colours.min(1)) * 2 + usize::from(i > 0 && row.first() != beneath.first())
        })
        .collect();
    let window = most.min(lively.len()).max(1);
    let sums = lively.windows(window).map(|w| w.iter().sum::<usize>());
    let best = sums
        .enumerate()
        .max_by_key(|(i, sum)| (*sum, std::cmp::Reverse(*i)));
    best.map_or(0, |(i, _)| i)
}
