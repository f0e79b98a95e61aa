//! The cycles: steps written out by hand after NISTIR 6556 (2000) §3.5.16.

use super::*;

/// A motion in short: R for rapid or F for feed, then the place; the spindle's mark ahead of it if it stands.
fn told(replay: &Replay, from: usize) -> Vec<String> {
    replay.motions[from..]
        .iter()
        .map(|motion| {
            let kind = match motion.course {
                ReadCourse::Rapid => "R",
                ReadCourse::Line { .. } | ReadCourse::Arc { .. } => "F",
            };
            let spindle = match motion.spindle {
                Spindle::Off => "off ",
                Spindle::Clockwise { .. } => "",
                Spindle::Counterclockwise { .. } => "ccw ",
            };
            let to = motion.to;
            format!("{spindle}{kind} {} {} {}", to.xy.x, to.xy.y, to.z)
        })
        .collect()
}

/// The motions of lines after a start at 1, 2, 3 with feed and spindle on.
#[track_caller]
fn check_cycle(lines: &str, expected: &[&str]) -> Replay {
    let replay = replay_of(&format!(
        "G21 G90 G98 F60 S900 M3\nG0 X1 Y2 Z3\n{lines}\nM2"
    ));
    assert_eq!(told(&replay, 1), expected, "{lines}");
    replay
}

#[test]
fn drilling_rises_to_where_it_began_or_to_r() {
    check_cycle(
        "G81 X4 Y5 Z-1.5 R2",
        &["R 4 5 3", "R 4 5 2", "F 4 5 -1.5", "R 4 5 3"],
    );
    check_cycle(
        "G99 G81 X4 Y5 Z-1.5 R2\nX6\nG98 Y7\nG80\nG0 X0",
        &[
            "R 4 5 3",
            "R 4 5 2",
            "F 4 5 -1.5",
            "R 4 5 2",
            "R 6 5 2",
            "F 6 5 -1.5",
            "R 6 5 2",
            "R 6 7 2",
            "F 6 7 -1.5",
            "R 6 7 2",
            "R 0 7 2",
        ],
    );
    // Below R it first rises to R, and returns there.
    check_cycle(
        "G81 X4 Z-1 R5",
        &["R 1 2 5", "R 4 2 5", "F 4 2 -1", "R 4 2 5"],
    );
    // Z and R stay for the lines after; a new Z or R replaces them.
    let replay = check_cycle(
        "G99 G81 X4 Z-1 R3\nY5 R2\nX1 Z0",
        &[
            "R 4 2 3", "F 4 2 -1", "R 4 2 3", "R 4 5 3", "R 4 5 2", "F 4 5 -1", "R 4 5 2",
            "R 1 5 2", "F 1 5 0", "R 1 5 2",
        ],
    );
    assert!(replay.doubts.is_empty());
    let cycles: Vec<_> = replay
        .cycles
        .iter()
        .map(|run| (run.code, run.first, run.line))
        .collect();
    assert_eq!(cycles, [("G81", 1, 3), ("G81", 4, 4), ("G81", 8, 5)]);
    assert!(
        replay.motions[1..]
            .iter()
            .all(|motion| motion.path_control == PathControl::ExactPath)
    );
}

#[test]
fn repeats_in_absolute_and_incremental_distances() {
    check_cycle(
        "G81 X4 Z0 R3 L2",
        &[
            "R 4 2 3", "F 4 2 0", "R 4 2 3", "R 4 2 3", "F 4 2 0", "R 4 2 3",
        ],
    );
    // Increments go on from hole to hole; R counts from where it began, Z from R.
    let replay = check_cycle(
        "G91 G81 X4 Y5 Z-0.5 R-1 L3",
        &[
            "R 5 7 3",
            "R 5 7 2",
            "F 5 7 1.5",
            "R 5 7 3",
            "R 9 12 3",
            "R 9 12 2",
            "F 9 12 1.5",
            "R 9 12 3",
            "R 13 17 3",
            "R 13 17 2",
            "F 13 17 1.5",
            "R 13 17 3",
        ],
    );
    assert_eq!(replay.cycles[0].times, 3);
    check_cycle(
        "G91 G99 G81 X4 Z-0.5 R-1 L2",
        &[
            "R 5 2 3",
            "R 5 2 2",
            "F 5 2 1.5",
            "R 5 2 2",
            "R 9 2 2",
            "F 9 2 1.5",
            "R 9 2 2",
        ],
    );
}

#[test]
fn dwells_and_pecks() {
    let replay = check_cycle(
        "G82 X4 Z-1 R3 P0.5\nX5",
        &[
            "R 4 2 3", "F 4 2 -1", "R 4 2 3", "R 5 2 3", "F 5 2 -1", "R 5 2 3",
        ],
    );
    let dwells: Vec<_> = replay
        .dwells
        .iter()
        .map(|dwell| (dwell.before, dwell.seconds))
        .collect();
    assert_eq!(dwells, [(3, 0.5), (6, 0.5)]);
    check_cycle(
        "G99 G83 X4 Z0 R2.5 Q1",
        &[
            "R 4 2 3",
            "R 4 2 2.5",
            "F 4 2 1.5",
            "R 4 2 2.5",
            "R 4 2 1.754",
            "F 4 2 0.5",
            "R 4 2 2.5",
            "R 4 2 0.754",
            "F 4 2 0",
            "R 4 2 2.5",
        ],
    );
    // A peck deeper than the hole.
    check_cycle("G83 X4 Z0 R3 Q9", &["R 4 2 3", "F 4 2 0", "R 4 2 3"]);
}

#[test]
fn tapping_and_boring_turn_the_spindle_as_they_must() {
    check_cycle(
        "G84 X4 Z0 R3\nX5",
        &[
            "R 4 2 3",
            "F 4 2 0",
            "ccw F 4 2 3",
            "R 5 2 3",
            "F 5 2 0",
            "ccw F 5 2 3",
        ],
    );
    check_cycle("G85 X4 Z0 R3", &["R 4 2 3", "F 4 2 0", "F 4 2 3"]);
    check_cycle(
        "G86 X4 Z0 R3 P0.1\nX5",
        &[
            "R 4 2 3",
            "F 4 2 0",
            "off R 4 2 3",
            "R 5 2 3",
            "F 5 2 0",
            "off R 5 2 3",
        ],
    );
    let replay = check_cycle(
        "G88 X4 Z0 R3 P2\nX5",
        &["R 4 2 3", "F 4 2 0", "R 5 2 3", "F 5 2 0"],
    );
    assert_eq!(replay.pauses.len(), 2);
    assert_eq!(
        (replay.pauses[0].before, replay.pauses[0].spindle),
        (3, Spindle::Off)
    );
    assert!(
        replay
            .doubts
            .iter()
            .all(|doubt| doubt.kind == DoubtKind::DrawnByHand)
    );
    assert_eq!(replay.doubts.len(), 2);
    let replay = check_cycle("G89 X4 Z0 R3 P2", &["R 4 2 3", "F 4 2 0", "F 4 2 3"]);
    assert_eq!(replay.dwells[0].seconds, 2.0);
}

#[test]
fn boring_from_behind() {
    check_cycle(
        "G87 X4 Y5 Z-8 R2 I1 J0.5 K-6",
        &[
            "R 4 5 3",
            "R 4 5 2",
            "R 5 5.5 2",
            "off R 5 5.5 -8",
            "off R 4 5 -8",
            "F 4 5 -6",
            "F 4 5 -8",
            "off R 5 5.5 -8",
            "off R 5 5.5 3",
            "off R 4 5 3",
        ],
    );
    check_cycle(
        "G91 G87 X4 Y5 Z-8 R-1 I1 J0 K2",
        &[
            "R 5 7 3",
            "R 5 7 2",
            "R 6 7 2",
            "off R 6 7 -6",
            "off R 5 7 -6",
            "F 5 7 -4",
            "F 5 7 -6",
            "off R 6 7 -6",
            "off R 6 7 3",
            "off R 5 7 3",
        ],
    );
}

#[test]
fn cycles_in_upright_planes() {
    check_cycle(
        "G18 G81 X4 Z5 Y-1 R6",
        &["R 1 6 3", "R 4 6 5", "F 4 -1 5", "R 4 6 5"],
    );
    check_cycle(
        "G19 G99 G81 Y4 Z5 X-1 R0.5",
        &["R 1 4 5", "R 0.5 4 5", "F -1 4 5", "R 0.5 4 5"],
    );
    check_cycle(
        "G18 G87 X4 Y-8 Z3 R2 I1 K0.5 J-6",
        &[
            "R 4 2 3",
            "R 5 2 3.5",
            "off R 5 -8 3.5",
            "off R 4 -8 3",
            "F 4 -6 3",
            "F 4 -8 3",
            "off R 5 -8 3.5",
            "off R 5 2 3.5",
            "off R 4 2 3",
        ],
    );
}

#[test]
fn inches_and_a_shifted_zero() {
    check_cycle(
        "G20 F2 G81 X1 Y1 Z0 R0.1",
        &[
            "R 25.4 25.4 3",
            "R 25.4 25.4 2.54",
            "F 25.4 25.4 0",
            "R 25.4 25.4 3",
        ],
    );
    check_cycle(
        "G92 X0 Z1\nG81 X1 Z-1 R0.5",
        &["R 2 2 3", "R 2 2 2.5", "F 2 2 1", "R 2 2 3"],
    );
}

#[test]
fn what_is_not_said_of_a_cycle_is_doubted() {
    let text = |line: &str| format!("F1 G0 X0 Y0 Z5\n{line}\nM2");
    let replay = replay_of(&text("G81 X1 Z-1 R2"));
    assert_eq!(
        (replay.doubts[0].kind, replay.doubts[0].line),
        (DoubtKind::ReturnLevel, 2)
    );
    assert!(replay_of(&text("G81 X1 Z-1 R5")).doubts.is_empty());
    assert!(replay_of(&text("G99 G81 X1 Z-1 R2")).doubts.is_empty());
}

#[test]
fn cycles_that_cannot_be() {
    let without = |code, letter| Fault::CycleWithout { code, letter };
    for (lines, at, fault) in [
        ("G81 X1 R2", (2, 1), without("G81", 'Z')),
        ("G81 X1 Z-1", (2, 1), without("G81", 'R')),
        ("G82 X1 Z-1 R2", (2, 1), without("G82", 'P')),
        ("G82 X1 Z-1 R2 P-1", (2, 15), Fault::Negative('P')),
        ("G83 X1 Z-1 R2", (2, 1), without("G83", 'Q')),
        ("G83 X1 Z-1 R2 Q0", (2, 15), Fault::NotPositive('Q')),
        ("G83 X1 Z-1 R2 Q0.0001", (2, 1), Fault::TooManyPecks),
        ("G87 X1 Z-1 R2 I1 J1", (2, 1), without("G87", 'K')),
        ("G87 X1 Z-1 R2 I1 J1 K3", (2, 1), Fault::BackBoreLevel),
        ("G87 X1 Z-1 R2 I1 J1 K-2", (2, 1), Fault::BackBoreLevel),
        (
            "G81 X1 Z-1 R2 L0",
            (2, 15),
            Fault::BelowLimit {
                letter: 'L',
                least: 1,
            },
        ),
        ("G81 X1 Z-1 R2 L1.5", (2, 15), Fault::NotWhole('L')),
        ("G81 X1 Z-1 R2 L-1", (2, 15), Fault::Negative('L')),
        (
            "G81 X1 Z-1 R2 L10001",
            (2, 15),
            Fault::AboveLimit {
                letter: 'L',
                most: 10_000,
            },
        ),
        (
            "G81 X1 Z3 R2",
            (2, 1),
            Fault::CycleUpsideDown {
                code: "G81",
                r: 2.0,
                bottom: 3.0,
            },
        ),
        ("G81 R2", (2, 1), Fault::MotionWithoutAxes("G81")),
        ("G81 X1 Z-1 R2\nR3", (3, 1), Fault::UnusedWord('R')),
        ("G81 X1 Z-1 R2\nG82 X2 P1", (3, 1), without("G82", 'Z')),
        ("G81 X1 Z-1 R2\nG0 X0\nG81 X2", (4, 1), without("G81", 'Z')),
        ("G81 X1 Z-1 R2\nG20 X1", (3, 5), without("G81", 'Z')),
        ("G81 X1 Z-1 R2\nG91 X1", (3, 5), without("G81", 'Z')),
        ("G81 X1 Z-1 R2\nG18 X1", (3, 5), without("G81", 'Y')),
        ("G81 X1 Z-1 R2\nG80 X1", (3, 1), Fault::AxesWithoutMotion),
        ("F0 G81 X1 Z-1 R2", (2, 4), Fault::NoFeed),
        (
            "M5 G84 X1 Z-1 R2",
            (2, 4),
            Fault::CycleNeedsSpindle("G84", "M3"),
        ),
        (
            "M4 G84 X1 Z-1 R2",
            (2, 4),
            Fault::CycleNeedsSpindle("G84", "M3"),
        ),
        (
            "M5 G86 X1 Z-1 R2 P1",
            (2, 4),
            Fault::CycleNeedsSpindle("G86", "M3 or M4"),
        ),
        ("G55 G81 X1 Z-1 R2", (2, 5), Fault::CycleFromUntold),
    ] {
        check_fault(&format!("G98 F60 S1 M3 G0 X0 Y0 Z5\n{lines}"), at, fault);
    }
    check_fault("F1 G81 X1 Y1 Z-1 R2", (1, 4), Fault::CycleFromUntold);
    // A table of holes too large for any memory.
    let many = format!("G91 F1 G81 X1 Z-1 R1\n{}", "X1 L10000\n".repeat(100));
    assert_eq!(
        read(&many).expect_err("three million motions").fault,
        Fault::TooManyMotions
    );
}
