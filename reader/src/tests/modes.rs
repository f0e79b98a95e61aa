//! Motion, feed, spindle, units, distances, stops.

use super::*;

#[test]
fn motion_needs_a_code_axes_and_feed() {
    check_fault("X1", (1, 1), Fault::AxesWithoutMotion);
    check_fault("G80 X1", (1, 1), Fault::AxesWithoutMotion);
    check_fault("G0 X1\nG80\nY2", (3, 1), Fault::AxesWithoutMotion);
    check_fault("G0", (1, 1), Fault::MotionWithoutAxes("G0"));
    check_fault("G0 X0\nG1 F100", (2, 1), Fault::MotionWithoutAxes("G1"));
    check_fault("G1 X1", (1, 1), Fault::NoFeed);
    check_fault("F100 G1 X1\nF0\nX2", (3, 1), Fault::NoFeed);
    check_fault("F-1", (1, 1), Fault::Negative('F'));
    check_fault("S-1", (1, 1), Fault::Negative('S'));
    check_fault("T1.5", (1, 1), Fault::NotWhole('T'));
    check_fault(
        "T129",
        (1, 1),
        Fault::AboveLimit {
            letter: 'T',
            most: 128,
        },
    );
    check_fault("G4", (1, 1), Fault::DwellWithoutTime);
    check_fault("G4 P-1", (1, 4), Fault::Negative('P'));
    check_fault("G43", (1, 1), Fault::OffsetWithoutIndex);
}

#[test]
fn units_change_places_but_not_the_feed_word() {
    // §3.5.7 and table 8: F is stored before the units change.
    let replay = replay_of("G21 F100\nG0 X25.4\nG20 G1 Y1\nX0\nM2");
    assert!(replay.units_stated);
    assert_eq!(replay.motions[1].to.xy, Point::new(25.4, 25.4));
    assert_eq!(replay.motions[1].feed_mm_min(), Some(2540.0));
    assert!(!replay_of("G0 X1\nG21\nM2").units_stated);
}

#[test]
fn spindle_stops_before_and_program_after_the_motion_of_the_line() {
    // Table 8.
    let replay = replay_of("S900 M4 G0 X1\nX2 M5\nX3 M0 (turn the plank)\nG4 P1.5 X4\nM1\nM30");
    let spindles: Vec<Spindle> = replay.motions.iter().map(|motion| motion.spindle).collect();
    let on = Spindle::Counterclockwise { rpm: 900.0 };
    assert_eq!(spindles, [on, Spindle::Off, Spindle::Off, Spindle::Off]);
    assert_eq!(replay.pauses[0].before, 3);
    assert_eq!(replay.pauses[0].comment, "turn the plank");
    assert_eq!(replay.pauses[1].kind, PauseKind::IfAsked);
    assert_eq!(
        (replay.dwells[0].before, replay.dwells[0].seconds),
        (3, 1.5)
    );
    assert_eq!((replay.end.line, replay.end.ending), (6, Ending::M30));
    // M6 stops the spindle (§3.6.3).
    let replay = replay_of("S900 M3\nT1 M6\nG0 X1\nM2");
    assert_eq!(replay.motions[0].spindle, Spindle::Off);
}

#[test]
fn increments_add_up_from_where_the_machine_stands() {
    check_end("G0 X5 Y5\nG91 X1 Z2\nX1\nG90 Y0", 7.0, 0.0, 2.0);
}

#[test]
fn places_are_known_once_the_program_has_told_them() {
    let replay = replay_of("G0 Z5\nX1 Y2\nG43 H1\nX3\nZ1\nX4\nM2");
    let known: Vec<[bool; 3]> = replay.motions.iter().map(|motion| motion.known).collect();
    assert_eq!(known[0], [false, false, false]);
    assert_eq!(known[1], [false, false, true]);
    assert_eq!(known[2], [true, true, false]);
    assert_eq!(known[4], [true, true, true]);
    assert_eq!(replay_of("G91 G0 X1\nX1\nM2").motions[1].known, [false; 3]);
}

#[test]
fn inverse_time_gives_each_motion_its_own_feed() {
    // §3.5.19 (from memory): F is the number of times a minute that the motion could be made.
    let replay = replay_of(
        "G0 X0 Y0 Z0\nG93 G1 X30 Y40 F2\nG3 X30 Y40 I5 J0 F10\nF7\nG0 X0\nG94 F500 G1 X9\nM2",
    );
    let feeds: Vec<Option<f64>> = replay.motions.iter().map(ReadMotion::feed_mm_min).collect();
    let near =
        |found: Option<f64>, wanted: f64| found.is_some_and(|found| (found - wanted).abs() < 1e-9);
    assert!(near(feeds[1], 100.0), "{feeds:?}");
    assert!(near(feeds[2], 100.0 * std::f64::consts::PI), "{feeds:?}");
    assert_eq!((feeds[3], feeds[4]), (None, Some(500.0)));
    check_fault("F100 G93 G1 X1\nX2", (2, 1), Fault::InverseTimeWithoutFeed);
    check_fault("G93 G1 X1 F0", (1, 5), Fault::NoFeed);
    check_fault("F100\nG93\nG94\nG1 X1", (4, 1), Fault::NoFeed);
    check_fault(
        "G93 F1 S1 M3 G0 X1 Y1 Z1\nG81 X1 Z0 R1",
        (2, 1),
        Fault::NotInInverseTime("G81"),
    );
    check_fault("G93 F1 G38.2 X1", (1, 8), Fault::NotInInverseTime("G38.2"));
}

#[test]
fn coolant_and_knobs_are_noted() {
    let replay = replay_of("M7\nG0 X1 M8\nM9 M49\nM48\nM2");
    let found: Vec<_> = replay
        .coolant
        .iter()
        .map(|change| (change.before, change.word, change.line))
        .collect();
    assert_eq!(
        found,
        [
            (0, CoolantWord::Mist, 1),
            (0, CoolantWord::Flood, 2),
            (1, CoolantWord::Off, 3)
        ]
    );
    assert_eq!(replay.knobs_off, [3]);
}

#[test]
fn a_probe_leaves_the_machine_where_only_the_machine_knows() {
    // §3.5.9 (from memory).
    let replay = replay_of("F50 G0 X1 Y2 Z5\nG38.2 Z-9\nG0 X3\nZ5\nG92 Z0\nM2");
    assert_eq!(replay.doubts.len(), 1);
    assert_eq!(replay.doubts[0].kind, DoubtKind::Probe);
    assert_eq!(replay.motions[1].to.z, -9.0);
    assert_eq!(replay.motions[2].known, [true, true, false]);
    assert_eq!(replay.motions[3].known, [true, true, false]);
    check_fault("F1 G0 X1 Y1 Z1\nG38.2 Z0.8", (2, 1), Fault::ProbeTooShort);
    check_fault("F1 G38.2", (1, 4), Fault::MotionWithoutAxes("G38.2"));
    check_fault("G38.2 Z1", (1, 1), Fault::NoFeed);
    check_fault(
        "#5063=1 F1 G0 X0 Y0 Z0\nG38.2 Z-5\nG0 Z#5063",
        (3, 5),
        Fault::ParameterNotSet(5063),
    );
}
