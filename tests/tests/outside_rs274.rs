//! The reader against T. Kramer, F. Proctor, E. Messina, "The NIST RS274/NGC Interpreter – Version 3", NISTIR 6556,
//! National Institute of Standards and Technology, 17 August 2000. Sections, tables and pages are those of the report;
//! "run" marks what its public-domain reference interpreter did with the same lines.
//!
//! Accepted differences:
//! - The interpreter refuses lines of 254 characters; the report allows 256 with the end of the line, and we follow it.
//! - The interpreter only remarks on a missing second percent sign after M2; so do we, by accepting it.
//! - The interpreter takes line numbers of more than five digits if they have leading zeros; the report forbids them, and
//!   we follow it.

use std::f64::consts::PI;

use geometry::arc_path::Turn;
use kurbo::Point;
use reader::{ReadCourse, Replay, Step, read, steps};

/// Reads lines as a program, ended by M2.
fn replay_of(lines: &str) -> Replay {
    read(&format!("{lines}\nm2\n")).unwrap_or_else(|error| panic!("{error}\n{lines}"))
}

#[track_caller]
fn check_accepted(lines: &str) {
    replay_of(lines);
}

#[track_caller]
fn check_rejected(lines: &str) {
    assert!(
        read(&format!("{lines}\nm2\n")).is_err(),
        "accepted: {lines}"
    );
}

#[track_caller]
fn check_last_arc(lines: &str, centre: (f64, f64), turn: Turn, sweep_deg: f64, digits: f64) {
    let replay = replay_of(lines);
    let Some(ReadCourse::Arc {
        centre: found,
        turn: found_turn,
        sweep,
        ..
    }) = replay.motions.last().map(|motion| motion.course)
    else {
        panic!("no arc: {lines}");
    };
    assert!(
        found.distance(Point::from(centre)) < digits,
        "{found:?}: {lines}"
    );
    assert_eq!(found_turn, turn, "{lines}");
    assert!(
        (sweep.to_degrees() - sweep_deg).abs() < 10.0 * digits,
        "{sweep}: {lines}"
    );
}

#[test]
fn arc_tolerance() {
    // §3.5.3.2, p. 24: 0.002 mm or 0.0002 in; the four cases run.
    let mm = "g21 g0 x0 y0\nf100\n";
    check_accepted(&format!("{mm}g2 x10.0019 y0 i5 j0"));
    check_rejected(&format!("{mm}g2 x10.0021 y0 i5 j0"));
    let inch = "g20 g0 x0 y0\nf4\n";
    check_accepted(&format!("{inch}g2 x1.00019 y0 i0.5 j0"));
    check_rejected(&format!("{inch}g2 x1.00021 y0 i0.5 j0"));
}

#[test]
fn arcs_by_radius() {
    // §3.5.3.1, p. 23; centres and refusals run.
    let start = "g21 g0 x0 y0\nf100\n";
    let narrow = 2.0 * (5.0_f64 / 6.0).asin().to_degrees();
    check_last_arc(
        &format!("{start}g2 x10 y0 r6"),
        (5.0, -3.3166),
        Turn::Right,
        narrow,
        1e-4,
    );
    check_last_arc(
        &format!("{start}g2 x10 y0 r-6"),
        (5.0, 3.3166),
        Turn::Right,
        360.0 - narrow,
        1e-4,
    );
    check_rejected(&format!("{start}g2 x10 y0 r4.9"));
    check_rejected(&format!("{start}g2 x0 y0 r5"));
    check_last_arc(
        &format!("{start}g2 x0 y0 i5"),
        (5.0, 0.0),
        Turn::Right,
        360.0,
        1e-9,
    );
    // A half turn whose end was rounded outwards; run.
    check_rejected(&format!("{start}g2 x10.0001 y0 r5"));
}

#[test]
fn arcs_of_the_report() {
    // §3.5.3.1, p. 23: G17 G2 x10 y15 r20 z5; centre by the reference interpreter.
    check_last_arc(
        "f100 g0 x0 y0 z5\nG17 G2 x10 y15 r20 z5",
        (19.8551, -2.4034),
        Turn::Right,
        2.0 * (325.0_f64.sqrt() / 40.0).asin().to_degrees(),
        1e-4,
    );
    // §3.5.3.2, p. 24: G17 G2 x10 y16 i3 j4 z9 from (7, 7, 9); radius 5 about (10, 11).
    check_last_arc(
        "f100 g0 x7 y7 z9\nG17 G2 x10 y16 i3 j4 z9",
        (10.0, 11.0),
        Turn::Right,
        90.0 + (4.0_f64 / 3.0).atan().to_degrees(),
        1e-9,
    );
    // Appendix C.1, p. 84: the arc by radius from (64, 4) to (69, 4); run: centre (66.5, 0.8775), 77.364°.
    check_last_arc(
        "f20 g0 x64 y4\ng2 x69 y4 r4",
        (66.5, 0.8775),
        Turn::Right,
        77.364,
        1e-4,
    );
}

#[test]
fn order_of_execution() {
    // Table 8, p. 41; run: comment, G94, F, S, T, M6, M3, M8, G17, G21, G40, G49, G54, G64, G90, move.
    let line = "g21 g1 x5 m3 s1000 f200 t2 m6 m8 (hi) g90 g17 g40 g49 g54 g64 g94";
    let found: Vec<Step> = steps(&format!("{line}\nm2\n"))
        .expect("accepted by the reference interpreter")
        .into_iter()
        .filter_map(|(line, step)| (line == 1).then_some(step))
        .collect();
    assert_eq!(
        found,
        [
            Step::Comment,
            Step::FeedMode,
            Step::Feed,
            Step::Speed,
            Step::Tool,
            Step::ChangeTool,
            Step::Spindle,
            Step::Coolant,
            Step::Plane,
            Step::Units,
            Step::RadiusCompensation,
            Step::LengthOffset,
            Step::WorkSystem,
            Step::PathControl,
            Step::DistanceMode,
            Step::Motion,
        ]
    );
}

#[test]
fn refused_lines() {
    // §3.3 to §3.5, pp. 14–28; every one run and refused.
    for lines in [
        "f100 g0 g1 x1",
        "m3 m5",
        "g0 x1 x2",
        "n100000 g0 x1",
        "(a (b) c)",
        "g0 x1 (abc",
        "g0 x1 ; c",
        "g0 x1e3",
        "g1 x1",
        "x1",
        "g80 x1",
        "g90.1",
        "m3 m6 m8 m48 m0",
        "g64 p0.1",
        "g4",
        "g4 p-1",
        "g43",
        "f-1",
        "g0 x1 i2",
        "g0 x1,5",
        "g0 x",
        "f100 g2 x10 y0 i5 r5",
        "f100 g2 x10 y0 i5 k5",
        "f100 g2 i5",
        "f100 g2 x10",
        "t-1",
    ] {
        check_rejected(lines);
    }
    // §3.1: no M2 and no percent signs.
    assert!(read("g0 x1\n").is_err());
}

#[test]
fn lines_as_the_report_writes_them() {
    // §3.3, p. 14: blanks inside numbers; letters of either case.
    let blanks = replay_of("g0x +0. 12 34y 7");
    assert_eq!(blanks.motions, replay_of("g0 x+0.1234 y7").motions);
    // §3.3.1: repeated line numbers in any order.
    check_accepted("n20 g0 x1\nn10 x2\nn20 x3\n\n/n5 x4");
    // §3.1: percent signs frame a program; what follows the second counts for nothing.
    assert!(read("%\ng0 x1\n%\nanything\n").is_ok());
    assert!(read("\n%\ng0 x1\n").is_err());
    // §3.6.1: nothing after the end is carried out.
    assert!(read("g0 x1\nm30\nanything\n").is_ok());
}

#[test]
fn a_change_of_units() {
    // §3.5.7; run: `g21 g0 x25.4`, `g20`, `g0 y1` ends at (1, 1) in inches.
    let to = replay_of("g21 g0 x25.4\ng20\ng0 y1").motions[1].to;
    assert_eq!(to.xy, Point::new(25.4, 25.4));
}

#[test]
fn a_program_in_the_manner_of_appendix_c() {
    // Modal lines, line numbers, both arc forms, a helix and a dwell. The lengths are closed forms.
    let program = "\
        n10 g21 g17 g90 g94 (all lengths in millimetres)\n\
        n20 f60 s3000 m3\n\
        n30 g0 z10\n\
        n40 x0 y0\n\
        n50 z1\n\
        n60 g1 z-1 (down)\n\
        n70 x30\n\
        n80 g3 x40 y10 i0 j10 (a quarter turn)\n\
        n90 g1 y40\n\
        n100 g3 x20 y40 r10 (half a turn)\n\
        n110 g2 x20 y40 i-5 j0 z-3 (a full turn, going down)\n\
        n120 g4 p2\n\
        n130 g0 z10 m5\n\
        n140 m2\n";
    let replay = read(program).expect("keeps to the standard");
    let length = |wanted: fn(&ReadCourse) -> bool| -> f64 {
        let motions = replay.motions.iter();
        motions
            .filter(|motion| wanted(&motion.course))
            // The first motion starts where the program does not tell.
            .filter(|motion| motion.known[2])
            .map(|motion| motion.length_mm())
            .sum()
    };
    let count = |wanted: fn(&ReadCourse) -> bool| {
        replay
            .motions
            .iter()
            .filter(|motion| wanted(&motion.course))
            .count()
    };
    let rapid = |course: &ReadCourse| matches!(course, ReadCourse::Rapid);
    let line = |course: &ReadCourse| matches!(course, ReadCourse::Line { .. });
    let arc = |course: &ReadCourse| matches!(course, ReadCourse::Arc { .. });
    assert_eq!((count(rapid), count(line), count(arc)), (4, 3, 3));
    let check = |found: f64, expected: f64| {
        assert!(
            (found - expected).abs() < 1e-9,
            "{found}, expected {expected}"
        );
    };
    check(length(rapid), 9.0 + 13.0);
    check(length(line), 2.0 + 30.0 + 30.0);
    check(length(arc), 5.0 * PI + 10.0 * PI + (10.0 * PI).hypot(2.0));
    assert_eq!(replay.dwells[0].seconds, 2.0);
    assert_eq!(replay.motions.last().map(|motion| motion.line), Some(13));
}
