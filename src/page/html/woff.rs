//! A font file for the web: its tables compressed one by one (WOFF 1.0, W3C Recommendation of 13 December 2012).

use crate::page::pdf::zlib;

/// Bytes of the header of each format, and of an entry in its list of tables.
const SFNT: (usize, usize) = (12, 16);
const WOFF: (usize, usize) = (44, 20);

/// A font with its tables compressed; `None` if the file is not what a font file is.
pub(super) fn woff(font: &[u8]) -> Option<Vec<u8>> {
    let word = |at: usize| Some(u32::from_be_bytes(font.get(at..at + 4)?.try_into().ok()?));
    let count = u16::from_be_bytes(font.get(4..6)?.try_into().ok()?);
    let mut directory: Vec<u8> = Vec::new();
    let mut data: Vec<u8> = Vec::new();
    let mut size = SFNT.0 + SFNT.1 * usize::from(count);
    let start = WOFF.0 + WOFF.1 * usize::from(count);
    for i in 0..usize::from(count) {
        let entry = SFNT.0 + SFNT.1 * i;
        let (offset, length) = (word(entry + 8)? as usize, word(entry + 12)? as usize);
        let table = font.get(offset..offset + length)?;
        let packed = zlib(table, 9);
        // A table that does not get smaller stays as it is.
        let shorter = packed.as_deref().filter(|packed| packed.len() < length);
        let content = shorter.unwrap_or(table);
        directory.extend(font.get(entry..entry + 4)?);
        for number in [start + data.len(), content.len(), length] {
            directory.extend(u32::try_from(number).ok()?.to_be_bytes());
        }
        directory.extend(font.get(entry + 4..entry + 8)?);
        data.extend(content);
        data.resize(data.len().next_multiple_of(4), 0);
        size += length.next_multiple_of(4);
    }
    let mut out = b"wOFF".to_vec();
    out.extend(font.get(0..4)?);
    out.extend(u32::try_from(start + data.len()).ok()?.to_be_bytes());
    out.extend(count.to_be_bytes());
    out.extend([0, 0]);
    out.extend(u32::try_from(size).ok()?.to_be_bytes());
    // Version 1.0, no extended metadata, no private data.
    out.extend([0, 1, 0, 0]);
    out.resize(WOFF.0, 0);
    out.extend(directory);
    out.extend(data);
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_built_in_face_gets_smaller_and_keeps_its_tables() {
        let font = crate::page::pdf::Face::Regular.file();
        let packed = woff(font).unwrap_or_default();
        assert!(packed.starts_with(b"wOFF"));
        assert_eq!(packed.get(4..8), font.get(..4));
        assert_eq!(packed.get(12..14), font.get(4..6));
        let size = u32::try_from(packed.len()).map(u32::to_be_bytes);
        assert_eq!(
            packed.get(8..12),
            size.as_ref().ok().map(<[u8; 4]>::as_slice)
        );
        let whole = u32::try_from(font.len().next_multiple_of(4)).map(u32::to_be_bytes);
        assert_eq!(
            packed.get(16..20),
            whole.as_ref().ok().map(<[u8; 4]>::as_slice)
        );
        assert!(packed.len() < font.len() * 7 / 10);
    }

    #[test]
    fn what_is_no_font_is_refused() {
        assert_eq!(woff(b""), None);
        assert_eq!(woff(b"\0\x01\0\0\0\x09and nothing else"), None);
    }
}
