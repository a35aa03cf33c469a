//! Pictures: decoded within bounds, turned upright, made smaller.

use std::io::Cursor;

use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};

use crate::trace::plane::Place;
use crate::trace::traced::Refusal;

/// The most pixels of a picture: four times what a telephone takes.
pub(super) const MOST_PIXELS: u64 = 64_000_000;

/// The most memory that a decoder may ask for, in bytes.
const MOST_MEMORY: u64 = 512 << 20;

/// A picture in red, green and blue.
#[derive(Clone, Debug)]
pub(super) struct Picture {
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) pixels: Vec<[u8; 3]>,
}

impl Picture {
    /// Reads a PNG, JPEG, WebP or GIF, turned as its EXIF note says; what shows through is white.
    pub(super) fn read(bytes: &[u8]) -> Result<Self, Refusal> {
        let fault = |error: image::ImageError| Refusal::Unreadable(error.to_string());
        let reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format();
        let mut reader = reader.map_err(|error| Refusal::Unreadable(error.to_string()))?;
        if reader.format().is_none() {
            return Err(Refusal::NotAPicture);
        }
        // A picture that is cut off has no end; its decoder would show grey instead.
        if reader.format() == Some(ImageFormat::Jpeg) && !has_end(bytes) {
            return Err(Refusal::Unreadable("it is cut off".to_owned()));
        }
        let mut limits = Limits::default();
        limits.max_alloc = Some(MOST_MEMORY);
        reader.limits(limits);
        let mut decoder = reader.into_decoder().map_err(fault)?;
        let (width, height) = decoder.dimensions();
        if u64::from(width) * u64::from(height) > MOST_PIXELS {
            return Err(Refusal::TooLarge { width, height });
        }
        let turned = decoder.orientation().map_err(fault)?;
        let mut image = DynamicImage::from_decoder(decoder).map_err(fault)?;
        image.apply_orientation(turned);
        let (width, height) = (image.width() as usize, image.height() as usize);
        let pixels = match image {
            DynamicImage::ImageRgb8(rgb) => {
                let raw = rgb.as_raw().chunks_exact(3);
                raw.map(|p| [p[0], p[1], p[2]]).collect()
            }
            other => {
                let rgba = other.into_rgba8();
                rgba.pixels().map(|p| over_white(p.0)).collect()
            }
        };
        Ok(Self {
            width,
            height,
            pixels,
        })
    }

    pub(super) fn at(&self, x: usize, y: usize) -> [u8; 3] {
        let known = self.pixels.get(y * self.width + x);
        known.copied().unwrap_or([255; 3])
    }

    /// The pixel at a place, or `None` outside.
    pub(super) fn pixel(&self, [x, y]: Place) -> Option<[u8; 3]> {
        let inside = x >= 0.0 && y >= 0.0 && x < self.width as f64 && y < self.height as f64;
        inside.then(|| self.at(x as usize, y as usize))
    }

    /// A part of it: left, top, right, bottom.
    pub(super) fn part(&self, [left, top, right, bottom]: [usize; 4]) -> Self {
        let (right, bottom) = (right.min(self.width), bottom.min(self.height));
        let (left, top) = (left.min(right), top.min(bottom));
        let rows = (top..bottom).map(|y| y * self.width);
        let lines = rows.filter_map(|at| self.pixels.get(at + left..at + right));
        Self {
            width: right - left,
            height: bottom - top,
            pixels: lines.flatten().copied().collect(),
        }
    }

    /// The same, its longer side at most so long, each pixel the mean of those it stands for; and how much smaller it is.
    pub(super) fn smaller(&self, longest: usize) -> (Self, f64) {
        let longer = self.width.max(self.height);
        if longer <= longest {
            return (self.clone(), 1.0);
        }
        let scale = longest as f64 / longer as f64;
        let size = |side: usize| ((side as f64 * scale) as usize).max(1);
        let (width, height) = (size(self.width), size(self.height));
        let edge = |i: usize, of: usize, side: usize| i * side / of;
        let mut pixels = Vec::with_capacity(width * height);
        for y in 0..height {
            let rows = edge(y, height, self.height)..edge(y + 1, height, self.height);
            for x in 0..width {
                let columns = edge(x, width, self.width)..edge(x + 1, width, self.width);
                let mut sum = [0_u32; 3];
                let mut count = 0;
                for row in rows.clone() {
                    let from = row * self.width;
                    let line = self.pixels.get(from + columns.start..from + columns.end);
                    for pixel in line.unwrap_or_default() {
                        sum.iter_mut()
                            .zip(pixel)
                            .for_each(|(s, p)| *s += u32::from(*p));
                        count += 1;
                    }
                }
                let mean = |s: u32| ((s + count / 2) / count.max(1)).min(255) as u8;
                pixels.push(sum.map(mean));
            }
        }
        let smaller = Self {
            width,
            height,
            pixels,
        };
        (smaller, width as f64 / self.width as f64)
    }
}

/// Whether the last scan of a JPEG has an end (ITU T.81, markers SOS and EOI).
fn has_end(bytes: &[u8]) -> bool {
    let last = |marker: u8| bytes.windows(2).rposition(|pair| pair == [0xff, marker]);
    match (last(0xda), last(0xd9)) {
        (Some(scan), Some(end)) => end > scan,
        _ => false,
    }
}

/// A pixel that shows through, on white paper.
fn over_white([r, g, b, a]: [u8; 4]) -> [u8; 3] {
    let a = u32::from(a);
    [r, g, b].map(|c| ((u32::from(c) * a + 255 * (255 - a) + 127) / 255).min(255) as u8)
}
