//! From a commission and its fonts to sorts: body, set width, lining, and the face in its block.

use kurbo::{Affine, BezPath, Point, Rect};

use geometry::region::Region;

use crate::commission::GlyphChoice;

/// A sort as it will be cut, once for all its copies.
///
/// Everything is in face space (mirrored, as seen from above, millimetres), with the block's lower-left corner at 0, 0.
#[derive(Clone, Debug)]
pub struct Sort {
    /// The maker's name for it: the character, the glyph's name, or "space 12 pt". Unique within the commission.
    pub name: String,
    /// What it prints; empty for an ornament or a space.
    pub text: String,
    /// How many of it are ordered.
    pub count: u32,
    /// The face and glyph it is cut from; `None` for a space or quad.
    pub source: Option<SortSource>,
    /// Body and set.
    pub block: Block,
    /// The drawn face: exact curves in face space, y up.
    pub outline: BezPath,
    /// The same as a region, flattened as [`crate::sort::FLATTENING_MM`] says; empty for a space.
    pub face: Region,
}

/// How far the chords of [`Sort::face`] may lie from the drawn curves, in millimetres.
pub const FLATTENING_MM: f64 = 0.001;

/// Where a sort's face comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct SortSource {
    /// The face, by its id in the commission.
    pub face: String,
    /// How the maker chose the glyph.
    pub choice: GlyphChoice,
    /// The glyph's index in the font.
    pub glyph: u16,
    /// Font units (y up) to face space, mirror included: its determinant is negative.
    pub face_from_em: Affine,
}

/// A sort's block, seen from above with the printing face up.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// The outline, counter-clockwise, lower-left corner at 0, 0; a rectangle unless notched.
    pub outline: Vec<Point>,
    /// The body: size in y, as printed from foot to head.
    pub body_mm: f64,
    /// The set width: size in x.
    pub set_mm: f64,
    /// Height of the base line above the block's lower edge.
    pub baseline_mm: f64,
    /// Points by which the body was extended at the foot and at the head.
    pub extended_pt: [f64; 2],
    /// Whether it is a space or quad, lower than the face.
    pub plain: bool,
}

impl Block {
    /// The block's bounding rectangle.
    pub fn rect(&self) -> Rect {
        Rect::new(0.0, 0.0, self.set_mm, self.body_mm)
    }
}
