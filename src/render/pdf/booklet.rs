//! Saddle-stitch imposition: two pages side by side on each side of a sheet, so that a pile folded once reads in order.
//!
//! A booklet is for paper: its sheets keep the pages' looks and fonts, but neither structure nor bookmarks.

use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};

/// The pages of each side of each sheet, left and right, counted from 1; numbers above `pages` are blank. Front and back
/// follow each other; the back is printed so that the sheet is turned over its short edge.
///
/// With n = 4⌈pages ÷ 4⌉, sheet i has n − 2i and 1 + 2i in front, 2 + 2i and n − 1 − 2i behind.
#[must_use]
pub fn sheets(pages: usize) -> Vec<(usize, usize)> {
    let n = 4 * pages.div_ceil(4);
    (0..n / 4)
        .flat_map(|i| [(n - 2 * i, 1 + 2 * i), (2 + 2 * i, n - 1 - 2 * i)])
        .collect()
}

/// A PDF of ours as a booklet. `None` if it cannot be read back, which would be a fault of ours.
#[must_use]
pub fn booklet(pdf: &[u8]) -> Option<Vec<u8>> {
    let mut file = Document::load_mem(pdf).ok()?;
    let pages: Vec<ObjectId> = file.get_pages().into_values().collect();
    let (width, height) = size(&file, *pages.first()?)?;
    let forms: Vec<ObjectId> = pages
        .iter()
        .map(|page| form(&mut file, *page, (width, height)))
        .collect::<Option<_>>()?;
    // The sheet is the page turned on its side; two pages beside each other fill its width.
    let (sheet_width, sheet_height) = (height, width);
    let scale = (sheet_width / 2.0 / width).min(sheet_height / height);
    let lift = (sheet_height - height * scale) / 2.0;
    let margin = (sheet_width / 2.0 - width * scale) / 2.0;
    let tree = file.new_object_id();
    let mut kids = Vec::new();
    for (left, right) in sheets(pages.len()) {
        let mut content = String::new();
        let mut names = Dictionary::new();
        for (page, x) in [(left, margin), (right, sheet_width / 2.0 + margin)] {
            let Some(form) = page.checked_sub(1).and_then(|i| forms.get(i)) else {
                continue;
            };
            content.push_str(&format!(
                "q {scale:.5} 0 0 {scale:.5} {x:.3} {lift:.3} cm /P{page} Do Q\n"
            ));
            names.set(format!("P{page}"), Object::Reference(*form));
        }
        let stream = Stream::new(Dictionary::new(), content.into_bytes());
        let content = file.add_object(stream);
        let sheet = dictionary! {
            "Type" => "Page",
            "Parent" => tree,
            "MediaBox" => vec![0.into(), 0.into(), Object::Real(sheet_width), Object::Real(sheet_height)],
            "Contents" => content,
            "Resources" => dictionary! { "XObject" => names },
        };
        kids.push(Object::Reference(file.add_object(sheet)));
    }
    let count = i64::try_from(kids.len()).ok()?;
    let pages = dictionary! { "Type" => "Pages", "Kids" => kids, "Count" => count };
    file.objects.insert(tree, Object::Dictionary(pages));
    let catalog = file.catalog_mut().ok()?;
    catalog.set("Pages", tree);
    for gone in [
        "StructTreeRoot",
        "MarkInfo",
        "Outlines",
        "PageMode",
        "Names",
        "Dests",
        "OpenAction",
    ] {
        catalog.remove(gone.as_bytes());
    }
    file.prune_objects();
    let mut bytes = Vec::new();
    file.save_to(&mut bytes).ok()?;
    Some(bytes)
}

fn size(file: &Document, page: ObjectId) -> Option<(f32, f32)> {
    let media = file.get_dictionary(page).ok()?.get(b"MediaBox").ok()?;
    let numbers: Vec<f32> = media
        .as_array()
        .ok()?
        .iter()
        .filter_map(|n| n.as_float().ok())
        .collect();
    match numbers.as_slice() {
        [x0, y0, x1, y1] => Some((x1 - x0, y1 - y0)),
        _ => None,
    }
}

/// A page as something to be painted anywhere.
fn form(file: &mut Document, page: ObjectId, (width, height): (f32, f32)) -> Option<ObjectId> {
    let content = file.get_page_content(page);
    let resources = file
        .get_dictionary(page)
        .ok()?
        .get(b"Resources")
        .ok()?
        .clone();
    let head = dictionary! {
        "Type" => "XObject",
        "Subtype" => "Form",
        "BBox" => vec![0.into(), 0.into(), Object::Real(width), Object::Real(height)],
        "Resources" => resources,
    };
    let mut stream = Stream::new(head, content);
    // A stream that cannot be made smaller stays as it is.
    let _ = stream.compress();
    Some(file.add_object(stream))
}
