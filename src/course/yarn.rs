//! Weight categories of yarn.

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
