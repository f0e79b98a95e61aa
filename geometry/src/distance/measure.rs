//! Distances between places, straight lines and arcs, in closed form: elementary geometry, textbook where nothing else is said.

use std::f64::consts::TAU;

use kurbo::{Point, Rect, Vec2};

use crate::arc_path::Turn;

/// A straight line between two places.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    from: Point,
    way: Vec2,
    /// 1 over the squared length; 0 for a line without length.
    per_square: f64,
}

impl Line {
    pub(super) fn new(from: Point, to: Point) -> Line {
        let way = to - from;
        let square = way.hypot2();
        Line {
            from,
            way,
            per_square: if square > 0.0 { 1.0 / square } else { 0.0 },
        }
    }

    fn to(&self) -> Point {
        self.from + self.way
    }

    pub(super) fn bounds(&self) -> Rect {
        Rect::from_points(self.from, self.to())
    }

    fn nearest(&self, place: Point) -> Point {
        let part = ((place - self.from).dot(self.way) * self.per_square).clamp(0.0, 1.0);
        self.from + self.way * part
    }

    pub(super) fn squared_distance(&self, place: Point) -> f64 {
        (place - self.nearest(place)).hypot2()
    }

    fn crosses(&self, other: &Line) -> bool {
        let side = |line: &Line, place: Point| line.way.cross(place - line.from);
        let (a, b) = (side(self, other.from), side(self, other.to()));
        let (c, d) = (side(other, self.from), side(other, self.to()));
        (a > 0.0) != (b > 0.0) && (c > 0.0) != (d > 0.0)
    }

    pub(super) fn distance_to_line(&self, other: &Line) -> f64 {
        if self.crosses(other) {
            return 0.0;
        }
        self.squared_distance(other.from)
            .min(self.squared_distance(other.to()))
            .min(other.squared_distance(self.from))
            .min(other.squared_distance(self.to()))
            .sqrt()
    }

    /// The least distance by which a disc moving along another line stays clear of this one, its radius changing evenly.
    ///
    /// Distance less radius is convex in the place on both lines together, so its least is at an end of either, or where they
    /// cross.
    pub(super) fn clear_of_taper(&self, course: &Line, radii: [f64; 2]) -> f64 {
        if self.crosses(course) {
            let part = course.part_crossing(self);
            return -(radii[0] + (radii[1] - radii[0]) * part);
        }
        let at_end = |place: Point, radius: f64| self.squared_distance(place).sqrt() - radius;
        at_end(course.from, radii[0])
            .min(at_end(course.to(), radii[1]))
            .min(clear_of_place(course.from, course.to(), radii, self.from))
            .min(clear_of_place(course.from, course.to(), radii, self.to()))
    }

    /// The part of the way along this line at which it crosses another.
    fn part_crossing(&self, other: &Line) -> f64 {
        let across = self.way.cross(other.way);
        let part = (other.from - self.from).cross(other.way) / across;
        if part.is_finite() {
            part.clamp(0.0, 1.0)
        } else {
            0.0
        }
    }

    /// The least and greatest x of the part between two heights, which the line must meet.
    pub(super) fn across(&self, low: f64, high: f64) -> (f64, f64) {
        let to = self.to();
        let at = |y: f64| {
            let part = ((y - self.from.y) / self.way.y).clamp(0.0, 1.0);
            self.from.x + self.way.x * part
        };
        if self.way.y == 0.0 {
            return (self.from.x.min(to.x), self.from.x.max(to.x));
        }
        let (a, b) = (at(low), at(high));
        (a.min(b), a.max(b))
    }

    /// What the line adds to the winding about a place.
    pub(super) fn winding(&self, place: Point) -> i32 {
        let to = self.to();
        if (self.from.y <= place.y) == (to.y <= place.y) {
            return 0;
        }
        let side = self.way.cross(place - self.from);
        if self.from.y <= place.y && side > 0.0 {
            1
        } else if self.from.y > place.y && side < 0.0 {
            -1
        } else {
            0
        }
    }
}

/// The least distance by which a disc that moves straight, its radius changing evenly from the first of `radii` to the second,
/// stays clear of a place; negative where it covers it.
///
/// # Source
/// Elementary: √(h² + x²) − r − m·x is least where x = h·m/√(1 − m²).
pub fn clear_of_place(from: Point, to: Point, radii: [f64; 2], place: Point) -> f64 {
    let at_ends = (from.distance(place) - radii[0]).min(to.distance(place) - radii[1]);
    let way = to - from;
    let length = way.hypot();
    if length <= 0.0 {
        return at_ends;
    }
    let growth = (radii[1] - radii[0]) / length;
    if growth.abs() >= 1.0 {
        // The larger disc holds all of the others.
        return at_ends;
    }
    let along = (place - from).dot(way) / length;
    let aside = ((place - from).cross(way) / length).abs();
    let nearest = along + aside * growth / (1.0 - growth * growth).sqrt();
    if !(0.0..=length).contains(&nearest) {
        return at_ends;
    }
    (nearest - along).hypot(aside) - radii[0] - growth * nearest
}

/// A circular arc.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arc {
    start: Point,
    to: Point,
    centre: Point,
    radius: f64,
    /// Counter-clockwise from this direction …
    first: f64,
    /// … through this angle.
    sweep: f64,
}

impl Arc {
    pub(super) fn new(start: Point, to: Point, centre: Point, turn: Turn) -> Arc {
        let (low, high) = match turn {
            Turn::Left => (start, to),
            Turn::Right => (to, start),
        };
        let first = (low - centre).atan2();
        let sweep = if start == to {
            TAU
        } else {
            ((high - centre).atan2() - first).rem_euclid(TAU)
        };
        Arc {
            start,
            to,
            centre,
            radius: start.distance(centre),
            first,
            sweep,
        }
    }

    pub(super) fn bounds(&self) -> Rect {
        // The whole circle's where more than a quarter is swept; else the ends' grown by the greatest rise over the chord.
        let circle = Rect::from_center_size(self.centre, (2.0 * self.radius, 2.0 * self.radius));
        let ends = Rect::from_points(self.start, self.to);
        if self.sweep > std::f64::consts::FRAC_PI_2 {
            circle.union(ends)
        } else {
            let rise = self.radius * (1.0 - (self.sweep / 2.0).cos());
            ends.inflate(rise, rise)
        }
    }

    fn sweeps(&self, direction: Vec2) -> bool {
        self.sweep >= TAU || (direction.atan2() - self.first).rem_euclid(TAU) <= self.sweep
    }

    pub(super) fn distance(&self, place: Point) -> f64 {
        let out = place - self.centre;
        if self.sweeps(out) {
            (out.hypot() - self.radius).abs()
        } else {
            place.distance(self.start).min(place.distance(self.to))
        }
    }

    pub(super) fn distance_to_line(&self, line: &Line) -> f64 {
        let foot = line.nearest(self.centre);
        if self.meets(line) {
            return 0.0;
        }
        // Away from crossings, the least distance is reached at an end of either, or square to the line.
        let mut least = self
            .distance(line.from)
            .min(self.distance(line.to()))
            .min(self.distance(foot));
        for end in [self.start, self.to] {
            least = least.min(line.squared_distance(end).sqrt());
        }
        least
    }

    fn meets(&self, line: &Line) -> bool {
        // |from + way·t − centre|² = radius²
        let out = line.from - self.centre;
        let a = line.way.hypot2();
        let half_b = out.dot(line.way);
        let c = out.hypot2() - self.radius * self.radius;
        let discriminant = half_b * half_b - a * c;
        if a == 0.0 || discriminant < 0.0 {
            return false;
        }
        let root = discriminant.sqrt();
        [-half_b - root, -half_b + root].iter().any(|&top| {
            let part = top / a;
            (0.0..=1.0).contains(&part) && self.sweeps(out + line.way * part)
        })
    }
}
