//! Runs of glyphs on a baseline, and how running text is set.

use std::sync::Arc;

use crate::page::pdf::face::{Face, Glyph};
use crate::picture::Paint;

/// One point in millimetres.
pub(super) const POINT: f64 = 25.4 / 72.0;

/// A stretch of glyphs of one face and size on a baseline.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Face.
    pub face: Face,
    /// Size in points.
    pub size: f64,
    /// Colour.
    pub paint: Paint,
    /// Left end of the baseline, in millimetres.
    pub x: f64,
    /// The baseline, in millimetres from the top.
    pub y: f64,
    /// Glyphs.
    pub glyphs: Arc<Vec<Glyph>>,
    /// Reads upwards: on a page that is turned.
    pub turned: bool,
}

impl Run {
    /// Its width in millimetres.
    #[must_use]
    pub fn width(&self) -> f64 {
        in_mm(reach(&self.glyphs), self.size)
    }

    /// Its characters.
    #[must_use]
    pub fn text(&self) -> String {
        self.glyphs.iter().map(|g| g.text.as_str()).collect()
    }
}

/// How far glyphs reach in thousandths of an em.
pub(super) fn reach(glyphs: &[Glyph]) -> f64 {
    glyphs.iter().map(|g| g.advance).sum()
}

/// Thousandths of an em of a size in points, in millimetres.
pub(super) fn in_mm(reach: f64, size: f64) -> f64 {
    reach / 1000.0 * size * POINT
}

/// How a piece of running text is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Style {
    /// Face.
    pub face: Face,
    /// Size in points.
    pub size: f64,
    /// Colour.
    pub paint: Paint,
    /// Figures all of one width, for tables.
    pub tabular: bool,
}

impl Style {
    /// A style in ink.
    #[must_use]
    pub(super) const fn new(face: Face, size: f64) -> Self {
        Self {
            face,
            size,
            paint: Paint::Ink,
            tabular: false,
        }
    }

    /// The same in another colour.
    #[must_use]
    pub(super) const fn in_paint(self, paint: Paint) -> Self {
        Self { paint, ..self }
    }
}

/// A piece of running text.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Span {
    /// Characters.
    pub text: String,
    /// How they are set.
    pub style: Style,
    /// Where they lead, if they are a link.
    pub link: Option<String>,
}

/// A line of text: runs from x = 0 on, baseline at y = 0, and the stretches that are links.
#[derive(Clone, Debug, Default)]
pub(super) struct Line {
    /// Runs.
    pub runs: Vec<Run>,
    /// Width without trailing blanks.
    pub width: f64,
    /// Links: from, to, address.
    pub links: Vec<(f64, f64, String)>,
}

/// Millimetres to points, kept to a thousandth.
pub(super) fn pt(mm: f64) -> f32 {
    ((mm / POINT * 1000.0).round() / 1000.0) as f32
}
