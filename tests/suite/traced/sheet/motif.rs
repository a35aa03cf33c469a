//! What is drawn in a test's picture: a motif, its colours, and where its corners lie.

use super::{Dice, Kind, PAPER};

/// Yarns as charts show them.
const YARNS: [[u8; 3]; 14] = [
    [44, 33, 28],
    [240, 231, 212],
    [31, 78, 95],
    [214, 178, 128],
    [166, 61, 42],
    [122, 158, 74],
    [232, 190, 60],
    [88, 99, 112],
    [196, 208, 214],
    [92, 46, 70],
    [220, 120, 60],
    [60, 110, 90],
    [250, 214, 205],
    [20, 24, 60],
];

/// Pencils on white paper.
const PENCILS: [[u8; 3]; 9] = [
    [40, 40, 44],
    [196, 40, 38],
    [34, 84, 160],
    [40, 130, 70],
    [236, 180, 30],
    [120, 60, 140],
    [230, 110, 30],
    [120, 80, 50],
    [90, 170, 210],
];

/// How far two colours lie apart, simply.
fn apart(a: [u8; 3], b: [u8; 3]) -> f64 {
    let each = a
        .iter()
        .zip(b)
        .map(|(x, y)| (f64::from(*x) - f64::from(y)).powi(2));
    each.sum::<f64>().sqrt()
}

/// A motif that repeats, of few colours a row.
pub(super) fn motif(dice: &mut Dice, stitches: usize, rows: usize, colours: usize) -> Vec<u8> {
    let across = (4 + dice.one_of(9)).min(stitches);
    let up = (3 + dice.one_of(12)).min(rows);
    let mirrored = dice.chance(0.5);
    let mut tile = vec![0_u8; across * up];
    for row in 0..up {
        let second = 1 + dice.one_of(colours - 1) as u8;
        let density = dice.between(0.25, 0.6);
        for column in 0..across {
            let grown = column > 0 && tile[row * across + column - 1] == second && dice.chance(0.4);
            if grown || dice.chance(density) {
                tile[row * across + column] = second;
            }
        }
        if mirrored {
            for column in 0..across / 2 {
                tile[row * across + across - 1 - column] = tile[row * across + column];
            }
        }
    }
    let mut cells = Vec::with_capacity(stitches * rows);
    for row in 0..rows {
        for column in 0..stitches {
            cells.push(tile[(row % up) * across + column % across]);
        }
    }
    // Every colour is used.
    for colour in 0..colours as u8 {
        if cells.iter().filter(|c| **c == colour).count() < 3 {
            for _ in 0..3 {
                let at = dice.one_of(cells.len());
                cells[at] = colour;
            }
        }
    }
    cells
}

/// Colours that are told apart: of pencils on paper, or of yarns.
pub(super) fn palette(
    dice: &mut Dice,
    colours: usize,
    (pencil, lines): (bool, bool),
) -> Vec<[u8; 3]> {
    let mut palette: Vec<[u8; 3]> = Vec::new();
    if pencil {
        palette.push(PAPER.map(|v| v as u8));
    }
    while palette.len() < colours {
        let from: &[[u8; 3]] = if pencil { &PENCILS } else { &YARNS };
        let next = from[dice.one_of(from.len())];
        // Without lines, the ground is not as white as the paper.
        let pale = palette.is_empty() && !lines && next[0] > 200;
        if !pale && palette.iter().all(|known| apart(*known, next) > 45.0) {
            palette.push(next);
        }
    }
    palette
}

/// The corners of a chart in its picture, turned and seen aslant as its kind is.
pub(super) fn placed(
    kind: Kind,
    dice: &mut Dice,
    (chart, origin): ([f64; 2], [f64; 2]),
    size: [f64; 2],
) -> [[f64; 2]; 4] {
    let centre = size.map(|side| side / 2.0);
    let turn = match kind {
        Kind::Clean => 0.0,
        Kind::Scan | Kind::Pencil => dice.between(-2.0, 2.0_f64).to_radians(),
        Kind::Photo => dice.between(-4.0, 4.0_f64).to_radians(),
    };
    let slant = if kind == Kind::Photo { 0.08 } else { 0.0 };
    let square = [[0.0, 0.0], [chart[0], 0.0], chart, [0.0, chart[1]]];
    square.map(|[x, y]| {
        let moved = [
            x + origin[0] - centre[0] + dice.between(-slant, slant) * chart[0] / 2.0,
            y + origin[1] - centre[1] + dice.between(-slant, slant) * chart[1] / 2.0,
        ];
        let (sin, cos) = turn.sin_cos();
        [
            moved[0] * cos - moved[1] * sin + centre[0],
            moved[0] * sin + moved[1] * cos + centre[1],
        ]
    })
}
