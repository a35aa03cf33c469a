//! What a search for a kinder row finds.

use crate::rows::tame::path::{Path, Way};
use crate::rows::tame::strip::Strip;

/// A row's new colours: drawn column and index into the strip's inks, only where they change.
#[derive(Clone, Debug)]
pub(super) struct Eased {
    /// What to recolour.
    pub(super) cells: Vec<(usize, usize)>,
    /// Whether fewer are proven impossible.
    pub(super) exact: bool,
}

/// Whether a ring of so many stitches has room: each colour must come at least once in every longest + 1 stitches, and
/// blocks with all colours in turn do that.
pub(super) fn has_room(strip: &Strip, longest: usize) -> bool {
    let n = strip.repeat.len();
    strip.inks.len() * n.div_ceil(longest + 1) <= n
}

pub(super) fn keep_cheaper(best: &mut Option<(Path, Way)>, path: Path, way: Way) {
    if best.as_ref().is_none_or(|(_, old)| way.cost < old.cost) {
        *best = Some((path, way));
    }
}
