//! The diagram of the walls, computed in one of several ways and then checked: no way is trusted, and the library itself reports
//! no bad diagram.

use boostvoronoi::prelude::{Builder, SourceCategory};
use kurbo::Point;

use super::NONE;
use super::cells::{Cell, Edge, Shape, Side, SiteOf, Vertex};
use super::insertion;
use super::walls::Walls;
use crate::diagram::{Method, Wall};

/// Ways of building that keep every point: our own, then the library's, as given and turned by one, two and three quarters.
pub(super) const EXACT_ATTEMPTS: usize = 5;

/// All ways: after the exact ones, points are moved one by one.
pub(super) const ATTEMPTS: usize = 11;

/// Added to all coordinates: the library's quick tests are relative to them, and pass more often away from 0.
const SHIFT: i32 = 1 << 21;

/// How far, in grid steps, the distances of one vertex to its sites may disagree.
const AGREEMENT: f64 = 1e-3;

/// The arrays of a sound diagram.
pub(super) struct Arrays {
    pub(super) cells: Vec<Cell>,
    pub(super) vertices: Vec<Vertex>,
    pub(super) edges: Vec<Edge>,
}

/// A check failed, at or near this segment.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fault {
    pub(super) segment: u32,
}

/// A turn by whole quarters, undone afterwards: it changes the order in which the sweep meets the points, and nothing else.
#[derive(Clone, Copy)]
struct Quarter(usize);

impl Quarter {
    fn apply(self, x: i32, y: i32) -> (i32, i32) {
        match self.0 % 4 {
            0 => (x, y),
            1 => (-y, x),
            2 => (-x, -y),
            _ => (y, -x),
        }
    }

    fn undo(self, point: Point) -> Point {
        match self.0 % 4 {
            0 => point,
            1 => Point::new(point.y, -point.x),
            2 => Point::new(-point.x, -point.y),
            _ => Point::new(-point.y, point.x),
        }
    }
}

/// What an attempt amounts to.
pub(super) fn method(attempt: usize) -> Method {
    match attempt {
        0 => Method::Insertion,
        1..EXACT_ATTEMPTS => Method::Library,
        _ => Method::MovedPoint,
    }
}

/// Builds and checks the diagram in one of the [`ATTEMPTS`] ways.
pub(super) fn build(walls: &Walls, attempt: usize) -> Result<Arrays, Fault> {
    let computed = match attempt {
        0 => insertion::computed(walls),
        1..EXACT_ATTEMPTS => by_library(walls, Quarter(attempt - 1)),
        _ if attempt.is_multiple_of(2) => by_library(walls, Quarter(0)),
        _ => insertion::computed(walls),
    };
    let mut arrays = computed.ok_or(Fault { segment: 0 })?;
    check_cycles(&arrays)?;
    tell_sides_of_segments(&mut arrays, walls)?;
    spread_sides(&mut arrays)?;
    measure(&mut arrays, walls)?;
    Ok(arrays)
}

/// The library's diagram as flat arrays; `None` where it fails or leaves a link open.
fn by_library(walls: &Walls, quarter: Quarter) -> Option<Arrays> {
    let lines: Vec<[i32; 4]> = walls
        .segments
        .iter()
        .map(|segment| {
            let (ax, ay) = quarter.apply(segment.a.x as i32, segment.a.y as i32);
            let (bx, by) = quarter.apply(segment.b.x as i32, segment.b.y as i32);
            [ax + SHIFT, ay + SHIFT, bx + SHIFT, by + SHIFT]
        })
        .collect();
    let diagram = Builder::<i32>::default()
        .with_segments(lines.iter())
        .ok()?
        .build()
        .ok()?;
    let cells = diagram
        .cells()
        .iter()
        .map(|cell| {
            let (source, category) = cell.source_index_2();
            let site = match category {
                SourceCategory::Segment => SiteOf::Segment,
                SourceCategory::SegmentStart => SiteOf::Start,
                SourceCategory::SegmentEnd => SiteOf::End,
                SourceCategory::SinglePoint => return None,
            };
            let segment = source.u32();
            ((segment as usize) < lines.len()).then_some(Cell { segment, site })
        })
        .collect::<Option<Vec<Cell>>>()?;
    let shift = f64::from(SHIFT);
    let vertices: Vec<Vertex> = diagram
        .vertices()
        .iter()
        .map(|vertex| Vertex {
            at: quarter.undo(Point::new(vertex.x() - shift, vertex.y() - shift)),
            clearance: if vertex.is_site_point() {
                0.0
            } else {
                f64::NAN
            },
            side: if vertex.is_site_point() {
                Side::Wall
            } else {
                Side::Unknown
            },
        })
        .collect();
    let edges = diagram
        .edges()
        .iter()
        .enumerate()
        .map(|(index, edge)| {
            let twin = edge.twin().ok()?.u32();
            (twin == index as u32 ^ 1).then_some(())?;
            Some(Edge {
                origin: edge.vertex0().map_or(NONE, |vertex| vertex.u32()),
                cell: edge.cell().ok()?.u32(),
                next: edge.next().ok()?.u32(),
                side: Side::Unknown,
                primary: edge.is_primary(),
            })
        })
        .collect::<Option<Vec<Edge>>>()?;
    Some(Arrays {
        cells,
        vertices,
        edges,
    })
}

/// Every half-edge has one follower and one forerunner, of its own cell, starting where it ends.
fn check_cycles(arrays: &Arrays) -> Result<(), Fault> {
    let count = arrays.edges.len();
    let mut followed = vec![false; count];
    for (index, edge) in arrays.edges.iter().enumerate() {
        let fault = Fault {
            segment: arrays
                .cells
                .get(edge.cell as usize)
                .map_or(0, |cell| cell.segment),
        };
        let next = edge.next as usize;
        if edge.cell as usize >= arrays.cells.len() || next >= count || followed[next] {
            return Err(fault);
        }
        followed[next] = true;
        let follower = &arrays.edges[next];
        let end = arrays.edges[index ^ 1].origin;
        if follower.cell != edge.cell || follower.origin != end {
            return Err(fault);
        }
        if end != NONE && end as usize >= arrays.vertices.len() {
            return Err(fault);
        }
    }
    Ok(())
}

/// The edges around a segment's cell: from the segment's end to its start they lie on its left, in the ground.
///
/// Told from the order of edges alone, so that no rounding can put a vertex on the wrong side of a wall.
fn tell_sides_of_segments(arrays: &mut Arrays, walls: &Walls) -> Result<(), Fault> {
    let mut first_edge = vec![NONE; arrays.cells.len()];
    for (index, edge) in arrays.edges.iter().enumerate().rev() {
        first_edge[edge.cell as usize] = index as u32;
    }
    let mut cycle = Vec::new();
    for (cell, &start) in arrays.cells.iter().zip(&first_edge) {
        if cell.site != SiteOf::Segment {
            continue;
        }
        let fault = Fault {
            segment: cell.segment,
        };
        if start == NONE {
            return Err(fault);
        }
        let segment = &walls.segments[cell.segment as usize];
        let right = match segment.site.wall {
            Wall::Letter => Side::Letter,
            Wall::Room => Side::Outside,
        };
        go_round(&arrays.edges, start, &mut cycle);
        let from_corner = |corner: Point| {
            let mut found = (0..cycle.len()).filter(|&index| {
                let origin = arrays.edges[cycle[index] as usize].origin;
                origin != NONE && {
                    let vertex = &arrays.vertices[origin as usize];
                    vertex.side == Side::Wall && vertex.at == corner
                }
            });
            let first = found.next().ok_or(fault)?;
            found.next().map_or(Ok(first), |_| Err(fault))
        };
        let (end, begin) = (from_corner(segment.b)?, from_corner(segment.a)?);
        let ground_edges = (begin + cycle.len() - end) % cycle.len();
        for offset in 0..cycle.len() {
            let edge = cycle[(end + offset) % cycle.len()];
            let side = if offset < ground_edges {
                Side::Ground
            } else {
                right
            };
            for half in [edge, edge ^ 1] {
                let known = &mut arrays.edges[half as usize].side;
                if *known != Side::Unknown && *known != side {
                    return Err(fault);
                }
                *known = side;
            }
        }
    }
    Ok(())
}

/// Lists the half-edges around a cell. They end, since every half-edge has one forerunner.
fn go_round(edges: &[Edge], start: u32, cycle: &mut Vec<u32>) {
    cycle.clear();
    cycle.push(start);
    let mut edge = edges[start as usize].next;
    while edge != start {
        cycle.push(edge);
        edge = edges[edge as usize].next;
    }
}

/// From edges of known side to vertices and on to the edges between corners; no vertex may have two sides.
fn spread_sides(arrays: &mut Arrays) -> Result<(), Fault> {
    let Arrays {
        cells,
        vertices,
        edges,
    } = arrays;
    let fault = |edge: &Edge| Fault {
        segment: cells[edge.cell as usize].segment,
    };
    // Edges that part two corners, by the vertex that they leave; the sides of all others are known.
    let mut untold: Vec<(u32, u32)> = Vec::new();
    let mut reached: Vec<u32> = Vec::new();
    for (index, edge) in (0_u32..).zip(edges.iter()) {
        if edge.origin == NONE {
            continue;
        }
        if edge.side == Side::Unknown {
            untold.push((edge.origin, index));
        } else {
            let vertex = &mut vertices[edge.origin as usize];
            match vertex.side {
                Side::Wall => {}
                Side::Unknown => {
                    vertex.side = edge.side;
                    reached.push(edge.origin);
                }
                known if known == edge.side => {}
                _ => return Err(fault(edge)),
            }
        }
    }
    untold.sort_unstable();
    if untold.is_empty() {
        reached.clear();
    }
    // Every vertex is reached once.
    while let Some(origin) = reached.pop() {
        let from = untold.partition_point(|&(other, _)| other < origin);
        let side = vertices[origin as usize].side;
        for &(_, edge) in untold[from..]
            .iter()
            .take_while(|&&(other, _)| other == origin)
        {
            for half in [edge, edge ^ 1] {
                edges[half as usize].side = side;
            }
            let end = edges[(edge ^ 1) as usize].origin;
            if end == NONE {
                continue;
            }
            let vertex = &mut vertices[end as usize];
            if vertex.side == Side::Unknown {
                vertex.side = side;
                reached.push(end);
            }
        }
    }
    let agrees = |edge: &&Edge| {
        edge.side != Side::Unknown
            && (edge.origin == NONE
                || matches!(vertices[edge.origin as usize].side, side if side == edge.side || side == Side::Wall))
    };
    match edges.iter().find(|edge| !agrees(edge)) {
        None => Ok(()),
        Some(edge) => Err(fault(edge)),
    }
}

/// Measures the clearance of every vertex from each of its sites, which must agree, with the foot on the site.
fn measure(arrays: &mut Arrays, walls: &Walls) -> Result<(), Fault> {
    for edge in &arrays.edges {
        if edge.origin == NONE || edge.side == Side::Outside {
            continue;
        }
        let vertex = &mut arrays.vertices[edge.origin as usize];
        let cell = arrays.cells[edge.cell as usize];
        let segment = &walls.segments[cell.segment as usize];
        let fault = Fault {
            segment: cell.segment,
        };
        let clearance = Shape::of(cell, segment).distance(vertex.at);
        if cell.site == SiteOf::Segment {
            let along = segment.direction.dot(vertex.at - segment.a);
            let across = segment.direction.cross(vertex.at - segment.a);
            let across = if edge.side == Side::Ground {
                across
            } else {
                -across
            };
            if across < -AGREEMENT || along < -AGREEMENT || along > segment.length + AGREEMENT {
                return Err(fault);
            }
        }
        if vertex.clearance.is_nan() {
            vertex.clearance = clearance;
        }
        let differs = (vertex.clearance - clearance).abs();
        if differs.is_nan() || differs > AGREEMENT {
            return Err(fault);
        }
    }
    for vertex in &mut arrays.vertices {
        if vertex.clearance.is_nan() {
            // Only vertices outside the room are left; nothing is read from them.
            vertex.clearance = 0.0;
        }
    }
    Ok(())
}
