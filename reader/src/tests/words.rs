//! Words and codes: what may stand on a line together.

use super::*;

#[test]
fn words_stand_once_and_groups_do_not_clash() {
    // §3.3.2, table 4.
    check_fault("G0 X1 X2", (1, 7), Fault::LetterTwice('X'));
    for (line, column, first, second, group) in [
        ("G0 G1 X1", 4, "G0", "G1", Group::Motion),
        ("G81 G80", 5, "G81", "G80", Group::Motion),
        ("G0 G38.2 X1", 4, "G0", "G38.2", Group::Motion),
        ("G17 G18", 5, "G17", "G18", Group::Plane),
        ("G90 G91", 5, "G90", "G91", Group::DistanceMode),
        ("G93 G94", 5, "G93", "G94", Group::FeedMode),
        ("G20 G21", 5, "G20", "G21", Group::Units),
        ("G40 G40", 5, "G40", "G40", Group::RadiusCompensation),
        ("G43 G49 H1", 5, "G43", "G49", Group::LengthOffset),
        ("G98 G99", 5, "G98", "G99", Group::ReturnMode),
        ("G54 G59.3", 5, "G54", "G59.3", Group::WorkSystem),
        ("G61 G61.1", 5, "G61", "G61.1", Group::PathControl),
        ("G4 G53 P1 G0 X1", 4, "G4", "G53", Group::OwnLine),
        ("G10 G92 L2 P1 X1", 5, "G10", "G92", Group::OwnLine),
        ("G28 G92.1", 5, "G28", "G92.1", Group::OwnLine),
        ("M3 M5", 4, "M3", "M5", Group::Spindle),
        ("M7 M8", 4, "M7", "M8", Group::Coolant),
        ("M48 M49", 5, "M48", "M49", Group::Overrides),
        ("M0 M30", 4, "M0", "M30", Group::Stop),
        ("M6 M6", 4, "M6", "M6", Group::ChangeTool),
    ] {
        let fault = Fault::SameGroup {
            first,
            second,
            group,
        };
        check_fault(line, (1, column), fault);
    }
    check_fault("M3 M8 M48 M6 M0", (1, 14), Fault::TooManyM);
    check_end("G21 G17 G90 G94 G40 G49 G54 G64 G98 G0 X1", 1.0, 0.0, 0.0);
}

#[test]
fn two_codes_cannot_share_the_axis_words() {
    // §3.3.5 (from memory).
    for (line, column, first, second) in [
        ("G92 G0 X1", 5, "G92", "G0"),
        ("G1 G28 X1", 1, "G28", "G1"),
        ("G10 L2 P1 G81 X1", 11, "G10", "G81"),
    ] {
        check_fault(line, (1, column), Fault::TwoUsersOfAxes { first, second });
    }
    replay_of("G0 X1\nG80 G92 X3\nG92.1 G0 X2\nM2");
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
    for code in ["G41", "G42"] {
        let error = read(&format!("{code} D1\nM2\n")).expect_err(code);
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
        ("G81 X1 Z-1 R1 Q1", 15, 'Q'),
        ("G81 X1 Z-1 R1 P1", 15, 'P'),
        ("G83 X1 Z-1 R1 Q1 I1", 18, 'I'),
        ("G92 X1 P1", 8, 'P'),
        ("G28 L1", 5, 'L'),
        ("G10 L2 P1 R1", 11, 'R'),
        ("R1", 1, 'R'),
    ] {
        check_fault(line, (1, column), Fault::UnusedWord(letter));
    }
}
