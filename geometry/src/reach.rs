//! What a disc can reach of the ground, what it leaves, and the corners that stop it.

use kurbo::Point;

use crate::diagram::{Diagram, Site};
use crate::region::Region;

mod corners;
mod opening;
mod pieces;

/// How far, in millimetres, the chords of a reached region may lie inside the disc's true arcs: a hundredth of the finest
/// tolerance asked of a corner.
pub const ARC_SAGITTA: f64 = 1e-3;

/// Ground whose wall stays closer than this to the ground reached, in millimetres, counts as reached.
///
/// A flattened curve has a flat joint at every chord, and a disc stays off each by less than the curve was flattened by; such
/// ground is no corner.
pub const LEAST_DEPTH: f64 = 1e-3;

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
    /// How far its furthest wall point stays from the nearest ground reached; infinite if the disc does not come to it at all.
    pub depth: f64,
    /// Where the disc's centre stands when the piece stops it, from each side; empty if the disc does not come to it.
    pub stops: Vec<Point>,
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
    /// The angle of the ground there, in radians, under π: between the walls' tangents, or, where the corner is drawn as a
    /// small curve, between the walls at either end of that. 0 where the curve turns by half a turn or more, as at the end of a
    /// slot.
    pub angle: f64,
    /// The largest radius whose disc comes within the tolerance asked for.
    pub largest_radius: f64,
}

impl Reach {
    /// How far a disc of this reach stays from a place on the wall: 0 where it gets there, `None` where it does not come near
    /// at all. `radius` is the reach's own.
    pub fn gap(&self, wall_point: Point, radius: f64) -> Option<f64> {
        let piece = self
            .left
            .iter()
            .find(|left| left.region.rings().any(|ring| ring.contains(&wall_point)));
        let Some(piece) = piece else { return Some(0.0) };
        piece
            .stops
            .iter()
            .map(|stop| (stop.distance(wall_point) - radius).max(0.0))
            .min_by(f64::total_cmp)
    }
}

impl Diagram {
    /// What a disc of `radius` (mm) reaches of the ground while it stays clear of every wall.
    ///
    /// Ground reached and pieces left make up the ground together, but for rounding to the grid. Arcs are chords within
    /// [`ARC_SAGITTA`], on the reached ground's inside; ground left shallower than [`LEAST_DEPTH`] counts as reached. A place
    /// that the disc fits exactly counts as reached, so where walls are rounded (a slot drawn as wide as the disc), ask with a
    /// radius smaller by the rounding. A radius that is not positive reaches nothing.
    pub fn reach(&self, radius: f64) -> Reach {
        pieces::reach(self, radius)
    }

    /// The stretches of wall that a disc of `radius` (mm) can touch, in ring order; as [`Reach::touched`].
    pub fn touched(&self, radius: f64) -> Vec<Stretch> {
        pieces::touched(self, radius)
    }

    /// The letter's corners on the ground's side, in the order of its rings, with the largest disc that comes within
    /// `tolerance` (mm) of each.
    ///
    /// Flat joints of flattened curves are not corners of their own; a curve is judged at its tightest place, and small
    /// roundings like corners. Of corners within twice the tolerance of one another the hardest stands for all. None for a
    /// tolerance that is not positive.
    pub fn corners(&self, tolerance: f64) -> Vec<Corner> {
        corners::corners(self, tolerance)
    }
}

/// How far a disc stays from the point of a straight corner: r·(1/sin(a/2) − 1), for a radius and an angle in radians.
///
/// 0 for straight angles and more; infinite for an angle of 0.
///
/// # Source
/// Elementary: the centre lies on the bisector, r/sin(a/2) from the point.
pub fn corner_gap(radius: f64, angle: f64) -> f64 {
    if angle >= std::f64::consts::PI {
        return 0.0;
    }
    radius * (1.0 / (angle.max(0.0) / 2.0).sin() - 1.0)
}

/// The area that a disc leaves in a straight corner: r²·(cot(a/2) − (π − a)/2), for a radius and an angle in radians.
///
/// 0 for straight angles and more; infinite for an angle of 0.
///
/// # Source
/// Elementary: the kite between the point, both feet and the centre, less the disc's sector.
pub fn corner_area(radius: f64, angle: f64) -> f64 {
    if angle >= std::f64::consts::PI {
        return 0.0;
    }
    let angle = angle.max(0.0);
    radius * radius * (1.0 / (angle / 2.0).tan() - (std::f64::consts::PI - angle) / 2.0)
}

#[cfg(test)]
mod tests;
