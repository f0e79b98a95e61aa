//! Filled areas bounded by polygons: outer rings with counters.

use kurbo::{Point, Rect};

/// A closed polygon; the last point is not a repeat of the first.
pub type Ring = Vec<Point>;

/// One connected area: an outer ring and the counters cut from it.
///
/// The outer ring runs counter-clockwise, counters clockwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The outer boundary, counter-clockwise.
    pub outer: Ring,
    /// The holes, clockwise.
    pub counters: Vec<Ring>,
}

/// A filled area: disjoint pieces.
///
/// Guarantees kept by every function that makes one: rings have at least three points, do not cross themselves or one
/// another, may touch at single points only, and are wound as [`Piece`] says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Region {
    /// The connected areas, in an order that depends on the input alone.
    pub pieces: Vec<Piece>,
}

impl Region {
    /// All rings, each outer ring followed by its counters.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        self.pieces
            .iter()
            .flat_map(|piece| std::iter::once(&piece.outer).chain(&piece.counters))
    }

    /// The bounding box, or `None` of an empty region.
    pub fn bounding_box(&self) -> Option<Rect> {
        let mut points = self.pieces.iter().flat_map(|piece| &piece.outer);
        let first = *points.next()?;
        Some(
            points.fold(Rect::from_points(first, first), |found, &point| {
                found.union_pt(point)
            }),
        )
    }
}
