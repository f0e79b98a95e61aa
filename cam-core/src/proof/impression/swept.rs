//! What cutters sweep at the face: the plane figure of their ways, exact but for the chords of round edges.
//!
//! A place is swept if it lies no further from some cutter's way than that cutter is wide there. Seen from such a place, the nearest
//! point of the way lies within a stroke, and then the place lies straight beside the stroke; or it is an end of strokes, and then the
//! place lies ahead of all of them. So a band beside each stroke and a wedge about each end are the whole figure.

use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

use geometry::arc_path::Turn;
use geometry::boolean::union_of_rings;
use geometry::region::{Region, Ring};
use kurbo::{Point, Vec2};

use super::super::solid::Solid;
use reader::{ReadCourse, ReadMotion};

/// How far the chords of round edges may lie from them, mm: a tenth of the usual tolerance of a wall.
pub const CHORD_MM: f64 = 0.001;

/// Strokes that differ by less are one, mm: the layers of a cut run along the same way.
const SAME_MM: f64 = 1e-6;

/// By how much wedges reach into the bands beside them, radians, so that rounding leaves no seam.
const SEAM: f64 = 0.01;

/// In how many pieces a sloping way is taken where the width at the face does not change evenly.
const PIECES: u32 = 64;

/// The most chords of one round edge: a bound for hostile programs.
const MOST_CHORDS: f64 = 10_000.0;

/// A figure being swept.
#[derive(Default)]
pub struct Swept {
    seen: BTreeSet<[i64; 8]>,
    /// Ends of strokes with their radius, and the directions in which strokes leave them.
    ends: BTreeMap<[i64; 3], End>,
    rings: Vec<Ring>,
}

/// An end of strokes.
struct End {
    at: Point,
    radius: f64,
    /// Angles of the directions in which strokes leave it.
    leaving: Vec<f64>,
}

impl Swept {
    /// Lets a cutter run along a motion; what of it lies above the face sweeps nothing.
    pub fn add(&mut self, read: &ReadMotion, solid: &Solid) {
        let (from, to) = (-read.from.z, -read.to.z);
        let Some([start, end]) = below(from, to) else {
            return;
        };
        let depth = |part: f64| from + (to - from) * part;
        let even = solid.is_flat() || from == to;
        if even {
            let radius = solid.radius_at(depth(f64::midpoint(start, end)));
            self.add_even(read, [start, end], radius);
            return;
        }
        let parts = parts(read, solid, [start, end], depth);
        for pair in parts.windows(2) {
            let ends = [read.xy_at(pair[0]), read.xy_at(pair[1])];
            // Rounding may leave an end a hair above the face.
            let radii = [pair[0], pair[1]].map(|part| solid.radius_at(depth(part).max(0.0)));
            self.rings.extend(taper(ends, radii));
        }
    }

    /// A stroke of one width.
    fn add_even(&mut self, read: &ReadMotion, [start, end]: [f64; 2], radius: f64) {
        if radius <= 0.0 || !radius.is_finite() {
            return;
        }
        // Where a motion is taken whole, its ends are those of its neighbours to the last digit.
        let from = if start == 0.0 {
            read.from.xy
        } else {
            read.xy_at(start)
        };
        let to = if end == 1.0 {
            read.to.xy
        } else {
            read.xy_at(end)
        };
        let mut key = [
            steps(from.x),
            steps(from.y),
            steps(to.x),
            steps(to.y),
            steps(radius),
            0,
            0,
            0,
        ];
        match read.course {
            ReadCourse::Arc {
                centre,
                turn,
                sweep,
                ..
            } => {
                let sweep = match turn {
                    Turn::Left => sweep * (end - start),
                    Turn::Right => -sweep * (end - start),
                };
                key[5..].copy_from_slice(&[steps(centre.x), steps(centre.y), steps(sweep)]);
                if self.seen.insert(key) {
                    self.add_arc(centre, from, to, sweep, radius);
                }
            }
            ReadCourse::Rapid | ReadCourse::Line { .. } => {
                if !self.seen.insert(key) {
                    return;
                }
                let way = to - from;
                if way.hypot() < SAME_MM {
                    self.end(from, radius);
                    return;
                }
                let side = Vec2::new(-way.y, way.x) * (radius / way.hypot());
                self.rings
                    .push(vec![from - side, to - side, to + side, from + side]);
                self.end(from, radius).leaving.push(way.atan2());
                self.end(to, radius).leaving.push((-way).atan2());
            }
        }
    }

    fn add_arc(&mut self, centre: Point, from: Point, to: Point, sweep: f64, radius: f64) {
        let arm = from - centre;
        let distance = arm.hypot();
        // Along the arc at its start, and back along it at its end.
        let ahead = arm.atan2() + FRAC_PI_2 * sweep.signum();
        self.end(from, radius).leaving.push(ahead);
        self.end(to, radius).leaving.push(ahead + sweep + PI);
        let first = arm.atan2() + sweep.min(0.0);
        let bands = (sweep.abs() / FRAC_PI_2).ceil().clamp(1.0, 5.0) as u32;
        let angle = |band: u32| first + sweep.abs() * f64::from(band) / f64::from(bands);
        for band in 0..bands {
            let angles = [angle(band), angle(band + 1)];
            let mut ring = round(centre, distance + radius, angles);
            if distance > radius {
                ring.extend(round(centre, distance - radius, angles).into_iter().rev());
            } else {
                ring.push(centre);
            }
            self.rings.push(ring);
        }
    }

    fn end(&mut self, at: Point, radius: f64) -> &mut End {
        self.ends
            .entry([steps(at.x), steps(at.y), steps(radius)])
            .or_insert_with(|| End {
                at,
                radius,
                leaving: Vec::new(),
            })
    }

    /// The figure.
    pub fn region(mut self) -> Region {
        for end in self.ends.into_values() {
            self.rings.extend(end.wedges());
        }
        union_of_rings(&self.rings)
    }
}

impl End {
    /// What lies ahead of every stroke that comes to this end, as wedges of the disc about it.
    fn wedges(&self) -> Vec<Ring> {
        if self.leaving.is_empty() {
            let mut disc = round(self.at, self.radius, [0.0, TAU]);
            disc.pop();
            return vec![disc];
        }
        let ahead = |angle: f64| {
            self.leaving
                .iter()
                .all(|leaving| apart(angle, leaving + PI) <= FRAC_PI_2 + SEAM)
        };
        let mut bounds: Vec<f64> = self
            .leaving
            .iter()
            .flat_map(|leaving| [leaving + FRAC_PI_2 - SEAM, leaving - FRAC_PI_2 + SEAM])
            .map(|angle| angle.rem_euclid(TAU))
            .collect();
        bounds.sort_by(f64::total_cmp);
        let next = bounds
            .iter()
            .skip(1)
            .copied()
            .chain(bounds.first().map(|first| first + TAU));
        bounds
            .iter()
            .copied()
            .zip(next)
            .filter(|&(from, to)| to > from && ahead(f64::midpoint(from, to)))
            .map(|(from, to)| {
                let mut wedge = round(self.at, self.radius, [from, to]);
                wedge.push(self.at);
                wedge
            })
            .collect()
    }
}

/// The part of a motion at or below the face, by its depths at both ends; none for a motion that only touches it.
fn below(from: f64, to: f64) -> Option<[f64; 2]> {
    if !(from.is_finite() && to.is_finite()) || from.max(to) <= 0.0 {
        return None;
    }
    let crossing = from / (from - to);
    Some([
        if from < 0.0 { crossing } else { 0.0 },
        if to < 0.0 { crossing } else { 1.0 },
    ])
}

/// Where a sloping motion is parted so that along each part way and width change evenly, within the chords' allowance.
fn parts(
    read: &ReadMotion,
    solid: &Solid,
    [start, end]: [f64; 2],
    depth: impl Fn(f64) -> f64,
) -> Vec<f64> {
    let mut parts = vec![start, end];
    let fall = depth(1.0) - depth(0.0);
    let mut at_depth = |wanted: f64| {
        let part = (wanted - depth(0.0)) / fall;
        if part > start && part < end {
            parts.push(part);
        }
    };
    match *solid {
        Solid::Flat { .. } => {}
        Solid::Conical { tip, slope, radius } => at_depth((radius - tip) / slope),
        Solid::Ball { radius } => (1..=PIECES).for_each(|piece| {
            // Evenly by the width rather than by the depth, which it grows with ever less.
            let part = f64::from(piece) / f64::from(PIECES);
            at_depth(radius * part * part);
        }),
    }
    if let ReadCourse::Arc { centre, sweep, .. } = read.course {
        let chords = chords(
            read.from.xy.distance(centre) + solid.radius_at(f64::MAX),
            sweep,
        );
        parts.extend(
            (1..chords).map(|chord| start + (end - start) * f64::from(chord) / f64::from(chords)),
        );
    }
    parts.sort_by(f64::total_cmp);
    parts.dedup();
    parts
}

/// What a disc sweeps that moves straight and changes its radius evenly.
fn taper([a, b]: [Point; 2], [at_a, at_b]: [f64; 2]) -> Option<Ring> {
    let way = b - a;
    let length = way.hypot();
    let larger = at_a.max(at_b);
    if larger <= 0.0 || !larger.is_finite() {
        return None;
    }
    if length <= (at_a - at_b).abs() + SAME_MM {
        let centre = if at_a >= at_b { a } else { b };
        let mut disc = round(centre, larger, [0.0, TAU]);
        disc.pop();
        return Some(disc);
    }
    // The sides touch both discs at this angle from the way.
    let lean = ((at_a - at_b) / length).acos();
    let ahead = way.atan2();
    let mut ring = round(b, at_b, [ahead - lean, ahead + lean]);
    ring.extend(round(a, at_a, [ahead + lean, ahead + TAU - lean]));
    Some(ring)
}

/// Points along a round edge, counter-clockwise, both ends among them.
fn round(centre: Point, radius: f64, [from, to]: [f64; 2]) -> Ring {
    let chords = chords(radius, to - from);
    (0..=chords)
        .map(|chord| {
            let angle = from + (to - from) * f64::from(chord) / f64::from(chords);
            centre + Vec2::from_angle(angle) * radius
        })
        .collect()
}

/// How many chords stay within [`CHORD_MM`] of a round edge.
fn chords(radius: f64, sweep: f64) -> u32 {
    let each = 2.0 * (1.0 - CHORD_MM / radius.max(CHORD_MM)).acos();
    (sweep.abs() / each).ceil().clamp(1.0, MOST_CHORDS) as u32
}

/// The angle between two directions, 0 to half a turn.
fn apart(a: f64, b: f64) -> f64 {
    let turned = (a - b).rem_euclid(TAU);
    turned.min(TAU - turned)
}

/// In steps of [`SAME_MM`].
fn steps(value: f64) -> i64 {
    (value / SAME_MM).round() as i64
}

#[cfg(test)]
mod tests;
