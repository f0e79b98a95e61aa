//! The fitting of few lines and arcs to a chain of many.
//!
//! Greedy: from the end of what is done, the longest line or arc that stays within the tolerance is taken, found by galloping
//! and bisection. Arcs pass through both end points of their stretch, so that one number, the bulge, tells them apart; every
//! point of the stretch allows an interval of bulges, and the middle of what all of them allow is tried.

use kurbo::{Point, Vec2};

use super::{ArcPath, ArcStep, Turn, chords, rotate, sweep};
use crate::offset::OffsetPiece;

/// Part of the tolerance given to sampling the arcs of the chain.
const SAMPLING_PART: f64 = 0.05;
/// Part of the tolerance within which neighbouring samples are one.
const MERGING_PART: f64 = 0.05;
/// Part of the tolerance within which samples and chords must lie; with the two parts above it stays below 1.
const FITTING_PART: f64 = 0.85;
/// Part of the tolerance below which an arc's rise over its chord is not worth an arc.
const FLAT_PART: f64 = 0.1;
/// Radians: a sharper turn between neighbouring samples is a corner, and stays one.
const CORNER: f64 = 0.35;
/// The largest bulge (tangent of a quarter of the angle): a half turn.
const MOST_BULGE: f64 = 1.0;
/// Millimetres: a flatter arc is written as a line, if the line keeps within the tolerance.
const MOST_RADIUS: f64 = 2000.0;

/// Fits lines and arcs to a chain of pieces, each beginning where the one before ends.
///
/// The path starts and ends exactly where the chain does, is closed if the chain is, and stays everywhere within `tolerance`
/// of it, as the chain stays of the path; both are run in the same sense. Corners sharper than 20 degrees stay corners. Arcs
/// run through half a turn at most. An empty chain gives a path without steps at the origin.
pub fn fit(pieces: &[OffsetPiece], tolerance: f64) -> ArcPath {
    let samples = samples(pieces, tolerance);
    let Some(&start) = samples.first() else {
        return ArcPath::starting_at(Point::ORIGIN);
    };
    let mut path = ArcPath::starting_at(start);
    let within = tolerance * FITTING_PART;
    let corners = corners(&samples);
    let mut done = 0;
    // Bound: every round gets at least one sample further.
    while done + 1 < samples.len() {
        let (next, step) = longest(&samples, done, corners[done], within);
        path.steps.push(step);
        done = next;
    }
    path
}

/// Points on the chain: the ends of its pieces and points along its arcs, without the ones that add nothing.
fn samples(pieces: &[OffsetPiece], tolerance: f64) -> Vec<Point> {
    let Some(first) = pieces.first() else {
        return Vec::new();
    };
    let merged = (tolerance * MERGING_PART).max(0.0);
    let mut samples = vec![first.from];
    let mut add = |point: Point| {
        if samples
            .last()
            .is_none_or(|&last| last.distance(point) > merged)
        {
            samples.push(point);
        }
    };
    for piece in pieces {
        // A piece that ends where it starts is a point, not a circle: a corner never has ground all round it.
        if let Some(centre) = piece.centre.filter(|_| piece.from != piece.to) {
            let angle = sweep(piece.from, piece.to, centre, Turn::Right);
            let arm = piece.from - centre;
            let count = chords(angle, arm.hypot(), tolerance * SAMPLING_PART);
            for number in 1..count {
                let part = angle * number as f64 / count as f64;
                add(centre + rotate(arm, -part));
            }
        }
        add(piece.to);
    }
    // The end is kept exactly; what was merged into it is too near to matter.
    if let Some(last) = pieces.last() {
        if samples.len() > 1 && samples.last().is_some_and(|&end| end != last.to) {
            samples.pop();
        }
        if samples.last() != Some(&last.to) {
            samples.push(last.to);
        }
    }
    samples
}

/// The longest line or arc from sample `from`, not beyond sample `last`: the sample it reaches, and the step.
fn longest(samples: &[Point], from: usize, last: usize, within: f64) -> (usize, ArcStep) {
    let mut best = (
        from + 1,
        ArcStep::Line {
            to: samples[from + 1],
        },
    );
    let mut stride = 2;
    let mut refused = last + 1;
    while best.0 < last {
        let tried = (from + stride).min(last);
        match step_over(&samples[from..=tried], within) {
            Some(step) => best = (tried, step),
            None => {
                refused = tried;
                break;
            }
        }
        stride *= 2;
    }
    while best.0 + 1 < refused && refused <= last {
        let tried = best.0 + (refused - best.0) / 2;
        match step_over(&samples[from..=tried], within) {
            Some(step) => best = (tried, step),
            None => refused = tried,
        }
    }
    best
}

/// For every sample the next one after it that is a corner or the end.
fn corners(samples: &[Point]) -> Vec<usize> {
    let mut next = vec![samples.len() - 1; samples.len()];
    for at in (1..samples.len().saturating_sub(1)).rev() {
        let (a, b) = (samples[at] - samples[at - 1], samples[at + 1] - samples[at]);
        let is_corner = a.cross(b).abs().atan2(a.dot(b)) > CORNER;
        next[at - 1] = if is_corner { at } else { next[at] };
    }
    next
}

/// One line or arc from the first to the last of some samples that keeps `within` of all of them and of their chords.
fn step_over(samples: &[Point], within: f64) -> Option<ArcStep> {
    let (from, to) = (samples[0], samples[samples.len() - 1]);
    let chord = to - from;
    let length = chord.hypot();
    if length <= within {
        return None;
    }
    let bulge = allowed_bulge(samples, within)?;
    let line = || line_keeps(samples, within).then_some(ArcStep::Line { to });
    let radius = length * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
    if bulge.abs() * length / 2.0 < within * FLAT_PART || radius > MOST_RADIUS {
        return line();
    }
    let left = Vec2::new(-chord.y, chord.x);
    let centre = from.midpoint(to) + left * ((1.0 - bulge * bulge) / (4.0 * bulge));
    let turn = if bulge > 0.0 { Turn::Left } else { Turn::Right };
    if arc_keeps(samples, centre, turn, within) {
        Some(ArcStep::Arc { to, centre, turn })
    } else {
        line()
    }
}

/// The middle of the bulges that all inner samples allow; positive turns left.
fn allowed_bulge(samples: &[Point], within: f64) -> Option<f64> {
    let (from, to) = (samples[0], samples[samples.len() - 1]);
    let bulge_through = |point: Point| {
        let (a, b) = (point - from, to - point);
        let (across, along) = (a.cross(b), a.dot(b));
        let beside = across.hypot(along) + along;
        if beside > 0.0 {
            across / beside
        } else {
            across.signum() * f64::INFINITY
        }
    };
    let (mut least, mut most) = (-MOST_BULGE, MOST_BULGE);
    for index in 1..samples.len() - 1 {
        let along = samples[index + 1] - samples[index - 1];
        let length = along.hypot();
        if length <= 0.0 {
            return None;
        }
        let right = Vec2::new(along.y, -along.x) * (within / length);
        least = least.max(bulge_through(samples[index] - right));
        most = most.min(bulge_through(samples[index] + right));
        if least > most || !least.is_finite() || !most.is_finite() {
            return None;
        }
    }
    Some((least + most) / 2.0)
}

/// Whether the straight line keeps within the tolerance, and the samples go forward along it.
fn line_keeps(samples: &[Point], within: f64) -> bool {
    let from = samples[0];
    let chord = samples[samples.len() - 1] - from;
    let length = chord.hypot();
    let direction = chord / length;
    let mut progress = 0.0;
    samples.iter().skip(1).all(|&point| {
        let arm = point - from;
        let along = direction.dot(arm);
        let forward = along >= progress && along <= length * (1.0 + 1e-12);
        progress = along;
        forward && direction.cross(arm).abs() <= within
    })
}

/// Whether the arc keeps within the tolerance of samples and chords, and the samples go forward along it.
///
/// The distance from the centre is a convex function along a chord, so it is largest at an end and least at the foot of the
/// perpendicular, if that lies on the chord: three checks are exact.
fn arc_keeps(samples: &[Point], centre: Point, turn: Turn, within: f64) -> bool {
    let radius = samples[0].distance(centre);
    samples.windows(2).all(|pair| {
        let (a, b) = (pair[0] - centre, pair[1] - centre);
        let chord = b - a;
        let length = chord.hypot();
        if (b.hypot() - radius).abs() > within || turn.sign() * a.cross(b) < 0.0 {
            return false;
        }
        let foot_inside = a.dot(chord) < 0.0 && b.dot(chord) > 0.0;
        !foot_inside || (a.cross(b).abs() / length - radius).abs() <= within
    })
}

#[cfg(test)]
mod tests {
    use std::f64::consts::TAU;

    use super::*;
    use crate::diagram::{Site, SiteKind, Wall};

    fn piece(from: Point, to: Point, centre: Option<Point>) -> OffsetPiece {
        OffsetPiece {
            from,
            to,
            centre,
            site: Site {
                wall: Wall::Letter,
                ring: 0,
                index: 0,
                kind: SiteKind::Segment,
            },
        }
    }

    fn chain(points: &[Point]) -> Vec<OffsetPiece> {
        points
            .windows(2)
            .map(|pair| piece(pair[0], pair[1], None))
            .collect()
    }

    /// Distance from a point to a polygon line, by trying every chord.
    fn distance(point: Point, line: &[Point]) -> f64 {
        line.windows(2)
            .map(|pair| {
                let (arm, chord) = (point - pair[0], pair[1] - pair[0]);
                let part = (arm.dot(chord) / chord.hypot2().max(1e-300)).clamp(0.0, 1.0);
                (arm - chord * part).hypot()
            })
            .fold(f64::INFINITY, f64::min)
    }

    /// The furthest that two curves are from one another, sampled at thousands of places.
    fn deviation(chain: &[Point], path: &ArcPath, sagitta: f64) -> f64 {
        let fine = path.points(sagitta);
        let one = fine.iter().map(|&point| distance(point, chain));
        let samples = chain
            .windows(2)
            .flat_map(|pair| (0..4).map(move |part| pair[0].lerp(pair[1], f64::from(part) / 4.0)));
        let other = samples.map(|point| distance(point, &fine));
        one.chain(other).fold(0.0, f64::max)
    }

    fn egg(count: usize) -> Vec<Point> {
        let mut points: Vec<Point> = (0..count)
            .map(|number| {
                let t = TAU * number as f64 / count as f64;
                Point::new(
                    20.0 * t.cos() + 0.7 * (5.0 * t).cos(),
                    13.0 * t.sin() + 0.4 * (3.0 * t).sin(),
                )
            })
            .collect();
        points.push(points[0]);
        points
    }

    #[test]
    fn fitted_curves_keep_within_the_tolerance_over_three_decades() {
        let points = egg(900);
        let chain = chain(&points);
        for tolerance in [0.1, 0.02, 0.005, 0.001, 0.0002] {
            let path = fit(&chain, tolerance);
            let found = deviation(&points, &path, tolerance * 0.02);
            assert!(found < tolerance * 0.98, "{found} at {tolerance}");
            assert!(path.is_closed());
            assert!(
                path.steps.len() < 250,
                "{} at {tolerance}",
                path.steps.len()
            );
        }
    }

    #[test]
    fn a_circle_of_many_pieces_becomes_a_few_arcs_of_its_radius() {
        let centre = Point::new(3.0, -2.0);
        let points: Vec<Point> = (0..=360)
            .map(|degree| {
                let t = -f64::from(degree % 360).to_radians();
                centre + Vec2::new(t.cos(), t.sin()) * 5.0
            })
            .collect();
        let pieces: Vec<OffsetPiece> = points
            .windows(2)
            .map(|pair| piece(pair[0], pair[1], Some(centre)))
            .collect();
        let path = fit(&pieces, 0.003);
        assert!(path.steps.len() <= 4, "{} steps", path.steps.len());
        for (from, step) in path.from_and_steps() {
            let ArcStep::Arc {
                centre: found,
                turn,
                ..
            } = *step
            else {
                panic!("a line on a circle");
            };
            assert!((from.distance(found) - 5.0).abs() < 0.003);
            assert_eq!(turn, Turn::Right);
        }
    }

    #[test]
    fn corners_and_straight_edges_stay_as_they_are() {
        let points = [(0.0, 0.0), (4.0, 0.0), (8.0, 0.0), (8.0, 5.0), (1.0, 5.0)]
            .map(Point::from)
            .to_vec();
        let path = fit(&chain(&points), 0.01);
        let ends: Vec<Point> = path.steps.iter().map(ArcStep::to).collect();
        assert_eq!(ends, [points[2], points[3], points[4]]);
        assert!(!path.is_closed());
    }

    #[test]
    fn a_noisy_chain_with_points_on_top_of_one_another_is_fitted_all_the_same() {
        let mut points = Vec::new();
        for (number, point) in egg(700).into_iter().enumerate() {
            let noise = Vec2::new((number * 7919 % 13) as f64, (number * 104_729 % 11) as f64);
            points.push(point + noise * 1e-5);
            if number % 5 == 0 {
                points.push(*points.last().expect("one was pushed just now"));
            }
        }
        let last = points.len() - 1;
        points[last] = points[0];
        let path = fit(&chain(&points), 0.003);
        assert!(deviation(&points, &path, 1e-5) < 0.003);
        assert!(path.steps.len() < 120, "{}", path.steps.len());
    }

    #[test]
    fn nothing_gives_nothing_and_one_piece_gives_itself() {
        assert!(fit(&[], 0.01).steps.is_empty());
        let one = fit(&chain(&[Point::ZERO, Point::new(1.0, 0.0)]), 0.01);
        assert_eq!(one, ArcPath::line(Point::ZERO, Point::new(1.0, 0.0)));
    }
}
