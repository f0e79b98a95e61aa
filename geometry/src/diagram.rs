//! The segment Voronoi diagram of a letter in its room, from which offsets, reach and centre lines are read.
//!
//! The **room** is the polygon that the cutter may work in; the **letter** lies inside it. Room minus letter is the
//! **ground**. Both the letter's edge and the room's edge are walls, told apart by [`Wall`].

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
/// Ring and segment numbers count in the order of [`crate::region::Region::rings`] for the letter; the room is ring 0 of its
/// wall. Segment `i` runs from point `i` to point `i + 1` of its ring.
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
