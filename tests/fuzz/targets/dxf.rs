//! Fuzz target: see `hostile::dxf`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sortwright_fuzz::hostile::dxf(bytes));
