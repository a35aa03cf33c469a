//! `stream_line`, fuzzed.

#![no_main]

#[path = "../entries.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|data: &[u8]| entries::stream_line(data));
