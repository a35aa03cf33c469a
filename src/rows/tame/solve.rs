//! The fewest cells of one row to recolour: every place where a strip must be cut open is tried.

use crate::rows::tame::ages::{Age, Ages, Colours, FINISHED, State, UNSEEN};
use crate::rows::tame::beam::{beam, blocks, drawn_cuts};
use crate::rows::tame::eased::{Eased, has_room, keep_cheaper};
use crate::rows::tame::path::{Absent, Close, Effort, Move, Path, Stitch, Way, cheapest};
use crate::rows::tame::steps::Steps;
use crate::rows::tame::strip::{Axis, Ends, Strip};

/// Stitches × sets of ages up to which a row is solved exactly. All rows of two colours and 4000 stitches at floats of
/// seven, and rows of three colours and 300 stitches at floats of twenty, lie far below.
const MOST_WORK: usize = 60_000_000;
/// Most colours for which all sets of colours that a repeat may do without are tried.
const MOST_SETS: usize = 5;

/// Recolours the fewest cells so that no float passes more than `longest` stitches. `None` if that cannot be.
pub(super) fn ease(strip: &Strip, longest: usize, steps: &mut Steps) -> Option<Eased> {
    let colours = strip.inks.len();
    let line = matches!(strip.ends, Ends::Line);
    let mut ages = Ages::new(colours, longest, line);
    let found = match strip.ends {
        Ends::Ring if !strip.twice => ring(&mut ages, strip, longest, steps),
        _ => other(&mut ages, strip, longest, steps),
    };
    let Some((path, way)) = found else {
        return blocks(strip, longest);
    };
    let stitches = path.moves.iter().filter_map(|step| match step {
        Move::Work(stitch) => Some(stitch),
        _ => None,
    });
    let mut cells = Vec::new();
    for (stitch, colour) in stitches.zip(&way.colours) {
        if stitch.colour != *colour {
            cells.extend(stitch.columns.iter().map(|c| (*c, *colour)));
        }
    }
    cells.sort_unstable();
    Some(Eased {
        cells,
        exact: way.exact,
    })
}

/// The smallest longest float that the row can be tamed to. Terminates: no float of any row passes all its stitches.
pub(super) fn smallest(strip: &Strip, from: usize, steps: &mut Steps) -> usize {
    let all = strip.lead.len() + 2 * strip.repeat_stitches + strip.tail.len() + 1;
    let ring = strip.ends == Ends::Ring && !strip.twice;
    (from..=2 * all)
        .find(|&longest| {
            if ring {
                has_room(strip, longest)
            } else {
                ease(strip, longest, steps).is_some()
            }
        })
        .unwrap_or(2 * all)
}

fn work(stitches: &[Stitch]) -> impl Iterator<Item = Move> + '_ {
    stitches.iter().cloned().map(Move::Work)
}

fn every(colours: usize) -> Colours {
    ((1_u64 << colours) - 1) as Colours
}

/// A ring without edges: it is cut open before stitch 1, once for each set of ages that may be met there. A bound
/// from a walk that need not close says which cuts, and which ways from a cut, can still be cheapest.
fn ring(ages: &mut Ages, strip: &Strip, longest: usize, steps: &mut Steps) -> Option<(Path, Way)> {
    let (colours, n) = (strip.inks.len(), strip.repeat.len());
    if !has_room(strip, longest) {
        return None;
    }
    let path = path_of(strip);
    let count = number_of_ages(colours, longest);
    let work = count.saturating_mul(n);
    let proven = colours <= 3 || work.saturating_mul(colours) <= steps.exact;
    if work > MOST_WORK || !proven {
        return beam(ages, strip, longest, steps.good, &path);
    }
    if colours > 3 {
        steps.exact -= work * colours;
    }
    let cuts = cuts(every(colours), colours, longest.min(n - 1), None);
    let starts: Vec<State> = cuts.iter().map(|cut| ages.number(cut)).collect();
    let still = bound(ages, &strip.repeat, every(colours));
    let at = |i: usize, state: State| still.get(i).and_then(|row| row.get(state)).copied();
    let mut order: Vec<(u32, usize)> = starts
        .iter()
        .enumerate()
        .filter_map(|(i, state)| Some((at(0, *state)?, i)))
        .collect();
    order.sort_unstable();
    let lower = |i: usize, state: State| at(i, state).map_or(usize::MAX / 2, |v| v as usize);
    let mut effort = steps.effort(colours);
    let first = order.first()?.0 as usize;
    for most in first..=n {
        let mut best: Option<(Path, Way)> = None;
        for (_, cut) in order
            .iter()
            .take_while(|(least, _)| *least as usize <= most)
        {
            let path = path(cuts.get(*cut)?);
            if let Some(way) = cheapest(ages, &path, most, &mut effort, &lower) {
                keep_cheaper(&mut best, path, way);
            }
            if effort.spent {
                steps.exact = 0;
                return beam(ages, strip, longest, steps.good, &path_of(strip));
            }
        }
        if best.is_some() {
            steps.keep(&effort);
            return best;
        }
    }
    steps.keep(&effort);
    None
}

/// The path of a ring from a cut.
fn path_of(strip: &Strip) -> impl Fn(&[Age]) -> Path + '_ {
    let colours = strip.inks.len();
    move |cut: &[Age]| Path {
        colours,
        here: every(colours),
        start: cut.to_vec(),
        moves: work(&strip.repeat).collect(),
        close: Close::Same(cut.to_vec()),
    }
}

/// How many sets of ages a ring can show, at most: an order of the colours and ages that rise.
fn number_of_ages(colours: usize, longest: usize) -> usize {
    (1..colours).fold(colours, |product, i| {
        product.saturating_mul(longest.saturating_sub(i - 1).max(1))
    })
}

/// For each stitch and set of ages the fewest cells to recolour from there on, whether or not the ring closes.
fn bound(ages: &mut Ages, stitches: &[Stitch], here: Colours) -> Vec<Vec<u32>> {
    let colours = here.count_ones() as usize;
    // All ages that can follow from those numbered so far.
    let mut state = 0;
    while state < ages.len() {
        for colour in 0..colours {
            let _ = ages.after(state, colour, here);
        }
        state += 1;
    }
    let states = ages.len();
    let mut rows = vec![vec![0_u32; states]];
    for stitch in stitches.iter().rev() {
        let mut row = vec![u32::MAX / 2; states];
        for (state, least) in row.iter_mut().enumerate() {
            for colour in 0..colours {
                if stitch.locked && colour != stitch.colour {
                    continue;
                }
                let Some((next, _)) = ages.after(state, colour, here) else {
                    continue;
                };
                let rest = rows.last().and_then(|row| row.get(next)).copied();
                let here = if colour == stitch.colour {
                    0
                } else {
                    stitch.columns.len() as u32
                };
                *least = (*least).min(rest.unwrap_or(u32::MAX / 2).saturating_add(here));
            }
        }
        rows.push(row);
    }
    rows.reverse();
    rows
}

/// All sets of ages at a cut: one colour just worked, no two alike, none older than `most`; colours that are not
/// `here` between the bounds of `absent`, or unseen.
fn cuts(
    here: Colours,
    colours: usize,
    most: usize,
    absent: Option<(usize, usize)>,
) -> Vec<Vec<Age>> {
    let mut found: Vec<Vec<Age>> = vec![Vec::new()];
    for colour in 0..colours {
        let (from, to) = match (here & (1 << colour) != 0, absent) {
            (true, _) => (0, most),
            (false, Some(bounds)) => bounds,
            (false, None) => {
                found.iter_mut().for_each(|ages| ages.push(UNSEEN));
                continue;
            }
        };
        let mut longer = Vec::new();
        for ages in &found {
            for age in from..=to {
                let age = Age::try_from(age).unwrap_or(FINISHED);
                if !ages.contains(&age) {
                    let mut more = ages.clone();
                    more.push(age);
                    longer.push(more);
                }
            }
        }
        found = longer;
    }
    found.retain(|ages| ages.contains(&0));
    found
}

/// Lines, rows with edge stitches, mirrored rows. With edges each set of colours that the repeat may do without is
/// tried, and each set of ages between its two copies.
fn other(ages: &mut Ages, strip: &Strip, longest: usize, steps: &mut Steps) -> Option<(Path, Way)> {
    let colours = strip.inks.len();
    let mut best: Option<(Path, Way)> = None;
    let mut exact = steps.effort(colours);
    let mut given_up = strip.twice && colours > MOST_SETS;
    let paths = paths(strip, longest);
    let tried = paths.len();
    for path in paths {
        let most = best.as_ref().map_or(usize::MAX / 4, |(_, w)| w.cost.cells);
        if let Some(way) = cheapest(ages, &path, most, &mut exact, &|_, _| 0) {
            keep_cheaper(&mut best, path, way);
            continue;
        }
        if !exact.spent {
            continue;
        }
        // The rest of the steps is shared by what is left to try.
        given_up = true;
        let stitches = path.moves.len().max(1);
        let mut effort = Effort {
            width: (steps.good / (stitches * colours * tried)).clamp(16, 4000),
            ..Effort::ALL
        };
        if let Some(way) = cheapest(ages, &path, most, &mut effort, &|_, _| 0) {
            keep_cheaper(&mut best, path, way);
        }
    }
    if let Some((_, way)) = &mut best {
        way.exact &= !given_up;
    }
    steps.keep(&exact);
    best
}

/// Ages to try where the two copies of a repeat meet.
fn seam(
    strip: &Strip,
    longest: usize,
    here: Colours,
    (most, absent): (usize, Option<(usize, usize)>),
) -> Vec<Vec<Age>> {
    let colours = strip.inks.len();
    if colours <= MOST_SETS && number_of_ages(colours, longest) <= 20_000 {
        cuts(here, colours, most, absent)
    } else {
        drawn_cuts(strip, longest)
    }
}

fn paths(strip: &Strip, longest: usize) -> Vec<Path> {
    let colours = strip.inks.len();
    let all = every(colours);
    let old = |axis: Axis| {
        let age = longest - axis.reach(longest).min(longest);
        vec![Age::try_from(age).unwrap_or(0); colours]
    };
    let within = |axis: Axis, stitches: usize| {
        let most = axis.reach(longest).min(stitches.saturating_sub(1));
        Close::Within(Age::try_from(most).unwrap_or(FINISHED))
    };
    let (start, close) = match strip.ends {
        Ends::Ring => (Vec::new(), Close::Seen),
        Ends::Line => (vec![UNSEEN; colours], Close::Seen),
        Ends::HalfRing(first, last) => (old(first), within(last, strip.repeat.len())),
        Ends::HalfLine(last) => (vec![UNSEEN; colours], within(last, strip.repeat.len())),
    };
    if !strip.twice {
        let stitches = strip.lead.iter().chain(&strip.repeat).chain(&strip.tail);
        return vec![Path {
            colours,
            here: all,
            start,
            moves: stitches.cloned().map(Move::Work).collect(),
            close,
        }];
    }
    let mut found = Vec::new();
    let passed = 2 * strip.repeat_stitches;
    // Beyond a few colours only a repeat that has them all is tried, and few ages at its seam.
    let sets = if colours <= MOST_SETS {
        1..=all
    } else {
        all..=all
    };
    for here in sets.rev() {
        let most = longest.min(strip.repeat_stitches - 1);
        let enter = |again: Vec<Age>, absent: Absent| Move::Enter {
            again,
            absent,
            passed,
            lead: strip.lead.len(),
        };
        let leads = || work(&strip.lead);
        let repeats = || work(&strip.repeat);
        let mut add = |start: Vec<Age>, moves: Vec<Move>, close: Close| {
            found.push(Path {
                colours,
                here,
                start,
                moves,
                close,
            });
        };
        match strip.ends {
            Ends::Ring => {
                let absent = Some((passed, longest));
                for cut in seam(strip, longest, here, (most, absent)) {
                    let enter = enter(cut.clone(), Absent::Passes);
                    let moves = work(&strip.tail).chain(leads()).chain([enter]);
                    add(
                        cut.clone(),
                        moves.chain(repeats()).collect(),
                        Close::Same(cut),
                    );
                }
            }
            Ends::Line => {
                for cut in seam(strip, longest, here, (most, None)) {
                    let enter = enter(cut.clone(), Absent::Passes);
                    let moves = leads().chain([enter]).chain(repeats());
                    let moves = moves.chain([Move::Leave { ages: cut }]);
                    let moves = moves.chain(work(&strip.tail)).collect();
                    add(start.clone(), moves, Close::Seen);
                }
            }
            Ends::HalfRing(..) | Ends::HalfLine(_) => {
                let enter = enter(old(Axis::Gap), Absent::Returns);
                let moves = leads().chain([enter]).chain(repeats()).collect();
                add(start.clone(), moves, close.clone());
            }
        }
    }
    found
}

/// The longest float of the strip as it is drawn.
pub(super) fn longest(strip: &Strip) -> usize {
    let copies = if strip.twice { 2 } else { 1 };
    let repeat = std::iter::repeat_n(&strip.repeat, copies).flatten();
    let cells: Vec<usize> = strip
        .lead
        .iter()
        .chain(repeat)
        .chain(&strip.tail)
        .map(|stitch| stitch.colour)
        .collect();
    let n = cells.len();
    let rounds = if strip.ends == Ends::Ring { 2 } else { 1 };
    let mut last = vec![None; strip.inks.len()];
    let mut longest = 0;
    for i in 0..n * rounds {
        let colour = cells[i % n];
        if let Some(before) = last[colour].replace(i) {
            longest = longest.max(i - before - 1);
        }
    }
    longest
}
