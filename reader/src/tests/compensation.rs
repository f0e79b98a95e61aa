//! Cutter radius compensation, by NISTIR 6556 (2000) §3.5.10 and appendix B (from memory); places and lengths by hand.

use std::f64::consts::{FRAC_PI_2, PI};

use super::*;

/// Cutters of 6 mm in slot 1, of 6 mm with the sign turned in slot 2, of an inch in slot 3.
pub(super) fn cutters() -> CutterTable {
    let mut cutters = CutterTable::default();
    for (slot, diameter_mm) in [(1, 6.0), (2, -6.0), (3, 25.4)] {
        cutters.tell(slot, diameter_mm).expect("a cutter");
    }
    cutters
}

#[track_caller]
pub(super) fn led(lines: &str) -> Replay {
    let text = format!("{lines}\nM2\n");
    read_with(&text, &cutters()).unwrap_or_else(|error| panic!("{error}\n{lines}"))
}

#[track_caller]
fn check_places(replay: &Replay, wanted: &[(f64, f64)]) {
    let found: Vec<Point> = replay.motions.iter().map(|motion| motion.to.xy).collect();
    assert_eq!(found.len(), wanted.len(), "{found:?}");
    for (found, wanted) in found.iter().zip(wanted) {
        assert!(
            found.distance(Point::from(*wanted)) < 1e-9,
            "{found:?} for {wanted:?}"
        );
    }
}

/// The fault of the last line.
#[track_caller]
fn check_refused(lines: &str, column: usize, expected: Fault) {
    let error = read_with(&format!("{lines}\nM2\n"), &cutters()).expect_err(lines);
    assert_eq!(error.fault, expected, "{lines}");
    assert_eq!(
        (error.line, error.column),
        (lines.lines().count(), column),
        "{lines}"
    );
}

pub(super) fn length_mm(motions: &[ReadMotion]) -> f64 {
    motions.iter().map(ReadMotion::length_mm).sum()
}

#[test]
fn the_entry_is_the_long_short_side_of_a_triangle() {
    // Sides 3, 4 and 5: the radius, the motion, and the programmed way.
    for (code, y) in [
        ("G41 D1", 2.4),
        ("G42 D1", -2.4),
        ("G41 D2", -2.4),
        ("G42 D2", 2.4),
    ] {
        for motion in ["G0", "G1 F100"] {
            let replay = led(&format!("G0 X0 Y0\n{code} {motion} X5 Y0"));
            check_places(&replay, &[(0.0, 0.0), (3.2, y)]);
            assert!((replay.motions[1].length_mm() - 4.0).abs() < 1e-9);
        }
    }
    let [on] = led("G0 X0 Y0\nG42 D2 G0 X9").compensations[..] else {
        panic!("it is switched on once")
    };
    assert_eq!((on.side, on.slot, on.radius_mm), (Side::Left, 2, 3.0));
    assert_eq!((on.before, on.line), (1, 2));
}

#[test]
fn round_a_square_corners_are_arcs() {
    let replay = led("F100 G0 X-5 Y-3\nG42 D1 G1 X0 Y0\nX10\nY10\nX0\nY0\nG40 G0 X-20");
    check_places(
        &replay,
        &[
            (-5.0, -3.0),
            (0.0, -3.0),
            (10.0, -3.0),
            (13.0, 0.0),
            (13.0, 10.0),
            (10.0, 13.0),
            (0.0, 13.0),
            (-3.0, 10.0),
            (-3.0, 0.0),
            (-20.0, 0.0),
        ],
    );
    let round = replay
        .motions
        .iter()
        .filter_map(|motion| match motion.course {
            ReadCourse::Arc {
                centre,
                turn,
                sweep,
                ..
            } => Some((centre, turn, sweep)),
            ReadCourse::Rapid | ReadCourse::Line { .. } => None,
        });
    let corners = [(10.0, 0.0), (10.0, 10.0), (0.0, 10.0)];
    assert_eq!(round.clone().count(), corners.len());
    for ((centre, turn, sweep), corner) in round.zip(corners) {
        assert!(centre.distance(Point::from(corner)) < 1e-9 && turn == Turn::Left);
        assert!((sweep - FRAC_PI_2).abs() < 1e-9);
    }
    let cut = &replay.motions[1..9];
    assert!((length_mm(cut) - (5.0 + 40.0 + 3.0 * 3.0 * FRAC_PI_2)).abs() < 1e-9);
    // The corner belongs to the line that begins there.
    assert_eq!(
        cut.iter().map(|motion| motion.line).collect::<Vec<_>>(),
        [2, 3, 4, 4, 5, 5, 6, 6]
    );
}

#[test]
fn inside_a_square_corners_have_to_be_round() {
    let begin = "F100 G0 X6 Y3\nG41 D1 G1 X10 Y0";
    let inner = |degrees: f64| Fault::InnerCorner {
        degrees,
        radius: 3.0,
    };
    check_refused(&format!("{begin}\nX20\nY20"), 1, inner(90.0));
    // Corners of 5 mm: the cutter goes round them at 2 mm.
    let replay = led(&format!(
        "{begin}\nX15\nG3 X20 Y5 J5\nG1 Y15\nG3 X15 Y20 I-5\nG1 X5\nG3 X0 Y15 J-5\nG1 Y5\nG3 X5 Y0 R5\nG1 X10"
    ));
    check_places(
        &replay,
        &[
            (6.0, 3.0),
            (10.0, 3.0),
            (15.0, 3.0),
            (17.0, 5.0),
            (17.0, 15.0),
            (15.0, 17.0),
            (5.0, 17.0),
            (3.0, 15.0),
            (3.0, 5.0),
            (5.0, 3.0),
            (10.0, 3.0),
        ],
    );
    assert!((length_mm(&replay.motions[2..]) - (40.0 + 4.0 * PI)).abs() < 1e-9);
    for radius in [3.0, 2.5] {
        let fault = Fault::ArcWithinCutter {
            arc: radius,
            cutter: 3.0,
        };
        check_refused(
            &format!("{begin}\nX15\nG3 X{} Y{radius} J{radius}", 15.0 + radius),
            1,
            fault,
        );
    }
}

#[test]
fn a_disc_is_followed_round_about() {
    // A disc of 5 mm about 0, 0, from its left: clockwise outside, then the same as a hole of 5 mm inside.
    let replay = led("F100 G0 X-8 Y-4\nG41 D1 G1 X-5 Y0\nG2 X-5 Y0 I5\nX-5 Y0 I5 Z-1");
    check_places(
        &replay,
        &[(-8.0, -4.0), (-8.0, 0.0), (-8.0, 0.0), (-8.0, 0.0)],
    );
    assert!((replay.motions[2].length_mm() - 16.0 * PI).abs() < 1e-9);
    assert!((replay.motions[3].length_mm() - (16.0 * PI).hypot(1.0)).abs() < 1e-9);
    let replay = led("F100 G0 X-2 Y-4\nG42 D1 G1 X-5 Y0\nG2 X-5 Y0 I5");
    check_places(&replay, &[(-2.0, -4.0), (-2.0, 0.0), (-2.0, 0.0)]);
    assert!((replay.motions[2].length_mm() - 4.0 * PI).abs() < 1e-9);
}

#[test]
fn an_arc_begins_where_its_circle_touches_the_cutter() {
    // Into a hole of 10 mm about 0, 0, by a quarter of a circle of 5 mm about 5, 0 that touches the cutter at 5, -5.
    for words in ["I0 J2", "R5"] {
        let replay = led(&format!(
            "F100 G0 X5 Y-2 Z0\nG41 D1 G3 X10 Y0 {words} Z-2\nX10 Y0 I-10"
        ));
        check_places(&replay, &[(5.0, -2.0), (7.0, 0.0), (7.0, 0.0)]);
        assert!((replay.motions[1].length_mm() - PI.hypot(2.0)).abs() < 1e-9);
        assert!((replay.motions[2].length_mm() - 14.0 * PI).abs() < 1e-9);
    }
    // About a disc of 5 mm from outside: the cutter's centre is 8 mm from the arc's, at which a quarter turn takes it.
    for words in ["I8 J0", "R5"] {
        let replay = led(&format!("F100 G0 X-8 Y0\nG41 D1 G2 X0 Y5 {words}"));
        check_places(&replay, &[(-8.0, 0.0), (0.0, 8.0)]);
        assert!((replay.motions[1].length_mm() - 4.0 * PI).abs() < 1e-9);
    }
    let off = read_with("F100 G0 X5 Y-2\nG41 D1 G3 X10 Y0 J2.5\nM2\n", &cutters());
    let Fault::EntryArc { found, wanted } = off.expect_err("half a millimetre off").fault else {
        panic!("another fault")
    };
    assert!((found - 2.5).abs() < 1e-9 && (wanted - (25.25_f64.sqrt() - 3.0)).abs() < 1e-9);
    let fault = Fault::ArcWithinCutter {
        arc: 3.0,
        cutter: 3.0,
    };
    check_refused("F100 G0 X0 Y0\nG41 D1 G3 X6 Y0 R3", 8, fault);
    let far = Fault::ArcRadiusTooSmall {
        chord: 30.0,
        radius: 5.0,
    };
    check_refused("F100 G0 X0 Y0\nG41 D1 G3 X30 Y0 R5", 8, far);
    check_refused(
        "F100 G0 X0 Y0\nG41 D1 G3 X30 Y0 R0",
        8,
        Fault::ArcZeroRadius,
    );
    check_refused(
        "F100 G0 X0 Y0\nG41 D1 G3 X30 Y0 I0 J0",
        8,
        Fault::ArcZeroRadius,
    );
}

#[test]
fn corners_between_lines_and_arcs_are_judged_by_their_angle() {
    // Along x, then an arc of 5 mm that begins square to it, away from the cutter and towards it.
    let begin = "F100 G0 X-5 Y-3\nG42 D1 G1 X0 Y0\nX10";
    let replay = led(&format!("{begin}\nG3 X5 Y5 I-5"));
    check_places(
        &replay,
        &[
            (-5.0, -3.0),
            (0.0, -3.0),
            (10.0, -3.0),
            (13.0, 0.0),
            (5.0, 8.0),
        ],
    );
    let inner = Fault::InnerCorner {
        degrees: 90.0,
        radius: 3.0,
    };
    check_refused(&format!("{begin}\nG2 X5 Y-5 I-5"), 1, inner);
    // Straight back: half a turn about the end.
    let replay = led(&format!("{begin}\nX0"));
    check_places(
        &replay,
        &[
            (-5.0, -3.0),
            (0.0, -3.0),
            (10.0, -3.0),
            (10.0, 3.0),
            (0.0, 3.0),
        ],
    );
    // Turns of 0.009 are no corners either way, those of 0.011 are.
    let turned = |angle: f64| {
        format!(
            "{begin}\nX{:.6} Y{:.6}",
            10.0 + 10.0 * angle.cos(),
            10.0 * angle.sin()
        )
    };
    assert_eq!(led(&turned(0.009)).motions.len(), 4);
    assert_eq!(led(&turned(-0.009)).motions.len(), 4);
    assert_eq!(led(&turned(0.011)).motions.len(), 5);
    let error = read_with(&format!("{}\nM2\n", turned(-0.011)), &cutters()).expect_err("inner");
    assert!(matches!(error.fault, Fault::InnerCorner { .. }), "{error}");
}

#[test]
fn arcs_after_slight_corners_go_on_from_where_the_cutter_stands() {
    // The line comes in at 0.008 to the arc's beginning; the cutter is up to 0.024 mm from where the arc should have it.
    for slope in [-0.008_f64, 0.008] {
        let y = -10.0 * slope.tan();
        let replay = led(&format!(
            "F100 G0 X-20 Y{y}\nG42 D1 G1 X-10 Y{y}\nX0 Y0\nG3 X5 Y5 J5"
        ));
        let Some(ReadMotion {
            from,
            to,
            course: ReadCourse::Arc { centre, sweep, .. },
            ..
        }) = replay.motions.last()
        else {
            panic!("no arc")
        };
        assert!(to.xy.distance(Point::new(8.0, 5.0)) < 1e-9);
        let (a, b) = (from.xy - *centre, to.xy - *centre);
        assert!((a.hypot() - b.hypot()).abs() < 2e-4);
        assert!((a.cross(b).atan2(a.dot(b)) - sweep).abs() < 1e-12);
        assert!((sweep - FRAC_PI_2).abs() < 0.004);
    }
    // Inside an arc of 0.01 mm, whose end the cutter has passed by 0.02 mm when the arc begins.
    let text = "F100 G0 X-20 Y0.08\nG41 D1 G1 X-10 Y0.08\nX0 Y0\nG3 X0.01 Y0.00001 J5";
    check_refused(text, 1, Fault::ArcTooShortForCutter);
}

#[test]
fn words_count_from_the_programmed_path() {
    // The same square by places and by increments, in millimetres and in inches.
    let places = led("F100 G0 X-5 Y-3\nG42 D1 G1 X0 Y0\nX10\nY10\nG40 X5\nY5");
    let increments = led("F100 G0 X-5 Y-3\nG91 G42 D1 G1 X5 Y3\nX10\nY10\nG40 X-8\nY-5");
    for (a, b) in places.motions.iter().zip(&increments.motions) {
        assert!(a.to.xy.distance(b.to.xy) < 1e-9, "{a:?} and {b:?}");
    }
    assert_eq!(places.motions.len(), increments.motions.len());
    // After G40 the increment counts from where the cutter stands, 3 mm beside the path.
    check_places(
        &led("F100 G0 X-5 Y-3\nG42 D1 G1 X0 Y0\nX10\nG40 G91 Y1"),
        &[(-5.0, -3.0), (0.0, -3.0), (10.0, -3.0), (10.0, -2.0)],
    );
    // Increments from a place that only the machine knows are enough.
    check_places(&led("G91 G41 D1 G0 X5"), &[(3.2, 2.4)]);
    let inches = led("G20 F10 G0 X-2 Y-0.5\nG42 D3 G1 X0 Y0\nX1\nY1");
    let last = inches.motions.last().expect("motions").to.xy;
    assert!(
        last.distance(Point::new(1.5 * 25.4, 25.4)) < 1e-9,
        "{last:?}"
    );
    let entry = inches.motions[1];
    assert!((entry.to.xy.to_vec2().hypot() - 12.7).abs() < 1e-9);
}

#[test]
fn heights_change_along_the_way_and_not_at_corners() {
    let replay = led("F100 G0 X-5 Y-3 Z5\nG42 D1 G1 X0 Y0 Z0\nX10 Z-1\nZ-2\nY10 Z-3\nM2");
    let heights: Vec<f64> = replay.motions.iter().map(|motion| motion.to.z).collect();
    assert_eq!(heights, [5.0, 0.0, -1.0, -2.0, -2.0, -3.0]);
    let still = replay.motions[3];
    assert_eq!(still.from.xy, still.to.xy);
    // Nor does a way of rounding lead anywhere.
    let replay = led("F100 G0 X-5 Y-3\nG42 D1 G1 X0 Y0\nX10\nY-0.0000000001\nX20");
    check_places(
        &replay,
        &[
            (-5.0, -3.0),
            (0.0, -3.0),
            (10.0, -3.0),
            (10.0, -3.0),
            (20.0, -3.0),
        ],
    );
    // Up or down alone does not lead away from the cutter's place, so it cannot begin compensation.
    let short = |way: f64| Fault::EntryTooShort { way, radius: 3.0 };
    check_refused("F100 G0 X0 Y0 Z0\nG41 D1 G1 Z-1", 8, short(0.0));
    check_refused("F100 G0 X0 Y0\nG41 D1 G1 X3", 8, short(3.0));
    check_refused("F100 G0 X0 Y0\nG41 D1 G3 X2 R4", 8, short(2.0));
}

#[test]
fn inverse_time_is_that_of_the_corner_and_the_line() {
    let replay = led("G0 X-5 Y-3 Z0\nG93 G42 D1 G1 X0 Y0 F10\nX10 F2\nY10 F4");
    let minutes = |motions: &[ReadMotion]| -> f64 {
        let each = motions
            .iter()
            .map(|motion| motion.length_mm() / motion.feed_mm_min().expect("a feed"));
        each.sum()
    };
    assert!((minutes(&replay.motions[1..2]) - 0.1).abs() < 1e-12);
    assert!((minutes(&replay.motions[2..3]) - 0.5).abs() < 1e-12);
    assert!((minutes(&replay.motions[3..5]) - 0.25).abs() < 1e-12);
}

#[test]
fn the_cutter_is_that_of_d_or_the_one_in_the_spindle() {
    let entry = |replay: &Replay| replay.motions[1].to.xy;
    let begin = "G0 X0 Y0\n";
    assert_eq!(
        entry(&led(&format!("{begin}T1 M6\nG41 G0 X5"))),
        Point::new(3.2, 2.4)
    );
    assert_eq!(
        entry(&led(&format!("{begin}T2 M6\nG41 D1 G0 X5"))),
        Point::new(3.2, 2.4)
    );
    // Slot 0 has no diameter, and a radius of 0 leaves the path as it is.
    for lines in ["G41 D0 G0 X2", "T0 M6\nG42 G0 X2"] {
        assert_eq!(
            entry(&led(&format!("{begin}{lines}"))),
            Point::new(2.0, 0.0)
        );
    }
    let not_told = |code, slot| Fault::CutterNotTold { code, slot };
    check_refused("G41 D7", 1, not_told("G41", 7));
    check_refused("T9 M6\nG42", 1, not_told("G42", 9));
    check_refused("T1\nG42", 1, Fault::CutterInSpindleNotTold("G42"));
    check_refused("G41 D1.5", 5, Fault::NotWhole('D'));
    check_refused("G41 D-1", 5, Fault::Negative('D'));
    let most = Fault::AboveLimit {
        letter: 'D',
        most: MOST_SLOTS,
    };
    check_refused("G41 D129", 5, most);
    check_refused("G40 D1", 5, Fault::UnusedWord('D'));
    check_refused("D1", 1, Fault::UnusedWord('D'));
    // A cutter changed under way leaves the radius in doubt; so does a rapid motion at a corner.
    let replay = led("G0 X-5 Y-3\nG42 D1 G0 X0 Y0\nX10\nT1 M6\nY10");
    let doubts: Vec<(DoubtKind, usize)> = replay
        .doubts
        .iter()
        .map(|doubt| (doubt.kind, doubt.line))
        .collect();
    assert_eq!(
        doubts,
        [
            (DoubtKind::CutterUnderCompensation, 4),
            (DoubtKind::RapidAtCorner, 5)
        ]
    );
    assert_eq!(replay.motions.len(), 4);
}

#[test]
fn without_a_table_compensation_is_refused() {
    for (line, code) in [("G41 D1", "G41"), ("G42", "G42"), ("G41 D0", "G41")] {
        let error = read(&format!("{line}\nM2\n")).expect_err(line);
        assert!(
            matches!(error.fault, Fault::Unsupported { code: named, .. } if named == code),
            "{line}: {error}"
        );
    }
    assert!(read("G40\nM2\n").is_ok());
}

#[test]
fn a_table_holds_cutters_that_can_be() {
    let mut table = CutterTable::default();
    assert_eq!(table.tell(0, 6.0), Err(CutterTableError::Slot(0)));
    assert_eq!(table.tell(129, 6.0), Err(CutterTableError::Slot(129)));
    assert_eq!(
        table.tell(128, 1000.1),
        Err(CutterTableError::Diameter(1000.1))
    );
    assert!(table.tell(128, f64::NAN).is_err());
    assert_eq!(table.tell(128, 6.0), Ok(()));
    assert_eq!(table.tell(128, 6.0), Err(CutterTableError::Twice(128)));
}

#[test]
fn what_may_not_be_used_under_compensation_is_refused() {
    let begin = "F100 S100 M3 G0 X0 Y0 Z0\nG41 D1";
    for (line, code, column) in [
        ("G18", "G18", 1),
        ("G19", "G19", 1),
        ("G20", "G20", 1),
        ("G21", "G21", 1),
        ("G54", "G54", 1),
        ("G59.3", "G59.3", 1),
        ("G10 L2 P1 X1", "G10", 1),
        ("G28", "G28", 1),
        ("G30 X1", "G30", 1),
        ("G92 X1", "G92", 1),
        ("G92.1", "G92.1", 1),
        ("G92.2", "G92.2", 1),
        ("G92.3", "G92.3", 1),
        ("G53 G0 X1", "G53", 1),
        ("X1 G38.2", "G38.2", 4),
        ("G99 G81 X1 Z-1 R0", "G81", 5),
        ("G40 G21", "G21", 5),
    ] {
        check_refused(
            &format!("{begin}\n{line}"),
            column,
            Fault::NotUnderCompensation(code),
        );
    }
    // A cycle that is active from before.
    check_refused(
        "S1 M3 F1 G0 X0 Y0 Z0\nG99 G81 X1 Z-1 R0\nG41 D1\nX9",
        1,
        Fault::NotUnderCompensation("G81"),
    );
    check_refused(
        &format!("{begin}\nG42 D1"),
        1,
        Fault::CompensationTwice("G42"),
    );
    check_refused("G18\nG41 D1", 1, Fault::CompensationPlane("G41"));
    check_refused(
        "G55 G0 X0 Y0\nG54\nG41 D1 G0 X9",
        8,
        Fault::CompensationFromUntold,
    );
    check_refused("G41 D1 G0 X9 Y0", 8, Fault::CompensationFromUntold);
    // What may: the same plane, heights, a dwell, feed and spindle, a change of distances; and all of them after G40.
    led(&format!(
        "{begin}\nG17\nG43 H1\nG4 P1\nG91 X9\nG90 S200\nG40\nG20\nG55\nG92 X0"
    ));
}
