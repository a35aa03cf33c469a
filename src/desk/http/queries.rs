//! What stands behind the question mark of an address.

use serde::Deserialize;

use crate::course::{Hand, Paper, PrintedSizes, Printer, TypeSize};
use crate::desk::answer::{Finished, Printed, Wishes};
use crate::desk::numbers::is_out;
use crate::desk::refusal::Refusal;
use crate::handout::Print;
use crate::trace::Place;

/// In the yarns of which lesson.
#[derive(Debug, Default, Deserialize)]
pub(super) struct Shown {
    pub lesson: Option<String>,
}

/// How a handout is printed.
#[derive(Debug, Default, Deserialize)]
pub(super) struct PrintQuery {
    large: Option<String>,
    black: Option<String>,
    left: Option<String>,
    letter: Option<String>,
    size: Option<String>,
}

impl PrintQuery {
    pub(super) fn printed(self, pdf: bool) -> Printed {
        let wished = |flag: &Option<String>| flag.is_some();
        Printed {
            pdf,
            paper: wished(&self.letter).then_some(Paper::Letter),
            print: Print {
                ink: if wished(&self.black) {
                    Printer::Black
                } else {
                    Printer::Colours
                },
                type_size: if wished(&self.large) {
                    TypeSize::Large
                } else {
                    TypeSize::Ordinary
                },
                hand: if wished(&self.left) {
                    Hand::Left
                } else {
                    Hand::Right
                },
                sizes: self
                    .size
                    .filter(|size| !size.is_empty())
                    .map_or(PrintedSizes::All, PrintedSizes::Only),
                ..Print::default()
            },
        }
    }
}

/// Two charts for a class.
#[derive(Debug, Deserialize)]
pub(super) struct Pair {
    pub a: String,
    pub b: String,
}

/// A dream.
#[derive(Debug, Deserialize)]
pub(super) struct Goal {
    pub to: String,
}

/// Another gauge, or a finished piece.
#[derive(Debug, Default, Deserialize)]
pub(super) struct FitQuery {
    gauge: Option<f64>,
    stitches: Option<usize>,
    girth: Option<f64>,
}

/// The most stitches round a piece, and millimetres round it, that anybody works.
const MOST_ROUND: (usize, f64) = (2000, 5000.0);
/// Stitches to 10 cm that can be knitted.
const GAUGES: std::ops::RangeInclusive<f64> = 1.0..=100.0;

impl FitQuery {
    pub(super) fn checked(&self) -> Result<(Option<f64>, Option<Finished>), Refusal> {
        if self.gauge.is_some_and(|gauge| !GAUGES.contains(&gauge)) {
            return Err(Refusal::cannot("a gauge has 1 to 100 stitches to 10 cm"));
        }
        let finished = self.stitches.zip(self.girth);
        let (stitches, girth) = MOST_ROUND;
        if finished.is_some_and(|(s, g)| s == 0 || s > stitches || !(g > 0.0 && g <= girth)) {
            return Err(Refusal::cannot(
                "a piece has 1 to 2000 stitches and at most 5 m round it",
            ));
        }
        let finished = finished.map(|(stitches, girth)| Finished { stitches, girth });
        match (self.gauge, finished) {
            (None, None) => Err(Refusal::senseless("say a gauge, or stitches and girth")),
            both => Ok(both),
        }
    }
}

/// What is known of a picture.
#[derive(Debug, Default, Deserialize)]
pub(super) struct TraceQuery {
    stitches: Option<usize>,
    rows: Option<usize>,
    corners: Option<String>,
    colours: Option<usize>,
}

/// The most colours that are looked for in a picture.
const MOST_COLOURS: usize = 12;

impl TraceQuery {
    pub(super) fn wishes(&self) -> Result<Wishes, Refusal> {
        let size = self.stitches.zip(self.rows);
        if size.is_some_and(|(stitches, rows)| is_out(stitches) || is_out(rows)) {
            return Err(Refusal::cannot(
                "a chart in a picture has 1 to 500 stitches and rows",
            ));
        }
        if self.colours.is_some_and(|n| n == 0 || n > MOST_COLOURS) {
            return Err(Refusal::cannot("a chart in a picture has 1 to 12 colours"));
        }
        Ok(Wishes {
            corners: self.corners.as_deref().map(corners).transpose()?,
            size,
            colours: self.colours,
        })
    }
}

fn corners(text: &str) -> Result<[Place; 4], Refusal> {
    let numbers: Vec<f64> = text
        .split(',')
        .filter_map(|n| n.trim().parse().ok())
        .collect();
    let finite = numbers.iter().all(|n: &f64| n.is_finite());
    match numbers.as_slice() {
        [a, b, c, d, e, f, g, h] if finite => Ok([[*a, *b], [*c, *d], [*e, *f], [*g, *h]]),
        _ => Err(Refusal::senseless(
            "corners are eight numbers, clockwise from the top left",
        )),
    }
}
