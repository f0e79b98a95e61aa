//! Why a drawing could not be used.

use geometry::region::RegionError;

use crate::{MOST_BYTES, MOST_PIECES};

/// Why a drawing could not be used.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DrawingError {
    /// It is none of the kinds that are read.
    #[error("The file is neither an SVG nor a DXF drawing. Save the drawing as one of them.")]
    UnknownKind,
    /// A picture of dots.
    #[error(
        "The file is a scanned page, not a drawing. Trace it first with “sortwright trace”, and use the SVG that comes of it."
    )]
    Scan,
    /// The file is very large.
    #[error("The drawing is larger than {} MB and was not read. Save only the part that is to be cut.", MOST_BYTES / 1024 / 1024)]
    TooLarge,
    /// More pieces than can be worked.
    #[error(
        "The drawing has more than {MOST_PIECES} lines and curves. Save only the part that is to be cut, or simplify it."
    )]
    TooManyPieces,
    /// Elements nested too deeply.
    #[error(
        "The drawing's groups are nested more than {0} deep. Ungroup it in the program that made it."
    )]
    TooDeep(usize),
    /// Compressed SVG.
    #[error("The drawing is a compressed SVG. Save it as plain SVG.")]
    Compressed,
    /// Damaged XML, or not SVG.
    #[error("The SVG file cannot be read: {0}. Save it anew from the program that made it.")]
    Svg(String),
    /// A size that is none.
    #[error(
        "The SVG file states no size that can be used. Give it a width, a height and a viewBox."
    )]
    NoSize,
    /// Text.
    #[error(
        "The drawing has text (“{0}”), which prints differently wherever its font is missing. Turn the text into outlines in the program that made it."
    )]
    Text(String),
    /// A picture of dots inside the drawing.
    #[error(
        "The drawing holds a picture of dots, which has no outline. Trace the picture and put its outline in its place, or take it out."
    )]
    Picture,
    /// A gradient or pattern.
    #[error(
        "The drawing has a {what} {element}, and wood prints one flat colour. Give it a plain fill."
    )]
    Shaded {
        /// "fill that shades from colour to colour" or "fill of a pattern".
        what: &'static str,
        /// The element, if it is named.
        element: String,
    },
    /// A mask or filter.
    #[error(
        "The drawing has a {what} {element}, which has no outline. Draw its result as a shape."
    )]
    Effect {
        /// "mask" or "filter".
        what: &'static str,
        /// The element, if it is named.
        element: String,
    },
    /// Nothing prints.
    #[error(
        "The drawing draws nothing that prints: no filled shape, no stroke, nothing but white."
    )]
    Nothing,
    /// Overlaps that take too long.
    #[error(
        "The drawing changes colour {0} times over so many points that its overlaps cannot be worked out. Join shapes of one colour, or simplify it."
    )]
    TooBusy(usize),
    /// The plane mathematics refuses it.
    #[error("{0}")]
    Outline(#[from] RegionError),
    /// Binary DXF.
    #[error("The drawing is a binary DXF file. Save it as a text DXF (ASCII).")]
    BinaryDxf,
    /// Damaged DXF.
    #[error(
        "The DXF file is damaged at line {line}: {why}. Save it anew from the program that made it."
    )]
    Dxf {
        /// Line, from 1.
        line: usize,
        /// What is wrong there.
        why: String,
    },
    /// An entity that does not lie in the plane of the drawing.
    #[error(
        "The DXF file has a {what} (line {line}) that does not lie flat in the drawing's plane. Flatten the drawing to z = 0."
    )]
    NotFlat {
        /// The kind of entity.
        what: String,
        /// Line, from 1.
        line: usize,
    },
}
