//! The cells of a chart: fills, grid, symbols, marks of shaping, strands and catches.

use std::collections::BTreeMap;

use crate::course::chart::Mark;
use crate::ground::colour::{contrast, mark_on};
use crate::picture::frame::Frame;
use crate::picture::marks::{staple, symbol_paint, symbol_size};
use crate::picture::shown::ChartPicture;
use crate::picture::{Drawing, Paint, Path, Point, Stroke};

/// Fills every cell: one path a colour, one rectangle a run.
pub(super) fn fills(drawing: &mut Drawing, picture: &ChartPicture<'_>, frame: &Frame) {
    let mut paths: BTreeMap<u8, Path> = BTreeMap::new();
    for row in frame.rows.clone() {
        let mut run: Option<(u8, usize, usize)> = None;
        for x in 0..=frame.columns {
            let cell = (x < frame.columns)
                .then(|| frame.cell(picture, row, x))
                .flatten();
            match (&mut run, cell) {
                (Some((colour, _, end)), Some(c)) if *colour == c => *end = x,
                _ => {
                    if let Some((colour, start, end)) = run.take() {
                        let left = frame.left(end);
                        let width = frame.cell_width * (end - start + 1) as f64;
                        paths.entry(colour).or_default().add_rect(
                            left,
                            frame.top(row),
                            width,
                            frame.cell_height,
                        );
                    }
                    run = cell.map(|c| (c, x, x));
                }
            }
        }
    }
    for (colour, path) in paths {
        let paint = if picture.fills {
            Paint::Yarn(picture.look(colour).rgb)
        } else {
            Paint::White
        };
        drawing.fill(path, paint);
    }
}

/// Thin lines everywhere, heavier ones at every fifth and tenth with white beside them, then the frame.
pub(super) fn grid(drawing: &mut Drawing, picture: &ChartPicture<'_>, frame: &Frame) {
    let (left, top, right, bottom) = frame.bounds();
    let mut lines: [Path; 3] = Default::default();
    let heaviness = |count: usize| match count {
        c if c.is_multiple_of(10) => 2,
        c if c.is_multiple_of(5) => 1,
        _ => 0,
    };
    for x in 1..frame.columns {
        // A heavy line stands left of each fifth stitch, counted from the right edge of the chart as drawn.
        let line = frame.left(x - 1);
        lines[heaviness(frame.first_column + x)].add_line(&[(line, top), (line, bottom)]);
    }
    for row in frame.rows.clone().skip(1) {
        let line = frame.top(row) + frame.cell_height;
        lines[heaviness(row)].add_line(&[(left, line), (right, line)]);
    }
    let [thin, fifth, tenth] = lines;
    drawing.line(thin, Stroke::new(Paint::CellLine, 0.14));
    for (path, width) in [(fifth, 0.3), (tenth, 0.6)] {
        if path.0.is_empty() {
            continue;
        }
        if picture.fills {
            drawing.line(path.clone(), Stroke::new(Paint::White, width + 0.26));
        }
        drawing.line(path, Stroke::new(Paint::Ink, width));
    }
}

/// The frame round the chart.
pub(super) fn frame_line(drawing: &mut Drawing, frame: &Frame) {
    let (left, top, right, bottom) = frame.bounds();
    drawing.line(
        Path::rect(left, top, right - left, bottom - top),
        Stroke::new(Paint::Ink, 0.7),
    );
}

/// A symbol in each cell that holds nothing else.
pub(super) fn symbols(drawing: &mut Drawing, picture: &ChartPicture<'_>, frame: &Frame) {
    let (w, h) = (frame.cell_width, frame.cell_height);
    for (index, look) in picture.looks.iter().enumerate() {
        let mut places = Vec::new();
        // Over the mark of a catch the symbol moves up; where a decrease takes the middle, into the corner if no fill tells
        // the colour.
        let (mut raised, mut corners) = (Vec::new(), Vec::new());
        for row in frame.rows.clone() {
            for x in 0..frame.columns {
                let column = frame.column(x);
                if frame.cell(picture, row, x) != u8::try_from(index).ok() {
                    continue;
                }
                let (cx, cy) = frame.middle(row, x);
                if picture.chart.mark(row, column) != Mark::Plain {
                    corners.push((cx - 0.32 * w, cy - 0.28 * h));
                } else if picture.is_caught(row, column) {
                    raised.push((cx, cy - RAISED * h));
                } else {
                    places.push((cx, cy));
                }
            }
        }
        if picture.fills {
            corners.clear();
        }
        let size = symbol_size(h, picture.fills);
        let paint = symbol_paint(look.rgb, picture.fills);
        let small = if picture.fills { size } else { SMALL * h };
        for (places, size) in [(places, size), (raised, small), (corners, CORNER * h)] {
            if !places.is_empty() {
                drawing
                    .shapes
                    .extend(look.symbol.stamps(places, size, paint));
            }
        }
    }
}

/// How far a symbol moves up over a catch, and how large it is there and in the corner beside shaping where no fill tells
/// the colour: shares of the height of a cell.
const RAISED: f64 = 0.16;
const SMALL: f64 = 0.42;
const CORNER: f64 = 0.26;

/// Forks and bars where the stitch count changes or a stitch is purled; hatching where no stitch stands.
pub(super) fn shaping(drawing: &mut Drawing, picture: &ChartPicture<'_>, frame: &Frame) {
    let mut hatch = Path::default();
    for row in frame.rows.clone() {
        for x in 0..frame.columns {
            let mark = picture.chart.mark(row, frame.column(x));
            if mark == Mark::NoStitch {
                add_hatch(&mut hatch, frame, row, x);
                continue;
            }
            // A drawing that will be seen in a mirror shows each lean the other way, so that the mirror sets it right.
            let shown = if picture.from_left {
                mark.mirrored()
            } else {
                mark
            };
            let Some(path) = fork(shown) else { continue };
            let paint = match frame.cell(picture, row, x) {
                Some(ink)
                    if picture.fills && contrast(picture.look(ink).rgb, Paint::Ink.rgb()) < 4.5 =>
                {
                    Paint::Yarn(mark_on(picture.look(ink).rgb, Paint::Ink.rgb()))
                }
                _ => Paint::Ink,
            };
            // Without fills the corner holds the colour's symbol.
            let (w, h) = (frame.cell_width, frame.cell_height);
            let (cx, cy) = frame.middle(row, x);
            let (at, size) = match picture.fills {
                true => ((cx, cy), 0.8 * h),
                false => ((cx + 0.12 * w, cy + 0.08 * h), 0.62 * h),
            };
            let mut stroke = Stroke::new(paint, 0.14 * h);
            stroke.round = true;
            drawing.line(path.placed(at, (size, size)), stroke);
        }
    }
    if !hatch.0.is_empty() {
        drawing.line(hatch, Stroke::new(Paint::CellLine, 0.14));
    }
}

/// A cell with a mark, for a legend.
#[must_use]
pub fn mark_chip(mark: Mark, (width, height): (f64, f64)) -> Drawing {
    let mut drawing = Drawing::new(width, height, "");
    let frame = Path::rect(0.0, 0.0, width, height);
    if mark == Mark::NoStitch {
        let mut hatch = Path::default();
        hatch_cell(&mut hatch, (0.0, 0.0), (width, height));
        drawing.line(hatch, Stroke::new(Paint::CellLine, 0.14));
    }
    if let Some(path) = fork(mark) {
        let size = height * 0.8;
        let mut stroke = Stroke::new(Paint::Ink, 0.14 * height);
        stroke.round = true;
        drawing.line(
            path.placed((width / 2.0, height / 2.0), (size, size)),
            stroke,
        );
    }
    drawing.line(frame, Stroke::new(Paint::Ink, 0.35));
    drawing
}

/// Two legs into one stem: a decrease. One leg into two arms: make one. Drawn as worked, bottom to top.
fn fork(mark: Mark) -> Option<Path> {
    let mut path = Path::default();
    match mark {
        Mark::RightDecrease => {
            path.add_line(&[(-0.35, 0.45), (0.35, -0.45)]);
            path.add_line(&[(0.35, 0.45), (0.0, 0.0)]);
        }
        Mark::LeftDecrease => {
            path.add_line(&[(0.35, 0.45), (-0.35, -0.45)]);
            path.add_line(&[(-0.35, 0.45), (0.0, 0.0)]);
        }
        Mark::DoubleDecrease => {
            path.add_line(&[(0.0, 0.45), (0.0, -0.45)]);
            path.add_line(&[(-0.38, 0.45), (0.0, 0.0), (0.38, 0.45)]);
        }
        Mark::MakeOne => {
            path.add_line(&[(0.0, 0.45), (0.0, 0.0), (-0.35, -0.45)]);
            path.add_line(&[(0.0, 0.0), (0.35, -0.45)]);
        }
        Mark::Purl => path.add_line(&[(-0.38, 0.0), (0.38, 0.0)]),
        Mark::Plain | Mark::NoStitch => return None,
    }
    Some(path)
}

fn add_hatch(path: &mut Path, frame: &Frame, row: usize, x: usize) {
    let corner = (frame.left(x), frame.top(row));
    hatch_cell(path, corner, (frame.cell_width, frame.cell_height));
}

fn hatch_cell(path: &mut Path, (left, top): Point, (w, h): (f64, f64)) {
    let inside = |d: f64| -> Option<(Point, Point)> {
        // The line u + v = d cut to the cell.
        let (u0, u1) = ((d - h).max(0.0), d.min(w));
        (u1 > u0).then_some(((left + u0, top + d - u0), (left + u1, top + d - u1)))
    };
    let mut d = 0.8;
    while d < w + h {
        if let Some((a, b)) = inside(d) {
            path.add_line(&[a, b]);
        }
        d += 1.6;
    }
}

/// Strands over the limit.
pub(super) fn strands(drawing: &mut Drawing, picture: &ChartPicture<'_>, frame: &Frame) {
    let drop = 0.38 * frame.cell_height;
    let mut lines = Path::default();
    let mut dots = Path::default();
    for strand in picture
        .strands
        .iter()
        .filter(|s| frame.rows.contains(&s.row))
    {
        for (from, to, ends) in strand_pieces(strand, frame) {
            // `from` is the right-most cell of the piece, `to` the left-most.
            let y = frame.middle(strand.row, from).1 + drop;
            let cut = frame.cell_width / 2.0 - 0.12 * frame.cell_height;
            let right = frame.middle(strand.row, from).0 + if ends.0 { 0.0 } else { cut };
            let left = frame.middle(strand.row, to).0 - if ends.1 { 0.0 } else { cut };
            lines.add_line(&[(right, y), (left, y)]);
            if ends.0 {
                dots.add_circle(right, y, 0.8_f64.min(frame.cell_width * 0.12));
            }
            if ends.1 {
                dots.add_circle(left, y, 0.8_f64.min(frame.cell_width * 0.12));
            }
        }
    }
    if lines.0.is_empty() {
        return;
    }
    let line = 0.45;
    drawing.line(lines.clone(), Stroke::new(Paint::White, line + 0.5));
    drawing.line(lines, Stroke::new(Paint::Buoy, line));
    drawing.fill(dots, Paint::Buoy);
}

/// A mark on the foot line of each stitch at which a strand is caught: a third of the cell, with a white edge, below the
/// cell's symbol, so that both are read on every yarn.
pub(super) fn catches(drawing: &mut Drawing, picture: &ChartPicture<'_>, frame: &Frame) {
    let mut marks = Path::default();
    let size = CATCH * frame.cell_height;
    for (row, column) in picture
        .catches
        .iter()
        .filter(|(row, _)| frame.rows.contains(row))
    {
        for x in (0..frame.columns).filter(|&x| frame.column(x) == *column) {
            let (cx, _) = frame.middle(*row, x);
            let foot = frame.top(*row) + frame.cell_height - 0.1 * size;
            marks.0.extend(staple((cx, foot), size).0);
        }
    }
    if marks.0.is_empty() {
        return;
    }
    let line = 0.34 * size;
    drawing.line(marks.clone(), Stroke::new(Paint::White, line * 2.1));
    drawing.line(marks, Stroke::new(Paint::Buoy, line));
}

/// The size of a catch mark as a share of its cell.
const CATCH: f64 = 1.0 / 3.0;

/// The pieces of a strand that lie side by side in the drawing: (right cell, left cell, (begins, ends) here).
fn strand_pieces(
    strand: &crate::picture::Strand,
    frame: &Frame,
) -> Vec<(usize, usize, (bool, bool))> {
    let mut pieces = Vec::new();
    let copies = frame.columns.div_ceil(frame.period.max(1));
    for copy in 0..copies {
        let mut piece: Option<(usize, usize, bool)> = None;
        let last = strand.columns.len().saturating_sub(1);
        let mut close = |piece: &mut Option<(usize, usize, bool)>, end: bool| {
            if let Some((from, to, begins)) = piece.take() {
                pieces.push((from, to, (begins, end)));
            }
        };
        let mut turn = copy;
        let mut before: Option<usize> = None;
        for (i, &column) in strand.columns.iter().enumerate() {
            // Going over the left edge of the repeat leads into its next copy, or back to the right edge.
            if before.is_some_and(|b| column < b) {
                turn = (turn + 1) % copies;
            }
            before = Some(column);
            let x = frame.place(column, turn);
            match (&mut piece, x) {
                (Some((_, to, _)), Some(x)) if x == *to + 1 => *to = x,
                (_, Some(x)) => {
                    close(&mut piece, false);
                    piece = Some((x, x, i == 0));
                }
                (_, None) => close(&mut piece, false),
            }
            if i == last {
                close(&mut piece, true);
            }
        }
    }
    pieces.sort_unstable();
    pieces.dedup();
    pieces
}
