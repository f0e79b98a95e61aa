//! How long motions take: moving and dwelling, within the machine's limits.
//!
//! The machine speeds up and slows down evenly along its path, and plans ahead without limit: it never runs so fast that
//! it could not slow down in time for any later corner. Waiting for a person (M0, changes of cutter) is not counted.
//!
//! # Source
//! Evenly accelerated motion: any textbook of mechanics. Speed at corners from a permitted deviation: S. K. Jeon,
//! cornering article, 2011 (as quoted in works that use it): a circle that touches both motions and comes as near as the
//! deviation to the corner bounds the speed by its centripetal acceleration.

mod plan;

#[cfg(test)]
mod tests;

use geometry::arc_path::{ArcStep, Turn};
use kurbo::Point;
use reader::{PathControl, Place, ReadCourse, ReadMotion, Replay};

use crate::toolpath::duration::plan::{Leg, Limits, Plan};
use crate::toolpath::{Course, Motion, Place3};
use crate::workshop::Machine;

/// Time that a program needs on a machine, moving and dwelling, in seconds.
///
/// The machine comes to rest at dwells, pauses, changes of cutter, and at the end. A first motion from a place that the
/// program does not tell is counted from zero on the axes that are not known.
pub fn duration(replay: &Replay, machine: &Machine) -> f64 {
    let limits = Limits::new(machine);
    let dwelling = replay
        .dwells
        .iter()
        .fold(0.0, |sum, dwell| sum + dwell.seconds);
    let mut plan = Plan::default();
    between_rests(replay).fold(dwelling, |sum, between| {
        sum + plan.run(between.iter().map(leg), &limits)
    })
}

/// When each motion of a program ends, in seconds from its beginning, one for each motion, by the same model as [`duration`].
pub fn moments(replay: &Replay, machine: &Machine) -> Vec<f64> {
    let limits = Limits::new(machine);
    let mut plan = Plan::default();
    let mut moments = Vec::with_capacity(replay.motions.len());
    let mut dwells = replay.dwells.iter().peekable();
    let mut now = 0.0;
    for between in between_rests(replay) {
        while let Some(dwell) = dwells.next_if(|dwell| dwell.before <= moments.len()) {
            now += dwell.seconds;
        }
        for seconds in plan.each(between.iter().map(leg), &limits) {
            now += seconds;
            moments.push(now);
        }
    }
    moments
}

/// Seconds for a straight way on one axis (0 is x), as fast as the machine can and from rest to rest; mm.
pub fn rapid_from_rest_to_rest(length: f64, machine: &Machine, axis: usize) -> f64 {
    let speed = machine.rapid_mm_min[axis] / 60.0;
    let acceleration = machine.acceleration_mm_s2[axis];
    if length * acceleration >= speed * speed {
        length / speed + speed / acceleration
    } else {
        2.0 * (length / acceleration).sqrt()
    }
}

/// Seconds to rise straight up by so many mm, go across and come down as far, each from rest to rest.
pub(crate) fn hopping(rises: f64, across: f64, machine: &Machine) -> f64 {
    2.0 * rapid_from_rest_to_rest(rises, machine, 2) + rapid_from_rest_to_rest(across, machine, 0)
}

/// How far a cutter comes across at a feed, mm/min, in so many seconds, from rest to rest, mm: the trapezoid of uniform acceleration, or its
/// triangle where the speed is not reached (mechanics).
pub(crate) fn fed_within(seconds: f64, feed_mm_min: f64, machine: &Machine) -> f64 {
    let speed = feed_mm_min / 60.0;
    let [x, y, _] = machine.acceleration_mm_s2;
    let speeding = speed / x.min(y).max(f64::MIN_POSITIVE);
    if seconds > speeding {
        (seconds - speeding) * speed
    } else {
        seconds * seconds * x.min(y) / 4.0
    }
}

fn leg(motion: &ReadMotion) -> Leg {
    Leg {
        from: motion.from,
        to: motion.to,
        course: motion.course,
        path_control: motion.path_control,
    }
}

/// The motions from one rest to the next.
fn between_rests(replay: &Replay) -> impl Iterator<Item = &[ReadMotion]> {
    let mut start = 0;
    rests(replay).into_iter().filter_map(move |end| {
        let end = end.min(replay.motions.len());
        let between = replay.motions.get(start..end)?;
        start = end;
        (!between.is_empty()).then_some(between)
    })
}

/// Time that motions need on a machine, from rest where the first ends to rest at the end, in seconds.
///
/// The first motion only tells where they start. Corners are rounded as in a program that says nothing of it. The same model
/// as [`duration`]; a program takes a little more or less, since its numbers are rounded.
pub fn of_motions(motions: &[Motion], machine: &Machine) -> f64 {
    let legs = motions.windows(2).map(|pair| Leg {
        from: as_place(pair[0].to),
        to: as_place(pair[1].to),
        course: as_read(pair[0].to, &pair[1]),
        path_control: PathControl::Continuous,
    });
    Plan::default().run(legs, &Limits::new(machine))
}

/// A course as the reader tells it: with the angle that an arc turns through.
fn as_read(from: Place3, motion: &Motion) -> ReadCourse {
    match motion.course {
        Course::Rapid => ReadCourse::Rapid,
        Course::Line { feed_mm_min } => ReadCourse::Line { feed_mm_min },
        Course::Arc {
            centre,
            turn,
            feed_mm_min,
        } => ReadCourse::Arc {
            centre,
            turn,
            sweep: sweep(from.xy, motion.to.xy, centre, turn),
            feed_mm_min,
        },
    }
}

fn as_place(place: Place3) -> Place {
    Place {
        xy: place.xy,
        z: place.z,
    }
}

fn sweep(from: Point, to: Point, centre: Point, turn: Turn) -> f64 {
    let length = ArcStep::Arc { to, centre, turn }.length(from);
    length / from.distance(centre).max(f64::MIN_POSITIVE)
}

/// The numbers of motions after which the machine rests, in order; the last is all of them.
fn rests(replay: &Replay) -> Vec<usize> {
    let dwells = replay.dwells.iter().map(|dwell| dwell.before);
    let pauses = replay.pauses.iter().map(|pause| pause.before);
    let changes = replay.tool_changes.iter().map(|change| change.before);
    let mut rests: Vec<usize> = dwells.chain(pauses).chain(changes).collect();
    rests.push(replay.motions.len());
    rests.sort_unstable();
    rests.dedup();
    rests
}
