//! Centre lines of the ground and of the letter, with the clearance along them.

use kurbo::Point;

use crate::diagram::{Diagram, NONE, Shape, Side, Site, steps};
use crate::grid::STEPS_PER_MM;

mod rest;

pub use rest::{Clear, Rest, RestLine, RestNode};

/// Branches along which the two nearest walls are seen closer together than this, in degrees, are left out: they run into the
/// flat joints of flattened curves and into blunt corners, and are no centre of anything.
pub const LEAST_SPREAD_DEG: f64 = 40.0;

/// A place on a centre line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AxisPlace {
    /// The place.
    pub at: Point,
    /// Its distance to the nearest wall, mm.
    pub clearance: f64,
    /// The angle between its two nearest wall places, seen from it, radians: π between parallel walls, small in blunt corners.
    pub spread: f64,
}

/// A stretch of a centre line between two sites: straight, or a parabola if one site is a segment and the other a corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AxisEdge {
    /// Where it starts.
    pub from: AxisPlace,
    /// Where it ends.
    pub to: AxisPlace,
    /// The narrowest place between the ends, if it is narrower there than at both.
    pub narrowest: Option<AxisPlace>,
    /// The two sites that it runs between.
    pub sites: [Site; 2],
}

impl AxisEdge {
    /// The place of least clearance.
    pub fn least(&self) -> AxisPlace {
        let end = if self.from.clearance <= self.to.clearance {
            self.from
        } else {
            self.to
        };
        self.narrowest.unwrap_or(end)
    }
}

/// The widest place of one connected part of the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Widest {
    /// The place.
    pub at: Point,
    /// Its distance to the nearest wall, mm.
    pub clearance: f64,
}

impl Diagram {
    /// The centre lines of the ground, without branches flatter than [`LEAST_SPREAD_DEG`]; in the diagram's own order.
    pub fn ground_axis(&self) -> Vec<AxisEdge> {
        self.axis(Side::Ground)
    }

    /// The centre lines of the letter's strokes, without branches flatter than [`LEAST_SPREAD_DEG`]; in the diagram's own order.
    pub fn letter_axis(&self) -> Vec<AxisEdge> {
        self.axis(Side::Letter)
    }

    fn axis(&self, side: Side) -> Vec<AxisEdge> {
        let least_spread = LEAST_SPREAD_DEG.to_radians();
        (0..self.edges.len() as u32)
            .step_by(2)
            .filter(|&edge| {
                let edge = &self.edges[edge as usize];
                edge.side == side && edge.primary
            })
            .filter_map(|edge| self.axis_edge(edge))
            .filter(|edge| edge.from.spread.max(edge.to.spread) >= least_spread)
            .collect()
    }

    fn axis_edge(&self, edge: u32) -> Option<AxisEdge> {
        let (from, to) = (self.edges[edge as usize].origin, self.end_of(edge));
        if from == NONE || to == NONE {
            return None;
        }
        let (from, to) = (&self.vertices[from as usize], &self.vertices[to as usize]);
        let narrowest = self
            .apex_between(edge)
            .map(|(at, clearance)| self.axis_place(edge, at, clearance));
        Some(AxisEdge {
            from: self.axis_place(edge, from.at, from.clearance),
            to: self.axis_place(edge, to.at, to.clearance),
            narrowest,
            sites: [
                self.site_of(self.edges[edge as usize].cell),
                self.site_of(self.edges[(edge ^ 1) as usize].cell),
            ],
        })
    }

    /// An edge's nearest place to its walls, in grid steps, where it lies strictly between the ends.
    fn apex_between(&self, edge: u32) -> Option<(Point, f64)> {
        let apex = self.apex(edge)?;
        let from = self.vertices[self.edges[edge as usize].origin as usize].at;
        let to = self.vertices[self.end_of(edge) as usize].at;
        if apex.along.dot(from - apex.foot) * apex.along.dot(to - apex.foot) >= 0.0 {
            return None;
        }
        let one = self.shape_of(self.edges[edge as usize].cell);
        let other = self.shape_of(self.edges[(edge ^ 1) as usize].cell);
        Some((
            one.foot(apex.foot).midpoint(other.foot(apex.foot)),
            apex.clearance,
        ))
    }

    fn axis_place(&self, edge: u32, at: Point, clearance: f64) -> AxisPlace {
        let one = self.shape_of(self.edges[edge as usize].cell);
        let other = self.shape_of(self.edges[(edge ^ 1) as usize].cell);
        AxisPlace {
            at: self.mm(at),
            clearance: clearance / STEPS_PER_MM,
            spread: spread(one, other, at),
        }
    }

    /// The widest place of each connected part of the ground whose clearance is at least `distance` (mm), the widest first.
    ///
    /// None for a distance that is not positive.
    pub fn widest(&self, distance: f64) -> Vec<Widest> {
        let distance = steps(distance);
        if !(distance > 0.0 && distance.is_finite()) {
            return Vec::new();
        }
        let mut parts = Parts::of(self.vertices.len());
        for edge in (0..self.edges.len() as u32).step_by(2) {
            let (from, to) = (self.edges[edge as usize].origin, self.end_of(edge));
            if self.is_beyond(from, distance)
                && self.is_beyond(to, distance)
                && !self.dips_below(edge, distance)
            {
                parts.join(from, to);
            }
        }
        let mut widest: Vec<u32> = vec![NONE; self.vertices.len()];
        for vertex in 0..self.vertices.len() as u32 {
            if self.is_beyond(vertex, distance) {
                let known = &mut widest[parts.root(vertex) as usize];
                let clearance = |vertex: u32| self.vertices[vertex as usize].clearance;
                if *known == NONE || clearance(vertex) > clearance(*known) {
                    *known = vertex;
                }
            }
        }
        let mut found: Vec<Widest> = widest
            .into_iter()
            .filter(|&vertex| vertex != NONE)
            .map(|vertex| {
                let vertex = &self.vertices[vertex as usize];
                Widest {
                    at: self.mm(vertex.at),
                    clearance: vertex.clearance / STEPS_PER_MM,
                }
            })
            .collect();
        found.sort_by(|one, other| other.clearance.total_cmp(&one.clearance));
        found
    }
}

/// The angle between the nearest places of two sites, seen from a place between them.
fn spread(one: Shape, other: Shape, at: Point) -> f64 {
    let (a, b) = (one.foot(at) - at, other.foot(at) - at);
    if a.hypot2() > 0.0 && b.hypot2() > 0.0 {
        return a.cross(b).atan2(a.dot(b)).abs();
    }
    // At the very corner: the walls' directions tell.
    match (one, other) {
        (Shape::Line(_, along), Shape::Line(_, beside)) => {
            along.cross(beside).atan2(along.dot(beside)).abs()
        }
        (Shape::Point(_), _) | (_, Shape::Point(_)) => 0.0,
    }
}

/// Vertices joined into connected parts (union and find: textbook).
struct Parts {
    above: Vec<u32>,
}

impl Parts {
    fn of(count: usize) -> Parts {
        Parts {
            above: (0..count as u32).collect(),
        }
    }

    fn root(&mut self, mut vertex: u32) -> u32 {
        // Each step leads to a smaller number, so this ends.
        while self.above[vertex as usize] != vertex {
            let up = self.above[self.above[vertex as usize] as usize];
            self.above[vertex as usize] = up;
            vertex = up;
        }
        vertex
    }

    fn join(&mut self, one: u32, other: u32) {
        let (one, other) = (self.root(one), self.root(other));
        self.above[one.max(other) as usize] = one.min(other);
    }
}

#[cfg(test)]
mod tests;
