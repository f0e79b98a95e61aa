//! The mesh of the corners alone: their Delaunay triangulation, all decisions exact.
//!
//! # Source
//! Corner by corner into the hole of the triangles whose circles hold it: A. Bowyer and D. F. Watson, both 1981. That a walk toward a place
//! ends: O. Devillers, S. Pion and M. Teillaud, "Walking in a triangulation", 2001. Both from memory; the in-circle determinant: textbook.

use kurbo::Point;

use super::super::NONE;
use super::mesh::{Mesh, after};
use super::place;
use super::sites::Sites;

/// How large, against the sum of its terms, the in-circle determinant must be for its sign to be sure: each term is the product of
/// two exact numbers, so that four roundings of 2⁻⁵³ are made at most.
const SURE: f64 = 1e-15;

/// Inserts the corners of all rings and places the vertices.
pub(super) fn mesh_of_points(sites: &Sites) -> Option<Mesh> {
    let mut mesh = Mesh::of_far_points(sites);
    let mut last = 0;
    for (point, near) in sites.order() {
        if sites.same[point as usize] != point {
            continue;
        }
        let near = sites.same.get(near as usize);
        let hint = match near.map(|&near| mesh.leaving[near as usize]) {
            Some(side) if side != NONE => side >> 2,
            _ => last,
        };
        insert_point(&mut mesh, sites, point, hint)?;
        last = mesh.leaving[point as usize] >> 2;
    }
    for index in 0..mesh.triangles.len() {
        let corners = mesh.triangles[index].sites.map(|site| sites.point(site));
        let (at, clearance) = place::around_points(corners)?;
        let triangle = &mut mesh.triangles[index];
        (triangle.at, triangle.clearance) = (at, clearance);
    }
    Some(mesh)
}

fn insert_point(mesh: &mut Mesh, sites: &Sites, point: u32, start: u32) -> Option<()> {
    let at = sites.point(point);
    let triangle = triangle_around(mesh, sites, at, start)?;
    mesh.open(triangle);
    mesh.widen(
        |mesh, triangle| {
            let [a, b, c] = mesh.triangles[triangle as usize]
                .sites
                .map(|site| sites.point(site));
            is_in_circle(a, b, c, at)
        },
        |_, _| false,
    );
    mesh.walk_rim()?;
    mesh.fill(point, |_| false);
    Some(())
}

/// The triangle that a place lies in, found by walking towards it.
fn triangle_around(mesh: &Mesh, sites: &Sites, at: Point, start: u32) -> Option<u32> {
    let mut side = 4 * start;
    let mut kept = 0;
    // In a Delaunay triangulation no triangle is met twice on such a walk.
    for _ in 0..4 * mesh.triangles.len() {
        let from = sites.point(mesh.origin(side));
        let to = sites.point(mesh.origin(after(side)));
        if (to - from).cross(at - from) < 0.0 {
            side = mesh.twin(side);
            if side == NONE {
                return None;
            }
            kept = 1;
        } else {
            kept += 1;
            if kept == 3 {
                return Some(side >> 2);
            }
        }
        side = after(side);
    }
    None
}

/// Whether a point lies inside the circle through a, b and c, which run counter-clockwise; exact.
fn is_in_circle(a: Point, b: Point, c: Point, point: Point) -> bool {
    let (a, b, c) = (a - point, b - point, c - point);
    // Coordinates are whole and differences below 2²⁶, so these are exact.
    let (ab, bc, ca) = (a.cross(b), b.cross(c), c.cross(a));
    let (first, second, third) = (a.hypot2() * bc, b.hypot2() * ca, c.hypot2() * ab);
    let sum = first + second + third;
    if sum.abs() > SURE * (first.abs() + second.abs() + third.abs()) {
        return sum > 0.0;
    }
    let term = |square: f64, area: f64| square as i128 * area as i128;
    term(a.hypot2(), bc) + term(b.hypot2(), ca) + term(c.hypot2(), ab) > 0
}
