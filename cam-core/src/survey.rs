//! What each cutter of the commission reaches on each sort: ground, corners, narrow ground, thin strokes.

use kurbo::Point;

use geometry::region::Region;

/// The survey of one sort.
#[derive(Clone, Debug, Default)]
pub struct Survey {
    /// One entry per cutter of the commission, from the largest to the smallest.
    pub cutters: Vec<CutterSurvey>,
    /// The background inside the block that no cutter reaches.
    pub unreached: Region,
    /// Area of that.
    pub unreached_mm2: f64,
    /// Every corner of the background that stays rounder than the tolerance with the whole set.
    pub corners: Vec<CornerReport>,
    /// Strokes thinner than the limit: the place, and the thickness there.
    pub thin_strokes: Vec<(Point, f64)>,
    /// Background narrower than the smallest cutter: the place, and the width there.
    pub narrow_ground: Vec<(Point, f64)>,
}

/// What one cutter reaches on a sort.
#[derive(Clone, Debug, Default)]
pub struct CutterSurvey {
    /// The cutter, by id.
    pub cutter: String,
    /// Background inside the block that it reaches.
    pub reached: Region,
    /// Area of that.
    pub reached_mm2: f64,
    /// Background inside the block that it leaves.
    pub left: Region,
    /// Area of that.
    pub left_mm2: f64,
    /// Corners of the background that it leaves rounder than the tolerance.
    pub corners: Vec<CornerReport>,
}

/// A corner of the background, in face space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornerReport {
    /// The drawn corner.
    pub at: Point,
    /// The angle of the background there, degrees.
    pub angle_deg: f64,
    /// From the drawn corner to the nearest wood that was reached, mm.
    pub gap_mm: f64,
    /// The diameter of the largest cutter that would satisfy the tolerance, mm.
    pub wanted_diameter_mm: f64,
}
