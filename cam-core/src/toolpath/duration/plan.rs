//! Planning ahead: the speed at every corner, and the time between them. The sources stand with the module above.

use geometry::arc_path::Turn;
use kurbo::Vec2;
use reader::{PathControl, Place, ReadCourse};

use crate::workshop::Machine;

/// Stands in for limits that are zero or negative, so that times stay finite; mm/s or mm/s².
const LEAST_LIMIT: f64 = 1e-3;

/// Motions shorter than this take no time, mm.
const NO_LENGTH: f64 = 1e-9;

/// Below this, what a direction has of an axis is rounding, as a share of its length.
const NO_SHARE: f64 = 1e-12;

/// A motion whose time is asked for.
#[derive(Clone, Copy, Debug)]
pub(super) struct Leg {
    pub(super) from: Place,
    pub(super) to: Place,
    pub(super) course: ReadCourse,
    pub(super) path_control: PathControl,
}

impl Leg {
    /// Length of the path seen from above, mm.
    fn flat_length_mm(&self) -> f64 {
        match self.course {
            ReadCourse::Rapid | ReadCourse::Line { .. } => self.from.xy.distance(self.to.xy),
            ReadCourse::Arc { centre, sweep, .. } => self.from.xy.distance(centre) * sweep,
        }
    }

    /// Length of the path, mm.
    fn length_mm(&self) -> f64 {
        self.flat_length_mm().hypot(self.to.z - self.from.z)
    }
}

/// The machine's limits in mm and s.
pub(super) struct Limits {
    rapid: [f64; 3],
    feed: [f64; 3],
    acceleration: [f64; 3],
    deviation: f64,
}

impl Limits {
    pub(super) fn new(machine: &Machine) -> Limits {
        const SECONDS_PER_MINUTE: f64 = 60.0;
        Limits {
            rapid: machine.rapid_mm_min.map(|v| limit(v / SECONDS_PER_MINUTE)),
            feed: machine
                .max_feed_mm_min
                .map(|v| limit(v / SECONDS_PER_MINUTE)),
            acceleration: machine.acceleration_mm_s2.map(limit),
            deviation: machine.junction_deviation_mm.max(0.0),
        }
    }
}

fn limit(value: f64) -> f64 {
    value.max(LEAST_LIMIT)
}

type Direction = [f64; 3];

/// A motion as the planner sees it.
#[derive(Clone, Copy)]
pub(super) struct Stretch {
    length: f64,
    /// The fastest it may be run, mm/s.
    cap: f64,
    /// Speeding up and slowing down along it, mm/s².
    acceleration: f64,
    start: Direction,
    end: Direction,
    path_control: PathControl,
}

/// Reused from one run to the next.
#[derive(Default)]
pub(super) struct Plan {
    stretches: Vec<Stretch>,
    /// Speeds between the stretches: one more than there are stretches.
    speeds: Vec<f64>,
}

impl Plan {
    /// Time for motions from rest to rest, s.
    pub(super) fn run(&mut self, legs: impl Iterator<Item = Leg>, limits: &Limits) -> f64 {
        self.plan(legs.filter_map(|leg| stretch(&leg, limits)), limits);
        self.times().fold(0.0, |sum, time| sum + time)
    }

    /// Time for each of the motions from rest to rest, s; 0 for those without a length.
    pub(super) fn each(&mut self, legs: impl Iterator<Item = Leg>, limits: &Limits) -> Vec<f64> {
        let stretches: Vec<Option<Stretch>> = legs.map(|leg| stretch(&leg, limits)).collect();
        self.plan(stretches.iter().flatten().copied(), limits);
        let mut times = self.times();
        stretches
            .iter()
            .map(|stretch| stretch.and_then(|_| times.next()).unwrap_or(0.0))
            .collect()
    }

    fn plan(&mut self, stretches: impl Iterator<Item = Stretch>, limits: &Limits) {
        self.stretches.clear();
        self.stretches.extend(stretches);
        self.speeds.clear();
        self.speeds.push(0.0);
        self.speeds.extend(
            self.stretches
                .windows(2)
                .map(|pair| corner_speed(&pair[0], &pair[1], limits)),
        );
        self.speeds.push(0.0);
        self.slow_down_in_time();
        self.speed_up_in_time();
    }

    /// The time of each stretch, s.
    fn times(&self) -> impl Iterator<Item = f64> {
        self.stretches
            .iter()
            .zip(self.speeds.windows(2))
            .map(|(stretch, speeds)| {
                seconds(
                    stretch.length,
                    speeds[0],
                    speeds[1],
                    stretch.cap,
                    stretch.acceleration,
                )
            })
    }

    /// Backward: no speed from which the next could not be reached by slowing down.
    fn slow_down_in_time(&mut self) {
        for (index, stretch) in self.stretches.iter().enumerate().rev() {
            let most = reachable(self.speeds[index + 1], stretch);
            self.speeds[index] = self.speeds[index].min(most);
        }
    }

    /// Forward: no speed that could not be reached by speeding up.
    fn speed_up_in_time(&mut self) {
        for (index, stretch) in self.stretches.iter().enumerate() {
            let most = reachable(self.speeds[index], stretch);
            self.speeds[index + 1] = self.speeds[index + 1].min(most);
        }
    }
}

/// The fastest at one end of a stretch, given the speed at the other.
fn reachable(speed: f64, stretch: &Stretch) -> f64 {
    (speed * speed + 2.0 * stretch.acceleration * stretch.length).sqrt()
}

/// A motion's limits; `None` if it has no length.
pub(super) fn stretch(motion: &Leg, limits: &Limits) -> Option<Stretch> {
    let length = motion.length_mm();
    if length < NO_LENGTH {
        return None;
    }
    let path_control = motion.path_control;
    match motion.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => {
            let along = motion.to.xy - motion.from.xy;
            let direction = [along.x, along.y, motion.to.z - motion.from.z].map(|d| d / length);
            let cap = match motion.course {
                ReadCourse::Line { feed_mm_min } => {
                    (feed_mm_min / 60.0).min(along_path(limits.feed, direction))
                }
                ReadCourse::Rapid | ReadCourse::Arc { .. } => along_path(limits.rapid, direction),
            };
            Some(Stretch {
                length,
                cap: limit(cap),
                acceleration: along_path(limits.acceleration, direction),
                start: direction,
                end: direction,
                path_control,
            })
        }
        ReadCourse::Arc {
            centre,
            turn,
            feed_mm_min,
            ..
        } => {
            let flat = motion.flat_length_mm() / length;
            let rise = (motion.to.z - motion.from.z) / length;
            let tangent = |arm: Vec2| {
                let arm = arm / arm.hypot().max(NO_LENGTH) * flat;
                match turn {
                    Turn::Left => [-arm.y, arm.x, rise],
                    Turn::Right => [arm.y, -arm.x, rise],
                }
            };
            // An arc can turn through any direction, so the slower of x and y bounds it throughout.
            let slower = |limit: [f64; 3]| [limit[0].min(limit[1]), f64::INFINITY, limit[2]];
            let direction = [flat, 0.0, rise];
            let radius = motion.from.xy.distance(centre);
            let sideways = limits.acceleration[0].min(limits.acceleration[1]);
            let round = (sideways * radius).sqrt() / flat.max(NO_SHARE);
            let cap = (feed_mm_min / 60.0)
                .min(along_path(slower(limits.feed), direction))
                .min(round);
            Some(Stretch {
                length,
                cap: limit(cap),
                acceleration: along_path(slower(limits.acceleration), direction),
                start: tangent(motion.from.xy - centre),
                end: tangent(motion.to.xy - centre),
                path_control,
            })
        }
    }
}

/// The limit along a direction at which no axis passes its own.
fn along_path(limits: [f64; 3], direction: Direction) -> f64 {
    limits
        .into_iter()
        .zip(direction)
        .filter(|(_, share)| share.abs() > NO_SHARE)
        .map(|(limit, share)| limit / share.abs())
        .fold(f64::INFINITY, f64::min)
}

/// The fastest that a corner may be passed at, mm/s.
pub(super) fn corner_speed(before: &Stretch, after: &Stretch, limits: &Limits) -> f64 {
    let cap = before.cap.min(after.cap);
    let deviation = match before.path_control {
        PathControl::Continuous => limits.deviation,
        PathControl::ExactPath => 0.0,
        PathControl::ExactStop => return 0.0,
    };
    let change: Direction = std::array::from_fn(|axis| after.start[axis] - before.end[axis]);
    let size = norm(change);
    if size < NEARLY_STRAIGHT {
        return cap;
    }
    // Half the angle between the motions, 90° where they go straight on: |u2 - u1| = 2 cos(θ/2).
    let half_cosine = (size / 2.0).min(1.0);
    let half_sine = (1.0 - half_cosine * half_cosine).sqrt();
    let radius = deviation * half_sine / (1.0 - half_sine);
    // The mean of the axes' limits over the sideways direction: the limit itself where all axes have the same.
    let sideways: Direction =
        std::array::from_fn(|axis| change[axis] / size / limits.acceleration[axis]);
    let speed = (radius / norm(sideways)).sqrt();
    cap.min(speed)
}

/// Motions whose directions differ by less than this go straight on, radians.
const NEARLY_STRAIGHT: f64 = 1e-6;

fn norm(v: Direction) -> f64 {
    (v[0] * v[0] + v[1] * v[1] + v[2] * v[2]).sqrt()
}

/// Time for a length between two speeds that can be reached from one another, s.
pub(super) fn seconds(length: f64, start: f64, end: f64, cap: f64, acceleration: f64) -> f64 {
    let top = ((2.0 * acceleration * length + start * start + end * end) / 2.0).sqrt();
    if top <= cap {
        return (2.0 * top - start - end) / acceleration;
    }
    let speeding_up = (cap * cap - start * start) / (2.0 * acceleration);
    let slowing_down = (cap * cap - end * end) / (2.0 * acceleration);
    (2.0 * cap - start - end) / acceleration + (length - speeding_up - slowing_down) / cap
}
