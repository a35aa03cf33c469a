//! One tree of blocks for every output, so that HTML, PDF and Markdown cannot disagree.

mod parse;

use std::sync::Arc;

pub use parse::{Directives, Problem, parse, problems};

use crate::picture::Drawing;

/// Running text.
#[derive(Clone, Debug, PartialEq)]
pub enum Inline {
    /// Words.
    Text(String),
    /// Stressed.
    Strong(Vec<Inline>),
    /// Lightly stressed; printed as running text, since italics are hard to read.
    Emphasis(Vec<Inline>),
    /// Code or a literal.
    Code(String),
    /// A link whose address is safe.
    Link {
        /// Where it leads.
        href: String,
        /// Its words.
        text: Vec<Inline>,
    },
    /// A new line.
    Break,
}

/// The words of running text, without their form.
#[must_use]
pub fn plain(inlines: &[Inline]) -> String {
    inlines
        .iter()
        .map(|inline| match inline {
            Inline::Text(text) | Inline::Code(text) => text.clone(),
            Inline::Strong(inner) | Inline::Emphasis(inner) | Inline::Link { text: inner, .. } => {
                plain(inner)
            }
            Inline::Break => " ".to_owned(),
        })
        .collect()
}

/// How a column of a table is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Words.
    Left,
    /// Marks.
    Centre,
    /// Figures.
    Right,
}

/// A cell of a table: running text, with a small drawing before it if there is one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// A small drawing.
    pub chip: Option<Arc<Drawing>>,
    /// Text.
    pub text: Vec<Inline>,
}

impl Cell {
    /// A cell of words.
    #[must_use]
    pub fn words(text: impl Into<String>) -> Self {
        Self {
            chip: None,
            text: vec![Inline::Text(text.into())],
        }
    }

    /// A cell that stands out.
    #[must_use]
    pub fn strong(text: impl Into<String>) -> Self {
        Self {
            chip: None,
            text: vec![Inline::Strong(vec![Inline::Text(text.into())])],
        }
    }
}

/// A table with a head; the first cell of a row is its name.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// Heads.
    pub head: Vec<Cell>,
    /// Rows.
    pub rows: Vec<Vec<Cell>>,
    /// Columns.
    pub align: Vec<Align>,
    /// A row that stands out: the learner's own size.
    pub yours: Option<usize>,
    /// Set small: many columns of words.
    pub fine: bool,
}

impl Table {
    /// A table in which no row stands out.
    #[must_use]
    pub const fn new(head: Vec<Cell>, rows: Vec<Vec<Cell>>, align: Vec<Align>) -> Self {
        Self {
            head,
            rows,
            align,
            yours: None,
            fine: false,
        }
    }
}

/// How a paragraph is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Running text.
    Body,
    /// Running text where room is short, as in boxes.
    Fine,
    /// Small print, captions.
    Small,
}

/// One bar of the measures.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// The part.
    pub name: String,
    /// The bar.
    pub drawing: Arc<Drawing>,
    /// A verdict.
    pub verdict: String,
    /// The fact.
    pub fact: String,
}

/// A row in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowLine {
    /// Its name.
    pub label: String,
    /// Its words.
    pub words: String,
    /// How often it is worked: a box to tick off for each time.
    pub boxes: usize,
}

/// A numbered step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Its name.
    pub title: String,
    /// What to do.
    pub text: Vec<Inline>,
    /// Rounds to tick off.
    pub boxes: usize,
    /// Stripes to work one after the other: a chip of the yarn, words, rounds to tick off.
    pub stripes: Vec<(Arc<Drawing>, String, usize)>,
}

/// One way of setting something.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Blocks that stand together.
    pub blocks: Vec<Block>,
    /// What is read with them: after them, on the same page or on one that faces it.
    pub after: Vec<Block>,
    /// What follows, wherever.
    pub rest: Vec<Block>,
    /// How large it is: the larger, the better.
    pub worth: f64,
    /// Whether a smaller one may be taken where that saves a page.
    pub shrinks: bool,
}

impl Setting {
    /// Blocks that stand together, worth so much as they are.
    #[must_use]
    pub fn new(blocks: Vec<Block>, worth: f64) -> Self {
        Self {
            blocks,
            after: Vec::new(),
            rest: Vec::new(),
            worth,
            shrinks: false,
        }
    }
}

/// A block.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading, 1 to 4.
    Heading(u8, Vec<Inline>),
    /// A paragraph.
    Paragraph(Tone, Vec<Inline>),
    /// A list; the number it starts at if ordered.
    List(Option<u64>, Vec<Vec<Block>>),
    /// A table with a head.
    Table(Table),
    /// A drawing with a caption; `name` is its file beside the handout, if it has one.
    Figure {
        /// The drawing.
        drawing: Arc<Drawing>,
        /// Words under it.
        caption: Vec<Inline>,
        /// File stem.
        name: Option<String>,
    },
    /// A quotation.
    Quote(Vec<Block>),
    /// Lines as written.
    Code(String),
    /// A line between parts.
    Rule,
    /// A new page, unless so many millimetres are left on this one (0: always).
    Page(u16),
    /// A lesson's front: number, of how many, title, lead, climb.
    Front {
        /// Place in the order.
        number: usize,
        /// Lessons in all.
        of: usize,
        /// Title.
        title: String,
        /// Lead.
        lead: Vec<Block>,
        /// Climb.
        climb: Arc<Drawing>,
    },
    /// What is new: intro, then titles with text.
    New(Vec<Inline>, Vec<(String, Vec<Inline>)>),
    /// Measures with their bars, and what the mark under a bar means; empty where none stands there.
    Measures(Vec<Bar>, String),
    /// Legend: small drawings with words.
    Legend(Vec<(Arc<Drawing>, String)>),
    /// Rows in words.
    Rows(Vec<RowLine>),
    /// Numbered steps.
    Steps(Vec<Step>),
    /// Things to tick.
    Checks(Vec<Vec<Inline>>),
    /// A cover: title, what stands under it, its picture.
    Cover {
        /// Title.
        title: String,
        /// Under the title.
        lead: Vec<Block>,
        /// The picture.
        picture: Arc<Drawing>,
        /// At the foot.
        imprint: Vec<Block>,
    },
    /// Something that can be set in several ways, the best first; on a screen it is set in the best.
    Fit(Vec<Setting>),
    /// Read with the page turned, on paper, where it fits a page so.
    Turned(Vec<Block>),
    /// A technique card.
    Card(Vec<Block>),
    /// Cautions.
    Caution(Vec<Block>),
    /// Columns side by side; each with its share of twelve.
    Columns(Vec<(f64, Vec<Block>)>),
}

impl Block {
    /// The blocks that stand in it: of several ways of setting the best.
    #[must_use]
    pub fn inner(&self) -> Vec<&[Block]> {
        match self {
            Self::Columns(columns) => columns.iter().map(|(_, inner)| inner.as_slice()).collect(),
            Self::Fit(ways) => ways.first().map_or_else(Vec::new, |way| {
                vec![
                    way.blocks.as_slice(),
                    way.after.as_slice(),
                    way.rest.as_slice(),
                ]
            }),
            Self::Turned(inner) | Self::Card(inner) | Self::Caution(inner) | Self::Quote(inner) => {
                vec![inner]
            }
            _ => Vec::new(),
        }
    }
}
