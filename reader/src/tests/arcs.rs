//! Arcs and helices.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use super::*;

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
    fault("G2 X10 Y0", 1, Fault::ArcWithoutCentre('I', 'J'));
    fault("G2 Z1 I5", 1, Fault::ArcWithoutEnd('X', 'Y'));
    fault("G2 X10 Y0 I5 K1", 14, Fault::ArcOffset('K'));
    fault("G2 X10 Y0 I5 R5", 1, Fault::ArcMixedForms);
    fault("G2 X10 Y0 R0", 1, Fault::ArcZeroRadius);
    fault("G2 X10 Y0 I0 J0", 1, Fault::ArcZeroRadius);
    fault("G2 X0 Y0 R5", 1, Fault::ArcRadiusFullCircle);
    fault("G18 G2 X10 Z0 J5", 15, Fault::ArcOffset('J'));
    fault("G18 G2 Y10 I5", 5, Fault::ArcWithoutEnd('X', 'Z'));
    fault("G19 G2 Y10 Z0", 5, Fault::ArcFromUntold);
    check_fault(
        "F1 G0 X0 Y0 Z0\nG19 G2 Y10 Z0",
        (2, 5),
        Fault::ArcWithoutCentre('J', 'K'),
    );
    check_fault("F1 G2 X10 Y0 I5", (1, 4), Fault::ArcFromUntold);
    check_fault(
        "F1 G0 X0 Y0\nG55 G2 X10 Y0 I5",
        (2, 5),
        Fault::ArcFromUntold,
    );
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

/// The only upright arc of a program that begins at 0, 0, 0.
fn upright(line: &str) -> (UprightArc, Replay) {
    let replay = replay_of(&format!("F100 G61.1 G0 X0 Y0 Z0\n{line}\nM2"));
    assert_eq!(replay.upright_arcs.len(), 1, "{line}");
    (replay.upright_arcs[0], replay)
}

#[test]
fn arcs_in_upright_planes() {
    // §3.5.3: clockwise as seen from the positive end of the axis normal to the plane; centres by hand.
    for (line, plane, centre, turn, sweep) in [
        (
            "G18 G2 X5 Z5 I5 K0",
            Plane::Zx,
            [5.0, 0.0, 0.0],
            Turn::Right,
            1.5 * PI,
        ),
        (
            "G18 G3 X5 Z5 I5 K0",
            Plane::Zx,
            [5.0, 0.0, 0.0],
            Turn::Left,
            FRAC_PI_2,
        ),
        (
            "G18 G2 X10 Z0 R5",
            Plane::Zx,
            [5.0, 0.0, 0.0],
            Turn::Right,
            PI,
        ),
        (
            "G19 G2 Y5 Z5 J5",
            Plane::Yz,
            [0.0, 5.0, 0.0],
            Turn::Right,
            FRAC_PI_2,
        ),
        (
            "G19 G3 Y5 Z5 J5",
            Plane::Yz,
            [0.0, 5.0, 0.0],
            Turn::Left,
            1.5 * PI,
        ),
        (
            "G19 G2 Y0 Z0 J5 K0",
            Plane::Yz,
            [0.0, 5.0, 0.0],
            Turn::Right,
            TAU,
        ),
    ] {
        let (arc, replay) = upright(line);
        assert_eq!((arc.plane, arc.turn), (plane, turn), "{line}");
        let off = (0..3).map(|axis| (arc.centre[axis] - centre[axis]).abs());
        assert!(off.fold(0.0, f64::max) < 1e-9, "{line}: {:?}", arc.centre);
        assert!((arc.sweep - sweep).abs() < 1e-9, "{line}: {}", arc.sweep);
        let length: f64 = replay.motions[1..].iter().map(ReadMotion::length_mm).sum();
        assert!(
            (length - 5.0 * sweep).abs() < 5e-4 * sweep,
            "{line}: {length}"
        );
        assert_eq!(arc.pieces, replay.motions.len() - 1);
        let stops = replay.motions.iter().skip(1);
        let stops = stops.filter(|motion| motion.path_control == PathControl::ExactStop);
        assert_eq!(stops.count(), 1, "{line}");
    }
}

#[test]
fn pieces_of_upright_arcs_keep_close_to_them() {
    for radius in [0.01, 0.3, 5.0, 80.0, 1000.0] {
        let (arc, replay) = upright(&format!("G18 G3 X0 Z0 Y7 I{radius}"));
        let pieces = &replay.motions[arc.first..arc.first + arc.pieces];
        let mut worst: f64 = 0.0;
        for (index, piece) in pieces.iter().enumerate() {
            let far = |x: f64, z: f64| ((x - arc.centre[0]).hypot(z) - radius).abs();
            worst = worst.max(far(piece.to.xy.x, piece.to.z));
            let middle = piece.from.xy.midpoint(piece.to.xy);
            worst = worst.max(far(middle.x, piece.from.z.midpoint(piece.to.z)));
            let along = 7.0 * (index + 1) as f64 / arc.pieces as f64;
            assert!((piece.to.xy.y - along).abs() < 1e-9, "{radius}");
        }
        assert!(worst <= CHORD_WITHIN_MM * 1.0001, "{radius}: {worst}");
        assert_eq!(replay.motions.last().map(|motion| motion.to.z), Some(0.0));
    }
    let fault = read("F1 G0 X0 Y0 Z0\nG18 G2 X0 Z0 I900000\nM2")
        .expect_err("900 m")
        .fault;
    assert_eq!(fault, Fault::UprightArcTooLarge);
}
