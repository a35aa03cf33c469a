//! The press: pages are written and compressed once, and bound into as many files as hold them.
//!
//! A handout and the course show the same pages but for their numbers, so the running head and foot of a page are a
//! second stream beside its content. Once written, a page is a small stream; what it was laid out from can go.
//! The only file that names flate2.

use std::collections::BTreeMap;
use std::io::Write as _;
use std::sync::Arc;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Dictionary, Object, Stream, dictionary};

use crate::page::pdf::frame::{Item, LinkArea, Mark, Node, Tree};
use crate::page::pdf::paginate::{Document, Placed, furniture_of};
use crate::page::pdf::promises;
use crate::page::pdf::sheet::Sheet;
use crate::page::pdf::tags::finish;
use crate::page::pdf::text::Typesetter;
use crate::page::pdf::write::{
    Content, FontObjects, Glyphs, Leaf, Meta, contents, font_name_of, fonts, pt,
};

/// How hard content is compressed: a third of the time that the hardest takes, for some per cent more bytes.
const LEVEL: u32 = 4;

/// Something written: a stream, and the nodes of its marked content.
#[derive(Debug)]
struct Plate {
    stream: Stream,
    nodes: Vec<usize>,
}

/// A page that is written.
#[derive(Clone, Debug)]
pub(super) struct Page {
    plate: Arc<Plate>,
    furniture: Arc<Plate>,
    bare: bool,
    /// Its links.
    pub(super) links: Vec<LinkArea>,
    /// Headings that begin on it: node and distance from the top.
    pub(super) headings: Vec<(usize, f64)>,
    /// What is added to the nodes of its plate: a document may stand behind others in a longer one.
    nodes_from: usize,
}

/// A document whose pages are written.
#[derive(Clone, Debug)]
pub struct Printed {
    /// Paper size in millimetres.
    pub(super) paper: (f64, f64),
    pub(super) pages: Vec<Page>,
    pub(super) tree: Tree,
    pub(super) sections: Vec<Placed>,
    /// Promises that it would break as a tagged document.
    pub(super) broken: Vec<String>,
    /// The glyphs that it uses.
    glyphs: Glyphs,
}

impl Printed {
    /// How many pages it has.
    #[must_use]
    pub fn pages(&self) -> usize {
        self.pages.len()
    }

    /// Writes the pages of a document.
    #[must_use]
    pub fn of(document: Document) -> Self {
        let broken = promises::broken(&document);
        let nodes = &document.tree.nodes;
        let items: Vec<&[Item]> = document.pages.iter().map(|p| p.items.as_slice()).collect();
        let mut glyphs = Glyphs::new();
        let plates = plates(&items, nodes, document.paper, &mut glyphs);
        let marks = document.pages.iter().map(|page| page.furniture.as_slice());
        let marks: Vec<&[Mark]> = marks.collect();
        let furniture = furniture_plates(&marks, document.paper, &mut glyphs);
        let pages = document
            .pages
            .into_iter()
            .zip(plates.into_iter().zip(furniture));
        let pages = pages.map(|(page, (plate, furniture))| Page {
            plate: Arc::new(plate),
            furniture: Arc::new(furniture),
            bare: page.bare,
            links: page.links,
            headings: page.headings,
            nodes_from: 0,
        });
        Self {
            pages: pages.collect(),
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
                .extend(document.sections.iter().map(|placed| Placed {
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
        let marks: Vec<&[Mark]> = marks.iter().map(Vec::as_slice).collect();
        let plates = furniture_plates(&marks, whole.paper, &mut whole.glyphs);
        for (page, plate) in whole.pages.iter_mut().zip(plates) {
            page.furniture = Arc::new(plate);
        }
        whole
    }
}

/// Adds glyphs to others.
fn gather(all: &mut Glyphs, more: &Glyphs) {
    for (face, glyphs) in more {
        let known = all.entry(*face).or_default();
        for (id, glyph) in glyphs {
            known.entry(*id).or_insert_with(|| glyph.clone());
        }
    }
}

/// Writes pages, and notes the glyphs that they use.
fn plates(pages: &[&[Item]], nodes: &[Node], paper: (f64, f64), glyphs: &mut Glyphs) -> Vec<Plate> {
    for item in pages.iter().copied().flatten() {
        if let Mark::Run(run) = &item.mark {
            let known = glyphs.entry(run.face).or_default();
            for glyph in run.glyphs.iter() {
                known.entry(glyph.id).or_insert_with(|| glyph.clone());
            }
        }
    }
    let leaves: Vec<Leaf<'_>> = pages.iter().map(|items| Leaf { items, nodes }).collect();
    let plate = |content: Content| {
        let mut stream = Stream::new(Dictionary::new(), content.bytes);
        deflate(&mut stream);
        Plate {
            stream,
            nodes: content.nodes,
        }
    };
    contents(&leaves, paper).into_iter().map(plate).collect()
}

/// Running heads and feet: artifacts, which no structure names.
fn furniture_plates(pages: &[&[Mark]], paper: (f64, f64), glyphs: &mut Glyphs) -> Vec<Plate> {
    let items: Vec<Vec<Item>> = pages
        .iter()
        .map(|marks| {
            let marks = marks.iter().cloned();
            marks.map(|mark| Item { mark, node: None }).collect()
        })
        .collect();
    let items: Vec<&[Item]> = items.iter().map(Vec::as_slice).collect();
    plates(&items, &[], paper, glyphs)
}

/// The faces of a pack, cut down to the glyphs of all its pages, and the files bound with them.
pub struct Binder {
    fonts: BTreeMap<String, FontObjects>,
    /// The highest number of an object of the fonts.
    last: u32,
}

/// A file that is bound.
pub struct Bound(pub(super) lopdf::Document);

impl Binder {
    /// For these documents.
    #[must_use]
    pub fn new(documents: &[&Printed]) -> Self {
        let mut all = Glyphs::new();
        for document in documents {
            gather(&mut all, &document.glyphs);
        }
        let (fonts, last) = fonts(&all);
        Self { fonts, last }
    }

    /// Binds a document.
    #[must_use]
    pub fn bind(&self, document: &Printed, meta: &Meta) -> Bound {
        let mut file = lopdf::Document::with_version("1.7");
        file.max_id = self.last;
        let tree = file.new_object_id();
        let mut marked = Vec::with_capacity(document.pages.len());
        let mut kids = Vec::with_capacity(document.pages.len());
        let fonts = self.fonts_of(document, &mut file);
        let resources = file.add_object(dictionary! { "Font" => fonts });
        let (width, height) = document.paper;
        let media: Vec<Object> = [0.0, 0.0, width, height]
            .iter()
            .map(|mm| pt(*mm).into())
            .collect();
        for page in &document.pages {
            let nodes = page.plate.nodes.iter();
            marked.push(nodes.map(|node| node + page.nodes_from).collect());
            let streams: Vec<Object> = [&page.plate, &page.furniture]
                .into_iter()
                .map(|plate| file.add_object(plate.stream.clone()).into())
                .collect();
            let page = dictionary! {
                "Type" => "Page",
                "Parent" => tree,
                "MediaBox" => media.clone(),
                "Contents" => streams,
                "Resources" => resources,
            };
            kids.push(Object::Reference(file.add_object(page)));
        }
        let count = i64::try_from(kids.len()).unwrap_or(0);
        let root = dictionary! { "Type" => "Pages", "Kids" => kids, "Count" => count };
        file.objects.insert(tree, root.into());
        let catalog = file.add_object(dictionary! { "Type" => "Catalog", "Pages" => tree });
        file.trailer.set("Root", catalog);
        finish(&mut file, document, meta, &marked);
        Bound(file)
    }

    /// Puts the fonts that a document uses into its file: their resource names.
    fn fonts_of(&self, document: &Printed, file: &mut lopdf::Document) -> Dictionary {
        let mut dict = Dictionary::new();
        for name in document.glyphs.keys().map(|face| font_name_of(*face)) {
            let objects = self.fonts.get(&name).map(Vec::as_slice).unwrap_or_default();
            if let Some((font, _)) = objects.first() {
                dict.set(name, Object::Reference(*font));
            }
            file.objects.extend(objects.iter().cloned());
        }
        dict
    }
}

impl Bound {
    /// The bytes of the file.
    #[must_use]
    pub fn bytes(&mut self) -> Vec<u8> {
        let mut out = Vec::new();
        // Writing into memory cannot fail.
        let _ = self.0.save_to(&mut out);
        // A whole pack is held until it is written: what a vector has room for beyond its end would add up.
        out.shrink_to_fit();
        out
    }
}

/// Compresses a stream that is not yet compressed.
pub(super) fn deflate(stream: &mut Stream) {
    if stream.dict.has(b"Filter") || !stream.allows_compression {
        return;
    }
    let Some(compressed) = zlib(&stream.content, LEVEL) else {
        return;
    };
    if compressed.len() + 19 < stream.content.len() {
        stream.dict.set("Filter", "FlateDecode");
        stream.set_content(compressed.into_boxed_slice().into_vec());
    }
}

/// Bytes compressed as zlib does, at a level from 0 to 9.
pub(in crate::page) fn zlib(bytes: &[u8], level: u32) -> Option<Vec<u8>> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(level));
    // Writing into memory cannot fail.
    encoder.write_all(bytes).ok()?;
    encoder.finish().ok()
}
