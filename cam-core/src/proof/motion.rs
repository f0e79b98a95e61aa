//! The plane geometry of one motion as read: its extent, its distance from a place, places along it.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use geometry::arc_path::Turn;
use kurbo::{Point, Rect, Vec2};
use reader::{ReadCourse, ReadMotion};

/// The deepest and the shallowest depth of a motion below the face, mm; negative above it.
pub fn depths(motion: &ReadMotion) -> (f64, f64) {
    let (from, to) = (-motion.from.z, -motion.to.z);
    (from.max(to), from.min(to))
}

/// Whether any of the motion lies below the face.
pub fn is_below_face(motion: &ReadMotion) -> bool {
    depths(motion).0 > 0.0
}

/// Whether the cutter moves across as well as up or down.
pub fn moves_across(motion: &ReadMotion) -> bool {
    match motion.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => motion.from.xy != motion.to.xy,
        ReadCourse::Arc { .. } => true,
    }
}

/// The bounding box of the cutter's centre.
pub fn extent(motion: &ReadMotion) -> Rect {
    let ends = Rect::from_points(motion.from.xy, motion.to.xy);
    match motion.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => ends,
        ReadCourse::Arc {
            centre,
            turn,
            sweep,
            ..
        } => {
            let radius = motion.from.xy.distance(centre);
            let rays = rays(motion, centre, turn);
            [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)]
                .into_iter()
                .map(|(x, y)| Vec2::new(x, y))
                .filter(|&way| is_between(way, rays, sweep))
                .fold(ends, |found, way| found.union_pt(centre + way * radius))
        }
    }
}

/// Distance of a place from the cutter's centre line, seen from above.
pub fn distance(motion: &ReadMotion, place: Point) -> f64 {
    match motion.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => {
            distance_to_line(motion.from.xy, motion.to.xy, place)
        }
        ReadCourse::Arc {
            centre,
            turn,
            sweep,
            ..
        } => {
            let arm = place - centre;
            if is_between(arm, rays(motion, centre, turn), sweep) {
                (arm.hypot() - motion.from.xy.distance(centre)).abs()
            } else {
                place
                    .distance(motion.from.xy)
                    .min(place.distance(motion.to.xy))
            }
        }
    }
}

/// From an arc's centre to its ends, the one first from which it goes counter-clockwise.
fn rays(motion: &ReadMotion, centre: Point, turn: Turn) -> [Vec2; 2] {
    let (from, to) = (motion.from.xy - centre, motion.to.xy - centre);
    match turn {
        Turn::Left => [from, to],
        Turn::Right => [to, from],
    }
}

/// Whether a direction lies between two, from one counter-clockwise through `sweep` to the other.
fn is_between(way: Vec2, [from, to]: [Vec2; 2], sweep: f64) -> bool {
    let (after, before) = (from.cross(way) >= 0.0, way.cross(to) >= 0.0);
    if sweep > PI {
        after || before || sweep >= TAU - 1e-9
    } else {
        // Of an arc of next to nothing both rays are one line, which goes on behind the centre.
        after && before && (sweep > FRAC_PI_2 || (from + to).dot(way) >= 0.0)
    }
}

/// Distance of a place from a straight line between two places.
pub fn distance_to_line(a: Point, b: Point, place: Point) -> f64 {
    let along = b - a;
    let length2 = along.hypot2();
    if length2 == 0.0 {
        return place.distance(a);
    }
    let share = ((place - a).dot(along) / length2).clamp(0.0, 1.0);
    place.distance(a + along * share)
}

/// The same motion laid elsewhere.
pub fn shifted(motion: &ReadMotion, by: Vec2) -> ReadMotion {
    let mut motion = *motion;
    motion.from.xy += by;
    motion.to.xy += by;
    if let ReadCourse::Arc { centre, .. } = &mut motion.course {
        *centre += by;
    }
    motion
}

/// The most places taken along one motion: a bound for hostile programs; a metre at 0.1 mm.
const MOST_PLACES: f64 = 10_000.0;

/// Places along a motion, both ends among them, no further apart than `step` (unless the bound is met).
pub fn places(motion: &ReadMotion, step: f64) -> impl Iterator<Item = Point> + '_ {
    let parts = (motion.flat_length_mm() / step)
        .ceil()
        .clamp(1.0, MOST_PLACES) as u32;
    (0..=parts).map(move |part| motion.xy_at(f64::from(part) / f64::from(parts)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::tests::arc;

    /// Places along a motion are the other way to tell how far it is.
    #[test]
    fn the_distance_of_an_arc_is_that_of_its_nearest_place() {
        let centre = Point::new(1.0, -2.0);
        for turn in [Turn::Left, Turn::Right] {
            for sweep in [1e-7, 0.3, FRAC_PI_2, 2.0, PI, 3.5, 5.0, TAU - 1e-6, TAU] {
                for begin in [0.0, 1.0, FRAC_PI_2, PI, 4.0] {
                    let arc = arc(centre + Vec2::from_angle(begin) * 3.0, centre, sweep, turn);
                    for number in 0..64 {
                        let angle = begin + f64::from(number) * TAU / 64.0;
                        let place =
                            centre + Vec2::from_angle(angle) * (0.5 + f64::from(number % 5));
                        let nearest = places(&arc, 0.002)
                            .map(|along| along.distance(place))
                            .fold(f64::INFINITY, f64::min);
                        let off = (distance(&arc, place) - nearest).abs();
                        assert!(off < 1e-5, "{turn:?} {sweep} {begin} {place}: {off}");
                    }
                }
            }
        }
    }
}
