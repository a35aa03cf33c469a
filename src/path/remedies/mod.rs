//! What would close a gap in a course. Every remedy is applied and the course put in order again before it is offered,
//! so that the steps it names are those that remain.

mod remedy;
mod search;
mod work;

pub use remedy::{Remedy, Stepping};

use std::cell::RefCell;

use crate::ground::bounds::REMEDY_WORK;

use crate::path::Gap;
use crate::path::StudiedCourse;
use crate::path::library::Thing;
use crate::path::remedies::search::Search;
use crate::path::remedies::work::Work;

/// What came of the search for one gap.
#[derive(Clone, Debug, Default)]
pub struct Found {
    /// The remedies, the gentlest change first.
    pub remedies: Vec<Remedy>,
    /// Whether the search ended before all was tried, for the work it would have been.
    pub cut_short: bool,
}

/// The remedies of one gap, the gentlest change first. `library` are things outside the course and charts that no
/// lesson of it uses.
#[must_use]
pub fn remedies(studied: &StudiedCourse<'_>, gap: &Gap, library: &[Thing]) -> Found {
    let Some(placed) = studied.order.placed.get(gap.place) else {
        return Found::default();
    };
    let search = Search {
        studied,
        gap,
        target: placed.index,
        before: &placed.before,
        work: Work::new(REMEDY_WORK / studied.order.gaps.len().max(1)),
        tamed: RefCell::default(),
    };
    let (closing, easing): (Vec<Remedy>, Vec<Remedy>) = search
        .needs()
        .into_iter()
        .partition(|remedy| matches!(remedy, Remedy::Needs { closes: true, .. }));
    let mut found = closing;
    let single = search.between(library);
    if single.is_empty() {
        found.extend(search.chain(library));
    }
    found.extend(single);
    found.extend(search.changed());
    found.extend(easing);
    Found {
        remedies: found,
        cut_short: search.work.is_spent(),
    }
}
