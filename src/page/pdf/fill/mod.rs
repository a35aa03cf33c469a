//! Slices to pages: what belongs together stays together, and pages are full.

mod filler;

use std::collections::BTreeSet;

use crate::page::pdf::flow::Slice;
use crate::page::pdf::frame::PageFrame;

use filler::{Choice, Filled, Filler, Outcome, THIN};

/// Where not even that can be had, a page is at least so full.
const THINNEST: f64 = 1.0 / 3.0;

/// Groups beside a column of which each may stand below it; there are no more of them.
const GROUPS: usize = 6;

/// What is kept low, the first before the second: pages, things read apart, thin pages, how much is shrunk, and how full
/// the last page is.
type Cost = (usize, usize, usize, usize, f64);

/// Places slices on as few pages as can be: what may shrink does if that saves a page, no more than it must, and what
/// may stand beside a column or below it stands where it takes less paper.
pub(super) fn fill_pages(
    slices: &[Slice],
    origin: (f64, f64),
    bounds: (f64, f64),
) -> Vec<PageFrame> {
    let ways = slices.iter().flat_map(|slice| &slice.ways);
    let sizes = ways.filter(|way| way.shrinks).map(|way| way.worth);
    let mut caps: Vec<f64> = std::iter::once(f64::MAX).chain(sizes).collect();
    caps.sort_by(|a, b| b.total_cmp(a));
    caps.dedup();
    let groups = slices.iter().map(|slice| slice.side.len()).max();
    let masks = 1_u32 << groups.unwrap_or(0).min(GROUPS);
    let whole = (bounds.1 - bounds.0) * THIN;
    let mut best: Option<(Cost, Choice)> = None;
    for (place, cap) in caps.iter().enumerate() {
        for below in 0..masks {
            let choice = Choice { cap: *cap, below };
            let (_, filled, torn) = fill_evenly(slices, choice, (origin, true), bounds);
            let last = filled.last().map_or(0.0, |page| page.end);
            let before = filled.len().saturating_sub(1);
            let thin = |page: &&Filled| page.end - bounds.0 < whole;
            let thin = filled.iter().take(before).filter(thin).count();
            let key = (filled.len(), torn, thin, place, last);
            if best.as_ref().is_none_or(|(known, _)| key < *known) {
                best = Some((key, choice));
            }
        }
    }
    let choice = best.map_or(
        Choice {
            cap: f64::MAX,
            below: 0,
        },
        |(_, choice)| choice,
    );
    fill_evenly(slices, choice, (origin, false), bounds).0
}

/// Places slices on pages, or only tries where they would stand. Where little would be left for a page before one that
/// must begin anew, the page before it ends earlier, so that both are full enough.
fn fill_evenly(
    slices: &[Slice],
    choice: Choice,
    (origin, dry): ((f64, f64), bool),
    bounds: (f64, f64),
) -> Outcome {
    let mut early = BTreeSet::new();
    let run = |early: &BTreeSet<usize>, dry: bool| {
        Filler::new(slices, early, (origin, choice, dry), bounds).run()
    };
    loop {
        let (pages, filled, torn) = run(&early, true);
        let at = earlier_break(slices, &filled, bounds, THIN)
            .or_else(|| earlier_break(slices, &filled, bounds, THINNEST));
        match at {
            // Each turn ends one page earlier at one more place, so there is an end to it.
            Some(at) if early.insert(at) => {}
            _ if dry => return (pages, filled, torn),
            _ => return run(&early, false),
        }
    }
}

/// The group at which the page before a thin one should end, so that both fill this share of a page.
fn earlier_break(
    slices: &[Slice],
    filled: &[Filled],
    (top, bottom): (f64, f64),
    share: f64,
) -> Option<usize> {
    let least = (bottom - top) * share;
    filled.windows(3).find_map(|pages| {
        let [before, thin, _] = pages else {
            return None;
        };
        let used = thin.end - top;
        let next = *thin.groups.first()?;
        if used >= least || used <= 0.0 {
            return None;
        }
        // What stands beside a column cannot be taken along, nor what fits where it is in one of several ways.
        let stands_alone = |from: usize| {
            let moved = slices.get(from..next).unwrap_or_default();
            moved
                .iter()
                .all(|slice| slice.side.is_empty() && !slice.clear && slice.ways.is_empty())
        };
        before.groups.iter().skip(1).rev().copied().find(|&from| {
            let moved = slices.get(from..next).unwrap_or_default();
            let moved: f64 = moved.iter().map(|slice| slice.gap + slice.height).sum();
            let fits = used + moved >= least && used + moved <= bottom - top;
            fits && before.end - moved - top >= least && stands_alone(from)
        })
    })
}
