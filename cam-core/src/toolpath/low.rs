//! Ways at depth: from where the cutter is done to where it begins next on the same sort, round the letter, over ground that is
//! cleared by then.
//!
//! They are looked for on a lattice, from the place where the cutter stands and from places along the cut that it just made, for back
//! along that it always fits; corners that can be cut short are left out. Where nothing at all stands in the way the cutter is fed as fast
//! as the machine can, and where its rim meets a little of what a lane left, at the feed that it cuts with.

mod lengths;

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use geometry::distance::WallIndex;
use kurbo::{Point, Rect};

use crate::lattice::{self, Lattice, Node, cut_short};
use crate::pass::{Cut, Heights};
use crate::raster::{Frame, Raster, Swath};
use crate::toolpath::features::{Floor, RIM_MM, SAME_PLACE_MM, SIDE_PART};
use crate::workshop::Cutter;

pub(super) use lengths::{Reckoned, lengths};

/// A way at depth that lies less deep than this is no shorter than lifting, mm.
pub(super) const LEAST_LOW_MM: f64 = 0.2;

/// Side of a cell in parts of what the rim of a cutter may meet: so its own lane counts as clear.
const CELL: f64 = 0.65;

/// The coarsest cells, mm: what the rim of a large cutter meets is told as finely as that of a small one.
const COARSEST_CELL_MM: f64 = 0.06;

/// Cells of one sort, more than which they are made coarser.
const MOST_CELLS: f64 = 6e6;

/// Spacing of the lattice, in radii of the cutter, and at least, mm: the lane along a wall is hardly wider than the cutter.
const LATTICE: f64 = 0.12;
const LEAST_LATTICE_MM: f64 = 0.35;

/// The most places of the lattice looked at for one way.
const MOST_PLACES: usize = 20_000;

/// The most places along the cut before from which ways begin, and their spacing in radii.
const MOST_SEEDS: usize = 48;
const SEED_SPACING: f64 = 0.5;

/// Part of the radius that a cutter's rim may meet of what a lane left, and part of the load that it is set to take.
const SLIVER: f64 = 0.12;
const SLIVER_LOAD: f64 = 0.5;

/// What rounding to a program's decimals may move the two ends of a line by, mm.
const ROUNDING_MM: f64 = 0.002;

/// What is known of the ground of one sort before a cutter comes to it.
pub(super) struct Ground {
    frame: Frame,
    /// Where the middle of the cutter may be.
    centres: Rect,
    letter: Arc<WallIndex>,
    radius: f64,
    /// What the rim may meet at the fastest feed, mm.
    rim: f64,
    /// Load that a sliver may make, mm².
    sliver: f64,
    before: Floor,
    /// The wood that so many of its lanes, the deepest, leave, as far as it was asked for: the same for all copies of the sort.
    left: Mutex<Vec<(usize, Raster)>>,
    /// What so many of the lanes of a feature of this cutter clear, by the feature's number, as far as it was asked for.
    cleared: Mutex<Vec<(usize, usize, Arc<Swath>)>>,
}

/// The wood that is left at one depth, after so many of the features cut.
struct Wood {
    depth: f64,
    left: Raster,
    taken: usize,
}

/// The ground of one copy as it is cut.
pub(super) struct Low<'g> {
    ground: &'g Ground,
    woods: Vec<Wood>,
}

/// A way at depth: the ends of its lines, with whether they meet nothing at all.
pub(super) type Lines = Vec<(Point, bool)>;

impl Ground {
    /// The ground of a sort before cuts of a cutter; `None` where these make no place for ways.
    pub(super) fn new(
        cuts: &[Cut],
        before: &Floor,
        letter: Arc<WallIndex>,
        cutter: &Cutter,
    ) -> Option<Ground> {
        let paths = cuts.iter().flat_map(|cut| cut.path.from_and_steps());
        let own = paths.map(|(from, step)| Rect::from_points(from, step.to()));
        let centres = own
            .chain(before.centres())
            .reduce(|area, of| area.union(of))?;
        let radius = cutter.radius_mm();
        let rim = RIM_MM.max(cutter.diameter.in_mm() * SIDE_PART);
        let area = centres.inflate(2.0 * radius, 2.0 * radius);
        let cell = (rim * CELL).min(COARSEST_CELL_MM);
        let cell = cell.max((area.area() / MOST_CELLS).sqrt());
        let frame = Frame::over(area, cell);
        let sliver = cutter.step_over.in_mm() * cutter.step_down.in_mm() * SLIVER_LOAD;
        Some(Ground {
            frame,
            centres,
            letter,
            radius,
            rim,
            sliver,
            before: before.clone(),
            left: Mutex::default(),
            cleared: Mutex::default(),
        })
    }

    /// Whether other cutters cleared some of it before.
    pub(super) fn is_cleared_before(&self) -> bool {
        !self.before.is_empty()
    }

    /// The wood that is left at a depth before this cutter.
    fn left_at(&self, depth: f64) -> Raster {
        let deep = self.before.as_deep_as(depth);
        // Whatever is in the list is whole.
        let mut known = self.left.lock().unwrap_or_else(PoisonError::into_inner);
        let found = known.iter().find(|(lanes, _)| *lanes == deep);
        if let Some((_, left)) = found {
            return left.clone();
        }
        let left = left(self.frame, self.area(), &self.before, depth);
        known.push((deep, left.clone()));
        left
    }

    /// What a feature clears at a depth; `None` if that is nothing.
    fn cleared_by(&self, number: usize, floor: &Floor, depth: f64) -> Option<Arc<Swath>> {
        let deep = floor.as_deep_as(depth);
        if deep == 0 {
            return None;
        }
        // Whatever is in the list is whole.
        let known = || self.cleared.lock().unwrap_or_else(PoisonError::into_inner);
        let found = known()
            .iter()
            .find(|of| (of.0, of.1) == (number, deep))
            .map(|(_, _, swath)| swath.clone());
        Some(found.unwrap_or_else(|| {
            let swath = Arc::new(floor.cleared(self.frame, depth));
            known().push((number, deep, swath.clone()));
            swath
        }))
    }

    fn area(&self) -> Rect {
        self.centres.inflate(2.0 * self.radius, 2.0 * self.radius)
    }

    /// Within which no cell may hold wood where the cutter is to meet nothing.
    fn swift_disc(&self) -> f64 {
        (self.radius - self.rim + self.frame.half_diagonal()).max(0.0)
    }

    /// Within which no cell may hold wood where its rim may meet a sliver of a depth.
    fn cutting_disc(&self, depth: f64) -> f64 {
        let sliver = (self.radius * SLIVER).min(self.sliver / depth.max(SAME_PLACE_MM));
        (self.radius - sliver.max(self.rim)).max(0.0)
    }

    /// How near the middle of the cutter may come to the letter.
    fn limit(&self) -> f64 {
        self.radius + ROUNDING_MM
    }
}

fn is_same_depth(one: f64, other: f64) -> bool {
    (one - other).abs() < SAME_PLACE_MM
}

/// The wood that a floor leaves at a depth.
fn left(frame: Frame, area: Rect, floor: &Floor, depth: f64) -> Raster {
    let mut left = Raster::empty(frame);
    let corners = [
        (area.x0, area.y0),
        (area.x1 + frame.cell, area.y0),
        (area.x1 + frame.cell, area.y1 + frame.cell),
        (area.x0, area.y1 + frame.cell),
    ];
    left.set_inside(&[corners.map(Point::from).to_vec()]);
    left.clear(&floor.cleared(frame, depth));
    left.refresh();
    left
}

impl<'g> Low<'g> {
    /// Before anything is cut.
    pub(super) fn new(ground: &'g Ground) -> Low<'g> {
        Low {
            ground,
            woods: Vec::new(),
        }
    }

    /// A way at a depth from where the last cut ends to a place, no longer than `longest` mm, once these features are cut.
    pub(super) fn way(
        &mut self,
        last: &Cut,
        to: Point,
        depth: f64,
        longest: f64,
        cut: &[usize],
        cleared: &[Floor],
    ) -> Option<Lines> {
        let ground = self.ground;
        let from = last.path.end();
        if from.distance(to) > longest {
            return None;
        }
        let wood = &self.wood_at(depth, cut, cleared).left;
        let search = Search {
            ground,
            wood,
            free: ground.cutting_disc(depth),
            spacing: (ground.radius * LATTICE).max(LEAST_LATTICE_MM),
            to,
        };
        if !search.is_free(to) {
            return None;
        }
        let seeds = seeds(last, depth, ground.radius * SEED_SPACING, longest);
        let corners = search.corners(&seeds, longest)?;
        let mut lines = Lines::new();
        let swift = ground.swift_disc();
        let mut here = from;
        for corner in corners {
            let clear = !wood.any_near_line(here, corner, swift);
            lines.push((corner, clear));
            here = corner;
        }
        Some(lines)
    }

    fn wood_at(&mut self, depth: f64, cut: &[usize], cleared: &[Floor]) -> &Wood {
        let ground = self.ground;
        let known = self
            .woods
            .iter()
            .position(|wood| is_same_depth(wood.depth, depth));
        let number = known.unwrap_or_else(|| {
            self.woods.push(Wood {
                depth,
                left: ground.left_at(depth),
                taken: 0,
            });
            self.woods.len() - 1
        });
        let wood = &mut self.woods[number];
        if wood.taken < cut.len() {
            for &feature in &cut[wood.taken..] {
                if let Some(cleared) = ground.cleared_by(feature, &cleared[feature], depth) {
                    wood.left.clear(&cleared);
                }
            }
            wood.taken = cut.len();
            wood.left.refresh();
        }
        wood
    }
}

/// A place from which a way may begin, so far back along the last cut.
struct Seed {
    at: Point,
    passed: f64,
}

/// Where the last cut ends, and places back along it if all of it is as deep as the way.
fn seeds(last: &Cut, depth: f64, spacing: f64, longest: f64) -> Vec<Seed> {
    let mut seeds = vec![Seed {
        at: last.path.end(),
        passed: 0.0,
    }];
    let is_level = last.heights == Heights::Level && last.depth_mm >= depth - SAME_PLACE_MM;
    if !is_level {
        return seeds;
    }
    let length = last.path.length();
    for number in 1..=MOST_SEEDS {
        let passed = spacing * number as f64;
        if passed > length.min(longest) {
            break;
        }
        let at = last.path.at(length - passed).0;
        seeds.push(Seed { at, passed });
    }
    seeds
}

/// A search for a way to one place over what is cleared at one depth.
struct Search<'s> {
    ground: &'s Ground,
    wood: &'s Raster,
    /// How far from its middle the cutter must be free.
    free: f64,
    spacing: f64,
    to: Point,
}

impl Search<'_> {
    fn is_free(&self, at: Point) -> bool {
        self.may_pass(at, at)
    }

    fn may_pass(&self, from: Point, to: Point) -> bool {
        let (inside, limit) = (self.ground.centres, self.ground.limit());
        let holds = |at: Point| {
            (inside.x0..=inside.x1).contains(&at.x) && (inside.y0..=inside.y1).contains(&at.y)
        };
        holds(from)
            && holds(to)
            && !self.wood.any_near_line(from, to, self.free)
            && self.ground.letter.nearest_to_line(from, to, limit) >= limit
    }

    /// The corners of the best way from the first of the seeds, its end included.
    fn corners(&self, seeds: &[Seed], longest: f64) -> Option<Vec<Point>> {
        let to = self.to;
        let mut straight: Option<(f64, usize)> = None;
        for (number, seed) in seeds.iter().enumerate() {
            let whole = seed.passed + seed.at.distance(to);
            let best = straight.map_or(longest, |(best, _)| best);
            if whole < best && self.may_pass(seed.at, to) {
                straight = Some((whole, number));
            }
        }
        // Only what is shorter than a straight way is of use.
        let longest = straight.map_or(longest, |(best, _)| best).next_down();
        let lattice = Lattice {
            origin: self.ground.centres.origin(),
            spacing: self.spacing,
        };
        let mut search = lattice::Search::new(lattice, to, longest);
        for (number, seed) in seeds.iter().enumerate() {
            for node in lattice.around(seed.at) {
                let at = lattice.place(node);
                let passed = seed.passed + seed.at.distance(at);
                search.begin(node, passed, number, || self.may_pass(seed.at, at));
            }
        }
        let mut free: BTreeMap<Node, bool> = BTreeMap::new();
        let found = search.find(
            MOST_PLACES,
            |_, next, there| *free.entry(next).or_insert_with(|| self.is_free(there)),
            |at| self.may_pass(at, to),
        );
        let (seed, on) = match found {
            Some(found) => found,
            None => (straight?.1, vec![to]),
        };
        // Back along the last cut to the seed, and on.
        let back = seeds.get(..=seed)?.iter().map(|seed| seed.at);
        let places: Vec<Point> = back.chain(on).collect();
        cut_short(&places, |from, to| self.may_pass(from, to))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pass::{Entry, Purpose};
    use crate::workshop::Workshop;
    use geometry::arc_path::{ArcPath, ArcStep};

    const DEPTH: f64 = 2.0;

    fn cut(places: &[(f64, f64)]) -> Cut {
        let mut path = ArcPath::starting_at(Point::from(places[0]));
        path.steps = places[1..]
            .iter()
            .map(|&to| ArcStep::Line { to: to.into() })
            .collect();
        Cut {
            purpose: Purpose::Roughing,
            layer: 0,
            depth_mm: DEPTH,
            heights: Heights::Level,
            entry: Entry::Plunge,
            path,
            feed_mm_min: 900.0,
        }
    }

    /// A way from the left of a square letter to its right, over lanes that were cut before.
    fn way(lanes: &[Cut], longest: f64) -> Option<Lines> {
        let workshop = Workshop::starting();
        let cutter = workshop.cutter("flat-3").expect("a starting cutter");
        let square = [(20.0, 20.0), (30.0, 20.0), (30.0, 30.0), (20.0, 30.0)];
        let letter = Arc::new(WallIndex::new([&square.map(Point::from).to_vec()]));
        let mut before = Floor::default();
        before.add(lanes, cutter);
        let last = cut(&[(18.0, 22.0), (18.0, 25.0)]);
        let mut own = Floor::default();
        own.add(std::slice::from_ref(&last), cutter);
        let ground = Ground::new(std::slice::from_ref(&last), &before, letter, cutter)?;
        let to = Point::new(32.0, 25.0);
        Low::new(&ground).way(&last, to, DEPTH, longest, &[0], &[own])
    }

    #[test]
    fn the_cutter_goes_round_a_letter_over_lanes() {
        let round = cut(&[
            (18.0, 25.0),
            (18.0, 32.0),
            (32.0, 32.0),
            (32.0, 18.0),
            (31.0, 18.0),
        ]);
        let found = way(std::slice::from_ref(&round), 60.0).expect("a way over the top");
        assert_eq!(
            found.last().map(|line| line.0),
            Some(Point::new(32.0, 25.0))
        );
        let mut length = 0.0;
        let mut from = Point::new(18.0, 25.0);
        for &(to, clear) in &found {
            // Where it cuts off a lane's corner its rim meets a sliver; along the lanes nothing at all.
            assert!(clear || from.distance(to) < 1.5, "{found:?}");
            // Above the letter and its sides, never nearer than the cutter's radius.
            let middle = from.midpoint(to);
            let beyond = |at: f64| (20.0 - at).max(at - 30.0).max(0.0);
            let away = beyond(middle.x).hypot(beyond(middle.y));
            assert!(away >= 1.5, "{middle:?}");
            length += from.distance(to);
            from = to;
        }
        assert!((26.0..29.0).contains(&length), "{length} mm");
        assert_eq!(way(std::slice::from_ref(&round), 20.0), None);
    }

    #[test]
    fn wood_left_in_the_lanes_stops_the_cutter() {
        let lanes = [
            cut(&[(18.0, 25.0), (18.0, 32.0), (23.0, 32.0)]),
            cut(&[(27.0, 32.0), (32.0, 32.0), (32.0, 25.0)]),
        ];
        assert_eq!(way(&lanes, 200.0), None);
    }
}
