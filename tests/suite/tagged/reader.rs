//! Reads the structure of a PDF and holds it against what its pages paint.

use std::collections::{BTreeMap, BTreeSet};

use lopdf::{Dictionary, Document, Object, ObjectId, content::Content};

/// What is wrong with content that a page paints before what the structure has before it.
pub(super) const OUT_OF_ORDER: &str = "painted before what is heard before it";

/// What is found while walking a structure tree.
#[derive(Default)]
struct Walk {
    faults: Vec<String>,
    /// The element that owns each content, by the stream it lies in.
    owners: BTreeMap<(ObjectId, i64), ObjectId>,
    /// The element that owns each annotation.
    annotations: BTreeMap<ObjectId, ObjectId>,
    /// Level of the last heading.
    level: u8,
    /// The last content of each stream that was heard.
    heard: BTreeMap<ObjectId, i64>,
}

pub(super) fn name(dict: &Dictionary, key: &[u8]) -> String {
    let name = dict.get(key).and_then(Object::as_name).unwrap_or(b"");
    String::from_utf8_lossy(name).into_owned()
}

pub(super) fn kids(element: &Dictionary) -> Vec<Object> {
    match element.get(b"K") {
        Ok(Object::Array(kids)) => kids.clone(),
        Ok(other) => vec![other.clone()],
        Err(_) => Vec::new(),
    }
}

impl Walk {
    /// Whether content is painted before what the structure has before it: content ids run in the order of painting.
    fn is_out_of_order(&mut self, place: ObjectId, mcid: i64) -> bool {
        let last = self.heard.insert(place, mcid);
        last.is_some_and(|last| last > mcid)
    }

    fn element(&mut self, document: &Document, id: ObjectId, parent: &str) {
        let element = document.get_dictionary(id).unwrap();
        let role = name(element, b"S");
        let fault = |walk: &mut Self, text: &str| walk.faults.push(format!("{role}: {text}"));
        let roles: Vec<String> = kids(element)
            .iter()
            .filter_map(|kid| document.get_dictionary(kid.as_reference().ok()?).ok())
            .map(|kid| name(kid, b"S"))
            .collect();
        let words =
            |key: &[u8]| matches!(element.get(key), Ok(Object::String(s, _)) if s.len() > 2);
        if matches!(role.as_str(), "TH" | "TD") && parent != "TR" {
            fault(self, "outside a row");
        }
        match role.as_str() {
            "Figure" if !words(b"Alt") => fault(self, "no alternative text"),
            "TH" => {
                let scope = element
                    .get(b"A")
                    .and_then(Object::as_dict)
                    .map(|a| name(a, b"Scope"));
                if !matches!(scope.as_deref(), Ok("Row" | "Column")) {
                    fault(self, "no scope");
                }
            }
            "L" if roles.iter().any(|r| r != "LI") => fault(self, "holds more than items"),
            "LI" if parent != "L" => fault(self, "outside a list"),
            "TR" if parent != "Table" => fault(self, "outside a table"),
            "Table" => {
                let count = |row: &Object| {
                    kids(
                        document
                            .get_dictionary(row.as_reference().unwrap())
                            .unwrap(),
                    )
                    .len()
                };
                let rows: BTreeSet<usize> = kids(element).iter().map(count).collect();
                if rows.len() > 1 {
                    fault(self, "rows of different length");
                }
            }
            "H1" | "H2" | "H3" => {
                let level = role.as_bytes()[1] - b'0';
                if level > self.level + 1 {
                    fault(self, "a level is skipped");
                }
                self.level = level;
            }
            _ => {}
        }
        let mut has_annotation = false;
        for kid in kids(element) {
            match kid {
                Object::Reference(child) => {
                    let up = document
                        .get_dictionary(child)
                        .unwrap()
                        .get(b"P")
                        .and_then(Object::as_reference);
                    if up.ok() != Some(id) {
                        fault(self, "a child names another parent");
                    }
                    self.element(document, child, &role);
                }
                Object::Dictionary(content) if name(&content, b"Type") == "OBJR" => {
                    let annotation = content.get(b"Obj").and_then(Object::as_reference).unwrap();
                    self.annotations.insert(annotation, id);
                    has_annotation = true;
                }
                Object::Integer(mcid) => {
                    let page = element.get(b"Pg").and_then(Object::as_reference);
                    let Ok(page) = page else {
                        fault(self, "content without a page");
                        continue;
                    };
                    if self.owners.insert((page, mcid), id).is_some() {
                        fault(self, "content promised twice");
                    }
                    if self.is_out_of_order(page, mcid) {
                        fault(self, OUT_OF_ORDER);
                    }
                }
                Object::Dictionary(content) => {
                    let place = content.get(b"Stm").or_else(|_| content.get(b"Pg"));
                    let place = place.and_then(Object::as_reference).unwrap();
                    let mcid = content.get(b"MCID").and_then(Object::as_i64).unwrap();
                    if self.owners.insert((place, mcid), id).is_some() {
                        fault(self, "content promised twice");
                    }
                    if self.is_out_of_order(place, mcid) {
                        fault(self, OUT_OF_ORDER);
                    }
                }
                other => fault(self, &format!("strange child {other:?}")),
            }
        }
        if role == "Link" && !has_annotation {
            fault(self, "without its annotation");
        }
    }
}

/// The entries of the parent tree.
fn parent_tree(document: &Document, root: &Dictionary) -> BTreeMap<i64, Object> {
    let tree = root
        .get(b"ParentTree")
        .and_then(Object::as_reference)
        .unwrap();
    let nums = document
        .get_dictionary(tree)
        .unwrap()
        .get(b"Nums")
        .and_then(Object::as_array)
        .unwrap();
    nums.chunks(2)
        .map(|pair| (pair[0].as_i64().unwrap(), pair[1].clone()))
        .collect()
}

/// What a document's structure promises, checked against its pages. Empty when all is kept.
pub(super) fn structure_faults(document: &Document) -> Vec<String> {
    let catalog = document.catalog().unwrap();
    let mut walk = Walk::default();
    for key in [
        "Lang",
        "MarkInfo",
        "StructTreeRoot",
        "Outlines",
        "ViewerPreferences",
        "Metadata",
    ] {
        if !catalog.has(key.as_bytes()) {
            walk.faults.push(format!("no {key}"));
        }
    }
    let root_id = catalog
        .get(b"StructTreeRoot")
        .and_then(Object::as_reference)
        .unwrap();
    let root = document.get_dictionary(root_id).unwrap();
    for kid in kids(root) {
        walk.element(document, kid.as_reference().unwrap(), "");
    }
    let parents = parent_tree(document, root);
    let mut streams: Vec<(ObjectId, Vec<u8>, i64)> = Vec::new();
    for page in document.get_pages().into_values() {
        let dict = document.get_dictionary(page).unwrap();
        if name(dict, b"Tabs") != "S" {
            walk.faults.push("a page without its tab order".to_owned());
        }
        let forms = forms(document, dict);
        if forms.is_empty() {
            let key = dict
                .get(b"StructParents")
                .and_then(Object::as_i64)
                .unwrap_or(-1);
            streams.push((page, document.get_page_content(page), key));
        }
        for form in forms {
            let stream = document
                .get_object(form)
                .and_then(Object::as_stream)
                .unwrap();
            let key = stream
                .dict
                .get(b"StructParents")
                .and_then(Object::as_i64)
                .unwrap_or(-1);
            let content = stream
                .decompressed_content()
                .unwrap_or_else(|_| stream.content.clone());
            streams.push((form, content, key));
        }
        links(document, dict, &parents, &mut walk);
    }
    let mut seen = 0;
    for (stream, bytes, key) in &streams {
        let owners = match parents.get(key) {
            Some(Object::Reference(id)) => {
                document.get_object(*id).and_then(Object::as_array).cloned()
            }
            _ => Ok(Vec::new()),
        }
        .unwrap_or_default();
        let mut number = 0;
        for mcid in marked(bytes, &mut walk.faults) {
            number += 1;
            let owner = walk.owners.get(&(*stream, mcid)).copied();
            let told = owners
                .get(usize::try_from(mcid).unwrap())
                .and_then(|o| o.as_reference().ok());
            if owner.is_none() || owner != told {
                walk.faults.push(format!(
                    "content {mcid} is not in the structure, or its parent is another"
                ));
            }
        }
        if number != owners.len() {
            walk.faults
                .push("the parent tree is not complete".to_owned());
        }
        seen += number;
    }
    if walk.owners.len() != seen {
        walk.faults.push(format!(
            "{} contents promised, {seen} there",
            walk.owners.len()
        ));
    }
    fonts(document, &mut walk.faults);
    walk.faults
}

/// The forms that a page paints.
fn forms(document: &Document, page: &Dictionary) -> Vec<ObjectId> {
    let Ok(resources) = page.get(b"Resources") else {
        return Vec::new();
    };
    let resources = match resources {
        Object::Reference(id) => document.get_dictionary(*id).unwrap(),
        other => other.as_dict().unwrap(),
    };
    let objects = resources.get(b"XObject").and_then(Object::as_dict);
    objects
        .map(|dict| {
            dict.iter()
                .filter_map(|(_, form)| form.as_reference().ok())
                .collect()
        })
        .unwrap_or_default()
}

/// Every link belongs to the structure, and the parent tree leads back from it.
fn links(document: &Document, page: &Dictionary, parents: &BTreeMap<i64, Object>, walk: &mut Walk) {
    let Ok(annotations) = page.get(b"Annots").and_then(Object::as_array) else {
        return;
    };
    for annotation in annotations {
        let id = annotation.as_reference().unwrap();
        let dict = document.get_dictionary(id).unwrap();
        let key = dict
            .get(b"StructParent")
            .and_then(Object::as_i64)
            .unwrap_or(-1);
        let told = parents.get(&key).and_then(|o| o.as_reference().ok());
        if told.is_none() || told != walk.annotations.get(&id).copied() {
            walk.faults.push("a link outside the structure".to_owned());
        }
        if !dict.has(b"Contents") {
            walk.faults.push("a link without words".to_owned());
        }
    }
}

/// The marked content of a stream in its order; what is painted outside of any is a fault.
fn marked(bytes: &[u8], faults: &mut Vec<String>) -> Vec<i64> {
    let (mut depth, mut found) = (0, Vec::new());
    for operation in Content::decode(bytes).unwrap().operations {
        match operation.operator.as_str() {
            "BDC" => {
                depth += 1;
                let properties = operation.operands[1].as_dict().unwrap();
                found.push(properties.get(b"MCID").and_then(Object::as_i64).unwrap());
            }
            "BMC" => depth += 1,
            "EMC" => depth -= 1,
            "Tj" | "TJ" | "f" | "S" | "B" if depth == 0 => {
                faults.push("untagged content".to_owned())
            }
            _ => {}
        }
    }
    found
}

/// Every font is embedded, and its glyphs can be read as text.
fn fonts(document: &Document, faults: &mut Vec<String>) {
    for object in document.objects.values() {
        let Ok(dict) = object.as_dict() else { continue };
        match name(dict, b"Type").as_str() {
            "Font" if name(dict, b"Subtype") == "Type0" && !dict.has(b"ToUnicode") => {
                faults.push("a font without ToUnicode".to_owned());
            }
            "FontDescriptor"
                if !["FontFile", "FontFile2", "FontFile3"]
                    .iter()
                    .any(|k| dict.has(k.as_bytes())) =>
            {
                faults.push("a font that is not embedded".to_owned());
            }
            _ => {}
        }
    }
}
