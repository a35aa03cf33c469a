//! A piece of a column that is never cut.

use crate::page::pdf::frame::{Item, LinkArea, PageMark, moved};

/// A piece of a column, in millimetres from its own top left corner.
#[derive(Clone, Debug, Default)]
pub(in crate::page::pdf) struct Slice {
    pub(in crate::page::pdf) height: f64,
    /// Space above, dropped at the head of a page.
    pub(in crate::page::pdf) gap: f64,
    /// Stays on the page of the next slice.
    pub(in crate::page::pdf) keep: bool,
    /// Begins a page, unless more than so many millimetres are left.
    pub(in crate::page::pdf) new_page: Option<f64>,
    pub(in crate::page::pdf) items: Vec<Item>,
    pub(in crate::page::pdf) links: Vec<LinkArea>,
    /// Headings in it, for bookmarks.
    pub(in crate::page::pdf) headings: Vec<usize>,
    /// Groups that may stand beside this slice and those after it, until one that clears, from page to page.
    pub(in crate::page::pdf) side: Vec<Slice>,
    /// Not a slice of its own: one of these stands in its place, the first that fits.
    pub(in crate::page::pdf) ways: Vec<Way>,
    /// Nothing stands beside what follows.
    pub(in crate::page::pdf) clear: bool,
    /// Of each group that may stand beside the slices before this one: how it is set below them, if it is not beside.
    pub(in crate::page::pdf) below: Vec<Vec<Slice>>,
    /// Its page has neither running head nor foot.
    pub(in crate::page::pdf) bare: bool,
    /// Stands again at the head of a page that begins with this slice.
    pub(in crate::page::pdf) repeat_head: Option<Box<Slice>>,
}

/// One way of setting something that can be set in several.
#[derive(Clone, Debug)]
pub(in crate::page::pdf) struct Way {
    pub(in crate::page::pdf) slices: Vec<Slice>,
    /// What is read with it, on the same page or one that faces it.
    pub(in crate::page::pdf) after: Vec<Slice>,
    /// What follows, wherever.
    pub(in crate::page::pdf) rest: Vec<Slice>,
    /// How good it is beside the others: how large.
    pub(in crate::page::pdf) worth: f64,
    /// Whether a smaller one may be taken where that saves a page.
    pub(in crate::page::pdf) shrinks: bool,
}

impl Way {
    /// Its height, without the space above.
    pub(in crate::page::pdf) fn height(&self) -> f64 {
        stacked_height(&self.slices)
    }
}

/// The height of slices one under the other, without the space above the first.
pub(super) fn stacked_height(slices: &[Slice]) -> f64 {
    let each = slices.iter().enumerate();
    each.map(|(i, slice)| slice.height + if i == 0 { 0.0 } else { slice.gap })
        .sum()
}

impl Slice {
    /// Adds another slice's content at a place.
    pub(super) fn absorb(&mut self, other: &Slice, x: f64, y: f64) {
        self.items.extend(other.items.iter().map(|item| Item {
            mark: moved(&item.mark, x, y),
            ..*item
        }));
        self.links
            .extend(other.links.iter().map(|link| link.moved(x, y)));
        self.headings.extend(&other.headings);
    }

    pub(super) fn mark(&mut self, mark: PageMark, node: Option<usize>) {
        let near = node;
        self.items.push(Item { mark, node, near });
    }

    /// Furniture that is drawn with a node's content.
    pub(super) fn mark_near(&mut self, mark: PageMark, near: Option<usize>) {
        let node = None;
        self.items.push(Item { mark, node, near });
    }
}

/// Several slices as one that is never cut.
pub(super) fn stacked(slices: &[Slice]) -> Slice {
    let mut whole = Slice::default();
    for (i, slice) in slices.iter().enumerate() {
        let y = whole.height + if i == 0 { 0.0 } else { slice.gap };
        whole.absorb(slice, 0.0, y);
        whole.height = y + slice.height;
    }
    whole.gap = slices.first().map_or(0.0, |s| s.gap);
    whole
}
