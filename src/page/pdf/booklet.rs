//! Saddle-stitch imposition: two pages side by side on each side of a sheet, so that a pile folded once reads in order.
//!
//! The structure of the document stays what it was: its content and its links now lie on the sheets.

use std::collections::BTreeMap;

use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};

use crate::page::pdf::deflate::deflate;
use crate::page::pdf::press::Bound;
use crate::page::pdf::sheet::content_of;

/// The pages of each side of each sheet, left and right, counted from 1; numbers above `pages` are blank. Front and back
/// follow each other; the back is printed so that the sheet is turned over its short edge.
///
/// A pile of at most eight sheets is folded at once, more of them in several piles of about the same height, one after the
/// other. In a pile of n places, sheet i has n − 2i and 1 + 2i in front, 2 + 2i and n − 1 − 2i behind.
#[must_use]
pub fn sheets(pages: usize) -> Vec<(usize, usize)> {
    let all = pages.div_ceil(4);
    let piles = all.div_ceil(PILE).max(1);
    let mut sides = Vec::with_capacity(2 * all);
    let mut before = 0;
    for pile in 0..piles {
        let sheets = all / piles + usize::from(pile < all % piles);
        let (first, n) = (4 * before, 4 * sheets);
        sides.extend((0..sheets).flat_map(|i| {
            let side = |left: usize, right: usize| (first + left, first + right);
            [side(n - 2 * i, 1 + 2 * i), side(2 + 2 * i, n - 1 - 2 * i)]
        }));
        before += sheets;
    }
    sides
}

/// The most sheets that are folded at once: more do not lie flat, and their inner margins shift. Common practice, no source.
const PILE: usize = 8;

/// Where a page comes to lie.
#[derive(Clone, Copy, Debug)]
struct Place {
    /// The side of a sheet that shows it.
    sheet: ObjectId,
    /// What is added to the numbers of its marked content: the page beside it was there first.
    offset: i64,
}

impl Bound {
    /// The bytes of the file as a booklet. `None` if something is missing that every file of ours has.
    #[must_use]
    pub fn folded(self) -> Option<Vec<u8>> {
        booklet(self.0)
    }
}

/// Margin of a half, in points: what printers leave white, and a little.
const MARGIN: f32 = 7.5 * 72.0 / 25.4;

fn booklet(mut file: Document) -> Option<Vec<u8>> {
    let pages: Vec<ObjectId> = file.get_pages().into_values().collect();
    let (width, height) = size(&file, *pages.first()?)?;
    // The sheet is the page turned on its side; two pages beside each other fill its width.
    let (sheet_width, sheet_height) = (height, width);
    // What stands within a page's margins fills its half but for margins of the half's own, so that words lose least.
    let half = sheet_width / 2.0;
    let ((left, top), (wide, high)) = content_of(width);
    let scale = ((half - 2.0 * MARGIN) / wide).min((sheet_height - 2.0 * MARGIN) / high);
    let lift = sheet_height / 2.0 - (height - top - high / 2.0) * scale;
    let margin = half / 2.0 - (left + wide / 2.0) * scale;
    let owners = Owners::of(&file)?;
    let old_tree = file
        .catalog()
        .ok()?
        .get(b"Pages")
        .ok()?
        .as_reference()
        .ok()?;
    let tree = file.new_object_id();
    let mut kids = Vec::new();
    let mut places: BTreeMap<ObjectId, Place> = BTreeMap::new();
    let mut parents: Vec<Object> = Vec::new();
    for (side, (left, right)) in sheets(pages.len()).into_iter().enumerate() {
        let sheet = file.new_object_id();
        let mut streams: Vec<Object> = Vec::new();
        let mut fonts = Dictionary::new();
        let mut links: Vec<Object> = Vec::new();
        let mut owned: Vec<Object> = Vec::new();
        // What is heard first is painted first.
        let mut halves = [(left, 0.0), (right, half)];
        halves.sort_by_key(|(number, _)| *number);
        for (number, begins) in halves {
            let x = begins + margin;
            let Some((at, page)) = number
                .checked_sub(1)
                .and_then(|i| Some((i, *pages.get(i)?)))
            else {
                continue;
            };
            let offset = i64::try_from(owned.len()).ok()?;
            // Nothing of a page reaches into the other half.
            let matrix = format!(
                "q {begins:.3} 0 {half:.3} {sheet_height:.3} re W n {scale:.5} 0 0 {scale:.5} {x:.3} {lift:.3} cm\n"
            );
            streams.push(add_stream(&mut file, matrix.into_bytes()));
            streams.extend(shifted(&mut file, page, offset)?);
            streams.push(add_stream(&mut file, b"\nQ\n".to_vec()));
            for (name, font) in fonts_of(&file, page)? {
                fonts.set(name, font);
            }
            owned.extend(owners.of_page(at));
            places.insert(page, Place { sheet, offset });
            links.extend(annotations(&mut file, page, scale, (x, lift)));
        }
        let key = i64::try_from(side).ok()?;
        let mut sheet_dict = dictionary! {
            "Type" => "Page",
            "Parent" => tree,
            "MediaBox" => vec![0.into(), 0.into(), Object::Real(sheet_width), Object::Real(sheet_height)],
            "Contents" => streams,
            "Resources" => dictionary! { "Font" => fonts },
            "Tabs" => "S",
            "StructParents" => key,
        };
        if !links.is_empty() {
            sheet_dict.set("Annots", links);
        }
        file.objects.insert(sheet, sheet_dict.into());
        kids.push(Object::Reference(sheet));
        parents.push(key.into());
        parents.push(Object::Reference(file.add_object(owned)));
    }
    let count = i64::try_from(kids.len()).ok()?;
    let root = dictionary! { "Type" => "Pages", "Kids" => kids, "Count" => count };
    for object in file.objects.values_mut() {
        relay(object, &places);
    }
    parents.extend(owners.beyond(pages.len()));
    let nums = dictionary! { "Nums" => parents };
    file.objects.insert(owners.tree, nums.into());
    file.objects.insert(tree, Object::Dictionary(root));
    file.catalog_mut().ok()?.set("Pages", tree);
    for gone in pages.iter().chain([&old_tree]).chain(&owners.lists) {
        file.objects.remove(gone);
    }
    let mut bytes = Vec::new();
    file.save_to(&mut bytes).ok()?;
    bytes.shrink_to_fit();
    Some(bytes)
}

/// The parent tree: for each page the elements that own its marked content, then those that own links.
struct Owners {
    tree: ObjectId,
    /// Key and value by turns; pages first, in their order.
    nums: Vec<Object>,
    /// The list of each page.
    lists: Vec<ObjectId>,
    /// What each page's content belongs to.
    pages: Vec<Vec<Object>>,
}

impl Owners {
    fn of(file: &Document) -> Option<Self> {
        let root = file.catalog().ok()?.get(b"StructTreeRoot").ok()?;
        let root = file.get_dictionary(root.as_reference().ok()?).ok()?;
        let tree = root.get(b"ParentTree").ok()?.as_reference().ok()?;
        let nums = file.get_dictionary(tree).ok()?.get(b"Nums").ok()?;
        let nums = nums.as_array().ok()?.clone();
        let values = nums.iter().skip(1).step_by(2);
        let mut owners = Self {
            tree,
            nums: Vec::new(),
            lists: Vec::new(),
            pages: Vec::new(),
        };
        for id in values.filter_map(|value| value.as_reference().ok()) {
            // A link's entry names its element, a page's a list of elements.
            if let Ok(list) = file.get_object(id).and_then(Object::as_array) {
                owners.lists.push(id);
                owners.pages.push(list.clone());
            }
        }
        owners.nums = nums;
        Some(owners)
    }

    fn of_page(&self, page: usize) -> Vec<Object> {
        self.pages.get(page).cloned().unwrap_or_default()
    }

    /// What follows the entries of so many pages.
    fn beyond(&self, pages: usize) -> Vec<Object> {
        self.nums.iter().skip(2 * pages).cloned().collect()
    }
}

fn add_stream(file: &mut Document, content: Vec<u8>) -> Object {
    let mut stream = Stream::new(Dictionary::new(), content);
    deflate(&mut stream);
    file.add_object(stream).into()
}

/// The streams of a page with the numbers of their marked content moved on; those that hold none stay as they are.
fn shifted(file: &mut Document, page: ObjectId, offset: i64) -> Option<Vec<Object>> {
    let contents = file.get_page_contents(page);
    let mut streams = Vec::with_capacity(contents.len());
    for id in contents {
        let stream = file.get_object(id).ok()?.as_stream().ok()?;
        let content = if offset == 0 {
            None
        } else {
            let plain = stream.decompressed_content();
            let plain = plain.unwrap_or_else(|_| stream.content.clone());
            find(&plain, KEY).map(|_| renumbered(&plain, offset))
        };
        streams.push(match content {
            Some(content) => {
                file.objects.remove(&id);
                add_stream(file, content)
            }
            None => Object::Reference(id),
        });
    }
    Some(streams)
}

/// What stands before the number of marked content.
const KEY: &[u8] = b"/MCID ";

/// The numbers of marked content in a stream of ours, moved on; its strings are hexadecimal, so the key stands nowhere else.
fn renumbered(content: &[u8], offset: i64) -> Vec<u8> {
    let mut out = Vec::with_capacity(content.len());
    let mut rest = content;
    while let Some(at) = find(rest, KEY) {
        let (before, after) = rest.split_at(at + KEY.len());
        let digits = after.iter().take_while(|b| b.is_ascii_digit()).count();
        let (number, after) = after.split_at(digits);
        let number = std::str::from_utf8(number)
            .ok()
            .and_then(|n| n.parse::<i64>().ok());
        out.extend(before);
        out.extend((number.unwrap_or(0) + offset).to_string().bytes());
        rest = after;
    }
    out.extend(rest);
    out
}

/// Where a key that begins with a solidus stands first.
fn find(content: &[u8], key: &[u8]) -> Option<usize> {
    let mut from = 0;
    while let Some(at) = content.get(from..)?.iter().position(|byte| *byte == b'/') {
        if content.get(from + at..)?.starts_with(key) {
            return Some(from + at);
        }
        from += at + 1;
    }
    None
}

/// The fonts of a page; all pages of a document call them by the same names.
fn fonts_of(file: &Document, page: ObjectId) -> Option<Dictionary> {
    let resources = file.get_dictionary(page).ok()?.get(b"Resources").ok()?;
    let resources = file.dereference(resources).ok()?.1.as_dict().ok()?;
    let Ok(fonts) = resources.get(b"Font") else {
        return Some(Dictionary::new());
    };
    Some(file.dereference(fonts).ok()?.1.as_dict().ok()?.clone())
}

/// Points what led to a page to the sheet that shows it.
fn relay(object: &mut Object, places: &BTreeMap<ObjectId, Place>) {
    match object {
        Object::Array(items) => items.iter_mut().for_each(|item| relay(item, places)),
        Object::Dictionary(dict) => {
            let kind = dict.get(b"Type").and_then(Object::as_name);
            let kind = kind.unwrap_or_default().to_vec();
            let is_content = kind == b"MCR";
            if dict.has(b"S") && dict.has(b"P") {
                relay_element(dict, places);
            }
            if is_content || kind == b"OBJR" {
                let page = dict.get(b"Pg").and_then(Object::as_reference);
                if let Some(place) = page.ok().and_then(|page| places.get(&page)) {
                    dict.set("Pg", place.sheet);
                    let number = dict.get(b"MCID").and_then(Object::as_i64).unwrap_or(0);
                    if is_content {
                        dict.set("MCID", number + place.offset);
                    }
                }
                return;
            }
            let target = dict.get(b"Dest").and_then(Object::as_array).ok();
            let page = target.and_then(|dest| dest.first()?.as_reference().ok());
            if let Some(place) = page.and_then(|page| places.get(&page)) {
                dict.set(
                    "Dest",
                    vec![place.sheet.into(), Object::Name(b"Fit".to_vec())],
                );
            }
            dict.iter_mut().for_each(|(_, value)| relay(value, places));
        }
        _ => {}
    }
}

/// Points an element to the sheet that shows its page, and its content to the new numbers.
fn relay_element(dict: &mut Dictionary, places: &BTreeMap<ObjectId, Place>) {
    let page = dict.get(b"Pg").and_then(Object::as_reference);
    let Some(place) = page.ok().and_then(|page| places.get(&page)) else {
        return;
    };
    dict.set("Pg", place.sheet);
    if let Ok(kids) = dict.get_mut(b"K").and_then(Object::as_array_mut) {
        for kid in kids {
            if let Object::Integer(number) = kid {
                *number += place.offset;
            }
        }
    }
}

/// The links of a page, moved to where it lies on its sheet.
fn annotations(
    file: &mut Document,
    page: ObjectId,
    scale: f32,
    (dx, dy): (f32, f32),
) -> Vec<Object> {
    let found = file
        .get_dictionary(page)
        .and_then(|page| page.get(b"Annots"));
    let links = found
        .and_then(Object::as_array)
        .cloned()
        .unwrap_or_default();
    for link in links.iter().filter_map(|link| link.as_reference().ok()) {
        let Ok(dict) = file.get_object_mut(link).and_then(Object::as_dict_mut) else {
            continue;
        };
        let area = dict.get(b"Rect").and_then(Object::as_array);
        let area: Vec<f32> = area
            .map(|area| area.iter().filter_map(|v| v.as_float().ok()).collect())
            .unwrap_or_default();
        if let [x0, y0, x1, y1] = area.as_slice() {
            let moved = [
                x0 * scale + dx,
                y0 * scale + dy,
                x1 * scale + dx,
                y1 * scale + dy,
            ];
            let moved: Vec<Object> = moved.into_iter().map(Object::Real).collect();
            dict.set("Rect", moved);
        }
    }
    links
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
