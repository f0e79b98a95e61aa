//! Fuzz target: see `hostile::font`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sortwright_fuzz::hostile::font(bytes));
