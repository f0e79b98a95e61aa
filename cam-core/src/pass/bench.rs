//! The cutter over one sort as planning goes on: where it stands, what wood is left, and what was cut.

use geometry::arc_path::ArcPath;
use geometry::diagram::{Diagram, Wall};
use kurbo::Point;

use crate::commission::Direction;
use crate::pass::Purpose;
use crate::pass::cluster::clusters;
use crate::pass::curve::Curve;
use crate::pass::entry::Start;
use crate::pass::fence::Fence;
use crate::pass::load::{Kept, Widths, kept};
use crate::pass::pieces::Pocket;
use crate::pass::route::route;
use crate::pass::select::{Stage, Stretch, wanted};
use crate::pass::spans::Wanted;
use crate::pass::tool::Tool;
use crate::raster::{Raster, Swath};
use crate::toolpath::duration::{fed_within, hopping};
use crate::toolpath::{ABOVE_A_FLOOR_MM, BENDS_S};
use crate::workshop::Machine;

/// A cut as planned in the plane, before it is repeated for each layer.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Planned {
    pub(super) purpose: Purpose,
    pub(super) path: ArcPath,
    pub(super) way: Way,
    /// Where the cutter stays down: the way over cleared ground from where it stands.
    pub(super) link: Option<Link>,
    /// In how many layers it is cut, and where slower.
    pub(super) kept: Kept,
    /// Cut once at full depth, since the ground beside it is cleared.
    pub(super) at_once: bool,
    /// Of the first cut since the cutter was lifted: the way back from the last one over cleared ground, to begin the next
    /// layer.
    pub(super) back: Option<Link>,
}

/// A way over cleared ground.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Link {
    pub(super) path: ArcPath,
    pub(super) feed_mm_min: f64,
}

/// How the cutter gets down to a planned cut.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Way {
    /// It is down.
    Stay,
    /// Straight down in cleared ground.
    Open,
    /// Straight down into wood.
    Plunge,
    /// Along a slope of its own that ends at the start of the path.
    Ramp(ArcPath),
    /// Sloping along the closed path itself.
    Along,
}

const SECONDS_PER_MINUTE: f64 = 60.0;

/// Parts of the radius: how far the cutter is moved at a time to measure what it takes, over what length that is evened out, and over what
/// length at least where a path ends.
const LOAD_STEP: f64 = 0.125;
pub(super) const LOAD_STRETCH: f64 = 0.5;
const SHORTEST_LOAD_STRETCH: f64 = 0.25;

/// What is left at the rim of a cutter, in radii, and counts as nothing where it passes over cleared ground: slivers that any cut
/// leaves between its arcs.
const SLIVER_RADII: f64 = 0.07;

/// How far from a wall, beyond the radius, a way over cleared ground meets no more than slivers of what cells do not tell, in half
/// diagonals of a cell.
const OFF_THE_WALLS: f64 = 0.3;

/// Sagitta, in cells, of the chords by which swept lanes are drawn; it is taken off the lane's width.
pub(super) const SWEPT_SAGITTA: f64 = 0.05;

#[derive(Clone)]
pub(super) struct Bench<'a> {
    pub(super) tool: &'a Tool<'a>,
    pub(super) ground: &'a Diagram,
    pub(super) fence: &'a Fence,
    /// The pocket that it works in.
    pub(super) pocket: &'a Pocket,
    pub(super) direction: Direction,
    pub(super) machine: &'a Machine,
    /// Ground that this cutter can reach and that is not yet cleared.
    pub(super) wood: Raster,
    /// What it has swept.
    pub(super) swept: Raster,
    /// The part of the wood that has to go.
    pub(super) todo: Raster,
    pub(super) cuts: Vec<Planned>,
    /// Where the cutter stands; `None` before the first cut.
    pub(super) here: Option<Point>,
    /// Whether the next cut may go on from here without lifting.
    pub(super) down: bool,
    /// The first cut since the cutter was last lifted.
    pub(super) group: Option<usize>,
    /// Whether its lane along the walls goes on through narrows.
    pub(super) passed_narrows: bool,
}

impl Bench<'_> {
    /// Cuts all stretches, place by place from the nearest, in each place stage by stage.
    pub(super) fn clear(&mut self, stages: Vec<Stage>, purpose: Purpose) {
        let mut places = clusters(stages, self.tool);
        // Bound: every round takes one place.
        while !places.is_empty() {
            let next = self.nearest(places.iter().map(|stages| {
                stages
                    .first()
                    .into_iter()
                    .flatten()
                    .map(|stretch| &stretch.curve)
            }));
            for stage in places.remove(next) {
                self.clear_stage(stage, purpose);
            }
        }
    }

    fn clear_stage(&mut self, mut stage: Stage, purpose: Purpose) {
        // Bound: every round takes one stretch.
        while !stage.is_empty() {
            let next = self.nearest(stage.iter().map(|stretch| std::iter::once(&stretch.curve)));
            self.clear_stretch(&stage.remove(next), purpose);
        }
    }

    /// The number of the group of curves of which one begins nearest to where the cutter stands; an open one begins at either end.
    fn nearest<'c, G: Iterator<Item = &'c Curve>>(&self, groups: impl Iterator<Item = G>) -> usize {
        let Some(here) = self.here else { return 0 };
        let distance = |curve: &Curve| {
            let starts: Vec<Point> = if curve.closed {
                let samples = curve.samples(self.tool.radius).into_iter();
                samples.map(|sample| sample.at).collect()
            } else {
                let (first, last) = (curve.pieces.first(), curve.pieces.last());
                let ends = first.map(|piece| piece.from).into_iter();
                ends.chain(last.map(|piece| piece.to)).collect()
            };
            let far = starts.iter().map(|at| at.distance_squared(here));
            far.fold(f64::INFINITY, f64::min)
        };
        let nearest = |group: G| group.map(distance).fold(f64::INFINITY, f64::min);
        groups
            .map(nearest)
            .enumerate()
            .min_by(|a, b| a.1.total_cmp(&b.1))
            .map_or(0, |(number, _)| number)
    }

    fn clear_stretch(&mut self, stretch: &Stretch, purpose: Purpose) {
        let needed = wanted(&stretch.curve, self.tool, &self.todo, stretch.meets);
        if needed == Wanted::Parts(Vec::new()) {
            return;
        }
        let natural = self.to_the_edge(stretch.curve.fitted(stretch.fit), stretch);
        let path = if self.runs_forward(stretch.curve.wall) {
            natural
        } else {
            natural.reversed()
        };
        let limit = stretch.distance - stretch.fit;
        let Some(start) = self.soonest(&path, stretch, limit) else {
            return;
        };
        if let Some(opening) = start.opening {
            self.add(purpose, opening.path, opening.way);
            let Some(again) = self.start(&path, stretch, limit) else {
                return;
            };
            if wanted(&stretch.curve, self.tool, &self.todo, stretch.meets)
                == Wanted::Parts(Vec::new())
            {
                return;
            }
            self.add(purpose, again.path, again.way);
            return;
        }
        self.add(purpose, start.path, start.way);
    }

    /// The way down to a path, of an open one from the end that the cutter gets to sooner, for climbing matters to finishing alone. What
    /// clears nothing at the ends of an open path is left out, but for a way in over ground that is cleared.
    fn soonest(&self, path: &ArcPath, stretch: &Stretch, limit: f64) -> Option<Start> {
        if path.is_closed() {
            return self.start(path, stretch, limit);
        }
        let forth = self.while_of_use(path);
        let back = self.while_of_use(&path.reversed());
        let least = self.while_of_use(&back.reversed());
        let starts = [least.clone(), least.reversed(), forth, back]
            .into_iter()
            .filter_map(|path| self.start(&path, stretch, limit));
        let ends = |start: &Start| {
            let along = start.path.length() / self.tool.cutter.feed_mm_min.max(1.0);
            self.coming_to(start) + along
        };
        starts.min_by(|one, other| ends(one).total_cmp(&ends(other)))
    }

    /// A path up to where it clears the last of what has to go.
    fn while_of_use(&self, path: &ArcPath) -> ArcPath {
        let radius = self.tool.sweeps;
        let step = (self.tool.radius * LOAD_STEP).max(self.todo.frame().cell);
        let mut todo = self.todo.clone();
        todo.take(path.start, path.start, radius);
        let (mut from, mut last) = (path.start, 0.0);
        for (number, at) in stations(path, step).enumerate().skip(1) {
            if todo.take(from, at, radius) > 0 {
                last = number as f64 * step;
            }
            from = at;
        }
        path.stretch(0.0, last.min(path.length()))
    }

    /// About how long the cutter takes to the start of a path, minutes.
    fn coming_to(&self, start: &Start) -> f64 {
        let Some(here) = self.here else { return 0.0 };
        let cutter = self.tool.cutter;
        let begins = start.path.start;
        match &start.way {
            Way::Stay => here.distance(begins) / self.swiftest(),
            Way::Open | Way::Along => self.lifting(here, begins),
            Way::Plunge => {
                let down = self.tool.depth / cutter.plunge_mm_min.max(1.0);
                self.lifting(here, begins) + down
            }
            Way::Ramp(slope) => {
                let down = slope.length() / cutter.feed_mm_min.max(1.0);
                self.lifting(here, slope.start) + down
            }
        }
    }

    /// The path of an open stretch beside the letter, with its ends led on as far as the room allows: no allowance is kept
    /// to its edge, and the finishing pass goes that far.
    fn to_the_edge(&self, mut path: ArcPath, stretch: &Stretch) -> ArcPath {
        let more = tool_to_edge(self.tool);
        if path.is_closed() || stretch.curve.wall == Wall::Room || path.steps.is_empty() {
            return path;
        }
        let limit = stretch.distance - stretch.fit;
        let fits = |from: Point, to: Point| self.fence.clears_line(from, to, limit);
        let (end, direction) = path.at(path.length());
        let further = path.end() + direction * more;
        if fits(end, further) {
            path.append(&ArcPath::line(path.end(), further));
        }
        let (start, direction) = path.at(0.0);
        let before = start - direction * more;
        if fits(before, start) {
            let mut longer = ArcPath::line(before, path.start);
            longer.append(&path);
            path = longer;
        }
        path
    }

    /// Whether curves along this wall are cut in the sense they come in, with the wall on the right.
    ///
    /// The spindle turns clockwise seen from above (M3). On the right of the feed the edges then move backwards, against the
    /// feed of the cutter and so with the wood's motion past it: each edge enters at full chip thickness and leaves at none.
    /// That is climb cutting, so it needs the uncut wood on the right. (Common practice, no source: an outline is climbed
    /// clockwise, a pocket counter-clockwise.) Curves along the letter come far to near, so the wood left is on the wall's
    /// side, the right; curves along the room come from outside in, so it is on the left.
    pub(super) fn runs_forward(&self, wall: Wall) -> bool {
        match (self.direction, wall) {
            (Direction::Climb, Wall::Letter) | (Direction::Conventional, Wall::Room) => true,
            (Direction::Climb, Wall::Room) | (Direction::Conventional, Wall::Letter) => false,
        }
    }

    /// Adds a cut that is made layer by layer, and takes what it clears from the wood.
    pub(super) fn add(&mut self, purpose: Purpose, path: ArcPath, way: Way) {
        self.add_evened(purpose, path, way, LOAD_STRETCH);
    }

    /// The same, with the load evened out over so many radii.
    pub(super) fn add_evened(&mut self, purpose: Purpose, path: ArcPath, way: Way, stretch: f64) {
        // The way there is looked for while the cut's own wood still stands.
        let linked = self.linked(way, path.start);
        let tool = self.tool;
        let turns = purpose != Purpose::Finishing && tool.layers > 1 && may_turn_back(&path, tool);
        let back = turns.then(|| widths(tool, &mut self.wood.clone(), &path.reversed(), stretch));
        let widths = widths(tool, &mut self.wood, &path, stretch);
        let kept = kept(&widths, back.as_ref(), tool, &linked.0);
        self.add_linked(purpose, path, linked, false, kept);
    }

    /// Adds a cut that is made once at full depth, of which it is known how its load is kept.
    pub(super) fn add_at_once(&mut self, purpose: Purpose, path: ArcPath, way: Way, kept: Kept) {
        let linked = self.linked(way, path.start);
        self.add_linked(purpose, path, linked, true, kept);
    }

    /// A way to a place with its course over cleared ground, where the cutter stays down: round what stands in between, if that is quicker
    /// than lifting.
    fn linked(&self, way: Way, to: Point) -> (Way, Option<Link>) {
        match (self.here.filter(|_| self.down), way) {
            (Some(here), Way::Stay) => (Way::Stay, self.link(ArcPath::line(here, to))),
            (Some(here), Way::Open) => match route(self, here, to) {
                Some(round) => (Way::Stay, self.link(round)),
                None => (Way::Open, None),
            },
            (_, way) => (way, None),
        }
    }

    /// Adds a cut to which the cutter gets on a way of its own over cleared ground.
    pub(super) fn add_linked(
        &mut self,
        purpose: Purpose,
        path: ArcPath,
        (way, link): (Way, Option<Link>),
        at_once: bool,
        kept: Kept,
    ) {
        // Cuts in other layers do not belong to those before them, even where the cutter stays down.
        let is_other = |last: &Planned| {
            last.way == Way::Along || last.at_once != at_once || last.kept.layers != kept.layers
        };
        if way != Way::Stay || self.cuts.last().is_some_and(is_other) {
            self.close_group();
            self.group = Some(self.cuts.len());
        }
        let ends = match &way {
            Way::Along => {
                let slope = self.tool.slope_round(path.length(), kept.layers).0;
                path.at(slope).0
            }
            Way::Stay | Way::Open | Way::Plunge | Way::Ramp(_) => path.end(),
        };
        let sagitta = self.wood.frame().cell * SWEPT_SAGITTA;
        let points = path.points(sagitta);
        self.here = Some(ends);
        self.down = true;
        let swath = Swath::new(self.wood.frame(), &points, self.tool.sweeps - sagitta);
        self.swept.set(&swath);
        self.wood.clear(&swath);
        self.todo.clear(&swath);
        self.cuts.push(Planned {
            purpose,
            path,
            way,
            link,
            kept,
            at_once,
            back: None,
        });
    }

    /// A way over cleared ground, with its feed: as fast as the machine feeds, where the cutter meets nothing but slivers. `None` for
    /// one that leads nowhere.
    pub(super) fn link(&self, path: ArcPath) -> Option<Link> {
        if path.length() <= 0.0 {
            return None;
        }
        // Cells that a wall runs through count for no wood, though some may stand there.
        let off_the_walls = self.tool.radius + OFF_THE_WALLS * self.wood.frame().half_diagonal();
        let meets = self.tool.sweeps - self.tool.radius * SLIVER_RADII;
        let mut from = path.start;
        let meets_nothing = self.fence.clears(&path, off_the_walls)
            && path.points(self.wood.frame().cell).iter().all(|&to| {
                let clear = !self.wood.any_near_line(from, to, meets);
                from = to;
                clear
            });
        Some(Link {
            path,
            feed_mm_min: if meets_nothing {
                self.swiftest()
            } else {
                self.tool.cutter.feed_mm_min
            },
        })
    }

    /// The fastest feed over cleared ground, mm/min.
    fn swiftest(&self) -> f64 {
        let [x, y, _] = self.machine.max_feed_mm_min;
        x.min(y).max(self.tool.cutter.feed_mm_min)
    }

    /// Notes whether the cuts since the cutter was lifted can be begun again without lifting.
    pub(super) fn close_group(&mut self) {
        let (Some(first), Some(here)) = (self.group.take(), self.here) else {
            return;
        };
        let cut = &self.cuts[first];
        let start = match &cut.way {
            Way::Stay | Way::Open | Way::Plunge => cut.path.start,
            Way::Ramp(ramp) => ramp.start,
            // It begins where it ends.
            Way::Along => return,
        };
        if cut.at_once {
            return;
        }
        let way = if self.may_feed(here, start, self.tool.limit) {
            Some(ArcPath::line(here, start))
        } else {
            route(self, here, start)
        };
        self.cuts[first].back = way.and_then(|way| self.link(way));
    }

    /// Whether the cutter stands in cleared ground.
    pub(super) fn is_free(&self, at: Point) -> bool {
        !self.wood.any_in_disc(at, self.tool.frees)
    }

    /// How the cutter gets to a place in cleared ground.
    pub(super) fn way_to(&self, to: Point, limit: f64) -> Way {
        match self.here {
            Some(here) if self.down && self.may_feed(here, to, limit) => Way::Stay,
            Some(_) | None => Way::Open,
        }
    }

    /// Whether the cutter may feed straight from here to there over cleared ground, and is there sooner than by lifting.
    fn may_feed(&self, from: Point, to: Point, limit: f64) -> bool {
        from.distance(to) <= self.longest_link(from, to) && self.may_pass(from, to, limit)
    }

    /// The longest way over cleared ground that takes no longer than lifting the cutter, moving it there and letting it down.
    pub(super) fn longest_link(&self, from: Point, to: Point) -> f64 {
        let seconds = (self.lifting(from, to) * SECONDS_PER_MINUTE - BENDS_S).max(0.0);
        fed_within(seconds, self.swiftest(), self.machine)
    }

    /// How long it takes to lift the cutter, to move it and to let it down, minutes.
    fn lifting(&self, from: Point, to: Point) -> f64 {
        let rises = self.machine.hop_height_mm + self.tool.depth;
        let hop = hopping(rises, from.distance(to), self.machine);
        hop / SECONDS_PER_MINUTE + ABOVE_A_FLOOR_MM / self.tool.cutter.plunge_mm_min.max(1.0)
    }

    /// Whether the ground straight from here to there is cleared and clear of the walls.
    pub(super) fn may_pass(&self, from: Point, to: Point, limit: f64) -> bool {
        !self.wood.any_near_line(from, to, self.tool.frees)
            && self.fence.clears_line(from, to, limit)
    }

    fn start(&self, path: &ArcPath, stretch: &Stretch, limit: f64) -> Option<Start> {
        crate::pass::entry::start(self, path, stretch, limit)
    }
}

/// Whether layers along a path can be run forth and back by turns: by a cutter that can go down where it stands.
pub(super) fn may_turn_back(path: &ArcPath, tool: &Tool<'_>) -> bool {
    tool.cutter.centre_cutting && !path.is_closed()
}

/// Takes the wood along a path, and tells how wide the strip of it was from stretch to stretch, each so many radii long.
pub(super) fn widths(tool: &Tool<'_>, wood: &mut Raster, path: &ArcPath, stretch: f64) -> Widths {
    let radius = tool.sweeps;
    let evened = tool.radius * stretch;
    let shortest = evened.min(tool.radius * SHORTEST_LOAD_STRETCH);
    let step = (tool.radius * LOAD_STEP).max(wood.frame().cell);
    let length = path.length();
    wood.take(path.start, path.start, radius);
    let mut widths = Widths::new();
    let (mut from, mut along, mut cells) = (path.start, 0.0, 0);
    for at in stations(path, step).skip(1) {
        cells += wood.take(from, at, radius);
        let passed = widths.last().map_or(0.0, |&(ends, _)| ends);
        along = (along + step).min(length);
        if along - passed >= evened || along >= length {
            let stretch = (along - passed).max(shortest);
            let cell = wood.frame().cell;
            widths.push((along, cells as f64 * cell * cell / stretch));
            cells = 0;
        }
        from = at;
    }
    widths
}

/// How much nearer to the room's edge than roughing curves the cutter may go, mm.
fn tool_to_edge(tool: &Tool<'_>) -> f64 {
    (tool.first - tool.wall - tool.rough_fit).max(0.0)
}

/// Places along a path with the direction there, `spacing` apart, the start included.
pub(super) fn places(path: &ArcPath, spacing: f64) -> Vec<(Point, kurbo::Vec2)> {
    let mut places = Vec::new();
    let mut next = 0.0;
    for (from, step) in path.from_and_steps() {
        let length = step.length(from);
        // Bound: lengths are finite and the spacing is a part of a cutter's radius.
        while next < length {
            places.push(step.at(from, next));
            next += spacing;
        }
        next -= length;
    }
    places
}

/// Places along a path, `spacing` apart, its start and its end included.
pub(super) fn stations(path: &ArcPath, spacing: f64) -> impl Iterator<Item = Point> {
    let places = places(path, spacing).into_iter().map(|(at, _)| at);
    places.chain([path.end()])
}
