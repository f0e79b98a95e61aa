use std::f64::consts::PI;

use super::*;
use crate::boolean::{difference, intersection};
use crate::diagram::Wall;
use crate::distance::WallIndex;
use crate::region::{GRID, Ring};
use crate::samples::{glyphs, ground_within, places, polygon, rectangle, ring, room_around};

fn ground_of(diagram: &Diagram) -> Region {
    difference(&Region::from_ring(diagram.room()), diagram.letter())
}

fn left_area(reach: &Reach) -> f64 {
    reach.left.iter().map(|left| left.area).sum()
}

/// Reached and left make up the ground, do not overlap, and nothing reached lies in the letter.
fn check_identity(diagram: &Diagram, radius: f64) -> Reach {
    let ground = ground_of(diagram);
    let reach = diagram.reach(radius);
    let both = reach.reached.area() + left_area(&reach);
    // Feet are rounded to the grid, which tilts the walls beside them by as much.
    let walls = ground.perimeter();
    let slack = walls * GRID / 4.0;
    let missing = ground.area() - both;
    assert!(missing.abs() < slack, "{radius}: {missing} of {slack}");
    assert!(intersection(&reach.reached, diagram.letter()).area() < slack);
    for left in &reach.left {
        assert!(intersection(&left.region, &reach.reached).area() < slack);
        assert!(left.area > 0.0);
    }
    reach
}

/// Ground left inside the rings cut from a plate, the lane around it not counted.
fn left_within(reach: &Reach, inside: &Region) -> f64 {
    reach
        .left
        .iter()
        .map(|left| intersection(&left.region, inside).area())
        .sum()
}

fn triangle(angle: f64) -> Ring {
    let side = 60.0;
    let (sin, cos) = angle.sin_cos();
    ring(&[(0.0, 0.0), (side, 0.0), (side * cos, side * sin)])
}

#[test]
fn a_square_keeps_its_corners() {
    let square = rectangle(0.0, 0.0, 20.0, 20.0);
    let (letter, room) = ground_within(std::slice::from_ref(&square));
    let diagram = Diagram::build(&letter, &room).unwrap();
    for radius in [0.4, 0.75, 1.5, 3.0] {
        let reach = check_identity(&diagram, radius);
        let left = left_within(&reach, &Region::from_ring(&square));
        let wanted = 4.0 * corner_area(radius, PI / 2.0);
        // Chords lie within the sagitta along four quarter arcs.
        let chords = ARC_SAGITTA * 2.0 * PI * radius;
        assert!((left - wanted).abs() < chords, "{radius}: {left} {wanted}");
        let corners: Vec<&Left> = reach
            .left
            .iter()
            .filter(|left| left.stops.len() == 1)
            .collect();
        assert_eq!(corners.len(), 4);
        for corner in corners {
            assert!((corner.depth - corner_gap(radius, PI / 2.0)).abs() < 1e-6);
        }
        assert!(
            (reach.gap(Point::ZERO, radius).unwrap() - corner_gap(radius, PI / 2.0)).abs() < 1e-6
        );
        assert_eq!(reach.gap(Point::new(10.0, 0.0), radius), Some(0.0));
    }
}

#[test]
fn corners_of_triangles_leave_what_the_closed_forms_say() {
    for degrees in (20..=150).step_by(10) {
        let angle = f64::from(degrees).to_radians();
        let cut = triangle(angle);
        let (letter, room) = ground_within(std::slice::from_ref(&cut));
        let diagram = Diagram::build(&letter, &room).unwrap();
        let radius = 1.5;
        let reach = check_identity(&diagram, radius);
        let left = reach
            .left
            .iter()
            .find(|left| {
                left.region
                    .rings()
                    .flatten()
                    .any(|&point| point == Point::ZERO)
            })
            .expect("the corner at the origin is left");
        // Chords lie within the sagitta along the arc.
        let chords = ARC_SAGITTA * radius * (PI - angle) + 1e-4;
        let wanted = corner_area(radius, angle);
        assert!(
            (left.area - wanted).abs() < chords,
            "{degrees}: {} {wanted}",
            left.area
        );
        assert!(
            (left.depth - corner_gap(radius, angle)).abs() < 1e-4,
            "{degrees}"
        );
        for tolerance in [0.01, 0.05, 0.2] {
            let corner = diagram
                .corners(tolerance)
                .into_iter()
                .find(|corner| corner.at == Point::ZERO)
                .expect("the corner is reported");
            assert!(
                (corner.angle - angle).abs() < 1e-5,
                "{degrees}: {}",
                corner.angle.to_degrees()
            );
            let wanted = tolerance / corner_gap(1.0, angle);
            // Until the disc meets the third side.
            if wanted < 6.0 {
                assert!(
                    (corner.largest_radius - wanted).abs() < 2e-5 * wanted.max(1.0),
                    "{degrees}, {tolerance}: {} {wanted}",
                    corner.largest_radius
                );
            }
        }
    }
}

#[test]
fn slots_are_entered_where_they_are_wide_enough() {
    let pocket = rectangle(0.0, 0.0, 10.0, 10.0);
    for (width, entered) in [(2.998, false), (3.0, true), (3.002, true)] {
        let slot = rectangle(10.0, 4.0, 20.0, 4.0 + width);
        let (letter, room) = ground_within(&[pocket.clone(), slot.clone()]);
        let diagram = Diagram::build(&letter, &room).unwrap();
        let reach = check_identity(&diagram, 1.5);
        let in_slot = intersection(
            &reach.reached,
            &Region::from_ring(&rectangle(14.0, 4.0, 20.0, 7.1)),
        );
        let wanted = 6.0 * width - 2.0 * corner_area(1.5, PI / 2.0);
        if entered {
            assert!((in_slot.area() - wanted).abs() < 0.02, "{}", in_slot.area());
        } else {
            assert_eq!(in_slot.area(), 0.0);
        }
    }
}

#[test]
fn necks_are_left_between_rooms() {
    // Two rooms joined by a neck shorter than the disc, so that the disc's places overlap in it.
    let rings = [
        rectangle(0.0, 0.0, 10.0, 10.0),
        rectangle(10.0, 4.5, 10.6, 5.5),
        rectangle(10.6, 0.0, 20.0, 10.0),
    ];
    let (letter, room) = ground_within(&rings);
    let diagram = Diagram::build(&letter, &room).unwrap();
    let reach = check_identity(&diagram, 3.0);
    assert_eq!(
        reach
            .left
            .iter()
            .filter(|left| left.stops.len() == 2)
            .count(),
        1
    );
    let small = check_identity(&diagram, 0.4);
    assert!(small.left.iter().all(|left| left.stops.len() < 2));
}

#[test]
fn round_holes_are_reached_whole_or_not_at_all() {
    for count in [60, 400, 4000] {
        let hole = polygon((0.0, 0.0), 3.0, count);
        let (letter, room) = ground_within(std::slice::from_ref(&hole));
        let diagram = Diagram::build(&letter, &room).unwrap();
        let inside = Region::from_ring(&hole);
        let reach = check_identity(&diagram, 1.0);
        let missed = left_within(&reach, &inside);
        let sagitta = 3.0 * (1.0 - (PI / f64::from(count)).cos());
        assert!(missed < 1e-9 || sagitta > LEAST_DEPTH, "{count}: {missed}");
        let reach = check_identity(&diagram, 3.1);
        assert!((left_within(&reach, &inside) - inside.area()).abs() < 1e-6);
        let whole = reach
            .left
            .iter()
            .find(|left| left.region.contains(Point::ZERO))
            .unwrap();
        assert_eq!(whole.depth, f64::INFINITY);
        assert!(whole.stops.is_empty());
    }
    // A ring of ground about a post, too narrow for the disc: one piece with a counter.
    let (letter, room) = ground_within(&[polygon((0.0, 0.0), 6.0, 300)]);
    let letter = crate::boolean::union(&letter, &Region::from_ring(&polygon((0.0, 0.0), 4.0, 300)));
    let diagram = Diagram::build(&letter, &room).unwrap();
    let reach = check_identity(&diagram, 1.5);
    assert!(
        reach
            .left
            .iter()
            .any(|left| left.region.pieces[0].counters.len() == 1)
    );
    let reach = check_identity(&diagram, 0.9);
    let around = reach.left.iter().map(|left| left.depth).fold(0.0, f64::max);
    assert!(reach.reached.contains(Point::new(5.0, 0.0)) && around > 0.1);
}

#[test]
fn letters_keep_the_identity_and_their_walls() {
    for (name, letter) in glyphs("MagR&8%", 0.001) {
        let diagram = Diagram::build(&letter, &room_around(&letter, 5.0)).unwrap();
        for radius in [3.0, 1.5, 0.75, 0.4] {
            let reach = check_identity(&diagram, radius);
            check_touched(&diagram, &reach, radius, &name);
            check_reached(&diagram, &reach, radius, &name);
        }
    }
}

/// A place is reached where some place of clearance enough for the disc lies within its radius.
fn check_reached(diagram: &Diagram, reach: &Reach, radius: f64, name: &str) {
    let centres: Vec<Ring> = diagram
        .offset(radius)
        .iter()
        .map(|found| crate::arc_path::fit(&found.pieces, 0.0005).points(0.0005))
        .collect();
    let index = WallIndex::new(&centres);
    let edge = WallIndex::new(reach.reached.rings());
    for place in places(diagram.room(), 3000) {
        // Leave out what lies within the chords of the edge.
        if edge.nearest(place) < 5.0 * ARC_SAGITTA {
            continue;
        }
        let wanted = index.contains(place) || index.nearest(place) <= radius;
        assert_eq!(edge.contains(place), wanted, "{name} {radius} {place}");
    }
}

/// Every stretch is touched: a disc beside its middle stays clear of all walls; and untouched wall is not.
fn check_touched(diagram: &Diagram, reach: &Reach, radius: f64, name: &str) {
    let index = WallIndex::new(diagram.letter().rings().chain([diagram.room()]));
    assert_eq!(reach.touched, diagram.touched(radius));
    let mut last = None;
    for stretch in &reach.touched {
        assert!(stretch.from < stretch.to);
        assert!(last < Some(stretch.site) || last == Some(stretch.site));
        last = Some(stretch.site);
        let (from, to) = diagram.segment(stretch.site).unwrap();
        let way = (to - from).normalize();
        let left = kurbo::Vec2::new(-way.y, way.x);
        let ground_side = match stretch.site.wall {
            Wall::Letter => -left,
            Wall::Room => left,
        };
        let wall = from.lerp(to, f64::midpoint(stretch.from, stretch.to));
        let centre = wall + ground_side * radius;
        let clear = index.nearest(centre);
        // Wall passed within the least depth d counts as touched: at a joint that turns by θ, d is r·θ²/8, and a disc that
        // touched the joint itself would cut in by r·θ²/2.
        assert!(
            clear > radius - 4.5 * LEAST_DEPTH,
            "{name} {radius}: {clear} at {wall}"
        );
    }
}

#[test]
fn roundings_of_flattened_curves_are_judged_as_one_corner() {
    // A square hole with corners rounded by 0.3 mm, of many chords.
    let mut hole = Ring::new();
    for (corner, first) in [
        ((9.7, 9.7), 0.0),
        ((0.3, 9.7), 0.5),
        ((0.3, 0.3), 1.0),
        ((9.7, 0.3), 1.5),
    ] {
        for step in 0..=20 {
            let angle = PI * (first + 0.5 * f64::from(step) / 20.0);
            hole.push(Point::from(corner) + kurbo::Vec2::from_angle(angle) * 0.3);
        }
    }
    let (letter, room) = ground_within(&[hole]);
    let diagram = Diagram::build(&letter, &room).unwrap();
    let corners = diagram.corners(0.02);
    assert_eq!(corners.len(), 4, "{corners:?}");
    for corner in corners {
        assert!((corner.angle.to_degrees() - 90.0).abs() < 5.0, "{corner:?}");
        // The gap is (r − 0.3)(√2 − 1).
        let wanted = 0.3 + 0.02 / (2.0_f64.sqrt() - 1.0);
        assert!(
            (corner.largest_radius - wanted).abs() < 0.005,
            "{corner:?} {wanted}"
        );
    }
}

#[test]
fn smooth_curves_are_no_corners_for_smaller_cutters() {
    let (letter, room) = ground_within(&[polygon((0.0, 0.0), 10.0, 300)]);
    let diagram = Diagram::build(&letter, &room).unwrap();
    for corner in diagram.corners(0.05) {
        assert!(corner.largest_radius > 9.0, "{corner:?}");
    }
    // The crotch between two arcs is reported at the angle of the tangents: circles of 5 mm whose centres are 8 mm apart
    // cross 3 mm off the line of centres, where each tangent leans out by 3 in 4.
    let two = [
        polygon((-4.0, 0.0), 5.0, 480),
        polygon((4.0, 0.0), 5.0, 480),
    ];
    let wood = crate::boolean::union_all(&two.map(|ring| Region::from_ring(&ring)));
    let diagram = Diagram::build(&wood, &room_around(&wood, 4.0)).unwrap();
    let corners = diagram.corners(0.05);
    assert_eq!(corners.len(), 2, "{corners:?}");
    for corner in corners {
        assert!((corner.at.y.abs() - 3.0).abs() < 0.01);
        let wanted = 2.0 * (3.0_f64 / 4.0).atan();
        assert!(
            (corner.angle - wanted).abs() < 0.01,
            "{} {}",
            corner.angle.to_degrees(),
            wanted.to_degrees()
        );
    }
}

#[test]
fn degenerate_questions_have_plain_answers() {
    let (letter, room) = ground_within(&[rectangle(0.0, 0.0, 20.0, 20.0)]);
    let diagram = Diagram::build(&letter, &room).unwrap();
    for radius in [0.0, -1.0, f64::NAN, 1e6] {
        let reach = diagram.reach(radius);
        assert!(reach.reached.is_empty() && reach.touched.is_empty());
        assert!((left_area(&reach) - ground_of(&diagram).area()).abs() < 1e-6);
    }
    assert!(diagram.corners(0.0).is_empty());
    assert!(diagram.corners(f64::NAN).is_empty());
    let plain = Diagram::build(&Region::default(), &rectangle(0.0, 0.0, 9.0, 9.0)).unwrap();
    assert!(plain.corners(0.05).is_empty());
    let reach = plain.reach(1.0);
    assert_eq!(reach.left.len(), 4);
    assert_eq!(corner_gap(1.0, PI), 0.0);
    assert_eq!(corner_area(1.0, 4.0), 0.0);
    assert_eq!(corner_gap(1.0, 0.0), f64::INFINITY);
}

#[test]
fn touching_shapes_keep_the_identity() {
    for (one, other) in [
        (rectangle(3.0, 3.0, 5.0, 5.0), rectangle(5.0, 5.0, 7.0, 7.0)),
        (
            rectangle(2.0, 2.0, 8.0, 3.0),
            ring(&[(5.0, 3.0), (6.0, 6.0), (4.0, 6.0)]),
        ),
        (
            ring(&[(2.0, 2.0), (5.0, 5.0), (2.0, 8.0)]),
            ring(&[(8.0, 2.0), (8.0, 8.0), (5.0, 5.0)]),
        ),
    ] {
        let letter = crate::boolean::union(&Region::from_ring(&one), &Region::from_ring(&other));
        let diagram = Diagram::build(&letter, &rectangle(0.0, 0.0, 10.0, 10.0)).unwrap();
        for radius in [0.3, 0.9, 1.2] {
            check_identity(&diagram, radius);
        }
    }
}
