//! Catches as hands meet them: by their place in the float that is being worked past, not by their column.

use crate::rows::catches::Catch;

/// Catches of floats of one colour and length in one row, in the order of work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trap {
    /// The strand that is caught.
    pub colour: u8,
    /// Stitches of each float.
    pub of: usize,
    /// The colour that all these stitches have, if it is one.
    pub past: Option<u8>,
    /// For each float its catches: which of its stitches, from 1, in the order of work.
    pub places: Vec<Vec<usize>>,
    /// How many of these floats begin before the repeat, how many in it. The rest begin after all repeats but the last.
    pub zones: (usize, usize),
    /// Where one of these floats runs over the start of the row: the stitches of the row, from 1, on which it is caught
    /// there; if that is before the row's end, the stitch on which the first of the others is caught.
    pub first: Vec<usize>,
}

impl Trap {
    /// Whether its floats are caught at different places.
    #[must_use]
    pub fn varies(&self) -> bool {
        let first = self.places.first();
        self.places.iter().any(|places| Some(places) != first)
    }
}

/// Where a row that is worked as edge, repeat, repeat, edge is divided: stitches of either edge, in drawn order.
/// Everything else is repeated alike.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Edges {
    /// Stitches before the repeats.
    pub right: usize,
    /// Stitches after them.
    pub left: usize,
}

/// The catches of a row with these cells, in the order of work; `backwards`: from its last stitch to its first. `edges`
/// of a row that has some.
#[must_use]
pub fn traps(plan: &[Catch], cells: &[u8], edges: Option<Edges>, backwards: bool) -> Vec<Trap> {
    let mut plan: Vec<&Catch> = plan.iter().collect();
    let length = cells.len().max(1);
    // Where the float begins in the order of work.
    let begins = |catch: &Catch| {
        if backwards {
            length - 1 - (catch.from + catch.of + length - 1) % length
        } else {
            catch.from % length
        }
    };
    let place = |catch: &Catch| {
        if backwards {
            catch.of - catch.place
        } else {
            catch.place + 1
        }
    };
    // Of a row without edges all is one repeat.
    let zone = |begins: usize| match edges {
        None => 1,
        Some(Edges { right, left }) => {
            let first = if backwards { left } else { right };
            let repeat = length.saturating_sub(right + left) / 2;
            usize::from(begins >= first) + usize::from(begins >= first + repeat)
        }
    };
    plan.sort_by_key(|catch| (begins(catch), catch.colour, place(catch)));
    // A float that ends beyond the row's last stitch is met at the row's start.
    let opens = |catch: &Catch| begins(catch) + catch.of > length;
    let stitch = |catch: &Catch| {
        if backwards {
            length - catch.at
        } else {
            catch.at + 1
        }
    };
    // The catches of each trap.
    let mut met: Vec<Vec<&Catch>> = Vec::new();
    let mut traps: Vec<Trap> = Vec::new();
    let mut last: Option<(usize, u8)> = None;
    for catch in plan {
        let float = (catch.from, catch.colour);
        let mut passed = (0..catch.of).filter_map(|i| cells.get((catch.from + i) % length));
        let first = passed.next().copied();
        let past = first.filter(|first| passed.all(|cell| cell == first));
        let like =
            |trap: &Trap| (trap.colour, trap.of, trap.past) == (catch.colour, catch.of, past);
        let at = place(catch);
        let known = traps.iter().position(like).unwrap_or_else(|| {
            traps.push(Trap {
                colour: catch.colour,
                of: catch.of,
                past,
                places: Vec::new(),
                zones: (0, 0),
                first: Vec::new(),
            });
            met.push(Vec::new());
            traps.len() - 1
        });
        let Some(trap) = traps.get_mut(known) else {
            continue;
        };
        if let Some(met) = met.get_mut(known) {
            met.push(catch);
        }
        match trap.places.last_mut() {
            Some(places) if last == Some(float) => places.push(at),
            _ => {
                trap.places.push(vec![at]);
                match zone(begins(catch)) {
                    0 => trap.zones.0 += 1,
                    1 => trap.zones.1 += 1,
                    _ => {}
                }
            }
        }
        last = Some(float);
    }
    for (trap, met) in traps.iter_mut().zip(met) {
        let (over, others): (Vec<&Catch>, Vec<&Catch>) =
            met.into_iter().partition(|catch| opens(catch));
        let opening = over.iter().filter(|catch| stitch(catch) <= begins(catch));
        trap.first = opening.map(|catch| stitch(catch)).collect();
        trap.first.sort_unstable();
        if trap.first.is_empty() && !over.is_empty() {
            let each = over.iter().chain(&others);
            trap.first = each.map(|catch| stitch(catch)).min().into_iter().collect();
        }
    }
    traps
}
