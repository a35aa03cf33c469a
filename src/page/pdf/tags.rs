//! What a PDF says about itself: structure, bookmarks, links, properties, fixed identifiers.

use lopdf::{Dictionary, Object, StringFormat, dictionary};
use sha2::{Digest, Sha256};

use crate::page::pdf::frame::Role;
use crate::page::pdf::printed::Printed;
use crate::page::pdf::structure::{Marked, structure, text};
use crate::page::pdf::text::pt;
use crate::page::pdf::write::Meta;

/// Structure, bookmarks, links, properties, fixed ids.
pub(super) fn finish(file: &mut lopdf::Document, document: &Printed, meta: &Meta, marked: &Marked) {
    let pages: Vec<lopdf::ObjectId> = file.get_pages().into_values().collect();
    let structure = structure(file, document, marked, &pages);
    let outlines = outlines(file, document, &pages);
    // The claim of ISO 14289-1 is made only where our own checks of the frames find nothing.
    let keeps = document.broken.is_empty() && !meta.title.trim().is_empty();
    let claim = if keeps {
        "<pdfuaid:part>1</pdfuaid:part>"
    } else {
        ""
    };
    let xmp = format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?><x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\
         <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\"><rdf:Description rdf:about=\"\" \
         xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\">{claim}<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li>\
         </rdf:Alt></dc:title></rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end=\"r\"?>",
        crate::page::svg::escape(&meta.title)
    );
    let metadata = dictionary! { "Type" => "Metadata", "Subtype" => "XML" };
    let metadata =
        file.add_object(lopdf::Stream::new(metadata, xmp.into_bytes()).with_compression(false));
    if let Ok(catalog) = file.catalog_mut() {
        catalog.set("Lang", Object::string_literal("en"));
        catalog.set("MarkInfo", dictionary! { "Marked" => true });
        catalog.set(
            "ViewerPreferences",
            dictionary! { "DisplayDocTitle" => true },
        );
        catalog.set("PageMode", Object::Name(b"UseOutlines".to_vec()));
        catalog.set("StructTreeRoot", Object::Reference(structure));
        catalog.set("Outlines", Object::Reference(outlines));
        catalog.set("Metadata", Object::Reference(metadata));
    }
    let info = dictionary! {
        "Title" => text(&meta.title),
        "Author" => text(&meta.author),
        "Producer" => text("Yokeward"),
    };
    let info = file.add_object(info);
    file.trailer.set("Info", Object::Reference(info));
    let id = Object::String(identity(document, meta), StringFormat::Hexadecimal);
    file.trailer.set("ID", vec![id.clone(), id]);
}

/// The identity of a file comes from what it holds (ISO 32000-1, 14.4): its title and all that its pages paint.
fn identity(document: &Printed, meta: &Meta) -> Vec<u8> {
    let mut digest = Sha256::new();
    digest.update(meta.title.as_bytes());
    for page in &document.pages {
        digest.update(&page.plate.stream.content);
        digest.update(&page.furniture.stream.content);
    }
    digest.finalize().to_vec()
}

/// Bookmarks: sections, and in each its headings of the first two levels.
fn outlines(
    file: &mut lopdf::Document,
    document: &Printed,
    pages: &[lopdf::ObjectId],
) -> lopdf::ObjectId {
    let root = file.new_object_id();
    let place = |page: usize, y: f64| {
        let top = pt(document.paper.1 - y);
        pages.get(page).map(|id| {
            vec![
                Object::Reference(*id),
                Object::Name(b"XYZ".to_vec()),
                Object::Null,
                Object::Real(top),
                Object::Null,
            ]
        })
    };
    let mut sections = Vec::new();
    for (i, placed) in document.sections.iter().enumerate() {
        let (title, first) = (&placed.title, placed.first);
        let end = document
            .sections
            .get(i + 1)
            .map_or(document.pages.len(), |next| next.first);
        let mut children: Vec<(String, Vec<Object>)> = Vec::new();
        for page in first..end {
            for (node, y) in document
                .pages
                .get(page)
                .map(|p| p.headings.as_slice())
                .unwrap_or_default()
            {
                let Some(heading) = document.tree.nodes.get(*node) else {
                    continue;
                };
                let listed = matches!(heading.role, Role::H1 | Role::H2);
                if let (true, Some(words), Some(dest)) = (listed, &heading.title, place(page, *y))
                    && words != title
                {
                    children.push((words.clone(), dest));
                }
            }
        }
        if let Some(dest) = place(first, 0.0) {
            sections.push((title.clone(), dest, children));
        }
    }
    let ids: Vec<lopdf::ObjectId> = sections.iter().map(|_| file.new_object_id()).collect();
    for (i, (title, dest, children)) in sections.into_iter().enumerate() {
        let child_ids: Vec<lopdf::ObjectId> =
            children.iter().map(|_| file.new_object_id()).collect();
        for (j, (title, dest)) in children.into_iter().enumerate() {
            let item = outline_item(&title, dest, ids[i], &child_ids, j);
            file.objects.insert(child_ids[j], item.into());
        }
        let mut item = outline_item(&title, dest, root, &ids, i);
        if let (Some(first), Some(last)) = (child_ids.first(), child_ids.last()) {
            item.set("First", Object::Reference(*first));
            item.set("Last", Object::Reference(*last));
            // Closed: a negative count.
            item.set("Count", -i64::try_from(child_ids.len()).unwrap_or(0));
        }
        file.objects.insert(ids[i], item.into());
    }
    let mut dict =
        dictionary! { "Type" => "Outlines", "Count" => i64::try_from(ids.len()).unwrap_or(0) };
    if let (Some(first), Some(last)) = (ids.first(), ids.last()) {
        dict.set("First", Object::Reference(*first));
        dict.set("Last", Object::Reference(*last));
    }
    file.objects.insert(root, dict.into());
    root
}

fn outline_item(
    title: &str,
    dest: Vec<Object>,
    parent: lopdf::ObjectId,
    siblings: &[lopdf::ObjectId],
    at: usize,
) -> Dictionary {
    let mut item = dictionary! { "Title" => text(title), "Dest" => dest, "Parent" => Object::Reference(parent) };
    if let Some(before) = at.checked_sub(1).and_then(|i| siblings.get(i)) {
        item.set("Prev", Object::Reference(*before));
    }
    if let Some(after) = siblings.get(at + 1) {
        item.set("Next", Object::Reference(*after));
    }
    item
}
