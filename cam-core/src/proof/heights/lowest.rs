//! How deep a passing cutter cuts at one place.

use geometry::arc_path::Turn;
use kurbo::Point;

use crate::proof::motion;
use crate::proof::solid::Solid;
use reader::{ReadCourse, ReadMotion};

/// How far the chords of a helix of a cone or ball may lie from it, mm.
const CHORD_MM: f64 = 1e-4;

/// The most chords of one helix: a bound for hostile programs.
const MOST_CHORDS: f64 = 4_096.0;

/// The height to which a motion cuts at a place, mm above the face (so mostly below 0); `None` where the cutter never stands over
/// the place.
///
/// Exact for straight motions of all cutters, for level arcs, and for helices of flat cutters. Helices of cones and balls are
/// followed along chords within 0.1 µm.
///
/// # Source
/// Elementary: where two slopes balance, and the law of cosines.
pub fn lowest(solid: &Solid, read: &ReadMotion, place: Point) -> Option<f64> {
    let (low, high) = (read.from.z.min(read.to.z), read.from.z.max(read.to.z));
    match read.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => along_line(
            solid,
            read.from.xy,
            read.to.xy,
            [read.from.z, read.to.z],
            place,
        ),
        ReadCourse::Arc { .. } if low == high => {
            Some(low + solid.rise_at(motion::distance(read, place))?)
        }
        ReadCourse::Arc {
            centre,
            turn,
            sweep,
            ..
        } => match *solid {
            Solid::Flat { radius } => {
                let helix = Helix {
                    from: read.from.xy,
                    centre,
                    turn,
                    sweep,
                    heights: [read.from.z, read.to.z],
                };
                helix.lowest(radius, place)
            }
            Solid::Ball { .. } | Solid::Conical { .. } => along_chords(solid, read, place),
        },
    }
}

/// The height of a straight motion: where the slope of the way and of the cutter's end balance, or at an end of the stretch on
/// which the cutter covers the place.
fn along_line(
    solid: &Solid,
    from: Point,
    to: Point,
    [start, end]: [f64; 2],
    place: Point,
) -> Option<f64> {
    let way = to - from;
    // Roots of squares all through: lengths are far from what squares cannot hold, and this is gone through for every cell.
    let length = way.hypot2().sqrt();
    if length == 0.0 {
        return Some(start.min(end) + solid.rise_at(place.distance(from))?);
    }
    let arm = place - from;
    let (along, aside) = (arm.dot(way) / length, (arm.cross(way) / length).abs());
    let half_chord2 = solid.radius().powi(2) - aside * aside;
    if half_chord2 < 0.0 {
        return None;
    }
    let half_chord = half_chord2.sqrt();
    let (first, last) = (
        (along - half_chord).max(0.0),
        (along + half_chord).min(length),
    );
    if first > last {
        return None;
    }
    let slope = (end - start) / length;
    let at = (along + solid.balance(slope, aside)).clamp(first, last);
    let height = start + slope * at;
    if solid.is_flat() {
        return Some(height);
    }
    let away2 = (at - along) * (at - along) + aside * aside;
    Some(height + solid.rise_at(away2.sqrt().min(solid.radius()))?)
}

/// A helix of a cone or ball, chord by chord.
fn along_chords(solid: &Solid, read: &ReadMotion, place: Point) -> Option<f64> {
    let ReadCourse::Arc { centre, sweep, .. } = read.course else {
        return None;
    };
    let radius = read.from.xy.distance(centre);
    // A chord of an angle lies radius · angle² / 8 from its arc.
    let step = (8.0 * CHORD_MM / radius.max(CHORD_MM)).sqrt();
    let parts = (sweep / step).ceil().clamp(1.0, MOST_CHORDS) as u32;
    let height = |share: f64| read.from.z + (read.to.z - read.from.z) * share;
    (0..parts)
        .filter_map(|part| {
            let shares = [part, part + 1].map(|part| f64::from(part) / f64::from(parts));
            let [a, b] = shares.map(|share| read.xy_at(share));
            along_line(solid, a, b, shares.map(height), place)
        })
        .reduce(f64::min)
}

/// A rising or falling arc of a flat cutter.
struct Helix {
    from: Point,
    centre: Point,
    turn: Turn,
    sweep: f64,
    heights: [f64; 2],
}

impl Helix {
    fn lowest(&self, radius: f64, place: Point) -> Option<f64> {
        use std::f64::consts::TAU;
        let (start, arm) = (self.from - self.centre, place - self.centre);
        let (turning, away) = (start.hypot(), arm.hypot());
        if (turning - away).abs() > radius {
            return None;
        }
        let angle = start.cross(arm).atan2(start.dot(arm));
        let angle = match self.turn {
            Turn::Left => angle.rem_euclid(TAU),
            Turn::Right => (-angle).rem_euclid(TAU),
        };
        let half = if turning + away <= radius {
            std::f64::consts::PI
        } else {
            let cos = (turning * turning + away * away - radius * radius) / (2.0 * turning * away);
            cos.clamp(-1.0, 1.0).acos()
        };
        let height = |turned: f64| {
            self.heights[0] + (self.heights[1] - self.heights[0]) * turned / self.sweep
        };
        [-TAU, 0.0, TAU]
            .into_iter()
            .filter_map(|round| {
                let first = (angle - half + round).max(0.0);
                let last = (angle + half + round).min(self.sweep);
                (first <= last).then(|| height(first).min(height(last)))
            })
            .reduce(f64::min)
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::{PI, TAU};

    use super::*;
    use crate::proof::tests::{arc, line};

    const SOLIDS: [Solid; 4] = [
        Solid::Flat { radius: 1.5 },
        Solid::Ball { radius: 1.5 },
        Solid::Conical {
            tip: 0.2,
            slope: 0.5,
            radius: 1.5,
        },
        Solid::Conical {
            tip: 0.0,
            slope: 1.7,
            radius: 1.5,
        },
    ];

    /// By standing the cutter at many places along the motion; never below what is exact.
    fn sampled(solid: &Solid, read: &ReadMotion, place: Point) -> Option<f64> {
        const PARTS: u32 = 20_000;
        (0..=PARTS)
            .filter_map(|part| {
                let share = f64::from(part) / f64::from(PARTS);
                let away = read.xy_at(share).distance(place);
                Some(read.from.z + (read.to.z - read.from.z) * share + solid.rise_at(away)?)
            })
            .reduce(f64::min)
    }

    #[test]
    fn as_deep_as_the_cutter_stood_at_many_places_along_the_way() {
        let at = Point::new;
        let mut courses = vec![
            line(at(-2.0, -1.0), at(2.0, 1.5)),
            line(at(0.3, -1.0), at(0.3, 2.0)),
            line(at(0.3, 0.4), at(0.3, 0.4)),
            arc(at(2.0, 0.0), at(0.0, 0.0), 1.0, Turn::Left),
            arc(at(2.0, 0.0), at(0.0, 0.0), 4.0, Turn::Right),
            arc(at(0.5, 0.5), at(0.0, 0.0), 5.5, Turn::Right),
            arc(at(2.0, 1.0), at(0.0, 0.0), TAU, Turn::Left),
        ];
        for index in 0..courses.len() {
            for rise in [0.4, -1.7, 9.0] {
                let mut sloping = courses[index];
                sloping.to.z += rise;
                courses.push(sloping);
            }
        }
        let mut seen = 0;
        for course in &courses {
            for solid in &SOLIDS {
                for step in 0..40_u32 {
                    let angle = f64::from(step) * 0.7 * PI;
                    let place = at(
                        0.09 * f64::from(step) * angle.cos(),
                        0.1 * angle.sin() * 20.0,
                    );
                    let (found, tried) =
                        (lowest(solid, course, place), sampled(solid, course, place));
                    let Some(tried) = tried else { continue };
                    let found = found.unwrap_or_else(|| panic!("{course:?}, {solid:?}, {place}"));
                    seen += 1;
                    // At the rim of a ball a small step, or a chord's error, is a long way down.
                    assert!(
                        found <= tried + 1e-3 && tried - found < 0.06,
                        "{course:?}, {solid:?}, {place}: {found} {tried}"
                    );
                }
            }
        }
        assert!(seen > 1_000, "{seen}");
    }

    /// A cone that rises as steeply as its side: everything along the way is cut from the first place.
    #[test]
    fn closed_forms() {
        let at = Point::new;
        let mut level = line(at(0.0, 0.0), at(10.0, 0.0));
        let close = |found: Option<f64>, wanted: f64| {
            assert!(
                found.is_some_and(|found| (found - wanted).abs() < 1e-12),
                "{found:?} for {wanted}"
            );
        };
        close(lowest(&SOLIDS[1], &level, at(5.0, 0.9)), -2.0 + 1.5 - 1.2);
        close(lowest(&SOLIDS[2], &level, at(5.0, 0.7)), -2.0 + 0.5 / 0.5);
        assert_eq!(lowest(&SOLIDS[0], &level, at(5.0, 1.6)), None);
        level.to.z = 8.0;
        // Slope 1: the flat covers from 1.5 before, the ball touches at 45°, the cone of slope ½ is steeper.
        close(lowest(&SOLIDS[0], &level, at(5.0, 0.0)), 1.5);
        close(
            lowest(&SOLIDS[1], &level, at(5.0, 0.0)),
            3.0 + 1.5 - 1.5 * 2.0_f64.sqrt(),
        );
        close(lowest(&SOLIDS[2], &level, at(5.0, 0.0)), 3.0 - 0.2);
    }
}
