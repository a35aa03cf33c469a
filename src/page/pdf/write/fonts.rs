//! The faces, cut down to the glyphs in use.

use std::collections::BTreeMap;

use printpdf::{Mm, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfPage, Pt, TextItem};
use subsetter::GlyphRemapper;

use crate::page::pdf::deflate::deflate;
use crate::page::pdf::face::{Face, Glyph, bytes, file_advance};
use crate::page::pdf::write::handles::{codepoint, font_id, to_lopdf};

/// The glyphs of each face that pages use, by their numbers in the whole font.
pub(in crate::page::pdf) type Glyphs = BTreeMap<Face, BTreeMap<u16, Glyph>>;

/// The objects that make up a font, the font itself first.
pub(in crate::page::pdf) type FontObjects = Vec<(lopdf::ObjectId, lopdf::Object)>;

/// Each face cut down to these glyphs, by its resource name, and the highest number of any object.
///
/// Pages name glyphs by their numbers in the whole font, so they can be written before it is known which glyphs all
/// pages together use; a table in the file leads from these numbers to those of the cut font.
pub(in crate::page::pdf) fn fonts(glyphs: &Glyphs) -> (BTreeMap<String, FontObjects>, u32) {
    let mut pdf = PdfDocument::new("");
    let mut maps: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    // printpdf tells how glyphs read as text by what it sees on pages: a page with every glyph once.
    let mut ops = Vec::new();
    for (face, glyphs) in glyphs {
        let Some((font, map)) = subset(*face, glyphs) else {
            continue;
        };
        maps.insert(subset_name(*face), map);
        let font = PdfFont::new(font);
        pdf.resources.fonts.map.insert(font_id(*face), font);
        let items = glyphs.values().map(|glyph| codepoint(*face, glyph));
        ops.push(Op::StartTextSection);
        ops.push(Op::SetFont {
            font: PdfFontHandle::External(font_id(*face)),
            size: Pt(9.0),
        });
        ops.push(Op::ShowText {
            items: vec![TextItem::GlyphIds(items.collect())],
        });
        ops.push(Op::EndTextSection);
    }
    pdf.pages.push(PdfPage::new(Mm(10.0), Mm(10.0), ops));
    let mut file = to_lopdf(pdf);
    let mut all = BTreeMap::new();
    let Some(page) = file.get_pages().into_values().next() else {
        return (all, file.max_id);
    };
    let found = file.get_page_fonts(page).unwrap_or_default();
    let found: Vec<(String, lopdf::Dictionary)> = found
        .into_iter()
        .map(|(name, font)| (String::from_utf8_lossy(&name).into_owned(), font.clone()))
        .collect();
    for (name, mut font) in found {
        lead_to_cut_glyphs(&mut file, &mut font, &mut maps);
        let id = file.add_object(font);
        let mut objects = FontObjects::new();
        collect(&file, id, &mut objects);
        all.insert(name, objects);
    }
    (all, file.max_id)
}

/// An object and all that it refers to; streams are compressed.
fn collect(file: &lopdf::Document, id: lopdf::ObjectId, found: &mut FontObjects) {
    let Some(object) = file.objects.get(&id) else {
        return;
    };
    if found.iter().any(|(known, _)| *known == id) {
        return;
    }
    let mut object = object.clone();
    if let lopdf::Object::Stream(stream) = &mut object {
        deflate(stream);
    }
    let mut below = vec![object.clone()];
    found.push((id, object));
    while let Some(object) = below.pop() {
        match object {
            lopdf::Object::Reference(id) => collect(file, id, found),
            lopdf::Object::Array(items) => below.extend(items),
            lopdf::Object::Dictionary(dict) => below.extend(dict.into_iter().map(|(_, v)| v)),
            lopdf::Object::Stream(stream) => {
                below.extend(stream.dict.into_iter().map(|(_, v)| v));
            }
            _ => {}
        }
    }
}

/// Puts the table of glyph numbers where the font says how numbers lead to glyphs.
fn lead_to_cut_glyphs(
    file: &mut lopdf::Document,
    font: &mut lopdf::Dictionary,
    maps: &mut BTreeMap<String, Vec<u8>>,
) {
    let name = font.get(b"BaseFont").and_then(lopdf::Object::as_name);
    let name = String::from_utf8_lossy(name.unwrap_or_default()).into_owned();
    let Some(map) = maps.remove(&name) else {
        return;
    };
    let map = lopdf::Stream::new(lopdf::Dictionary::new(), map);
    let map = file.add_object(map);
    let below = font.get_mut(b"DescendantFonts");
    let below = below.and_then(lopdf::Object::as_array_mut);
    if let Ok(below) = below.map(|fonts| fonts.first_mut())
        && let Some(lopdf::Object::Dictionary(below)) = below
    {
        below.set("CIDToGIDMap", lopdf::Object::Reference(map));
    }
}

/// A face cut down to these glyphs, and the table that leads to them: two bytes for each glyph of the whole font.
fn subset(face: Face, glyphs: &BTreeMap<u16, Glyph>) -> Option<(ParsedFont, Vec<u8>)> {
    let mut remap = GlyphRemapper::new();
    let last = glyphs.keys().next_back().copied().unwrap_or(0);
    let mut map = vec![0_u8; 2 * (usize::from(last) + 1)];
    for glyph in glyphs.keys() {
        let at = 2 * usize::from(*glyph);
        map.get_mut(at..at + 2)?
            .copy_from_slice(&remap.remap(*glyph).to_be_bytes());
    }
    let file = bytes(face);
    let mut parsed = ParsedFont::from_bytes(file, 0, &mut Vec::new())?;
    parsed.original_bytes = subsetter::subset(file, 0, &remap).ok()?;
    parsed.glyph_widths = glyphs
        .keys()
        .map(|g| (*g, file_advance(face, *g).0))
        .collect();
    parsed.codepoint_to_glyph.clear();
    parsed.font_name = Some(subset_name(face));
    Some((parsed, map))
}

/// The name of a cut face: six letters and a plus before the font's own (ISO 32000-1, 9.6.4).
fn subset_name(face: Face) -> String {
    let letter = char::from(b'A' + face as u8);
    format!("YOKEW{letter}+{}", font_name(face))
}

fn font_name(face: Face) -> &'static str {
    match face {
        Face::Regular => "AtkinsonHyperlegibleNext-Regular",
        Face::SemiBold => "AtkinsonHyperlegibleNext-SemiBold",
        Face::Bold => "AtkinsonHyperlegibleNext-Bold",
        Face::Title => "Besley-Bold",
        Face::Numeral => "Besley-ExtraBold",
    }
}
