//! Page frames to PDF bytes. The only file that names printpdf.
//!
//! printpdf writes pages, paths and fonts; structure, bookmarks and fixed identifiers are added to its document
//! before it is saved. Same frames, same bytes: no clock, no random ids.

use std::collections::{BTreeMap, BTreeSet};

use printpdf::{
    Codepoint, Color, DictItem, FontId, Mm, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle,
    PdfPage, PdfSaveOptions, Pt, Rgb, TextItem, TextMatrix,
};
use subsetter::GlyphRemapper;

use crate::picture::{Paint, Path, Seg, Stroke};
use crate::render::pdf::face::{Face, bytes, file_advance};
use crate::render::pdf::frame::{Mark, Role};
use crate::render::pdf::paginate::Document;
use crate::render::pdf::structure::{Marked, role_name};
use crate::render::pdf::tags::finish;
use crate::render::pdf::text::{POINT, Run};

/// What stands in the document's properties.
#[derive(Clone, Debug, Default)]
pub struct Meta {
    /// Title.
    pub title: String,
    /// Who made it.
    pub author: String,
}

/// Writes a document.
#[must_use]
pub fn write(document: &Document, meta: &Meta) -> Vec<u8> {
    let fonts = subset_fonts(document);
    let mut pdf = PdfDocument::new(&meta.title);
    for (face, font) in &fonts {
        pdf.resources
            .fonts
            .map
            .insert(font_id(*face), PdfFont::new(font.parsed.clone()));
    }
    let mut marked: Marked = Vec::new();
    for page in &document.pages {
        let mut writer = PageWriter {
            ops: Vec::new(),
            fonts: &fonts,
            height: document.paper.1,
            nodes: Vec::new(),
        };
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
        if !page.furniture.is_empty() {
            writer.begin(None, document);
            page.furniture.iter().for_each(|mark| writer.mark(mark));
            writer.ops.push(Op::EndMarkedContent);
        }
        marked.push(writer.nodes);
        let (width, height) = document.paper;
        pdf.pages.push(PdfPage::new(
            Mm(width as f32),
            Mm(height as f32),
            writer.ops,
        ));
    }
    let options = PdfSaveOptions {
        optimize: true,
        subset_fonts: false,
        secure: false,
        image_optimization: None,
    };
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
    let marks = document.pages.iter().flat_map(|page| {
        let own = page.items.iter().map(|item| &item.mark);
        own.chain(&page.furniture)
    });
    for mark in marks {
        if let Mark::Run(run) = mark {
            used.entry(run.face)
                .or_default()
                .extend(run.glyphs.iter().map(|g| g.id));
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
        let Some(mut parsed) = ParsedFont::from_bytes(file, 0, &mut Vec::new()) else {
            continue;
        };
        // The built-in faces can be cut; were one not, it would be embedded whole, under its own glyph numbers.
        let Ok(cut) = subsetter::subset(file, 0, &remap) else {
            continue;
        };
        parsed.original_bytes = cut;
        parsed.glyph_widths = widths;
        parsed.codepoint_to_glyph.clear();
        parsed.font_name = Some(format!(
            "YOKEW{}+{}",
            char::from(b'A' + face as u8),
            font_name(face)
        ));
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
pub(super) fn pt(mm: f64) -> f32 {
    ((mm / POINT * 1000.0).round() / 1000.0) as f32
}

impl PageWriter<'_> {
    fn begin(&mut self, node: Option<usize>, document: &Document) {
        let Some(node) = node else {
            self.ops.push(Op::BeginMarkedContent {
                tag: "Artifact".to_owned(),
            });
            return;
        };
        let id = i64::try_from(self.nodes.len()).unwrap_or(0);
        self.nodes.push(node);
        let role = document
            .tree
            .nodes
            .get(node)
            .map_or(Role::Paragraph, |n| n.role);
        let map = BTreeMap::from([("MCID".to_owned(), DictItem::Int(id))]);
        self.ops.push(Op::BeginMarkedContentWithProperties {
            tag: role_name(role).to_owned(),
            properties: DictItem::Dict { map },
        });
    }

    fn raw(&mut self, key: &str, values: &[f32]) {
        let value = values.iter().map(|v| DictItem::Real(*v)).collect();
        self.ops.push(Op::Unknown {
            key: key.to_owned(),
            value,
        });
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
        self.ops.push(Op::SetOutlineColor {
            col: colour(stroke.paint),
        });
        self.raw("w", &[pt(stroke.width)]);
        let style = if stroke.round { 1 } else { 0 };
        for key in ["J", "j"] {
            self.ops.push(Op::Unknown {
                key: key.to_owned(),
                value: vec![DictItem::Int(style)],
            });
        }
        let dash = stroke
            .dash
            .map(|(on, off)| vec![DictItem::Real(pt(on)), DictItem::Real(pt(off))]);
        let value = vec![DictItem::Array(dash.unwrap_or_default()), DictItem::Int(0)];
        self.ops.push(Op::Unknown {
            key: "d".to_owned(),
            value,
        });
    }

    fn path(&mut self, path: &Path) {
        let at = |(x, y): (f64, f64)| (pt(x), pt(self.height - y));
        let mut ops: Vec<(&str, Vec<f32>)> = Vec::with_capacity(path.0.len());
        for seg in &path.0 {
            ops.push(match *seg {
                Seg::Move(p) => ("m", vec![at(p).0, at(p).1]),
                Seg::Line(p) => ("l", vec![at(p).0, at(p).1]),
                Seg::Curve(a, b, c) => (
                    "c",
                    vec![at(a).0, at(a).1, at(b).0, at(b).1, at(c).0, at(c).1],
                ),
                Seg::Close => ("h", Vec::new()),
            });
        }
        for (key, values) in ops {
            self.raw(key, &values);
        }
    }

    fn run(&mut self, run: &Run) {
        let Some(font) = self.fonts.get(&run.face) else {
            return;
        };
        let glyphs: Vec<Codepoint> = run
            .glyphs
            .iter()
            .map(|glyph| {
                let (advance, em) = file_advance(run.face, glyph.id);
                // The width that the file will name is cut to a whole number; the rest is made up for by hand.
                let named = (f32::from(advance) * 1000.0 / f32::from(em)) as i64 as f64;
                let offset = ((named - glyph.advance) * 100.0).round() / 100.0;
                Codepoint::with_cid(
                    font.remap.get(glyph.id).unwrap_or(0),
                    offset as f32,
                    glyph.text.clone(),
                )
            })
            .collect();
        self.fill_colour(run.paint);
        self.ops.push(Op::StartTextSection);
        self.ops.push(Op::SetFont {
            font: PdfFontHandle::External(font_id(run.face)),
            size: Pt(run.size as f32),
        });
        let (x, y) = (pt(run.x), pt(self.height - run.y));
        self.ops.push(Op::SetTextMatrix {
            matrix: TextMatrix::Translate(Pt(x), Pt(y)),
        });
        self.ops.push(Op::ShowText {
            items: vec![TextItem::GlyphIds(glyphs)],
        });
        self.ops.push(Op::EndTextSection);
    }
}

fn colour(paint: Paint) -> Color {
    let [r, g, b] = paint
        .rgb()
        .map(|v| ((f32::from(v) / 255.0) * 1000.0).round() / 1000.0);
    Color::Rgb(Rgb {
        r,
        g,
        b,
        icc_profile: None,
    })
}
