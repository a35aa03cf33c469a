//! `chart_text`, fuzzed.

#![no_main]

#[path = "../entries.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|data: &[u8]| entries::chart_text(data));
