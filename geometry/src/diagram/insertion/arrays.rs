//! From the mesh to the diagram's arrays.

use super::super::NONE;
use super::super::cells::{Cell, Edge, Side, SiteOf, Vertex};
use super::super::voronoi::Arrays;
use super::super::walls::Walls;
use super::mesh::{Mesh, Triangle, before};
use super::sites::Sites;

/// The arrays. Vertices that see the points far off are at infinity there, and these points' cells are left out.
pub(super) fn of(mesh: &Mesh, sites: &Sites, walls: &Walls) -> Option<Arrays> {
    let segments = walls.segments.len() as u32;
    let far = sites.first_far();
    // Segments first, then corners.
    let cell = |site: u32| {
        if sites.is_line(site) {
            site - sites.first_line()
        } else {
            segments + site
        }
    };
    let cells = (0..segments)
        .map(|segment| Cell {
            segment,
            site: SiteOf::Segment,
        })
        .chain((0..far).map(|segment| Cell {
            segment,
            site: SiteOf::End,
        }))
        .collect();
    let mut vertices = Vec::with_capacity(mesh.triangles.len());
    let mut vertex_of = vec![NONE; mesh.triangles.len()];
    let mut corners = vec![NONE; far as usize];
    for (found, vertex) in mesh.triangles.iter().zip(&mut vertex_of) {
        if sees_far(found, sites) {
            continue;
        }
        let fresh = vertices.len() as u32;
        let on_wall = found.clearance == 0.0;
        if on_wall {
            // Where walls touch, several lie at one corner.
            let corner = sites.corner_of(found.sites)?;
            let known = corners.get_mut(corner as usize)?;
            if *known != NONE {
                *vertex = *known;
                continue;
            }
            *known = fresh;
        }
        *vertex = fresh;
        vertices.push(Vertex {
            at: found.at,
            clearance: if on_wall { 0.0 } else { f64::NAN },
            side: if on_wall { Side::Wall } else { Side::Unknown },
        });
    }
    // The half-edge of a side belongs to the cell of the site where the side ends.
    let mut half_edge_of = vec![NONE; 4 * mesh.triangles.len()];
    let mut sides = Vec::with_capacity(3 * mesh.triangles.len());
    for triangle in 0..mesh.triangles.len() as u32 {
        for side in 4 * triangle..4 * triangle + 3 {
            let twin = mesh.twin(side);
            if twin == NONE || twin < side {
                continue;
            }
            if sites.is_far(mesh.origin(side)) || sites.is_far(mesh.origin(twin)) {
                continue;
            }
            let ends = [side, twin].map(|side| vertex_of[(side >> 2) as usize]);
            if ends[0] == ends[1] && ends[0] != NONE {
                continue;
            }
            for half in [side, twin] {
                half_edge_of[half as usize] = sides.len() as u32;
                sides.push(half);
            }
        }
    }
    let edges = sides
        .iter()
        .map(|&side| {
            let twin = mesh.twin(side);
            let (other, own) = (mesh.origin(side), mesh.origin(twin));
            let mut next = before(twin);
            let mut steps = 0;
            while half_edge_of[next as usize] == NONE {
                // A side of a point far off, or within a corner: on around the cell.
                let beyond = mesh.twin(next);
                steps += 1;
                if beyond == NONE || steps > sides.len() {
                    return None;
                }
                next = before(beyond);
            }
            let belongs =
                |line: u32, point: u32| sites.line(line).is_some_and(|line| line.ends_at(point));
            Some(Edge {
                origin: vertex_of[(side >> 2) as usize],
                cell: cell(own),
                next: half_edge_of[next as usize],
                side: Side::Unknown,
                primary: !belongs(own, other) && !belongs(other, own),
            })
        })
        .collect::<Option<Vec<Edge>>>()?;
    Some(Arrays {
        cells,
        vertices,
        edges,
    })
}

fn sees_far(triangle: &Triangle, sites: &Sites) -> bool {
    triangle.sites.iter().any(|&site| sites.is_far(site))
}
