//! The cheapest way along a row's stitches: dynamic programming over ages.

use crate::rows::tame::ages::{Age, Ages, Colours, FINISHED, State, UNSEEN};

/// A choice to be made once: a drawn cell, or a cell and its mirror image.
#[derive(Clone, Debug)]
pub(super) struct Stitch {
    /// Its colour as drawn, numbered within the row.
    pub(super) colour: usize,
    /// Drawn columns that get the colour.
    pub(super) columns: Vec<usize>,
    /// Must stay as drawn.
    pub(super) locked: bool,
}

/// One step of the way.
#[derive(Clone, Debug)]
pub(super) enum Move {
    /// Work a stitch.
    Work(Stitch),
    /// Into the repeat, which is worked twice between its edges: the second time with the ages `again`.
    Enter {
        /// Ages where the repeat is entered the second time, for colours of the repeat.
        again: Vec<Age>,
        /// What becomes of the ages of colours that are not in the repeat.
        absent: Absent,
        /// Stitches passed by those: the repeat twice.
        passed: usize,
        /// Stitches before the repeat: a colour that returns must be among them.
        lead: usize,
    },
    /// Out of the repeat: colours of it must have these ages, or the second time would not begin so.
    Leave {
        /// Ages of colours of the repeat.
        ages: Vec<Age>,
    },
}

/// How a colour passes the repeat that it has no stitch in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Absent {
    /// It floats past and goes on, or is finished with.
    Passes,
    /// It comes back at the mirror image, as long after as it was before.
    Returns,
}

/// What a finished way must hold.
#[derive(Clone, Debug)]
pub(super) enum Close {
    /// Every colour seen.
    Seen,
    /// Just these ages: the ring begins where it ends.
    Same(Vec<Age>),
    /// Colours of the repeat at most so old, for they come back at the mirror image.
    Within(Age),
}

/// A row to walk.
#[derive(Clone, Debug)]
pub(super) struct Path {
    /// How many colours the row has.
    pub(super) colours: usize,
    /// Colours that the repeat (or all of the row, without edges) may use.
    pub(super) here: Colours,
    /// Ages at the start.
    pub(super) start: Vec<Age>,
    /// Steps.
    pub(super) moves: Vec<Move>,
    /// What must hold at the end.
    pub(super) close: Close,
}

/// Cells recoloured, then the sum of squared floats, so that of equal ways the evener is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost {
    pub(super) cells: usize,
    squares: u64,
}

/// A way along a path.
#[derive(Clone, Debug)]
pub(super) struct Way {
    /// What it costs.
    pub(super) cost: Cost,
    /// The colour of each stitch, in the order of the moves.
    pub(super) colours: Vec<usize>,
    /// Whether no way was given up for want of room.
    pub(super) exact: bool,
}

/// How much may be tried.
#[derive(Clone, Copy, Debug)]
pub(super) struct Effort {
    /// Most states kept at one stitch.
    pub(super) width: usize,
    /// Steps that are left.
    pub(super) left: usize,
    /// Whether a search was given up for want of steps.
    pub(super) spent: bool,
}

impl Effort {
    /// Whatever it takes.
    pub(super) const ALL: Self = Self {
        width: usize::MAX,
        left: usize::MAX,
        spent: false,
    };
}

#[derive(Clone, Copy)]
struct Node {
    state: State,
    cost: Cost,
    from: usize,
    /// The colour worked; none for a step into or out of the repeat.
    colour: Option<usize>,
}

/// The cheapest way that recolours at most `most` cells; `None` if there is none. `still(i, state)` is a lower bound
/// of the cells still to recolour from move `i` on.
pub(super) fn cheapest(
    ages: &mut Ages,
    path: &Path,
    most: usize,
    effort: &mut Effort,
    still: &dyn Fn(usize, State) -> usize,
) -> Option<Way> {
    let every: Colours = ((1_u64 << path.colours) - 1) as Colours;
    let has_repeat = path.moves.iter().any(|m| matches!(m, Move::Enter { .. }));
    let mut here = if has_repeat { every } else { path.here };
    let mut layers: Vec<Vec<Node>> = vec![vec![Node {
        state: ages.number(&path.start),
        cost: Cost {
            cells: 0,
            squares: 0,
        },
        from: 0,
        colour: None,
    }]];
    let mut exact = true;
    let mut slots: Vec<(usize, usize)> = Vec::new();
    for (index, step) in path.moves.iter().enumerate() {
        let mut layer: Vec<Node> = Vec::new();
        let mut put = |node: Node| {
            if node.cost.cells + still(index + 1, node.state) > most {
                return;
            }
            if slots.len() <= node.state {
                slots.resize(node.state + 1, (usize::MAX, 0));
            }
            match slots.get_mut(node.state) {
                Some((stamp, place)) if *stamp == index => {
                    if let Some(old) = layer.get_mut(*place).filter(|old| node.cost < old.cost) {
                        *old = node;
                    }
                }
                Some(slot) => {
                    *slot = (index, layer.len());
                    layer.push(node);
                }
                None => {}
            }
        };
        let steps = layers.last()?.len() * path.colours;
        effort.left = effort.left.checked_sub(steps).or_else(|| {
            effort.spent = true;
            None
        })?;
        for (from, node) in layers.last()?.iter().enumerate() {
            let before = Node {
                from,
                colour: None,
                ..*node
            };
            advance(ages, path, step, here, before, &mut put);
        }
        match step {
            Move::Enter { .. } => here = path.here,
            Move::Leave { .. } => here = every,
            Move::Work(_) => {}
        }
        if layer.len() > effort.width {
            layer.sort_by_key(|node| (node.cost, node.state));
            layer.truncate(effort.width);
            exact = false;
        }
        layers.push(layer);
    }
    let closes = |node: &&Node| fits_end(ages.of(node.state), path, here);
    let best = layers
        .last()?
        .iter()
        .filter(closes)
        .min_by_key(|node| (node.cost, node.state))?;
    let (mut node, cost) = (*best, best.cost);
    let mut colours = Vec::new();
    for layer in layers.iter().rev().skip(1) {
        colours.extend(node.colour);
        node = *layer.get(node.from)?;
    }
    colours.reverse();
    Some(Way {
        cost,
        colours,
        exact,
    })
}

/// All ways that one step leads on from a node.
fn advance(
    ages: &mut Ages,
    path: &Path,
    step: &Move,
    here: Colours,
    node: Node,
    put: &mut dyn FnMut(Node),
) {
    match step {
        Move::Work(stitch) => {
            for colour in 0..path.colours {
                let same = colour == stitch.colour;
                if here & (1 << colour) == 0 || (stitch.locked && !same) {
                    continue;
                }
                let Some((state, square)) = ages.after(node.state, colour, here) else {
                    continue;
                };
                let cells = node.cost.cells + if same { 0 } else { stitch.columns.len() };
                let squares = node.cost.squares.saturating_add(square);
                put(Node {
                    state,
                    cost: Cost { cells, squares },
                    colour: Some(colour),
                    ..node
                });
            }
        }
        Move::Enter {
            again,
            absent,
            passed,
            lead,
        } => {
            let across = (*absent, *passed, *lead);
            if let Some(state) = enter(ages, node.state, path.here, again, across) {
                put(Node { state, ..node });
            }
        }
        Move::Leave { ages: wanted } => {
            let pairs = ages.of(node.state).iter().zip(wanted).enumerate();
            let mut inside = pairs.filter(|(colour, _)| path.here & (1 << colour) != 0);
            if inside.all(|(_, (a, b))| a == b) {
                put(node);
            }
        }
    }
}

/// Ages at the first stitch of the repeat, seen from both its copies: the older one asks more.
fn enter(
    ages: &mut Ages,
    state: State,
    here: Colours,
    again: &[Age],
    (absent, passed, lead): (Absent, usize, usize),
) -> Option<State> {
    let longest = ages.longest();
    let mut now: Vec<Age> = ages.of(state).to_vec();
    for (colour, (age, again)) in now.iter_mut().zip(again).enumerate() {
        let old = *age;
        if here & (1 << colour) != 0 {
            *age = match old {
                UNSEEN => *again,
                FINISHED => return None,
                old => old.max(*again),
            };
            continue;
        }
        let across = match absent {
            Absent::Passes => usize::from(old) + passed,
            Absent::Returns => 2 * usize::from(old) + passed,
        };
        *age = match (old, absent) {
            (UNSEEN, Absent::Passes) => UNSEEN,
            (FINISHED, Absent::Passes) => FINISHED,
            (UNSEEN | FINISHED, Absent::Returns) => return None,
            (old, Absent::Returns) if usize::from(old) >= lead => return None,
            _ if across <= longest => Age::try_from(across).ok()?,
            (_, Absent::Passes) if ages.may_finish() => FINISHED,
            _ => return None,
        };
    }
    Some(ages.number(&now))
}

fn fits_end(now: &[Age], path: &Path, here: Colours) -> bool {
    let each = || now.iter().enumerate();
    match &path.close {
        Close::Seen => now.iter().all(|age| *age != UNSEEN),
        Close::Same(wanted) => now == wanted.as_slice(),
        Close::Within(most) => each()
            .filter(|(colour, _)| here & (1 << colour) != 0)
            .all(|(_, age)| age <= most),
    }
}
