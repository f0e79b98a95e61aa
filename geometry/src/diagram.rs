//! The segment Voronoi diagram of a letter in its room, from which offsets, reach and centre lines are read.
//!
//! The **room** is the polygon that the cutter may work in; the **letter** lies inside it. Room minus letter is the
//! **ground**. Both the letter's edge and the room's edge are walls, told apart by [`Wall`].
//!
//! Inside, lengths are grid steps from a local origin, and every wall segment is turned so that the ground lies on its left.

use kurbo::Point;

use crate::grid::STEPS_PER_MM;
use crate::region::{Region, Ring};

mod cells;
mod insertion;
mod voronoi;
mod walls;

pub(crate) use cells::{Cell, Edge, Shape, Side, SiteOf, Vertex};
use walls::Walls;

/// The most wall segments that a diagram is built for; its time grows in step with them, a few µs each.
pub const MOST_SEGMENTS: usize = 100_000;

/// The widest room, in millimetres.
pub const WIDEST_ROOM: f64 = 500.0;

/// No index.
pub(crate) const NONE: u32 = u32::MAX;

/// Which wall a place on the boundary of the ground belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Wall {
    /// The drawn letter.
    Letter,
    /// The edge of the room.
    Room,
}

/// The part of a wall that is nearest to some place in the ground.
///
/// Ring and segment numbers count in the order of [`crate::region::Region::rings`] of [`Diagram::letter`]; the room is ring 0
/// of its wall, [`Diagram::room`]. Segment `i` runs from point `i` to point `i + 1` of its ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Site {
    /// Letter or room.
    pub wall: Wall,
    /// The ring, counted within its wall.
    pub ring: u32,
    /// The segment, or the point for a corner.
    pub index: u32,
    /// Whether the site is the segment's inside or the ring's point `index`.
    pub kind: SiteKind,
}

/// A segment or a point of a ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SiteKind {
    /// The open segment from point `index` to the next one.
    Segment,
    /// The point `index`.
    Corner,
}

/// Why no diagram could be made.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum DiagramError {
    /// The letter touches the edge of the room, or sticks out of it.
    #[error(
        "The letter reaches the edge of the room left for the cutter near {:.2}, {:.2} mm; give the block more wood there.", .0.x, .0.y
    )]
    LetterLeavesRoom(Point),
    /// The room is no simple polygon, is empty, wider than [`WIDEST_ROOM`], or has coordinates that are not numbers.
    #[error(
        "The room left for the cutter is not a plain closed outline of at most {WIDEST_ROOM} mm."
    )]
    Room,
    /// More wall segments than [`MOST_SEGMENTS`].
    #[error("The letter has {0} edges, more than {MOST_SEGMENTS}; simplify its drawing.")]
    TooManySegments(usize),
    /// Every way of building it failed its checks.
    #[error(
        "The ground around the letter could not be mapped near {:.2}, {:.2} mm; move a point of the drawing there a little.", .0.x, .0.y
    )]
    Unsound(Point),
}

/// How a diagram was made: each way is taken only where the ones before it did not pass the checks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Method {
    /// By our own builder.
    Insertion,
    /// By a library.
    Library,
    /// By either, after a point was moved by a grid step.
    MovedPoint,
}

/// The diagram of one letter in its room.
#[derive(Clone, Debug)]
pub struct Diagram {
    letter: Region,
    room: Ring,
    method: Method,
    pub(crate) walls: Walls,
    pub(crate) cells: Vec<Cell>,
    pub(crate) vertices: Vec<Vertex>,
    /// Half-edges; the other half of edge `e` is `e ^ 1`.
    pub(crate) edges: Vec<Edge>,
    /// The first halves of the edges in the ground.
    pub(crate) ground_edges: Vec<u32>,
    /// The greatest clearance in the ground, in grid steps.
    pub(crate) widest: f64,
}

impl Diagram {
    /// Builds the diagram of a letter (which may be empty) in a room.
    ///
    /// Points are rounded to [`crate::region::GRID`]; the letter is resolved once more, and points on a straight line between
    /// their neighbours are dropped, so that [`Diagram::letter`] is what all [`Site`]s count in. In the rare case that the
    /// diagram of the exact points fails its checks, a point is moved by one grid step, and the letter kept is the moved one.
    /// The room may be wound either way; it is kept counter-clockwise.
    ///
    /// # Errors
    /// Where the letter touches the room's edge or lies outside it, the room is no simple polygon, limits are passed, or no
    /// sound diagram can be made.
    pub fn build(letter: &Region, room: &Ring) -> Result<Diagram, DiagramError> {
        let mut walls = Walls::new(letter, room)?;
        for attempt in 0..voronoi::ATTEMPTS {
            let fault = match voronoi::build(&walls, attempt) {
                Ok(arrays) => return Ok(Diagram::from_parts(walls, arrays, attempt)),
                Err(fault) => fault,
            };
            if attempt + 1 == voronoi::ATTEMPTS {
                return Err(DiagramError::Unsound(walls.place_of(fault.segment)));
            }
            if attempt + 1 >= voronoi::EXACT_ATTEMPTS {
                walls = walls.nudged(fault.segment, attempt)?;
            }
        }
        Err(DiagramError::Room)
    }

    fn from_parts(walls: Walls, arrays: voronoi::Arrays, attempt: usize) -> Diagram {
        let ground_edges = (0..arrays.edges.len() as u32)
            .step_by(2)
            .filter(|&edge| arrays.edges[edge as usize].side == Side::Ground)
            .collect();
        let widest = arrays
            .vertices
            .iter()
            .filter(|vertex| vertex.side == Side::Ground)
            .map(|vertex| vertex.clearance)
            .fold(0.0, f64::max);
        Diagram {
            ground_edges,
            widest,
            method: voronoi::method(attempt),
            letter: walls.letter(),
            room: walls.room(),
            walls,
            cells: arrays.cells,
            vertices: arrays.vertices,
            edges: arrays.edges,
        }
    }

    /// How it was made.
    pub fn method(&self) -> Method {
        self.method
    }

    /// The letter, as the diagram keeps it: without points on straight lines.
    pub fn letter(&self) -> &Region {
        &self.letter
    }

    /// The room, counter-clockwise, as the diagram keeps it.
    pub fn room(&self) -> &Ring {
        &self.room
    }

    /// The ends of a site's segment, in the order of its ring; of a corner, the ends of the segment that starts there.
    ///
    /// `None` for a site that is not of this diagram.
    pub fn segment(&self, site: Site) -> Option<(Point, Point)> {
        let ring = match site.wall {
            Wall::Letter => self.letter.rings().nth(site.ring as usize)?,
            Wall::Room if site.ring == 0 => &self.room,
            Wall::Room => return None,
        };
        let from = *ring.get(site.index as usize)?;
        let to = ring[(site.index as usize + 1) % ring.len()];
        Some((from, to))
    }

    /// Millimetres from grid steps.
    pub(crate) fn mm(&self, local: Point) -> Point {
        self.walls.mm(local)
    }

    /// Where a half-edge ends; [`NONE`] at infinity.
    pub(crate) fn end_of(&self, edge: u32) -> u32 {
        self.edges[(edge ^ 1) as usize].origin
    }

    /// The site of a cell.
    pub(crate) fn site_of(&self, cell: u32) -> Site {
        let cell = &self.cells[cell as usize];
        let segment = &self.walls.segments[cell.segment as usize];
        match cell.site {
            SiteOf::Segment => segment.site,
            SiteOf::Start => self.walls.corner_at_start(cell.segment),
            SiteOf::End => self.walls.corner_at_end(cell.segment),
        }
    }
}

/// Grid steps from millimetres.
pub(crate) fn steps(mm: f64) -> f64 {
    mm * STEPS_PER_MM
}

#[cfg(test)]
mod tests;
