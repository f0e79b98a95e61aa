//! The grid of whole tenths of a micrometre on which all regions lie, and the whole-number points that booleans work on.

use i_overlay::i_float::int::point::IntPoint;
use kurbo::Point;

use crate::region::Ring;

/// Grid steps per millimetre; dividing by it gives the nearest `f64` to the decimal number of millimetres.
pub(crate) const STEPS_PER_MM: f64 = 1e4;

/// A point of the grid.
pub(crate) type GridPoint = IntPoint<i32>;

/// The furthest coordinate, in grid steps, for which the products of the boolean operations stay exact.
const FURTHEST: f64 = (1_i64 << 29) as f64;

/// The grid point nearest to a place; places beyond 53 m are moved to that limit, and what is no number to 0.
pub(crate) fn snapped(place: Point) -> GridPoint {
    let step = |value: f64| (value * STEPS_PER_MM).round().clamp(-FURTHEST, FURTHEST) as i32;
    GridPoint::new(step(place.x), step(place.y))
}

/// The place of a grid point.
pub(crate) fn place(point: GridPoint) -> Point {
    Point::new(
        f64::from(point.x) / STEPS_PER_MM,
        f64::from(point.y) / STEPS_PER_MM,
    )
}

/// A ring on the grid, without repeated points.
pub(crate) fn snapped_ring(ring: &[Point]) -> Vec<GridPoint> {
    let mut points: Vec<GridPoint> = ring.iter().map(|&point| snapped(point)).collect();
    points.dedup();
    while points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    points
}

/// A ring of places from grid points.
pub(crate) fn ring_of(points: &[GridPoint]) -> Ring {
    points.iter().map(|&point| place(point)).collect()
}

/// Twice the signed area of the triangle a, b, c: positive where it runs counter-clockwise. Exact.
pub(crate) fn turn(a: GridPoint, b: GridPoint, c: GridPoint) -> i64 {
    let (ux, uy) = (
        i64::from(b.x) - i64::from(a.x),
        i64::from(b.y) - i64::from(a.y),
    );
    let (vx, vy) = (
        i64::from(c.x) - i64::from(b.x),
        i64::from(c.y) - i64::from(b.y),
    );
    ux * vy - uy * vx
}

/// Twice the signed area of a ring; exact.
pub(crate) fn double_area(ring: &[GridPoint]) -> i128 {
    let mut sum = 0_i128;
    for (index, &point) in ring.iter().enumerate() {
        let next = ring[(index + 1) % ring.len()];
        sum += i128::from(point.x) * i128::from(next.y) - i128::from(point.y) * i128::from(next.x);
    }
    sum
}
