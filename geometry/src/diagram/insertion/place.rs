//! Where the vertex of three sites lies.
//!
//! Circles that touch a line and run through a point, or touch two lines and run through a point, or touch a line and run through
//! two points, have their centres on a straight line, the bisector of the two sites that are alike. With the place on it given by
//! k, both the squared radius (Y + k²) and the distance from a line (g + k·w) are known, which leaves the quadratic equation
//! k²(1 − w²) − 2·g·w·k + Y − g² = 0. Of its two circles one touches the three sites counter-clockwise, the other clockwise.

use kurbo::{Point, Vec2};

use super::mesh::Triangle;
use super::sites::{Line, Sites};

/// A segment as seen from the vertex: the unit normal that points to it, and the segment.
#[derive(Clone, Copy)]
struct Facing<'a> {
    normal: Vec2,
    line: &'a Line,
}

impl Facing<'_> {
    fn height(&self, place: Point) -> f64 {
        self.normal.dot(place - self.line.from)
    }
}

/// The vertex of a triangle's sites and its clearance; `None` where there is none that numbers can tell.
pub(super) fn vertex(triangle: &Triangle, sites: &Sites) -> Option<(Point, f64)> {
    let facing = |index: usize| {
        sites.line(triangle.sites[index]).map(|line| Facing {
            normal: line.normal(triangle.right >> index & 1 == 1),
            line,
        })
    };
    let [a, b, c] = triangle.sites;
    let (at, clearance) = match [facing(0), facing(1), facing(2)] {
        [None, None, None] => around_points([a, b, c].map(|site| sites.point(site)))?,
        [None, None, Some(line)] => two_points(a, b, line, sites)?,
        [Some(line), None, None] => two_points(b, c, line, sites)?,
        [None, Some(line), None] => two_points(c, a, line, sites)?,
        [None, Some(one), Some(other)] => one_point(a, one, other, sites)?,
        [Some(other), None, Some(one)] => one_point(b, one, other, sites)?,
        [Some(one), Some(other), None] => one_point(c, one, other, sites)?,
        [Some(one), Some(other), Some(third)] => no_point(one, other, third, sites)?,
    };
    (at.is_finite() && clearance >= 0.0 && clearance.is_finite()).then_some((at, clearance))
}

/// The circle through three points (textbook).
pub(super) fn around_points([a, b, c]: [Point; 3]) -> Option<(Point, f64)> {
    let (b, c) = (b - a, c - a);
    let area = 2.0 * b.cross(c);
    let (bb, cc) = (b.hypot2(), c.hypot2());
    let off = Vec2::new(bb * c.y - cc * b.y, cc * b.x - bb * c.x) / area;
    let at = a + off;
    (at.is_finite()).then_some((at, off.hypot()))
}

/// The two solutions of the equation, of which `greater` names the one with the root added.
fn solved(g: f64, w: f64, flatness: f64, y: f64, greater: bool) -> f64 {
    let root = (g * g - flatness * y).max(0.0).sqrt();
    let root = if greater { root } else { -root };
    let gw = g * w;
    // Sums of like signs only.
    if gw * root >= 0.0 {
        (gw + root) / flatness
    } else {
        (y - g * g) / (gw - root)
    }
}

/// Two points and a segment, counter-clockwise.
fn two_points(p: u32, q: u32, line: Facing, sites: &Sites) -> Option<(Point, f64)> {
    let (at_p, at_q) = (sites.point(p), sites.point(q));
    let apart = at_q - at_p;
    let on_normal = |from: Point, apart: Vec2| {
        let height = apart.hypot2() / (2.0 * line.normal.dot(apart));
        Some((from + line.normal * height, height))
    };
    match (line.line.ends_at(p), line.line.ends_at(q)) {
        (true, true) => None,
        (true, false) => on_normal(at_p, apart),
        (false, true) => on_normal(at_q, -apart),
        (false, false) => {
            let length = apart.hypot();
            let unit = apart / length;
            let across = Vec2::new(-unit.y, unit.x);
            let g = f64::midpoint(line.height(at_p), line.height(at_q));
            let slope = line.normal.dot(unit);
            let k = solved(
                g,
                line.normal.dot(across),
                slope * slope,
                length * length / 4.0,
                true,
            );
            let at = at_p.midpoint(at_q) + across * k;
            Some((at, (length / 2.0).hypot(k)))
        }
    }
}

/// A point and two segments, counter-clockwise.
fn one_point(p: u32, one: Facing, other: Facing, sites: &Sites) -> Option<(Point, f64)> {
    let at_p = sites.point(p);
    let on_normal = |line: Facing, other: Facing| {
        let height = other.height(at_p) * 2.0 / (line.normal - other.normal).hypot2();
        Some((at_p + line.normal * height, height))
    };
    match (one.line.ends_at(p), other.line.ends_at(p)) {
        (true, true) => return Some((at_p, 0.0)),
        (true, false) => return on_normal(one, other),
        (false, true) => return on_normal(other, one),
        (false, false) => {}
    }
    if let Some(corner) = shared_corner(one.line, other.line) {
        let ray = Ray::between(one.normal, other.normal);
        let at_corner = sites.point(corner);
        let apart = at_p - at_corner;
        let along = ray.way.dot(apart);
        let root = (along * along - ray.cosine * ray.cosine * apart.hypot2())
            .max(0.0)
            .sqrt();
        // Of the two circles the nearer has the point on its far side.
        let across = one.normal - other.normal;
        let nearer = Vec2::new(-across.y, across.x).dot(ray.way) > 0.0;
        let reach = if nearer {
            apart.hypot2() / (along + root)
        } else {
            (along + root) / (ray.cosine * ray.cosine)
        };
        return Some((at_corner + ray.way * reach, reach * ray.sine));
    }
    let across = one.normal - other.normal;
    let length = across.hypot();
    let unit = across / length;
    let along = Vec2::new(-unit.y, unit.x);
    let (high, other_high) = (one.height(at_p), other.height(at_p));
    let first = (other_high - high) / length;
    let g = first * one.normal.dot(unit) + high;
    let slope = one.normal.dot(unit);
    let k = solved(
        g,
        one.normal.dot(along),
        slope * slope,
        first * first,
        false,
    );
    let off = unit * first + along * k;
    Some((at_p + off, off.hypot()))
}

/// Three segments.
fn no_point(one: Facing, other: Facing, third: Facing, sites: &Sites) -> Option<(Point, f64)> {
    for (one, other, third) in [
        (one, other, third),
        (other, third, one),
        (third, one, other),
    ] {
        let Some(corner) = shared_corner(one.line, other.line) else {
            continue;
        };
        let at_corner = sites.point(corner);
        if third.line.ends_at(corner) {
            return Some((at_corner, 0.0));
        }
        let ray = Ray::between(one.normal, other.normal);
        // 1 − n·way less 1 − sine, each from what is small of it.
        let closing =
            (third.normal - ray.way).hypot2() / 2.0 - ray.cosine * ray.cosine / (1.0 + ray.sine);
        let reach = third.height(at_corner) / closing;
        return Some((at_corner + ray.way * reach, reach * ray.sine));
    }
    let origin = one.line.from;
    let (u, v) = (other.normal - one.normal, third.normal - one.normal);
    let (hu, hv) = (-other.height(origin), -third.height(origin));
    let off = Vec2::new(hu * v.y - hv * u.y, hv * u.x - hu * v.x) / u.cross(v);
    Some((origin + off, one.normal.dot(off)))
}

/// The bisector of two segments from the corner that they share.
struct Ray {
    way: Vec2,
    /// Of the angle between the ray and either segment.
    sine: f64,
    cosine: f64,
}

impl Ray {
    fn between(one: Vec2, other: Vec2) -> Ray {
        let (sum, across) = (one + other, one - other);
        let (sine, cosine) = (sum.hypot() / 2.0, across.hypot() / 2.0);
        let way = if sine > 0.25 {
            sum / (2.0 * sine)
        } else {
            // A sharp spike: the sum of the normals is small, but their difference is not.
            let way = Vec2::new(-across.y, across.x) / (2.0 * cosine);
            if way.dot(sum) < 0.0 { -way } else { way }
        };
        Ray { way, sine, cosine }
    }
}

fn shared_corner(one: &Line, other: &Line) -> Option<u32> {
    if other.ends_at(one.a) {
        Some(one.a)
    } else if other.ends_at(one.b) {
        Some(one.b)
    } else {
        None
    }
}
