//! The fuzz target `track`; see `tests/fuzz/bodies`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| fardel_fuzz::run("track", bytes));
