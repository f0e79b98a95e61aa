//! The least time of passing along the walls.

use geometry::distance::WallIndex;
use kurbo::{BezPath, ParamCurve, ParamCurveArclen, ParamCurveDeriv, PathSeg, Point, Vec2};

use super::{Drive, Mill};
use crate::referee::Area;

/// Distance between the places of a wall that are looked at, mm.
const SPACING: f64 = 0.05;

/// Radians between places around a corner of the letter.
const TURN: f64 = 0.05;

/// How much nearer than its radius the letter may lie where a cutter still counts as touching the wall, mm: what flattening
/// and the referee's grid may move a wall.
const SLACK: f64 = 0.002;

/// Places of a path further apart than this belong to different stretches, mm.
const GAP: f64 = 4.0 * SPACING;

/// A place on a wall, with the direction into the ground.
#[derive(Clone, Copy)]
struct Place {
    at: Point,
    outward: Vec2,
}

/// The least time of passing once along every stretch of wall with the largest cutter that touches it. `mills` are in order
/// from the largest to the smallest.
pub(super) fn least(drawn: &BezPath, letter: &Area, mills: &[Mill], drive: &Drive) -> f64 {
    let rings = letter.rings();
    let walls = WallIndex::new(&rings);
    let mut seconds = 0.0;
    for contour in contours(drawn) {
        let places = places(&contour, &walls);
        let owners: Vec<Option<usize>> = places
            .iter()
            .map(|place| {
                mills.iter().position(|mill| {
                    let centre = place.at + place.outward * mill.radius;
                    walls.nearest_within(centre, mill.radius) >= mill.radius - SLACK
                })
            })
            .collect();
        for (number, mill) in mills.iter().enumerate() {
            for path in paths(&places, &owners, number, mill.radius) {
                seconds += least_along(&path, mill.feed, drive);
            }
        }
    }
    seconds
}

/// The drawn segments of each contour, closing lines included, lines of no length left out.
fn contours(drawn: &BezPath) -> Vec<Vec<PathSeg>> {
    let mut found: Vec<Vec<PathSeg>> = Vec::new();
    let mut end = None;
    for segment in drawn.segments() {
        if segment.arclen(1e-3) > 1e-6 {
            match found.last_mut() {
                Some(contour) if end == Some(segment.start()) => contour.push(segment),
                Some(_) | None => found.push(vec![segment]),
            }
        }
        end = Some(segment.end());
    }
    found
}

/// Places all round a contour that are wall, with fans of directions where the letter turns a corner outward.
fn places(contour: &[PathSeg], walls: &WallIndex) -> Vec<Place> {
    let mut places: Vec<Place> = Vec::new();
    let mut add = |at: Point, outward: Vec2| {
        // Inside another contour of the same letter there is no wall.
        if !walls.contains(at + outward * (2.0 * SLACK)) {
            places.push(Place { at, outward });
        }
    };
    let side = side(contour, walls);
    let count = contour.len();
    for (number, segment) in contour.iter().enumerate() {
        let along = (segment.arclen(1e-3) / SPACING).ceil().max(2.0) as usize;
        for part in 0..=along {
            let t = part as f64 / along as f64;
            add(segment.eval(t), outward(segment, t, side));
        }
        let next = &contour[(number + 1) % count];
        let (from, to) = (outward(segment, 1.0, side), outward(next, 0.0, side));
        let turn = from.cross(to).atan2(from.dot(to));
        let steps = (turn.abs() / TURN).ceil() as usize;
        for step in 1..steps {
            let angle = turn * step as f64 / steps as f64;
            let (sin, cos) = angle.sin_cos();
            let arm = Vec2::new(from.x * cos - from.y * sin, from.x * sin + from.y * cos);
            add(segment.end(), arm);
        }
    }
    places
}

/// +1 where the ground lies left of a contour, -1 where it lies right, by what most of its segments say.
fn side(contour: &[PathSeg], walls: &WallIndex) -> f64 {
    let votes: i32 = contour
        .iter()
        .map(|segment| {
            let left = outward(segment, 0.5, 1.0) * (2.0 * SLACK);
            let at = segment.eval(0.5);
            i32::from(walls.contains(at - left)) - i32::from(walls.contains(at + left))
        })
        .sum();
    if votes < 0 { -1.0 } else { 1.0 }
}

/// The unit direction across a segment, to its left for +1.
fn outward(segment: &PathSeg, t: f64, side: f64) -> Vec2 {
    // Where a handle lies on its end there is no derivative; a little further in there is.
    let inner = if t < 0.5 { t + 1e-4 } else { t - 1e-4 };
    let along = [t, inner]
        .into_iter()
        .map(|t| derivative(segment, t))
        .find(|along| along.hypot() > 1e-9)
        .unwrap_or(segment.end() - segment.start());
    let along = along / along.hypot().max(1e-12);
    Vec2::new(-along.y, along.x) * side
}

fn derivative(segment: &PathSeg, t: f64) -> Vec2 {
    match segment {
        PathSeg::Line(line) => line.p1 - line.p0,
        PathSeg::Quad(quad) => quad.deriv().eval(t).to_vec2(),
        PathSeg::Cubic(cubic) => cubic.deriv().eval(t).to_vec2(),
    }
}

/// The centre's paths along what one cutter owns.
fn paths(places: &[Place], owners: &[Option<usize>], owner: usize, radius: f64) -> Vec<Vec<Point>> {
    let mut found: Vec<Vec<Point>> = Vec::new();
    for (place, of) in places.iter().zip(owners) {
        if *of != Some(owner) {
            continue;
        }
        let centre = place.at + place.outward * radius;
        match found.last_mut() {
            Some(path) if path[path.len() - 1].distance(centre) < GAP => path.push(centre),
            Some(_) | None => found.push(vec![centre]),
        }
    }
    // Round the whole contour the last place meets the first.
    if let (Some(first), Some(last)) = (found.first().map(|path| path[0]), found.last_mut())
        && last.len() > 1
        && last[last.len() - 1].distance(first) < GAP
    {
        last.push(first);
    }
    found
}

/// The least time along a path at a feed, its ends passed at full speed.
pub(super) fn least_along(path: &[Point], feed: f64, drive: &Drive) -> f64 {
    let mut chords: Vec<Vec2> = path.windows(2).map(|pair| pair[1] - pair[0]).collect();
    chords.retain(|chord| chord.hypot() > 1e-7);
    if chords.is_empty() {
        return 0.0;
    }
    let mut speeds = vec![feed; chords.len() + 1];
    for (at, pair) in chords.windows(2).enumerate() {
        speeds[at + 1] = feed.min(speed_at(pair[0], pair[1], drive));
    }
    // Along the short chords of a curve its limit holds too; a long chord is straight.
    let caps: Vec<f64> = chords
        .iter()
        .zip(speeds.windows(2))
        .map(|(chord, ends)| {
            if chord.hypot() > GAP {
                feed
            } else {
                ends[0].max(ends[1])
            }
        })
        .collect();
    let gain = |chord: &Vec2| 2.0 * drive.acceleration * chord.hypot();
    for at in (0..chords.len()).rev() {
        let most = (speeds[at + 1].powi(2) + gain(&chords[at])).sqrt();
        speeds[at] = speeds[at].min(most);
    }
    for at in 0..chords.len() {
        let most = (speeds[at].powi(2) + gain(&chords[at])).sqrt();
        speeds[at + 1] = speeds[at + 1].min(most);
    }
    chords
        .iter()
        .zip(speeds.windows(2))
        .zip(caps)
        .map(|((chord, ends), cap)| seconds(chord.hypot(), ends[0], ends[1], cap, drive))
        .sum()
}

/// The fastest past the joint of two chords: within a curve by its radius, across a corner by how far it may be rounded.
fn speed_at(before: Vec2, after: Vec2, drive: &Drive) -> f64 {
    let turn = before.cross(after).atan2(before.dot(after)).abs();
    if turn < 1e-9 {
        return f64::INFINITY;
    }
    let length = (before.hypot() + after.hypot()) / 2.0;
    let curve = drive.acceleration * length / turn;
    let half = (turn / 2.0).cos().clamp(0.0, 1.0 - 1e-12);
    let corner = drive.acceleration * drive.deviation * half / (1.0 - half);
    // On a curve given by fine chords the corner's rule would allow any speed, since each turn is small.
    if turn < 2.0 * TURN {
        curve.sqrt()
    } else {
        corner.sqrt()
    }
}

/// Time over a length between two speeds, speeding up to a highest one in between where there is room.
fn seconds(length: f64, start: f64, end: f64, cap: f64, drive: &Drive) -> f64 {
    let a = drive.acceleration;
    let top = (a * length + (start * start + end * end) / 2.0).sqrt();
    if top <= cap {
        return (2.0 * top - start - end) / a;
    }
    let speeding = (2.0 * cap * cap - start * start - end * end) / (2.0 * a);
    (2.0 * cap - start - end) / a + (length - speeding) / cap
}
