//! Arcs and polylines as curves.

use std::f64::consts::{PI, TAU};

use kurbo::{Affine, Arc, BezPath, PathEl, Point, Vec2};

/// How far cubics may lie from arcs and splines, in millimetres.
pub(super) const WITHIN_MM: f64 = 0.0005;

/// Angles below this are no arc, in radians.
const NO_ANGLE: f64 = 1e-9;

/// An arc of an ellipse: `start` and `sweep` count along it in radians, counter-clockwise.
///
/// # Source
/// An ellipse is the image of a circle under an affine map: textbook. Cubics for the circle: the library `kurbo`.
pub(super) fn ellipse_arc(
    centre: Point,
    major: Vec2,
    minor: Vec2,
    start: f64,
    sweep: f64,
    mm_per_unit: f64,
) -> BezPath {
    let larger = major.hypot().max(minor.hypot()) * mm_per_unit;
    let unit_tolerance = if larger > 0.0 {
        (WITHIN_MM / larger).clamp(1e-9, 0.1)
    } else {
        0.1
    };
    let place = Affine::new([major.x, major.y, minor.x, minor.y, centre.x, centre.y]);
    let unit = Arc::new(Point::ZERO, Vec2::new(1.0, 1.0), start, sweep, 0.0);
    let mut path = BezPath::new();
    path.push(PathEl::MoveTo(place * Point::new(start.cos(), start.sin())));
    path.extend(
        unit.append_iter(unit_tolerance)
            .map(|element| place * element),
    );
    path
}

/// A circular arc.
pub(super) fn arc(centre: Point, radius: f64, start: f64, sweep: f64, mm_per_unit: f64) -> BezPath {
    ellipse_arc(
        centre,
        Vec2::new(radius, 0.0),
        Vec2::new(0.0, radius),
        start,
        sweep,
        mm_per_unit,
    )
}

/// How far an arc runs counter-clockwise from one angle to another, in radians; a whole turn if they are the same.
pub(super) fn sweep(from: f64, to: f64) -> f64 {
    let turn = (to - from).rem_euclid(TAU);
    if !(NO_ANGLE..=TAU - NO_ANGLE).contains(&turn) {
        TAU
    } else {
        turn
    }
}

/// A corner of a polyline, with the bulge of the piece that follows it: the tangent of a quarter of its arc's angle.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Corner {
    pub at: Point,
    pub bulge: f64,
}

/// A polyline with bulges.
///
/// # Source
/// The meaning of a bulge: the published DXF reference, group code 42 (from memory). Centre and radius: textbook trigonometry.
pub(super) fn polyline(corners: &[Corner], is_closed: bool, mm_per_unit: f64) -> BezPath {
    let mut path = BezPath::new();
    let Some(first) = corners.first() else {
        return path;
    };
    path.push(PathEl::MoveTo(first.at));
    let pieces = if is_closed {
        corners.len()
    } else {
        corners.len() - 1
    };
    for place in 0..pieces {
        let from = corners[place];
        let to = corners[(place + 1) % corners.len()].at;
        bulged(&mut path, from, to, mm_per_unit);
    }
    path
}

fn bulged(path: &mut BezPath, from: Corner, to: Point, mm_per_unit: f64) {
    let chord = to - from.at;
    let length = chord.hypot();
    let angle = 4.0 * from.bulge.atan();
    // So flat or so short that the chord is as good.
    if length <= 0.0 || (length * from.bulge).abs() * mm_per_unit < WITHIN_MM * 0.01 {
        path.push(PathEl::LineTo(to));
        return;
    }
    let radius = length / (2.0 * (angle / 2.0).sin()).abs();
    // The centre lies to the left of the chord for arcs of less than half a turn counter-clockwise.
    let middle = from.at.midpoint(to);
    let across = Vec2::new(-chord.y, chord.x) / length;
    let centre = middle + across * (length / 2.0 / (angle / 2.0).tan());
    let start = (from.at - centre).atan2();
    let drawn = arc(centre, radius, start, angle.clamp(-TAU, TAU), mm_per_unit);
    let mut elements: Vec<PathEl> = drawn.elements()[1..].to_vec();
    // The end exactly where the file says.
    if let Some(PathEl::CurveTo(_, _, end)) = elements.last_mut() {
        *end = to;
    }
    path.extend(elements);
}

/// Degrees as radians.
pub(super) fn radians(degrees: f64) -> f64 {
    degrees * PI / 180.0
}
