//! The structure tree of a PDF: every node with its children and its content in reading order, and its links.

use lopdf::{Dictionary, Object, ObjectId, StringFormat, dictionary};

use crate::page::pdf::frame::{LinkArea, Node, Role, role_name};
use crate::page::pdf::printed::Printed;
use crate::page::pdf::text::pt;
use crate::words::labels;

/// Text of a property: UTF-16 with its mark.
pub(super) fn text(words: &str) -> Object {
    let mut data = vec![0xfe, 0xff];
    data.extend(words.encode_utf16().flat_map(u16::to_be_bytes));
    Object::String(data, StringFormat::Hexadecimal)
}

/// A page's marked content in its order: content id → node.
pub(super) type Marked = Vec<Vec<usize>>;

/// A place in the drawing order: page, and content on it.
type Order = (usize, usize);

/// The structure tree of a document. Children stand in the order of their nodes; beside content of the node itself (a
/// link in a paragraph) in the order in which they are drawn. Links are annotations that belong to their nodes.
pub(super) fn structure(
    file: &mut lopdf::Document,
    document: &Printed,
    marked: &Marked,
    pages: &[ObjectId],
) -> ObjectId {
    let root = file.new_object_id();
    let nodes = &document.tree.nodes;
    let ids: Vec<ObjectId> = nodes.iter().map(|_| file.new_object_id()).collect();
    let mut own: Vec<Vec<(Order, Kid)>> = vec![Vec::new(); nodes.len()];
    let mut parents: Vec<Object> = Vec::new();
    for (page, content) in marked.iter().enumerate() {
        let Some(page_id) = pages.get(page) else {
            continue;
        };
        for (mcid, node) in content.iter().enumerate() {
            if let Some(own) = own.get_mut(*node) {
                own.push(((page, mcid), Kid::Content));
            }
        }
        let owners: Vec<Object> = content
            .iter()
            .filter_map(|n| ids.get(*n))
            .map(|id| Object::Reference(*id))
            .collect();
        parents.push(number(page).into());
        parents.push(Object::Reference(file.add_object(owners)));
        if let Ok(dict) = file.get_object_mut(*page_id).and_then(Object::as_dict_mut) {
            dict.set("StructParents", number(page));
            dict.set("Tabs", Object::Name(b"S".to_vec()));
        }
    }
    links(file, document, pages, &ids, &mut own, &mut parents);
    // Nodes without content and without children would be empty promises: they are left out, from the leaves up.
    let mut first: Vec<Option<Order>> = own
        .iter()
        .map(|k| k.iter().map(|(o, _)| *o).min())
        .collect();
    for i in (1..nodes.len()).rev() {
        let parent = nodes[i].parent;
        first[parent] = [first[parent], first[i]].into_iter().flatten().min();
    }
    // Except the empty cells of a row: without them the row would be shorter than its head.
    for (i, node) in nodes.iter().enumerate().skip(1) {
        let is_cell = matches!(node.role, Role::ColumnHead | Role::RowHead | Role::Data);
        if is_cell && first[i].is_none() {
            first[i] = first[node.parent];
        }
    }
    let mut children: Vec<Vec<(Order, Kid)>> = vec![Vec::new(); nodes.len()];
    for (i, node) in nodes.iter().enumerate().skip(1) {
        if let Some(order) = first[i] {
            children[node.parent].push((order, Kid::Object(ids[i].into())));
        }
    }
    for (i, node) in nodes.iter().enumerate() {
        if first[i].is_none() && i > 0 {
            continue;
        }
        let parent = if i == 0 { root } else { ids[node.parent] };
        let mut kids = std::mem::take(&mut own[i]);
        let mixed = !kids.is_empty();
        kids.append(&mut children[i]);
        if mixed {
            kids.sort_by_key(|(order, _)| *order);
        }
        let dict = element(node, parent, &kids, pages);
        file.objects.insert(ids[i], dict.into());
    }
    let next = parents.len() / 2;
    let parent_tree = file.add_object(dictionary! { "Nums" => parents });
    let tree = dictionary! {
        "Type" => "StructTreeRoot",
        "K" => Object::Reference(ids[0]),
        "ParentTree" => Object::Reference(parent_tree),
        "ParentTreeNextKey" => number(next),
    };
    file.objects.insert(root, tree.into());
    root
}

fn number(value: usize) -> i64 {
    i64::try_from(value).unwrap_or(0)
}

/// Something below an element.
#[derive(Clone, Debug)]
enum Kid {
    /// Marked content where its order says.
    Content,
    /// Another element, or a link.
    Object(Object),
}

fn element(node: &Node, parent: ObjectId, kids: &[(Order, Kid)], pages: &[ObjectId]) -> Dictionary {
    // Its type may be left out, and is: a long course has a hundred thousand of these.
    let mut dict = dictionary! {
        "S" => Object::Name(role_name(node.role).as_bytes().to_vec()),
        "P" => Object::Reference(parent),
    };
    // The page of the first content is the element's own; there its content needs no more than its number.
    let first = kids.iter().find(|(_, kid)| matches!(kid, Kid::Content));
    let home = first.map(|((page, _), _)| *page);
    if let Some(page) = home.and_then(|page| pages.get(page)) {
        dict.set("Pg", *page);
    }
    let kids: Vec<Object> = kids
        .iter()
        .filter_map(|((page, mcid), kid)| match kid {
            Kid::Object(object) => Some(object.clone()),
            Kid::Content if Some(*page) == home => Some(number(*mcid).into()),
            Kid::Content => {
                let reference = dictionary! {
                    "Type" => "MCR",
                    "Pg" => Object::Reference(*pages.get(*page)?),
                    "MCID" => number(*mcid),
                };
                Some(reference.into())
            }
        })
        .collect();
    dict.set("K", kids);
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

/// Link annotations, each a child of its node after the words of the link.
fn links(
    file: &mut lopdf::Document,
    document: &Printed,
    pages: &[ObjectId],
    ids: &[ObjectId],
    own: &mut [Vec<(Order, Kid)>],
    parents: &mut Vec<Object>,
) {
    for (page, frame) in document.pages.iter().enumerate() {
        let Some(page_id) = pages.get(page) else {
            continue;
        };
        let mut annotations = Vec::new();
        for link in &frame.links {
            let Some(mut dict) = annotation(link, document, pages) else {
                continue;
            };
            let key = parents.len() / 2;
            dict.set("StructParent", number(key));
            let annotation = file.add_object(dict);
            annotations.push(Object::Reference(annotation));
            let reference = dictionary! {
                "Type" => "OBJR",
                "Pg" => Object::Reference(*page_id),
                "Obj" => Object::Reference(annotation),
            };
            if let (Some(own), Some(id)) = (own.get_mut(link.node), ids.get(link.node)) {
                own.push(((page, usize::MAX), Kid::Object(reference.into())));
                parents.push(number(key).into());
                parents.push(Object::Reference(*id));
            }
        }
        if let Ok(dict) = file.get_object_mut(*page_id).and_then(Object::as_dict_mut) {
            if annotations.is_empty() {
                dict.remove(b"Annots");
            } else {
                dict.set("Annots", annotations);
            }
        }
    }
}

/// A link to an address, or within the document to a section (`#lesson-3`); `None` where that is not in it.
fn annotation(link: &LinkArea, document: &Printed, pages: &[ObjectId]) -> Option<Dictionary> {
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
    };
    let inner = link
        .href
        .strip_prefix("#lesson-")
        .and_then(|n| n.parse::<usize>().ok());
    if let Some(section) = inner {
        let placed = document.sections.get(section)?;
        let target = pages.get(placed.first)?;
        dict.set(
            "Contents",
            text(&labels::lesson_titled(section, &placed.title)),
        );
        dict.set(
            "Dest",
            vec![Object::Reference(*target), Object::Name(b"Fit".to_vec())],
        );
    } else {
        let uri = Object::string_literal(link.href.as_str());
        dict.set("Contents", text(&link.href));
        dict.set("A", dictionary! { "S" => "URI", "URI" => uri });
    }
    Some(dict)
}
