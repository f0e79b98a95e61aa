use std::f64::consts::TAU;

use kurbo::Vec2;

use super::*;

fn ring(points: &[(f64, f64)]) -> Ring {
    points.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

/// Rings with long and short segments: a wavy outline in a square one.
fn wavy() -> Vec<Ring> {
    let wave = (0..300)
        .map(|step| {
            let angle = TAU * f64::from(step) / 300.0;
            Point::new(20.0, 15.0) + Vec2::from_angle(angle) * (8.0 + 2.0 * (7.0 * angle).sin())
        })
        .rev()
        .collect();
    vec![
        ring(&[(0.0, 0.0), (42.0, -3.0), (44.0, 33.0), (-2.0, 31.0)]),
        wave,
    ]
}

/// Places that fill a box unevenly, always the same.
fn places(count: u32) -> impl Iterator<Item = Point> {
    (1..=count).map(|n| {
        let part = |base: f64| (f64::from(n) * base).fract();
        Point::new(
            60.0 * part(0.754_877_666) - 8.0,
            50.0 * part(0.569_840_291) - 8.0,
        )
    })
}

fn segments(rings: &[Ring]) -> Vec<(Point, Point)> {
    rings
        .iter()
        .flat_map(|ring| (0..ring.len()).map(move |i| (ring[i], ring[(i + 1) % ring.len()])))
        .collect()
}

fn from_segment((a, b): (Point, Point), place: Point) -> f64 {
    let way = b - a;
    let part = ((place - a).dot(way) / way.hypot2()).clamp(0.0, 1.0);
    (a + way * part).distance(place)
}

fn brute(rings: &[Ring], place: Point) -> f64 {
    segments(rings)
        .into_iter()
        .map(|segment| from_segment(segment, place))
        .fold(f64::INFINITY, f64::min)
}

#[test]
fn distances_of_places_are_those_of_all_segments_tried() {
    let rings = wavy();
    let index = WallIndex::new(&rings);
    for place in places(3000) {
        let (found, wanted) = (index.nearest(place), brute(&rings, place));
        assert!((found - wanted).abs() < 1e-12, "{place}: {found} {wanted}");
        for distance in [-1.0, 0.0, 0.01, 0.5, 3.0] {
            let near = index.nearest(place) < distance;
            assert_eq!(index.comes_within(place, distance), near, "{place}");
        }
        let cut = index.nearest_within(place, 0.5);
        assert!((cut - wanted.min(0.5)).abs() < 1e-12, "{place}: {cut}");
    }
}

#[test]
fn distances_of_lines_and_arcs_are_those_of_their_places() {
    let rings = wavy();
    let index = WallIndex::new(&rings);
    let all: Vec<Point> = places(400).collect();
    for (number, pair) in all.windows(2).enumerate() {
        let (from, to) = (pair[0], from_near(pair[0], pair[1]));
        let sampled = (0..=2000)
            .map(|step| index.nearest(from.lerp(to, f64::from(step) / 2000.0)))
            .fold(f64::INFINITY, f64::min);
        let found = index.nearest_to_line(from, to, 100.0);
        assert!(
            found <= sampled + 1e-12 && found > sampled - 0.002,
            "{found} {sampled}"
        );

        let centre = from.midpoint(to) + Vec2::new(to.y - from.y, from.x - to.x) * 0.3;
        let turn = if number % 2 == 0 {
            Turn::Left
        } else {
            Turn::Right
        };
        let radius = from.distance(centre);
        let to = centre + (to - centre).normalize() * radius;
        let first = (from - centre).atan2();
        let sweep = crate::arc_path::sweep(from, to, centre, turn);
        let sign = if turn == Turn::Left { 1.0 } else { -1.0 };
        let sampled = (0..=4000)
            .map(|step| {
                let angle = first + sign * sweep.abs() * f64::from(step) / 4000.0;
                index.nearest(centre + Vec2::from_angle(angle) * radius)
            })
            .fold(f64::INFINITY, f64::min);
        let found = index.nearest_to_arc(from, to, centre, turn, 100.0);
        assert!(
            found <= sampled + 1e-9 && found > sampled - 0.003,
            "{found} {sampled}"
        );
    }
}

/// Moves are short: a tenth of the way.
fn from_near(from: Point, to: Point) -> Point {
    from.lerp(to, 0.1)
}

#[test]
fn crossings_touch() {
    let index = WallIndex::new(&[ring(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])]);
    let at = Point::new;
    assert_eq!(index.nearest_to_line(at(5.0, 5.0), at(15.0, 6.0), 9.0), 0.0);
    assert_eq!(index.nearest_to_line(at(2.0, 5.0), at(7.0, 5.0), 9.0), 2.0);
    assert_eq!(index.nearest_to_line(at(5.0, 5.0), at(5.0, 5.0), 9.0), 5.0);
    assert_eq!(index.nearest_to_line(at(5.0, 5.0), at(5.0, 5.0), 1.5), 1.5);
    // A circle about the middle, a half circle away from the wall, and one that crosses it.
    let circle = index.nearest_to_arc(at(8.0, 5.0), at(8.0, 5.0), at(5.0, 5.0), Turn::Left, 9.0);
    assert!((circle - 2.0).abs() < 1e-12);
    let away = index.nearest_to_arc(at(7.0, 7.0), at(7.0, 3.0), at(7.0, 5.0), Turn::Left, 9.0);
    assert!((away - 3.0).abs() < 1e-12);
    let toward = index.nearest_to_arc(at(7.0, 7.0), at(7.0, 3.0), at(7.0, 5.0), Turn::Right, 9.0);
    assert!((toward - 1.0).abs() < 1e-12);
    let across = index.nearest_to_arc(at(9.0, 5.0), at(5.0, 9.0), at(5.0, 5.0), Turn::Left, 9.0);
    assert!((across - 1.0).abs() < 1e-12);
    let crossing = index.nearest_to_arc(at(9.0, 4.0), at(9.0, 6.0), at(9.0, 5.0), Turn::Left, 9.0);
    assert!(crossing.abs() < 1e-12);
    let crossing = index.nearest_to_arc(at(9.5, 4.0), at(9.5, 6.0), at(9.5, 5.0), Turn::Left, 9.0);
    assert_eq!(crossing, 0.0);
}

#[test]
fn inside_is_told_by_winding() {
    let rings = wavy();
    let index = WallIndex::new(&rings);
    for place in places(3000) {
        let turns: i32 = rings
            .iter()
            .map(|ring| crate::region::winding(ring, place))
            .sum();
        assert_eq!(index.contains(place), turns != 0, "{place}");
    }
}

#[test]
fn nothing_and_nonsense() {
    let none = WallIndex::new(&[]);
    assert_eq!(none.nearest(Point::ZERO), f64::INFINITY);
    assert_eq!(
        none.nearest_to_line(Point::ZERO, Point::new(1.0, 1.0), 3.0),
        3.0
    );
    assert!(!none.contains(Point::ZERO));
    let index = WallIndex::new(&[ring(&[(1.0, 1.0)]), ring(&[(2.0, 2.0), (2.0, 2.0)])]);
    assert_eq!(index.nearest(Point::new(1.0, 3.0)), 2.0_f64.sqrt());
    assert_eq!(index.nearest(Point::new(f64::NAN, 0.0)), 0.0);
    let flat = WallIndex::new(&[ring(&[(0.0, 1.0), (9.0, 1.0), (4.0, 1.0)])]);
    assert_eq!(flat.nearest(Point::new(4.0, 5.0)), 4.0);
    let wide = WallIndex::new(&[ring(&[(0.0, 0.0), (1e9, 0.0), (1.0, 1e-3)])]);
    assert!(wide.nearest(Point::new(-3.0, 0.0)) > 2.9);
}

/// A disc that grows or shrinks along its way, against discs at many places of it.
#[test]
fn tapering_discs_agree_with_many_discs_along_the_way() {
    let rings = wavy();
    let index = WallIndex::new(&rings);
    let mut places = places(400);
    let mut seen = 0;
    while let (Some(from), Some(to)) = (places.next(), places.next()) {
        // Within a step or two of what a corner's line is long.
        let to = from + (to - from) * 0.1;
        for radii in [[0.0, 0.4], [0.7, 0.1], [0.3, 0.3], [0.0, 9.0]] {
            let told = index.clear_of_taper(from, to, radii, f64::INFINITY);
            let tried = (0..=2000)
                .map(|step| {
                    let part = f64::from(step) / 2000.0;
                    index.nearest(from.lerp(to, part)) - (radii[0] + (radii[1] - radii[0]) * part)
                })
                .fold(f64::INFINITY, f64::min);
            if tried > 0.0 {
                let step = (from.distance(to) + 9.0) / 2000.0;
                assert!(
                    told <= tried + 1e-9 && told >= tried - step,
                    "{told}, {tried}"
                );
                seen += 1;
            } else {
                assert!(told <= 0.0, "{told}, {tried}");
            }
            let near = index.clear_of_taper(from, to, radii, 0.2);
            assert!((near - told.min(0.2)).abs() < 1e-12 || (near <= 0.0 && told <= 0.0));
        }
    }
    assert!(seen > 100, "{seen}");
}
