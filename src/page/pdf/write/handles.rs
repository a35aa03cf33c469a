//! How printpdf is told of faces and glyphs, and asked for what it made.

use printpdf::{Codepoint, FontId, PdfDocument, PdfSaveOptions};

use crate::page::pdf::face::{Face, Glyph, file_advance};

pub(super) fn to_lopdf(pdf: PdfDocument) -> lopdf::Document {
    let options = PdfSaveOptions {
        optimize: false,
        subset_fonts: false,
        secure: false,
        image_optimization: None,
    };
    pdf.to_lopdf_document(&options, &mut Vec::new())
}

pub(super) fn font_id(face: Face) -> FontId {
    FontId(format!("F{}", face as usize))
}

/// By how much less a glyph moves on than the file will say: widths are named in whole numbers there, and what kerning and
/// the face itself want is made up for by hand.
pub(super) fn offset(face: Face, glyph: &Glyph) -> f32 {
    let (advance, em) = file_advance(face, glyph.id);
    // The width that the file will name is cut to a whole number.
    let named = (f32::from(advance) * 1000.0 / f32::from(em)) as i64 as f64;
    (((named - glyph.advance) * 100.0).round() / 100.0) as f32
}

/// A glyph as printpdf takes it.
pub(super) fn codepoint(face: Face, glyph: &Glyph) -> Codepoint {
    Codepoint::with_cid(glyph.id, offset(face, glyph), glyph.text.clone())
}
