//! Parallel curves of the walls, as exact lines and arcs.
//!
//! # Source
//! Textbook: places equally far from two points lie on a line, from two lines on a line, from a point and a line on a parabola; at a
//! distance from a line they lie on a line, from a point on a circle.

use kurbo::{Point, Vec2};

use crate::diagram::{Diagram, NONE, Shape, Side, Site, steps};

/// One piece of a parallel curve: the places at one distance from one site.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffsetPiece {
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// The site it is parallel to: a segment gives a straight line, a corner gives an arc about [`OffsetPiece::centre`].
    pub site: Site,
    /// The corner an arc runs about (clockwise, since the ground lies on its left); `None` for a straight line.
    pub centre: Option<Point>,
}

/// A closed parallel curve; the ground further from the walls than the distance lies on its left.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OffsetLoop {
    /// The pieces in order, each starting where the one before ends.
    pub pieces: Vec<OffsetPiece>,
}

/// A place where an edge of the diagram passes the distance: the node between two pieces.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Crossing {
    /// The place, in grid steps.
    pub(crate) at: Point,
    /// The half-edge along which the clearance rises there; its cell is the one of the piece that ends here.
    pub(crate) rising: u32,
}

/// A piece between two crossings, within one cell.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Span {
    /// Index of the crossing it starts from.
    pub(crate) from: u32,
    /// Index of the crossing it ends at.
    pub(crate) to: u32,
    /// The cell whose site it is parallel to.
    pub(crate) cell: u32,
}

/// The parallel curves as spans between crossings.
#[derive(Clone, Debug, Default)]
pub(crate) struct Contour {
    pub(crate) crossings: Vec<Crossing>,
    /// Closed runs of spans.
    pub(crate) loops: Vec<Vec<Span>>,
}

impl Diagram {
    /// The curves at `distance` (mm) from the walls, within the ground.
    ///
    /// Every place of them is exactly that far from its nearest wall, but for rounding (under a nanometre); loops have the
    /// ground of greater clearance on their left. Places of exactly this clearance count as ground further off, so that a
    /// slot of twice the distance gives a loop without width rather than none. No loops for a distance that is not positive.
    /// The order of loops, and where each starts, depends on the diagram alone.
    pub fn offset(&self, distance: f64) -> Vec<OffsetLoop> {
        let contour = self.contour(distance);
        contour
            .loops
            .iter()
            .map(|spans| OffsetLoop {
                pieces: self.pieces_of(&contour, spans),
            })
            .filter(|found| !found.pieces.is_empty())
            .collect()
    }

    fn pieces_of(&self, contour: &Contour, spans: &[Span]) -> Vec<OffsetPiece> {
        spans
            .iter()
            .map(|span| OffsetPiece {
                from: self.mm(contour.crossings[span.from as usize].at),
                to: self.mm(contour.crossings[span.to as usize].at),
                site: self.site_of(span.cell),
                centre: match self.shape_of(span.cell) {
                    Shape::Point(centre) => Some(self.mm(centre)),
                    Shape::Line(..) => None,
                },
            })
            .filter(|piece| piece.from != piece.to)
            .collect()
    }

    /// The geometry of a cell's site.
    pub(crate) fn shape_of(&self, cell: u32) -> Shape {
        let cell = self.cells[cell as usize];
        Shape::of(cell, &self.walls.segments[cell.segment as usize])
    }

    /// Whether a vertex counts as further off than the distance (in grid steps).
    pub(crate) fn is_beyond(&self, vertex: u32, distance: f64) -> bool {
        vertex != NONE && {
            let vertex = &self.vertices[vertex as usize];
            vertex.side == Side::Ground && vertex.clearance >= distance
        }
    }

    /// The parallel curves at a distance in millimetres.
    ///
    /// Which edges are crossed is decided once, by comparing the clearance of vertices; all else follows the order of edges
    /// around cells, so that loops always close.
    pub(crate) fn contour(&self, distance: f64) -> Contour {
        let distance = steps(distance);
        let mut contour = Contour::default();
        if !(distance > 0.0 && distance <= self.widest) {
            return contour;
        }
        let mut rising = vec![NONE; self.edges.len()];
        let mut falling = vec![NONE; self.edges.len()];
        for &edge in &self.ground_edges {
            let twin = edge ^ 1;
            let mut cross = |at: Point, up: u32| {
                let index = contour.crossings.len() as u32;
                contour.crossings.push(Crossing { at, rising: up });
                rising[up as usize] = index;
                falling[(up ^ 1) as usize] = index;
            };
            let first = self.is_beyond(self.edges[edge as usize].origin, distance);
            let last = self.is_beyond(self.end_of(edge), distance);
            match (first, last) {
                (false, false) => {}
                (false, true) => cross(self.crossing_near_end(edge, distance), edge),
                (true, false) => cross(self.crossing_near_end(twin, distance), twin),
                (true, true) => {
                    if self.dips_below(edge, distance) {
                        // Down near the start, which is up along the twin, then up again near the end.
                        cross(self.crossing_near_end(twin, distance), twin);
                        cross(self.crossing_near_end(edge, distance), edge);
                    }
                }
            }
        }
        contour.loops = self.linked(&contour.crossings, &rising, &falling);
        contour
    }

    /// From each rising crossing, on around its cell to the falling one: between them runs a span, from falling to rising.
    fn linked(&self, crossings: &[Crossing], rising: &[u32], falling: &[u32]) -> Vec<Vec<Span>> {
        let mut from_crossing: Vec<Option<Span>> = vec![None; crossings.len()];
        for crossing in crossings {
            let up = crossing.rising;
            let mut edge = self.edges[up as usize].next;
            // Every half-edge has one forerunner, so this comes back to `up` at the latest.
            while falling[edge as usize] == NONE && edge != up {
                edge = self.edges[edge as usize].next;
            }
            let start = falling[edge as usize];
            if start != NONE {
                from_crossing[start as usize] = Some(Span {
                    from: start,
                    to: rising[up as usize],
                    cell: self.edges[up as usize].cell,
                });
            }
        }
        let mut loops = Vec::new();
        for first in 0..from_crossing.len() {
            let mut spans = Vec::new();
            let mut at = first;
            while let Some(span) = from_crossing[at].take() {
                spans.push(span);
                at = span.to as usize;
            }
            if !spans.is_empty() && at == first {
                loops.push(spans);
            }
        }
        loops
    }

    /// Whether an edge with both ends beyond the distance comes nearer to the walls in between.
    pub(crate) fn dips_below(&self, edge: u32, distance: f64) -> bool {
        let Some(apex) = self.apex(edge) else {
            return false;
        };
        let from = self.vertices[self.edges[edge as usize].origin as usize].at;
        let to = self.vertices[self.end_of(edge) as usize].at;
        // Signs only: comparing computed roots with the ends would go wrong at ties.
        apex.clearance < distance
            && apex.along.dot(from - apex.foot) * apex.along.dot(to - apex.foot) < 0.0
    }

    /// Where an edge is nearest to its walls, if it has such a place on its curve: edges of a point, other than its own
    /// segment's, do.
    pub(crate) fn apex(&self, edge: u32) -> Option<Apex> {
        let one = self.shape_of(self.edges[edge as usize].cell);
        let other = self.shape_of(self.edges[(edge ^ 1) as usize].cell);
        match (one, other) {
            (Shape::Point(p), Shape::Point(q)) => {
                let apart = q - p;
                let half = apart.hypot() / 2.0;
                Some(Apex {
                    foot: p.midpoint(q),
                    along: Vec2::new(-apart.y, apart.x) / (2.0 * half),
                    clearance: half,
                })
            }
            (Shape::Point(point), Shape::Line(start, along))
            | (Shape::Line(start, along), Shape::Point(point)) => {
                if !self.edges[edge as usize].primary {
                    return None;
                }
                Some(Apex {
                    foot: point,
                    along,
                    clearance: along.cross(point - start).abs() / 2.0,
                })
            }
            (Shape::Line(..), Shape::Line(..)) => None,
        }
    }

    /// A place on an edge and its clearance, in grid steps, at a part of the way between its ends.
    pub(crate) fn along_edge(&self, edge: u32, part: f64) -> (Point, f64) {
        let (from, to) = (self.edges[edge as usize].origin, self.end_of(edge));
        let (from, to) = (
            self.vertices[from as usize].at,
            self.vertices[to as usize].at,
        );
        let straight = from.lerp(to, part);
        let one = self.shape_of(self.edges[edge as usize].cell);
        let other = self.shape_of(self.edges[(edge ^ 1) as usize].cell);
        let (point, start, direction) = match (one, other) {
            (Shape::Point(point), Shape::Line(start, direction))
            | (Shape::Line(start, direction), Shape::Point(point)) => (point, start, direction),
            (Shape::Line(..), Shape::Line(..)) | (Shape::Point(_), Shape::Point(_)) => {
                return (straight, one.distance(straight));
            }
        };
        // On a parabola, the place above the same part of the segment.
        let height = direction.cross(point - start);
        if !self.edges[edge as usize].primary || height == 0.0 {
            return (straight, one.distance(straight));
        }
        let along = direction.dot(straight - start);
        let off = along - direction.dot(point - start);
        let up = (off * off + height * height) / (2.0 * height);
        let away = Vec2::new(-direction.y, direction.x);
        (start + direction * along + away * up, up.abs())
    }

    /// The place on an edge at the distance, on the side of the edge's end, which is beyond the distance.
    fn crossing_near_end(&self, edge: u32, distance: f64) -> Point {
        let origin = self.edges[edge as usize].origin;
        let end = &self.vertices[self.end_of(edge) as usize];
        let cells = (
            self.shape_of(self.edges[edge as usize].cell),
            self.shape_of(self.edges[(edge ^ 1) as usize].cell),
        );
        if let Some(apex) = self.apex(edge) {
            let sign = if apex.along.dot(end.at - apex.foot) < 0.0 {
                -1.0
            } else {
                1.0
            };
            return match cells {
                (Shape::Point(_), Shape::Point(_)) => {
                    let along = (distance * distance - apex.clearance * apex.clearance)
                        .max(0.0)
                        .sqrt();
                    apex.foot + apex.along * (sign * along)
                }
                (Shape::Point(point), Shape::Line(start, direction))
                | (Shape::Line(start, direction), Shape::Point(point)) => {
                    let height = 2.0 * apex.clearance;
                    let along = (height * (2.0 * distance - height)).max(0.0).sqrt();
                    let away = Vec2::new(-direction.y, direction.x);
                    let side = if direction.cross(end.at - start) < 0.0 {
                        -1.0
                    } else {
                        1.0
                    };
                    let foot = start + direction * (direction.dot(point - start) + sign * along);
                    foot + away * (side * distance)
                }
                (Shape::Line(..), Shape::Line(..)) => end.at,
            };
        }
        // Straight edges along which the clearance rises evenly.
        let from = if origin == NONE {
            return end.at;
        } else {
            &self.vertices[origin as usize]
        };
        let rise = end.clearance - from.clearance;
        let part = if rise > 0.0 {
            ((distance - from.clearance) / rise).clamp(0.0, 1.0)
        } else {
            1.0
        };
        from.at.lerp(end.at, part)
    }
}

/// The place on an edge's whole curve that is nearest to its walls.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Apex {
    /// A place that the curve's axis passes through; places on either side of it along `along` lie on either side of the apex.
    pub(crate) foot: Point,
    /// Unit vector along which the edge runs at its apex.
    pub(crate) along: Vec2,
    /// The clearance there, in grid steps.
    pub(crate) clearance: f64,
}

#[cfg(test)]
mod tests;
