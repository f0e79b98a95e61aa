//! How the cutter gets down to a roughing cut: in cleared ground where there is any, else on a slope.

use std::f64::consts::TAU;

use geometry::arc_path::{ArcPath, ArcStep, Turn};
use geometry::diagram::Wall;
use kurbo::{Point, Vec2};

use crate::pass::bench::{Bench, Way, places};
use crate::pass::select::Stretch;
use crate::pass::tool::{FULL_WIDTH_FEED, Tool};

/// A path with the way down to its start.
pub(super) struct Start {
    pub(super) path: ArcPath,
    pub(super) way: Way,
    /// A circle to be cut first, from which the path is then reached.
    pub(super) opening: Option<Opening>,
}

/// A circle that opens closed ground.
pub(super) struct Opening {
    pub(super) path: ArcPath,
    pub(super) way: Way,
}

/// The radius of a helix in parts of the widest that leaves no core: less than this is a plunge in disguise (common practice, no source).
const LEAST_HELIX: f64 = 0.35;
/// The widest helix, as part of the lane's half width, that leaves no core: geometry says 1, and the rest is room for rounding.
const MOST_HELIX: f64 = 0.9;
/// In radii: a shorter path is no slope.
const SHORTEST_SLOPE: f64 = 0.5;
/// The most turns or legs of one slope.
const MOST_LEGS: f64 = 200.0;
/// What the stops before and after going straight down take, min: 0.15 s, by the time model for machines of 200 to 300 mm/s².
const DOWN_STOPS_MIN: f64 = 0.15 / 60.0;
/// How many places of a closed path are tried for a way in.
const PLACES_TRIED: usize = 48;
/// How many of them, from the nearest, are tried for a lead that needs no lifting.
const LEADS_TRIED: usize = 12;

/// The path with the best way down to it: free start, lead from cleared ground, straight down where the cutter may and is there sooner so,
/// helix, slope along itself.
///
/// A closed path is started where that is best. `None` where the cutter cannot get down.
pub(super) fn start(
    bench: &Bench<'_>,
    path: &ArcPath,
    stretch: &Stretch,
    limit: f64,
) -> Option<Start> {
    if path.is_closed() {
        closed(bench, path, stretch, limit)
    } else {
        open(bench, path, limit)
    }
}

fn plain(path: ArcPath, way: Way) -> Option<Start> {
    Some(Start {
        path,
        way,
        opening: None,
    })
}

fn open(bench: &Bench<'_>, path: &ArcPath, limit: f64) -> Option<Start> {
    if bench.is_free(path.start) {
        return plain(path.clone(), bench.way_to(path.start, limit));
    }
    let (at, direction) = path.at(0.0);
    let staying = lead(bench, at, direction, limit, true);
    if let Some((mut lead, way)) = staying.or_else(|| lead(bench, at, direction, limit, false)) {
        lead.append(path);
        return plain(lead, way);
    }
    let tool = bench.tool;
    if tool.cutter.centre_cutting {
        return plain(path.clone(), Way::Plunge);
    }
    let length = path.length();
    if length < tool.radius * SHORTEST_SLOPE {
        return None;
    }
    let slope = to_and_fro(path, length, tool.ramp_length());
    plain(path.clone(), Way::Ramp(slope))
}

fn closed(bench: &Bench<'_>, path: &ArcPath, stretch: &Stretch, limit: f64) -> Option<Start> {
    let tool = bench.tool;
    let length = path.length();
    let spacing = (length / PLACES_TRIED as f64).max(tool.spacing);
    let tried: Vec<(Point, Vec2)> = places(path, spacing);
    let mut order: Vec<usize> = (0..tried.len()).collect();
    if let Some(here) = bench.here {
        let far = |&number: &usize| tried[number].0.distance_squared(here);
        order.sort_by(|a, b| far(a).total_cmp(&far(b)));
    }
    let free: Vec<usize> = order
        .iter()
        .copied()
        .filter(|&number| bench.is_free(tried[number].0))
        .collect();
    let from_free = |number: usize| {
        let way = bench.way_to(tried[number].0, limit);
        (path.started_at(number as f64 * spacing), way)
    };
    let from_lead = |number: usize, must_stay: bool| {
        let (at, direction) = tried[number];
        let (mut lead, way) = lead(bench, at, direction, limit, must_stay)?;
        lead.append(&path.started_at(number as f64 * spacing));
        Some((lead, way))
    };
    // Staying down comes before everything else, then cleared ground, the nearest first.
    let found = free
        .iter()
        .map(|&number| from_free(number))
        .find(|(_, way)| *way == Way::Stay)
        .or_else(|| {
            let near = order.iter().take(LEADS_TRIED);
            near.copied().find_map(|number| from_lead(number, true))
        })
        .or_else(|| free.first().map(|&number| from_free(number)))
        .or_else(|| order.iter().find_map(|&number| from_lead(number, false)));
    if let Some((path, way)) = found {
        return plain(path, way);
    }
    let nearest = || {
        let number = order.first().copied().unwrap_or(0);
        path.started_at(number as f64 * spacing)
    };
    let slope = tool.ramp_length();
    // Round a path the layers slope on from one another, and only the last slope is gone along once more; round a short one it
    // takes many rounds.
    let is_short = length < slope;
    if tool.cutter.centre_cutting && (is_short || is_sooner_straight(tool, slope)) {
        return plain(nearest(), Way::Plunge);
    }
    if let Some(opening) = helix(bench, stretch, limit) {
        return Some(Start {
            path: path.clone(),
            way: Way::Open,
            opening: Some(opening),
        });
    }
    let is_slope = !is_short || length >= tool.radius * SHORTEST_SLOPE;
    is_slope.then(|| plain(nearest(), Way::Along))?
}

/// Whether a cutter is down sooner if it goes straight down for each layer than along a slope of this length.
fn is_sooner_straight(tool: &Tool<'_>, slope: f64) -> bool {
    let cutter = tool.cutter;
    let straight =
        tool.depth / cutter.plunge_mm_min.max(1.0) + f64::from(tool.layers) * DOWN_STOPS_MIN;
    straight < slope / (cutter.feed_mm_min * FULL_WIDTH_FEED).max(1.0)
}

/// A quarter turn from cleared ground beside the path that joins it tangentially, or a straight step where no turn fits.
///
/// With `must_stay` only one whose start the cutter can feed to over cleared ground from where it stands.
fn lead(
    bench: &Bench<'_>,
    at: Point,
    direction: Vec2,
    limit: f64,
    must_stay: bool,
) -> Option<(ArcPath, Way)> {
    if must_stay && !bench.down {
        return None;
    }
    let tool = bench.tool;
    let left = Vec2::new(-direction.y, direction.x);
    let sizes = [tool.step, tool.step * 0.7, tool.radius * 0.5];
    let arcs = sizes.into_iter().flat_map(|size| {
        [(left, Turn::Left), (-left, Turn::Right)].map(|(side, turn)| ArcPath {
            start: at + (side - direction) * size,
            steps: vec![ArcStep::Arc {
                to: at,
                centre: at + side * size,
                turn,
            }],
        })
    });
    let lines = sizes
        .into_iter()
        .flat_map(|size| [left, -left].map(|side| ArcPath::line(at + side * size, at)));
    arcs.chain(lines)
        .filter(|lead| bench.is_free(lead.start) && bench.fence.clears(lead, limit))
        .map(|lead| {
            let way = bench.way_to(lead.start, limit);
            (lead, way)
        })
        .find(|(_, way)| !must_stay || *way == Way::Stay)
}

/// A helix at the widest place inside a closed curve that does not follow the room, and the circle at its foot.
fn helix(bench: &Bench<'_>, stretch: &Stretch, limit: f64) -> Option<Opening> {
    let tool = bench.tool;
    let curve = &stretch.curve;
    if !curve.closed || curve.wall == Wall::Room || curve.goes_round(tool.rough_fit) <= 0.0 {
        return None;
    }
    let ring = curve.points(tool.rough_fit);
    let (at, clearance) = bench
        .ground
        .widest(stretch.distance)
        .into_iter()
        .map(|widest| (widest.at, widest.clearance))
        .filter(|&(at, _)| inside(&ring, at))
        .max_by(|a, b| a.1.total_cmp(&b.1))?;
    let most = tool.sweeps * MOST_HELIX;
    let radius = (clearance - limit - tool.rough_fit).min(most);
    if radius < most * LEAST_HELIX {
        return None;
    }
    let foot = at + Vec2::new(radius, 0.0);
    // Counter-clockwise, for the wood outside is then on the right: climb.
    let turn = if bench.runs_forward(Wall::Letter) {
        Turn::Left
    } else {
        Turn::Right
    };
    let circle = ArcPath::circle(foot, at, turn);
    if !bench.fence.clears(&circle, limit) {
        return None;
    }
    let turns = (tool.ramp_length() / (TAU * radius))
        .ceil()
        .clamp(1.0, MOST_LEGS);
    let mut slope = ArcPath::starting_at(foot);
    for _ in 0..turns as usize {
        slope.append(&circle);
    }
    Some(Opening {
        path: circle,
        way: Way::Ramp(slope),
    })
}

pub(super) fn inside(ring: &[Point], at: Point) -> bool {
    ring.windows(2).fold(false, |inside, pair| {
        let (a, b) = (pair[0], pair[1]);
        let crosses =
            (a.y > at.y) != (b.y > at.y) && at.x < a.x + (b.x - a.x) * ((at.y - a.y) / (b.y - a.y));
        inside != crosses
    })
}

/// Forth and back along the beginning of a path, as often as the slope needs, ending at the path's start.
pub(super) fn to_and_fro(path: &ArcPath, length: f64, slope: f64) -> ArcPath {
    let rounds = (slope / (2.0 * length)).ceil().clamp(1.0, MOST_LEGS);
    let leg = path.stretch(0.0, (slope / (2.0 * rounds)).min(length));
    let back = leg.reversed();
    let mut ramp = ArcPath::starting_at(path.start);
    for _ in 0..rounds as usize {
        ramp.append(&leg);
        ramp.append(&back);
    }
    ramp
}
