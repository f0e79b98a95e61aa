//! The sites of the diagram: corners, four points far off, and segments.

use kurbo::{Point, Vec2};

use super::super::NONE;
use super::super::walls::Walls;

/// How many points far off stand around the walls, so that every vertex of the diagram has a place.
pub(super) const FAR: u32 = 4;

/// The furthest coordinate of a corner for which the tests of [`super::points`] are exact.
const FURTHEST: f64 = (1 << 23) as f64;

/// A segment between two corners.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    /// The corners, as sites.
    pub(super) a: u32,
    pub(super) b: u32,
    /// Where corner `a` lies.
    pub(super) from: Point,
    /// From `a` to `b`: whole numbers.
    pub(super) way: Vec2,
    /// The same with length 1.
    pub(super) direction: Vec2,
    pub(super) length: f64,
}

impl Line {
    /// Whether a site is one of its ends.
    pub(super) fn ends_at(&self, site: u32) -> bool {
        self.a == site || self.b == site
    }

    /// The unit normal that points to one of its sides.
    pub(super) fn normal(&self, right: bool) -> Vec2 {
        let left = Vec2::new(-self.direction.y, self.direction.x);
        if right { -left } else { left }
    }

    /// How far a place lies to the left.
    pub(super) fn left_of(&self, place: Point) -> f64 {
        self.direction.cross(place - self.from)
    }

    /// The distance from a place to the closed segment.
    pub(super) fn distance(&self, place: Point) -> f64 {
        let off = place - self.from;
        let along = self.direction.dot(off);
        if along <= 0.0 {
            off.hypot()
        } else if along >= self.length {
            place.distance(self.from + self.way)
        } else {
            self.direction.cross(off).abs()
        }
    }
}

/// All sites: numbers below [`Sites::first_line`] are points, the last [`FAR`] of them far off; the rest are segments.
pub(super) struct Sites {
    pub(super) points: Vec<Point>,
    pub(super) lines: Vec<Line>,
    /// The corners of each ring, as they follow one another.
    pub(super) rings: Vec<std::ops::Range<u32>>,
    /// For each corner the first one at the same place, which stands for all.
    pub(super) same: Vec<u32>,
}

impl Sites {
    /// `None` if the walls are too wide.
    pub(super) fn of(walls: &Walls) -> Option<Sites> {
        let mut points: Vec<Point> = Vec::with_capacity(walls.segments.len() + FAR as usize);
        // The corner at the end of a segment bears the segment's number.
        points.extend(walls.segments.iter().map(|segment| segment.b));
        let furthest = points
            .iter()
            .map(|point| point.x.abs().max(point.y.abs()))
            .fold(1.0, f64::max);
        if furthest > FURTHEST {
            return None;
        }
        let far = f64::from(4 * (furthest as u32).next_power_of_two());
        points.extend([
            Point::new(-far, -far),
            Point::new(far, -far),
            Point::new(far, far),
            Point::new(-far, far),
        ]);
        let mut same: Vec<u32> = (0..walls.segments.len() as u32).collect();
        for corners in &walls.touching {
            for &corner in corners {
                same[corner as usize] = corners[0];
            }
        }
        let mut lines = Vec::with_capacity(walls.segments.len());
        for (index, segment) in (0_u32..).zip(&walls.segments) {
            let a = walls.before(index);
            if a == NONE {
                return None;
            }
            lines.push(Line {
                a: same[a as usize],
                b: same[index as usize],
                from: segment.a,
                way: segment.b - segment.a,
                direction: segment.direction,
                length: segment.length,
            });
        }
        let rings = walls
            .starts
            .windows(2)
            .map(|pair| pair[0]..pair[1])
            .collect();
        Some(Sites {
            points,
            lines,
            rings,
            same,
        })
    }

    /// The corners of all rings, or the segments that end in them, coarse to fine, each with one that came before it on its ring:
    /// every second one that is left lies between two that are in already. So a place is found at once, and what is inserted
    /// is not, as it would be in the order of the ring, the first thing before a wide field of things to come.
    pub(super) fn order(&self) -> Vec<(u32, u32)> {
        let mut order = Vec::with_capacity(self.same.len());
        let coarsest = |ring: &std::ops::Range<u32>| (ring.end - ring.start).next_power_of_two();
        let mut stride = self.rings.iter().map(coarsest).max().unwrap_or(0);
        while stride > 0 {
            for ring in &self.rings {
                if stride == coarsest(ring) {
                    order.push((ring.start, NONE));
                } else if stride < coarsest(ring) {
                    order.extend(
                        (ring.start + stride..ring.end)
                            .step_by(2 * stride as usize)
                            .map(|corner| (corner, corner - stride)),
                    );
                }
            }
            stride /= 2;
        }
        order
    }

    /// The number of the first segment.
    pub(super) fn first_line(&self) -> u32 {
        self.points.len() as u32
    }

    /// The first of the points far off.
    pub(super) fn first_far(&self) -> u32 {
        self.points.len() as u32 - FAR
    }

    /// The segment with a site's number, if it is one.
    pub(super) fn line(&self, site: u32) -> Option<&Line> {
        let index = site.checked_sub(self.first_line())?;
        self.lines.get(index as usize)
    }

    /// The place of a point with a site's number.
    pub(super) fn point(&self, site: u32) -> Point {
        self.points[site as usize]
    }

    /// The corner that a vertex of three sites lies at, if it is one.
    pub(super) fn corner_of(&self, sites: [u32; 3]) -> Option<u32> {
        let point = sites.into_iter().find(|&site| !self.is_line(site));
        point.or_else(|| {
            let [one, other, third] = sites.map(|site| self.line(site));
            let (one, other, third) = (one?, other?, third?);
            [one.a, one.b]
                .into_iter()
                .find(|&corner| other.ends_at(corner) && third.ends_at(corner))
        })
    }

    pub(super) fn is_line(&self, site: u32) -> bool {
        site >= self.first_line()
    }

    /// Whether a site is one of the points far off.
    pub(super) fn is_far(&self, site: u32) -> bool {
        site >= self.first_far() && site < self.first_line()
    }

    /// The distance from a place to a site.
    pub(super) fn distance(&self, site: u32, place: Point) -> f64 {
        match self.line(site) {
            Some(line) => line.distance(place),
            None => self.point(site).distance(place),
        }
    }
}
