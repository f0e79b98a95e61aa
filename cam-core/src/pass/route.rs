//! Ways over cleared ground from one cut to the next, found on a lattice.

use geometry::arc_path::{ArcPath, ArcStep};
use kurbo::Point;

use crate::lattice::{Lattice, Search, cut_short};
use crate::pass::bench::Bench;

/// Spacing of the lattice, in radii of the cutter.
const LATTICE: f64 = 1.0 / 3.0;

/// The most places of the lattice looked at for one way.
const MOST_PLACES: usize = 6000;

/// A way of straight lines from here to there over cleared ground, if one is known that takes no longer than lifting.
pub(super) fn route(bench: &Bench<'_>, from: Point, to: Point) -> Option<ArcPath> {
    let lattice = Lattice {
        origin: from,
        spacing: bench.tool.radius * LATTICE,
    };
    let may_pass = |from: Point, to: Point| bench.may_pass(from, to, bench.tool.limit);
    // Nothing leads to where the cutter may not stand.
    if !may_pass(to, to) {
        return None;
    }
    let mut search = Search::new(lattice, to, bench.longest_link(from, to));
    search.begin((0, 0), 0.0, 0, || true);
    let (_, points) = search.find(
        MOST_PLACES,
        |at, _, there| may_pass(at, there),
        |at| may_pass(at, to),
    )?;
    let mut way = ArcPath::starting_at(from);
    let corners = cut_short(&points, may_pass)?;
    way.steps = corners.into_iter().map(|to| ArcStep::Line { to }).collect();
    Some(way)
}
