//! The reader against the rules of NISTIR 6556 (2000), named by section beside each check.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use geometry::arc_path::Turn;
use kurbo::Point;
use proptest::prelude::*;

use super::*;

fn replay_of(text: &str) -> Replay {
    read(text).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

#[track_caller]
fn check_fault(lines: &str, at: (usize, usize), expected: Fault) {
    match read(&format!("{lines}\nM2\n")) {
        Ok(_) => panic!("accepted: {lines}"),
        Err(error) => {
            assert_eq!(error.fault, expected, "{lines}");
            assert_eq!((error.line, error.column), at, "{lines}");
        }
    }
}

#[track_caller]
fn check_end(lines: &str, x: f64, y: f64, z: f64) {
    let replay = replay_of(&format!("{lines}\nM2\n"));
    let to = replay.motions.last().expect("a motion").to;
    let off = (to.xy - Point::new(x, y)).hypot().hypot(to.z - z);
    assert!(off < 1e-9, "{to:?}\n{lines}");
}

#[track_caller]
fn check_arc(lines: &str, expected_centre: (f64, f64), expected_turn: Turn, expected_sweep: f64) {
    let replay = replay_of(&format!("{lines}\nM2\n"));
    match replay.motions.last().map(|motion| motion.course) {
        Some(ReadCourse::Arc {
            centre,
            turn,
            sweep,
            ..
        }) => {
            let off = centre.distance(Point::from(expected_centre));
            assert!(off < 1e-4, "centre {centre:?}\n{lines}");
            assert_eq!(turn, expected_turn, "{lines}");
            assert!(
                (sweep - expected_sweep).abs() < 1e-4,
                "sweep {sweep}\n{lines}"
            );
        }
        other => panic!("no arc: {other:?}\n{lines}"),
    }
}

#[test]
fn blanks_and_case_count_for_nothing() {
    // §3.3: the report's own example.
    check_end("g0x +0. 12 34y 7", 0.1234, 7.0, 0.0);
    check_end("\t G 0\tX-1\t.5 \r\n\n  \n", -1.5, 0.0, 0.0);
    check_end("/ N 12 G00 x.5 y+.25 z5.", 0.5, 0.25, 5.0);
}

#[test]
fn line_numbers_come_first_and_have_five_digits() {
    // §3.3.1.
    check_end("N99999 G0 X1", 1.0, 0.0, 0.0);
    check_fault("N100000 G0 X1", (1, 1), Fault::LineNumber);
    check_fault("N-1 G0 X1", (1, 1), Fault::LineNumber);
    check_fault("N1.5 G0 X1", (1, 1), Fault::LineNumber);
    check_fault("G0 X1 N10", (1, 7), Fault::LineNumberNotFirst);
}

#[test]
fn numbers_have_digits_and_no_exponent() {
    // §3.3.2.1.
    check_fault("G0 X", (1, 4), Fault::NoNumber('X'));
    check_fault("G0 X-", (1, 4), Fault::NoNumber('X'));
    check_fault("G0 X.", (1, 4), Fault::NoNumber('X'));
    check_fault("G0 X1.2.3", (1, 8), Fault::UnexpectedCharacter('.'));
    check_fault("G0 X--1", (1, 4), Fault::NoNumber('X'));
    check_fault("G0 X1,5", (1, 6), Fault::UnexpectedCharacter(','));
    check_fault("G0 X1E3", (1, 6), Fault::UnknownLetter('E'));
    check_fault("G0 X#5", (1, 4), Fault::Parameter);
    check_fault("G0 X[1+2]", (1, 4), Fault::Expression);
    check_fault("#1=5", (1, 1), Fault::Parameter);
    check_fault("G0 X99999999999", (1, 4), Fault::NumberTooLarge('X'));
    check_fault(
        "G0 X1000000000000000000000000",
        (1, 4),
        Fault::NumberTooLarge('X'),
    );
    check_end(
        "G0 X0.000000000000000000000000000000001 Y00000000000000000000002",
        0.0,
        2.0,
        0.0,
    );
    check_end(
        "G0 X1.23456789012345678901234567890",
        1.234_567_890_123_456_7,
        0.0,
        0.0,
    );
}

proptest! {
    #[test]
    fn numbers_are_read_as_the_standard_library_reads_them(value in -2000.0..2000.0, decimals in 0_usize..9) {
        let number = format!("{value:.decimals$}");
        let replay = replay_of(&format!("G0 X{number}\nM2"));
        let expected: f64 = number.parse().expect("a decimal number");
        prop_assert_eq!(replay.motions[0].to.xy.x, expected);
    }
}

#[test]
fn comments_close_on_their_line_and_do_not_nest() {
    // §3.3.4.
    check_end("(first) G0 (second) X1 (MSG, third)", 1.0, 0.0, 0.0);
    check_end("(größer als ASCII) G0 X1", 1.0, 0.0, 0.0);
    check_fault("(a (b) c)", (1, 4), Fault::NestedComment);
    check_fault("G0 X1 (abc", (1, 7), Fault::UnclosedComment);
    check_fault("G0 X1 abc)", (1, 7), Fault::RotaryAxis('A'));
    check_fault("G0 X1 )", (1, 7), Fault::UnexpectedCharacter(')'));
    check_fault("G0 X1 ; c", (1, 7), Fault::Semicolon);
    check_fault("(ä) ; c", (1, 5), Fault::Semicolon);
}

#[test]
fn lines_have_a_greatest_length() {
    // §3.3: 256 characters with the end of the line.
    let longest = format!("G0 X1 ({})", "c".repeat(247));
    assert_eq!(longest.len(), 255);
    check_end(&longest, 1.0, 0.0, 0.0);
    check_fault(&format!("{longest} "), (1, 257), Fault::LineTooLong);
}

#[test]
fn words_stand_once_and_groups_do_not_clash() {
    // §3.3.2, table 4.
    check_fault("G0 X1 X2", (1, 7), Fault::LetterTwice('X'));
    check_fault(
        "G0 G1 X1",
        (1, 4),
        Fault::SameGroup {
            first: "G0",
            second: "G1",
            group: "motion",
        },
    );
    check_fault(
        "M3 M5",
        (1, 4),
        Fault::SameGroup {
            first: "M3",
            second: "M5",
            group: "spindle",
        },
    );
    check_fault("M3 M8 M48 M6 M0", (1, 14), Fault::TooManyM);
    check_end("G21 G17 G90 G94 G40 G49 G54 G64 G98 G0 X1", 1.0, 0.0, 0.0);
}

#[test]
fn unknown_and_unsupported_codes_are_refused() {
    check_fault(
        "G90.1",
        (1, 1),
        Fault::UnknownCode {
            letter: 'G',
            value: 90.1,
        },
    );
    check_fault(
        "G5 X1",
        (1, 1),
        Fault::UnknownCode {
            letter: 'G',
            value: 5.0,
        },
    );
    check_fault(
        "G1.15",
        (1, 1),
        Fault::UnknownCode {
            letter: 'G',
            value: 1.15,
        },
    );
    check_fault(
        "M10",
        (1, 1),
        Fault::UnknownCode {
            letter: 'M',
            value: 10.0,
        },
    );
    check_fault("M-3", (1, 1), Fault::Negative('M'));
    for code in [
        "G10", "G28", "G30", "G38.2", "G41", "G42", "G53", "G81", "G82", "G83", "G84", "G85",
        "G86", "G87", "G88", "G89", "G92", "G92.1", "G92.2", "G92.3", "G93",
    ] {
        let error = read(&format!("{code}\nM2\n")).expect_err(code);
        assert!(
            matches!(error.fault, Fault::Unsupported { code: named, .. } if named == code),
            "{code}: {error}"
        );
    }
    check_fault("G0 A90", (1, 4), Fault::RotaryAxis('A'));
    check_fault("G0 U1", (1, 4), Fault::UnknownLetter('U'));
}

#[test]
fn words_without_a_user_are_refused() {
    for (line, column, letter) in [
        ("G0 X1 I2", 7, 'I'),
        ("G1 X1 F1 R2", 10, 'R'),
        ("G0 X1 P2", 7, 'P'),
        ("G0 X1 H2", 7, 'H'),
        ("G0 X1 L2", 7, 'L'),
        ("G0 X1 Q2", 7, 'Q'),
        ("G0 X1 D2", 7, 'D'),
        ("G49 H1", 5, 'H'),
    ] {
        check_fault(line, (1, column), Fault::UnusedWord(letter));
    }
}

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
fn arcs_by_their_centre() {
    // §3.5.3.2.
    let start = "F100 G0 X0 Y0\n";
    check_arc(
        &format!("{start}G2 X10 Y0 I5 J0"),
        (5.0, 0.0),
        Turn::Right,
        PI,
    );
    check_arc(&format!("{start}G3 X10 Y0 I5"), (5.0, 0.0), Turn::Left, PI);
    check_arc(&format!("{start}G2 X0 Y0 I5"), (5.0, 0.0), Turn::Right, TAU);
    check_arc(
        &format!("{start}G3 X5 Y5 I0 J5"),
        (0.0, 5.0),
        Turn::Left,
        FRAC_PI_2,
    );
    check_arc(
        &format!("{start}G2 X5 Y5 I0 J5"),
        (0.0, 5.0),
        Turn::Right,
        1.5 * PI,
    );
    // The report's helix: from (7, 7, 9), centre (10, 11).
    check_arc(
        "F100 G0 X7 Y7 Z9\nG17 G2 X10 Y16 I3 J4 Z9",
        (10.0, 11.0),
        Turn::Right,
        FRAC_PI_2 + (4.0_f64 / 3.0).atan(),
    );
    // Offsets are increments under G91 too (§3.5.17).
    check_arc(
        "F100 G91 G0 X3 Y0\nG2 X10 Y0 I5",
        (8.0, 0.0),
        Turn::Right,
        PI,
    );
}

#[test]
fn arcs_by_their_radius() {
    // §3.5.3.1; the first is the report's example.
    check_arc(
        "F100 G0 X0 Y0 Z5\nG17 G2 X10 Y15 R20 Z5",
        (19.8551, -2.4034),
        Turn::Right,
        2.0 * (325.0_f64.sqrt() / 40.0).asin(),
    );
    let start = "F100 G0 X0 Y0\n";
    let small = 2.0 * (5.0_f64 / 6.0).asin();
    check_arc(
        &format!("{start}G2 X10 Y0 R6"),
        (5.0, -3.3166),
        Turn::Right,
        small,
    );
    check_arc(
        &format!("{start}G2 X10 Y0 R-6"),
        (5.0, 3.3166),
        Turn::Right,
        TAU - small,
    );
    check_arc(
        &format!("{start}G3 X10 Y0 R6"),
        (5.0, 3.3166),
        Turn::Left,
        small,
    );
    check_arc(
        &format!("{start}G3 X10 Y0 R-6"),
        (5.0, -3.3166),
        Turn::Left,
        TAU - small,
    );
    check_arc(&format!("{start}G3 X10 Y0 R5"), (5.0, 0.0), Turn::Left, PI);
}

#[test]
fn arcs_that_cannot_be() {
    let start = "F100 G0 X0 Y0\n";
    let fault = |line: &str, column: usize, fault: Fault| {
        check_fault(&format!("{start}{line}"), (2, column), fault);
    };
    fault("G2 X10 Y0", 1, Fault::ArcWithoutCentre);
    fault("G2 Z1 I5", 1, Fault::ArcWithoutEnd);
    fault("G2 X10 Y0 I5 K1", 14, Fault::ArcOffsetK);
    fault("G2 X10 Y0 I5 R5", 1, Fault::ArcMixedForms);
    fault("G2 X10 Y0 R0", 1, Fault::ArcZeroRadius);
    fault("G2 X10 Y0 I0 J0", 1, Fault::ArcZeroRadius);
    fault("G2 X0 Y0 R5", 1, Fault::ArcRadiusFullCircle);
    fault("G18 G2 X10 Y0 I5", 5, Fault::ArcPlane);
    fault(
        "G2 X10 Y0 R4.9",
        1,
        Fault::ArcRadiusTooSmall {
            chord: 10.0,
            radius: 4.9,
        },
    );
    fault(
        "G2 X10.5 Y0 I5",
        1,
        Fault::ArcRadiiDiffer {
            start: 5.0,
            end: 5.5,
            tolerance: 0.002,
        },
    );
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
fn steps_come_in_the_standards_order() {
    // Table 8.
    let line = "g21 g1 x5 m3 s1000 f200 t2 m6 m8 (hi) g90 g17 g40 g49 g54 g64 g94";
    let steps: Vec<Step> = steps(&format!("{line}\nM2"))
        .expect("a program")
        .into_iter()
        .filter_map(|(line, step)| (line == 1).then_some(step))
        .collect();
    assert_eq!(
        steps,
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
    let replay = replay_of(&format!("{line}\nM2"));
    assert_eq!(replay.tool_changes[0].tool, 2);
    assert_eq!(
        replay.motions[0].spindle,
        Spindle::Clockwise { rpm: 1000.0 }
    );
    assert_eq!(replay.motions[0].feed_mm_min(), Some(200.0));
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
fn one_work_system_for_all_motions() {
    assert_eq!(replay_of("G59.3 G0 X1\nM2").work_system, 9);
    check_end("G0 X1\nG54\nX2", 2.0, 0.0, 0.0);
    check_fault("G0 X1\nG55\nX2", (2, 1), Fault::WorkSystemChanged);
}

#[test]
fn percent_signs_frame_a_program() {
    // §3.1.
    let replay = replay_of("\n % \nG0 X1\n%\nnonsense");
    assert_eq!((replay.end.line, replay.end.ending), (4, Ending::Percent));
    assert_eq!(replay_of("%\nG0 X1\nM2\n").end.ending, Ending::M2);
    check_fault("G0 X1\n%", (2, 2), Fault::StrayPercent);
    let fault = |text: &str| read(text).expect_err(text).fault;
    assert_eq!(fault("%\nG0 X1\n"), Fault::PercentNotClosed);
    assert_eq!(fault("G0 X1\n"), Fault::NoEnd);
    assert_eq!(fault(""), Fault::NoEnd);
    assert_eq!(fault("% G0 X1\nM2"), Fault::UnexpectedCharacter('%'));
    // Nothing after the end is carried out (§3.6.1).
    assert_eq!(replay_of("G0 X1\nM30\nnonsense").motions.len(), 1);
}

#[test]
fn optional_lines_are_carried_out_and_listed() {
    let replay = replay_of("G0 X1\n/G0 X2\nM2");
    assert_eq!(replay.motions.len(), 2);
    assert_eq!(replay.optional_lines, [2]);
}

/// A program that holds a little of everything.
const PROGRAM: &str = "%\nN10 G21 G17 G90 (head)\n/S1000 M3 F200\nG0 X1.5 Y-2 Z5\nG1 Z-1\nG2 X3 Y-2 I0.75 J0\n\
    G3 X3 Y-2 I5 J0 Z-2\nG91 G1 X1\nG4 P1\nM0\nG20 G0 Z1\nM5\nM30\n%\n";

/// A change of one character: where, which kind, and the new one.
fn changes() -> impl Strategy<Value = Vec<(usize, u8, u8)>> {
    let character = prop::sample::select(b"GXYZIJRFMNSTP0123456789.-+()%/\n #".to_vec());
    prop::collection::vec((0..PROGRAM.len(), 0_u8..3, character), 1..5)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4_000))]
    #[test]
    fn odd_text_is_read_or_refused_with_its_place(changes in changes()) {
        let mut bytes = PROGRAM.as_bytes().to_vec();
        for (at, kind, character) in changes {
            let at = at.min(bytes.len() - 1);
            match kind {
                0 => bytes[at] = character,
                1 => bytes.insert(at, character),
                _ => {
                    bytes.remove(at);
                }
            }
        }
        let text = String::from_utf8_lossy(&bytes);
        match read(&text) {
            Ok(replay) => {
                prop_assert!(replay.motions.iter().all(|motion| motion.length_mm().is_finite()));
            }
            Err(error) => {
                let lines = text.split('\n').count();
                prop_assert!(error.line <= lines && !error.to_string().is_empty());
            }
        }
    }
}

#[test]
fn hostile_text_is_refused_soon() {
    let fault = |text: &str| read(text).expect_err("hostile").fault;
    assert_eq!(fault(&"X".repeat(5_000_000)), Fault::LineTooLong);
    assert_eq!(fault(&"\n".repeat(MOST_LINES + 10)), Fault::NoEnd);
    assert_eq!(fault(&"(a)\n".repeat(MOST_LINES + 10)), Fault::TooManyLines);
}
