//! What would close a gap in a course. Every remedy is applied and the course put in order again before it is offered,
//! so that the steps it names are those that remain.

mod remedy;
mod search;

pub use remedy::{Remedy, Stepping};

use crate::path::Gap;
use crate::path::StudiedCourse;
use crate::path::library::Thing;
use crate::path::remedies::search::Search;

/// The remedies of one gap, the gentlest change first. `library` are things outside the course and charts that no
/// lesson of it uses.
#[must_use]
pub fn remedies(studied: &StudiedCourse<'_>, gap: &Gap, library: &[Thing]) -> Vec<Remedy> {
    let Some(placed) = studied.order.placed.get(gap.place) else {
        return Vec::new();
    };
    let search = Search {
        studied,
        gap,
        target: placed.index,
        before: &placed.before,
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
    found
}
