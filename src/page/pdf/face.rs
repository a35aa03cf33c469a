//! The faces of the pages and how text becomes glyphs. The only file that names rustybuzz.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use rustybuzz::{
    Direction, Face as Shaper, Feature, ShapePlan, UnicodeBuffer, script, ttf_parser::Tag,
};

use crate::picture::Weight;

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
    pub(super) const ALL: [Self; 5] = [
        Self::Regular,
        Self::SemiBold,
        Self::Bold,
        Self::Title,
        Self::Numeral,
    ];

    /// Its font file.
    #[must_use]
    pub fn file(self) -> &'static [u8] {
        bytes(self)
    }

    /// The glyphs in which these characters are set, figures of either kind.
    #[must_use]
    pub fn glyphs_of(self, characters: &BTreeSet<char>) -> BTreeSet<u16> {
        let each = characters.iter().flat_map(|character| {
            let text = character.to_string();
            let mut glyphs = shape(&text, self, false);
            glyphs.extend(shape(&text, self, true));
            glyphs
        });
        each.map(|glyph| glyph.id).collect()
    }
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

/// The font files by name, in the order of the faces.
pub static FONTS: [(&str, &[u8]); 5] = [
    (
        "AtkinsonHyperlegibleNext_400Regular.ttf",
        include_bytes!("../../../templates/fonts/AtkinsonHyperlegibleNext_400Regular.ttf"),
    ),
    (
        "AtkinsonHyperlegibleNext_600SemiBold.ttf",
        include_bytes!("../../../templates/fonts/AtkinsonHyperlegibleNext_600SemiBold.ttf"),
    ),
    (
        "AtkinsonHyperlegibleNext_700Bold.ttf",
        include_bytes!("../../../templates/fonts/AtkinsonHyperlegibleNext_700Bold.ttf"),
    ),
    (
        "Besley_700Bold.ttf",
        include_bytes!("../../../templates/fonts/Besley_700Bold.ttf"),
    ),
    (
        "Besley_800ExtraBold.ttf",
        include_bytes!("../../../templates/fonts/Besley_800ExtraBold.ttf"),
    ),
];

/// The file of a face.
pub(super) fn bytes(face: Face) -> &'static [u8] {
    let [regular, semi_bold, bold, title, numeral] = &FONTS;
    let (_, bytes) = match face {
        Face::Regular => regular,
        Face::SemiBold => semi_bold,
        Face::Bold => bold,
        Face::Title => title,
        Face::Numeral => numeral,
    };
    bytes
}

/// A face ready for shaping. The files are part of the program; a test shapes with each of them.
fn shaper(face: Face) -> Option<&'static Shaper<'static>> {
    static SHAPERS: LazyLock<Vec<Option<Shaper<'static>>>> = LazyLock::new(|| {
        Face::ALL
            .iter()
            .map(|face| Shaper::from_slice(bytes(*face), 0))
            .collect()
    });
    SHAPERS.get(face as usize).and_then(Option::as_ref)
}

/// Whether a font file has an outline for a character, as its reader says; `None` if it is no font.
#[cfg(test)]
pub(in crate::page) fn has_outline(font: &[u8], c: char) -> Option<bool> {
    let face = rustybuzz::ttf_parser::Face::parse(font, 0).ok()?;
    Some(face.glyph_bounding_box(face.glyph_index(c)?).is_some())
}

/// Advance of a glyph as the font file has it, in font units, and the units of an em.
pub(super) fn file_advance(face: Face, glyph: u16) -> (u16, u16) {
    let Some(shaper) = shaper(face) else {
        return (0, 1000);
    };
    let advance = shaper
        .glyph_hor_advance(rustybuzz::ttf_parser::GlyphId(glyph))
        .unwrap_or(0);
    (
        advance,
        u16::try_from(shaper.units_per_em()).unwrap_or(1000),
    )
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

/// Shapes text; a character that the face lacks is taken from another one of the same em, or shown as `?`.
pub(super) fn shape(text: &str, face: Face, tabular: bool) -> Vec<Glyph> {
    let Some(shaper) = shaper(face) else {
        return Vec::new();
    };
    let known = |c: char| shaper.glyph_index(c).is_some();
    let text: String = text
        .chars()
        .map(|c| if known(c) { c } else { substitute(c, &known) })
        .collect();
    let mut buffer = UnicodeBuffer::new();
    buffer.push_str(&text);
    buffer.guess_segment_properties();
    // Figures and signs alone belong to no script; they are set as in a Latin line.
    if [script::UNKNOWN, script::COMMON].contains(&buffer.script()) {
        buffer.set_script(script::LATIN);
        buffer.set_direction(Direction::LeftToRight);
    }
    let em = f64::from(shaper.units_per_em());
    let plan = plan(face, tabular, &buffer);
    let shaped = match plan {
        Some(plan) => rustybuzz::shape_with_plan(shaper, plan, buffer),
        None => rustybuzz::shape(shaper, &features(tabular), buffer),
    };
    let clusters: Vec<usize> = shaped
        .glyph_infos()
        .iter()
        .map(|i| i.cluster as usize)
        .collect();
    let glyphs = shaped
        .glyph_infos()
        .iter()
        .zip(shaped.glyph_positions())
        .enumerate();
    glyphs
        .map(|(i, (info, position))| {
            let start = info.cluster as usize;
            let end = clusters
                .iter()
                .skip(i + 1)
                .find(|&&c| c > start)
                .copied()
                .unwrap_or(text.len());
            let letters = text.get(start..end).unwrap_or("").replace('\u{a0}', " ");
            Glyph {
                id: u16::try_from(info.glyph_id).unwrap_or(0),
                advance: f64::from(position.x_advance) * 1000.0 / em,
                text: letters,
            }
        })
        .collect()
}

/// What is switched off and on.
fn features(tabular: bool) -> Vec<Feature> {
    // Ligatures would map one glyph to two characters and back to one only.
    let off = |tag: &[u8; 4]| Feature::new(Tag::from_bytes(tag), 0, ..);
    let mut features = vec![off(b"liga"), off(b"clig"), off(b"dlig"), off(b"calt")];
    if tabular {
        features.push(Feature::new(Tag::from_bytes(b"tnum"), 1, ..));
    }
    features
}

/// The plan for Latin text from left to right, made once for each face; other text gets one of its own.
fn plan(face: Face, tabular: bool, buffer: &UnicodeBuffer) -> Option<&'static ShapePlan> {
    static PLANS: LazyLock<Vec<Option<ShapePlan>>> = LazyLock::new(|| {
        let each = Face::ALL
            .iter()
            .flat_map(|face| [(*face, false), (*face, true)]);
        each.map(|(face, tabular)| {
            let (direction, script) = (Direction::LeftToRight, Some(script::LATIN));
            let features = features(tabular);
            Some(ShapePlan::new(
                shaper(face)?,
                direction,
                script,
                None,
                &features,
            ))
        })
        .collect()
    });
    let is_latin = buffer.script() == script::LATIN
        && buffer.direction() == Direction::LeftToRight
        && buffer.language().is_none();
    let plan = PLANS.get(face as usize * 2 + usize::from(tabular));
    plan.and_then(Option::as_ref).filter(|_| is_latin)
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
            assert!(
                shape("Hat 104", face, false).iter().all(|g| g.id != 0),
                "{face:?}"
            );
        }
        for face in [Face::Regular, Face::SemiBold, Face::Bold] {
            let widths: Vec<f64> = shape("0123456789", face, true)
                .iter()
                .map(|g| g.advance)
                .collect();
            assert!(
                widths.iter().all(|w| (w - 632.0).abs() < 0.5),
                "{face:?} {widths:?}"
            );
        }
    }
}
