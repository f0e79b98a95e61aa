//! Segments come in between corners that are in already.

use kurbo::Vec2;

use super::super::NONE;
use super::mesh::{Mesh, before};
use super::place;
use super::sites::{Line, Sites};

/// Inserts all segments.
pub(super) fn insert_all(mesh: &mut Mesh, sites: &Sites) -> Option<()> {
    for (index, _) in sites.order() {
        let line = &sites.lines[index as usize];
        insert(mesh, sites, sites.first_line() + index, line)?;
    }
    Some(())
}

fn insert(mesh: &mut Mesh, sites: &Sites, site: u32, line: &Line) -> Option<()> {
    let start = first_taken(mesh, sites, line, line.a)
        .or_else(|| first_taken(mesh, sites, line, line.b))?;
    mesh.open(start);
    mesh.widen(
        |mesh, triangle| gain(mesh, sites, line, triangle) > 0.0,
        |mesh, side| middle_survives(mesh, sites, line, side),
    );
    mesh.walk_rim()?;
    let count = mesh.rim.len();
    let (a, b) = (turn_at(mesh, sites, line.a)?, turn_at(mesh, sites, line.b)?);
    // Counter-clockwise from the segment's start to its end lies what is on its right.
    let length = (b + count - a) % count;
    mesh.fill(site, |index| (index + count - a) % count < length);
    for index in 0..count {
        let triangle = mesh.filling()[index] as usize;
        let (at, clearance) = place::vertex(&mesh.triangles[triangle], sites)?;
        let triangle = &mut mesh.triangles[triangle];
        (triangle.at, triangle.clearance) = (at, clearance);
    }
    Some(())
}

/// Where the rim passes an end of the segment from its left to its right or back: at the end's own cell, or, where walls touch and
/// the segment starts between two others with no cell of the end between them, at the vertex there.
fn turn_at(mesh: &Mesh, sites: &Sites, end: u32) -> Option<usize> {
    let only = |wanted: &dyn Fn(usize) -> bool| {
        let mut found = (0..mesh.rim.len()).filter(|&index| wanted(index));
        let first = found.next()?;
        found.next().is_none().then_some(first)
    };
    let place = sites.point(end);
    only(&|index| mesh.rim[index].from == end).or_else(|| {
        only(&|index| {
            let outer = mesh.rim[index].outer;
            outer != NONE && {
                let outer = mesh.triangle(outer);
                outer.clearance == 0.0 && outer.at == place
            }
        })
        .map(|index| (index + 1) % mesh.rim.len())
    })
}

/// The vertex around one of a segment's ends that the segment takes most surely.
fn first_taken(mesh: &Mesh, sites: &Sites, line: &Line, end: u32) -> Option<u32> {
    let first = mesh.leaving[end as usize];
    let mut best = None;
    let mut most = 0.0;
    let mut consider = |triangle: u32| {
        let found = gain(mesh, sites, line, triangle);
        if found > most {
            most = found;
            best = Some(triangle);
        }
    };
    let mut at_end = Vec::new();
    let mut side = first;
    // Around the end once; sides turn in a ring.
    loop {
        consider(side >> 2);
        if mesh.triangle(side).clearance == 0.0 {
            at_end.push(side >> 2);
        }
        side = mesh.twin(before(side));
        if side == first || side == NONE {
            break;
        }
    }
    // And around all vertices that lie at the end itself.
    let mut index = 0;
    while index < at_end.len() {
        let triangle = at_end[index];
        index += 1;
        for twin in mesh.triangles[triangle as usize].twins {
            if twin == NONE || at_end.contains(&(twin >> 2)) {
                continue;
            }
            if mesh.triangle(twin).clearance == 0.0 {
                if mesh.triangle(twin).at == sites.point(end) {
                    at_end.push(twin >> 2);
                }
            } else {
                consider(twin >> 2);
            }
        }
    }
    best
}

/// How much nearer a vertex lies to the segment than to its own sites; above 0 if the segment takes it.
///
/// Vertices of the segment's own ends lie equally far from these and from the segment's line, so for them it counts on which side
/// of the end's normal they lie.
fn gain(mesh: &Mesh, sites: &Sites, line: &Line, triangle: u32) -> f64 {
    const KEPT: f64 = -1.0;
    let found = &mesh.triangles[triangle as usize];
    if found.clearance == 0.0 {
        return KEPT;
    }
    let off = found.at - line.from;
    let gained = found.clearance - line.direction.cross(off).abs();
    let end = if found.sites.contains(&line.a) {
        Some((line.a, line.way))
    } else if found.sites.contains(&line.b) {
        Some((line.b, -line.way))
    } else {
        None
    };
    let Some((end, out)) = end else {
        let along = line.direction.dot(off);
        return if along > 0.0 && along < line.length {
            gained
        } else {
            KEPT
        };
    };
    // On the normal of another segment that ends there the side is exact.
    let normal = (0..3).find_map(|index| {
        let other = sites.line(found.sites[index])?;
        other.ends_at(end).then(|| {
            let left = Vec2::new(-other.way.y, other.way.x);
            if found.right >> index & 1 == 1 {
                -left
            } else {
                left
            }
        })
    });
    let beyond = match normal {
        Some(normal) => normal.dot(out),
        None => (found.at - sites.point(end)).dot(out),
    };
    if beyond > 0.0 {
        gained.max(f64::MIN_POSITIVE)
    } else {
        KEPT
    }
}

/// Whether an edge of the diagram, both ends of which the segment takes, has a part in between that it does not take.
///
/// Along the edge, clearance less distance to the segment's line is a convex function, so the edge's part that is kept, if any,
/// lies about the function's least place; on these curves its value there turns out to be kept always (minus the distance of
/// the point, or of both points, from the line), so that all depends on whether that place lies between the ends. Straight edges
/// between segments have no such part.
fn middle_survives(mesh: &Mesh, sites: &Sites, line: &Line, side: u32) -> bool {
    let twin = mesh.twin(side);
    let (p, q) = (mesh.origin(side), mesh.origin(twin));
    let (from, to) = (mesh.triangle(side).at, mesh.triangle(twin).at);
    match (sites.line(p), sites.line(q)) {
        (Some(_), Some(_)) => false,
        (None, None) => {
            if line.ends_at(p) || line.ends_at(q) {
                return false;
            }
            let (at_p, at_q) = (sites.point(p), sites.point(q));
            let (high, other_high) = (line.left_of(at_p), line.left_of(at_q));
            if high * other_high <= 0.0 {
                return false;
            }
            let apart = at_q - at_p;
            let normal = line.normal(high < 0.0);
            let slope = normal.dot(apart).abs();
            let across = Vec2::new(-apart.y, apart.x);
            let least = normal.dot(across) * apart.hypot() / 2.0;
            // Places along the edge, times the points' distance and the slope.
            let place = |at: kurbo::Point| (at - at_p.midpoint(at_q)).dot(across) * slope;
            let least = least * apart.hypot();
            is_between(place(from), least, place(to))
        }
        (Some(wall), None) => {
            let right = mesh.lies_right(side);
            let other_right = mesh.lies_right(super::mesh::after(twin));
            parabola_survives(
                line,
                (q, sites.point(q)),
                (wall, right, other_right),
                from,
                to,
            )
        }
        (None, Some(wall)) => {
            let right = mesh.lies_right(super::mesh::after(side));
            let other_right = mesh.lies_right(twin);
            parabola_survives(
                line,
                (p, sites.point(p)),
                (wall, right, other_right),
                from,
                to,
            )
        }
    }
}

/// The same for an edge between a point and a wall, which lies on the wall's right or not, at either end.
fn parabola_survives(
    line: &Line,
    (point, at): (u32, kurbo::Point),
    (wall, right, other_right): (&Line, bool, bool),
    from: kurbo::Point,
    to: kurbo::Point,
) -> bool {
    if wall.ends_at(point) {
        // The normal of the wall's own end: the end itself is kept, if the edge runs through it.
        return right != other_right && !line.ends_at(point);
    }
    let normal = wall.normal(right);
    let height = normal.dot(at - wall.from);
    let place = |on_edge: kurbo::Point| wall.direction.dot(on_edge - at);
    // z at the least place, times a positive number.
    let (least, scale) = if line.ends_at(point) {
        let out = if line.a == point {
            line.direction
        } else {
            -line.direction
        };
        let rise = normal.dot(out);
        if rise <= 0.0 {
            return false;
        }
        (-height * wall.direction.dot(out), rise)
    } else {
        let high = line.left_of(at);
        if high == 0.0 {
            return false;
        }
        let away = line.normal(high < 0.0);
        // h·β/(1 − γ), or with the same value h·(1 + γ)/β, whichever keeps clear of 0/0.
        let (along, facing) = (wall.direction.dot(away), normal.dot(away));
        if facing < 0.0 {
            (height * along, 1.0 - facing)
        } else {
            (height * (1.0 + facing) * along.signum(), along.abs())
        }
    };
    is_between(place(from) * scale, least, place(to) * scale)
}

fn is_between(one: f64, middle: f64, other: f64) -> bool {
    (one < middle && middle < other) || (other < middle && middle < one)
}
