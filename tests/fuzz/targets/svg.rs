//! Fuzz target: see `hostile::svg`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sortwright_fuzz::hostile::svg(bytes));
