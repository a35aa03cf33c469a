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

/// A glyph as printpdf takes it.
pub(super) fn codepoint(face: Face, glyph: &Glyph) -> Codepoint {
    let (advance, em) = file_advance(face, glyph.id);
    // The width that the file will name is cut to a whole number; the rest is made up for by hand.
    let named = (f32::from(advance) * 1000.0 / f32::from(em)) as i64 as f64;
    let offset = ((named - glyph.advance) * 100.0).round() / 100.0;
    Codepoint::with_cid(glyph.id, offset as f32, glyph.text.clone())
}
