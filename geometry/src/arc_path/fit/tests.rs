mod counts;

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
