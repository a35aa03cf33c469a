//! Rows of many colours: good ways where the best cannot be proven.

use crate::rows::tame::ages::{Age, Ages, FINISHED};
use crate::rows::tame::eased::{Eased, has_room, keep_cheaper};
use crate::rows::tame::path::{Effort, Path, Way, cheapest};
use crate::rows::tame::strip::{Ends, Strip};

/// Cuts that are tried.
const MOST_CUTS: usize = 24;

/// Too large to prove: a few cuts, and from each as many ways as `steps` allow; the best found.
pub(super) fn beam(
    ages: &mut Ages,
    strip: &Strip,
    longest: usize,
    steps: usize,
    path: &dyn Fn(&[Age]) -> Path,
) -> Option<(Path, Way)> {
    let (colours, n) = (strip.inks.len(), strip.repeat.len());
    let mut best: Option<(Path, Way)> = None;
    let cuts = drawn_cuts(strip, longest);
    for cut in &cuts {
        let path = path(cut);
        let most = best.as_ref().map_or(usize::MAX / 4, |(_, w)| w.cost.cells);
        let width = steps / (n * colours * cuts.len()).max(1);
        let mut effort = Effort {
            width: width.clamp(16, 4000),
            ..Effort::ALL
        };
        if let Some(mut way) = cheapest(ages, &path, most, &mut effort, &|_, _| 0) {
            way.exact = false;
            keep_cheaper(&mut best, path, way);
        }
    }
    best
}

/// Sets of ages near those that the drawn row has at its cut: the colours in the order of their last stitches, as young
/// as can be, or spread up to the longest float, or between.
pub(super) fn drawn_cuts(strip: &Strip, longest: usize) -> Vec<Vec<Age>> {
    let colours = strip.inks.len();
    let last = |colour: usize| strip.repeat.iter().rev().position(|s| s.colour == colour);
    let mut order: Vec<usize> = (0..colours).collect();
    order.sort_by_key(|colour| last(*colour).unwrap_or(usize::MAX));
    let most = longest.min(strip.repeat.len().saturating_sub(1));
    let mut found: Vec<Vec<Age>> = Vec::new();
    for share in 0..MOST_CUTS {
        let mut cut = vec![0; colours];
        for (rank, colour) in order.iter().enumerate() {
            let room = most.saturating_sub(colours - 1);
            let spread = rank * room * share / ((MOST_CUTS - 1) * (colours - 1).max(1));
            if let Some(age) = cut.get_mut(*colour) {
                *age = Age::try_from(rank + spread).unwrap_or(FINISHED - 1);
            }
        }
        if !found.contains(&cut) {
            found.push(cut);
        }
    }
    found
}

/// A way that always works where a ring has room, for rows of so many colours that no search found one: equal blocks that
/// begin with all colours in turn, at the place where that changes least.
pub(super) fn blocks(strip: &Strip, longest: usize) -> Option<Eased> {
    let (colours, n) = (strip.inks.len(), strip.repeat.len());
    let whole = matches!(strip.ends, Ends::Ring | Ends::Line) && !strip.twice;
    let locked = strip.repeat.iter().any(|stitch| stitch.locked);
    if colours <= 3 || !whole || locked || !has_room(strip, longest) {
        return None;
    }
    let number = n.div_ceil(longest + 1);
    let colour_at = |i: usize, turn: usize| {
        let at = (i + turn) % n;
        // The block that holds this place, and how far into it.
        let block = at * number / n;
        let start = (block * n).div_ceil(number);
        (at - start < colours).then_some(at - start)
    };
    let changed = |turn: usize| -> Vec<(usize, usize)> {
        let each = strip.repeat.iter().enumerate();
        each.filter_map(|(i, stitch)| {
            let colour = colour_at(i, turn).filter(|colour| *colour != stitch.colour)?;
            Some((*stitch.columns.first()?, colour))
        })
        .collect()
    };
    let mut cells = (0..n).map(changed).min_by_key(Vec::len)?;
    cells.sort_unstable();
    Some(Eased {
        cells,
        exact: false,
    })
}
