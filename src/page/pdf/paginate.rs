//! Sections to documents: pages in reading order, running head and foot round them.

use crate::page::blocks::Block;
use crate::page::pdf::fill::fill_pages;
use crate::page::pdf::flow::{Flow, taken_apart};
use crate::page::pdf::frame::{Item, PageFrame, PageMark, Role, Tree};
use crate::page::pdf::sheet::{Furniture, Sheet, WIDTH, furniture};
use crate::page::pdf::text::Typesetter;
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
    /// Whether it is for a printer of black only.
    black: bool,
}

impl Document {
    /// With every drawing taken apart into the marks that are written.
    #[must_use]
    pub fn taken_apart(mut self) -> Self {
        let mut typesetter = Typesetter::default();
        let pages = std::mem::take(&mut self.pages);
        let pages = pages.into_iter().map(|page| PageFrame {
            items: self.marks(page.items, &mut typesetter),
            ..page
        });
        self.pages = pages.collect();
        self
    }

    /// A page's items with every drawing taken apart, as they are written.
    pub(super) fn marks(&self, items: Vec<Item>, typesetter: &mut Typesetter) -> Vec<Item> {
        let mut items = taken_apart(items, typesetter);
        if self.black {
            items.iter_mut().for_each(|item| in_black(&mut item.mark));
        }
        items
    }
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
        black: sheet.black,
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
    // What is heard is heard in the order in which it is drawn.
    let ranks = document.tree.ranks();
    for page in &mut document.pages {
        let items = std::mem::take(&mut page.items);
        page.items = in_reading_order(items, &ranks);
    }
    furnish(&mut document, sheet, &mut typesetter);
    document
}

/// Puts what is drawn into the order of its nodes; furniture stays with the node that it is near, or with what is drawn
/// after it.
fn in_reading_order(items: Vec<Item>, ranks: &[usize]) -> Vec<Item> {
    let mut next = usize::MAX;
    let mut keys: Vec<usize> = Vec::with_capacity(items.len());
    for item in items.iter().rev() {
        let own = item.node.or(item.near).and_then(|node| ranks.get(node));
        next = own.copied().unwrap_or(next);
        keys.push(next);
    }
    keys.reverse();
    let mut keyed: Vec<(usize, Item)> = keys.into_iter().zip(items).collect();
    keyed.sort_by_key(|(key, _)| *key);
    keyed.into_iter().map(|(_, item)| item).collect()
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
fn in_black(mark: &mut PageMark) {
    if let PageMark::Fill(path, Paint::Wash) = mark {
        let path = std::mem::take(path);
        *mark = PageMark::Line(path, Stroke::new(Paint::Ink, 0.35));
        return;
    }
    let (paint, stroke) = match mark {
        PageMark::Run(run) => (Some(&mut run.paint), None),
        PageMark::Fill(_, paint) => (Some(paint), None),
        PageMark::Line(_, stroke) => (None, Some(stroke)),
        PageMark::Both(_, paint, stroke) => (Some(paint), Some(stroke)),
        PageMark::Drawing(_) => (None, None),
    };
    for paint in paint
        .into_iter()
        .chain(stroke.map(|stroke| &mut stroke.paint))
    {
        *paint = paint.in_black();
    }
}
