//! What a disc can reach of the ground, what it leaves, and the corners that stop it.

use kurbo::Point;

use crate::diagram::Site;
use crate::region::Region;

/// What a disc of one radius reaches.
#[derive(Clone, Debug, Default)]
pub struct Reach {
    /// The ground that the disc covers from some allowed place.
    pub reached: Region,
    /// The ground that it leaves, piece by piece.
    pub left: Vec<Left>,
    /// The stretches of wall that the disc can touch, in ring order.
    pub touched: Vec<Stretch>,
}

/// A piece of ground that a disc leaves.
#[derive(Clone, Debug)]
pub struct Left {
    /// The piece.
    pub region: Region,
    /// Its area.
    pub area: f64,
    /// How far its furthest wall point stays from the nearest ground reached.
    pub depth: f64,
}

/// A stretch of one segment of a wall: from parameter `from` to `to`, both 0 to 1 along the segment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// The segment (its kind is always a segment).
    pub site: Site,
    /// Where the stretch starts.
    pub from: f64,
    /// Where it ends, not less than `from`.
    pub to: f64,
}

/// A corner of the ground: a place where walls meet at less than a straight angle on the ground's side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// The drawn corner.
    pub at: Point,
    /// The angle of the ground there, in radians, under π.
    pub angle: f64,
    /// The largest radius whose disc comes within the tolerance asked for.
    pub largest_radius: f64,
}
