//! Helpers shared by the tests: fonts that registry crates carry, hand-made letters, a second geometry library as
//! referee, a simulated machine, and the repository's own files.

pub mod fonts;

pub mod letters;

pub mod referee;

pub mod repository;

pub mod simulator;
