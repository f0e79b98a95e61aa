//! Quernstow, the project's demonstration typeface: its drawing and the program that builds its files.
//!
//! A heavy display roman for wood type: capitals 1400 units high on an em of 2000, hairlines a fifth of the main strokes,
//! rounds that are squarer than ellipses, thin bracketed serifs. [`capitals`] and its neighbours draw the letters from the
//! strokes of [`parts`]; [`merge`] makes each a clean outline; [`font_file`] writes the files. The companion file holds, glyph for
//! glyph, the light lines that run down the middle of the heavy strokes, for printing one letter in two colours.

pub mod capitals;
pub mod features;
pub mod figures;
pub mod font_file;
pub mod glyphs;
pub mod kerning;
pub mod lowercase;
pub mod marks;
pub mod merge;
pub mod ornaments;
pub mod parts;
pub mod pen;
pub mod points;
