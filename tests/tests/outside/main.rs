//! The main job beside what others say: standards, handbooks, worked examples and libraries. Each file names its source.
//!
//! One program for all of these tests: they are linked once, and run beside one another.

mod bench;
mod bills;
mod clipper2;
mod colours;
mod compensation;
mod cutting;
mod dxf;
mod forty_fonts;
mod measures;
mod notches;
mod opentype;
mod papers;
mod pdf;
mod planks;
mod rs274;
mod rs274_parser;
mod scans;
mod skrifa;
mod svg;
mod swept;
mod time;
mod travel;
