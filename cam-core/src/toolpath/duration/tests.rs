//! Closed forms of motion.

use reader::read;

use super::plan::{Leg, Limits, Stretch, corner_speed, seconds, stretch};
use super::*;

/// A machine with the same limits on every axis.
fn machine(feed_mm_s: f64, acceleration: f64) -> Machine {
    Machine {
        name: "test".to_owned(),
        travel_mm: [1000.0; 3],
        rapid_mm_min: [feed_mm_s * 60.0; 3],
        max_feed_mm_min: [feed_mm_s * 60.0; 3],
        acceleration_mm_s2: [acceleration; 3],
        junction_deviation_mm: 0.01,
        spindle_rpm: [0.0, 24_000.0],
        clear_height_mm: 5.0,
        hop_height_mm: 1.0,
        holder_diameter_mm: 30.0,
        change_minutes: 3.0,
        minutes_factor: 1.0,
        minutes_per_run: 0.0,
        squareness: None,
        dialect: "plain".to_owned(),
    }
}

#[track_caller]
fn check_time(moves: &str, machine: &Machine, expected_s: f64) {
    let text = format!("G21 G90 F100000\n{moves}\nM2\n");
    let replay = read(&text).expect("a program of the standard");
    let time = duration(&replay, machine);
    assert!(
        (time - expected_s).abs() <= expected_s * 1e-5,
        "{time} s, expected {expected_s} s"
    );
}

#[test]
fn one_move_from_rest_to_rest() {
    // d/v + v/a if d ≥ v²/a, else 2 √(d/a).
    check_time("G1 X100", &machine(50.0, 500.0), 2.1);
    check_time("G1 X100", &machine(30.0, 200.0), 3.483_333_3);
    check_time("G1 X1", &machine(30.0, 200.0), 0.141_421_36);
    check_time("G0 X4.5", &machine(30.0, 200.0), 0.3);
    check_time("G1 X0", &machine(30.0, 200.0), 0.0);
}

#[test]
fn between_two_speeds() {
    let cruise = seconds(20.0, 10.0, 5.0, 30.0, 200.0);
    assert!((cruise - 0.752_083_3).abs() < 1e-6, "{cruise}");
    let triangle = seconds(1.0, 10.0, 5.0, 30.0, 200.0);
    assert!((triangle - 0.087_018_5).abs() < 1e-6, "{triangle}");
}

#[test]
fn corners_by_angle() {
    // Interior angle, speed at a 200 mm/s² and deviation 0.01 mm.
    for (degrees, expected) in [
        (60.0, std::f64::consts::SQRT_2),
        (90.0, 2.197_37),
        (120.0, 3.5956),
        (135.0, 4.9269),
        (150.0, 7.5296),
        (170.0, 22.882),
    ] {
        let turned = f64::to_radians(180.0 - degrees);
        let text = format!(
            "G21 G90 F100000\nG1 X50\nG1 X{:.9} Y{:.9}\nM2\n",
            50.0 + 50.0 * turned.cos(),
            50.0 * turned.sin()
        );
        let replay = read(&text).expect("a program of the standard");
        let limits = Limits::new(&machine(1000.0, 200.0));
        let stretches: Vec<Stretch> = replay
            .motions
            .iter()
            .filter_map(|motion| {
                let leg = Leg {
                    from: motion.from,
                    to: motion.to,
                    course: motion.course,
                    path_control: motion.path_control,
                };
                stretch(&leg, &limits)
            })
            .collect();
        let speed = corner_speed(&stretches[0], &stretches[1], &limits);
        assert!((speed / expected - 1.0).abs() < 1e-4, "{degrees}°: {speed}");
    }
}

#[test]
fn a_rectangle() {
    check_time(
        "G1 X40\nG1 Y20\nG1 X0\nG1 Y0",
        &machine(30.0, 200.0),
        4.536_49,
    );
    // Full stops at the corners.
    check_time(
        "G61.1\nG1 X40\nG1 Y20\nG1 X0\nG1 Y0",
        &machine(30.0, 200.0),
        4.6,
    );
}

#[test]
fn a_straight_line_in_many_pieces_takes_no_longer() {
    let pieces: String = (1..=1000)
        .map(|index| format!("G1 X{:.1}\n", f64::from(index) / 10.0))
        .collect();
    check_time(&pieces, &machine(50.0, 500.0), 2.1);
}

#[test]
fn an_arc_is_no_faster_than_its_radius_allows() {
    // v = √(200 · 2) = 20 mm/s over 4π mm, from rest to rest.
    let time = 4.0 * std::f64::consts::PI / 20.0 + 20.0 / 200.0;
    check_time("G0 X0 Y0\nG3 X0 Y0 I2 J0", &machine(30.0, 200.0), time);
}

#[test]
fn a_tangent_arc_is_entered_without_slowing() {
    // 100 mm straight, then a half turn of radius 50: √(200·50) = 100 mm/s is above the feed.
    let length = 100.0 + 50.0 * std::f64::consts::PI;
    check_time(
        "G0 X0 Y0\nG1 X100\nG3 X100 Y100 I0 J50",
        &machine(30.0, 200.0),
        length / 30.0 + 30.0 / 200.0,
    );
}

#[test]
fn dwells_count_and_pauses_do_not() {
    check_time(
        "G1 X100\nG4 P2.5\nM0\nG1 X200",
        &machine(50.0, 500.0),
        2.1 + 2.5 + 2.1,
    );
}

#[test]
fn the_slowest_axis_bounds_a_slanting_move() {
    let mut slow_z = machine(50.0, 500.0);
    slow_z.max_feed_mm_min[2] = 300.0;
    slow_z.acceleration_mm_s2[2] = 50.0;
    // Along (3, 0, -4)/5: 5 mm/s ÷ 0.8 and 50 mm/s² ÷ 0.8.
    let (v, a) = (6.25, 62.5);
    check_time("G1 X30 Z-40", &slow_z, 50.0 / v + v / a);
}

#[test]
fn odd_limits_give_finite_times() {
    let mut odd = machine(30.0, 200.0);
    odd.acceleration_mm_s2 = [0.0, -1.0, f64::NAN];
    odd.rapid_mm_min = [0.0; 3];
    odd.junction_deviation_mm = f64::NAN;
    let replay = read("G21 F100\nG0 X5 Z3\nG1 X1 Y2\nG2 X3 Y2 I1 J0 Z1\nM2").expect("a program");
    assert!(duration(&replay, &odd).is_finite());
}

/// A program's text and the motions that it was written from take the same time.
#[test]
fn motions_take_the_time_of_the_program_that_says_them() {
    let machine = machine(30.0, 200.0);
    let place = |x: f64, y: f64, z: f64| Place3 {
        xy: Point::new(x, y),
        z,
    };
    let arc = |x: f64, y: f64| Course::Arc {
        centre: Point::new(x, y),
        turn: Turn::Right,
        feed_mm_min: 1500.0,
    };
    let line = Course::Line { feed_mm_min: 900.0 };
    let motions: Vec<Motion> = [
        (place(0.0, 0.0, 5.0), Course::Rapid),
        (place(10.0, 20.0, 5.0), Course::Rapid),
        (place(10.0, 20.0, -1.0), line),
        (place(14.0, 20.0, -1.0), line),
        (place(18.0, 16.0, -1.0), arc(14.0, 16.0)),
        (place(18.0, 16.0, -1.5), arc(16.0, 16.0)),
        (place(18.0, 16.0, 5.0), Course::Rapid),
    ]
    .into_iter()
    .map(|(to, course)| Motion {
        to,
        course,
        purpose: None,
        layer: 0,
    })
    .collect();
    let text = "G21 G90\nG0 Z5\nG0 X10 Y20\nG1 Z-1 F900\nG1 X14\nG2 X18 Y16 I0 J-4 F1500\n\
        G2 X18 Y16 Z-1.5 I-2 J0\nG0 Z5\nM2\n";
    let mut replay = read(text).expect("a program of the standard");
    // The program rises first, from a height that it does not tell.
    replay.motions.remove(0);
    let (motions, text) = (of_motions(&motions, &machine), duration(&replay, &machine));
    assert!((motions - text).abs() < 1e-9, "{motions} and {text}");
    assert!(motions > 2.0, "{motions}");
}
