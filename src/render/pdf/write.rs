//! Page frames to PDF bytes. The only file that names printpdf.
//!
//! printpdf writes pages, paths and fonts; structure, bookmarks and fixed identifiers are added to its document
//! before it is saved. Same frames, same bytes: no clock, no random ids.

use std::collections::{BTreeMap, BTreeSet};

use lopdf::{Dictionary, Object, StringFormat, dictionary};
use printpdf::{
    Codepoint, Color, DictItem, FontId, Mm, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, PdfPage,
    PdfSaveOptions, Pt, Rgb, TextItem, TextMatrix,
};
use sha2::{Digest, Sha256};
use subsetter::GlyphRemapper;

use crate::picture::{Paint, Path, Seg, Stroke};
use crate::render::pdf::frame::{Mark, Node, Role};
use crate::render::pdf::paginate::Document;
use crate::render::pdf::text::{Face, POINT, Run, bytes, file_advance};

/// What stands in the document's properties.
#[derive(Clone, Debug, Default)]
pub struct Meta {
    /// Title.
    pub title: String,
    /// Who made it.
    pub author: String,
}

/// A page's marked content in its order: content id → node.
type Marked = Vec<Vec<usize>>;

/// Writes a document.
#[must_use]
pub fn write(document: &Document, meta: &Meta) -> Vec<u8> {
    let fonts = subset_fonts(document);
    let mut pdf = PdfDocument::new(&meta.title);
    for (face, font) in &fonts {
        pdf.resources.fonts.map.insert(font_id(*face), PdfFont::new(font.parsed.clone()));
    }
    let mut marked: Marked = Vec::new();
    for page in &document.pages {
        let mut writer = PageWriter { ops: Vec::new(), fonts: &fonts, height: document.paper.1, nodes: Vec::new() };
        let mut open: Option<Option<usize>> = None;
        for item in &page.items {
            if open != Some(item.node) {
                if open.is_some() {
                    writer.ops.push(Op::EndMarkedContent);
                }
                writer.begin(item.node, document);
                open = Some(item.node);
            }
            writer.mark(&item.mark);
        }
        if open.is_some() {
            writer.ops.push(Op::EndMarkedContent);
        }
        marked.push(writer.nodes);
        let (width, height) = document.paper;
        pdf.pages.push(PdfPage::new(Mm(width as f32), Mm(height as f32), writer.ops));
    }
    let options = PdfSaveOptions { optimize: true, subset_fonts: false, secure: false, image_optimization: None };
    let mut file = pdf.to_lopdf_document(&options, &mut Vec::new());
    finish(&mut file, document, meta, &marked);
    let mut out = Vec::new();
    // Writing into memory cannot fail.
    let _ = file.save_to(&mut out);
    out
}

fn font_id(face: Face) -> FontId {
    FontId(format!("F{}", face as usize))
}

/// A face cut down to the glyphs in use.
struct SubsetFont {
    parsed: ParsedFont,
    remap: GlyphRemapper,
}

fn subset_fonts(document: &Document) -> BTreeMap<Face, SubsetFont> {
    let mut used: BTreeMap<Face, BTreeSet<u16>> = BTreeMap::new();
    for item in document.pages.iter().flat_map(|page| &page.items) {
        if let Mark::Run(run) = &item.mark {
            used.entry(run.face).or_default().extend(run.glyphs.iter().map(|g| g.id));
        }
    }
    let mut fonts = BTreeMap::new();
    for (face, glyphs) in used {
        let mut remap = GlyphRemapper::new();
        let mut widths = BTreeMap::new();
        for glyph in glyphs {
            let new = remap.remap(glyph);
            widths.insert(new, file_advance(face, glyph).0);
        }
        let file = bytes(face);
        let Some(mut parsed) = ParsedFont::from_bytes(file, 0, &mut Vec::new()) else { continue };
        // The built-in faces can be cut; were one not, it would be embedded whole, under its own glyph numbers.
        let Ok(cut) = subsetter::subset(file, 0, &remap) else { continue };
        parsed.original_bytes = cut;
        parsed.glyph_widths = widths;
        parsed.codepoint_to_glyph.clear();
        parsed.font_name = Some(format!("YOKEW{}+{}", char::from(b'A' + face as u8), font_name(face)));
        fonts.insert(face, SubsetFont { parsed, remap });
    }
    fonts
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

struct PageWriter<'a> {
    ops: Vec<Op>,
    fonts: &'a BTreeMap<Face, SubsetFont>,
    height: f64,
    nodes: Vec<usize>,
}

/// Millimetres to points, kept to a thousandth.
fn pt(mm: f64) -> f32 {
    ((mm / POINT * 1000.0).round() / 1000.0) as f32
}

impl PageWriter<'_> {
    fn begin(&mut self, node: Option<usize>, document: &Document) {
        let Some(node) = node else {
            self.ops.push(Op::BeginMarkedContent { tag: "Artifact".to_owned() });
            return;
        };
        let id = i64::try_from(self.nodes.len()).unwrap_or(0);
        self.nodes.push(node);
        let role = document.tree.nodes.get(node).map_or(Role::Paragraph, |n| n.role);
        let map = BTreeMap::from([("MCID".to_owned(), DictItem::Int(id))]);
        self.ops.push(Op::BeginMarkedContentWithProperties {
            tag: role_name(role).to_owned(),
            properties: DictItem::Dict { map },
        });
    }

    fn raw(&mut self, key: &str, values: &[f32]) {
        let value = values.iter().map(|v| DictItem::Real(*v)).collect();
        self.ops.push(Op::Unknown { key: key.to_owned(), value });
    }

    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Run(run) => self.run(run),
            Mark::Fill(path, paint) => {
                self.fill_colour(*paint);
                self.path(path);
                self.raw("f", &[]);
            }
            Mark::Line(path, stroke) => {
                self.stroke_style(stroke);
                self.path(path);
                self.raw("S", &[]);
            }
            Mark::Both(path, paint, stroke) => {
                self.fill_colour(*paint);
                self.stroke_style(stroke);
                self.path(path);
                self.raw("B", &[]);
            }
        }
    }

    fn fill_colour(&mut self, paint: Paint) {
        self.ops.push(Op::SetFillColor { col: colour(paint) });
    }

    fn stroke_style(&mut self, stroke: &Stroke) {
        self.ops.push(Op::SetOutlineColor { col: colour(stroke.paint) });
        self.raw("w", &[pt(stroke.width)]);
        let style = if stroke.round { 1 } else { 0 };
        for key in ["J", "j"] {
            self.ops.push(Op::Unknown { key: key.to_owned(), value: vec![DictItem::Int(style)] });
        }
        let dash = stroke.dash.map(|(on, off)| vec![DictItem::Real(pt(on)), DictItem::Real(pt(off))]);
        let value = vec![DictItem::Array(dash.unwrap_or_default()), DictItem::Int(0)];
        self.ops.push(Op::Unknown { key: "d".to_owned(), value });
    }

    fn path(&mut self, path: &Path) {
        let at = |(x, y): (f64, f64)| (pt(x), pt(self.height - y));
        let mut ops: Vec<(&str, Vec<f32>)> = Vec::with_capacity(path.0.len());
        for seg in &path.0 {
            ops.push(match *seg {
                Seg::Move(p) => ("m", vec![at(p).0, at(p).1]),
                Seg::Line(p) => ("l", vec![at(p).0, at(p).1]),
                Seg::Curve(a, b, c) => ("c", vec![at(a).0, at(a).1, at(b).0, at(b).1, at(c).0, at(c).1]),
                Seg::Close => ("h", Vec::new()),
            });
        }
        for (key, values) in ops {
            self.raw(key, &values);
        }
    }

    fn run(&mut self, run: &Run) {
        let Some(font) = self.fonts.get(&run.face) else { return };
        let glyphs: Vec<Codepoint> = run
            .glyphs
            .iter()
            .map(|glyph| {
                let (advance, em) = file_advance(run.face, glyph.id);
                // The width that the file will name is cut to a whole number; the rest is made up for by hand.
                let named = (f32::from(advance) * 1000.0 / f32::from(em)) as i64 as f64;
                let offset = ((named - glyph.advance) * 100.0).round() / 100.0;
                Codepoint::with_cid(font.remap.get(glyph.id).unwrap_or(0), offset as f32, glyph.text.clone())
            })
            .collect();
        self.fill_colour(run.paint);
        self.ops.push(Op::StartTextSection);
        self.ops.push(Op::SetFont { font: PdfFontHandle::External(font_id(run.face)), size: Pt(run.size as f32) });
        let (x, y) = (pt(run.x), pt(self.height - run.y));
        self.ops.push(Op::SetTextMatrix { matrix: TextMatrix::Translate(Pt(x), Pt(y)) });
        self.ops.push(Op::ShowText { items: vec![TextItem::GlyphIds(glyphs)] });
        self.ops.push(Op::EndTextSection);
    }
}

fn colour(paint: Paint) -> Color {
    let [r, g, b] = paint.rgb().map(|v| ((f32::from(v) / 255.0) * 1000.0).round() / 1000.0);
    Color::Rgb(Rgb { r, g, b, icc_profile: None })
}

fn role_name(role: Role) -> &'static str {
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
fn finish(file: &mut lopdf::Document, document: &Document, meta: &Meta, marked: &Marked) {
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
    let metadata = file.add_object(lopdf::Stream::new(metadata, xmp.into_bytes()).with_compression(false));
    if let Ok(catalog) = file.catalog_mut() {
        catalog.remove(b"OutputIntents");
        catalog.set("Lang", Object::string_literal("en"));
        catalog.set("MarkInfo", dictionary! { "Marked" => true });
        catalog.set("ViewerPreferences", dictionary! { "DisplayDocTitle" => true });
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
    let id = Object::String(Sha256::digest(meta.title.as_bytes()).to_vec(), StringFormat::Hexadecimal);
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
        let Some(page_id) = pages.get(page) else { continue };
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
        let owners: Vec<Object> = content.iter().filter_map(|n| ids.get(*n)).map(|id| Object::Reference(*id)).collect();
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
        dict.set("A", dictionary! { "O" => "Table", "Scope" => Object::Name(scope.as_bytes().to_vec()) });
    }
    if node.role == Role::List {
        dict.set("A", dictionary! { "O" => "List", "ListNumbering" => "None" });
    }
    dict
}

/// Bookmarks: sections, and in each its headings of the first two levels.
fn outlines(file: &mut lopdf::Document, document: &Document, pages: &[lopdf::ObjectId]) -> lopdf::ObjectId {
    let root = file.new_object_id();
    let place = |page: usize, y: f64| {
        let top = pt(document.paper.1 - y);
        pages.get(page).map(|id| {
            vec![Object::Reference(*id), Object::Name(b"XYZ".to_vec()), Object::Null, Object::Real(top), Object::Null]
        })
    };
    let mut sections = Vec::new();
    for (i, (title, _, first)) in document.sections.iter().enumerate() {
        let end = document.sections.get(i + 1).map_or(document.pages.len(), |s| s.2);
        let mut children = Vec::new();
        for page in *first..end {
            for (node, y) in document.pages.get(page).map(|p| p.headings.as_slice()).unwrap_or_default() {
                let Some(heading) = document.tree.nodes.get(*node) else { continue };
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
        let child_ids: Vec<lopdf::ObjectId> = children.iter().map(|_| file.new_object_id()).collect();
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
    let mut dict = dictionary! { "Type" => "Outlines", "Count" => i64::try_from(ids.len()).unwrap_or(0) };
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
            let rect: Vec<Object> = [x0, bottom, x1, document.paper.1 - y0].iter().map(|v| pt(*v).into()).collect();
            let mut dict = dictionary! {
                "Type" => "Annot",
                "Subtype" => "Link",
                "Rect" => rect,
                "Border" => vec![0.into(), 0.into(), 0.into()],
                "F" => 4,
                "Contents" => text(&link.href),
            };
            let inner = link.href.strip_prefix("#lesson-").and_then(|n| n.parse::<usize>().ok());
            if let Some(section) = inner {
                let target = document.sections.get(section).and_then(|s| pages.get(s.2));
                let Some(target) = target else { continue };
                dict.set("Dest", vec![Object::Reference(*target), Object::Name(b"Fit".to_vec())]);
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
