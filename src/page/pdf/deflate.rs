//! Compression of what a file holds.

use std::io::Write as _;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::Stream;

/// How hard content is compressed: a third of the time that the hardest takes, for some per cent more bytes.
const LEVEL: u32 = 4;

/// Compresses a stream that is not yet compressed.
pub(super) fn deflate(stream: &mut Stream) {
    if stream.dict.has(b"Filter") || !stream.allows_compression {
        return;
    }
    let Some(compressed) = zlib(&stream.content, LEVEL) else {
        return;
    };
    if compressed.len() + 19 < stream.content.len() {
        stream.dict.set("Filter", "FlateDecode");
        stream.set_content(compressed.into_boxed_slice().into_vec());
    }
}

/// Bytes compressed as zlib does, at a level from 0 to 9.
pub(in crate::page) fn zlib(bytes: &[u8], level: u32) -> Option<Vec<u8>> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(level));
    // Writing into memory cannot fail.
    encoder.write_all(bytes).ok()?;
    encoder.finish().ok()
}
