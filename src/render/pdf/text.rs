//! Faces, shaping, and breaking into lines. The only file that names rustybuzz and unicode-linebreak.

use std::collections::HashMap;
use std::rc::Rc;
use std::sync::LazyLock;

use rustybuzz::{Face as Shaper, Feature, UnicodeBuffer, ttf_parser::Tag};
use unicode_linebreak::{BreakOpportunity, linebreaks};

use crate::picture::{Paint, Weight};

/// One point in millimetres.
pub(super) const POINT: f64 = 25.4 / 72.0;

/// The faces of the pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Face {
    /// Text 400.
    Regular,
    /// Text 600.
    SemiBold,
    /// Text 700.
    Bold,
    /// Titles 700.
    Title,
    /// Big numerals 800.
    Numeral,
}

impl Face {
    /// All faces.
    pub(super) const ALL: [Self; 5] = [Self::Regular, Self::SemiBold, Self::Bold, Self::Title, Self::Numeral];
}

impl From<Weight> for Face {
    fn from(weight: Weight) -> Self {
        match weight {
            Weight::Regular => Self::Regular,
            Weight::SemiBold => Self::SemiBold,
            Weight::Bold => Self::Bold,
        }
    }
}

/// The font files that pages in other forms embed, too.
#[derive(Clone, Copy, Debug)]
pub struct FontFiles {
    /// Text 400.
    pub regular: &'static [u8],
    /// Text 700.
    pub bold: &'static [u8],
    /// Titles 700.
    pub title: &'static [u8],
}

/// The built-in font files.
#[must_use]
pub fn font_files() -> FontFiles {
    FontFiles { regular: bytes(Face::Regular), bold: bytes(Face::Bold), title: bytes(Face::Title) }
}

/// The file of a face.
pub(super) fn bytes(face: Face) -> &'static [u8] {
    match face {
        Face::Regular => include_bytes!("../../../templates/fonts/AtkinsonHyperlegibleNext_400Regular.ttf"),
        Face::SemiBold => include_bytes!("../../../templates/fonts/AtkinsonHyperlegibleNext_600SemiBold.ttf"),
        Face::Bold => include_bytes!("../../../templates/fonts/AtkinsonHyperlegibleNext_700Bold.ttf"),
        Face::Title => include_bytes!("../../../templates/fonts/Besley_700Bold.ttf"),
        Face::Numeral => include_bytes!("../../../templates/fonts/Besley_800ExtraBold.ttf"),
    }
}

/// A face ready for shaping. The files are part of the program; a test shapes with each of them.
fn shaper(face: Face) -> Option<&'static Shaper<'static>> {
    static SHAPERS: LazyLock<Vec<Option<Shaper<'static>>>> =
        LazyLock::new(|| Face::ALL.iter().map(|face| Shaper::from_slice(bytes(*face), 0)).collect());
    SHAPERS.get(face as usize).and_then(Option::as_ref)
}

/// Advance of a glyph as the font file has it, in font units, and the units of an em.
pub(super) fn file_advance(face: Face, glyph: u16) -> (u16, u16) {
    let Some(shaper) = shaper(face) else { return (0, 1000) };
    let advance = shaper.glyph_hor_advance(rustybuzz::ttf_parser::GlyphId(glyph)).unwrap_or(0);
    (advance, u16::try_from(shaper.units_per_em()).unwrap_or(1000))
}

/// A glyph with its advance in thousandths of an em and the characters it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Glyph {
    /// Glyph id in the whole font.
    pub id: u16,
    /// How far the pen moves.
    pub advance: f64,
    /// Its characters.
    pub text: String,
}

/// A stretch of glyphs of one face and size on a baseline.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Face.
    pub face: Face,
    /// Size in points.
    pub size: f64,
    /// Colour.
    pub paint: Paint,
    /// Left end of the baseline, in millimetres.
    pub x: f64,
    /// The baseline, in millimetres from the top.
    pub y: f64,
    /// Glyphs.
    pub glyphs: Rc<Vec<Glyph>>,
}

impl Run {
    /// Its width in millimetres.
    #[must_use]
    pub fn width(&self) -> f64 {
        width_of(&self.glyphs, self.size)
    }

    /// Its characters.
    #[must_use]
    pub fn text(&self) -> String {
        self.glyphs.iter().map(|g| g.text.as_str()).collect()
    }
}

fn width_of(glyphs: &[Glyph], size: f64) -> f64 {
    glyphs.iter().map(|g| g.advance).sum::<f64>() / 1000.0 * size * POINT
}

/// How a piece of running text is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Style {
    /// Face.
    pub face: Face,
    /// Size in points.
    pub size: f64,
    /// Colour.
    pub paint: Paint,
    /// Figures all of one width, for tables.
    pub tabular: bool,
}

impl Style {
    /// A style in ink.
    #[must_use]
    pub(super) const fn new(face: Face, size: f64) -> Self {
        Self { face, size, paint: Paint::Ink, tabular: false }
    }

    /// The same in another colour.
    #[must_use]
    pub(super) const fn in_paint(self, paint: Paint) -> Self {
        Self { paint, ..self }
    }
}

/// A piece of running text.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Span {
    /// Characters.
    pub text: String,
    /// How they are set.
    pub style: Style,
    /// Where they lead, if they are a link.
    pub link: Option<String>,
}

/// A line of text: runs from x = 0 on, baseline at y = 0, and the stretches that are links.
#[derive(Clone, Debug, Default)]
pub(super) struct Line {
    /// Runs.
    pub runs: Vec<Run>,
    /// Width without trailing blanks.
    pub width: f64,
    /// Links: from, to, address.
    pub links: Vec<(f64, f64, String)>,
}

/// Shapes words and remembers them.
#[derive(Default)]
pub(super) struct Typesetter {
    words: HashMap<(Face, bool, String), Rc<Vec<Glyph>>>,
}

impl Typesetter {
    /// The glyphs of a piece of text.
    pub(super) fn shape(&mut self, text: &str, face: Face, tabular: bool) -> Rc<Vec<Glyph>> {
        let key = (face, tabular, text.to_owned());
        if let Some(known) = self.words.get(&key) {
            return Rc::clone(known);
        }
        let glyphs = Rc::new(shape(text, face, tabular));
        self.words.insert(key, Rc::clone(&glyphs));
        glyphs
    }

    /// Width of a piece of text in millimetres.
    pub(super) fn width(&mut self, text: &str, style: Style) -> f64 {
        let glyphs = self.shape(text, style.face, style.tabular);
        width_of(&glyphs, style.size)
    }

    /// Breaks spans into lines no wider than `width`; no last line of one short word.
    pub(super) fn lines(&mut self, spans: &[Span], width: f64) -> Vec<Line> {
        let words = self.words_of(spans);
        let mut best = fill(&words, width);
        let lonely = |lines: &[Vec<&Word>]| lines.len() > 1 && lines.last().is_some_and(|l| l.len() == 1);
        if lonely(&best) {
            let count = best.len();
            for step in 1..=4 {
                let tighter = fill(&words, width * (1.0 - 0.03 * f64::from(step)));
                if tighter.len() == count && !lonely(&tighter) {
                    best = tighter;
                    break;
                }
            }
        }
        best.into_iter().map(|words| set(&words)).collect()
    }

    /// Pieces between break opportunities, shaped.
    fn words_of(&mut self, spans: &[Span]) -> Vec<Word> {
        let text: String = spans.iter().map(|span| span.text.as_str()).collect();
        let mut words: Vec<Word> = Vec::new();
        let mut start = 0;
        for (end, kind) in linebreaks(&text) {
            let mut word = Word { parts: Vec::new(), ends_line: kind == BreakOpportunity::Mandatory && end < text.len() };
            let mut at = 0;
            for span in spans {
                let (from, to) = (start.max(at), end.min(at + span.text.len()));
                if from < to
                    && let Some(piece) = span.text.get(from - at..to - at)
                {
                    let piece = piece.trim_end_matches(['\n', '\r']);
                    let visible = piece.trim_end_matches(' ');
                    let blank = piece.len() - visible.len();
                    let style = span.style;
                    let gap = if blank > 0 { self.width(" ", style) * blank as f64 } else { 0.0 };
                    let glyphs = self.shape(piece, style.face, style.tabular);
                    let width = width_of(&glyphs, style.size) - gap;
                    word.parts.push(WordPart { glyphs, style, width, gap, link: span.link.clone() });
                }
                at += span.text.len();
            }
            words.push(word);
            start = end;
        }
        words
    }
}

struct WordPart {
    glyphs: Rc<Vec<Glyph>>,
    style: Style,
    width: f64,
    gap: f64,
    link: Option<String>,
}

struct Word {
    parts: Vec<WordPart>,
    ends_line: bool,
}

impl Word {
    fn visible(&self) -> f64 {
        self.whole() - self.parts.last().map_or(0.0, |p| p.gap)
    }

    fn whole(&self) -> f64 {
        self.parts.iter().map(|p| p.width + p.gap).sum()
    }
}

/// Greedy filling: ragged right, no hyphens.
fn fill(words: &[Word], width: f64) -> Vec<Vec<&Word>> {
    let mut lines: Vec<Vec<&Word>> = vec![Vec::new()];
    let mut used = 0.0;
    for word in words {
        let fits = used + word.visible() <= width + 1e-6;
        if !fits && lines.last().is_some_and(|line| !line.is_empty()) {
            lines.push(Vec::new());
            used = 0.0;
        }
        used += word.whole();
        if let Some(line) = lines.last_mut() {
            line.push(word);
        }
        if word.ends_line {
            lines.push(Vec::new());
            used = 0.0;
        }
    }
    lines.retain(|line| !line.is_empty());
    lines
}

fn set(words: &[&Word]) -> Line {
    let mut line = Line::default();
    let mut x = 0.0;
    for word in words {
        for part in &word.parts {
            if let Some(href) = &part.link {
                match line.links.last_mut() {
                    Some((_, to, last)) if last == href && (x - *to).abs() < 3.0 => *to = x + part.width,
                    _ => line.links.push((x, x + part.width, href.clone())),
                }
            }
            let Style { face, size, paint, .. } = part.style;
            line.runs.push(Run { face, size, paint, x, y: 0.0, glyphs: Rc::clone(&part.glyphs) });
            x += part.width;
            line.width = x;
            x += part.gap;
        }
    }
    line
}

/// Shapes text; a character that the face lacks is taken from another one of the same em, or shown as `?`.
fn shape(text: &str, face: Face, tabular: bool) -> Vec<Glyph> {
    let Some(shaper) = shaper(face) else { return Vec::new() };
    let known = |c: char| shaper.glyph_index(c).is_some();
    let text: String = text.chars().map(|c| if known(c) { c } else { substitute(c, &known) }).collect();
    let mut buffer = UnicodeBuffer::new();
    buffer.push_str(&text);
    buffer.guess_segment_properties();
    // Ligatures would map one glyph to two characters and back to one only.
    let off = |tag: &[u8; 4]| Feature::new(Tag::from_bytes(tag), 0, ..);
    let mut features = vec![off(b"liga"), off(b"clig"), off(b"dlig"), off(b"calt")];
    if tabular {
        features.push(Feature::new(Tag::from_bytes(b"tnum"), 1, ..));
    }
    let em = f64::from(shaper.units_per_em());
    let shaped = rustybuzz::shape(shaper, &features, buffer);
    let clusters: Vec<usize> = shaped.glyph_infos().iter().map(|i| i.cluster as usize).collect();
    let glyphs = shaped.glyph_infos().iter().zip(shaped.glyph_positions()).enumerate();
    glyphs
        .map(|(i, (info, position))| {
            let start = info.cluster as usize;
            let end = clusters.iter().skip(i + 1).find(|&&c| c > start).copied().unwrap_or(text.len());
            let letters = text.get(start..end).unwrap_or("").replace('\u{a0}', " ");
            Glyph {
                id: u16::try_from(info.glyph_id).unwrap_or(0),
                advance: f64::from(position.x_advance) * 1000.0 / em,
                text: letters,
            }
        })
        .collect()
}

/// A stand-in for a character that a face lacks.
fn substitute(c: char, known: &dyn Fn(char) -> bool) -> char {
    let stand_in = match c {
        '\u{2010}' | '\u{2011}' | '\u{2212}' => '-',
        '\u{2190}'..='\u{21ff}' => '>',
        '\u{202f}' | '\u{2009}' | '\u{200a}' | '\u{a0}' | '\t' => ' ',
        '\u{2032}' => '\'',
        '\u{200b}'..='\u{200f}' | '\u{feff}' => return '\u{200b}',
        _ => '?',
    };
    if known(stand_in) { stand_in } else { '?' }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_face_shapes_and_tabular_figures_are_equally_wide() {
        for face in Face::ALL {
            assert!(shape("Hat 104", face, false).iter().all(|g| g.id != 0), "{face:?}");
        }
        for face in [Face::Regular, Face::SemiBold, Face::Bold] {
            let widths: Vec<f64> = shape("0123456789", face, true).iter().map(|g| g.advance).collect();
            assert!(widths.iter().all(|w| (w - 632.0).abs() < 0.5), "{face:?} {widths:?}");
        }
    }

    #[test]
    fn lines_keep_within_the_measure_and_end_in_two_words() {
        let style = Style::new(Face::Regular, 11.0);
        let text = "In round 3 the Fleece yarn travels behind five stitches. Trap it half-way, and again.";
        let spans = [Span { text: text.to_owned(), style, link: None }];
        let mut type_setter = Typesetter::default();
        for width in [20.0, 33.0, 47.0, 60.0, 88.0] {
            let lines = type_setter.lines(&spans, width);
            assert!(lines.iter().all(|l| l.width <= width + 1e-6));
            let all: String = lines.iter().flat_map(|l| l.runs.iter().map(Run::text)).collect();
            assert_eq!(all, text);
        }
    }
}
