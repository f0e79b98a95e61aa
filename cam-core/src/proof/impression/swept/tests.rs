//! Tests of swept figures against closed forms.

use super::super::super::motion;
use super::*;
use reader::{PathControl, Place, Spindle};

fn place(x: f64, y: f64, z: f64) -> Place {
    Place {
        xy: Point::new(x, y),
        z,
    }
}

fn motion(from: Place, to: Place, course: ReadCourse) -> ReadMotion {
    ReadMotion {
        from,
        to,
        known: [true; 3],
        course,
        spindle: Spindle::Off,
        path_control: PathControl::Continuous,
        line: 1,
    }
}

fn line(from: Place, to: Place) -> ReadMotion {
    motion(from, to, ReadCourse::Line { feed_mm_min: 1.0 })
}

/// An arc about 0, 0 at a depth of 1 mm, from an angle on.
fn arc(distance: f64, start: f64, sweep: f64) -> ReadMotion {
    let at = |angle: f64| {
        let at = Vec2::from_angle(angle) * distance;
        place(at.x, at.y, -1.0)
    };
    let course = ReadCourse::Arc {
        centre: Point::ZERO,
        turn: if sweep > 0.0 { Turn::Left } else { Turn::Right },
        sweep: sweep.abs(),
        feed_mm_min: 1.0,
    };
    motion(at(start), at(start + sweep), course)
}

fn swept(solid: Solid, motions: &[ReadMotion]) -> Region {
    let mut swept = Swept::default();
    for read in motions {
        swept.add(read, &solid);
    }
    swept.region()
}

/// Chords take a little off every round edge.
fn check_area(figure: &Region, wanted: f64, round_edges_mm: f64) {
    let area = figure.area();
    assert!(
        area <= wanted + 1e-2 && area >= wanted - round_edges_mm * CHORD_MM - 1e-2,
        "{area} in place of {wanted}"
    );
}

const FLAT: Solid = Solid::Flat { radius: 2.0 };
const CONE: Solid = Solid::Conical {
    tip: 0.1,
    slope: 0.5,
    radius: 3.0,
};

#[test]
fn a_plunge_sweeps_a_disc_and_a_line_a_slot() {
    let plunge = line(place(0.0, 0.0, 5.0), place(0.0, 0.0, -1.0));
    check_area(&swept(FLAT, &[plunge]), 4.0 * PI, 4.0 * PI);
    let slot = line(place(0.0, 0.0, -1.0), place(10.0, 0.0, -1.0));
    check_area(
        &swept(FLAT, &[plunge, slot, slot]),
        40.0 + 4.0 * PI,
        4.0 * PI,
    );
    let above = line(place(0.0, 0.0, 1.0), place(10.0, 0.0, 0.0));
    assert!(swept(FLAT, &[above]).is_empty());
}

#[test]
fn a_cutter_that_comes_down_on_its_way_sweeps_from_the_face_on() {
    let ramp = line(place(0.0, 0.0, 1.0), place(10.0, 0.0, -1.0));
    check_area(&swept(FLAT, &[ramp]), 20.0 + 4.0 * PI, 4.0 * PI);
}

#[test]
fn corners_are_round_outside_and_bends_leave_no_seam() {
    let corners = [
        (0.0, 0.0),
        (20.0, 0.0),
        (20.0, 20.0),
        (0.0, 20.0),
        (0.0, 0.0),
    ]
    .map(|(x, y)| place(x, y, -1.0));
    let square: Vec<ReadMotion> = corners
        .windows(2)
        .map(|ends| line(ends[0], ends[1]))
        .collect();
    let figure = swept(FLAT, &square);
    // A frame, its corners rounded outside and sharp inside.
    check_area(
        &figure,
        24.0 * 24.0 - (16.0 - 4.0 * PI) - 16.0 * 16.0,
        4.0 * PI,
    );
    assert_eq!(figure.pieces.len(), 1);
    assert_eq!(figure.pieces[0].counters.len(), 1);
    // A thousand little bends about a circle.
    let places: Vec<Place> = (0..=1000)
        .map(|part| {
            let at = Vec2::from_angle(TAU * f64::from(part) / 1000.0) * 10.0;
            place(at.x, at.y, -1.0)
        })
        .collect();
    let ways: Vec<ReadMotion> = places
        .windows(2)
        .map(|ends| line(ends[0], ends[1]))
        .collect();
    let mut figure = swept(FLAT, &ways);
    figure.drop_smaller_than(1e-5);
    check_area(&figure, PI * (12.0 * 12.0 - 8.0 * 8.0), 2.0 * TAU * 10.0);
    assert_eq!(figure.pieces[0].counters.len(), 1);
}

#[test]
fn arcs_wide_and_narrow_either_way() {
    for (distance, sweep) in [
        (10.0, 1.0),
        (10.0, -4.0),
        (1.0, 2.0),
        (1.0, -3.0),
        (2.0, 1.0),
    ] {
        let outer: f64 = distance + 2.0;
        let inner = f64::max(distance - 2.0, 0.0);
        let figure = swept(FLAT, &[arc(distance, 0.7, sweep)]);
        if distance > 2.0 {
            let band = sweep.abs() / 2.0 * (outer * outer - inner * inner);
            check_area(&figure, band + 4.0 * PI, 4.0 * PI + 2.0 * TAU * 10.0);
        }
        // Against the definition, on a lattice.
        for (x, y) in (-12..=12).flat_map(|x| (-12..=12).map(move |y| (f64::from(x), f64::from(y))))
        {
            let at = Point::new(x + 0.123, y + 0.077);
            let near = motion::distance(&arc(distance, 0.7, sweep), at);
            if (near - 2.0).abs() > 2.0 * CHORD_MM {
                assert_eq!(figure.contains(at), near < 2.0, "{distance} {sweep} {at:?}");
            }
        }
    }
    for distance in [1.0, 2.0, 10.0] {
        let hole = f64::max(distance - 2.0, 0.0);
        let whole = swept(FLAT, &[arc(distance, 0.3, TAU)]);
        check_area(
            &whole,
            PI * ((distance + 2.0).powi(2) - hole * hole),
            TAU * 24.0,
        );
    }
}

#[test]
fn a_cone_is_as_wide_as_it_is_deep() {
    let level = line(place(0.0, 0.0, -1.0), place(10.0, 0.0, -1.0));
    check_area(&swept(CONE, &[level]), 12.0 + 0.36 * PI, TAU);
    // Rising to the face: a trapezium and two caps, its sides touching both discs.
    let rising = line(place(0.0, 0.0, -2.0), place(10.0, 0.0, 0.0));
    let lean = f64::acos(0.1);
    let caps = 1.1 * 1.1 * (PI - lean) + 0.1 * 0.1 * lean;
    let sides = (1.1 + 0.1) * 10.0 * lean.sin();
    check_area(&swept(CONE, &[rising]), caps + sides, TAU);
    // No wider than it is at all.
    let deep = line(place(0.0, 0.0, 0.0), place(0.0, 0.0, -100.0));
    check_area(&swept(CONE, &[deep]), 9.0 * PI, 9.0 * PI);
    // Rising along an arc and along a ball's own round.
    let mut helix = arc(10.0, 0.0, 2.0);
    helix.from.z = 0.0;
    let figure = swept(CONE, &[helix]);
    for part in [0.2_f64, 0.5, 0.8] {
        let middle = Vec2::from_angle(2.0 * part) * 10.0;
        let half = (0.1 + 0.5 * part) / 10.0;
        let at = |off: f64| (middle * (1.0 + off)).to_point();
        assert!(
            figure.contains(at(half - 0.001)) && !figure.contains(at(half + 0.001)),
            "{part}"
        );
    }
    let ball = Solid::Ball { radius: 2.0 };
    let ramp = line(place(0.0, 0.0, 0.0), place(10.0, 0.0, -1.0));
    let figure = swept(ball, &[ramp]);
    // At the far end, 1 mm deep, a ball of radius 2 is √3 wide.
    let half = 3.0_f64.sqrt();
    assert!(figure.contains(Point::new(10.0, half - 0.01)));
    assert!(!figure.contains(Point::new(10.0, half + 0.01)));
    assert!(!figure.contains(Point::new(3.0, half - 0.01)));
}
