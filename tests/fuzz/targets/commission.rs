//! Fuzz target: see `hostile::commission`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sortwright_fuzz::hostile::commission(bytes));
