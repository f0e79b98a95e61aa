use std::f64::consts::PI;

use super::*;
use crate::boolean::{symmetric_difference, union};
use crate::region::region_from_outline;
use crate::samples::{glyphs, polygon, rectangle as ring_of};

const TOLERANCE: f64 = 0.0005;
/// Corners of the polygons that stand for discs: they lack 1.3·10⁻⁵ of the disc's area.
const CORNERS: u32 = 720;

fn square(side: f64) -> Region {
    Region::from_ring(&ring_of(0.0, 0.0, side, side))
}

fn disc(radius: f64) -> Region {
    Region::from_ring(&polygon((3.0, -2.0), radius, CORNERS))
}

fn ring(outer: f64, inner: f64) -> Region {
    difference(&disc(outer), &disc(inner))
}

fn assert_area(region: &Region, wanted: f64, what: &str) {
    let found = region.area();
    assert!(
        (found - wanted).abs() < 1e-3 * wanted.max(1.0),
        "{what}: {found} is not {wanted}"
    );
}

#[test]
fn squares_and_discs_grow_and_shrink_by_their_closed_forms() {
    for distance in [0.01, 0.25, 1.0, 3.0] {
        let grow = |region: &Region| grown(region, distance, TOLERANCE).expect("a sound diagram");
        let shrink =
            |region: &Region| shrunk(region, distance, TOLERANCE).expect("a sound diagram");
        let side = 10.0;
        let larger = side * side + 4.0 * side * distance + PI * distance * distance;
        assert_area(&grow(&square(side)), larger, "a grown square");
        assert_area(
            &shrink(&square(side)),
            (side - 2.0 * distance).powi(2),
            "a shrunk square",
        );
        let area = |radius: f64| PI * radius * radius;
        assert_area(&grow(&disc(5.0)), area(5.0 + distance), "a grown disc");
        assert_area(&shrink(&disc(5.0)), area(5.0 - distance), "a shrunk disc");
        let counter = (2.0 - distance).max(0.0);
        assert_area(
            &grow(&ring(5.0, 2.0)),
            area(5.0 + distance) - area(counter),
            "a grown ring",
        );
        let left = if distance < 1.5 {
            area(5.0 - distance) - area(2.0 + distance)
        } else {
            0.0
        };
        assert_area(&shrink(&ring(5.0, 2.0)), left, "a shrunk ring");
    }
}

#[test]
fn nothing_and_no_distance_change_nothing() {
    let empty = Region::default();
    assert_eq!(grown(&empty, 1.0, TOLERANCE), Ok(empty.clone()));
    assert_eq!(shrunk(&empty, 1.0, TOLERANCE), Ok(empty.clone()));
    assert!(swept(&empty, Vec2::new(1.0, 1.0)).is_empty());
    assert!(drawn(&empty, TOLERANCE).is_empty());
    for distance in [0.0, -1.0, f64::NAN] {
        assert_eq!(grown(&square(4.0), distance, TOLERANCE), Ok(square(4.0)));
        assert_eq!(shrunk(&square(4.0), distance, TOLERANCE), Ok(square(4.0)));
    }
    assert_area(&swept(&square(4.0), Vec2::ZERO), 16.0, "a square at rest");
}

#[test]
fn a_region_shrunk_to_nothing_is_empty() {
    for distance in [2.0 + 1e-3, 2.5, 100.0] {
        let left = shrunk(&square(4.0), distance, TOLERANCE).expect("a sound diagram");
        assert!(left.is_empty(), "{distance}: {left:?}");
    }
}

#[test]
fn what_is_swept_has_the_area_of_its_closed_form() {
    for (x, y) in [
        (3.0, 0.0),
        (0.0, -2.0),
        (1.5, 2.5),
        (-2.0, 1.0),
        (-30.0, -7.0),
    ] {
        let by = Vec2::new(x, y);
        let side = 4.0;
        assert_area(
            &swept(&square(side), by),
            side * side + side * (x.abs() + y.abs()),
            "a swept square",
        );
        let disc_area = PI * 9.0;
        assert_area(
            &swept(&disc(3.0), by),
            disc_area + 6.0 * by.hypot(),
            "a swept disc",
        );
    }
    // A ring keeps of its counter what lies within both of the counter's places: a lens.
    let (outer, inner, far) = (5.0_f64, 2.0_f64, 1.0_f64);
    let lens = 2.0 * inner * inner * (far / (2.0 * inner)).acos()
        - far / 2.0 * (4.0 * inner * inner - far * far).sqrt();
    assert_area(
        &swept(&ring(outer, inner), Vec2::new(far, 0.0)),
        PI * outer * outer + 2.0 * outer * far - lens,
        "a swept ring",
    );
}

#[test]
fn slivers_fall_away_and_corners_stay() {
    let sliver = Region::from_ring(&ring_of(10.0, 0.0, 10.004, 8.0));
    let square = square(5.0);
    let kept = without_slivers(&union(&square, &sliver), 0.01, TOLERANCE).expect("a sound diagram");
    assert!(
        symmetric_difference(&kept, &square).area() < 1e-6,
        "{kept:?}"
    );
    // A barb of a twentieth of a millimetre on a square's side, a hair wide.
    let barb = Region::from_ring(&ring_of(5.0, 2.0, 5.05, 2.004));
    let kept = without_slivers(&union(&square, &barb), 0.01, TOLERANCE).expect("a sound diagram");
    assert!(
        symmetric_difference(&kept, &square).area() < 1e-4,
        "{kept:?}"
    );
}

#[test]
fn letters_drawn_anew_lie_within_the_tolerance_and_have_fewer_points() {
    for (name, letter) in glyphs("SOA&g8", 0.0005) {
        let path = drawn(&letter, 0.001);
        let again = region_from_outline(&path, 0.0005).expect("an outline");
        let apart = symmetric_difference(&letter, &again).area();
        let around = letter.perimeter();
        assert!(apart < 0.0015 * around, "{name}: {apart} over {around}");
        let count = |region: &Region| region.rings().map(Vec::len).sum::<usize>();
        assert!(count(&again) <= count(&letter) + 8, "{name}");
    }
}

#[test]
fn growing_letters_keeps_every_place_within_the_distance() {
    for (name, letter) in glyphs("Rk&", 0.001) {
        let distance = 0.6;
        let larger = grown(&letter, distance, TOLERANCE).expect("a sound diagram");
        assert!(difference(&letter, &larger).area() < 1e-6, "{name}");
        let index = crate::distance::WallIndex::new(letter.rings());
        for place in larger.rings().flatten() {
            let off = index.nearest(*place);
            assert!((off - distance).abs() < 0.001, "{name}: {off}");
        }
        let back = shrunk(&larger, distance, TOLERANCE).expect("a sound diagram");
        assert!(difference(&letter, &back).area() < 0.05, "{name}");
    }
}
