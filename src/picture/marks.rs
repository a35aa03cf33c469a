//! Symbols by darkness and the marks of shaping: ink grows with darkness, so a black-and-white chart reads as the
//! picture.

use crate::ground::colour::{Rgb, lightness, mark_on};
use crate::picture::{Anchor, Drawing, Paint, Path, Seg, Shape, Stroke, Weight};

/// A colour's symbol.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Symbol {
    /// Nothing: the lightest.
    Blank,
    /// A dot.
    Dot,
    /// A ring.
    Ring,
    /// A diamond.
    Diamond,
    /// A frame with a hole.
    Frame,
    /// A square: the darkest.
    Square,
}

/// The symbol of each colour: lightest first, the darkest always a square. Beyond six colours the middle ones share.
#[must_use]
pub fn symbol_order(colours: &[Rgb]) -> Vec<Symbol> {
    use Symbol::{Blank, Diamond, Dot, Frame, Ring, Square};
    let mut order: Vec<usize> = (0..colours.len()).collect();
    order.sort_by(|&a, &b| {
        lightness(colours[b])
            .total_cmp(&lightness(colours[a]))
            .then(a.cmp(&b))
    });
    let middle: &[Symbol] = match colours.len() {
        0..=2 => &[],
        3 => &[Dot],
        4 => &[Dot, Ring],
        5 => &[Dot, Ring, Diamond],
        _ => &[Dot, Ring, Diamond, Frame],
    };
    let mut symbols = vec![Blank; colours.len()];
    let last = colours.len().saturating_sub(1);
    for (place, &colour) in order.iter().enumerate() {
        symbols[colour] = match place {
            0 => Blank,
            p if p == last => Square,
            p => middle
                .get(p - 1)
                .or(middle.last())
                .copied()
                .unwrap_or(Frame),
        };
    }
    symbols
}

impl Symbol {
    /// The outline in a box of 1 around the middle; a ring is stroked, the others filled.
    fn path(self) -> Option<Path> {
        Some(match self {
            Self::Blank => return None,
            Self::Dot => Path::circle(0.0, 0.0, 0.24),
            Self::Ring => Path::circle(0.0, 0.0, 0.40),
            Self::Diamond => Path::polygon(&[(0.0, -0.5), (0.5, 0.0), (0.0, 0.5), (-0.5, 0.0)]),
            Self::Square => Path::rect(-0.5, -0.5, 1.0, 1.0),
            Self::Frame => {
                let mut path = Path::rect(-0.5, -0.5, 1.0, 1.0);
                // The hole runs the other way round, so that filling leaves it out.
                path.add_line(&[(-0.2, -0.2), (-0.2, 0.2), (0.2, 0.2), (0.2, -0.2)]);
                path.0.push(Seg::Close);
                path
            }
        })
    }

    /// The symbol at many places, `size` millimetres large; `None` for a blank.
    #[must_use]
    pub fn stamps(self, at: Vec<(f64, f64)>, size: f64, paint: Paint) -> Option<Shape> {
        let path = self.path()?;
        let ring = self == Self::Ring;
        Some(Shape::Stamps {
            path,
            fill: (!ring).then_some(paint),
            outline: ring.then_some(Stroke::new(paint, 0.17 * size)),
            at,
            scale: (size, size),
        })
    }
}

/// Colour of a symbol: on a yarn's fill tinted for contrast, without fills ink.
#[must_use]
pub(super) fn symbol_paint(yarn: Rgb, fills: bool) -> Paint {
    if fills {
        Paint::Yarn(mark_on(yarn, Paint::Ink.rgb()))
    } else {
        Paint::Ink
    }
}

/// Size of a symbol in a cell `height` high: small on fills, large without.
#[must_use]
pub(super) fn symbol_size(height: f64, fills: bool) -> f64 {
    height * if fills { 0.30 } else { 0.62 }
}

/// A legend's cell: the yarn with its symbol in an ink frame.
#[must_use]
pub fn swatch_chip(
    yarn: Rgb,
    symbol: Symbol,
    (width, height): (f64, f64),
    fills: bool,
    name: &str,
) -> Drawing {
    let mut drawing = Drawing::new(width, height, name);
    let fill = if fills {
        Paint::Yarn(yarn)
    } else {
        Paint::White
    };
    drawing.fill(Path::rect(0.0, 0.0, width, height), fill);
    let size = symbol_size(height, fills);
    drawing.shapes.extend(symbol.stamps(
        vec![(width / 2.0, height / 2.0)],
        size,
        symbol_paint(yarn, fills),
    ));
    drawing.line(
        Path::rect(0.0, 0.0, width, height),
        Stroke::new(Paint::Ink, 0.35),
    );
    drawing
}

/// The tag of a row of one colour, for a key.
#[must_use]
pub fn tag_chip(words: &str) -> Drawing {
    let mut drawing = Drawing::new(18.0, 6.73, "");
    tag(&mut drawing, 3.4, 18.0, words, Paint::Ink);
    drawing
}

/// A small box with a word, and a line from it to the chart.
pub(super) fn tag(drawing: &mut Drawing, y: f64, chart_left: f64, text: &str, paint: Paint) {
    let (width, height) = (17.6, 4.4);
    drawing.line(
        Path::rect(0.2, y - height / 2.0, width, height),
        Stroke::new(paint, 0.35),
    );
    drawing.line(
        Path::line(&[(width + 0.2, y), (chart_left - 0.6, y)]),
        Stroke::new(paint, 0.35),
    );
    drawing.label_in(
        (0.2 + width / 2.0, y + 1.15),
        text,
        9.0,
        Weight::SemiBold,
        Anchor::Middle,
        paint,
    );
}

/// A catch: a staple standing over the strand, in the middle of a cell of this width; open feet on the strand at `y`.
#[must_use]
pub fn staple((x, y): (f64, f64), width: f64) -> Path {
    let (half, height) = (width / 2.0, width * 1.05);
    let shoulder = y - height + half;
    let k = 0.5523 * half;
    Path(vec![
        Seg::Move((x - half, y)),
        Seg::Line((x - half, shoulder)),
        Seg::Curve(
            (x - half, shoulder - k),
            (x - k, shoulder - half),
            (x, shoulder - half),
        ),
        Seg::Curve(
            (x + k, shoulder - half),
            (x + half, shoulder - k),
            (x + half, shoulder),
        ),
        Seg::Line((x + half, y)),
    ])
}
