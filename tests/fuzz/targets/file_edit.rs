//! `file_edit`, fuzzed.

#![no_main]

#[path = "../entries.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|data: &[u8]| entries::file_edit(data));
