//! Feeds that follow the load, on ways whose loads are known.

use geometry::arc_path::Turn;
use kurbo::Point;

use super::*;
use crate::pass::Purpose;
use crate::toolpath::{Course, Motion, Place3};
use crate::workshop::Workshop;

fn cutter(id: &str) -> Cutter {
    let workshop = Workshop::starting();
    workshop.cutter(id).expect("a starting cutter").clone()
}

fn place(x: f64, y: f64, z: f64) -> Place3 {
    Place3 {
        xy: Point::new(x, y),
        z,
    }
}

fn rapid(to: Place3) -> Motion {
    Motion {
        to,
        course: Course::Rapid,
        purpose: None,
        layer: 0,
    }
}

fn line(to: Place3, feed_mm_min: f64) -> Motion {
    Motion {
        to,
        course: Course::Line { feed_mm_min },
        purpose: Some(Purpose::Roughing),
        layer: 0,
    }
}

/// Down into the wood at one place and along a line at a depth.
fn along(cutter: &Cutter, from: (f64, f64), to: (f64, f64), depth: f64) -> Vec<Motion> {
    vec![
        rapid(place(from.0, from.1, 5.0)),
        line(place(from.0, from.1, -depth), cutter.plunge_mm_min),
        line(place(to.0, to.1, -depth), cutter.feed_mm_min),
        rapid(place(to.0, to.1, 5.0)),
    ]
}

fn toolpath(cutter: &Cutter, motions: Vec<Motion>) -> Toolpath {
    Toolpath {
        cutter: cutter.id.clone(),
        motions,
    }
}

/// The toolpaths as they are after all ran one after the other.
fn kept(mut runs: Vec<(Cutter, Vec<Motion>)>) -> Vec<Vec<Motion>> {
    let mut toolpaths: Vec<Toolpath> = runs
        .iter_mut()
        .map(|(cutter, motions)| toolpath(cutter, std::mem::take(motions)))
        .collect();
    let mut all: Vec<Run<'_>> = runs
        .iter()
        .zip(&mut toolpaths)
        .map(|((cutter, _), toolpath)| Run { cutter, toolpath })
        .collect();
    keep_the_load(&mut all);
    toolpaths
        .into_iter()
        .map(|toolpath| toolpath.motions)
        .collect()
}

/// Where each fed motion on the level ends, and its feed.
fn fed(motions: &[Motion]) -> Vec<(Point, f64)> {
    let feed = |motion: &Motion| match motion.course {
        Course::Rapid => None,
        Course::Line { feed_mm_min } | Course::Arc { feed_mm_min, .. } => {
            Some((motion.to.xy, feed_mm_min))
        }
    };
    motions
        .windows(2)
        .filter(|pair| pair[1].to.z == pair[0].to.z)
        .filter_map(|pair| feed(&pair[1]))
        .collect()
}

#[track_caller]
fn assert_near(found: f64, wanted: f64, slack: f64) {
    assert!((found - wanted).abs() <= slack, "{found}, not {wanted}");
}

#[test]
fn a_slot_is_cut_at_the_part_of_the_feed_that_the_set_width_is_of_its_own() {
    let flat = cutter("flat-6");
    let layer = flat.step_down.in_mm();
    let slot = along(&flat, (5.0, 10.0), (45.0, 10.0), layer);
    let beside = along(&flat, (10.0, 10.0 + 2.4), (40.0, 10.0 + 2.4), layer);
    let all: Vec<Motion> = slot.into_iter().chain(beside).collect();
    let made = kept(vec![(flat.clone(), all.clone())]).remove(0);
    let fed = fed(&made);
    let (slot, beside) = (fed[0], fed[fed.len() - 1]);
    assert_eq!(slot.0, Point::new(45.0, 10.0));
    assert_near(slot.1 / flat.feed_mm_min, 0.4, 0.02);
    assert_eq!(beside.0, Point::new(40.0, 12.4));
    // A full cut keeps its feed, but for what cells cannot tell.
    let part = beside.1 / flat.feed_mm_min;
    assert!((0.96..=1.0).contains(&part), "{part}");
    // Only feeds change: it goes to the same places along the same lines, and down as before.
    let has = |place: &Motion| made.iter().any(|motion| motion.to == place.to);
    assert!(all.iter().all(has), "{made:?}");
    let on_a_line = |motion: &Motion| motion.to.xy.y == 10.0 || motion.to.xy.y == 12.4;
    assert!(made.iter().all(on_a_line), "{made:?}");
    assert_eq!(made[1], all[1]);
}

#[test]
fn a_motion_is_parted_where_it_comes_to_wood() {
    let (large, small) = (cutter("flat-6"), cutter("flat-3"));
    let layer = small.step_down.in_mm();
    let cleared = along(&large, (10.0, 10.0), (25.0, 10.0), layer);
    let through = along(&small, (10.0, 10.0), (40.0, 10.0), layer);
    let made = kept(vec![(large, cleared), (small.clone(), through)]).remove(1);
    let fed = fed(&made);
    assert!((2..=4).contains(&fed.len()), "{fed:?}");
    let [(to, swift), (end, slow)] = [fed[0], fed[fed.len() - 1]];
    assert_eq!(swift, small.feed_mm_min);
    assert_near(slow / small.feed_mm_min, 0.4, 0.02);
    assert_eq!(end, Point::new(40.0, 10.0));
    // The cleared slot ends in a half disc of 3 mm; the smaller cutter meets its end from 26.5 on.
    assert!(to.y == 10.0 && (25.5..27.0).contains(&to.x), "{to:?}");
}

#[test]
fn parts_of_an_arc_lie_on_it() {
    let (large, small) = (cutter("flat-6"), cutter("flat-3"));
    let layer = small.step_down.in_mm();
    let cleared = along(&large, (10.0, 20.0), (20.0, 20.0), layer);
    let centre = Point::new(20.0, 20.0);
    let mut round = along(&small, (10.0, 20.0), (30.0, 20.0), layer);
    round[2].course = Course::Arc {
        centre,
        turn: Turn::Left,
        feed_mm_min: small.feed_mm_min,
    };
    let made = kept(vec![(large, cleared), (small, round)]).remove(1);
    let fed = fed(&made);
    assert!(fed.len() >= 2, "{fed:?}");
    for (to, _) in &fed {
        assert_near(to.distance(centre), 10.0, 1e-9);
        assert!(to.y <= 20.0, "{to:?}");
    }
    assert_eq!(fed[fed.len() - 1].0, Point::new(30.0, 20.0));
}

#[test]
fn no_cutter_is_fed_so_slowly_that_it_rubs() {
    let thin = cutter("flat-0.8");
    let deep = 3.0 * thin.step_down.in_mm();
    let slot = along(&thin, (10.0, 10.0), (20.0, 10.0), deep);
    let made = kept(vec![(thin.clone(), slot)]).remove(0);
    let slowest = fed(&made)
        .iter()
        .map(|fed| fed.1)
        .fold(f64::INFINITY, f64::min);
    let chip = slowest / (thin.spindle_rpm * f64::from(thin.flutes));
    assert_near(chip, 0.005, 1e-9);
}

/// As [`along`], but at the feed at which blocks are cut out, as that.
fn out(cutter: &Cutter, from: (f64, f64), to: (f64, f64), purpose: Purpose) -> Vec<Motion> {
    let mut motions = along(cutter, from, to, cutter.step_down.in_mm());
    for motion in &mut motions {
        motion.purpose = motion.purpose.map(|_| purpose);
    }
    motions[2].course = Course::Line {
        feed_mm_min: SLOT_FEED * cutter.feed_mm_min,
    };
    motions
}

const SLOT_FEED: f64 = 0.6;

#[test]
fn blocks_are_cut_out_faster_where_a_lane_is_mostly_cut_already() {
    let flat = cutter("flat-6-long");
    let slot = out(&flat, (10.0, 10.0), (40.0, 10.0), Purpose::Separation);
    let beside = |off: f64| {
        out(
            &flat,
            (-10.0, 10.0 + off),
            (40.0, 10.0 + off),
            Purpose::Separation,
        )
    };
    // A lane 0.4 mm wider than the cutter: a slot, and beside it a strip, but a slot again where the first had not been.
    let made = kept(vec![(
        flat.clone(),
        slot.iter().cloned().chain(beside(0.4)).collect(),
    )])
    .remove(0);
    let found = fed(&made);
    let slow = SLOT_FEED * flat.feed_mm_min;
    assert_eq!(found[0], (Point::new(40.0, 10.0), slow));
    assert_near(found[1].1, slow, 1e-9);
    assert!((3.0..5.0).contains(&found[1].0.x), "{found:?}");
    // What is fed alike is fed as its slowest step.
    let (end, swift) = found[found.len() - 1];
    assert_eq!(end, Point::new(40.0, 10.4));
    assert!(
        (0.91..=1.0).contains(&(swift / flat.feed_mm_min)),
        "{swift}"
    );
    // Four fifths of the width are taken as fast as comes to a slot's chips.
    let made = kept(vec![(
        flat.clone(),
        slot.iter().cloned().chain(beside(4.8)).collect(),
    )])
    .remove(0);
    let found = fed(&made);
    let swifter = found[found.len() - 1].1 / slow;
    assert!((1.25 / 1.1..1.27).contains(&swifter), "{swifter}");
}

#[test]
fn notches_keep_their_feed() {
    let flat = cutter("flat-6");
    let notch = out(&flat, (10.0, 10.0), (40.0, 10.0), Purpose::Notches);
    let again = [notch.clone(), notch].concat();
    assert_eq!(kept(vec![(flat, again.clone())]), [again]);
}

#[test]
fn nothing_to_cut_is_nothing_to_slow() {
    assert_eq!(kept(Vec::new()), Vec::<Vec<Motion>>::new());
    let flat = cutter("flat-3");
    assert_eq!(kept(vec![(flat, Vec::new())]), [Vec::<Motion>::new()]);
}
