//! A font with the outlines of some glyphs only: the others stay in it, empty, so that no number in it changes. OpenType,
//! chapters `glyf`, `loca`, `head`.

use std::collections::BTreeSet;

/// A font file with the outlines of these glyphs and of what they are put together from; `None` if the file is not what a
/// font file is.
pub(super) fn subset(font: &[u8], glyphs: &BTreeSet<u16>) -> Option<Vec<u8>> {
    let tables = tables(font)?;
    let table = |tag: &[u8; 4]| {
        let (_, at, length) = tables.iter().find(|(known, ..)| known == tag)?;
        font.get(*at..at + length)
    };
    let (head, loca, glyf) = (table(b"head")?, table(b"loca")?, table(b"glyf")?);
    let long = u16_at(head, 50)? == 1;
    let count = loca.len() / if long { 4 } else { 2 } - 1;
    let place = |glyph: usize| -> Option<usize> {
        match long {
            true => Some(u32_at(loca, 4 * glyph)? as usize),
            false => Some(2 * usize::from(u16_at(loca, 2 * glyph)?)),
        }
    };
    let outline = |glyph: usize| glyf.get(place(glyph)?..place(glyph + 1)?);
    let mut kept = BTreeSet::new();
    let mut open: Vec<usize> = glyphs
        .iter()
        .map(|id| usize::from(*id))
        .chain([0])
        .collect();
    while let Some(glyph) = open.pop() {
        if glyph < count && kept.insert(glyph) {
            open.extend(parts(outline(glyph)?));
        }
    }
    let (mut outlines, mut places) = (Vec::new(), Vec::new());
    for glyph in 0..count {
        places.extend(u32::try_from(outlines.len()).ok()?.to_be_bytes());
        if kept.contains(&glyph) {
            outlines.extend(outline(glyph)?);
            outlines.resize(outlines.len().next_multiple_of(4), 0);
        }
    }
    places.extend(u32::try_from(outlines.len()).ok()?.to_be_bytes());
    let mut head = head.to_vec();
    head.get_mut(50..52)?.copy_from_slice(&[0, 1]);
    // Of version 3, which names no glyph.
    let mut post = table(b"post")?.get(..32)?.to_vec();
    post.get_mut(..4)?.copy_from_slice(&[0, 3, 0, 0]);
    let changed: [(&[u8; 4], Vec<u8>); 4] = [
        (b"head", head),
        (b"loca", places),
        (b"glyf", outlines),
        (b"post", post),
    ];
    put_together(font, &tables, &changed)
}

/// Tag, place and length of each table.
fn tables(font: &[u8]) -> Option<Vec<([u8; 4], usize, usize)>> {
    let count = usize::from(u16_at(font, 4)?);
    let each = (0..count).map(|i| {
        let entry = 12 + 16 * i;
        let tag = font.get(entry..entry + 4)?.try_into().ok()?;
        Some((
            tag,
            u32_at(font, entry + 8)? as usize,
            u32_at(font, entry + 12)? as usize,
        ))
    });
    each.collect()
}

/// The glyphs that an outline is put together from.
fn parts(outline: &[u8]) -> Vec<usize> {
    let mut found = Vec::new();
    // A negative number of contours: put together.
    if u16_at(outline, 0).is_none_or(|contours| contours < 0x8000) {
        return found;
    }
    let mut at = 10;
    while let (Some(flags), Some(glyph)) = (u16_at(outline, at), u16_at(outline, at + 2)) {
        found.push(usize::from(glyph));
        let words = if flags & 1 == 1 { 4 } else { 2 };
        let scale = match flags {
            f if f & 0x08 != 0 => 2,
            f if f & 0x40 != 0 => 4,
            f if f & 0x80 != 0 => 8,
            _ => 0,
        };
        at += 4 + words + scale;
        if flags & 0x20 == 0 {
            break;
        }
    }
    found
}

/// The tables one after the other, some of them changed.
fn put_together(
    font: &[u8],
    tables: &[([u8; 4], usize, usize)],
    changed: &[(&[u8; 4], Vec<u8>)],
) -> Option<Vec<u8>> {
    let mut out = font.get(..12)?.to_vec();
    let mut data: Vec<u8> = Vec::new();
    let start = 12 + 16 * tables.len();
    for (tag, at, length) in tables {
        let own = changed.iter().find(|(known, _)| *known == tag);
        let table = match own {
            Some((_, table)) => table.as_slice(),
            None => font.get(*at..at + length)?,
        };
        out.extend(tag);
        out.extend(checksum(table).to_be_bytes());
        out.extend(u32::try_from(start + data.len()).ok()?.to_be_bytes());
        out.extend(u32::try_from(table.len()).ok()?.to_be_bytes());
        data.extend(table);
        data.resize(data.len().next_multiple_of(4), 0);
    }
    out.extend(data);
    Some(out)
}

/// The sum of a table's words, as its entry has it.
fn checksum(table: &[u8]) -> u32 {
    let words = table.chunks(4).map(|chunk| {
        let mut word = [0; 4];
        word.get_mut(..chunk.len())
            .unwrap_or_default()
            .copy_from_slice(chunk);
        u32::from_be_bytes(word)
    });
    words.fold(0, u32::wrapping_add)
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(bytes.get(at..at + 2)?.try_into().ok()?))
}

fn u32_at(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_be_bytes(bytes.get(at..at + 4)?.try_into().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::pdf::{Face, has_outline};

    /// What is kept has its outline, what is not has none, and letters put together keep their parts: read by another
    /// library's parser of fonts.
    #[test]
    fn a_face_keeps_the_outlines_that_are_asked_for() {
        let face = Face::Regular;
        let wanted = face.glyphs_of(&"Peaté".chars().collect());
        let small = subset(face.file(), &wanted).unwrap_or_default();
        assert!(small.len() < face.file().len() * 3 / 4, "{}", small.len());
        let has = |c: char| has_outline(&small, c);
        let all: Vec<Option<bool>> = "Peaté".chars().map(has).collect();
        assert_eq!(all, [Some(true); 5]);
        assert_eq!("zQ".chars().map(has).collect::<Vec<_>>(), [Some(false); 2]);
    }

    #[test]
    fn what_is_no_font_is_refused() {
        assert_eq!(subset(b"", &BTreeSet::new()), None);
        assert_eq!(subset(b"\0\x01\0\0\0\x01", &BTreeSet::new()), None);
    }
}
