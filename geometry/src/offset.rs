//! Parallel curves of the walls, as exact lines and arcs.

use kurbo::Point;

use crate::diagram::Site;

/// One piece of a parallel curve: the places at one distance from one site.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffsetPiece {
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// The site it is parallel to: a segment gives a straight line, a corner gives an arc about [`OffsetPiece::centre`].
    pub site: Site,
    /// The corner an arc runs about (clockwise, since the ground lies on its left); `None` for a straight line.
    pub centre: Option<Point>,
}

/// A closed parallel curve; the ground further from the walls than the distance lies on its left.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OffsetLoop {
    /// The pieces in order, each starting where the one before ends.
    pub pieces: Vec<OffsetPiece>,
}
