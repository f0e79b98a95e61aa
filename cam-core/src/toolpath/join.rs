//! The passes of one cutter over a plank, strung together into motions.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use geometry::arc_path::{ArcPath, ArcStep};
use geometry::distance::WallIndex;
use kurbo::{Point, Vec2};
use rayon::prelude::*;

use crate::pass::{Cut, Entry, Heights, Purpose, SortPasses};
use crate::plank::{Place, Plank};
use crate::sort::Sort;
use crate::toolpath::duration::of_motions;
use crate::toolpath::features::{Feature, Floor, SAME_PLACE_MM, features};
use crate::toolpath::low::{Ground, Lines, Low};
use crate::toolpath::order::{self, Care, Ends, Stop};
use crate::toolpath::{Course, Motion, Place3, Toolpath};
use crate::workshop::{Cutter, Machine, Workshop};

/// Height above the face, or above a floor known to be cleared, down to which the cutter comes rapidly, mm; from there on it is
/// fed.
const APPROACH_MM: f64 = 0.5;

/// A way at depth that lies less deep than this is no shorter than lifting, mm.
const LEAST_LOW_MM: f64 = 0.2;

/// By how much rounding to a program's decimals may move an end of a motion, mm.
const ROUNDING_MM: f64 = 0.001;

/// Height of a row, mm: blocks whose lower edges differ by less lie in one row.
const ROW_MM: f64 = 0.01;

/// Strings the passes of one cutter over all sorts of a plank together, in plank space.
///
/// `passes_per_sort` counts as `sorts` does, the commission's. What is cut without lifting stays together and in order; for the
/// rest, an order with short ways is found over the whole plank, in which cuts on the same ground follow one another as they
/// were planned. Between cuts the cutter moves at the machine's hop height, for on the plank nothing stands higher than the
/// face, and clamps lie outside of all rooms; where the ground is known to be clear and keeps off the letter it stays down, at the machine's
/// fastest feed. It comes and goes at the clear height. No motions where the cutter has nothing to do
/// on this plank.
pub fn join(
    plank: &Plank,
    sorts: &[Arc<Sort>],
    passes_per_sort: &[Arc<Vec<SortPasses>>],
    cutter: &Cutter,
    workshop: &Workshop,
) -> Toolpath {
    let used: BTreeSet<usize> = plank.places.iter().map(|place| place.sort).collect();
    let used: Vec<usize> = used.into_iter().collect();
    let found: Vec<(usize, Vec<Planned<'_>>)> = used
        .par_iter()
        .filter_map(|&sort| {
            let passes = passes_per_sort.get(sort)?;
            let letter = sorts
                .get(sort)
                .map(|sort| WallIndex::new(sort.face.rings()));
            Some((
                sort,
                planned(passes, letter.map(Arc::new), cutter, workshop),
            ))
        })
        .collect();
    let found: BTreeMap<usize, Vec<Planned<'_>>> = found.into_iter().collect();
    let laid = in_rows(&plank.places)
        .into_iter()
        .filter_map(|place| Some((found.get(&place.sort)?.as_slice(), place.at)));
    strung(laid, Care::Thorough, cutter, &workshop.machine)
}

/// Strings the passes of one cutter over one sort by itself together, in face space, as [`join`] does for a plank but with less
/// care for the order: for estimates.
pub fn join_one(passes: &SortPasses, cutter: &Cutter, machine: &Machine) -> Toolpath {
    let planned = [Planned::new(passes, cutter, &Floor::default(), None)];
    strung(
        std::iter::once((planned.as_slice(), Vec2::ZERO)),
        Care::Quick,
        cutter,
        machine,
    )
}

/// Strings the passes that separate a plank together, in their order and lifting to the clear height, for blocks come loose;
/// they are in plank space already.
pub fn join_separation(passes: &SortPasses, cutter: &Cutter, machine: &Machine) -> Toolpath {
    let mut thread = Thread::new(cutter, machine, machine.clear_height_mm);
    for cut in &passes.cuts {
        thread.cut(cut, Vec2::ZERO, 0.0);
    }
    thread.end()
}

/// The passes of a cutter over a sort with their features.
struct Planned<'p> {
    passes: &'p SortPasses,
    features: Vec<Feature>,
    /// What each feature clears.
    cleared: Vec<Floor>,
    /// The ground, if ways at depth are asked for.
    ground: Option<Ground>,
}

impl<'p> Planned<'p> {
    fn new(
        passes: &'p SortPasses,
        cutter: &Cutter,
        before: &Floor,
        letter: Option<Arc<WallIndex>>,
    ) -> Planned<'p> {
        let features = features(passes, cutter, before);
        let cleared = features.iter().map(|feature| {
            let mut floor = Floor::default();
            floor.add(&passes.cuts[feature.cuts.clone()], cutter);
            floor
        });
        let cleared: Vec<Floor> = cleared.collect();
        let ground = letter.and_then(|letter| Ground::new(&passes.cuts, before, letter, cutter));
        Planned {
            passes,
            cleared,
            features,
            ground,
        }
    }
}

/// What a cutter does on a sort, after the cutters before it.
fn planned<'p>(
    passes: &'p [SortPasses],
    letter: Option<Arc<WallIndex>>,
    cutter: &Cutter,
    workshop: &Workshop,
) -> Vec<Planned<'p>> {
    let mut floor = Floor::default();
    let mut planned = Vec::new();
    for passes in passes {
        if passes.cutter == cutter.id {
            planned.push(Planned::new(passes, cutter, &floor, letter.clone()));
        }
        if let Some(cutter) = workshop.cutter(&passes.cutter) {
            floor.add(&passes.cuts, cutter);
        }
    }
    planned
}

/// Everything laid where it belongs, in a good order.
fn strung<'p>(
    laid: impl Iterator<Item = (&'p [Planned<'p>], Vec2)>,
    care: Care,
    cutter: &Cutter,
    machine: &Machine,
) -> Toolpath {
    let mut stops: Vec<Stop> = Vec::new();
    let mut meant: Vec<Meant<'_>> = Vec::new();
    let mut pieces = 0;
    for (planned, by) in laid {
        for planned in planned {
            let first = stops.len();
            for (number, feature) in planned.features.iter().enumerate() {
                stops.push(Stop {
                    options: vec![Ends {
                        start: feature.ends.start + by,
                        end: feature.ends.end + by,
                    }],
                    after: feature.after.iter().map(|stop| first + stop).collect(),
                });
                meant.push(Meant {
                    planned,
                    number,
                    piece: pieces,
                    by,
                });
            }
            pieces += 1;
        }
    }
    let mut thread = Thread::new(cutter, machine, machine.hop_height_mm);
    let mut copies: Vec<Option<Copy<'_>>> = Vec::new();
    copies.resize_with(pieces, || None);
    let mut last: Option<&Meant<'_>> = None;
    for visit in order::order(&stops, care) {
        let here = &meant[visit.stop];
        let feature = &here.planned.features[here.number];
        let cuts = &here.planned.passes.cuts[feature.cuts.clone()];
        let copy = copies[here.piece].get_or_insert_with(|| Copy::new(here.planned));
        let before = last.filter(|last| last.piece == here.piece);
        if let (Some(before), Some(first)) = (before, cuts.first()) {
            thread.stay_low(copy, (before.number, feature), first, here.by);
        }
        for (number, cut) in cuts.iter().enumerate() {
            // Only where the feature begins is it known how deep the ground is clear.
            let clear = if number == 0 { feature.clear_mm } else { 0.0 };
            if feature.doubtful.contains(&(feature.cuts.start + number)) {
                let slower = Cut {
                    feed_mm_min: cutter.feed_mm_min,
                    ..cut.clone()
                };
                thread.cut(&slower, here.by, clear);
            } else {
                thread.cut(cut, here.by, clear);
            }
        }
        copy.cut.push(here.number);
        if copy.cut.len() == here.planned.features.len() {
            copies[here.piece] = None;
        }
        last = Some(here);
    }
    thread.end()
}

/// A feature where it lies on the plank.
struct Meant<'p> {
    planned: &'p Planned<'p>,
    /// Its number among the features planned with it.
    number: usize,
    /// Those of one cutter on one copy of a sort have this number in common.
    piece: usize,
    by: Vec2,
}

/// What is done of a cutter's work on one copy of a sort.
struct Copy<'p> {
    planned: &'p Planned<'p>,
    /// The features cut, in that order.
    cut: Vec<usize>,
    low: Option<Low<'p>>,
}

impl<'p> Copy<'p> {
    fn new(planned: &'p Planned<'p>) -> Copy<'p> {
        Copy {
            planned,
            cut: Vec::new(),
            low: planned.ground.as_ref().map(Low::new),
        }
    }

    /// A way at a depth, no longer than `longest` mm, from where a feature ends to a place.
    fn way(&mut self, from: usize, to: Point, depth: f64, longest: f64) -> Option<Lines> {
        let planned = self.planned;
        let last = planned.passes.cuts[planned.features[from].cuts.clone()].last()?;
        let low = self.low.as_mut()?;
        low.way(last, to, depth, longest, &self.cut, &planned.cleared)
    }
}

/// Places row by row from below, every other row from right to left.
pub(crate) fn in_rows(places: &[Place]) -> Vec<&Place> {
    let row = |place: &Place| (place.at.y / ROW_MM).round();
    let mut sorted: Vec<&Place> = places.iter().collect();
    sorted.sort_by(|a, b| {
        let across = a.at.x.total_cmp(&b.at.x);
        row(a).total_cmp(&row(b)).then(across)
    });
    let rows = sorted.chunk_by(|a, b| row(a) == row(b)).enumerate();
    rows.flat_map(|(number, row)| {
        let mut row = row.to_vec();
        if number % 2 == 1 {
            row.reverse();
        }
        row
    })
    .collect()
}

/// The motions so far, and where they end.
struct Thread<'a> {
    cutter: &'a Cutter,
    machine: &'a Machine,
    /// Height of rapids between cuts, mm.
    hop: f64,
    motions: Vec<Motion>,
    here: Option<Place3>,
}

impl<'a> Thread<'a> {
    fn new(cutter: &'a Cutter, machine: &'a Machine, hop: f64) -> Thread<'a> {
        Thread {
            cutter,
            machine,
            hop: hop.max(APPROACH_MM).min(machine.clear_height_mm),
            motions: Vec::new(),
            here: None,
        }
    }

    /// A cut. Where the cutter comes down for it, the ground is clear down to a depth of `clear` mm.
    fn cut(&mut self, cut: &Cut, by: Vec2, clear: f64) {
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

    /// To where a feature begins on a way at depth, from the end of the one before it, if one is known that takes no longer than
    /// lifting the cutter.
    fn stay_low(
        &mut self,
        copy: &mut Copy<'_>,
        (before, feature): (usize, &Feature),
        first: &Cut,
        by: Vec2,
    ) {
        let Some(here) = self.here else { return };
        let (to, part) = (feature.ends.start, (first.purpose, first.layer));
        if here.xy.distance(to + by) < SAME_PLACE_MM {
            return;
        }
        let begins = match first.entry {
            Entry::Ramp { from_depth_mm, .. } => from_depth_mm,
            Entry::StayDown | Entry::Open | Entry::Plunge => first.start_depth_mm(),
        };
        let lifted =
            self.tried(|thread| thread.come_down(to + by, -begins, feature.clear_mm, part));
        let longest = self.fed_within(lifted);
        let deepest = begins.min(-here.z);
        let mut depths = vec![deepest, feature.clear_mm.min(deepest)];
        depths.dedup();
        for depth in depths.into_iter().filter(|&depth| depth > LEAST_LOW_MM) {
            let Some(way) = copy.way(before, to, depth, longest) else {
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

    /// How far the cutter comes at the fastest feed in so many seconds, from rest to rest, mm.
    fn fed_within(&self, seconds: f64) -> f64 {
        let speed = self.swiftest() / 60.0;
        let [x, y, _] = self.machine.acceleration_mm_s2;
        let speeding = speed / x.min(y).max(f64::MIN_POSITIVE);
        if seconds > speeding {
            (seconds - speeding) * speed
        } else {
            seconds * seconds * x.min(y) / 4.0
        }
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
        let down = floor.max(-clear) + APPROACH_MM;
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

    fn end(mut self) -> Toolpath {
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
