//! Our own builder of the diagram: first the corners of the walls, then the segments between them, one by one.
//!
//! What is kept is the diagram's dual, a [`mesh::Mesh`] of triangles: each stands for a vertex of the diagram and names its three
//! nearest sites. A new site takes the vertices that are nearer to it than to their own sites; those form a hole, and the hole is
//! filled by triangles from its rim to the new site. For corners all decisions are exact. For segments they are made in floating
//! point, but only such holes are accepted as leave the mesh a mesh, so that rounding can misplace a vertex by no more than
//! itself, and can never tear the diagram.
//!
//! # Source
//! Insertion that trusts the order of things above numbers: Sugihara and Iri, "Construction of the Voronoi diagram for one million
//! generators in single-precision arithmetic" (1992), carried over to segments by Imai (1996) and Held (2001); all from memory. The formulas for
//! vertices in [`place`] and the test for edges of which the middle outlives both ends in [`segments`] are worked out there.
//!
//! Nothing that comes of it is trusted before it has passed the checks in [`super::voronoi`].

use super::voronoi::Arrays;
use super::walls::Walls;

mod arrays;
mod mesh;
mod place;
mod points;
mod segments;
mod sites;

/// The diagram of the walls; `None` where rounding got the better of it.
pub(super) fn computed(walls: &Walls) -> Option<Arrays> {
    let sites = sites::Sites::of(walls)?;
    let mut mesh = points::mesh_of_points(&sites)?;
    segments::insert_all(&mut mesh, &sites)?;
    mesh.is_empty_around(&sites).then_some(())?;
    arrays::of(&mesh, &sites, walls)
}

#[cfg(test)]
mod tests;
