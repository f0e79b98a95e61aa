//! How many arcs a smooth curve takes, against the least that theory allows.
//!
//! # Source
//! D. S. Meek, D. J. Walton, "Approximating smooth planar curves by arc splines", Journal of Computational and Applied
//! Mathematics 59, 1995 (from memory): a biarc over a stretch h of a curve whose curvature changes by k' keeps within
//! |k'| h³ / 324 of it, to first order, so that the best spline of biarcs within ε has 2·∫ (|k'| / (324 ε))^(1/3) ds arcs.

use std::f64::consts::TAU;

use kurbo::{Affine, BezPath, ParamCurve, PathSeg, Point, Vec2};

use super::{chain, deviation, egg};
use crate::arc_path::fit;
use crate::font::Font;

/// The part of the theory's least number that a fit may take.
const MOST_OF_LEAST: f64 = 1.2;

/// Places that a curve is sampled at, for the fit and for the theory.
const PLACES: usize = 6000;

/// The theory's least number of arcs within `band` at one side of a curve given by its points.
///
/// Curvature and its change are taken from the turning between neighbouring chords.
fn least_arcs(points: &[Point], band: f64) -> f64 {
    let chords: Vec<Vec2> = points.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let curvatures: Vec<f64> = chords
        .windows(2)
        .map(|pair| {
            let turn = pair[0].cross(pair[1]).atan2(pair[0].dot(pair[1]));
            2.0 * turn / (pair[0].hypot() + pair[1].hypot())
        })
        .collect();
    let cubed: f64 = curvatures
        .windows(2)
        .zip(&chords[1..])
        .map(|(pair, chord)| {
            let length = chord.hypot();
            ((pair[1] - pair[0]).abs() / length / (324.0 * band)).cbrt() * length
        })
        .sum();
    2.0 * cubed
}

fn sampled(places: usize, from: f64, to: f64, at: impl Fn(f64) -> (f64, f64)) -> Vec<Point> {
    (0..=places)
        .map(|number| at(from + (to - from) * number as f64 / places as f64))
        .map(|(x, y)| Point::new(x, y))
        .collect()
}

fn closed(mut points: Vec<Point>) -> Vec<Point> {
    let last = points.len() - 1;
    points[last] = points[0];
    points
}

/// Smooth curves without a corner: ellipses, spirals, superellipses, an egg.
fn smooth_curves() -> Vec<(&'static str, Vec<Point>)> {
    let superellipse = |exponent: f64| {
        move |t: f64| {
            let power = |value: f64| value.signum() * value.abs().powf(2.0 / exponent);
            (15.0 * power(t.cos()), 11.0 * power(t.sin()))
        }
    };
    vec![
        (
            "ellipse 20 × 13",
            closed(sampled(PLACES, 0.0, TAU, |t| {
                (20.0 * t.cos(), 13.0 * t.sin())
            })),
        ),
        (
            "ellipse 30 × 5",
            closed(sampled(PLACES, 0.0, TAU, |t| {
                (30.0 * t.cos(), 5.0 * t.sin())
            })),
        ),
        (
            "ellipse 10 × 9",
            closed(sampled(PLACES, 0.0, TAU, |t| {
                (10.0 * t.cos(), 9.0 * t.sin())
            })),
        ),
        (
            "spiral of even turns",
            sampled(PLACES, 1.0, 12.0, |t| {
                (1.5 * t * t.cos(), 1.5 * t * t.sin())
            }),
        ),
        (
            "spiral of even growth",
            sampled(PLACES, 0.0, 9.0, |t| {
                let radius = 2.0 * (0.25 * t).exp();
                (radius * t.cos(), radius * t.sin())
            }),
        ),
        (
            "superellipse of 2.5",
            sampled(PLACES, 0.02, TAU / 4.0 - 0.02, superellipse(2.5)),
        ),
        (
            "superellipse of 4",
            sampled(PLACES, 0.1, TAU / 4.0 - 0.1, superellipse(4.0)),
        ),
        (
            "egg",
            closed(sampled(PLACES, 0.0, TAU, |t| {
                (
                    20.0 * t.cos() + 0.7 * (3.0 * t).cos(),
                    13.0 * t.sin() + 0.4 * (2.0 * t).sin(),
                )
            })),
        ),
    ]
}

/// The number of arcs allowed; a fit that stays within `tolerance` at both sides of a curve is one that stays within twice
/// that at one side of the curve moved sideways.
fn allowed(points: &[Point], tolerance: f64) -> f64 {
    (MOST_OF_LEAST * least_arcs(points, 2.0 * tolerance)).ceil()
}

const TOLERANCES: [f64; 5] = [0.02, 0.01, 0.005, 0.002, 0.0005];

#[test]
fn smooth_curves_take_hardly_more_arcs_than_theory_allows() {
    for (name, points) in smooth_curves() {
        for tolerance in TOLERANCES {
            let path = fit(&chain(&points), tolerance);
            let allowed = allowed(&points, tolerance);
            assert!(
                path.steps.len() as f64 <= allowed,
                "{name} within {tolerance}: {} steps, allowed {allowed}",
                path.steps.len()
            );
        }
    }
}

#[test]
fn few_arcs_are_not_bought_with_distance() {
    for (name, points) in smooth_curves() {
        let points: Vec<Point> = points.into_iter().step_by(4).collect();
        for tolerance in [0.02, 0.005] {
            let path = fit(&chain(&points), tolerance);
            let found = deviation(&points, &path, tolerance * 0.02);
            assert!(
                found <= tolerance,
                "{name} within {tolerance}: {found} away"
            );
        }
    }
}

/// Outlines of round letters: of every drawn curve the theory's least number, and one more for its own beginning, since
/// curvature may jump where two drawn curves meet.
#[test]
fn drawn_letters_take_hardly_more_arcs_than_theory_allows() {
    let font = Font::parse(
        epaint_default_fonts::UBUNTU_LIGHT,
        0,
        &std::collections::BTreeMap::new(),
    )
    .expect("the font is sound");
    let scale = Affine::scale(42.0 / font.units_per_em());
    for character in "SOCGea&8gQ@".chars() {
        let glyph = font.glyph_for(character).expect("the font has letters");
        let drawn = scale * font.outline(glyph).expect("the letter is drawn");
        for tolerance in TOLERANCES {
            let mut steps = 0;
            let mut allowed = 0.0;
            for contour in contours(&drawn) {
                let mut points = vec![contour[0].start()];
                for segment in &contour {
                    let places = PLACES / 40;
                    let own: Vec<Point> = (0..=places)
                        .map(|place| segment.eval(place as f64 / places as f64))
                        .collect();
                    allowed += MOST_OF_LEAST * least_arcs(&own, 2.0 * tolerance) + 1.0;
                    points.extend(&own[1..]);
                }
                steps += fit(&chain(&closed(points)), tolerance).steps.len();
            }
            assert!(
                steps as f64 <= allowed,
                "{character} within {tolerance}: {steps} steps, allowed {allowed:.1}"
            );
        }
    }
}

/// The drawn segments of each closed contour, closing lines included.
fn contours(drawn: &BezPath) -> Vec<Vec<PathSeg>> {
    let mut found: Vec<Vec<PathSeg>> = Vec::new();
    for segment in drawn.segments() {
        let goes_on = found
            .last()
            .and_then(|contour| contour.last())
            .is_some_and(|last| last.end() == segment.start());
        match found.last_mut() {
            Some(contour) if goes_on => contour.push(segment),
            Some(_) | None => found.push(vec![segment]),
        }
    }
    found
}

/// Points closer together than the tolerance tell a fit as much as points further apart.
#[test]
fn dense_points_do_not_make_more_steps() {
    for tolerance in [0.1, 0.02] {
        let coarse = fit(&chain(&egg(700)), tolerance).steps.len();
        let dense = fit(&chain(&egg(70_000)), tolerance).steps.len();
        assert!(
            dense <= coarse,
            "{dense} steps of dense points, {coarse} of coarse"
        );
    }
}
