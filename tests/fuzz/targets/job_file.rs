//! Fuzz target: see `hostile::job_file`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| sortwright_fuzz::hostile::job_file(bytes));
