//! From passes on a plank to the motions of one program, and how long they take.

pub mod duration;
pub mod order;

mod features;
mod join;
mod low;
mod thread;

pub(crate) use join::in_rows;
pub use join::{Work, join, join_one, join_separation};

use kurbo::Point;

use geometry::arc_path::Turn;

use crate::pass::Purpose;

/// Height above a floor of cleared ground down to which the cutter comes rapidly, mm; from there on it is fed. Twice what cutters
/// differ in height that were set by a sheet of paper. Common practice, no source.
pub(crate) const ABOVE_A_FLOOR_MM: f64 = 0.2;

/// About what the bends of a way at depth take, s. Passes and their order are chosen by it; whether a way from one to the next is taken
/// is told by the time model.
pub(crate) const BENDS_S: f64 = 0.1;

/// The motions of one cutter over one plank, in plank space; z is 0 at the face and negative in the wood.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Toolpath {
    /// The cutter, by id.
    pub cutter: String,
    /// The motions in order. The first is a rapid at clear height.
    pub motions: Vec<Motion>,
}

/// A place in three dimensions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place3 {
    /// Across and along.
    pub xy: Point,
    /// Height: 0 at the face.
    pub z: f64,
}

/// One motion, from where the one before ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    /// Where it ends.
    pub to: Place3,
    /// How it gets there.
    pub course: Course,
    /// What it is part of; `None` for rapids.
    pub purpose: Option<Purpose>,
    /// The layer it belongs to, as in [`crate::pass::Cut::layer`].
    pub layer: u32,
}

/// The course of a motion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Course {
    /// As fast as the machine can, above the wood.
    Rapid,
    /// Straight, at a feed in mm/min.
    Line {
        /// Feed, mm/min.
        feed_mm_min: f64,
    },
    /// An arc in x and y (a helix if z changes), at a feed in mm/min.
    Arc {
        /// Centre.
        centre: Point,
        /// Which way.
        turn: Turn,
        /// Feed, mm/min.
        feed_mm_min: f64,
    },
}
