//! The press: pages are written and compressed once, and bound into as many files as hold them.
//!
//! A handout and the course show the same pages but for their numbers, so the running head and foot of a page are a
//! second stream beside its content. Once written, a page is a small stream; what it was laid out from can go.
//! The only file that names flate2.

use std::sync::Arc;

use lopdf::{Dictionary, Stream};

use crate::page::pdf::deflate::deflate;

use crate::page::pdf::frame::{Item, LinkArea, Node, PageMark, Tree};
use crate::page::pdf::paginate::{Document, PlacedSection, furniture_of};
use crate::page::pdf::promises;
use crate::page::pdf::sheet::Sheet;
use crate::page::pdf::text::Typesetter;
use crate::page::pdf::write::{Glyphs, Leaf, content};

/// Something written: a stream, and the nodes of its marked content.
#[derive(Debug)]
pub(super) struct Plate {
    pub(super) stream: Stream,
    pub(super) nodes: Vec<usize>,
}

/// A page that is written.
#[derive(Clone, Debug)]
pub(super) struct Page {
    pub(super) plate: Arc<Plate>,
    pub(super) furniture: Arc<Plate>,
    bare: bool,
    /// Its links.
    pub(super) links: Vec<LinkArea>,
    /// Headings that begin on it: node and distance from the top.
    pub(super) headings: Vec<(usize, f64)>,
    /// What is added to the nodes of its plate: a document may stand behind others in a longer one.
    pub(super) nodes_from: usize,
}

/// A document whose pages are written.
#[derive(Clone, Debug)]
pub struct Printed {
    /// Paper size in millimetres.
    pub(super) paper: (f64, f64),
    pub(super) pages: Vec<Page>,
    pub(super) tree: Tree,
    pub(super) sections: Vec<PlacedSection>,
    /// Promises that it would break as a tagged document.
    pub(super) broken: Vec<String>,
    /// The glyphs that it uses.
    pub(super) glyphs: Glyphs,
}

impl Printed {
    /// How many pages it has.
    #[must_use]
    pub fn pages(&self) -> usize {
        self.pages.len()
    }

    /// Writes the pages of a document.
    #[must_use]
    pub fn of(mut document: Document) -> Self {
        let broken = promises::broken(&document);
        let frames = std::mem::take(&mut document.pages);
        let mut typesetter = Typesetter::default();
        let nodes = &document.tree.nodes;
        let height = document.paper.1;
        let mut glyphs = Glyphs::new();
        // A page's drawings are taken apart and its marks written before those of the next.
        let pages = frames.into_iter().map(|page| {
            let items = document.marks(page.items, &mut typesetter);
            let plate = plate(&items, nodes, height, &mut glyphs);
            let furniture = furniture_plate(page.furniture, height, &mut glyphs);
            Page {
                plate: Arc::new(plate),
                furniture: Arc::new(furniture),
                bare: page.bare,
                links: page.links,
                headings: page.headings,
                nodes_from: 0,
            }
        });
        let pages: Vec<Page> = pages.collect();
        Self {
            pages,
            paper: document.paper,
            tree: document.tree,
            sections: document.sections,
            broken,
            glyphs,
        }
    }

    /// Documents one after the other as one, their pages numbered through.
    #[must_use]
    pub fn join(documents: &[&Self], sheet: Sheet) -> Self {
        let mut whole = Self {
            paper: sheet.geometry().0,
            pages: Vec::new(),
            tree: Tree::default(),
            sections: Vec::new(),
            broken: Vec::new(),
            glyphs: Glyphs::new(),
        };
        for document in documents {
            let (pages, nodes) = (whole.pages.len(), whole.tree.nodes.len() - 1);
            let moved = |node: usize| if node == 0 { 0 } else { node + nodes };
            let tree = document.tree.nodes.iter().skip(1).map(|node| Node {
                parent: moved(node.parent),
                ..node.clone()
            });
            whole.tree.nodes.extend(tree);
            whole.broken.extend(document.broken.iter().cloned());
            gather(&mut whole.glyphs, &document.glyphs);
            whole
                .sections
                .extend(document.sections.iter().map(|placed| PlacedSection {
                    node: moved(placed.node),
                    first: placed.first + pages,
                    ..placed.clone()
                }));
            whole.pages.extend(document.pages.iter().map(|page| {
                let links = page.links.iter().map(|link| LinkArea {
                    node: moved(link.node),
                    ..link.clone()
                });
                Page {
                    links: links.collect(),
                    headings: page.headings.iter().map(|(n, y)| (moved(*n), *y)).collect(),
                    nodes_from: page.nodes_from + nodes,
                    ..page.clone()
                }
            }));
        }
        let bare: Vec<bool> = whole.pages.iter().map(|page| page.bare).collect();
        let typesetter = &mut Typesetter::default();
        let marks = furniture_of(&whole.sections, &bare, sheet, typesetter);
        let height = whole.paper.1;
        for (page, marks) in whole.pages.iter_mut().zip(marks) {
            let plate = furniture_plate(marks, height, &mut whole.glyphs);
            page.furniture = Arc::new(plate);
        }
        whole
    }
}

/// Adds glyphs to others.
pub(super) fn gather(all: &mut Glyphs, more: &Glyphs) {
    for (face, glyphs) in more {
        let known = all.entry(*face).or_default();
        for (id, glyph) in glyphs {
            known.entry(*id).or_insert_with(|| glyph.clone());
        }
    }
}

/// Writes a page, and notes the glyphs that it uses.
fn plate(items: &[Item], nodes: &[Node], height: f64, glyphs: &mut Glyphs) -> Plate {
    for item in items {
        if let PageMark::Run(run) = &item.mark {
            let known = glyphs.entry(run.face).or_default();
            for glyph in run.glyphs.iter() {
                known.entry(glyph.id).or_insert_with(|| glyph.clone());
            }
        }
    }
    let content = content(&Leaf { items, nodes }, height);
    let mut stream = Stream::new(Dictionary::new(), content.bytes);
    deflate(&mut stream);
    Plate {
        stream,
        nodes: content.nodes,
    }
}

/// A running head and foot: artifacts, which no structure names.
fn furniture_plate(marks: Vec<PageMark>, height: f64, glyphs: &mut Glyphs) -> Plate {
    let item = |mark| Item {
        mark,
        node: None,
        near: None,
    };
    let items: Vec<Item> = marks.into_iter().map(item).collect();
    plate(&items, &[], height, glyphs)
}
