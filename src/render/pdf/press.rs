//! The press of a pack: pages are written and compressed once, and bound into as many files as hold them.
//!
//! A handout and the course show the same pages but for their numbers; so the running head and foot of a page are a
//! second stream beside its content. The only file that names flate2.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Write as _;
use std::sync::Arc;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Dictionary, Object, Stream, dictionary};

use crate::render::pdf::face::Face;
use crate::render::pdf::frame::{Item, Mark, PageFrame};
use crate::render::pdf::paginate::Document;
use crate::render::pdf::tags::finish;
use crate::render::pdf::write::{
    Content, Fonts, Leaf, Meta, contents, font_file, font_name_of, pt,
};

/// How hard content is compressed: a third of the time that the hardest takes, for some per cent more bytes.
const LEVEL: u32 = 4;

/// A page's items as written: a stream, and the nodes of its marked content.
struct Plate {
    stream: Stream,
    nodes: Vec<usize>,
}

/// Fonts, and the pages that are written.
pub struct Press {
    fonts: Fonts,
    file: lopdf::Document,
    names: Dictionary,
    plates: BTreeMap<usize, Plate>,
}

/// What tells two pages apart: where their items lie. Documents that share a page share its items.
fn key(page: &PageFrame) -> usize {
    Arc::as_ptr(&page.items) as usize
}

impl Press {
    /// A press with the fonts of these documents, and no pages yet.
    #[must_use]
    pub fn new(documents: &[&Document]) -> Self {
        let pages = documents.iter().flat_map(|document| &document.pages);
        let marks = pages.flat_map(|page| {
            let own = page.items.iter().map(|item| &item.mark);
            own.chain(&page.furniture)
        });
        let fonts = Fonts::of(marks);
        let (file, names) = font_file(&fonts);
        Self {
            fonts,
            file,
            names,
            plates: BTreeMap::new(),
        }
    }

    /// The pages of these documents in stretches, each page that several share once.
    #[must_use]
    pub fn tasks<'d>(documents: &[&'d Document]) -> Vec<Task<'d>> {
        let mut seen = BTreeSet::new();
        let mut tasks: Vec<Task<'_>> = Vec::new();
        for document in documents {
            let fresh = document.pages.iter().filter(|page| seen.insert(key(page)));
            let pages: Vec<&PageFrame> = fresh.collect();
            tasks.extend(pages.chunks(PAGES).map(|pages| Task {
                document,
                pages: pages.to_vec(),
            }));
        }
        tasks
    }

    /// Writes the pages of a stretch.
    #[must_use]
    pub fn write(&self, task: &Task<'_>) -> Plates {
        let leaves: Vec<Leaf<'_>> = task
            .pages
            .iter()
            .map(|page| Leaf {
                items: &page.items,
                nodes: &task.document.tree.nodes,
                from: page.nodes_from,
            })
            .collect();
        let written = contents(&leaves, &self.fonts, task.document.paper);
        let plates = task.pages.iter().zip(written).map(|(page, content)| {
            let Content { bytes, nodes } = content;
            let stream = stream(bytes);
            (key(page), Plate { stream, nodes })
        });
        Plates(plates.collect())
    }

    /// Keeps written pages for the files that hold them.
    pub fn keep(&mut self, plates: Plates) {
        self.plates.extend(plates.0);
    }

    /// Binds a document whose pages are written.
    #[must_use]
    pub fn bind(&self, document: &Document, meta: &Meta) -> Vec<u8> {
        let mut file = self.file.clone();
        let tree = file.new_object_id();
        let mut marked = Vec::with_capacity(document.pages.len());
        let mut kids = Vec::with_capacity(document.pages.len());
        let furniture = self.furniture(document);
        let resources = file.add_object(dictionary! { "Font" => self.fonts_of(document) });
        let (width, height) = document.paper;
        let media: Vec<Object> = [0.0, 0.0, width, height]
            .iter()
            .map(|mm| pt(*mm).into())
            .collect();
        for (page, furniture) in document.pages.iter().zip(furniture) {
            let mut streams: Vec<Object> = Vec::new();
            if let Some(plate) = self.plates.get(&key(page)) {
                streams.push(file.add_object(plate.stream.clone()).into());
                marked.push(plate.nodes.iter().map(|n| n + page.nodes_from).collect());
            } else {
                marked.push(Vec::new());
            }
            streams.push(file.add_object(furniture).into());
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
        if let Ok(catalog) = file.catalog_mut() {
            catalog.set("Pages", tree);
        }
        finish(&mut file, document, meta, &marked);
        file.prune_objects();
        let mut out = Vec::new();
        // Writing into memory cannot fail.
        let _ = file.save_to(&mut out);
        out
    }

    /// The running heads and feet of a document.
    fn furniture(&self, document: &Document) -> Vec<Stream> {
        let items: Vec<Vec<Item>> = document
            .pages
            .iter()
            .map(|page| {
                let marks = page.furniture.iter().cloned();
                marks.map(|mark| Item { mark, node: None }).collect()
            })
            .collect();
        let pages: Vec<Leaf<'_>> = items
            .iter()
            .map(|items| Leaf {
                items,
                nodes: &[],
                from: 0,
            })
            .collect();
        let written = contents(&pages, &self.fonts, document.paper);
        written
            .into_iter()
            .map(|content| stream(content.bytes))
            .collect()
    }

    /// The fonts that a document uses.
    fn fonts_of(&self, document: &Document) -> Dictionary {
        let mut faces: BTreeSet<Face> = BTreeSet::new();
        for page in &document.pages {
            let marks = page
                .items
                .iter()
                .map(|item| &item.mark)
                .chain(&page.furniture);
            faces.extend(marks.filter_map(|mark| match mark {
                Mark::Run(run) => Some(run.face),
                _ => None,
            }));
        }
        let mut dict = Dictionary::new();
        for face in faces {
            let name = font_name_of(face);
            if let Ok(font) = self.names.get(name.as_bytes()) {
                dict.set(name, font.clone());
            }
        }
        dict
    }
}

/// Pages of a stretch: few enough to share the work evenly, enough to be worth the fonts' set-up.
const PAGES: usize = 12;

/// A stretch of pages to be written.
pub struct Task<'a> {
    document: &'a Document,
    pages: Vec<&'a PageFrame>,
}

/// Written pages.
pub struct Plates(Vec<(usize, Plate)>);

/// A stream, compressed if that makes it smaller.
fn stream(bytes: Vec<u8>) -> Stream {
    let mut stream = Stream::new(Dictionary::new(), bytes);
    deflate(&mut stream);
    stream
}

/// Compresses a stream that is not yet compressed.
pub(super) fn deflate(stream: &mut Stream) {
    if stream.dict.has(b"Filter") || !stream.allows_compression {
        return;
    }
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(LEVEL));
    // Writing into memory cannot fail.
    let Ok(compressed) = encoder
        .write_all(&stream.content)
        .and_then(|()| encoder.finish())
    else {
        return;
    };
    if compressed.len() + 19 < stream.content.len() {
        stream.dict.set("Filter", "FlateDecode");
        stream.set_content(compressed);
    }
}
