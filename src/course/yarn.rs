//! Weight categories of yarn, and what is usual with them.

use crate::course::craft::Craft;

/// A weight category.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct YarnWeight {
    /// What it is called.
    pub name: &'static str,
    /// Stitches to 10 cm in plain knitting, from and to.
    pub gauge: (u8, u8),
}

/// The categories 0 to 7: names and gauges of the trade body's table, as copied with its credit line ("Source: Craft Yarn
/// Council's www.YarnStandards.com").
pub const YARN_WEIGHTS: [YarnWeight; 8] = [
    weight("Lace", 33, 40),
    weight("Super Fine", 27, 32),
    weight("Fine", 23, 26),
    weight("Light", 21, 24),
    weight("Medium", 16, 20),
    weight("Bulky", 12, 15),
    weight("Super Bulky", 7, 11),
    weight("Jumbo", 1, 6),
];

const fn weight(name: &'static str, from: u8, to: u8) -> YarnWeight {
    YarnWeight {
        name,
        gauge: (from, to),
    }
}

/// What is usual in a craft with a yarn of a category, or of any where none is given; drawn wide, so that who works
/// tightly or loosely is not asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Usual {
    /// Stitches to 10 cm.
    pub stitches: (f64, f64),
    /// Rows to a stitch: loops of knitting are wider than high, tall stitches of crochet higher than wide.
    pub rows: (f64, f64),
    /// Needles or hooks in millimetres.
    pub tools: (f64, f64),
    /// Metres to 100 g.
    pub metres: (f64, f64),
}

/// Stitches of single crochet to 10 cm: the trade body's table.
const CROCHET: [(f64, f64); 8] = [
    (32.0, 42.0),
    (21.0, 32.0),
    (16.0, 20.0),
    (12.0, 17.0),
    (11.0, 14.0),
    (8.0, 11.0),
    (7.0, 9.0),
    (2.0, 6.0),
];
/// Needles and hooks in millimetres, the smaller and the larger of both of the trade body's tables.
const TOOLS: [(f64, f64); 8] = [
    (1.4, 2.25),
    (2.25, 3.5),
    (3.25, 4.5),
    (3.75, 5.5),
    (4.5, 6.5),
    (5.5, 9.0),
    (8.0, 15.0),
    (12.75, 25.0),
];
/// Metres to 100 g: three suppliers, who differ by up to a third.
const METRES: [(f64, f64); 8] = [
    (500.0, 1500.0),
    (370.0, 580.0),
    (260.0, 400.0),
    (200.0, 300.0),
    (120.0, 250.0),
    (90.0, 150.0),
    (40.0, 110.0),
    (15.0, 50.0),
];
/// How far from its category's gauge a yarn is still worked: stranded fabric is denser than plain, lace looser. Common
/// practice, no source; the same for the two below.
const STITCH_ROOM: f64 = 1.4;
const TOOL_ROOM: f64 = 1.5;
const METRES_ROOM: f64 = 1.3;

/// What is usual with a yarn of this category.
#[must_use]
pub fn usual(craft: Craft, category: Option<usize>) -> Usual {
    let of = |table: &[(f64, f64); 8]| category.and_then(|c| table.get(c).copied());
    let wider = |(from, to): (f64, f64), room: f64| (from / room, to * room);
    let knit = YARN_WEIGHTS.map(|w| (f64::from(w.gauge.0), f64::from(w.gauge.1)));
    let (stitches, rows) = craft.loops(of(&knit), of(&CROCHET));
    Usual {
        stitches: stitches.map_or((4.0, 60.0), |usual| wider(usual, STITCH_ROOM)),
        rows,
        tools: of(&TOOLS).map_or((1.0, 30.0), |usual| wider(usual, TOOL_ROOM)),
        metres: of(&METRES).map_or((15.0, 2000.0), |usual| wider(usual, METRES_ROOM)),
    }
}
