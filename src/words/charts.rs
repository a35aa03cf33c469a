//! What is said of a chart: how to read it, where to catch, whose it is.

use std::collections::BTreeSet;

use crate::course::Reads;
use crate::course::chart::{Chart, Rights};
use crate::rows::catches::{self, WorkOver};
use crate::rows::traps::Trap;
use crate::study::Studied;
use crate::words::labels::CATCH_SHORT;
use crate::words::pictures::catches_tag;
use crate::words::{RowNames, Wording, count, join_and, ordinal};

/// Which way a chart is read, in Markdown.
#[must_use]
pub fn reading(reads: Reads, wording: Wording) -> String {
    let (here, there) = (wording.right(), wording.left());
    match reads {
        Reads::Rounds => format!(
            "Start at the bottom {here}. Read **every round** from {here} to {there}, then go up to the next line."
        ),
        Reads::ForwardAndReturn => format!(
            "Start at the bottom {here}. Read **every row** from {here} to {there}: its forward pass in these {colours}, the loop on the \
             hook being stitch 1 and the first bar skipped; its return pass back again, each loop worked off in its own {colour}, and the \
             last draw in that of the next row’s first stitch. The right side always faces you.",
            colour = wording.colour(),
            colours = wording.colours()
        ),
        Reads::FromTheMiddle => format!(
            "The small arrows show the {centre} of the chart: it lies on the {centre} of the cloth. Count outwards from there. Each square is \
             one cross; a darker line stands after every fifth, a heavier one after every tenth.",
            centre = wording.centre()
        ),
        Reads::Turning => format!(
            "Start at the bottom {here}. Read odd rows (the right side) from {here} to {there}, even rows from {there} to \
             {here}. A number stands at the side where its row begins."
        ),
    }
}

/// `trap Peat on the 3rd of each 5 Fleece`; nothing where nothing is caught. Told before the row is worked.
#[must_use]
pub fn trap_words(traps: &[Trap], repeats: bool, names: &RowNames) -> Option<String> {
    let mut told: Vec<(u8, Vec<String>)> = Vec::new();
    for trap in traps {
        let stitches = trap.past.map(|colour| names.colour(colour));
        let mut places = places(trap, stitches, repeats);
        match trap.first.as_slice() {
            [] => {}
            [only] => places.push_str(&format!(", first on stitch {only}")),
            many => places.push_str(&format!(", first on stitches {}", and_numbers(many))),
        }
        match told.iter_mut().find(|(colour, _)| *colour == trap.colour) {
            Some((_, all)) => all.push(places),
            None => told.push((trap.colour, vec![places])),
        }
    }
    let one = |(colour, all): &(u8, Vec<String>)| {
        format!("trap {} {}", names.colour(*colour), all.join(", "))
    };
    let told: Vec<String> = told.iter().map(one).collect();
    (!told.is_empty()).then(|| told.join("; "))
}

/// How a chart lies that is worked from the crown.
pub const UPSIDE_DOWN: &str = " It is drawn as it is worked, from the crown down: upside down to whoever looks at the wearer.";

/// Something to be said of how catches are counted and worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Catching {
    /// Strands are caught.
    Stretches,
    /// Beside a row stands how often it is caught in a repeat.
    Numbered,
    /// There are decreases.
    Decreases,
    /// Two strands are caught at one stitch.
    Shared,
    /// A strand is caught at two stitches on end.
    OnEnd,
    /// Places differ from one repeat to the next.
    Varying,
}

/// How stitches are counted that a strand passes, and what else a catch asks.
#[must_use]
pub fn catching(what: &BTreeSet<Catching>) -> String {
    let told = what.iter().map(|what| match what {
        Catching::Stretches => {
            "Stitches passed are counted on from the end of one repeat into the next."
        }
        Catching::Numbered => "“Catch × 2” beside a row: twice in each repeat, and so on.",
        Catching::Decreases => "A decrease is one stitch passed.",
        Catching::Shared => "Two strands on one stitch are laid over it together.",
        Catching::OnEnd => {
            "A strand on two stitches on end is laid over both, and drops after the second."
        }
        Catching::Varying => {
            "Some marks hold only in some repeats or at an edge: where a row has more marks than its words name, go by the words."
        }
    });
    told.collect::<Vec<_>>().join(" ")
}

/// `on the 3rd of each 5 Fleece`; where it is not the same in all of them, `in each repeat on the 3rd of the first 5 Fleece, the
/// 2nd of the next`; past several colours `the 3rd of each 5 stitches it passes`.
fn places(trap: &Trap, colour: Option<&str>, repeats: bool) -> String {
    let what = format!("{} {}", trap.of, colour.unwrap_or("stitches it passes"));
    if !trap.varies() {
        let places = trap.places.first().map(Vec::as_slice).unwrap_or_default();
        let each = if trap.places.len() > 1 || repeats {
            "each"
        } else {
            "the"
        };
        return format!("on the {} of {each} {what}", ordinals(places));
    }
    let (before, within) = trap.zones;
    let (before, rest) = trap.places.split_at_checked(before).unwrap_or_default();
    let (within, after) = rest.split_at_checked(within).unwrap_or_default();
    // What begins in the last repeat as it does in the others need not be told again.
    let after = if after == within { &[][..] } else { after };
    let repeat = match (before.is_empty() && after.is_empty(), repeats) {
        (true, false) => "",
        (_, _) if after.is_empty() => "in each repeat ",
        _ => "in each repeat but the last ",
    };
    let zones = [("", before), (repeat, within), ("at the end ", after)];
    let told = zones.iter().filter(|(_, places)| !places.is_empty());
    let told = told.map(|(where_, places)| format!("{where_}on {}", in_turn(places, &what)));
    told.collect::<Vec<_>>().join(", ")
}

/// `the 3rd of the first 5 Fleece, the 2nd of the next`.
fn in_turn(floats: &[Vec<usize>], what: &str) -> String {
    if let [only] = floats {
        return format!("the {} of the {what}", ordinals(only));
    }
    let told = floats.iter().enumerate().map(|(i, places)| {
        let which = if i == 0 {
            format!("the first {what}")
        } else {
            "the next".to_owned()
        };
        format!("the {} of {which}", ordinals(places))
    });
    told.collect::<Vec<_>>().join(", ")
}

/// `3rd`, `3rd and 8th`.
fn ordinals(places: &[usize]) -> String {
    join_and(&places.iter().map(|n| ordinal(*n)).collect::<Vec<_>>())
}

/// `3 and 7`.
fn and_numbers(places: &[usize]) -> String {
    join_and(&places.iter().map(usize::to_string).collect::<Vec<_>>())
}

/// `3, 7`.
fn list(places: &[usize]) -> String {
    let numbers: Vec<String> = places.iter().map(usize::to_string).collect();
    numbers.join(", ")
}

/// Beside a row of the picture: `3rd of 5`; where floats differ, how many catches there are in a repeat, and in a row with
/// edges only that there are some.
#[must_use]
pub fn trap_tag(traps: &[Trap], edged: bool) -> Option<String> {
    let first = traps.first()?.places.first()?;
    match traps {
        [only] if only.places.iter().all(|places| places == first) => {
            Some(match first.as_slice() {
                [one] => format!("{} of {}", ordinal(*one), only.of),
                [_, _] | [_, _, _] => format!("{} of {}", list(first), only.of),
                many => catches_tag(many.len()),
            })
        }
        _ if edged => Some(CATCH_SHORT.to_owned()),
        many => {
            let all = many.iter().flat_map(|trap| &trap.places).map(Vec::len);
            Some(catches_tag(all.sum()))
        }
    }
}

/// What is better not carried at all in this row, and why.
#[must_use]
pub fn work_over_words(studied: &Studied<'_>, index: usize, names: &RowNames) -> String {
    let work = &studied.work;
    let (Some(row), Some(measures)) = (work.rows.get(index), studied.measures.rows.get(index))
    else {
        return String::new();
    };
    catches::worked_over(work, row, measures)
        .into_iter()
        .map(|(colour, why)| {
            let name = names.colour(colour);
            let line = names.line;
            match why {
                WorkOver::Alone(of) => format!(
                    ". Or leave {name} out of this {line} and work its one stitch over afterwards: one in {of} is not \
                     worth a strand"
                ),
                WorkOver::Caught(stitches, catches) => format!(
                    ". Or leave {name} out of this {line} and work its stitches over afterwards: a strand past {stitches} \
                     would be caught {catches} times, which shows"
                ),
            }
        })
        .collect()
}

/// A chart for those who cannot see it; `yarns` are those of its inks.
#[must_use]
pub fn chart_alt(chart: &Chart, reads: Reads, yarns: &[String], names: &RowNames) -> String {
    if reads == Reads::FromTheMiddle {
        return format!(
            "Chart {}: {} by {} squares, in {}, counted from the middle",
            chart.title,
            chart.width,
            chart.height,
            join_and(yarns)
        );
    }
    let repeat = &chart.repeat_stitches;
    let repeat = match repeat.len() {
        0 | 1 => String::new(),
        _ => format!(
            " Stitches {} to {} are the repeat.",
            repeat.start + 1,
            repeat.end
        ),
    };
    format!(
        "Chart {}: {} by {}, in {}.{repeat} The same is said under “The {} in words”.",
        chart.title,
        count(chart.width, "stitch", "stitches"),
        count(chart.height, names.line, names.lines),
        join_and(yarns),
        names.lines,
    )
}

/// Rights and source of a chart in a sentence.
#[must_use]
pub fn rights_text(chart: &Chart) -> String {
    let rights = match &chart.rights {
        Rights::Own => "own work, free to copy for your class".to_owned(),
        Rights::PublicDomain => "in the public domain".to_owned(),
        Rights::Permission { from, scope } => format!("by permission of {from}, for {scope} use"),
        Rights::ReferenceOnly => {
            "not ours to copy: please bring your own copy of the chart".to_owned()
        }
    };
    let source = chart.source.as_deref().unwrap_or("").trim();
    let stop = if source.is_empty() || source.ends_with(['.', '!', '?']) {
        ""
    } else {
        "."
    };
    format!("Chart “{}”: {rights}. {source}{stop}", chart.title)
        .trim_end()
        .to_owned()
}
