//! What a PDF says about itself: structure, bookmarks, links, properties, fixed identifiers.

use lopdf::{Dictionary, Object, StringFormat, dictionary};
use sha2::{Digest, Sha256};

use crate::render::pdf::frame::{Node, Role};
use crate::render::pdf::paginate::Document;
use crate::render::pdf::write::{Meta, pt};

/// A page's marked content in its order: content id → node.
pub(super) type Marked = Vec<Vec<usize>>;

pub(super) fn role_name(role: Role) -> &'static str {
    match role {
        Role::Document => "Document",
        Role::Section => "Sect",
        Role::H1 => "H1",
        Role::H2 => "H2",
        Role::H3 => "H3",
        Role::Paragraph | Role::Code => "P",
        Role::Quote => "BlockQuote",
        Role::List => "L",
        Role::ListItem => "LI",
        Role::Label => "Lbl",
        Role::ListBody => "LBody",
        Role::Table => "Table",
        Role::Row => "TR",
        Role::ColumnHead | Role::RowHead => "TH",
        Role::Data => "TD",
        Role::Figure => "Figure",
        Role::Caption => "Caption",
        Role::Link => "Link",
    }
}

/// Text of a property: UTF-16 with its mark.
fn text(words: &str) -> Object {
    let mut data = vec![0xfe, 0xff];
    data.extend(words.encode_utf16().flat_map(u16::to_be_bytes));
    Object::String(data, StringFormat::Hexadecimal)
}

/// Structure, bookmarks, links, properties, fixed ids.
pub(super) fn finish(
    file: &mut lopdf::Document,
    document: &Document,
    meta: &Meta,
    marked: &Marked,
) {
    file.version = "1.7".to_owned();
    let pages: Vec<lopdf::ObjectId> = file.get_pages().into_values().collect();
    let structure = structure(file, document, marked, &pages);
    let outlines = outlines(file, document, &pages);
    links(file, document, &pages);
    let xmp = format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?><x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\
         <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\"><rdf:Description rdf:about=\"\" \
         xmlns:dc=\"http://purl.org/dc/elements/1.1/\"><dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li>\
         </rdf:Alt></dc:title></rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end=\"r\"?>",
        crate::render::svg::escape(&meta.title)
    );
    let metadata = dictionary! { "Type" => "Metadata", "Subtype" => "XML" };
    let metadata =
        file.add_object(lopdf::Stream::new(metadata, xmp.into_bytes()).with_compression(false));
    if let Ok(catalog) = file.catalog_mut() {
        catalog.remove(b"OutputIntents");
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
    if let Ok(old) = file.trailer.get(b"Info").and_then(Object::as_reference) {
        file.objects.remove(&old);
    }
    file.trailer.set("Info", Object::Reference(info));
    let id = Object::String(
        Sha256::digest(meta.title.as_bytes()).to_vec(),
        StringFormat::Hexadecimal,
    );
    file.trailer.set("ID", vec![id.clone(), id]);
    file.compress();
}

/// The structure tree: every node with its children, then the content that carries its number, in page order.
fn structure(
    file: &mut lopdf::Document,
    document: &Document,
    marked: &Marked,
    pages: &[lopdf::ObjectId],
) -> lopdf::ObjectId {
    let root = file.new_object_id();
    let nodes = &document.tree.nodes;
    let ids: Vec<lopdf::ObjectId> = nodes.iter().map(|_| file.new_object_id()).collect();
    let mut kids: Vec<Vec<Object>> = vec![Vec::new(); nodes.len()];
    let mut parents: Vec<Object> = Vec::new();
    for (page, content) in marked.iter().enumerate() {
        let Some(page_id) = pages.get(page) else {
            continue;
        };
        for (mcid, node) in content.iter().enumerate() {
            let reference = dictionary! {
                "Type" => "MCR",
                "Pg" => Object::Reference(*page_id),
                "MCID" => i64::try_from(mcid).unwrap_or(0),
            };
            if let Some(kids) = kids.get_mut(*node) {
                kids.push(reference.into());
            }
        }
        let owners: Vec<Object> = content
            .iter()
            .filter_map(|n| ids.get(*n))
            .map(|id| Object::Reference(*id))
            .collect();
        parents.push(i64::try_from(page).unwrap_or(0).into());
        parents.push(Object::Reference(file.add_object(owners)));
        if let Ok(dict) = file.get_object_mut(*page_id).and_then(Object::as_dict_mut) {
            dict.set("StructParents", i64::try_from(page).unwrap_or(0));
            dict.set("Tabs", Object::Name(b"S".to_vec()));
        }
    }
    // Nodes without content and without children would be empty promises: they are left out, from the leaves up.
    let mut full: Vec<bool> = kids.iter().map(|k| !k.is_empty()).collect();
    for i in (1..nodes.len()).rev() {
        if full[i] {
            full[nodes[i].parent] = true;
        }
    }
    for (i, node) in nodes.iter().enumerate().skip(1) {
        if full[i] {
            let at = kids[node.parent].len();
            kids[node.parent].insert(at, Object::Reference(ids[i]));
        }
    }
    for (i, node) in nodes.iter().enumerate() {
        if full[i] || i == 0 {
            let parent = if i == 0 { root } else { ids[node.parent] };
            let dict = element(node, parent, std::mem::take(&mut kids[i]));
            file.objects.insert(ids[i], dict.into());
        }
    }
    let parent_tree = file.add_object(dictionary! { "Nums" => parents });
    let tree = dictionary! {
        "Type" => "StructTreeRoot",
        "K" => Object::Reference(ids[0]),
        "ParentTree" => Object::Reference(parent_tree),
        "ParentTreeNextKey" => i64::try_from(marked.len()).unwrap_or(0),
    };
    file.objects.insert(root, tree.into());
    root
}

fn element(node: &Node, parent: lopdf::ObjectId, kids: Vec<Object>) -> Dictionary {
    let mut dict = dictionary! {
        "Type" => "StructElem",
        "S" => Object::Name(role_name(node.role).as_bytes().to_vec()),
        "P" => Object::Reference(parent),
        "K" => kids,
    };
    if let Some(alt) = &node.alt {
        dict.set("Alt", text(alt));
    }
    let scope = match node.role {
        Role::ColumnHead => Some("Column"),
        Role::RowHead => Some("Row"),
        _ => None,
    };
    if let Some(scope) = scope {
        dict.set(
            "A",
            dictionary! { "O" => "Table", "Scope" => Object::Name(scope.as_bytes().to_vec()) },
        );
    }
    if node.role == Role::List {
        dict.set(
            "A",
            dictionary! { "O" => "List", "ListNumbering" => "None" },
        );
    }
    dict
}

/// Bookmarks: sections, and in each its headings of the first two levels.
fn outlines(
    file: &mut lopdf::Document,
    document: &Document,
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
    for (i, (title, _, first)) in document.sections.iter().enumerate() {
        let end = document
            .sections
            .get(i + 1)
            .map_or(document.pages.len(), |s| s.2);
        let mut children = Vec::new();
        for page in *first..end {
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
        if let Some(dest) = place(*first, 0.0) {
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

/// Link annotations: to an address, or within the document to a section (`#lesson-3`).
fn links(file: &mut lopdf::Document, document: &Document, pages: &[lopdf::ObjectId]) {
    for (page, frame) in document.pages.iter().enumerate() {
        let mut annotations = Vec::new();
        for link in &frame.links {
            let (x0, y0, x1, y1) = link.area;
            let bottom = document.paper.1 - y1;
            let rect: Vec<Object> = [x0, bottom, x1, document.paper.1 - y0]
                .iter()
                .map(|v| pt(*v).into())
                .collect();
            let mut dict = dictionary! {
                "Type" => "Annot",
                "Subtype" => "Link",
                "Rect" => rect,
                "Border" => vec![0.into(), 0.into(), 0.into()],
                "F" => 4,
                "Contents" => text(&link.href),
            };
            let inner = link
                .href
                .strip_prefix("#lesson-")
                .and_then(|n| n.parse::<usize>().ok());
            if let Some(section) = inner {
                let target = document.sections.get(section).and_then(|s| pages.get(s.2));
                let Some(target) = target else { continue };
                dict.set(
                    "Dest",
                    vec![Object::Reference(*target), Object::Name(b"Fit".to_vec())],
                );
            } else {
                let uri = Object::string_literal(link.href.as_str());
                dict.set("A", dictionary! { "S" => "URI", "URI" => uri });
            }
            annotations.push(Object::Reference(file.add_object(dict)));
        }
        let Some(id) = pages.get(page) else { continue };
        if let Ok(dict) = file.get_object_mut(*id).and_then(Object::as_dict_mut) {
            if annotations.is_empty() {
                dict.remove(b"Annots");
            } else {
                dict.set("Annots", annotations);
            }
        }
    }
}
