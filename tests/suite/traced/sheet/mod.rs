//! Pictures of charts, drawn for the tests: clean, scanned, in coloured pencil on squared paper, photographed aslant in uneven
//! light. Everything follows from a seed, so a picture that fails can be drawn again.

mod dice;
mod motif;

use image::codecs::jpeg::JpegEncoder;
use image::{ExtendedColorType, ImageEncoder, RgbImage};

use dice::to_chart;
pub(crate) use dice::{Dice, right};
use motif::{motif, palette, placed};

/// How a chart came into its picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    Clean,
    Scan,
    Pencil,
    Photo,
}

/// A chart and how it lies in its picture.
#[derive(Clone, Debug)]
pub(crate) struct Sheet {
    pub(crate) kind: Kind,
    pub(crate) stitches: usize,
    pub(crate) rows: usize,
    /// Colours by cell, top row first.
    pub(crate) cells: Vec<u8>,
    pub(crate) palette: Vec<[u8; 3]>,
    /// Corners in the picture, clockwise from the top left.
    pub(crate) corners: [[f64; 2]; 4],
    pub(crate) width: usize,
    pub(crate) height: usize,
    /// Height of a cell to its width.
    aspect: f64,
    /// Width of thin and of heavy lines, in cells; none: a chart without lines.
    lines: Option<(f64, f64)>,
    line_colour: [f64; 3],
    /// From the picture to the chart.
    map: [[f64; 3]; 3],
    /// Slope of the strokes and how dense they are, by cell.
    strokes: Vec<(f64, f64, f64)>,
    shade: [f64; 3],
    darkest: f64,
    noise: f64,
    quality: u8,
    /// Edges of the paper in cells beyond the chart; the table lies beyond.
    paper: [f64; 4],
    seed: u64,
}

const PAPER: [f64; 3] = [250.0, 248.0, 241.0];
const TABLE: [f64; 3] = [121.0, 88.0, 60.0];
const THUMB: [f64; 3] = [214.0, 160.0, 134.0];

impl Sheet {
    /// The sheet of a seed.
    pub(crate) fn of(kind: Kind, seed: u64) -> Self {
        let mut dice = Dice(seed.wrapping_mul(0x1234_5678_9abc_def1) ^ kind as u64);
        let size = |dice: &mut Dice| {
            let most = if dice.chance(0.3) { 55 } else { 30 };
            6 + dice.one_of(most)
        };
        let (stitches, rows) = (size(&mut dice), size(&mut dice));
        let colours = 2 + dice.one_of(4);
        let pencil = kind == Kind::Pencil || kind == Kind::Photo && dice.chance(0.4);
        let lines = (pencil || dice.chance(0.75))
            .then(|| (dice.between(0.03, 0.09), dice.between(0.08, 0.16)));
        let palette = palette(&mut dice, colours, (pencil, lines.is_some()));
        let cells = motif(&mut dice, stitches, rows, colours);
        let aspect = if dice.chance(0.5) {
            1.0
        } else {
            dice.between(0.7, 1.1)
        };
        let longest = stitches.max(rows) as f64;
        let pitch = (dice.between(500.0, 1500.0) / longest).clamp(9.0, 60.0);
        let pitch = if kind == Kind::Clean && dice.chance(0.5) {
            pitch.floor()
        } else {
            pitch
        };
        let strokes = cells.iter().map(|_| {
            (
                dice.between(0.4, 1.1),
                dice.between(0.62, 0.95),
                dice.between(0.0, 1.0),
            )
        });
        let strokes = strokes.collect();
        let margin = |dice: &mut Dice| dice.between(1.6, 4.0);
        let paper = [0; 4].map(|_| margin(&mut dice));
        let chart = [stitches as f64 * pitch, rows as f64 * pitch * aspect];
        let beyond = if kind == Kind::Photo {
            dice.between(0.0, 2.0)
        } else {
            0.0
        };
        let edge = |i: usize| (paper[i] + beyond) * pitch;
        let (width, height) = (chart[0] + edge(0) + edge(2), chart[1] + edge(1) + edge(3));
        let whole = kind == Kind::Clean && dice.chance(0.7);
        let origin = [edge(0), edge(1)].map(|edge| if whole { edge.floor() } else { edge });
        let corners = placed(kind, &mut dice, (chart, origin), [width, height]);
        let (noise, quality) = match kind {
            Kind::Clean => (0.0, 0),
            Kind::Scan | Kind::Pencil => (dice.between(1.0, 4.0), 88),
            Kind::Photo => (dice.between(2.0, 6.0), 70),
        };
        let shade = [
            dice.between(-1.0, 1.0),
            dice.between(-1.0, 1.0),
            dice.between(-0.6, 0.6),
        ];
        let darkest = match kind {
            Kind::Photo => dice.between(0.6, 1.0),
            Kind::Scan | Kind::Pencil => dice.between(0.93, 1.0),
            Kind::Clean => 1.0,
        };
        let grey = dice.between(20.0, 150.0);
        let map = to_chart(&corners, stitches as f64, rows as f64);
        Self {
            kind,
            stitches,
            rows,
            cells,
            palette,
            corners,
            width: width.ceil() as usize,
            height: height.ceil() as usize,
            aspect,
            lines,
            line_colour: [grey, grey, grey],
            map,
            strokes: if pencil { strokes } else { Vec::new() },
            shade,
            darkest,
            noise,
            quality,
            paper,
            seed,
        }
    }

    /// The picture as a file: PNG if clean, else JPEG.
    pub(crate) fn file(&self) -> Vec<u8> {
        let mut dice = Dice(self.seed ^ 0xfeed);
        let mut image = RgbImage::new(self.width as u32, self.height as u32);
        let light = |x: f64, y: f64| {
            let (x, y) = (x / self.width as f64 - 0.5, y / self.height as f64 - 0.5);
            let [a, b, c] = self.shade;
            let span = a.abs() + b.abs() + c.abs() * 0.5;
            let at = (a * x + b * y + c * (x * x + y * y)) / span.max(1e-6) + 0.5;
            1.0 - (1.0 - self.darkest) * at.clamp(0.0, 1.0)
        };
        let side = if self.kind == Kind::Clean { 3 } else { 2 };
        for (x, y, pixel) in image.enumerate_pixels_mut() {
            let mut sum = [0.0; 3];
            for i in 0..side {
                for j in 0..side {
                    let at = [
                        f64::from(x) + (f64::from(i) + 0.5) / f64::from(side),
                        f64::from(y) + (f64::from(j) + 0.5) / f64::from(side),
                    ];
                    let colour = self.colour(at);
                    sum.iter_mut().zip(colour).for_each(|(s, c)| *s += c);
                }
            }
            let shade = light(f64::from(x), f64::from(y));
            for (channel, sum) in pixel.0.iter_mut().zip(sum) {
                let grain: f64 = (0..3).map(|_| dice.between(-1.0, 1.0)).sum();
                let value = sum / f64::from(side * side) * shade + grain * self.noise;
                *channel = value.round().clamp(0.0, 255.0) as u8;
            }
        }
        let mut out = Vec::new();
        let (w, h) = image.dimensions();
        if self.kind == Kind::Clean {
            let png = image::codecs::png::PngEncoder::new(&mut out);
            png.write_image(image.as_raw(), w, h, ExtendedColorType::Rgb8)
                .unwrap();
        } else {
            let jpeg = JpegEncoder::new_with_quality(&mut out, self.quality);
            jpeg.write_image(image.as_raw(), w, h, ExtendedColorType::Rgb8)
                .unwrap();
        }
        out
    }

    /// What is at a place of the picture, before light falls on it.
    fn colour(&self, [x, y]: [f64; 2]) -> [f64; 3] {
        let m = &self.map;
        let row = |i: usize| m[i][0] * x + m[i][1] * y + m[i][2];
        let (u, v) = (row(0) / row(2), row(1) / row(2));
        let (w, h) = (self.stitches as f64, self.rows as f64);
        let inside = (0.0..w).contains(&u) && (0.0..h).contains(&v);
        let near = |at: f64, most: f64| {
            let line = at.round().clamp(0.0, most);
            (
                (at - line).abs(),
                (line as usize).is_multiple_of(10) || line == most,
            )
        };
        if let Some((thin, heavy)) = self.lines {
            let ((du, tens_u), (dv, tens_v)) = (near(u, w), near(v, h));
            let (tu, tv) = (
                if tens_u { heavy } else { thin },
                if tens_v { heavy } else { thin },
            );
            let dv = dv * self.aspect;
            let across = (-0.1..w + 0.1).contains(&u) && (-0.1..h + 0.1).contains(&v);
            if across && (du < tu / 2.0 || dv < tv / 2.0) {
                return self.line_colour;
            }
        }
        if !inside {
            return self.around(u, v);
        }
        let at = v as usize * self.stitches + u as usize;
        let ink = self.palette[usize::from(self.cells[at])].map(f64::from);
        let Some((slope, density, phase)) = self.strokes.get(at) else {
            return ink;
        };
        if self.cells[at] == 0 {
            return PAPER;
        }
        // Strokes of a pencil: the paper shows between them, and through them.
        let wave = ((u * slope + v) * 6.5 + phase + (u * 9.1).sin() * 0.08).rem_euclid(1.0);
        let cover = if wave < *density { 0.88 } else { 0.25 };
        [0, 1, 2].map(|i| PAPER[i] * (1.0 - cover) + ink[i] * cover)
    }

    /// Paper with numbers and a title, the table beyond it, a thumb that holds it.
    fn around(&self, u: f64, v: f64) -> [f64; 3] {
        let (w, h) = (self.stitches as f64, self.rows as f64);
        let [left, top, right, bottom] = self.paper;
        if self.kind == Kind::Photo {
            let thumb = ((u - w * 0.7) / 1.6).powi(2) + ((v - h - bottom) / 1.2).powi(2);
            if thumb < 1.0 {
                return THUMB;
            }
            if u < -left || v < -top / self.aspect || u > w + right || v > h + bottom / self.aspect
            {
                return TABLE;
            }
        }
        // Numbers beside the rows and under the stitches, five strokes high.
        let digit = |a: f64, b: f64, which: usize| {
            if !(0.0..1.0).contains(&a) || !(0.0..1.0).contains(&b) {
                return false;
            }
            let (column, line) = ((a * 3.0) as usize, (b * 5.0) as usize);
            (which * 31 + line * 7 + column * 13) % 5 < 3
        };
        // Each a little out of place, as written by hand.
        let off = |i: f64| ((i * 12.9898).sin() * 43_758.547).fract() * 0.12;
        let number = if u > w && v > 0.0 && v < h {
            let row = v.floor();
            digit(
                (u - w - 0.35 - off(row)) / 0.45,
                (v.fract() - 0.2 - off(row + 7.0)) / 0.6,
                v as usize,
            )
        } else if v > h && u > 0.0 && u < w {
            let column = u.floor();
            digit(
                (u.fract() - 0.3 - off(column)) / 0.4,
                (v - h - 0.3 - off(column + 3.0)) / 0.7,
                u as usize + 3,
            )
        } else if v < -0.7 && u > 0.0 && u < w * 0.6 {
            digit(
                (u * 1.7).fract() * 1.3,
                (v + 1.4) / 0.7,
                (u * 1.7) as usize + 5,
            )
        } else {
            false
        };
        if number { [60.0, 58.0, 60.0] } else { PAPER }
    }
}
