//! Slices to pages: what belongs together stays together, running head and foot round it.

use std::collections::BTreeSet;

use crate::page::blocks::Block;
use crate::page::pdf::flow::{Flow, Slice};
use crate::page::pdf::frame::{Item, LinkArea, PageFrame, PageMark, Role, Tree, moved};
use crate::page::pdf::sheet::{Furniture, Sheet, WIDTH, furniture};
use crate::page::pdf::text::{Run, Typesetter};
use crate::picture::{Paint, Stroke};

/// A part of a document with its own running head: a lesson, the course plan.
#[derive(Clone, Debug)]
pub struct Section {
    /// Its blocks.
    pub blocks: Vec<Block>,
    /// Running head and foot.
    pub furniture: Furniture,
    /// What the bookmark says.
    pub title: String,
}

/// A section laid out.
#[derive(Clone, Debug)]
pub struct PlacedSection {
    /// What the bookmark says.
    pub title: String,
    /// Running head and foot.
    pub furniture: Furniture,
    /// Its node in the structure.
    pub node: usize,
    /// Its first page, from 0.
    pub first: usize,
}

/// A document laid out.
#[derive(Clone, Debug)]
pub struct Document {
    /// Paper size in millimetres.
    pub paper: (f64, f64),
    /// Pages.
    pub pages: Vec<PageFrame>,
    /// Structure.
    pub tree: Tree,
    /// Its sections in order.
    pub sections: Vec<PlacedSection>,
}

/// Lays sections out, each from a new page on.
#[must_use]
pub fn lay_out(sections: &[Section], sheet: Sheet) -> Document {
    let (paper, origin) = sheet.geometry();
    let (top, bottom) = sheet.heights().text;
    let mut document = Document {
        paper,
        pages: Vec::new(),
        tree: Tree::default(),
        sections: Vec::new(),
    };
    let mut typesetter = Typesetter::default();
    for section in sections {
        let node = document.tree.add(0, Role::Section);
        let first = document.pages.len();
        let slices = {
            let mut flow = Flow::new(
                &mut typesetter,
                &mut document.tree,
                bottom - top,
                sheet.sizes(),
            );
            flow.blocks(&section.blocks, node, WIDTH)
        };
        document
            .pages
            .extend(fill_pages(&slices, origin, (top, bottom)));
        document.sections.push(PlacedSection {
            title: section.title.clone(),
            furniture: section.furniture.clone(),
            node,
            first,
        });
    }
    if sheet.black {
        let pages = document.pages.iter_mut();
        let items = pages.flat_map(|page| &mut page.items);
        items.for_each(|item| item.mark = in_black(&item.mark));
    }
    furnish(&mut document, sheet, &mut typesetter);
    document
}

/// Gives every page its running head and foot.
fn furnish(document: &mut Document, sheet: Sheet, typesetter: &mut Typesetter) {
    let bare: Vec<bool> = document.pages.iter().map(|page| page.bare).collect();
    let all = furniture_of(&document.sections, &bare, sheet, typesetter);
    for (page, marks) in document.pages.iter_mut().zip(all) {
        page.furniture = marks;
    }
}

/// The running head and foot of every page of these sections; a bare page has none.
pub(super) fn furniture_of(
    sections: &[PlacedSection],
    bare: &[bool],
    sheet: Sheet,
    typesetter: &mut Typesetter,
) -> Vec<Vec<PageMark>> {
    let origin = sheet.geometry().1;
    let mut all = vec![Vec::new(); bare.len()];
    for (i, placed) in sections.iter().enumerate() {
        let end = sections.get(i + 1).map_or(bare.len(), |next| next.first);
        let count = end - placed.first;
        for page in (placed.first..end).filter(|page| bare.get(*page) == Some(&false)) {
            let numbers = (page - placed.first + 1, count, page + 1);
            if let Some(marks) = all.get_mut(page) {
                *marks = furniture(&placed.furniture, numbers, origin, sheet, typesetter);
            }
        }
    }
    all
}

/// A mark for a printer of black only; a wash becomes a frame.
fn in_black(mark: &PageMark) -> PageMark {
    let stroke = |stroke: &Stroke| Stroke {
        paint: stroke.paint.in_black(),
        ..*stroke
    };
    match mark {
        PageMark::Run(run) => PageMark::Run(Run {
            paint: run.paint.in_black(),
            ..run.clone()
        }),
        PageMark::Fill(path, Paint::Wash) => {
            PageMark::Line(path.clone(), Stroke::new(Paint::Ink, 0.35))
        }
        PageMark::Fill(path, paint) => PageMark::Fill(path.clone(), paint.in_black()),
        PageMark::Line(path, line) => PageMark::Line(path.clone(), stroke(line)),
        PageMark::Both(path, paint, line) => {
            PageMark::Both(path.clone(), paint.in_black(), stroke(line))
        }
    }
}

/// What a page came to hold: the groups that begin on it, and where its text ends.
#[derive(Clone, Debug, Default)]
struct Filled {
    groups: Vec<usize>,
    end: f64,
}

/// Places slices on pages. Where little would be left for a page before one that must begin anew, the page before it
/// ends earlier, so that both are at least a third full.
fn fill_pages(slices: &[Slice], origin: (f64, f64), bounds: (f64, f64)) -> Vec<PageFrame> {
    let mut early = BTreeSet::new();
    loop {
        let (pages, filled) = fill(slices, &early, origin, bounds);
        match earlier_break(slices, &filled, bounds) {
            // Each turn ends one page earlier at one more place, so there is an end to it.
            Some(at) if early.insert(at) => {}
            _ => return pages,
        }
    }
}

/// The group at which the page before a thin one should end.
fn earlier_break(slices: &[Slice], filled: &[Filled], (top, bottom): (f64, f64)) -> Option<usize> {
    let third = (bottom - top) / 3.0;
    filled.windows(3).find_map(|pages| {
        let [before, thin, _] = pages else {
            return None;
        };
        let used = thin.end - top;
        let next = *thin.groups.first()?;
        if used >= third || used <= 0.0 {
            return None;
        }
        // What stands beside a column cannot be taken along.
        let stands_alone = |from: usize| {
            let moved = slices.get(from..next).unwrap_or_default();
            moved
                .iter()
                .all(|slice| slice.side.is_none() && !slice.clear)
        };
        before.groups.iter().skip(1).rev().copied().find(|&from| {
            let moved = slices.get(from..next).unwrap_or_default();
            let moved: f64 = moved.iter().map(|slice| slice.gap + slice.height).sum();
            let fits = used + moved >= third && used + moved <= bottom - top;
            fits && before.end - moved - top >= third && stands_alone(from)
        })
    })
}

/// Places slices on pages; a page ends before each group of `early`.
fn fill(
    slices: &[Slice],
    early: &BTreeSet<usize>,
    origin: (f64, f64),
    (page_top, page_bottom): (f64, f64),
) -> (Vec<PageFrame>, Vec<Filled>) {
    let mut pages = vec![PageFrame::default()];
    let mut filled = vec![Filled::default()];
    let mut y = page_top;
    let mut fresh = true;
    let mut index = 0;
    // Page and lower edge of what stands beside the column.
    let mut side_end = (usize::MAX, 0.0);
    while index < slices.len() {
        // A group runs from here to the first slice that does not keep with the next.
        let mut end = index;
        while end + 1 < slices.len() && slices[end].keep {
            end += 1;
        }
        let group = &slices[index..=end];
        let height = needed(group, fresh);
        let breaks = group
            .first()
            .and_then(|s| s.new_page)
            .is_some_and(|unless| unless == 0.0 || page_bottom - y < unless);
        let fits = y + height <= page_bottom + 1e-6;
        if (breaks || !fits || early.contains(&index)) && !fresh {
            pages.push(PageFrame::default());
            filled.push(Filled::default());
            y = page_top;
            fresh = true;
            if let Some(head) = group.first().and_then(|s| s.repeat_head.clone()) {
                place(&head, y, origin, pages.last_mut());
                y += head.height;
                fresh = false;
            }
        }
        if let Some(page) = filled.last_mut() {
            page.groups.push(index);
        }
        for slice in group {
            if slice.clear && side_end.0 == pages.len() && side_end.1 > y {
                y = side_end.1;
            }
            let gap = if fresh { 0.0 } else { slice.gap };
            // A group taller than a page breaks where it must.
            if y + gap + slice.height > page_bottom + 1e-6 && !fresh && y > page_top + 1e-6 {
                pages.push(PageFrame::default());
                filled.push(Filled::default());
                y = page_top;
                place(slice, y, origin, pages.last_mut());
                y += slice.height;
            } else {
                place(slice, y + gap, origin, pages.last_mut());
                if let Some(side) = &slice.side {
                    place(side, y + gap, origin, pages.last_mut());
                    side_end = (pages.len(), y + gap + side.height);
                }
                y += gap + slice.height;
            }
            fresh = fresh && slice.height == 0.0;
        }
        if let Some(page) = filled.last_mut() {
            page.end = y;
        }
        index = end + 1;
    }
    (pages, filled)
}

/// The height that a group takes, what stands beside its slices included.
fn needed(group: &[Slice], fresh: bool) -> f64 {
    let (mut end, mut lowest) = (0.0, 0.0_f64);
    for (i, slice) in group.iter().enumerate() {
        let top = end + if i == 0 && fresh { 0.0 } else { slice.gap };
        end = top + slice.height;
        let side = slice.side.as_ref().map_or(0.0, |side| side.height);
        lowest = lowest.max(end).max(top + side);
    }
    lowest
}

fn place(slice: &Slice, y: f64, (left, top): (f64, f64), page: Option<&mut PageFrame>) {
    let Some(page) = page else { return };
    page.bare |= slice.bare;
    let (dx, dy) = (left, top + y);
    let items = &mut page.items;
    for item in &slice.items {
        items.push(Item {
            mark: moved(&item.mark, dx, dy),
            node: item.node,
        });
    }
    for link in &slice.links {
        let (x0, y0, x1, y1) = link.area;
        page.links.push(LinkArea {
            area: (x0 + dx, y0 + dy, x1 + dx, y1 + dy),
            ..link.clone()
        });
    }
    for node in &slice.headings {
        page.headings.push((*node, dy));
    }
}
