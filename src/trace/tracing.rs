//! From the bytes of a picture to what was read.

use std::collections::BTreeMap;

use crate::trace::edges::Edges;
use crate::trace::grid::{self, Grid};
use crate::trace::picture::Picture;
use crate::trace::plane::{Place, Plane};
use crate::trace::traced::{CornerFault, Glimpse, Options, Refusal, Traced, TracedColour};
use crate::trace::{blocks, cells, colours, regions, symbols};

/// How far a corner may lie outside the picture, as a share of its longer side.
const SLACK: f64 = 0.05;

/// The fewest pixels of a cell, across and down.
const LEAST_CELL: f64 = 3.0;

/// The longer side of the picture in which the grid is looked for, in pixels.
const LOOKED_AT: usize = 1400;

/// Reads a chart from the bytes of a PNG, JPEG, WebP or GIF.
///
/// # Errors
/// When it is no picture, too large, or no grid is found in it.
pub fn trace(bytes: &[u8], options: &Options) -> Result<Traced, Refusal> {
    let picture = Picture::read(bytes)?;
    if options.corners.is_none()
        && let Some(cells) = blocks::cells(&picture, options.size)
    {
        return Ok(of_blocks(&cells));
    }
    let nothing = || Refusal::NoGrid(Glimpse::default());
    let (plane, size) = placed(&picture, options)?;
    let corners = grid::corners(&plane, size.0, size.1).ok_or_else(nothing)?;
    let back = plane.back().ok_or_else(nothing)?;
    let samples = cells::samples(&picture, &back, size);
    let mut read = colours::read(&samples, size, options.colours);
    if read.is_one_ink()
        && let Some(kinds) = symbols::kinds(&picture, &back, size)
    {
        read.told_by(&kinds);
    }
    Ok(Traced {
        stitches: size.0,
        rows: size.1,
        corners,
        cells: read.cells,
        colours: read.colours,
        uncertain: read.uncertain,
    })
}

/// A map from pixels to stitches and rows, and how many there are.
fn placed(picture: &Picture, options: &Options) -> Result<(Plane, (usize, usize)), Refusal> {
    let nothing = || Refusal::NoGrid(Glimpse::default());
    if let Some(corners) = &options.corners {
        let size = options.size.unwrap_or((1, 1));
        checked(corners, [picture.width as f64, picture.height as f64], size)?;
    }
    if let (Some(corners), Some((stitches, rows))) = (options.corners, options.size) {
        let plane = Plane::of_corners(&corners, stitches as f64, rows as f64);
        return Ok((plane.ok_or_else(nothing)?, (stitches, rows)));
    }
    let (small, scale) = picture.smaller(LOOKED_AT);
    let edges = Edges::of(&small);
    if let Some(corners) = options.corners {
        let corners = corners.map(|place| place.map(|v| v * scale));
        let grid = grid::counted(&edges, &corners).map_err(Refusal::NoGrid)?;
        return Ok((grid.plane.for_picture(scale), (grid.stitches, grid.rows)));
    }
    let (grid, plane) = looked_for(picture, &edges, scale)?;
    let found = (grid.stitches, grid.rows);
    match options.size {
        Some(wanted) if wanted != found => Err(Refusal::OtherSize { found, wanted }),
        _ => Ok((plane, found)),
    }
}

/// Whether corners can be those of a chart in a picture.
fn checked(
    corners: &[Place; 4],
    [width, height]: Place,
    size: (usize, usize),
) -> Result<(), Refusal> {
    let slack = SLACK * width.max(height);
    let inside = |[x, y]: &Place| {
        (-slack..=width + slack).contains(x) && (-slack..=height + slack).contains(y)
    };
    if !corners.iter().all(inside) {
        return Err(Refusal::Corners(CornerFault::Outside));
    }
    // Clockwise on a picture, every turn is to the right.
    let turn = |i: usize| {
        let [a, b, c] = [corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]];
        (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
    };
    let area = (turn(0) + turn(2)) / 2.0;
    if (0..4).any(|i| turn(i) <= 0.0) {
        return Err(Refusal::Corners(CornerFault::Order));
    }
    let cells = (size.0 * size.1) as f64;
    if area < LEAST_CELL * LEAST_CELL * cells {
        return Err(Refusal::Corners(CornerFault::Small));
    }
    Ok(())
}

/// A picture whose blocks are its cells.
fn of_blocks(cells: &blocks::Cells) -> Traced {
    let mut counts: BTreeMap<[u8; 3], usize> = BTreeMap::new();
    cells
        .colours
        .iter()
        .for_each(|rgb| *counts.entry(*rgb).or_default() += 1);
    let mut colours: Vec<TracedColour> = counts
        .into_iter()
        .map(|(rgb, cells)| TracedColour { rgb, cells })
        .collect();
    colours.sort_by_key(|colour| std::cmp::Reverse(colour.cells));
    let rank = |rgb: &[u8; 3]| {
        let place = colours.iter().position(|colour| colour.rgb == *rgb);
        place.unwrap_or(0) as u8
    };
    let (stitches, rows) = cells.size;
    let (w, h) = (
        (stitches * cells.block.0) as f64,
        (rows * cells.block.1) as f64,
    );
    Traced {
        stitches,
        rows,
        corners: [[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]],
        cells: cells.colours.iter().map(rank).collect(),
        colours,
        uncertain: Vec::new(),
    }
}

/// The grid of a picture, or else of the largest region in which there is one: from pixels of the picture.
fn looked_for(picture: &Picture, edges: &Edges, scale: f64) -> Result<(Grid, Plane), Refusal> {
    let seen = match grid::found(edges) {
        Ok(grid) => return Ok((grid, grid.plane.for_picture(scale))),
        Err(seen) => seen,
    };
    for region in regions::regions(edges) {
        let [left, top, right, bottom] = region.map(|side| (side as f64 / scale) as usize);
        let part = picture.part([left, top, right, bottom]);
        let (small, scale) = part.smaller(LOOKED_AT);
        if let Ok(grid) = grid::found(&Edges::of(&small)) {
            let plane = grid.plane.for_picture(scale);
            return Ok((grid, plane.from([left as f64, top as f64])));
        }
    }
    Err(Refusal::NoGrid(seen))
}
