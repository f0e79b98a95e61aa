//! One program's motions as they are strung together: down to each cut, along it, and on to the next.

use geometry::arc_path::{ArcPath, ArcStep};
use kurbo::{Point, Vec2};

use crate::pass::{Cut, Entry, Heights, Purpose};
use crate::toolpath::duration::{fed_within, of_motions, rapid_from_rest_to_rest};
use crate::toolpath::features::{Feature, SAME_PLACE_MM};
use crate::toolpath::low::{LEAST_LOW_MM, Lines, Reckoned};
use crate::toolpath::{ABOVE_A_FLOOR_MM, BENDS_S, Course, Motion, Place3, Toolpath};
use crate::workshop::{Cutter, Machine};

/// Height above the face of uncut wood down to which the cutter comes rapidly, mm; from there on it is fed.
const ABOVE_THE_FACE_MM: f64 = 0.5;

/// By how much rounding to a program's decimals may move an end of a motion, mm.
const ROUNDING_MM: f64 = 0.001;

/// The motions so far, and where they end.
pub(super) struct Thread<'a> {
    cutter: &'a Cutter,
    machine: &'a Machine,
    /// Height of rapids between cuts, mm.
    hop: f64,
    motions: Vec<Motion>,
    here: Option<Place3>,
}

impl<'a> Thread<'a> {
    pub(super) fn new(cutter: &'a Cutter, machine: &'a Machine, hop: f64) -> Thread<'a> {
        Thread {
            cutter,
            machine,
            hop: hop.max(ABOVE_THE_FACE_MM).min(machine.clear_height_mm),
            motions: Vec::new(),
            here: None,
        }
    }

    /// A cut. Where the cutter comes down for it, the ground is clear down to a depth of `clear` mm.
    pub(super) fn cut(&mut self, cut: &Cut, by: Vec2, clear: f64) {
        let part = (cut.purpose, cut.layer);
        let floor = -cut.start_depth_mm();
        let start = cut.path.start + by;
        match &cut.entry {
            Entry::StayDown => match self.here {
                Some(here) if (here.z - floor).abs() < SAME_PLACE_MM => {
                    if here.xy.distance(start) > SAME_PLACE_MM {
                        self.feed(
                            Place3 {
                                xy: start,
                                z: floor,
                            },
                            self.level(self.cutter.feed_mm_min),
                            part,
                        );
                    }
                }
                Some(_) | None => self.come_down(start, floor, clear, part),
            },
            Entry::Open | Entry::Plunge => self.come_down(start, floor, clear, part),
            Entry::Ramp {
                path,
                from_depth_mm,
            } => {
                self.come_down(path.start + by, -from_depth_mm, clear, part);
                self.slope(path, by, floor, cut.feed_mm_min, part);
            }
        }
        match &cut.heights {
            Heights::Level => self.slope(&cut.path, by, floor, cut.feed_mm_min, part),
            Heights::Along(_) => {
                let after = (1..).map(|steps| -cut.depth_after(steps));
                self.run(
                    cut.path.from_and_steps().zip(after),
                    by,
                    cut.feed_mm_min,
                    part,
                );
            }
        }
    }

    /// The fastest feed over cleared ground, mm/min.
    fn swiftest(&self) -> f64 {
        let [x, y, _] = self.machine.max_feed_mm_min;
        x.min(y)
    }

    /// To where a feature begins on a way at depth, if one is known that takes no longer than lifting the cutter: `find` looks for one at
    /// a depth that is no longer than so many mm.
    pub(super) fn stay_low(
        &mut self,
        feature: &Feature,
        first: &Cut,
        by: Vec2,
        mut find: impl FnMut(f64, f64) -> Option<Lines>,
    ) {
        let Some(here) = self.here else { return };
        let (to, part) = (feature.ends.start, (first.purpose, first.layer));
        if here.xy.distance(to + by) < SAME_PLACE_MM {
            return;
        }
        let begins = feature.begins_mm;
        let lifted =
            self.tried(|thread| thread.come_down(to + by, -begins, feature.clear_mm, part));
        let longest = fed_within(lifted, self.swiftest(), self.machine);
        let deepest = begins.min(-here.z);
        let mut depths = vec![deepest, feature.clear_mm.min(deepest)];
        depths.dedup();
        for depth in depths.into_iter().filter(|&depth| depth > LEAST_LOW_MM) {
            let Some(way) = find(depth, longest) else {
                continue;
            };
            let low = self.tried(|thread| {
                thread.run_low(&way, depth, by, part);
                thread.come_down(to + by, -begins, depth, part);
            });
            if low <= lifted {
                self.run_low(&way, depth, by, part);
                return;
            }
        }
    }

    /// How long a way at depth counts, mm of travel through the air: what a hop from there to there is longer by, at the speed of rapids,
    /// is spared. `None` where nothing is spared.
    pub(super) fn counts(&self, from: &Feature, to: &Feature, way: &Reckoned) -> Option<f64> {
        let machine = self.machine;
        let straight = from.ends.end.distance(to.ends.start);
        let level = |length: f64| rapid_from_rest_to_rest(length, machine, 0);
        let upright = |length: f64| rapid_from_rest_to_rest(length, machine, 2);
        let [x, y, _] = machine.rapid_mm_min;
        let (travel, swiftest) = (x.min(y) / 60.0, self.swiftest() / 60.0);
        let [along, across, _] = machine.acceleration_mm_s2;
        let hop = upright(from.ends_mm + self.hop)
            + level(straight)
            + upright(self.hop + to.begins_mm - ABOVE_A_FLOOR_MM)
            + ABOVE_A_FLOOR_MM * 60.0 / self.cutter.plunge_mm_min.max(1.0);
        let low = upright(from.ends_mm - way.depth)
            + way.length / swiftest
            + swiftest / along.min(across).max(f64::MIN_POSITIVE)
            + BENDS_S;
        (low < hop).then_some(straight - (hop - low) * travel)
    }

    /// Along a way at a depth.
    fn run_low(&mut self, way: &Lines, depth: f64, by: Vec2, part: (Purpose, u32)) {
        if self
            .here
            .is_some_and(|here| -depth - here.z > SAME_PLACE_MM)
        {
            self.lift(-depth);
        }
        for &(to, clear) in way {
            let feed = if clear {
                self.swiftest()
            } else {
                self.level(self.cutter.feed_mm_min)
            };
            let to = Place3 {
                xy: to + by,
                z: -depth,
            };
            self.feed(to, feed, part);
        }
    }

    /// How long motions would take from here on, from rest to rest, in seconds.
    fn tried(&self, moves: impl FnOnce(&mut Thread<'a>)) -> f64 {
        let stands = self.here.map(|to| Motion {
            to,
            course: Course::Rapid,
            purpose: None,
            layer: 0,
        });
        let mut tried = Thread {
            cutter: self.cutter,
            machine: self.machine,
            hop: self.hop,
            motions: stands.into_iter().collect(),
            here: self.here,
        };
        moves(&mut tried);
        of_motions(&tried.motions, self.machine)
    }

    /// To a place at a depth, straight down the last of the way: rapidly through the air and where the ground is known to be
    /// clear, then fed. Without lifting if the cutter stands over or under it.
    fn come_down(&mut self, to: Point, floor: f64, clear: f64, part: (Purpose, u32)) {
        let stands_there = self
            .here
            .is_some_and(|here| here.xy.distance(to) < SAME_PLACE_MM);
        if !stands_there {
            let across = match self.here {
                Some(_) => self.hop,
                None => self.machine.clear_height_mm,
            };
            self.lift(across);
            self.rapid(Place3 { xy: to, z: across });
        }
        let above = if clear > 0.0 {
            ABOVE_A_FLOOR_MM
        } else {
            ABOVE_THE_FACE_MM
        };
        let down = floor.max(-clear) + above;
        let is_known = clear > 0.0 || !stands_there;
        if is_known && self.here.is_some_and(|here| here.z > down) {
            self.rapid(Place3 { xy: to, z: down });
        }
        if self.here.is_some_and(|here| floor - here.z > SAME_PLACE_MM) {
            self.lift(floor);
        }
        let [_, _, most] = self.machine.max_feed_mm_min;
        let feed = self.cutter.plunge_mm_min.min(most);
        if self
            .here
            .is_none_or(|here| (here.z - floor).abs() > SAME_PLACE_MM)
        {
            self.feed(Place3 { xy: to, z: floor }, feed, part);
        }
    }

    /// Along a path, sloping evenly from where the cutter is to `floor`.
    fn slope(&mut self, path: &ArcPath, by: Vec2, floor: f64, feed: f64, part: (Purpose, u32)) {
        let length = path.length();
        let top = self.here.map_or(floor, |here| here.z);
        let mut passed = 0.0;
        let last = path.steps.len();
        let steps = path
            .from_and_steps()
            .zip(1..)
            .map(|((from, step), number)| {
                passed += step.length(from);
                // The end of a slope is the floor, whatever its lengths add up to.
                let down = if length > 0.0 && number < last {
                    (passed / length).min(1.0)
                } else {
                    1.0
                };
                ((from, step), top + (floor - top) * down)
            });
        self.run(steps, by, feed, part);
    }

    /// Along steps, each given with where it begins and the height at which it ends.
    fn run<'s>(
        &mut self,
        steps: impl Iterator<Item = ((Point, &'s ArcStep), f64)>,
        by: Vec2,
        feed: f64,
        part: (Purpose, u32),
    ) {
        for ((from, step), z) in steps {
            let down = self.here.map_or(0.0, |here| here.z - z);
            let feed = self.sloped(feed, down, step.length(from));
            let to = Place3 {
                xy: step.to() + by,
                z,
            };
            match *step {
                ArcStep::Line { .. } => self.feed(to, feed, part),
                ArcStep::Arc { centre, turn, .. } => self.add(
                    to,
                    Course::Arc {
                        centre: centre + by,
                        turn,
                        feed_mm_min: feed,
                    },
                    Some(part),
                ),
            }
        }
    }

    /// The feed on the level that the machine can run.
    fn level(&self, feed: f64) -> f64 {
        let [x, y, _] = self.machine.max_feed_mm_min;
        feed.min(x).min(y)
    }

    /// The feed on a slope, `down` deep over a level `length` (negative where it rises), such that neither the cutter's plunge
    /// feed nor the machine's is passed on the way down, nor the machine's on the way up, even where rounding to the program's decimals makes a short slope steeper.
    fn sloped(&self, feed: f64, down: f64, length: f64) -> f64 {
        let level = self.level(feed);
        if down == 0.0 {
            return level;
        }
        let steepest = down.abs() + ROUNDING_MM;
        let part_down = steepest / steepest.hypot((length - 2.0 * ROUNDING_MM).max(0.0));
        let [_, _, machine] = self.machine.max_feed_mm_min;
        let most = if down > 0.0 {
            self.cutter.plunge_mm_min.min(machine)
        } else {
            machine
        };
        level.min(most / part_down)
    }

    fn lift(&mut self, height: f64) {
        if let Some(here) = self.here {
            self.rapid(Place3 {
                xy: here.xy,
                z: height,
            });
        }
    }

    fn rapid(&mut self, to: Place3) {
        self.add(to, Course::Rapid, None);
    }

    fn feed(&mut self, to: Place3, feed_mm_min: f64, part: (Purpose, u32)) {
        self.add(to, Course::Line { feed_mm_min }, Some(part));
    }

    fn add(&mut self, to: Place3, course: Course, part: Option<(Purpose, u32)>) {
        self.motions.push(Motion {
            to,
            course,
            purpose: part.map(|(purpose, _)| purpose),
            layer: part.map_or(0, |(_, layer)| layer),
        });
        self.here = Some(to);
    }

    pub(super) fn end(mut self) -> Toolpath {
        self.lift(self.machine.clear_height_mm);
        Toolpath {
            cutter: self.cutter.id.clone(),
            motions: self.motions,
        }
    }
}

#[cfg(test)]
mod tests {
    use kurbo::Point;

    use super::*;
    use crate::workshop::Workshop;

    /// A slope of many short steps: rounded to a program's thousandths, none may go down faster than the plunge feed.
    #[test]
    fn short_steps_of_a_slope_keep_the_plunge_feed() {
        let workshop = Workshop::starting();
        let cutter = workshop.cutter("flat-1.5").expect("a starting cutter");
        let mut thread = Thread::new(cutter, &workshop.machine, 1.0);
        thread.feed(
            Place3 {
                xy: Point::ORIGIN,
                z: 0.0,
            },
            100.0,
            (Purpose::Rest, 0),
        );
        let steps = (1..=200).map(|step| ArcStep::Line {
            to: Point::new(f64::from(step) * 0.0057, 0.0),
        });
        let path = ArcPath {
            start: Point::ORIGIN,
            steps: steps.collect(),
        };
        thread.slope(
            &path,
            Vec2::ZERO,
            -0.06,
            cutter.feed_mm_min,
            (Purpose::Rest, 0),
        );
        let rounded = |place: Place3| {
            let thousandths = |value: f64| (value * 1000.0).round() / 1000.0;
            (
                Point::new(thousandths(place.xy.x), thousandths(place.xy.y)),
                thousandths(place.z),
            )
        };
        let mut here = (Point::ORIGIN, 0.0);
        for motion in &thread.motions[1..] {
            let there = rounded(motion.to);
            let Course::Line { feed_mm_min } = motion.course else {
                panic!("a slope along lines is cut along lines");
            };
            let down: f64 = here.1 - there.1;
            let rate = feed_mm_min * down / down.hypot(here.0.distance(there.0));
            assert!(
                rate <= cutter.plunge_mm_min * 1.000_001,
                "{rate} mm/min at {there:?}"
            );
            here = there;
        }
        assert_eq!(here.1, -0.06);
    }

    /// A cut whose depth changes goes through every depth it is given, at feeds that keep the limits down and up.
    #[test]
    fn depths_along_a_cut_are_kept() {
        let workshop = Workshop::starting();
        let cutter = workshop.cutter("cone-60").expect("a starting cutter");
        let places = [(4.0, 0.0), (8.0, 0.0), (9.0, 0.0)].map(|(x, y)| Point::new(x, y));
        let mut path = ArcPath::starting_at(Point::ORIGIN);
        path.steps = places.map(|to| ArcStep::Line { to }).to_vec();
        let cut = Cut {
            purpose: Purpose::Corners,
            layer: 0,
            depth_mm: 1.5,
            heights: Heights::Along(vec![0.5, 1.5, 1.5, 0.0]),
            entry: Entry::Plunge,
            path,
            feed_mm_min: cutter.feed_mm_min,
        };
        let mut thread = Thread::new(cutter, &workshop.machine, 1.0);
        thread.cut(&cut, Vec2::ZERO, 0.0);
        let fed: Vec<(f64, f64)> = thread
            .motions
            .iter()
            .filter_map(|motion| match motion.course {
                Course::Line { feed_mm_min } => Some((motion.to.z, feed_mm_min)),
                Course::Rapid | Course::Arc { .. } => None,
            })
            .collect();
        let heights: Vec<f64> = fed.iter().map(|(z, _)| *z).collect();
        assert_eq!(heights, [-0.5, -1.5, -1.5, 0.0]);
        assert_eq!(fed[2].1, cutter.feed_mm_min);
        let down = fed[1].1 / 1.0_f64.hypot(4.0);
        assert!(down <= cutter.plunge_mm_min, "{down} mm/min");
        let up = fed[3].1 * 1.5 / 1.5_f64.hypot(1.0);
        assert!(up > cutter.plunge_mm_min && up <= workshop.machine.max_feed_mm_min[2]);
    }
}
