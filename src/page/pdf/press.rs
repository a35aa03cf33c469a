//! Binds written pages into files, with the faces that all of them use.

use std::collections::BTreeMap;

use lopdf::{Dictionary, Object, dictionary};

use crate::page::pdf::printed::{Printed, gather};
use crate::page::pdf::tags::finish;
use crate::page::pdf::text::pt;
use crate::page::pdf::write::{FontObjects, Glyphs, Meta, font_name_of, fonts};

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
