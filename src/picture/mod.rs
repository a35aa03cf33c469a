//! Drawings in millimetres, y downwards: no paper, no file format. SVG and PDF paint the same shapes, so they cannot
//! disagree.

mod bars;
mod cells;
mod chart;
mod circle;
mod climb;
mod courses;
mod fabric;
mod frame;
mod glance;
mod jersey;
mod ladder;
mod marks;
mod pair;
mod parts;
mod register;
mod rulers;
mod shown;
mod strata;
mod technique;
mod tones;
mod transform;
mod tube;

pub use bars::measure_bar;
pub use cells::mark_chip;
pub use circle::{YokeCircle, yoke_circle};
pub use climb::{Rung, climb};
pub use courses::{DrawnCourse, Look};
pub use fabric::{Fabric, cloth, fabric};
pub use glance::{glance, shared_columns};
pub use jersey::{JerseyShape, jersey_shape};
pub use ladder::{LadderRung, ladder};
pub use marks::{Symbol, staple, swatch_chip, symbol_order, tag_chip};
pub use pair::beside;
pub use parts::{ChartPart, LARGE, LARGE_WORDS, WIDEST, parts_of};
pub use register::register;
pub use rulers::{check_ruler, life_size_float};
pub use shown::{ChartPicture, InkLook, Strand};
pub use strata::strata;
pub use technique::{TECHNIQUES, technique};
pub use tones::in_greys;
pub use tube::{Tube, tube};

use crate::ground::colour::Rgb;

/// A named colour of the page, or the colour of a yarn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Paint {
    /// Text, rules, frames.
    Ink,
    /// Captions, table heads, notes.
    Text2,
    /// Thin frames.
    Rule,
    /// Table lines.
    Hair,
    /// The sea colour.
    Estuary,
    /// Its middle tint.
    Mid,
    /// Its palest tint.
    Wash,
    /// "Watch here", and nothing else.
    Buoy,
    /// Paper.
    White,
    /// The thin line between chart cells.
    CellLine,
    /// A yarn.
    Yarn(Rgb),
}

impl Paint {
    /// Its colour in print.
    #[must_use]
    pub const fn rgb(self) -> Rgb {
        match self {
            Self::Ink => [0x1b, 0x22, 0x25],
            Self::Text2 => [0x46, 0x50, 0x55],
            Self::Rule => [0x86, 0x91, 0x95],
            Self::Hair => [0xc6, 0xcd, 0xd0],
            Self::Estuary => [0x16, 0x4a, 0x5b],
            Self::Mid => [0x6b, 0x95, 0xa3],
            Self::Wash => [0xe4, 0xed, 0xf0],
            Self::Buoy => [0xa5, 0x30, 0x0d],
            Self::White => [0xff, 0xff, 0xff],
            Self::CellLine => [0x8f, 0x8a, 0x86],
            Self::Yarn(rgb) => rgb,
        }
    }

    /// The paint for a printer of black only: the page's colours as ink, grey or paper.
    #[must_use]
    pub const fn in_black(self) -> Self {
        match self {
            Self::Estuary | Self::Buoy => Self::Ink,
            Self::Mid => Self::Yarn([0x8a; 3]),
            Self::Wash => Self::White,
            other => other,
        }
    }
}

/// A place, x to the right and y down, in millimetres.
pub type Point = (f64, f64);

/// A piece of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seg {
    /// Begins at a place.
    Move(Point),
    /// A straight line.
    Line(Point),
    /// A Bézier curve: two control points, then the end.
    Curve(Point, Point, Point),
    /// Back to the last beginning.
    Close,
}

/// An outline.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path(pub Vec<Seg>);

impl Path {
    /// A line from place to place.
    #[must_use]
    pub fn line(points: &[Point]) -> Self {
        let mut path = Self::default();
        path.add_line(points);
        path
    }

    /// Adds a line.
    pub fn add_line(&mut self, points: &[Point]) {
        self.add_steps(points.iter().copied());
    }

    fn add_steps(&mut self, points: impl Iterator<Item = Point>) {
        let mut begins = true;
        let step = |p| match std::mem::take(&mut begins) {
            true => Seg::Move(p),
            false => Seg::Line(p),
        };
        self.0.extend(points.map(step));
    }

    /// A closed shape with these corners.
    #[must_use]
    pub fn polygon(points: &[Point]) -> Self {
        let mut path = Self::default();
        path.add_polygon(points.iter().copied());
        path
    }

    /// Adds a closed shape with these corners.
    pub fn add_polygon(&mut self, points: impl Iterator<Item = Point>) {
        self.add_steps(points);
        self.0.push(Seg::Close);
    }

    /// A rectangle.
    #[must_use]
    pub fn rect(x: f64, y: f64, width: f64, height: f64) -> Self {
        let mut path = Self::default();
        path.add_rect(x, y, width, height);
        path
    }

    /// Adds a rectangle.
    pub fn add_rect(&mut self, x: f64, y: f64, width: f64, height: f64) {
        self.add_line(&[
            (x, y),
            (x + width, y),
            (x + width, y + height),
            (x, y + height),
        ]);
        self.0.push(Seg::Close);
    }

    /// A circle, as four curves.
    #[must_use]
    pub fn circle(x: f64, y: f64, r: f64) -> Self {
        let mut path = Self::default();
        path.add_circle(x, y, r);
        path
    }

    /// Adds a circle.
    pub fn add_circle(&mut self, x: f64, y: f64, r: f64) {
        // 0.5523 makes a Bézier quarter circle (error below 0.03 % of r).
        let k = 0.5523 * r;
        self.0.push(Seg::Move((x + r, y)));
        self.0
            .push(Seg::Curve((x + r, y + k), (x + k, y + r), (x, y + r)));
        self.0
            .push(Seg::Curve((x - k, y + r), (x - r, y + k), (x - r, y)));
        self.0
            .push(Seg::Curve((x - r, y - k), (x - k, y - r), (x, y - r)));
        self.0
            .push(Seg::Curve((x + k, y - r), (x + r, y - k), (x + r, y)));
        self.0.push(Seg::Close);
    }

    /// The path scaled, then moved.
    #[must_use]
    pub fn placed(&self, (x, y): Point, (sx, sy): Point) -> Self {
        let at = |(px, py): Point| (x + px * sx, y + py * sy);
        Self(
            self.0
                .iter()
                .map(|seg| match *seg {
                    Seg::Move(p) => Seg::Move(at(p)),
                    Seg::Line(p) => Seg::Line(at(p)),
                    Seg::Curve(a, b, c) => Seg::Curve(at(a), at(b), at(c)),
                    Seg::Close => Seg::Close,
                })
                .collect(),
        )
    }
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Colour.
    pub paint: Paint,
    /// Width in millimetres.
    pub width: f64,
    /// Dash and gap in millimetres.
    pub dash: Option<(f64, f64)>,
    /// Round ends and corners.
    pub round: bool,
}

impl Stroke {
    /// A plain line.
    #[must_use]
    pub const fn new(paint: Paint, width: f64) -> Self {
        Self {
            paint,
            width,
            dash: None,
            round: false,
        }
    }
}

/// Where a label's x lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// At its left end.
    Start,
    /// At its middle.
    Middle,
    /// At its right end.
    End,
}

/// Weights of the text face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Weight {
    /// 400.
    Regular,
    /// 600.
    SemiBold,
    /// 700.
    Bold,
}

/// A word or number in a drawing. Not running text: readers get the drawing's alternative text instead.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The baseline's place.
    pub at: Point,
    /// The words.
    pub text: String,
    /// Size in points.
    pub size: f64,
    /// Weight.
    pub weight: Weight,
    /// Colour.
    pub paint: Paint,
    /// Where x lies.
    pub anchor: Anchor,
}

/// A shape of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A filled outline.
    Fill(Path, Paint),
    /// A drawn line.
    Line(Path, Stroke),
    /// One outline at many places, each with its scale: leaves of stitches, symbols.
    Stamps {
        /// The outline in its own small unit.
        path: Path,
        /// How it is filled.
        fill: Option<Paint>,
        /// How it is outlined; the width is in millimetres, not scaled.
        outline: Option<Stroke>,
        /// Places.
        at: Vec<Point>,
        /// Scale.
        scale: Point,
    },
    /// A word or number.
    Label(Label),
}

/// A finished drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// Width in millimetres.
    pub width: f64,
    /// Height in millimetres.
    pub height: f64,
    /// Shapes, the lowest first.
    pub shapes: Vec<Shape>,
    /// What it shows, for those who do not see it. Empty for decoration.
    pub alt: String,
    /// Where numbered things lie in it, rows of a chart or lessons of a ladder: number, then left, top, width, height.
    pub areas: Vec<(usize, [f64; 4])>,
}

/// How wide a text of so many points is, in millimetres, rather more than less: pictures are drawn before type is measured.
pub(super) fn letters(text: &str, points: f64) -> f64 {
    LETTER * points * text.chars().count() as f64
}

/// Width of a letter of one point, in millimetres: more than the mean of labels and names.
const LETTER: f64 = 0.19;

impl Drawing {
    /// An empty drawing of this size.
    #[must_use]
    pub fn new(width: f64, height: f64, alt: impl Into<String>) -> Self {
        Self {
            width,
            height,
            shapes: Vec::new(),
            alt: alt.into(),
            areas: Vec::new(),
        }
    }

    /// Whether words stand in it, which must not get too small to read.
    #[must_use]
    pub fn has_words(&self) -> bool {
        self.shapes
            .iter()
            .any(|shape| matches!(shape, Shape::Label(_)))
    }

    /// Adds a filled outline.
    pub fn fill(&mut self, path: Path, paint: Paint) {
        self.shapes.push(Shape::Fill(path, paint));
    }

    /// Adds a line.
    pub fn line(&mut self, path: Path, stroke: Stroke) {
        self.shapes.push(Shape::Line(path, stroke));
    }

    /// Adds a label.
    pub fn label(
        &mut self,
        at: Point,
        text: impl Into<String>,
        size: f64,
        weight: Weight,
        anchor: Anchor,
    ) {
        self.label_in(at, text, size, weight, anchor, Paint::Ink);
    }

    /// Adds a label in a colour.
    pub fn label_in(
        &mut self,
        at: Point,
        text: impl Into<String>,
        size: f64,
        weight: Weight,
        anchor: Anchor,
        paint: Paint,
    ) {
        self.shapes.push(Shape::Label(Label {
            at,
            text: text.into(),
            size,
            weight,
            paint,
            anchor,
        }));
    }
}
