//! How long a program takes: moving and dwelling, within the machine's limits.
//!
//! The machine speeds up and slows down evenly along its path, and plans ahead without limit: it never runs so fast that
//! it could not slow down in time for any later corner. Waiting for a person (M0, changes of cutter) is not counted.
//!
//! # Source
//! Evenly accelerated motion: any textbook of mechanics. Speed at corners from a permitted deviation: S. K. Jeon,
//! cornering article, 2011 (as quoted in works that use it): a circle that touches both motions and comes as near as the
//! deviation to the corner bounds the speed by its centripetal acceleration.

use kurbo::Vec2;

use crate::program::reader::{PathControl, ReadCourse, ReadMotion, Replay};
use crate::workshop::Machine;
use geometry::arc_path::Turn;

/// Stands in for limits that are zero or negative, so that times stay finite; mm/s or mm/s².
const LEAST_LIMIT: f64 = 1e-3;

/// Motions shorter than this take no time, mm.
const NO_LENGTH: f64 = 1e-9;

/// Below this, what a direction has of an axis is rounding, as a share of its length.
const NO_SHARE: f64 = 1e-12;

/// Time that a program needs on a machine, moving and dwelling, in seconds.
///
/// The machine comes to rest at dwells, pauses, changes of cutter, and at the end. A first motion from a place that the
/// program does not tell is counted from zero on the axes that are not known.
pub fn duration(replay: &Replay, machine: &Machine) -> f64 {
    let limits = Limits::new(machine);
    let rests = rests(replay);
    let mut start = 0;
    let mut seconds = replay
        .dwells
        .iter()
        .fold(0.0, |sum, dwell| sum + dwell.seconds);
    let mut plan = Plan::default();
    for end in rests {
        let end = end.min(replay.motions.len());
        if end > start {
            seconds += plan.run(&replay.motions[start..end], &limits);
            start = end;
        }
    }
    seconds
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

/// The machine's limits in mm and s.
struct Limits {
    rapid: [f64; 3],
    feed: [f64; 3],
    acceleration: [f64; 3],
    deviation: f64,
}

impl Limits {
    fn new(machine: &Machine) -> Limits {
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
struct Stretch {
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
struct Plan {
    stretches: Vec<Stretch>,
    /// Speeds between the stretches: one more than there are stretches.
    speeds: Vec<f64>,
}

impl Plan {
    /// Time for motions from rest to rest, s.
    fn run(&mut self, motions: &[ReadMotion], limits: &Limits) -> f64 {
        self.stretches.clear();
        self.stretches
            .extend(motions.iter().filter_map(|motion| stretch(motion, limits)));
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
            .fold(0.0, |sum, time| sum + time)
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
fn stretch(motion: &ReadMotion, limits: &Limits) -> Option<Stretch> {
    let length = motion.length_mm();
    if length < NO_LENGTH {
        return None;
    }
    let path_control = motion.path_control;
    match motion.course {
        ReadCourse::Rapid | ReadCourse::Line { .. } => {
            let along = motion.to.xy - motion.from.xy;
            let direction = [along.x, along.y, motion.to.z - motion.from.z].map(|d| d / length);
            let cap = match motion.feed_mm_min() {
                None => along_path(limits.rapid, direction),
                Some(feed) => (feed / 60.0).min(along_path(limits.feed, direction)),
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
fn corner_speed(before: &Stretch, after: &Stretch, limits: &Limits) -> f64 {
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
fn seconds(length: f64, start: f64, end: f64, cap: f64, acceleration: f64) -> f64 {
    let top = ((2.0 * acceleration * length + start * start + end * end) / 2.0).sqrt();
    if top <= cap {
        return (2.0 * top - start - end) / acceleration;
    }
    let speeding_up = (cap * cap - start * start) / (2.0 * acceleration);
    let slowing_down = (cap * cap - end * end) / (2.0 * acceleration);
    (2.0 * cap - start - end) / acceleration + (length - speeding_up - slowing_down) / cap
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::program::read;

    /// A machine with the same limits on every axis.
    fn machine(feed_mm_s: f64, acceleration: f64) -> Machine {
        Machine {
            name: "test".to_owned(),
            travel_mm: [1000.0; 3],
            rapid_mm_min: [feed_mm_s * 60.0; 3],
            max_feed_mm_min: [feed_mm_s * 60.0; 3],
            acceleration_mm_s2: [acceleration; 3],
            junction_deviation_mm: 0.01,
            spindle_rpm: [0.0, 24_000.0],
            clear_height_mm: 5.0,
            hop_height_mm: 1.0,
            change_minutes: 3.0,
            dialect: "plain".to_owned(),
        }
    }

    #[track_caller]
    fn check_time(moves: &str, machine: &Machine, expected_s: f64) {
        let text = format!("G21 G90 F100000\n{moves}\nM2\n");
        let replay = read(&text).expect("a program of the standard");
        let time = duration(&replay, machine);
        assert!(
            (time - expected_s).abs() <= expected_s * 1e-5,
            "{time} s, expected {expected_s} s"
        );
    }

    #[test]
    fn one_move_from_rest_to_rest() {
        // d/v + v/a if d ≥ v²/a, else 2 √(d/a).
        check_time("G1 X100", &machine(50.0, 500.0), 2.1);
        check_time("G1 X100", &machine(30.0, 200.0), 3.483_333_3);
        check_time("G1 X1", &machine(30.0, 200.0), 0.141_421_36);
        check_time("G0 X4.5", &machine(30.0, 200.0), 0.3);
        check_time("G1 X0", &machine(30.0, 200.0), 0.0);
    }

    #[test]
    fn between_two_speeds() {
        let cruise = seconds(20.0, 10.0, 5.0, 30.0, 200.0);
        assert!((cruise - 0.752_083_3).abs() < 1e-6, "{cruise}");
        let triangle = seconds(1.0, 10.0, 5.0, 30.0, 200.0);
        assert!((triangle - 0.087_018_5).abs() < 1e-6, "{triangle}");
    }

    #[test]
    fn corners_by_angle() {
        // Interior angle, speed at a 200 mm/s² and deviation 0.01 mm.
        for (degrees, expected) in [
            (60.0, std::f64::consts::SQRT_2),
            (90.0, 2.197_37),
            (120.0, 3.5956),
            (135.0, 4.9269),
            (150.0, 7.5296),
            (170.0, 22.882),
        ] {
            let turned = f64::to_radians(180.0 - degrees);
            let text = format!(
                "G21 G90 F100000\nG1 X50\nG1 X{:.9} Y{:.9}\nM2\n",
                50.0 + 50.0 * turned.cos(),
                50.0 * turned.sin()
            );
            let replay = read(&text).expect("a program of the standard");
            let limits = Limits::new(&machine(1000.0, 200.0));
            let stretches: Vec<Stretch> = replay
                .motions
                .iter()
                .filter_map(|motion| stretch(motion, &limits))
                .collect();
            let speed = corner_speed(&stretches[0], &stretches[1], &limits);
            assert!((speed / expected - 1.0).abs() < 1e-4, "{degrees}°: {speed}");
        }
    }

    #[test]
    fn a_rectangle() {
        check_time(
            "G1 X40\nG1 Y20\nG1 X0\nG1 Y0",
            &machine(30.0, 200.0),
            4.536_49,
        );
        // Full stops at the corners.
        check_time(
            "G61.1\nG1 X40\nG1 Y20\nG1 X0\nG1 Y0",
            &machine(30.0, 200.0),
            4.6,
        );
    }

    #[test]
    fn a_straight_line_in_many_pieces_takes_no_longer() {
        let pieces: String = (1..=1000)
            .map(|index| format!("G1 X{:.1}\n", f64::from(index) / 10.0))
            .collect();
        check_time(&pieces, &machine(50.0, 500.0), 2.1);
    }

    #[test]
    fn an_arc_is_no_faster_than_its_radius_allows() {
        // v = √(200 · 2) = 20 mm/s over 4π mm, from rest to rest.
        let time = 4.0 * std::f64::consts::PI / 20.0 + 20.0 / 200.0;
        check_time("G3 X0 Y0 I2 J0", &machine(30.0, 200.0), time);
    }

    #[test]
    fn a_tangent_arc_is_entered_without_slowing() {
        // 100 mm straight, then a half turn of radius 50: √(200·50) = 100 mm/s is above the feed.
        let length = 100.0 + 50.0 * std::f64::consts::PI;
        check_time(
            "G1 X100\nG3 X100 Y100 I0 J50",
            &machine(30.0, 200.0),
            length / 30.0 + 30.0 / 200.0,
        );
    }

    #[test]
    fn dwells_count_and_pauses_do_not() {
        check_time(
            "G1 X100\nG4 P2.5\nM0\nG1 X200",
            &machine(50.0, 500.0),
            2.1 + 2.5 + 2.1,
        );
    }

    #[test]
    fn the_slowest_axis_bounds_a_slanting_move() {
        let mut slow_z = machine(50.0, 500.0);
        slow_z.max_feed_mm_min[2] = 300.0;
        slow_z.acceleration_mm_s2[2] = 50.0;
        // Along (3, 0, -4)/5: 5 mm/s ÷ 0.8 and 50 mm/s² ÷ 0.8.
        let (v, a) = (6.25, 62.5);
        check_time("G1 X30 Z-40", &slow_z, 50.0 / v + v / a);
    }

    #[test]
    fn odd_limits_give_finite_times() {
        let mut odd = machine(30.0, 200.0);
        odd.acceleration_mm_s2 = [0.0, -1.0, f64::NAN];
        odd.rapid_mm_min = [0.0; 3];
        odd.junction_deviation_mm = f64::NAN;
        let replay =
            read("G21 F100\nG0 X5 Z3\nG1 X1 Y2\nG2 X3 Y2 I1 J0 Z1\nM2").expect("a program");
        assert!(duration(&replay, &odd).is_finite());
    }
}
