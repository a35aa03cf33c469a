//! Page frames to PDF bytes. Only this folder names printpdf.
//!
//! printpdf writes fonts; contents of pages are written here, and structure, bookmarks and fixed identifiers are added before
//! a file is saved. Same frames, same bytes: no clock, no random ids.

mod fonts;
mod handles;

use std::fmt::Write as _;

use crate::page::number::{push_hundredths, push_number};
use crate::page::pdf::face::Face;
use crate::page::pdf::frame::{Item, Node, PageMark, Role, role_name};
use crate::page::pdf::text::{POINT, Run, pt};
use crate::picture::{Paint, Path, Seg, Stroke};

pub(super) use fonts::{FontObjects, Glyphs, fonts};

use handles::{font_id, offset};

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

/// What is written on a page `height` millimetres high.
pub(super) fn content(leaf: &Leaf<'_>, height: f64) -> Content {
    let mut writer = PageWriter {
        out: String::with_capacity(leaf.items.iter().map(|item| room(&item.mark)).sum()),
        height,
        nodes: Vec::new(),
        fill: None,
        stroke: None,
    };
    let mut open: Option<Option<usize>> = None;
    for item in leaf.items {
        if open != Some(item.node) {
            if open.is_some() {
                writer.line("EMC");
            }
            writer.begin(item.node, leaf);
            open = Some(item.node);
        }
        writer.mark(&item.mark);
    }
    // A page on which nothing stands is still a stream.
    match open {
        Some(_) => writer.line("EMC"),
        None => writer.line(""),
    }
    Content {
        bytes: writer.out.into_bytes(),
        nodes: writer.nodes,
    }
}

/// About how many bytes a mark is written in.
fn room(mark: &PageMark) -> usize {
    match mark {
        PageMark::Run(run) => 64 + 12 * run.glyphs.len(),
        PageMark::Fill(path, _) | PageMark::Line(path, _) | PageMark::Both(path, ..) => {
            48 + 24 * path.0.len()
        }
        PageMark::Drawing(_) => 0,
    }
}

/// The resource name of a face.
pub(super) fn font_name_of(face: Face) -> String {
    font_id(face).0
}

/// Writes the operators of a page, ISO 32000-1, 8 and 9; the few that we need, straight into text: a page of stitches has
/// some ten thousand numbers.
struct PageWriter {
    out: String,
    height: f64,
    nodes: Vec<usize>,
    /// The colour and the line in force.
    fill: Option<Paint>,
    stroke: Option<Stroke>,
}

impl PageWriter {
    fn line(&mut self, text: &str) {
        self.out.push_str(text);
        self.out.push('\n');
    }

    fn begin(&mut self, node: Option<usize>, leaf: &Leaf<'_>) {
        let Some(node) = node else {
            self.line("/Artifact BMC");
            return;
        };
        let id = self.nodes.len();
        self.nodes.push(node);
        let found = leaf.nodes.get(node);
        let role = found.map_or(Role::Paragraph, |node| node.role);
        let name = role_name(role);
        self.line(&format!("/{name} <</MCID {id}>> BDC"));
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
            // Taken apart before its page is written.
            PageMark::Drawing(_) => {}
        }
    }

    fn colour(&mut self, paint: Paint, operator: &str) {
        for v in paint.rgb() {
            push_number(&mut self.out, f64::from(v) / 255.0);
            self.out.push(' ');
        }
        self.line(operator);
    }

    fn fill_colour(&mut self, paint: Paint) {
        if self.fill.replace(paint) != Some(paint) {
            self.colour(paint, "rg");
        }
    }

    fn stroke_style(&mut self, stroke: &Stroke) {
        if self.stroke.replace(*stroke) == Some(*stroke) {
            return;
        }
        self.colour(stroke.paint, "RG");
        self.points(stroke.width);
        self.line(" w");
        self.line(if stroke.round { "1 J\n1 j" } else { "0 J\n0 j" });
        self.out.push('[');
        if let Some((on, off)) = stroke.dash {
            self.points(on);
            self.out.push(' ');
            self.points(off);
        }
        self.line("] 0 d");
    }

    /// A length as points.
    fn points(&mut self, millimetres: f64) {
        push_number(&mut self.out, f64::from(pt(millimetres)));
    }

    fn path(&mut self, path: &Path, paint: &str) {
        for seg in &path.0 {
            match *seg {
                Seg::Move(p) => self.step(&[p], "m "),
                Seg::Line(p) => self.step(&[p], "l "),
                Seg::Curve(a, b, c) => self.step(&[a, b, c], "c "),
                Seg::Close => self.out.push_str("h "),
            }
        }
        self.line(paint);
    }

    /// Points to a hundredth of a point, less than a printer shows.
    fn step(&mut self, points: &[(f64, f64)], operator: &str) {
        for (x, y) in points {
            push_hundredths(&mut self.out, x / POINT);
            self.out.push(' ');
            push_hundredths(&mut self.out, (self.height - y) / POINT);
            self.out.push(' ');
        }
        self.out.push_str(operator);
    }

    fn run(&mut self, run: &Run) {
        self.fill_colour(run.paint);
        let _ = write!(
            self.out,
            "BT\n/{} {} Tf\n",
            font_id(run.face).0,
            run.size as f32
        );
        let matrix = if run.turned { "0 1 -1 0 " } else { "1 0 0 1 " };
        self.out.push_str(matrix);
        self.points(run.x);
        self.out.push(' ');
        self.points(self.height - run.y);
        self.out.push_str(" Tm\n[");
        for glyph in run.glyphs.iter() {
            let _ = write!(self.out, "<{:04X}>", glyph.id);
            let offset = offset(run.face, glyph);
            if offset != 0.0 {
                let _ = write!(self.out, " {offset}");
            }
        }
        self.out.push_str("] TJ\nET\n");
    }
}
