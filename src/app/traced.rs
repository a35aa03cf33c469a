//! A traced picture as a chart, and a chart as a picture.

use crate::course::chart::{Chart, Ink, Rights, Worked};
use crate::ground::colour::luminance;
use crate::trace::{Traced, picture_of};
use crate::words::{SOURCE_TO_FILL_IN, colour_role, titled};

/// Letters of a chart's colours but the ground, the darkest first.
const LETTERS: [char; 11] = ['X', 'O', 'S', 'N', 's', 'n', 'o', 'v', 'c', 'r', 'i'];

/// Colours of a chart in a picture: far apart in light and in hue.
const SHOWN: [[u8; 3]; 12] = [
    [244, 236, 218],
    [58, 44, 37],
    [196, 64, 44],
    [36, 88, 120],
    [232, 190, 60],
    [96, 150, 84],
    [150, 90, 160],
    [150, 200, 214],
    [120, 120, 120],
    [236, 150, 170],
    [20, 30, 70],
    [250, 120, 30],
];

/// How a colour of a chart without yarns is shown, by its place among them.
#[must_use]
pub fn shown_colour(place: usize) -> [u8; 3] {
    SHOWN.get(place % SHOWN.len()).copied().unwrap_or_default()
}

/// The chart that was read from a picture, to be looked at and never printed until its rights are known.
#[must_use]
pub fn traced_chart(traced: &Traced, id: &str) -> Chart {
    let mut dark: Vec<usize> = (1..traced.colours.len()).collect();
    let light = |colour: &usize| {
        traced
            .colours
            .get(*colour)
            .map_or(1.0, |c| luminance(c.rgb))
    };
    dark.sort_by(|a, b| light(a).total_cmp(&light(b)));
    let letter = |colour: usize| match dark.iter().position(|other| *other == colour) {
        Some(place) => LETTERS.get(place).copied().unwrap_or('?'),
        None => '.',
    };
    let inks = (0..traced.colours.len()).map(|colour| Ink {
        letter: letter(colour),
        role: colour_role(colour),
    });
    let (width, height) = (traced.stitches, traced.rows);
    let rows = traced.cells.chunks(width.max(1)).rev();
    Chart {
        id: id.to_owned(),
        title: titled(id),
        worked: Worked::Round,
        inks: inks.collect(),
        width,
        height,
        cells: rows.flat_map(|row| row.iter().rev().copied()).collect(),
        marks: None,
        repeat_stitches: 0..width,
        repeat_rows: 0..height,
        declares_stitches: false,
        declares_rows: false,
        rights: Rights::ReferenceOnly,
        source: Some(SOURCE_TO_FILL_IN.to_owned()),
        places: Vec::new(),
        ink_places: Vec::new(),
    }
}

/// A chart as a PNG of one pixel a cell; `None` of one with more than twelve colours.
#[must_use]
pub fn chart_picture(chart: &Chart) -> Option<Vec<u8>> {
    let rows = chart.cells.chunks(chart.width.max(1)).rev();
    let cells = rows.flat_map(|row| row.iter().rev());
    let shown: Option<Vec<[u8; 3]>> = cells
        .map(|ink| SHOWN.get(usize::from(*ink)).copied())
        .collect();
    picture_of((chart.width, chart.height), &shown?)
}
