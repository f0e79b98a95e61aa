//! What one cutter does on one sort, in pieces between which it is lifted: what must come before what, and how deep it may
//! come down rapidly.

#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::ops::Range;

use geometry::arc_path::{ArcPath, ArcStep, runs_past};
use kurbo::{Point, Rect, Vec2};

use crate::pass::{Cut, Entry, Heights, SortPasses};
use crate::raster::{Chain, Frame, Swath};
use crate::toolpath::order::Ends;
use crate::workshop::{Cutter, CutterShape};

/// Places nearer than this are the same place, mm.
pub(super) const SAME_PLACE_MM: f64 = 1e-6;

/// Cuts from one lifting of the cutter to the next.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Feature {
    /// The cuts, by their numbers in the passes.
    pub(super) cuts: Range<usize>,
    /// Where the cutter comes down first and is lifted in the end.
    pub(super) ends: Ends,
    /// How deep it starts to cut where it comes down, and how deep it is in the end, mm.
    pub(super) begins_mm: f64,
    pub(super) ends_mm: f64,
    /// The earlier features whose ground it may have in common, by number.
    pub(super) after: Vec<usize>,
    /// Depth to which the ground is known to be clear where the cutter comes down, mm; 0 if nothing is known.
    pub(super) clear_mm: f64,
    /// Ways, by their numbers among the cuts, that are faster than the cutter may cut and not known to be clear.
    pub(super) doubtful: Vec<usize>,
}

/// The features of the passes of a cutter over a sort, on a floor that is cleared before them.
pub(super) fn features(passes: &SortPasses, cutter: &Cutter, before: &Floor) -> Vec<Feature> {
    let mut floor = before.clone();
    let radius = cutter.radius_mm();
    let mut ground = Ground::new(radius);
    let runs = runs(&passes.cuts);
    let mut features = Vec::with_capacity(runs.len());
    for (number, cuts) in runs.into_iter().enumerate() {
        let of_run = &passes.cuts[cuts.clone()];
        let (Some(first), Some(last)) = (of_run.first(), of_run.last()) else {
            continue;
        };
        let start = entry_start(first);
        let after = ground.take(number, of_run);
        let clear_mm = floor.clear_around(start, radius);
        let mut doubtful = Vec::new();
        for (number, cut) in of_run.iter().enumerate() {
            if cut.feed_mm_min > cutter.feed_mm_min && !floor.is_clear_along(cut, cutter) {
                doubtful.push(cuts.start + number);
            }
            floor.add(std::slice::from_ref(cut), cutter);
        }
        features.push(Feature {
            cuts,
            ends: Ends {
                start,
                end: last.path.end(),
            },
            begins_mm: entry_depth(first),
            ends_mm: last.end_depth_mm(),
            after,
            clear_mm,
            doubtful,
        });
    }
    features
}

/// Where the cutter comes down for a cut.
pub(super) fn entry_start(cut: &Cut) -> Point {
    match &cut.entry {
        Entry::Ramp { path, .. } => path.start,
        Entry::Open | Entry::Plunge | Entry::StayDown => cut.path.start,
    }
}

/// How deep the cutter starts to cut where it comes down for a cut, mm.
fn entry_depth(cut: &Cut) -> f64 {
    match cut.entry {
        Entry::Ramp { from_depth_mm, .. } => from_depth_mm,
        Entry::Open | Entry::Plunge | Entry::StayDown => cut.start_depth_mm(),
    }
}

/// The cuts parted where the cutter is lifted between them: where one neither follows on staying down, nor comes down at the
/// very place where the cutter stands.
fn runs(cuts: &[Cut]) -> Vec<Range<usize>> {
    let mut runs: Vec<Range<usize>> = Vec::new();
    for (number, cut) in cuts.iter().enumerate() {
        let goes_on = number.checked_sub(1).is_some_and(|before| {
            let before = &cuts[before];
            let level = (before.end_depth_mm() - cut.start_depth_mm()).abs() < SAME_PLACE_MM;
            let stays = matches!(cut.entry, Entry::StayDown) && level;
            stays || before.path.end().distance(entry_start(cut)) < SAME_PLACE_MM
        });
        match runs.last_mut() {
            Some(run) if goes_on => run.end = number + 1,
            Some(_) | None => runs.push(number..number + 1),
        }
    }
    runs
}

/// Distance between the places where a path is looked at, in radii.
const SPACING: f64 = 0.5;

/// Sides of squares, in radii: places of paths whose discs overlap anywhere lie in the same square or in neighbouring ones.
const SQUARE: f64 = 2.0 + SPACING;

/// Which features have swept near which places, on squares a little wider than the cutter.
struct Ground {
    radius: f64,
    swept: BTreeMap<(i64, i64), Vec<usize>>,
}

impl Ground {
    fn new(radius: f64) -> Ground {
        Ground {
            radius: radius.max(0.01),
            swept: BTreeMap::new(),
        }
    }

    /// Notes what a feature sweeps, and tells which ones swept the same ground before it.
    fn take(&mut self, number: usize, cuts: &[Cut]) -> Vec<usize> {
        let side = SQUARE * self.radius;
        let square = |at: Point| ((at.x / side).floor() as i64, (at.y / side).floor() as i64);
        let mut own: Vec<(i64, i64)> = Vec::new();
        for cut in cuts {
            for path in paths(cut) {
                for at in places(path, SPACING * self.radius) {
                    let at = square(at);
                    if own.last() != Some(&at) {
                        own.push(at);
                    }
                }
            }
        }
        own.sort_unstable();
        own.dedup();
        let mut after: Vec<usize> = own
            .iter()
            .flat_map(|&(x, y)| (-1..=1).flat_map(move |i| (-1..=1).map(move |j| (x + i, y + j))))
            .filter_map(|square| self.swept.get(&square))
            .flatten()
            .copied()
            .collect();
        after.sort_unstable();
        after.dedup();
        for square in own {
            self.swept.entry(square).or_default().push(number);
        }
        after
    }
}

/// The paths of a cut: the way down, if it has one of its own, and the cut itself.
fn paths(cut: &Cut) -> impl Iterator<Item = &ArcPath> {
    let ramp = match &cut.entry {
        Entry::Ramp { path, .. } => Some(path),
        Entry::Open | Entry::Plunge | Entry::StayDown => None,
    };
    ramp.into_iter().chain(std::iter::once(&cut.path))
}

/// Places along a path no further apart than the spacing, both ends among them.
fn places(path: &ArcPath, spacing: f64) -> Vec<Point> {
    let mut places = vec![path.start];
    for (from, step) in path.from_and_steps() {
        let length = step.length(from);
        let parts = (length / spacing).ceil().clamp(1.0, MOST_PLACES) as u32;
        for part in 1..=parts {
            let (at, _) = step.at(from, length * f64::from(part) / f64::from(parts));
            places.push(at);
        }
    }
    places
}

/// The most places looked at along one step: ten metres at the finest.
const MOST_PLACES: f64 = 1e5;

/// Distance between the places at which a cutter's disc is looked at, mm.
const SAMPLE_MM: f64 = 0.07;

/// So much less than its radius a cut is taken to clear: no place between the samples is then further from one than that.
const MARGIN_MM: f64 = 0.05;

/// What the rim of a cutter that comes down may meet, mm: hardly more than the margin, so that a cutter may come down on its own
/// lane.
pub(super) const RIM_MM: f64 = 0.06;

/// The level cuts of flat cutters: what they have certainly cleared.
#[derive(Clone, Default)]
pub(super) struct Floor {
    lanes: Vec<Lane>,
}

/// One step of a cut.
#[derive(Clone)]
struct Lane {
    from: Point,
    step: ArcStep,
    reach: f64,
    bounds: Rect,
    depth: f64,
}

/// Sagitta, in cells, of the chords by which lanes are drawn on a raster.
const LANE_SAGITTA: f64 = 0.2;

/// What rounding to a program's decimals and the fit of arcs to it may take off a lane's side, mm.
const ROUNDING_MM: f64 = 0.002;

/// So much of a cutter's diameter its rim may meet where it is fed across cleared ground, less than a tenth of the thinnest cut.
pub(super) const SIDE_PART: f64 = 0.04;

impl Floor {
    /// Adds what these cuts clear.
    pub(super) fn add(&mut self, cuts: &[Cut], cutter: &Cutter) {
        let is_flat = cutter.shape == CutterShape::Flat;
        for cut in cuts
            .iter()
            .filter(|cut| is_flat && cut.heights == Heights::Level)
        {
            let reach = cutter.radius_mm() - MARGIN_MM;
            for (from, step) in cut.path.from_and_steps() {
                let bounds = bounds(from, step).inflate(reach, reach);
                self.lanes.push(Lane {
                    from,
                    step: *step,
                    reach,
                    bounds,
                    depth: cut.depth_mm,
                });
            }
        }
    }

    /// Whether nothing is known to be cleared.
    pub(super) fn is_empty(&self) -> bool {
        self.lanes.is_empty()
    }

    /// The boxes of the centre lines of all lanes.
    pub(super) fn centres(&self) -> impl Iterator<Item = Rect> {
        let lanes = self.lanes.iter();
        lanes.map(|lane| Rect::from_points(lane.from, lane.step.to()))
    }

    /// The lanes that are as deep as that.
    fn deep(&self, depth: f64) -> impl Iterator<Item = &Lane> {
        let lanes = self.lanes.iter();
        lanes.filter(move |lane| lane.depth >= depth - SAME_PLACE_MM)
    }

    /// How many lanes are as deep as that. Deeper ones are always among them, so two depths with as many have the same lanes.
    pub(super) fn as_deep_as(&self, depth: f64) -> usize {
        self.deep(depth).count()
    }

    /// The cells of a frame that are certainly cleared down to a depth.
    pub(super) fn cleared(&self, frame: Frame, depth: f64) -> Swath {
        let sagitta = frame.cell * LANE_SAGITTA;
        let chains: Vec<Chain> = self
            .deep(depth)
            .filter_map(|lane| {
                let path = ArcPath {
                    start: lane.from,
                    steps: vec![lane.step],
                };
                let reach = lane.reach + MARGIN_MM - ROUNDING_MM - sagitta - frame.half_diagonal();
                (reach > 0.0).then(|| (path.points(sagitta), reach))
            })
            .collect();
        Swath::of(frame, &chains)
    }

    /// Whether the ground is clear, to the depth of a level cut of straight lines, all along it.
    fn is_clear_along(&self, cut: &Cut, cutter: &Cutter) -> bool {
        cut.heights == Heights::Level
            && cut.path.from_and_steps().all(|(from, step)| match step {
                ArcStep::Line { to } => {
                    let floors = std::iter::once(self);
                    clear_between(floors, from, *to, cutter) >= cut.depth_mm - SAME_PLACE_MM
                }
                ArcStep::Arc { .. } => false,
            })
    }

    /// Depth to which the whole disc of a cutter is clear at a place, mm.
    fn clear_around(&self, at: Point, radius: f64) -> f64 {
        clear_along([self].into_iter(), at, at, radius - RIM_MM)
    }
}

/// Depth to which the ground is clear for a cutter that is fed straight from place to place, mm, by what several floors tell.
fn clear_between<'f>(
    floors: impl Iterator<Item = &'f Floor>,
    from: Point,
    to: Point,
    cutter: &Cutter,
) -> f64 {
    let rim = RIM_MM.max(cutter.diameter.in_mm() * SIDE_PART);
    clear_along(floors, from, to, cutter.radius_mm() - rim)
}

/// Depth to which a strip, half as wide as `disc`, is clear, mm; 0 where nothing is known.
fn clear_along<'f>(
    floors: impl Iterator<Item = &'f Floor>,
    from: Point,
    to: Point,
    disc: f64,
) -> f64 {
    let disc = disc.max(0.0);
    let strip = Rect::from_points(from, to).inflate(disc, disc);
    let mut near: Vec<&Lane> = floors
        .flat_map(|floor| &floor.lanes)
        .filter(|lane| lane.bounds.overlaps(strip))
        .collect();
    near.sort_by(|a, b| b.depth.total_cmp(&a.depth));
    let mut depths: Vec<f64> = near.iter().map(|lane| lane.depth).collect();
    depths.dedup();
    depths
        .into_iter()
        .find(|&depth| {
            let deep = near.partition_point(|lane| lane.depth >= depth);
            is_covered(&near[..deep], (from, to), disc)
        })
        .unwrap_or(0.0)
}

/// Whether lanes cover all that is within `disc` of a line.
fn is_covered(lanes: &[&Lane], (from, to): (Point, Point), disc: f64) -> bool {
    if lanes.iter().any(|lane| lane.holds((from, to), disc)) {
        return true;
    }
    let line = to - from;
    let beside = |place: Point| {
        let along = (place - from).dot(line) / line.hypot2().max(f64::MIN_POSITIVE);
        from + line * along.clamp(0.0, 1.0)
    };
    let strip = Rect::from_points(from, to).inflate(disc, disc);
    let columns = (strip.width() / SAMPLE_MM).ceil() as u32;
    let rows = (strip.height() / SAMPLE_MM).ceil() as u32;
    // The lane that covered the place before mostly covers the next.
    let mut last = 0;
    (0..=rows).all(|row| {
        (0..=columns).all(|column| {
            let at = strip.origin() + Vec2::new(f64::from(column), f64::from(row)) * SAMPLE_MM;
            let middle = beside(at);
            let arm = at - middle;
            let far = arm.hypot();
            if far > disc + SAMPLE_MM {
                return true;
            }
            // Places just outside are drawn in to the rim.
            let place = middle + if far > disc { arm * (disc / far) } else { arm };
            if lanes.get(last).is_some_and(|lane| lane.covers(place)) {
                return true;
            }
            let found = lanes.iter().position(|lane| lane.covers(place));
            last = found.unwrap_or(last);
            found.is_some()
        })
    })
}

impl Lane {
    /// Whether it covers all that is within `disc` of a line by itself: surely so where both ends keep off its side, if it is straight or they
    /// are one place.
    fn holds(&self, (from, to): (Point, Point), disc: f64) -> bool {
        let is_convex = from == to || matches!(self.step, ArcStep::Line { .. });
        let ends = [from, to];
        is_convex
            && ends.iter().all(|&end| {
                self.bounds.contains(end)
                    && distance(self.from, &self.step, end) <= self.reach - disc
            })
    }

    fn covers(&self, place: Point) -> bool {
        self.reach > 0.0
            && self.bounds.contains(place)
            && distance2(self.from, &self.step, place) <= self.reach * self.reach
    }
}

/// Distance of a place from a step.
fn distance(from: Point, step: &ArcStep, place: Point) -> f64 {
    distance2(from, step, place).sqrt()
}

/// The square of that distance, by which many places are told quickly.
fn distance2(from: Point, step: &ArcStep, place: Point) -> f64 {
    let ends = || {
        let to = step.to();
        place.distance_squared(from).min(place.distance_squared(to))
    };
    match *step {
        ArcStep::Line { to } => {
            let (line, arm) = (to - from, place - from);
            let (along, length2) = (arm.dot(line), line.hypot2());
            if along <= 0.0 || along >= length2 {
                return ends();
            }
            let across = arm.cross(line);
            across * across / length2
        }
        ArcStep::Arc { to, centre, turn } => {
            let arm = place - centre;
            if !runs_past(from, to, centre, turn, arm) {
                return ends();
            }
            let radius = from.distance_squared(centre).sqrt();
            (arm.hypot2().sqrt() - radius).powi(2)
        }
    }
}

/// The box around a step; of an arc, around its circle.
fn bounds(from: Point, step: &ArcStep) -> Rect {
    match *step {
        ArcStep::Line { to } => Rect::from_points(from, to),
        ArcStep::Arc { centre, .. } => {
            let radius = from.distance(centre);
            Rect::from_points(centre, centre).inflate(radius, radius)
        }
    }
}
