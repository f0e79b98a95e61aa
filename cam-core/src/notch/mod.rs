//! Notches: rectangular steps cut from the sides of blocks, so that letters such as A and V interlock and close up.
//!
//! Of a pair, one block keeps its lower part and loses a corner at the head, the other keeps its upper part and loses a corner at the
//! foot. Both steps meet at one height, the **seam**, and are as wide as the pair closes up. Widths and heights are sizes of spacing
//! material, so that a notched block goes back to a rectangle with one or two pieces.
//!
//! The cutter is round, so the inner corner of a step keeps a fillet of its radius. The outer corner of the block that comes to lie
//! there is cut off at 45° by as much (the **bevel**), and bears on wood nowhere. Above one another the steps have a clearance; side by
//! side the left block bears on the right one, whose step is wider by the clearance.
//!
//! [`cut`] finds what can be gained ([`Flank`] says how deep one side can be cut at a height, [`share`] which notches the sorts get)
//! and gives the blocks their outlines.

mod closing;
mod cut;
mod flank;
mod shape;
pub mod share;
#[cfg(test)]
mod tests;

use said::plain_number;

use crate::material::{in_words, pieces};

pub use closing::{ClosedPair, closed_pairs, closes_up_mm};
pub use cut::{cut, drawn_and_cut};
pub use flank::{Flank, Sizes};
pub use shape::outline;

/// A side of a block, as printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

/// An end of a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum End {
    /// The head: the upper end.
    Head,
    /// The foot: the lower end.
    Foot,
}

impl Side {
    /// Both sides.
    pub const BOTH: [Side; 2] = [Side::Left, Side::Right];

    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Side::Left => "left",
            Side::Right => "right",
        }
    }
}

impl End {
    /// Both ends.
    pub const BOTH: [End; 2] = [End::Head, End::Foot];

    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            End::Head => "head",
            End::Foot => "foot",
        }
    }

    /// The other end.
    pub const fn other(self) -> End {
        match self {
            End::Head => End::Foot,
            End::Foot => End::Head,
        }
    }
}

/// A step cut from a corner of a block.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Notch {
    /// The side, as printed.
    pub side: Side,
    /// The end at which the corner is cut away.
    pub end: End,
    /// Width of the spacing material that fills it, in points.
    pub width_pt: f64,
    /// Length of the spacing material that fills it, in points.
    pub height_pt: f64,
    /// Width as it is cut, mm.
    pub width_mm: f64,
    /// Height as it is cut, mm.
    pub height_mm: f64,
    /// How much of the corner below the step (above it, at the foot) is cut off at 45°, along either side, mm.
    pub bevel_mm: f64,
}

impl Notch {
    /// What fills it, in words, such as “12-point reglet, 60 pt long”.
    pub fn filling(&self) -> String {
        let found = pieces(self.width_pt).unwrap_or_default();
        format!(
            "{}, {} pt long",
            in_words(&found),
            plain_number(self.height_pt, 3)
        )
    }
}
