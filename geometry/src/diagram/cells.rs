//! The parts of the diagram, as flat arrays, and what can be said of them one by one.

use kurbo::{Point, Vec2};

use super::walls::WallSegment;

/// What a cell belongs to, seen along its directed segment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SiteOf {
    /// The open segment.
    Segment,
    /// The segment's start.
    Start,
    /// The segment's end.
    End,
}

/// A cell: the places nearest to one site.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cell {
    /// The segment.
    pub(crate) segment: u32,
    /// It, or one of its ends.
    pub(crate) site: SiteOf,
}

/// Which side of the walls a part of the diagram lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    /// Not told yet; nowhere in a finished diagram.
    Unknown,
    /// On a wall: the corners themselves.
    Wall,
    /// In the ground.
    Ground,
    /// In the letter.
    Letter,
    /// Outside the room.
    Outside,
}

/// A place with at least three nearest sites, or a corner of the walls.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Vertex {
    /// The place, in grid steps.
    pub(crate) at: Point,
    /// The distance to the nearest wall, in grid steps.
    pub(crate) clearance: f64,
    /// Where it lies.
    pub(crate) side: Side,
}

/// A half-edge: its cell lies on its left.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Edge {
    /// The vertex it starts from; `NONE` at infinity.
    pub(crate) origin: u32,
    /// Its cell.
    pub(crate) cell: u32,
    /// The next half-edge around the cell, counter-clockwise.
    pub(crate) next: u32,
    /// Where it lies.
    pub(crate) side: Side,
    /// Whether it parts two sites that do not belong together; otherwise it parts a segment from its own end.
    pub(crate) primary: bool,
}

/// A cell's site as plain geometry, in grid steps.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Shape {
    /// A point.
    Point(Point),
    /// A directed segment: start and unit direction.
    Line(Point, Vec2),
}

impl Shape {
    /// The geometry of a cell's site.
    pub(crate) fn of(cell: Cell, segment: &WallSegment) -> Shape {
        match cell.site {
            SiteOf::Segment => Shape::Line(segment.a, segment.direction),
            SiteOf::Start => Shape::Point(segment.a),
            SiteOf::End => Shape::Point(segment.b),
        }
    }

    /// The distance from a place whose nearest point lies on the site.
    pub(crate) fn distance(self, place: Point) -> f64 {
        match self {
            Shape::Point(point) => point.distance(place),
            Shape::Line(start, direction) => direction.cross(place - start).abs(),
        }
    }

    /// The nearest point on the site.
    pub(crate) fn foot(self, place: Point) -> Point {
        match self {
            Shape::Point(point) => point,
            Shape::Line(start, direction) => start + direction * direction.dot(place - start),
        }
    }
}
