//! Fuzz target: see `hostile::workshop`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sortwright_fuzz::hostile::workshop(bytes));
