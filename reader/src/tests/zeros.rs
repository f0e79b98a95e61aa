//! Work coordinate systems and what moves their zeros.

use super::*;

/// The datums and numbers at which a program ends, beginning at 10, 20, 5 in G54.
fn end_of(lines: &str) -> ([Datum; 3], [f64; 3]) {
    let replay = replay_of(&format!("G21 G90 G0 X10 Y20 Z5\n{lines}\nM2"));
    let (frame, motions) = replay.framed().last().expect("it moves");
    let to = motions.last().expect("no frame is empty").to;
    (frame.datums, [to.xy.x, to.xy.y, to.z])
}

#[test]
fn places_are_told_with_what_they_are_counted_from() {
    let first = [Datum::Work(1); 3];
    let mixed = |x| [x, Datum::Work(1), Datum::Work(1)];
    for (lines, datums, place) in [
        ("X1", first, [1.0, 20.0, 5.0]),
        // §3.5.13: another system; axes that are not named stay where they are.
        ("G55 X1", mixed(Datum::Work(2)), [1.0, 20.0, 5.0]),
        ("G59.3 G0 X1", mixed(Datum::Work(9)), [1.0, 20.0, 5.0]),
        ("G55 X1\nG54 X1", first, [1.0, 20.0, 5.0]),
        ("G55 G91 X1", first, [11.0, 20.0, 5.0]),
        // §3.5.12: places of the machine, for one line.
        ("G53 X-3", mixed(Datum::Machine), [-3.0, 20.0, 5.0]),
        ("G53 G0 X-3\nX2", first, [2.0, 20.0, 5.0]),
        // §3.5.5: a zero set in machine coordinates, at once for the active system.
        (
            "G10 L2 P1 X100\nX1",
            mixed(Datum::Machine),
            [101.0, 20.0, 5.0],
        ),
        ("G10 L2 P2 X100\nX1", first, [1.0, 20.0, 5.0]),
        (
            "G10 L2 P2 X100\nG55 X1",
            mixed(Datum::Machine),
            [101.0, 20.0, 5.0],
        ),
        (
            "G20 G10 L2 P2 X1\nG55 G21 X1",
            mixed(Datum::Machine),
            [26.4, 20.0, 5.0],
        ),
        (
            "G91 G10 L2 P1 X100\nG90 X1",
            mixed(Datum::Machine),
            [101.0, 20.0, 5.0],
        ),
        // §3.5.18: the place where the machine stands gets the numbers given; the axes not named keep theirs.
        ("G92 X1\nX3", first, [12.0, 20.0, 5.0]),
        ("G92 X1 Z0\nX0 Y0 Z-1", first, [9.0, 0.0, 4.0]),
        ("G92 X1\nG92 X1\nX3", first, [12.0, 20.0, 5.0]),
        ("G92 X1\nX3\nG92.1 X3", first, [3.0, 20.0, 5.0]),
        ("G92 X1\nG92.2 X3\nG92.3 X3", first, [12.0, 20.0, 5.0]),
        ("G92 X1\nG92.1\nG92.3 X3", first, [3.0, 20.0, 5.0]),
        ("G92 X1\nG55 X3", mixed(Datum::Work(2)), [12.0, 20.0, 5.0]),
        ("G92 X1\nG55\nG54 X3", first, [12.0, 20.0, 5.0]),
        (
            "G92 X1\nG10 L2 P1 X100\nX3",
            mixed(Datum::Machine),
            [112.0, 20.0, 5.0],
        ),
        ("G20 G92 X1\nX0\n", first, [-15.4, 20.0, 5.0]),
        ("G91 G92 X1\nG90 X3", first, [12.0, 20.0, 5.0]),
        // Offsets that the machine keeps from earlier programs.
        ("G92.3\nX3", mixed(Datum::Kept(2)), [3.0, 20.0, 5.0]),
        (
            "G53 X7\nG92 X1\nX3",
            mixed(Datum::Machine),
            [9.0, 20.0, 5.0],
        ),
        (
            "G53 X7\nG92 X1\nG55 X3",
            mixed(Datum::Kept(4)),
            [3.0, 20.0, 5.0],
        ),
        // §3.5.8: by way of the place named to the reference point, on all axes.
        ("G28", [Datum::FirstReference; 3], [0.0; 3]),
        ("G30 Z9", [Datum::SecondReference; 3], [0.0; 3]),
        (
            "G28\nX2",
            [Datum::Work(1), Datum::FirstReference, Datum::FirstReference],
            [2.0, 0.0, 0.0],
        ),
    ] {
        let (found, numbers) = end_of(lines);
        assert_eq!(found, datums, "{lines}");
        let off = (0..3).map(|axis| (numbers[axis] - place[axis]).abs());
        assert!(off.fold(0.0, f64::max) < 1e-9, "{lines}: {numbers:?}");
    }
}

#[test]
fn the_way_to_a_reference_point() {
    let replay = replay_of("G0 X1 Y1 Z1\nG28 Z9\nG91 G28 Z2\nM2");
    let heights: Vec<f64> = replay.motions.iter().map(|motion| motion.to.z).collect();
    assert_eq!(heights, [1.0, 9.0, 0.0, 2.0, 0.0]);
    assert_eq!(replay.motions[1].known, [true; 3]);
    assert_eq!(replay.motions[2].known, [false; 3]);
    assert_eq!(replay.motions[2].length_mm(), 0.0);
    assert_eq!(replay.motions[3].known, [true; 3]);
}

#[test]
fn a_zero_where_the_machine_stands_at_the_start() {
    // A habit of many workshops: drive to the corner of the work by hand, and begin with G92.
    let replay = replay_of("G92 X0 Y0 Z5\nG0 X3\nG1 Z-1 F90\nM2");
    assert_eq!(replay.frames.len(), 1);
    assert_eq!(replay.frames[0].datums, [Datum::Kept(1); 3]);
    let first = replay.motions[0];
    assert_eq!(first.known, [true; 3]);
    // Numbers count from where it stood.
    assert_eq!((first.from.z, first.to.z, first.to.xy.x), (0.0, 0.0, 3.0));
    assert_eq!(replay.motions[1].to.z, -6.0);
}

#[test]
fn what_zeros_refuse() {
    let start = "G0 X1 Y1 Z1";
    for (line, column, fault) in [
        ("G10 P1 X1", 1, Fault::SettingKind),
        ("G10 L1 P1 X1", 5, Fault::SettingKind),
        ("G10 L2 X1", 1, Fault::SettingWithoutSystem),
        ("G10 L2 P0 X1", 8, Fault::SettingWithoutSystem),
        ("G10 L2 P10 X1", 8, Fault::SettingWithoutSystem),
        ("G10 L2 P1.5 X1", 8, Fault::SettingWithoutSystem),
        ("G92", 1, Fault::MotionWithoutAxes("G92")),
        ("G53", 1, Fault::MachinePlacesWithoutLine),
        ("G80 G53 X1", 5, Fault::MachinePlacesWithoutLine),
        ("F1 G53 G2 X1 I1", 4, Fault::MachinePlacesWithoutLine),
        ("G91 G53 X1", 5, Fault::MachinePlacesIncremental),
    ] {
        check_fault(&format!("{start}\n{line}"), (2, column), fault);
    }
}

#[test]
fn length_offsets_are_told_with_the_frame() {
    let replay = replay_of("G0 X0 Y0 Z5\nG43 H7 Z3\nG43 H7 Z2\nG49 X1\nZ5\nM2");
    let offsets: Vec<(usize, Option<u8>)> = replay
        .frames
        .iter()
        .map(|frame| (frame.first, frame.length_offset))
        .collect();
    assert_eq!(offsets, [(0, None), (1, Some(7)), (3, None), (4, None)]);
    let known: Vec<bool> = replay
        .motions
        .iter()
        .map(|motion| motion.known[2])
        .collect();
    assert_eq!(known, [false, false, true, false, false]);
    check_fault(
        "G43 H129 Z1",
        (1, 5),
        Fault::AboveLimit {
            letter: 'H',
            most: 128,
        },
    );
}
