//! Pictures out: what was read beside what was seen, and a chart as a picture of its cells.

use image::codecs::png::PngEncoder;
use image::{ExtendedColorType, ImageEncoder};

use crate::trace::picture::Picture;
use crate::trace::plane::Plane;
use crate::trace::traced::{Refusal, Traced};

/// A cell of the drawing, in pixels, and the gap between its halves.
const CELL: usize = 14;
const GAP: usize = 20;

/// Lines between cells, and the ring round a cell to look at.
const LINE: [u8; 3] = [134, 145, 149];
const RING: [u8; 3] = [214, 40, 20];

/// A drawing in pixels.
struct Canvas {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

impl Canvas {
    fn new(width: usize, height: usize) -> Self {
        let pixels = vec![255; width * height * 3];
        Self {
            width,
            height,
            pixels,
        }
    }

    fn put(&mut self, x: usize, y: usize, rgb: [u8; 3]) {
        let at = (y * self.width + x) * 3;
        if let Some(pixel) = self.pixels.get_mut(at..at + 3) {
            pixel.copy_from_slice(&rgb);
        }
    }

    fn png(&self) -> Option<Vec<u8>> {
        let mut out = Vec::new();
        let (width, height) = (
            u32::try_from(self.width).ok()?,
            u32::try_from(self.height).ok()?,
        );
        let png = PngEncoder::new(&mut out);
        png.write_image(&self.pixels, width, height, ExtendedColorType::Rgb8)
            .ok()?;
        Some(out)
    }
}

/// The picture straightened, and beside it the chart that was read from it; cells to look at are ringed in both. A PNG.
///
/// # Errors
/// When the bytes are not the picture that was traced.
pub fn check(bytes: &[u8], traced: &Traced) -> Result<Vec<u8>, Refusal> {
    let picture = Picture::read(bytes)?;
    let (stitches, rows) = (traced.stitches, traced.rows);
    let plane = Plane::of_corners(&traced.corners, stitches as f64, rows as f64);
    let back = plane
        .and_then(|plane| plane.back())
        .ok_or(Refusal::NotAPicture)?;
    let side = stitches * CELL;
    let mut canvas = Canvas::new(2 * side + GAP, rows * CELL + 1);
    for y in 0..rows * CELL {
        for x in 0..side {
            let place = [x, y].map(|v| (v as f64 + 0.5) / CELL as f64);
            canvas.put(x, y, picture.pixel(back.at(place)).unwrap_or([255; 3]));
            let on_line = x % CELL == 0 || y % CELL == 0;
            let cell = traced.cells.get(y / CELL * stitches + x / CELL);
            let colour = cell.and_then(|cell| traced.colours.get(usize::from(*cell)));
            let rgb = colour.map_or(LINE, |colour| if on_line { LINE } else { colour.rgb });
            canvas.put(side + GAP + x, y, rgb);
        }
    }
    for unsure in &traced.uncertain {
        let (row, column) = unsure.place;
        for left in [0, side + GAP] {
            for i in 0..CELL {
                for (x, y) in [
                    (i, 0),
                    (i, 1),
                    (i, CELL - 1),
                    (i, CELL - 2),
                    (0, i),
                    (1, i),
                    (CELL - 1, i),
                    (CELL - 2, i),
                ] {
                    canvas.put(left + column * CELL + x, row * CELL + y, RING);
                }
            }
        }
    }
    canvas.png().ok_or(Refusal::NotAPicture)
}

/// A picture of cells, one pixel each, top row first; `None` if there are not as many as the size says. A PNG.
#[must_use]
pub fn picture_of((stitches, rows): (usize, usize), cells: &[[u8; 3]]) -> Option<Vec<u8>> {
    let mut canvas = Canvas::new(stitches, rows);
    if cells.len() != stitches * rows {
        return None;
    }
    for (i, rgb) in cells.iter().enumerate() {
        canvas.put(i % stitches, i / stitches, *rgb);
    }
    canvas.png()
}

/// Width and height of a picture in pixels, upright; `None` where it cannot be read.
#[must_use]
pub fn picture_size(bytes: &[u8]) -> Option<(usize, usize)> {
    let picture = Picture::read(bytes).ok()?;
    Some((picture.width, picture.height))
}
