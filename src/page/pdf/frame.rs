//! Page frames: everything that stands on a page, in millimetres from its top left corner, with the block it belongs
//! to. The one place where structure and place meet, so tagging is done once, by the writer.

use std::sync::Arc;

use crate::page::pdf::text::Run;
use crate::picture::{Drawing, Paint, Path, Point, Seg, Stroke};

/// What a block is, in the terms of tagged PDF.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(
    missing_docs,
    reason = "each variant is a standard structure type of ISO 32000-1, 14.8.4"
)]
pub enum Role {
    Document,
    Section,
    H1,
    H2,
    H3,
    Paragraph,
    Quote,
    List,
    ListItem,
    Label,
    ListBody,
    Table,
    Row,
    ColumnHead,
    RowHead,
    Data,
    Figure,
    Caption,
    Code,
    Link,
}

impl Role {
    /// Whether words stand in it without a block of their own.
    const fn holds_words(self) -> bool {
        matches!(
            self,
            Self::Paragraph
                | Self::H1
                | Self::H2
                | Self::H3
                | Self::Label
                | Self::ListBody
                | Self::Caption
                | Self::Data
                | Self::RowHead
                | Self::ColumnHead
        )
    }
}

/// A node of the structure.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// What it is.
    pub role: Role,
    /// The node it belongs to.
    pub parent: usize,
    /// What a figure shows.
    pub alt: Option<String>,
    /// Text of a heading, for bookmarks.
    pub title: Option<String>,
}

/// The structure of a document in reading order; node 0 is the document.
#[derive(Clone, Debug, PartialEq)]
pub struct Tree {
    /// Nodes; a parent always stands before its children.
    pub nodes: Vec<Node>,
}

impl Default for Tree {
    fn default() -> Self {
        Self {
            nodes: vec![Node {
                role: Role::Document,
                parent: 0,
                alt: None,
                title: None,
            }],
        }
    }
}

impl Tree {
    /// Adds a node.
    pub fn add(&mut self, parent: usize, role: Role) -> usize {
        self.nodes.push(Node {
            role,
            parent,
            alt: None,
            title: None,
        });
        self.nodes.len() - 1
    }

    /// The place of each node when the structure is read from its beginning to its end.
    pub(super) fn ranks(&self) -> Vec<usize> {
        let mut children: Vec<Vec<usize>> = vec![Vec::new(); self.nodes.len()];
        for (at, node) in self.nodes.iter().enumerate().skip(1) {
            if let Some(of) = children.get_mut(node.parent) {
                of.push(at);
            }
        }
        // What stands in the middle of a line takes the place of the line.
        let in_line = |at: usize| {
            let node = self.nodes.get(at)?;
            let of = self.nodes.get(node.parent)?;
            let inner = matches!(node.role, Role::Link | Role::Figure);
            (inner && of.role.holds_words()).then_some(node.parent)
        };
        let mut ranks = vec![0; self.nodes.len()];
        let mut open = vec![0];
        let mut next = 0;
        while let Some(at) = open.pop() {
            let own = in_line(at).and_then(|of| ranks.get(of)).copied();
            if let Some(rank) = ranks.get_mut(at) {
                *rank = own.unwrap_or(next);
            }
            next += 1;
            open.extend(children.get(at).into_iter().flatten().rev());
        }
        ranks
    }

    /// Adds a figure with its alternative text.
    pub fn add_figure(&mut self, parent: usize, alt: &str) -> usize {
        let node = self.add(parent, Role::Figure);
        if let Some(figure) = self.nodes.get_mut(node) {
            figure.alt = Some(alt.to_owned());
        }
        node
    }
}

/// Something drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum PageMark {
    /// Text.
    Run(Run),
    /// A filled outline.
    Fill(Path, Paint),
    /// A line.
    Line(Path, Stroke),
    /// A filled outline with a line round it.
    Both(Path, Paint, Stroke),
    /// A whole drawing, while pages are laid out: each way of setting it and each place that is tried costs no more than a
    /// number. It is taken apart before its page is written.
    Drawing(Placed),
}

/// A drawing and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The drawing.
    pub(super) drawing: Arc<Drawing>,
    /// Where its own origin goes.
    pub(super) at: Point,
    /// Its scale.
    pub(super) scale: f64,
    /// Whether it is read with the page turned: its right edge at the head of the paper.
    pub(super) turned: bool,
}

/// Something drawn and the block it belongs to; `None`: furniture that readers skip.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What.
    pub mark: PageMark,
    /// Its node.
    pub node: Option<usize>,
    /// The node with whose content it is drawn; `None`: with what is drawn next.
    pub near: Option<usize>,
}

/// A link on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct LinkArea {
    /// Its node in the structure.
    pub node: usize,
    /// Left, top, right, bottom.
    pub area: (f64, f64, f64, f64),
    /// Address; `#lesson-3` leads to the third section.
    pub href: String,
}

impl LinkArea {
    /// The same elsewhere.
    pub(super) fn moved(&self, dx: f64, dy: f64) -> Self {
        let (x0, y0, x1, y1) = self.area;
        Self {
            area: (x0 + dx, y0 + dy, x1 + dx, y1 + dy),
            ..self.clone()
        }
    }
}

/// A page.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PageFrame {
    /// What stands on it, in drawing order.
    pub items: Vec<Item>,
    /// Running head and foot.
    pub furniture: Vec<PageMark>,
    /// Whether it has neither: a cover.
    pub bare: bool,
    /// Links.
    pub links: Vec<LinkArea>,
    /// Headings that begin on it: node and distance from the top.
    pub headings: Vec<(usize, f64)>,
}

/// A mark moved by so much.
pub(super) fn moved(mark: &PageMark, dx: f64, dy: f64) -> PageMark {
    let path = |path: &Path| path.placed((dx, dy), (1.0, 1.0));
    match mark {
        PageMark::Run(run) => PageMark::Run(Run {
            x: run.x + dx,
            y: run.y + dy,
            ..run.clone()
        }),
        PageMark::Fill(p, paint) => PageMark::Fill(path(p), *paint),
        PageMark::Line(p, stroke) => PageMark::Line(path(p), *stroke),
        PageMark::Both(p, paint, stroke) => PageMark::Both(path(p), *paint, *stroke),
        PageMark::Drawing(placed) => PageMark::Drawing(Placed {
            at: (placed.at.0 + dx, placed.at.1 + dy),
            ..placed.clone()
        }),
    }
}

/// A mark of a page that is `width` wide and read turned, its right edge at the head of the paper.
pub(super) fn turned_mark(mark: &PageMark, width: f64) -> PageMark {
    let turn = |(x, y): Point| (y, width - x);
    let path = |path: &Path| {
        let segs = path.0.iter().map(|seg| match *seg {
            Seg::Move(p) => Seg::Move(turn(p)),
            Seg::Line(p) => Seg::Line(turn(p)),
            Seg::Curve(a, b, c) => Seg::Curve(turn(a), turn(b), turn(c)),
            Seg::Close => Seg::Close,
        });
        Path(segs.collect())
    };
    match mark {
        PageMark::Run(run) => {
            let (x, y) = turn((run.x, run.y));
            PageMark::Run(Run {
                x,
                y,
                turned: true,
                ..run.clone()
            })
        }
        PageMark::Fill(p, paint) => PageMark::Fill(path(p), *paint),
        PageMark::Line(p, stroke) => PageMark::Line(path(p), *stroke),
        PageMark::Both(p, paint, stroke) => PageMark::Both(path(p), *paint, *stroke),
        PageMark::Drawing(placed) => PageMark::Drawing(Placed {
            at: turn(placed.at),
            turned: true,
            ..placed.clone()
        }),
    }
}

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
