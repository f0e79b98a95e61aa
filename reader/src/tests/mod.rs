//! The reader against the rules of NISTIR 6556 (2000), named by section beside each check.

mod arcs;
mod beside;
mod compensation;
mod cycles;
mod hostile;
mod lines;
mod modes;
mod programs;
mod same;
mod values;
mod words;
mod zeros;

use geometry::arc_path::Turn;
use kurbo::Point;
use proptest::test_runner::{Config, RngSeed};

use super::*;

pub(super) fn replay_of(text: &str) -> Replay {
    read(text).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

#[track_caller]
pub(super) fn check_fault(lines: &str, at: (usize, usize), expected: Fault) {
    match read(&format!("{lines}\nM2\n")) {
        Ok(_) => panic!("accepted: {lines}"),
        Err(error) => {
            assert_eq!(error.fault, expected, "{lines}");
            assert_eq!((error.line, error.column), at, "{lines}");
        }
    }
}

#[track_caller]
pub(super) fn check_end(lines: &str, x: f64, y: f64, z: f64) {
    let replay = replay_of(&format!("{lines}\nM2\n"));
    let to = replay.motions.last().expect("a motion").to;
    let off = (to.xy - Point::new(x, y)).hypot().hypot(to.z - z);
    assert!(off < 1e-9, "{to:?}\n{lines}");
}

#[track_caller]
pub(super) fn check_arc(
    lines: &str,
    expected_centre: (f64, f64),
    expected_turn: Turn,
    expected_sweep: f64,
) {
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

/// Random cases, the same on every run.
pub(super) fn cases(cases: u32) -> Config {
    Config {
        cases,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(1),
        ..Config::default()
    }
}
