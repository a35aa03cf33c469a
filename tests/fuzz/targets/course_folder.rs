//! `course_folder`, fuzzed.

#![no_main]

#[path = "../entries.rs"]
mod entries;

libfuzzer_sys::fuzz_target!(|data: &[u8]| entries::course_folder(data));
