//! The circle of an arc word.
//!
//! # Source
//! NISTIR 6556 (2000) §3.5.3; the limits of the radius form are those of its reference interpreter.

use std::f64::consts::{PI, TAU};

use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};

use crate::fault::Fault;
use crate::replay::ReadCourse;

/// Largest difference between the distances of start and end from the centre, mm (§3.5.3.2).
const TOLERANCE_MM: f64 = 0.002;

/// The same while the program is in inches (§3.5.3.2).
const TOLERANCE_INCH: f64 = 0.0002;

/// How far half the chord may exceed R, as a share of R, for rounding within the reader.
const RADIUS_SLACK: f64 = 1e-12;

/// An angle below this counts as none, so that the arc is a full circle.
const NO_ANGLE: f64 = 1e-12;

/// The unit that a program speaks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Unit {
    /// Millimetres in one unit.
    pub mm: f64,
}

impl Unit {
    /// By how much an arc's ends may differ in their distance from the centre, in this unit.
    pub fn tolerance(self) -> f64 {
        if self.mm == 1.0 {
            TOLERANCE_MM
        } else {
            TOLERANCE_INCH
        }
    }
}

/// An arc in its plane, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Arc {
    pub start: Point,
    pub end: Point,
    pub centre: Point,
    pub turn: Turn,
    /// Angle turned through, radians, above 0 and at most a full turn.
    pub sweep: f64,
}

impl Arc {
    /// Its length, mm.
    pub fn length_mm(&self) -> f64 {
        self.start.distance(self.centre) * self.sweep
    }

    /// Where it leads at its start, a unit vector.
    pub fn along_start(&self) -> Vec2 {
        along(self.centre, self.start, self.turn)
    }

    /// Where it leads at its end, a unit vector.
    pub fn along_end(&self) -> Vec2 {
        along(self.centre, self.end, self.turn)
    }

    /// What a motion along it is told as, in x and y.
    pub fn course(&self, feed_mm_min: f64) -> ReadCourse {
        ReadCourse::Arc {
            centre: self.centre,
            turn: self.turn,
            sweep: self.sweep,
            feed_mm_min,
        }
    }
}

/// Where a circle about a centre leads at one of its places, a unit vector.
pub(crate) fn along(centre: Point, place: Point, turn: Turn) -> Vec2 {
    let arm = place - centre;
    let left = Vec2::new(-arm.y, arm.x) / arm.hypot();
    match turn {
        Turn::Left => left,
        Turn::Right => -left,
    }
}

/// Checks the circle about `centre`; all in mm.
///
/// # Errors
/// A radius of zero, or start and end too unequally far from the centre.
pub(crate) fn check(start: Point, end: Point, centre: Point, unit: Unit) -> Result<(), Fault> {
    let from_start = start.distance(centre) / unit.mm;
    let from_end = end.distance(centre) / unit.mm;
    if from_start == 0.0 || from_end == 0.0 {
        return Err(Fault::ArcZeroRadius);
    }
    let tolerance = unit.tolerance();
    if (from_end - from_start).abs() > tolerance {
        return Err(Fault::ArcRadiiDiffer {
            start: from_start,
            end: from_end,
            tolerance,
        });
    }
    Ok(())
}

/// The centre of an arc given by its radius: positive for the way round of at most half a turn; all in mm.
///
/// # Errors
/// A radius of zero, ends that coincide, or ends too far apart.
pub(crate) fn centre_of_radius(
    start: Point,
    end: Point,
    radius: f64,
    turn: Turn,
    unit: Unit,
) -> Result<Point, Fault> {
    if radius == 0.0 {
        return Err(Fault::ArcZeroRadius);
    }
    if start == end {
        return Err(Fault::ArcRadiusFullCircle);
    }
    let chord = end - start;
    let half = chord.hypot() / 2.0;
    if half > radius.abs() * (1.0 + RADIUS_SLACK) {
        return Err(Fault::ArcRadiusTooSmall {
            chord: chord.hypot() / unit.mm,
            radius: radius / unit.mm,
        });
    }
    let height = (radius * radius - half * half).max(0.0).sqrt();
    let left_of_chord = Vec2::new(-chord.y, chord.x) / (2.0 * half);
    let side = match turn {
        Turn::Left => radius.signum(),
        Turn::Right => -radius.signum(),
    };
    Ok(start.midpoint(end) + left_of_chord * (height * side))
}

/// The angle turned through from start to end, above 0 and at most a full turn.
pub(crate) fn sweep(start: Point, end: Point, centre: Point, turn: Turn) -> f64 {
    if start == end {
        return TAU;
    }
    let a = start - centre;
    let b = end - centre;
    let left = a.cross(b).atan2(a.dot(b));
    let angle = match turn {
        Turn::Left => left,
        Turn::Right => -left,
    };
    if angle.abs() <= NO_ANGLE {
        TAU
    } else if angle < 0.0 {
        (angle + TAU).clamp(PI, TAU)
    } else {
        angle
    }
}
