//! Fills pages from the first slice to the last, once a choice is made.

use std::collections::{BTreeSet, VecDeque};

use crate::page::pdf::flow::{Slice, Way};
use crate::page::pdf::frame::{Item, PageFrame, moved};

/// A page of less than this share of its height is thin: paper is not cheap, and a page half empty looks like the last.
pub(super) const THIN: f64 = 2.0 / 3.0;

/// A way is taken on this page if its cells are at least this share of those it would have overleaf.
const SMALLER: f64 = 0.75;

/// What a page came to hold: the groups that begin on it, and where its text ends.
#[derive(Clone, Debug, Default)]
pub(super) struct Filled {
    pub(super) groups: Vec<usize>,
    pub(super) end: f64,
}

/// What is chosen before pages are filled.
#[derive(Clone, Copy, Debug)]
pub(super) struct Choice {
    /// How large what may shrink is at most.
    pub(super) cap: f64,
    /// Which groups that may stand beside a column stand below it: a bit for each.
    pub(super) below: u32,
}

/// What stands beside a column, from page to page.
#[derive(Default)]
struct Beside<'a> {
    queue: VecDeque<&'a Slice>,
    /// Where the next of it begins on this page.
    y: f64,
    /// Whether any of it stands on this page.
    here: bool,
}

/// Fills pages from the first slice to the last.
pub(super) struct Filler<'a> {
    slices: &'a [Slice],
    /// A page ends before each of these groups.
    early: &'a BTreeSet<usize>,
    origin: (f64, f64),
    choice: Choice,
    /// Only tries where things would stand.
    dry: bool,
    top: f64,
    bottom: f64,
    pages: Vec<PageFrame>,
    filled: Vec<Filled>,
    y: f64,
    /// Nothing stands on this page yet.
    fresh: bool,
    beside: Beside<'a>,
    /// How often what is read with something stands overleaf.
    torn: usize,
}

/// Pages, what each holds, and how often what is read with something stands overleaf.
pub(super) type Outcome = (Vec<PageFrame>, Vec<Filled>, usize);

impl<'a> Filler<'a> {
    pub(super) fn new(
        slices: &'a [Slice],
        early: &'a BTreeSet<usize>,
        (origin, choice, dry): ((f64, f64), Choice, bool),
        (top, bottom): (f64, f64),
    ) -> Self {
        Self {
            slices,
            early,
            origin,
            choice,
            dry,
            top,
            bottom,
            pages: vec![PageFrame::default()],
            filled: vec![Filled::default()],
            y: top,
            fresh: true,
            beside: Beside::default(),
            torn: 0,
        }
    }

    pub(super) fn run(mut self) -> Outcome {
        let slices = self.slices;
        let mut index = 0;
        while index < slices.len() {
            let end = group_end(slices, index);
            let group = &slices[index..=end];
            let (rest, way) = match group.split_last() {
                Some((last, rest)) if !last.ways.is_empty() => (rest, Some(last)),
                _ => (group, None),
            };
            match way {
                None => self.group(index, group),
                Some(fitting) => {
                    self.group(index, rest);
                    self.fitting(index, fitting);
                }
            }
            index = end + 1;
        }
        self.finish_beside();
        (self.pages, self.filled, self.torn)
    }

    /// A new page, with what still stands beside the column.
    fn turn(&mut self) {
        self.note_end();
        self.pages.push(PageFrame::default());
        self.filled.push(Filled::default());
        self.y = self.top;
        self.fresh = true;
        self.beside.y = self.top;
        self.beside.here = false;
        self.put_beside();
    }

    /// Puts what stands beside the column as far as this page holds it; what is too high for it waits for the next.
    fn put_beside(&mut self) {
        let mut waiting = VecDeque::new();
        while let Some(slice) = self.beside.queue.pop_front() {
            let gap = if self.beside.here { slice.gap } else { 0.0 };
            let at = self.beside.y + gap;
            // Taller than a page: it stands there all the same.
            let first = self.beside.y <= self.top + 1e-6;
            if at + slice.height > self.bottom + 1e-6 && !first {
                waiting.push_back(slice);
                continue;
            }
            self.place(slice, at);
            self.beside.y = at + slice.height;
            self.beside.here = true;
        }
        self.beside.queue = waiting;
    }

    /// Lets all that stands beside the column end before what follows.
    fn finish_beside(&mut self) {
        while !self.beside.queue.is_empty() {
            self.turn();
            self.fresh = false;
        }
        if self.beside.here && self.beside.y > self.y {
            self.y = self.beside.y;
        }
        self.beside.here = false;
        self.note_end();
    }

    fn place(&mut self, slice: &Slice, y: f64) {
        if !self.dry {
            place(slice, y, self.origin, self.pages.last_mut());
        }
    }

    fn note_end(&mut self) {
        if let Some(page) = self.filled.last_mut() {
            page.end = self.y.max(page.end);
        }
    }

    fn group(&mut self, index: usize, group: &'a [Slice]) {
        let Some(first) = group.first() else { return };
        let breaks = first
            .new_page
            .is_some_and(|unless| unless == 0.0 || self.bottom - self.y < unless);
        let fits = self.y + needed(group, self.fresh) <= self.bottom + 1e-6;
        if (breaks || !fits || self.early.contains(&index)) && !self.fresh {
            self.turn();
            if let Some(head) = &first.repeat_head {
                self.place(head, self.y);
                self.y += head.height;
                self.fresh = false;
            }
        }
        if let Some(page) = self.filled.last_mut() {
            page.groups.push(index);
        }
        for slice in group {
            if slice.clear {
                self.finish_beside();
                for (i, group) in slice.below.iter().enumerate() {
                    if self.choice.below >> i.min(31) & 1 == 1 {
                        self.flow(group);
                    }
                }
            }
            self.slice(slice);
        }
        self.note_end();
    }

    fn slice(&mut self, slice: &'a Slice) {
        let gap = if self.fresh { 0.0 } else { slice.gap };
        // A group taller than a page breaks where it must.
        let over = self.y + gap + slice.height > self.bottom + 1e-6;
        if over && !self.fresh && self.y > self.top + 1e-6 {
            self.turn();
        }
        let gap = if self.fresh { 0.0 } else { slice.gap };
        let at = self.y + gap;
        self.place(slice, at);
        if !slice.side.is_empty() {
            let groups = slice.side.iter().enumerate();
            let stays = |i: usize| self.choice.below >> i.min(31) & 1 == 0;
            let queue = groups.filter(|(i, _)| stays(*i)).map(|(_, group)| group);
            self.beside.queue = queue.collect();
            self.beside.y = at;
            self.beside.here = false;
            self.put_beside();
        }
        self.y = at + slice.height;
        self.fresh = self.fresh && slice.height == 0.0;
    }

    /// Something that can be set in several ways: on this page in the best that fits, unless overleaf it would be
    /// clearly better and this page is full enough without it.
    fn fitting(&mut self, index: usize, slice: &'a Slice) {
        let whole = self.bottom - self.top;
        let gap = if self.fresh { 0.0 } else { slice.gap };
        // Where all are larger than that, the smallest.
        let least = slice.ways.len().saturating_sub(1);
        let allowed =
            |(i, way): &(usize, &Way)| !way.shrinks || way.worth <= self.choice.cap || *i == least;
        let fitting = |room: f64| {
            let mut ways = slice.ways.iter().enumerate().filter(allowed);
            ways.find(|(_, way)| way.height() <= room + 1e-6)
                .map(|(_, way)| way)
        };
        let (here, overleaf) = (fitting(self.bottom - self.y - gap), fitting(whole));
        let thin = self.y - self.top < whole * THIN;
        let good = |here: &Way, best: &Way| here.worth >= best.worth * SMALLER;
        let way = match (here, overleaf) {
            (Some(here), Some(best)) if good(here, best) || (thin && !self.fresh) => here,
            (_, Some(best)) => {
                if !self.fresh {
                    self.turn();
                }
                best
            }
            // Nothing fits a page: it flows.
            (_, None) => match slice.ways.last() {
                Some(way) => way,
                None => return,
            },
        };
        if let Some(page) = self.filled.last_mut() {
            page.groups.push(index);
        }
        self.flow(&way.slices);
        let from = self.pages.len();
        self.flow(&way.after);
        // Pages count from 1: an even one faces the next.
        let seen = from + usize::from(from.is_multiple_of(2));
        self.torn += usize::from(self.pages.len() > seen);
        self.flow(&way.rest);
    }

    /// Groups of slices one after the other.
    fn flow(&mut self, slices: &'a [Slice]) {
        let mut from = 0;
        while from < slices.len() {
            let end = group_end(slices, from);
            let group = &slices[from..=end];
            if self.y + needed(group, self.fresh) > self.bottom + 1e-6 && !self.fresh {
                self.turn();
            }
            for slice in group {
                self.slice(slice);
            }
            from = end + 1;
        }
        self.note_end();
    }
}

/// The last slice of a group: the first from here on that does not keep with the next.
fn group_end(slices: &[Slice], from: usize) -> usize {
    let kept = slices[from..].iter().take_while(|slice| slice.keep);
    (from + kept.count()).min(slices.len() - 1)
}

/// The height that a group takes; what stands beside it may begin overleaf.
fn needed(group: &[Slice], fresh: bool) -> f64 {
    let each = group.iter().enumerate();
    each.map(|(i, slice)| slice.height + if i == 0 && fresh { 0.0 } else { slice.gap })
        .sum()
}

fn place(slice: &Slice, y: f64, (left, top): (f64, f64), page: Option<&mut PageFrame>) {
    let Some(page) = page else { return };
    page.bare |= slice.bare;
    let (dx, dy) = (left, top + y);
    let items = &mut page.items;
    for item in &slice.items {
        items.push(Item {
            mark: moved(&item.mark, dx, dy),
            ..*item
        });
    }
    let links = slice.links.iter().map(|link| link.moved(dx, dy));
    page.links.extend(links);
    for node in &slice.headings {
        page.headings.push((*node, dy));
    }
}
