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
    /// Stands beside this slice and those after it, until one that clears; on the page where this slice stands.
    pub(in crate::page::pdf) side: Option<Box<Slice>>,
    /// Nothing stands beside what follows.
    pub(in crate::page::pdf) clear: bool,
    /// Its page has neither running head nor foot.
    pub(in crate::page::pdf) bare: bool,
    /// Stands again at the head of a page that begins with this slice.
    pub(in crate::page::pdf) repeat_head: Option<Box<Slice>>,
}

impl Slice {
    /// Adds another slice's content at a place.
    pub(super) fn absorb(&mut self, other: &Slice, x: f64, y: f64) {
        self.items.extend(other.items.iter().map(|item| Item {
            mark: moved(&item.mark, x, y),
            node: item.node,
        }));
        for link in &other.links {
            let (x0, y0, x1, y1) = link.area;
            self.links.push(LinkArea {
                area: (x0 + x, y0 + y, x1 + x, y1 + y),
                ..link.clone()
            });
        }
        self.headings.extend(&other.headings);
    }

    pub(super) fn mark(&mut self, mark: PageMark, node: Option<usize>) {
        self.items.push(Item { mark, node });
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
