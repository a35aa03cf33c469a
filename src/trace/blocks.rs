//! Pictures without a grid in which a pixel, or a block of equal pixels, is a cell.

use std::collections::BTreeSet;

use crate::trace::picture::Picture;

/// The most colours of such a picture, and the most cells across and down.
const COLOURS: usize = 12;
const MOST: usize = 500;

/// Colours change between at least this share of the cells.
const BUSY: f64 = 0.3;

/// Lines of a drawn grid lie at least so many pixels apart.
const PITCH: usize = 5;

/// A picture of cells: across, down, and the colour of each, top row first.
pub(super) struct Cells {
    pub(super) size: (usize, usize),
    /// Pixels to a cell, across and down.
    pub(super) block: (usize, usize),
    pub(super) colours: Vec<[u8; 3]>,
}

/// The cells of a picture drawn so; `None` for any other, and for one that is not of the size that is wanted.
pub(super) fn cells(picture: &Picture, wanted: Option<(usize, usize)>) -> Option<Cells> {
    let (width, height) = (picture.width, picture.height);
    let mut known: BTreeSet<[u8; 3]> = BTreeSet::new();
    for pixel in &picture.pixels {
        if known.insert(*pixel) && known.len() > COLOURS {
            return None;
        }
    }
    if known.len() < 2 {
        return None;
    }
    let column_changes = |x: &usize| (0..height).any(|y| picture.at(*x, y) != picture.at(x - 1, y));
    let row_changes = |y: &usize| (0..width).any(|x| picture.at(x, *y) != picture.at(x, y - 1));
    let columns: Vec<usize> = (1..width).filter(column_changes).collect();
    let lines: Vec<usize> = (1..height).filter(row_changes).collect();
    let across = columns.iter().copied().fold(width, gcd);
    let down = lines.iter().copied().fold(height, gcd);
    let size = (width / across.max(1), height / down.max(1));
    if size.0 < 2 || size.1 < 2 || size.0 > MOST || size.1 > MOST {
        return None;
    }
    // Where most pixels are as those beside them, they are no cells: a drawing of squares, cut off somewhere.
    let busy = |changes: usize, cells: usize| changes as f64 >= BUSY * (cells - 1) as f64;
    if wanted != Some(size) && !(busy(columns.len(), size.0) && busy(lines.len(), size.1)) {
        return None;
    }
    let at = |column: usize, row: usize| picture.at(column * across, row * down);
    let colours: Vec<[u8; 3]> = (0..size.1)
        .flat_map(|row| (0..size.0).map(move |column| (column, row)))
        .map(|(column, row)| at(column, row))
        .collect();
    let cells = Cells {
        size,
        block: (across, down),
        colours,
    };
    let fits = wanted.is_none_or(|wanted| wanted == size);
    (fits && !cells.is_drawn_grid()).then_some(cells)
}

impl Cells {
    fn at(&self, column: usize, row: usize) -> Option<[u8; 3]> {
        self.colours.get(row * self.size.0 + column).copied()
    }

    /// Whether this is the drawing of a grid: lines of one colour across and down, apart, and little in each square between.
    fn is_drawn_grid(&self) -> bool {
        let (columns, rows) = self.size;
        let whole = |column: usize| {
            let first = self.at(column, 0)?;
            (1..rows)
                .all(|row| self.at(column, row) == Some(first))
                .then_some(first)
        };
        let level = |row: usize| {
            let first = self.at(0, row)?;
            (1..columns)
                .all(|column| self.at(column, row) == Some(first))
                .then_some(first)
        };
        let mut colours: Vec<[u8; 3]> = (0..columns).filter_map(whole).collect();
        colours.sort_unstable();
        colours.dedup();
        colours.into_iter().any(|line| {
            let upright: Vec<usize> = (0..columns).filter(|c| whole(*c) == Some(line)).collect();
            let across: Vec<usize> = (0..rows).filter(|r| level(*r) == Some(line)).collect();
            let apart = |lines: &[usize]| {
                let gaps: Vec<usize> = lines
                    .windows(2)
                    .map(|l| l[1] - l[0])
                    .filter(|g| *g > 1)
                    .collect();
                gaps.len() >= 3 && gaps.iter().all(|gap| *gap >= PITCH)
            };
            apart(&upright) && apart(&across)
        })
    }
}

fn gcd(a: usize, b: usize) -> usize {
    let (mut a, mut b) = (a, b);
    while b > 0 {
        (a, b) = (b, a % b);
    }
    a
}
