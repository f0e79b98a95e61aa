//! A sheet as a picture, true to size: PNG, SVG and PDF.
//!
//! All three lay the inks in one group: the first as it is, each later one multiplied with those before it where they overlap, and
//! then the group on the paper. So an ink by itself has the colour that it was given, whatever the paper.
//!
//! # Source
//! The blend mode multiply and isolated groups: ISO 32000-1:2008, §11.3 and §11.4 (from memory). That inks on paper look so: common practice,
//! no source.

mod pdf;
mod png;
mod svg;

pub use pdf::to_pdf;
pub use png::to_png;
pub use svg::to_svg;

use super::Colour;

/// Why a picture could not be drawn.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DrawingError {
    /// Nothing to draw, or more than can be held.
    #[error(
        "A picture of {width_mm} × {height_mm} mm at {dpi} dots an inch cannot be drawn; it would have no dots, or more than {most}. Ask for fewer dots an inch, or set fewer sorts.", most = png::MOST_DOTS
    )]
    Size {
        /// Size across, whole mm.
        width_mm: u64,
        /// Size along, whole mm.
        height_mm: u64,
        /// Dots an inch.
        dpi: u32,
    },
    /// Nothing to draw, or larger than a page can be.
    #[error(
        "A page of {width_mm} × {height_mm} mm cannot be drawn; a page of PDF measures from 1 to {most} mm. Set fewer sorts, or save it as SVG.", most = pdf::MOST_MM as u64
    )]
    Page {
        /// Size across, whole mm.
        width_mm: u64,
        /// Size along, whole mm.
        height_mm: u64,
    },
    /// The picture could not be packed.
    #[error("The picture could not be packed as {kind}: {why}.")]
    Packing {
        /// The kind of file.
        kind: &'static str,
        /// Why, as the library says it.
        why: String,
    },
}

/// Millimetres in an inch, by definition.
const MM_PER_INCH: f64 = 25.4;

/// Width of the lines that mark blocks' edges, mm.
const EDGE_MM: f64 = 0.1;

/// Colour of blocks' edges: the grey of a pencil, seen on light and dark papers.
const EDGE: Colour = Colour::new(0x8f, 0x8a, 0x83);
