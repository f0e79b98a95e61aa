//! Fuzz target: see `hostile::scan`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sortwright_fuzz::hostile::scan(bytes));
