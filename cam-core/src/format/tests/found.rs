//! What the bench found, kept in the workshop.

use crate::format::*;
use crate::workshop::Workshop;

#[test]
fn squareness_and_logged_minutes_read_back_and_are_bounded() {
    let mut workshop = Workshop::starting();
    assert!(!write_workshop(&workshop).contains("squareness"));
    workshop.machine.minutes_factor = 1.125;
    workshop.machine.minutes_per_run = 0.5;
    let kept = bench::square::Map {
        scale_x: 1.0004,
        scale_y: 0.9993,
        skew: 0.0021,
    };
    workshop.machine.squareness = Some(kept);
    let text = write_workshop(&workshop);
    let read = read_workshop(&text).expect("a workshop");
    let found = read.machine.squareness.expect("a squareness");
    assert_eq!((found.scale_x, found.scale_y), (kept.scale_x, kept.scale_y));
    assert!((found.skew - kept.skew).abs() < 1e-15);
    assert_eq!(read.machine.minutes_factor, 1.125);
    assert_eq!(read.machine.minutes_per_run, 0.5);
    for (from, to) in [
        ("1.0004", "1.4"),
        ("\"minutes_factor\": 1.125", "\"minutes_factor\": 0"),
    ] {
        assert!(read_workshop(&text.replace(from, to)).is_err(), "{to}");
    }
}
