//! Random outlines, round which the cutter has to stay its radius away.

use std::f64::consts::TAU;
use std::fmt::Write as _;

use kurbo::{Line, ParamCurveNearest, Vec2};
use proptest::prelude::*;

use super::compensation::{led, length_mm};
use super::*;

/// A convex outline, anticlockwise: places of an ellipse at random angles.
fn outlines() -> impl Strategy<Value = Vec<Point>> {
    let steps = prop::collection::vec(0.05_f64..1.0, 3..12);
    (steps, 5.0_f64..60.0, 5.0_f64..60.0, 0.0..TAU).prop_map(|(steps, wide, high, first)| {
        let all: f64 = steps.iter().sum();
        let mut angle = first;
        let mut places = Vec::new();
        for step in steps {
            places.push(Point::new(wide * angle.cos(), high * angle.sin()));
            angle += step / all * TAU;
        }
        places
    })
}

/// A program that goes once round an outline from the middle of its first side, with its cutter outside.
fn round(outline: &[Point], anticlockwise: bool) -> String {
    let mut places = outline.to_vec();
    if !anticlockwise {
        places.reverse();
    }
    let (first, second) = (places[0], places[1]);
    let along = (second - first).normalize();
    let middle = first.midpoint(second);
    let outside = if anticlockwise {
        Vec2::new(along.y, -along.x)
    } else {
        Vec2::new(-along.y, along.x)
    };
    // So that the entry leads along the first side.
    let start = middle - along * 4.0 + outside * 3.0;
    let code = if anticlockwise { "G42" } else { "G41" };
    let mut text = format!(
        "F100 G0 X{:.12} Y{:.12}\n{code} D1 G1 X{:.12} Y{:.12}\n",
        start.x, start.y, middle.x, middle.y
    );
    for place in places.iter().skip(1).chain([&places[0], &middle]) {
        writeln!(text, "X{:.12} Y{:.12}", place.x, place.y).expect("a String takes text");
    }
    text
}

/// Places of a motion, ends included.
fn places_of(motion: &ReadMotion) -> impl Iterator<Item = Point> {
    let (motion, steps) = (*motion, 40_u32);
    (0..=steps).map(move |step| motion.xy_at(f64::from(step) / f64::from(steps)))
}

proptest! {
    #![proptest_config(cases(300))]
    #[test]
    fn round_convex_outlines_the_cutter_stays_its_radius_away(
        outline in outlines(),
        anticlockwise in any::<bool>(),
    ) {
        let replay = led(&round(&outline, anticlockwise));
        let sides: Vec<Line> = outline
            .iter()
            .zip(outline.iter().cycle().skip(1))
            .map(|(a, b)| Line::new(*a, *b))
            .collect();
        // Turns of less than 0.01 are passed without an arc, so the cutter comes nearer by 3 * 0.01^2 / 2.
        let within = 2e-4;
        for motion in &replay.motions[2..] {
            for place in places_of(motion) {
                let nearest = sides.iter().map(|side| side.nearest(place, 1e-12).distance_sq.sqrt());
                let nearest = nearest.fold(f64::INFINITY, f64::min);
                prop_assert!((nearest - 3.0).abs() < within, "{nearest} at {place:?}");
            }
        }
        // The length of a parallel curve of a convex outline: its own and that of the circle (J. Steiner 1840, textbook).
        let own: f64 = sides.iter().map(|side| (side.p1 - side.p0).hypot()).sum();
        let wanted = own + 3.0 * TAU;
        let found = length_mm(&replay.motions[2..]);
        prop_assert!((found - wanted).abs() < 0.002, "{found}, expected {wanted}");
    }
}
