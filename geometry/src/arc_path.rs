//! Curves of lines and arcs, and the fitting of them.

use kurbo::Point;

/// The sense in which an arc runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Turn {
    /// Counter-clockwise.
    Left,
    /// Clockwise.
    Right,
}

/// One step along a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ArcStep {
    /// A straight line.
    Line {
        /// Where it ends.
        to: Point,
    },
    /// A circular arc of less than a full turn, unless it ends where it starts, which is a full circle.
    Arc {
        /// Where it ends.
        to: Point,
        /// The centre of its circle.
        centre: Point,
        /// Which way it runs.
        turn: Turn,
    },
}

/// A curve of lines and arcs; closed if it ends where it starts.
#[derive(Clone, Debug, PartialEq)]
pub struct ArcPath {
    /// Where it starts.
    pub start: Point,
    /// The steps in order.
    pub steps: Vec<ArcStep>,
}
