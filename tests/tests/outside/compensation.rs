//! Cutter radius compensation against a library's parallel curves, which keep lines and arcs as such.
//!
//! # Source
//! Crate `cavalier_contours` 0.9.0 (crates.io, MIT or Apache-2.0). What is refused, and how corners are passed: NISTIR 6556 (2000) §3.5.10
//! and appendix B, from memory.

use std::fmt::Write as _;

use cavalier_contours::core::math::Vector2;
use cavalier_contours::polyline::{PlineSource, PlineSourceMut, Polyline};
use geometry::arc_path::Turn;
use kurbo::{Point, Vec2};
use reader::{CutterTable, ReadCourse, ReadMotion, read_with};

/// How far the two may differ in place, mm, and in length, mm, and in area, mm²: both work in doubles, on programs of nine decimals.
const WITHIN: f64 = 1e-6;

/// A closed outline, anticlockwise: places, and the bulge of the side after each, the tangent of a quarter of its angle, above 0 to the left.
/// The first side is straight.
type Outline = &'static [(f64, f64, f64)];

const PLATE: Outline = &[
    (0.0, 0.0, 0.0),
    (30.0, 0.0, 0.0),
    (30.0, 20.0, 0.0),
    (0.0, 20.0, 0.0),
];

/// Two sides with half circles at their ends.
const SLOT: Outline = &[
    (0.0, 0.0, 0.0),
    (30.0, 0.0, 1.0),
    (30.0, 20.0, 0.0),
    (0.0, 20.0, 1.0),
];

/// Round corners of 8 mm.
const CUSHION: Outline = &[
    (8.0, 0.0, 0.0),
    (32.0, 0.0, QUARTER),
    (40.0, 8.0, 0.0),
    (40.0, 22.0, QUARTER),
    (32.0, 30.0, 0.0),
    (8.0, 30.0, QUARTER),
    (0.0, 22.0, 0.0),
    (0.0, 8.0, QUARTER),
];

/// A bite of about 10 mm radius out of its right side, and a bow on its left.
const BITTEN: Outline = &[
    (0.0, 0.0, 0.0),
    (40.0, 0.0, 0.0),
    (40.0, 7.0, -0.5),
    (40.0, 23.0, 0.0),
    (40.0, 30.0, 0.0),
    (0.0, 30.0, 0.3),
];

/// The tangent of a quarter of a right angle.
const QUARTER: f64 = 0.414_213_562_373_095;

fn polyline(outline: &[(f64, f64, f64)]) -> Polyline<f64> {
    let mut polyline = Polyline::new_closed();
    outline
        .iter()
        .for_each(|&(x, y, bulge)| polyline.add(x, y, bulge));
    polyline
}

/// The other way round, beginning with the same side.
fn turned_round(outline: &[(f64, f64, f64)]) -> Vec<(f64, f64, f64)> {
    let count = outline.len();
    (0..count)
        .map(|index| {
            let (x, y, _) = outline[(count + 1 - index) % count];
            let (_, _, bulge) = outline[(count - index) % count];
            (x, y, -bulge)
        })
        .collect()
}

/// A program that goes once round from the middle of the first side, entered along that side.
fn round(outline: &[(f64, f64, f64)], code: &str, radius_mm: f64) -> String {
    let place = |index: usize| {
        let (x, y, _) = outline[index % outline.len()];
        Point::new(x, y)
    };
    let middle = place(0).midpoint(place(1));
    let along = (place(1) - place(0)).normalize();
    let left = Vec2::new(-along.y, along.x);
    let aside = if code == "G41" { left } else { -left };
    let start = middle + (aside - along * (4.0 / 3.0)) * radius_mm;
    let mut text = format!(
        "G21 G17 F500 G0 X{:.9} Y{:.9}\n{code} D5 G1 X{:.9} Y{:.9}\nX{:.9} Y{:.9}\n",
        start.x,
        start.y,
        middle.x,
        middle.y,
        place(1).x,
        place(1).y
    );
    for (index, &(_, _, bulge)) in outline.iter().enumerate().skip(1) {
        let (from, to) = (place(index), place(index + 1));
        let words = if bulge == 0.0 {
            "G1".to_owned()
        } else {
            let chord = to - from;
            let offset = chord / 2.0
                + Vec2::new(-chord.y, chord.x) * ((1.0 - bulge * bulge) / (4.0 * bulge));
            let code = if bulge > 0.0 { "G3" } else { "G2" };
            format!("{code} I{:.9} J{:.9}", offset.x, offset.y)
        };
        writeln!(text, "{words} X{:.9} Y{:.9}", to.x, to.y).expect("a String takes text");
    }
    write!(text, "G1 X{:.9} Y{:.9}\nM2\n", middle.x, middle.y).expect("a String takes text");
    text
}

/// The angle of an arc, above 0 to the left; 0 for straight motions.
fn turned(motion: &ReadMotion) -> (Point, f64) {
    match motion.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => (Point::ZERO, 0.0),
        ReadCourse::Arc {
            centre,
            turn,
            sweep,
            ..
        } => match turn {
            Turn::Left => (centre, sweep),
            Turn::Right => (centre, -sweep),
        },
    }
}

/// What a motion adds to twice the area within a closed way, mm² (Green's theorem).
fn twice_the_area(motion: &ReadMotion) -> f64 {
    let (from, to) = (motion.from.xy.to_vec2(), motion.to.xy.to_vec2());
    match turned(motion) {
        (_, 0.0) => from.cross(to),
        (centre, angle) => {
            let centre = centre.to_vec2();
            centre.cross(to - from) + (from - centre).hypot2() * angle
        }
    }
}

/// The middle of a motion.
fn middle(motion: &ReadMotion) -> Point {
    match turned(motion) {
        (_, 0.0) => motion.from.xy.midpoint(motion.to.xy),
        (centre, angle) => {
            let (sin, cos) = (angle / 2.0).sin_cos();
            let arm = motion.from.xy - centre;
            centre + Vec2::new(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos)
        }
    }
}

/// The cutter's way, compensated by the reader, against the library's parallel curve on the same side.
#[track_caller]
fn check_beside(outline: &[(f64, f64, f64)], code: &str, radius_mm: f64) {
    let mut cutters = CutterTable::default();
    cutters.tell(5, 2.0 * radius_mm).expect("a cutter");
    let text = round(outline, code, radius_mm);
    let replay = read_with(&text, &cutters).unwrap_or_else(|error| panic!("{error}\n{text}"));
    let way = &replay.motions[2..];
    let aside = if code == "G41" { radius_mm } else { -radius_mm };
    let curves = polyline(outline).parallel_offset(aside);
    let [curve] = &curves[..] else {
        panic!("{} curves", curves.len())
    };
    let length: f64 = way.iter().map(ReadMotion::length_mm).sum();
    assert!(
        (length - curve.path_length()).abs() < WITHIN,
        "{length}\n{text}"
    );
    let area: f64 = way.iter().map(twice_the_area).sum::<f64>() / 2.0;
    assert!((area - curve.area()).abs() < WITHIN, "{area}\n{text}");
    for motion in way {
        for place in [motion.from.xy, middle(motion), motion.to.xy] {
            let nearest = curve.closest_point(Vector2::new(place.x, place.y), 1e-9);
            let nearest = nearest.expect("a curve has places").distance;
            assert!(nearest < WITHIN, "{place:?} lies {nearest} off\n{text}");
        }
    }
}

#[test]
fn outside_and_inside_the_way_is_the_parallel_curve() {
    for radius_mm in [0.4, 1.5, 3.0] {
        for outline in [PLATE, SLOT, CUSHION, BITTEN] {
            check_beside(outline, "G42", radius_mm);
            check_beside(&turned_round(outline), "G41", radius_mm);
        }
        for outline in [SLOT, CUSHION] {
            check_beside(outline, "G41", radius_mm);
            check_beside(&turned_round(outline), "G42", radius_mm);
        }
    }
}

#[test]
fn inner_corners_are_refused() {
    let mut cutters = CutterTable::default();
    cutters.tell(5, 6.0).expect("a cutter");
    for outline in [PLATE, BITTEN] {
        for (outline, code) in [(outline.to_vec(), "G41"), (turned_round(outline), "G42")] {
            let text = round(&outline, code, 3.0);
            let error = read_with(&text, &cutters).expect_err("an inner corner");
            assert!(error.to_string().contains("inner corner"), "{error}");
        }
    }
    // A cutter as large as the corners does not fit into them.
    cutters.tell(6, 16.0).expect("a cutter");
    let text = round(CUSHION, "G41", 8.0).replace("D5", "D6");
    let error = read_with(&text, &cutters).expect_err("it does not fit");
    assert!(error.to_string().contains("inside this arc"), "{error}");
}
