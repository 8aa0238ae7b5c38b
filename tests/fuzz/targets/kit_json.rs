//! The fuzz target `kit_json`; see `tests/fuzz/bodies`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| fardel_fuzz::run("kit_json", bytes));
