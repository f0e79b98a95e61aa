//! Steady roughing: ground is cleared from what is cleared already, each pass steered along the edge of the wood so that the
//! cutter takes just its set width.
//!
//! First the cutter goes round along the walls, as much slower as a full slot asks for; from that lane it then eats its way
//! into the open ground, forth and back, without lifting where a way over cleared ground is short enough.

use geometry::arc_path::{ArcPath, fit};
use geometry::diagram::{Site, SiteKind, Wall};
use geometry::offset::OffsetPiece;
use kurbo::{Point, Vec2};

use crate::pass::Purpose;
use crate::pass::bench::{Bench, Link, Way, places};
use crate::pass::curve::Curve;
use crate::pass::islands::clear_islands;
use crate::pass::load::Kept;
use crate::pass::narrows::{Narrows, through_narrows};
use crate::pass::route::route;
use crate::pass::select::{Stretch, parts, wanted};

/// Parts of the radius: how far the cutter goes at a time, and how far ahead it looks to choose its course.
const STEP: f64 = 0.25;
const AHEAD: f64 = 0.65;

/// The smallest radius of a steered path, in parts of the cutter's.
const TIGHTEST: f64 = 0.4;

/// Part of the set width that is aimed at: the rest is what a fit and the cells may add.
const AIM: f64 = 0.99;

/// How far above the set width one step may be before the pass ends there.
const MOST_IN_STEP: f64 = 1.12;

/// Cells by which a course may come nearer to a wall than it is: what chords of arcs need.
const NEARER: f64 = 0.05;

/// Part of the set width below which the wood counts as lost.
const LOST: f64 = 0.08;

/// Part of the set width that a pass must take on the whole to be worth making.
const LEAST_USE: f64 = 0.2;

/// How far the cutter goes on without meeting wood that has to go, in radii.
const PATIENCE: f64 = 1.0;

/// Tries to find the curvature that takes the set width.
const TRIES: usize = 4;

/// The most steps of one pass, and the most passes of a cutter over one sort.
const MOST_STEPS: usize = 60_000;
const MOST_PASSES: usize = 3000;

/// Spacing of the places from which passes may begin, in radii.
const SEED_SPACING: f64 = 0.5;

/// How far from the cutter, in radii, what a pass leaves in a corner may lie to be taken before the next pass.
const AT_ONCE: f64 = 2.0;

/// Seeds looked at more closely for each pass.
const SEEDS_TRIED: usize = 6;

/// Clears all it can of what there is to do; what it cannot is left in `bench.todo`.
pub(super) fn clear_steadily(bench: &mut Bench<'_>, purpose: Purpose, narrows: Narrows) {
    let begins = bench.cuts.len();
    let tool = bench.tool;
    let nearest: Vec<Curve> = bench
        .ground
        .offset(tool.first)
        .iter()
        .flat_map(Curve::by_wall)
        .filter(|curve| curve.wall == Wall::Letter && bench.pocket.holds(curve))
        .collect();
    let lane: Vec<Stretch> = nearest
        .iter()
        .flat_map(|curve| parts(curve, &wanted(curve, tool, &bench.todo, tool.selects)))
        .map(|curve| Stretch::roughing(curve, tool.first, tool))
        .collect();
    let joined = match narrows {
        Narrows::Passed => through_narrows(&lane, bench),
        Narrows::Left => None,
    };
    bench.passed_narrows = joined.is_some();
    bench.clear(vec![joined.unwrap_or(lane)], purpose);
    bench.wood.refresh();
    bench.todo.refresh();
    let mut seeds: Vec<Seed> = Vec::new();
    let mut counted = begins;
    for _ in 0..MOST_PASSES {
        for cut in &bench.cuts[counted..] {
            let spacing = tool.radius * SEED_SPACING;
            let on_path = places(&cut.path, spacing).into_iter();
            seeds.extend(on_path.map(|(at, along)| Seed { at, along }));
            let (at, along) = (cut.path.end(), cut.path.at(cut.path.length()).1);
            seeds.push(Seed { at, along });
        }
        counted = bench.cuts.len();
        let meets = tool.sweeps + tool.step * 0.5;
        seeds.retain(|seed| bench.todo.any_in_disc(seed.at, meets));
        if seeds.is_empty() {
            break;
        }
        one_pass(bench, purpose, &mut seeds);
        clear_islands(bench, purpose, AT_ONCE * bench.tool.radius);
    }
    clear_islands(bench, purpose, f64::INFINITY);
    bench.wood.refresh();
    bench.todo.refresh();
}

/// A place in cleared ground from which a pass may begin, on a cut that goes this way there.
#[derive(Clone, Copy)]
struct Seed {
    at: Point,
    along: Vec2,
}

/// Makes a pass from the nearest of the seeds that leads to one; those tried are taken off.
fn one_pass(bench: &mut Bench<'_>, purpose: Purpose, seeds: &mut Vec<Seed>) {
    if let Some(here) = bench.here {
        seeds.sort_by(|a, b| {
            let (a, b) = (a.at, b.at);
            a.distance_squared(here)
                .total_cmp(&b.distance_squared(here))
                .then(a.x.total_cmp(&b.x))
                .then(a.y.total_cmp(&b.y))
        });
    }
    for _ in 0..SEEDS_TRIED {
        if seeds.is_empty() {
            return;
        }
        let seed = seeds.remove(0);
        if !bench.is_free(seed.at) {
            continue;
        }
        let before = (bench.wood.clone(), bench.todo.clone());
        let Some(path) = steered(bench, seed) else {
            (bench.wood, bench.todo) = before;
            seeds.retain(|other| other.at.distance(seed.at) > bench.tool.radius * SEED_SPACING);
            continue;
        };
        // What the pass really clears is worked out again from its fitted path.
        (bench.wood, bench.todo) = before;
        let way = way_to(bench, path.start);
        bench.add_linked(purpose, path, way, false, Kept::whole(bench.tool.layers));
        return;
    }
}

/// How the cutter gets to a place: over cleared ground, if a way is known that is worth it.
fn way_to(bench: &Bench<'_>, to: Point) -> (Way, Option<Link>) {
    let Some(here) = bench.here.filter(|_| bench.down) else {
        return (Way::Open, None);
    };
    if here == to {
        return (Way::Stay, None);
    }
    if bench.way_to(to, bench.tool.limit) == Way::Stay {
        return (Way::Stay, bench.link(ArcPath::line(here, to)));
    }
    match route(bench, here, to) {
        Some(way) => (Way::Stay, bench.link(way)),
        None => (Way::Open, None),
    }
}

/// A course: where the cutter is, which way it goes, and on which side the wood is (+1 right, -1 left).
#[derive(Clone, Copy)]
struct Course {
    at: Point,
    direction: Vec2,
    side: f64,
}

impl Course {
    /// After a length along an arc that turns toward the wood with this curvature.
    fn after(&self, length: f64, curvature: f64) -> Course {
        let turn = -self.side * curvature * length;
        let (sin, cos) = turn.sin_cos();
        let direction = Vec2::new(
            self.direction.x * cos - self.direction.y * sin,
            self.direction.x * sin + self.direction.y * cos,
        );
        let (half_sin, half_cos) = (turn / 2.0).sin_cos();
        let chord = Vec2::new(
            self.direction.x * half_cos - self.direction.y * half_sin,
            self.direction.x * half_sin + self.direction.y * half_cos,
        );
        let shortened = if turn.abs() < 1e-6 {
            1.0
        } else {
            half_sin / (turn / 2.0)
        };
        Course {
            at: self.at + chord * (length * shortened),
            direction,
            side: self.side,
        }
    }
}

/// The course from a seed along the cut it lies on, the way in which there is more to do.
fn course_from(bench: &Bench<'_>, seed: Seed) -> Option<Course> {
    let tool = bench.tool;
    let to = bench
        .todo
        .middle_in_disc(seed.at, tool.sweeps + tool.step * 0.5)?
        - seed.at;
    let length = to.hypot();
    if length < 1e-6 {
        return None;
    }
    let to = to / length;
    let courses = [seed.along, -seed.along].map(|direction| Course {
        at: seed.at,
        direction,
        side: if direction.cross(to) < 0.0 { 1.0 } else { -1.0 },
    });
    let ahead = courses.map(|course| {
        let at = seed.at + course.direction * tool.radius + to * (tool.step * 0.5);
        bench.todo.count_in_disc(at, tool.radius)
    });
    Some(courses[usize::from(ahead[1] > ahead[0])])
}

/// The edge of the wood nearest to the cutter on the side on which it is followed.
struct Edge {
    distance: f64,
    /// Unit vector toward it.
    to: Vec2,
}

/// Looks for the edge of the wood beside the course, from `gap` on outwards.
fn edge_beside(bench: &Bench<'_>, course: &Course, gap: f64) -> Option<Edge> {
    let tool = bench.tool;
    let cell = bench.wood.frame().cell;
    let furthest = tool.radius + 2.0 * tool.step;
    let right = Vec2::new(course.direction.y, -course.direction.x) * course.side;
    let rays: [Vec2; RAYS] = std::array::from_fn(|number| {
        let angle = RAYS_FROM + (RAYS_TO - RAYS_FROM) * number as f64 / (RAYS - 1) as f64;
        let (sin, cos) = angle.sin_cos();
        right * cos + course.direction * sin
    });
    let mut found: Option<f64> = None;
    let mut sum = Vec2::ZERO;
    let mut distance = gap;
    while distance <= furthest {
        for ray in rays {
            if bench.wood.at(course.at + ray * distance) {
                found.get_or_insert(distance);
                sum += ray;
            }
        }
        if found.is_some_and(|found| distance >= found + EDGE_DEPTH * tool.radius) {
            break;
        }
        distance += cell * EDGE_STEP;
    }
    let distance = found?;
    let length = sum.hypot();
    (length > 1e-9).then(|| Edge {
        distance,
        to: sum / length,
    })
}

/// Rays on which the edge of the wood is looked for: from a little behind the side to a little beyond straight ahead, radians.
const RAYS: usize = 13;
const RAYS_FROM: f64 = -0.9;
const RAYS_TO: f64 = 1.7;

/// How far ahead of the cutter the edge is looked for, in radii: there the cutter has not cut yet.
const EDGE_AHEAD: f64 = 1.0;

/// Cells from one look to the next.
const EDGE_STEP: f64 = 1.5;

/// How deep into the wood, in radii, the direction of its edge is taken from.
const EDGE_DEPTH: f64 = 0.12;

/// The steepest angles at which a course may lead into the wood, radians: where it takes the set width already, how much more
/// for each radius that it lacks of it, and anyway.
const STEEPEST_BESIDE: f64 = 0.3;
const STEEPEN: f64 = 0.8;
const STEEPEST: f64 = 0.7;

/// A path from the seed along the edge of the wood, as far as it clears what has to go; both are taken from the bench. `None` if it
/// clears nothing.
fn steered(bench: &mut Bench<'_>, seed: Seed) -> Option<ArcPath> {
    let tool = bench.tool;
    let radius = tool.sweeps;
    let cell = bench.wood.frame().cell;
    let cells = 1.0 / (cell * cell);
    let (step, ahead) = (tool.radius * STEP, tool.radius * AHEAD);
    let tightest = 1.0 / (tool.radius * TIGHTEST);
    let target = tool.step * AIM * ahead * cells;
    let most = tool.step * MOST_IN_STEP * step * cells;
    let lost = tool.step * LOST * ahead * cells;
    // Area gained for each bit of curvature, over the way ahead.
    let gain = ahead.powi(3) / 6.0 * cells;
    let mut course = course_from(bench, seed)?;
    let mut points = vec![course.at];
    let (mut useful, mut idle) = (1, 0.0);
    let mut met = 0.0;
    let mut curvature: f64 = 0.0;
    let mut gap = 0.0;
    for _ in 0..MOST_STEPS {
        // The course may lead into the wood only at an angle from which it can turn back in time.
        let Some(edge) = edge_beside(bench, &course.after(tool.radius * EDGE_AHEAD, 0.0), gap)
        else {
            break;
        };
        gap = (edge.distance - tool.radius * 2.0 * STEP - 4.0 * cell).max(0.0);
        let lacking = (tool.step - (radius - edge.distance)).max(0.0);
        let steepest = (STEEPEST_BESIDE + lacking / tool.radius * STEEPEN).min(STEEPEST);
        let into = course.direction.dot(edge.to).clamp(-1.0, 1.0).asin();
        let toward = ((steepest - into) / ahead).clamp(-tightest, tightest);
        let fresh = |curvature: f64| {
            bench
                .wood
                .count_in_disc(course.after(ahead, curvature).at, radius) as f64
        };
        curvature = curvature.min(toward);
        let mut found = fresh(curvature);
        for _ in 0..TRIES {
            if (found - target).abs() < target * 0.01 {
                break;
            }
            let better = (curvature - (found - target) / gain).clamp(-tightest, toward);
            if better == curvature {
                break;
            }
            curvature = better;
            found = fresh(curvature);
        }
        if found < lost && edge.distance > radius + tool.step {
            break;
        }
        // Away from the walls, if the course leads too near to them.
        let clear = bench.fence.nearest_within(course.at, tool.first + ahead);
        let keep = clear.min(tool.first) - cell * NEARER;
        let mut next = None;
        let mut away = curvature;
        while away >= -tightest - 1e-9 {
            let (end, far) = (course.after(step, away), course.after(ahead, away));
            if clear >= tool.first + ahead
                || bench.fence.clears_line(course.at, end.at, keep)
                    && bench.fence.clears_line(end.at, far.at, keep)
            {
                next = Some(end);
                break;
            }
            away -= tightest * 0.125;
        }
        let Some(end) = next else { break };
        curvature = away;
        let taken = bench.wood.count_in_disc(end.at, radius) as f64;
        if taken > most {
            break;
        }
        let is_useful = bench.todo.take(course.at, end.at, radius) > 0;
        bench.wood.take(course.at, end.at, radius);
        if is_useful {
            met += taken;
            useful = points.len() + 1;
            idle = 0.0;
        } else {
            idle += step;
            if idle > tool.radius * PATIENCE {
                points.push(end.at);
                break;
            }
        }
        points.push(end.at);
        course = end;
    }
    points.truncate(useful);
    if points.len() < 2 {
        return None;
    }
    let path = through(&points, tool.rough_fit);
    if met < path.length() * tool.step * LEAST_USE * cells {
        return None;
    }
    bench.fence.clears(&path, tool.limit).then_some(path)
}

/// Few lines and arcs along a chain of points.
fn through(points: &[Point], tolerance: f64) -> ArcPath {
    let site = Site {
        wall: Wall::Letter,
        ring: 0,
        index: 0,
        kind: SiteKind::Segment,
    };
    let pieces: Vec<OffsetPiece> = points
        .windows(2)
        .map(|pair| OffsetPiece {
            from: pair[0],
            to: pair[1],
            site,
            centre: None,
        })
        .collect();
    fit(&pieces, tolerance)
}
