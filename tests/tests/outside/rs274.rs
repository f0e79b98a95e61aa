//! The reader against T. Kramer, F. Proctor, E. Messina, "The NIST RS274/NGC Interpreter – Version 3", NISTIR 6556,
//! National Institute of Standards and Technology, 17 August 2000. Sections, tables and pages are those of the report;
//! "run" marks what its public-domain reference interpreter did with the same lines.
//!
//! Accepted differences:
//! - The interpreter refuses lines of 254 characters; the report allows 256 with the end of the line, and we follow it.
//! - The interpreter only remarks on a missing second percent sign after M2; so do we, by accepting it.
//! - The interpreter takes line numbers of more than five digits if they have leading zeros; the report forbids them, and
//!   we follow it.
//! - The interpreter takes 0, or what its file holds, for a parameter that the program has not set, and knows from its file where
//!   zeros and reference points lie. We read programs apart from any machine: such parameters are refused, and places are told with
//!   what they are counted from.
//! - The interpreter counts from 0, 0, 0 at the start; an arc or a cycle that starts where the program has not told is refused here.
//! - The interpreter takes radii for cutter radius compensation (G41, G42) from its file; here they are told beside the program, or
//!   compensation is refused. Rotary axes are refused.
//! - After G93 the interpreter goes on with a feed that the report does not give; we ask for a new F.

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
    // The other steps of the table.
    let rest = |line: &str| -> Vec<Step> {
        let found = steps(&format!("g0 x0\n{line}\nm2\n")).expect("keeps to the standard");
        let of_line = found.into_iter().filter(|(line, _)| *line == 2);
        of_line.map(|(_, step)| step).collect()
    };
    assert_eq!(
        rest("m0 g99 g91 g19 g20 p0 g4 m49 f1 g93"),
        [
            Step::FeedMode,
            Step::Feed,
            Step::Overrides,
            Step::Dwell,
            Step::Plane,
            Step::Units,
            Step::DistanceMode,
            Step::ReturnMode,
            Step::Stop,
        ]
    );
    assert_eq!(
        rest("m1 x3 g92 g80 g98"),
        [Step::ReturnMode, Step::Zeros, Step::Motion, Step::Stop]
    );
    assert!(Step::ALL.is_sorted());
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
        // Run: "unknown g code".
        "g91.1",
        "m7 m8",
        "g91 g53 g0 x1",
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

/// A program of our own with the facts of appendix C.1 (pp. 84-87; run): 25 traverses of 202.0528 mm from the first place on, 29
/// straight feeds of 126.9785 mm, four arcs one way and one the other of 56.4519 mm, at F20.
#[test]
fn the_facts_of_appendix_c_1() {
    let mut text = String::from(
        "%\nn10 g21 g17 g90 (strokes on a plate)\nn20 g0 x0 y0 z50 f20 s4000 t1\nn30 m3\n",
    );
    // 22 traverses of 8 mm to and fro, one that brings the sum, and one down the plate.
    for index in 0..22 {
        text.push_str(if index % 2 == 0 { "x8\n" } else { "x0\n" });
    }
    text.push_str("x18.0528\nz42\n");
    // 28 feeds of 4.5 mm, and one that brings the sum.
    for index in 0..28 {
        text.push_str(if index % 2 == 0 { "g1 y4.5\n" } else { "y0\n" });
    }
    text.push_str("y0.9785\n");
    // Radius 2.5: 270, 360, 360 and 180 degrees; then the arc by its radius, as long as that from (64, 4) to (69, 4).
    text.push_str(
        "g91 g2 x2.5 y-2.5 i2.5 j0\nx0 y0 i2.5 j0\ng3 x0 y0 i0 j2.5\ng2 x5 y0 i2.5 j0\nx5 y0 r4\ng90 m30\n%\n",
    );
    let replay = read(&text).expect("keeps to the standard");
    let of = |wanted: fn(&ReadCourse) -> bool| -> (usize, f64) {
        let motions = replay.motions.iter();
        let chosen = motions.filter(|motion| wanted(&motion.course));
        chosen.fold((0, 0.0), |(count, sum), motion| {
            let told = motion.known == [true; 3];
            (count + 1, sum + if told { motion.length_mm() } else { 0.0 })
        })
    };
    let rapid = of(|course| matches!(course, ReadCourse::Rapid));
    let line = of(|course| matches!(course, ReadCourse::Line { .. }));
    let right = of(|course| {
        matches!(
            course,
            ReadCourse::Arc {
                turn: Turn::Right,
                ..
            }
        )
    });
    let left = of(|course| {
        matches!(
            course,
            ReadCourse::Arc {
                turn: Turn::Left,
                ..
            }
        )
    });
    assert_eq!((rapid.0, line.0, right.0, left.0), (25, 29, 4, 1));
    let check = |found: f64, expected: f64| {
        assert!(
            (found - expected).abs() < 1e-4,
            "{found}, expected {expected}"
        );
    };
    check(rapid.1, 202.0528);
    check(line.1, 126.9785);
    check(right.1 + left.1, 56.4519);
    check(line.1 + right.1 + left.1, 183.4305);
    let minutes: f64 = replay
        .motions
        .iter()
        .filter_map(|motion| Some(motion.length_mm() / motion.feed_mm_min()?))
        .sum();
    check(minutes, 9.1715);
}

#[test]
fn values_of_the_report() {
    // §3.3.2.3, p. 18: the report's own expressions; §3.3.2.4: ATAN[1]/[-1] is 135 degrees, FIX[-2.8] is -3, FUP[-2.8] is -2.
    for (value, expected) in [
        ("[1 + acos[0] - [#3 ** [4.0 / 2]]]", 90.0),
        ("[2.0 / 3 * 1.5 - 5.5 / 11.0]", 0.5),
        ("atan[1]/[-1]", 135.0),
        ("fix[-2.8]", -3.0),
        ("fup[-2.8]", -2.0),
    ] {
        let place = replay_of(&format!("#3=1\ng0 x{value}")).motions[0].to.xy.x;
        assert!((place - expected).abs() < 1e-9, "{value}: {place}");
    }
    // §3.3.3: a setting takes effect after its line; a parameter's number may be an expression.
    let replay = replay_of("#3=15\n#3=6 g0 x#3\ny#[1+2]");
    assert_eq!(replay.motions[1].to.xy, Point::new(15.0, 6.0));
}

#[test]
fn cycles_of_the_report() {
    // §3.5.16.1, the report's two examples of G81 (from memory): from (1, 2, 3), absolute, and incremental with L3.
    let heights = |replay: &Replay| -> Vec<(f64, f64, f64)> {
        let motions = replay.motions.iter().skip(1);
        motions
            .map(|motion| (motion.to.xy.x, motion.to.xy.y, motion.to.z))
            .collect()
    };
    let start = "f100 g0 x1 y2 z3\n";
    let replay = replay_of(&format!("{start}g90 g81 g98 x4 y5 z1.5 r2.8"));
    assert_eq!(
        heights(&replay),
        [
            (4.0, 5.0, 3.0),
            (4.0, 5.0, 2.8),
            (4.0, 5.0, 1.5),
            (4.0, 5.0, 3.0)
        ]
    );
    let replay = replay_of(&format!("{start}g91 g81 g98 x4 y5 z-0.6 r1.8 l3"));
    let near = |found: (f64, f64, f64), wanted: (f64, f64, f64)| {
        let off = (found.0 - wanted.0)
            .hypot(found.1 - wanted.1)
            .hypot(found.2 - wanted.2);
        assert!(off < 1e-9, "{found:?}, expected {wanted:?}");
    };
    let found = heights(&replay);
    // It first rises to R, since it begins below; then at each hole: over it, down, and up again.
    assert_eq!(found.len(), 10);
    near(found[0], (1.0, 2.0, 4.8));
    for (hole, moves) in (1..).zip(found[1..].chunks(3)) {
        let (x, y) = (1.0 + 4.0 * f64::from(hole), 2.0 + 5.0 * f64::from(hole));
        near(moves[0], (x, y, 4.8));
        near(moves[1], (x, y, 4.2));
        near(moves[2], (x, y, 4.8));
    }
}
