//! Fuzz target: see `hostile::program`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sortwright_fuzz::hostile::program(bytes));
