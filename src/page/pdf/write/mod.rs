//! Page frames to PDF bytes. Only this folder names printpdf.
//!
//! printpdf writes pages, paths and fonts; structure, bookmarks and fixed identifiers are added to its document
//! before it is saved. Same frames, same bytes: no clock, no random ids.

mod fonts;
mod handles;

use std::collections::BTreeMap;

use printpdf::{
    Codepoint, Color, DictItem, Mm, Op, PdfDocument, PdfFont, PdfFontHandle, PdfPage, Pt, Rgb,
    TextItem, TextMatrix,
};

use crate::page::number::push_number;
use crate::page::pdf::face::Face;
use crate::page::pdf::frame::{Item, Node, PageMark, Role, role_name};
use crate::page::pdf::text::{POINT, Run, pt};
use crate::picture::{Paint, Path, Seg, Stroke};

pub(super) use fonts::{FontObjects, Glyphs, fonts};

use fonts::faces;
use handles::{codepoint, font_id, to_lopdf};

/// What stands in the document's properties.
#[derive(Clone, Debug, Default)]
pub struct Meta {
    /// Title.
    pub title: String,
    /// Who made it.
    pub author: String,
}

/// The content of a page, and the node of each piece of marked content on it.
#[derive(Clone, Debug)]
pub(super) struct Content {
    /// Operators, not yet compressed.
    pub(super) bytes: Vec<u8>,
    /// The nodes, as the page's items name them.
    pub(super) nodes: Vec<usize>,
}

/// A page to be written: its items, and the nodes that they name.
#[derive(Clone, Copy)]
pub(super) struct Leaf<'a> {
    pub(super) items: &'a [Item],
    pub(super) nodes: &'a [Node],
}

/// What is written on pages: contents in the same order.
pub(super) fn contents(pages: &[Leaf<'_>], (width, height): (f64, f64)) -> Vec<Content> {
    let mut pdf = PdfDocument::new("");
    for (face, font) in faces() {
        let font = PdfFont::new(font.clone());
        pdf.resources.fonts.map.insert(font_id(*face), font);
    }
    let mut nodes = Vec::with_capacity(pages.len());
    for leaf in pages {
        let mut writer = PageWriter {
            ops: Vec::new(),
            height,
            nodes: Vec::new(),
            fill: None,
            stroke: None,
        };
        let mut open: Option<Option<usize>> = None;
        for item in leaf.items {
            if open != Some(item.node) {
                if open.is_some() {
                    writer.ops.push(Op::EndMarkedContent);
                }
                writer.begin(item.node, leaf);
                open = Some(item.node);
            }
            writer.mark(&item.mark);
        }
        if open.is_some() {
            writer.ops.push(Op::EndMarkedContent);
        }
        nodes.push(writer.nodes);
        let (width, height) = (Mm(width as f32), Mm(height as f32));
        pdf.pages.push(PdfPage::new(width, height, writer.ops));
    }
    let file = to_lopdf(pdf);
    let each = file.get_pages().into_values().zip(nodes);
    each.map(|(page, nodes)| Content {
        bytes: file.get_page_content(page),
        nodes,
    })
    .collect()
}

/// The resource name of a face.
pub(super) fn font_name_of(face: Face) -> String {
    font_id(face).0
}

struct PageWriter {
    ops: Vec<Op>,
    height: f64,
    nodes: Vec<usize>,
    /// The colour and the line in force.
    fill: Option<Paint>,
    stroke: Option<Stroke>,
}

impl PageWriter {
    fn begin(&mut self, node: Option<usize>, leaf: &Leaf<'_>) {
        let Some(node) = node else {
            self.ops.push(Op::BeginMarkedContent {
                tag: "Artifact".to_owned(),
            });
            return;
        };
        let id = i64::try_from(self.nodes.len()).unwrap_or(0);
        self.nodes.push(node);
        let found = leaf.nodes.get(node);
        let role = found.map_or(Role::Paragraph, |node| node.role);
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

    fn mark(&mut self, mark: &PageMark) {
        match mark {
            PageMark::Fill(path, _) | PageMark::Line(path, _) | PageMark::Both(path, ..)
                if path.0.is_empty() => {}
            PageMark::Run(run) => self.run(run),
            PageMark::Fill(path, paint) => {
                self.fill_colour(*paint);
                self.path(path, "f");
            }
            PageMark::Line(path, stroke) => {
                self.stroke_style(stroke);
                self.path(path, "S");
            }
            PageMark::Both(path, paint, stroke) => {
                self.fill_colour(*paint);
                self.stroke_style(stroke);
                self.path(path, "B");
            }
        }
    }

    fn fill_colour(&mut self, paint: Paint) {
        if self.fill.replace(paint) == Some(paint) {
            return;
        }
        self.ops.push(Op::SetFillColor { col: colour(paint) });
    }

    fn stroke_style(&mut self, stroke: &Stroke) {
        if self.stroke.replace(*stroke) == Some(*stroke) {
            return;
        }
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

    /// A path with the operator that paints it. printpdf hands on what it does not know as it is; a whole path as one
    /// such operator spares it some ten thousand small ones on a page of stitches.
    fn path(&mut self, path: &Path, paint: &str) {
        let mut text = String::with_capacity(path.0.len() * 20);
        let mut put = |points: &[(f64, f64)], operator: &str| {
            for (x, y) in points {
                push_number(&mut text, hundredth(x / POINT));
                text.push(' ');
                push_number(&mut text, hundredth((self.height - y) / POINT));
                text.push(' ');
            }
            text.push_str(operator);
        };
        for seg in &path.0 {
            match *seg {
                Seg::Move(p) => put(&[p], "m "),
                Seg::Line(p) => put(&[p], "l "),
                Seg::Curve(a, b, c) => put(&[a, b, c], "c "),
                Seg::Close => put(&[], "h "),
            }
        }
        text.push_str(paint);
        self.raw(&text, &[]);
    }

    fn run(&mut self, run: &Run) {
        let glyphs = run.glyphs.iter();
        let glyphs: Vec<Codepoint> = glyphs.map(|glyph| codepoint(run.face, glyph)).collect();
        self.fill_colour(run.paint);
        self.ops.push(Op::StartTextSection);
        self.ops.push(Op::SetFont {
            font: PdfFontHandle::External(font_id(run.face)),
            size: Pt(run.size as f32),
        });
        let (x, y) = (pt(run.x), pt(self.height - run.y));
        let matrix = match run.turned {
            false => TextMatrix::Translate(Pt(x), Pt(y)),
            true => TextMatrix::Raw([0.0, 1.0, -1.0, 0.0, x, y]),
        };
        self.ops.push(Op::SetTextMatrix { matrix });
        self.ops.push(Op::ShowText {
            items: vec![TextItem::GlyphIds(glyphs)],
        });
        self.ops.push(Op::EndTextSection);
    }
}

/// To a hundredth of a point, less than a printer shows.
fn hundredth(points: f64) -> f64 {
    (points * 100.0).round() / 100.0
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
