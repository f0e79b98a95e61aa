//! Small pieces of wood that passes leave in corners: the cutter goes straight into each, just far enough to take it all.

use geometry::arc_path::ArcPath;
use kurbo::{Point, Rect};

use crate::pass::Purpose;
use crate::pass::bench::{Bench, stations};

/// Spacing of the places on earlier cuts from which the cutter may go, in radii, and how far from them an island may lie.
const SPACING: f64 = 0.5;
const FURTHEST: f64 = 3.0;

/// Parts of a way that are tried as its end.
const PARTS: u32 = 64;

/// What a way to where the cutter goes in counts, beside the cut itself: it is fed faster there, and stays down.
const FROM_HERE: f64 = 0.5;

/// Over how many radii the load is evened out: these cuts are short, and end where they take most.
const STRETCH: f64 = 0.25;

/// Wood that the cutter takes from one place.
struct Island {
    /// The middles of its outermost cells.
    cells: Vec<Point>,
    /// Of the box around it.
    middle: Point,
}

/// Takes the small pieces of what there is to do that lie within so many mm of the cutter, the nearest first.
///
/// One that cannot be taken so stays in `bench.todo`.
pub(super) fn clear_islands(bench: &mut Bench<'_>, purpose: Purpose, within: f64) {
    let mut tried: Vec<Point> = Vec::new();
    // Bound: no island is tried twice, and what is taken leaves fewer.
    while let Some(island) = nearest(bench, within, &tried) {
        tried.push(island.middle);
        let Some(path) = straight_in(bench, &island) else {
            continue;
        };
        let way = bench.way_to(path.start, bench.tool.limit);
        bench.add_evened(purpose, path, way, STRETCH);
    }
}

/// The island nearest to the cutter, but for those tried.
fn nearest(bench: &Bench<'_>, within: f64, tried: &[Point]) -> Option<Island> {
    let here = bench.here?;
    let far = |island: &Island| island.middle.distance(here);
    let islands = bench.todo.islands(2.0 * bench.tool.selects).into_iter();
    islands
        .map(|cells| Island {
            middle: middle(&cells),
            cells,
        })
        .filter(|island| far(island) <= within && !tried.contains(&island.middle))
        .min_by(|one, other| far(one).total_cmp(&far(other)))
}

/// The middle of the box around places.
fn middle(places: &[Point]) -> Point {
    let around = places
        .iter()
        .map(|&place| Rect::from_points(place, place))
        .reduce(|one, other| one.union(other));
    around.map_or(Point::ZERO, |around| around.center())
}

/// A straight way from cleared ground to the first place where the cutter covers all of an island.
fn straight_in(bench: &Bench<'_>, island: &Island) -> Option<ArcPath> {
    let tool = bench.tool;
    let covers = |at: Point| {
        let mut cells = island.cells.iter();
        cells.all(|cell| cell.distance(at) <= tool.selects)
    };
    let first_to_cover = |from: Point| {
        (0..=PARTS)
            .map(|part| from.lerp(island.middle, f64::from(part) / f64::from(PARTS)))
            .find(|&at| covers(at))
    };
    let on_cuts = bench
        .cuts
        .iter()
        .flat_map(|cut| stations(&cut.path, tool.radius * SPACING));
    let mut from: Vec<Point> = on_cuts
        .filter(|at| at.distance(island.middle) <= tool.radius * FURTHEST)
        .collect();
    let far = |at: &Point| {
        let from_here = bench.here.map_or(0.0, |here| here.distance(*at));
        at.distance(island.middle) + from_here * FROM_HERE
    };
    from.sort_by(|one, other| far(one).total_cmp(&far(other)));
    from.into_iter()
        .filter(|&from| bench.is_free(from))
        .find_map(|from| {
            let to = first_to_cover(from)?;
            let fits = from != to && bench.fence.clears_line(from, to, tool.first);
            fits.then(|| ArcPath::line(from, to))
        })
}
