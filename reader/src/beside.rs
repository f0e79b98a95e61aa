//! The path beside a path: where the centre of a cutter runs whose edge follows what is programmed. Lengths are mm.
//!
//! # Source
//! NISTIR 6556 (2000) §3.5.10 and appendix B, from memory; so are the limits of its reference interpreter.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};

use crate::arc::Arc;
use crate::replay::Side;

/// Where the path turns by less than this, radians, it goes on as if it did not turn (reference interpreter).
const SMOOTH: f64 = 0.01;

/// How far ends may lie too far apart for their circles, as a share of the radius squared, for rounding within the reader.
const SLACK: f64 = 1e-12;

/// A cutter beside the path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Beside {
    /// The side of the path where the cutter runs.
    pub side: Side,
    /// Radius of the cutter, above 0.
    pub radius_mm: f64,
}

/// What a programmed path does where two of its motions meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Corner {
    /// It goes on straight, or nearly.
    Smooth,
    /// It turns away from the cutter, which goes round the corner by this angle, up to half a turn.
    Outer(f64),
    /// It turns towards the cutter by this angle.
    Inner(f64),
}

impl Beside {
    /// The way from the path to the cutter's centre, where the path leads along a unit vector.
    fn arm(self, along: Vec2) -> Vec2 {
        let left = Vec2::new(-along.y, along.x) * self.radius_mm;
        match self.side {
            Side::Left => left,
            Side::Right => -left,
        }
    }

    /// The cutter's centre beside a place where the path leads along a unit vector.
    pub fn at(self, place: Point, along: Vec2) -> Point {
        place + self.arm(along)
    }

    /// Where a first straight motion ends: the cutter moves along a line that its edge touches and that ends where it was sent.
    ///
    /// `None` if it is sent no further than its radius.
    pub fn entry(self, centre: Point, end: Point) -> Option<Point> {
        let way = end - centre;
        let far = way.hypot();
        if far <= self.radius_mm {
            return None;
        }
        // The way is the long side of a triangle; the short ones are the motion and the radius, square to each other.
        let length = ((far - self.radius_mm) * (far + self.radius_mm)).sqrt();
        let motion = (way * length + self.arm(way)) * (length / (far * far));
        Some(centre + motion)
    }

    /// The corner at a place of the path, to which the cutter has come with its centre and from which the path leads along a unit vector.
    pub fn corner(self, at: Point, centre: Point, along: Vec2) -> Corner {
        let (came, goes) = (centre - at, self.arm(along));
        let left = came.cross(goes).atan2(came.dot(goes));
        let outward = match self.side {
            Side::Left => -left,
            Side::Right => left,
        };
        if outward.abs() <= SMOOTH {
            Corner::Smooth
        } else if outward > 0.0 {
            Corner::Outer(outward)
        } else if outward < SMOOTH - PI {
            // Straight back, to within what counts as straight.
            Corner::Outer(outward + TAU)
        } else {
            Corner::Inner(-outward)
        }
    }

    /// The turn by which the cutter goes round outer corners.
    pub fn turn_at_corners(self) -> Turn {
        match self.side {
            Side::Left => Turn::Right,
            Side::Right => Turn::Left,
        }
    }

    /// Whether the cutter runs on the inner side of arcs that turn so.
    pub fn is_inside(self, turn: Turn) -> bool {
        matches!(
            (self.side, turn),
            (Side::Left, Turn::Left) | (Side::Right, Turn::Right)
        )
    }

    /// How far the cutter's centre runs from the centre of an arc of a radius; negative if the cutter is larger and runs inside.
    pub fn radius_beside(self, radius_mm: f64, turn: Turn) -> f64 {
        if self.is_inside(turn) {
            radius_mm - self.radius_mm
        } else {
            radius_mm + self.radius_mm
        }
    }

    /// The angle from the cutter's centre to the end of its way beside an arc.
    ///
    /// Where the path went on nearly straight, the cutter stands a little before or behind the way beside the arc; not above 0 if it
    /// stands behind the end.
    pub fn sweep_from(self, centre: Point, arc: &Arc) -> f64 {
        let from = centre - arc.centre;
        let meant = self.at(arc.start, arc.along_start()) - arc.centre;
        let left = meant.cross(from).atan2(meant.dot(from));
        match arc.turn {
            Turn::Left => arc.sweep - left,
            Turn::Right => arc.sweep + left,
        }
    }

    /// The centre of a first arc given by its radius, positive for the way round of at most half a turn: at that radius from its end,
    /// and so far from the cutter's centre that the circle touches the cutter.
    ///
    /// `None` if no circle of that radius does both.
    pub fn centre_of_entry(
        self,
        centre: Point,
        end: Point,
        radius_mm: f64,
        turn: Turn,
    ) -> Option<Point> {
        let way = end - centre;
        let far = way.hypot();
        let beside = self.radius_beside(radius_mm.abs(), turn);
        let along = (beside * beside + far * far - radius_mm * radius_mm) / (2.0 * far);
        let aside_squared = beside * beside - along * along;
        if far <= self.radius_mm || aside_squared < -SLACK * beside * beside {
            return None;
        }
        let to_the_left = match turn {
            Turn::Left => radius_mm > 0.0,
            Turn::Right => radius_mm < 0.0,
        };
        let aside = way.angle() + if to_the_left { FRAC_PI_2 } else { -FRAC_PI_2 };
        Some(centre + way * (along / far) + Vec2::from_angle(aside) * aside_squared.max(0.0).sqrt())
    }
}
