//! Which cutter finishes which stretch of the letter's wall.
//!
//! Every piece of a finishing curve belongs to one site of the wall and to a stretch of it. What the pieces of larger cutters
//! cover is finished down to their depth; a smaller cutter takes what is left of its own pieces at its own depth, so that a wall which a
//! larger cutter could not finish to the floor is cut again further down.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use geometry::diagram::{Diagram, Site, SiteKind, Wall};
use geometry::offset::OffsetPiece;
use kurbo::Point;

use crate::pass::curve::{Curve, place};
use crate::pass::spans::{Wanted, gaps, insert};
use crate::pass::tool::Tool;
use crate::relief::ReliefMap;

/// The stretches of wall finished so far. Of a segment a stretch is given by its parts, 0 to 1; of a corner by the angle of
/// the cutter's centre, clockwise from the direction of the segment that starts there.
#[derive(Clone, Debug, Default)]
pub(super) struct Finished {
    /// For each depth, mm, what was finished down to it.
    depths: Vec<(f64, Sites)>,
}

/// Stretches by site, disjoint and in order.
type Sites = BTreeMap<Site, Vec<(f64, f64)>>;

/// Stretches of unfinished wall shorter than this are rounding, mm.
pub(super) const SHORTEST_STRETCH_MM: f64 = 0.002;

/// Lengths of wall over which one depth is asked for, mm, and the most of them along one piece.
const PART_MM: f64 = 0.5;
const MOST_PARTS: f64 = 4096.0;

/// A wall is finished to a depth where it is finished to this much less, mm: the noise of the arithmetic.
const SAME_DEPTH_MM: f64 = 1e-6;

/// The most corners that a cutter may pass over between two places that it touches, for what lies between to be judged.
const MOST_PASSED: u32 = 256;

/// Depths, mm, each between two lengths along a curve.
type Depths = Vec<(f64, f64, f64)>;

/// The wall that a cutter touches and that is not finished yet as deep as is asked for.
pub(super) struct Open {
    /// For each closed finishing curve, lengths along it.
    pub(super) stretches: Vec<Vec<(f64, f64)>>,
    /// The depths asked for along them.
    pub(super) depths: Vec<Depths>,
}

impl Open {
    /// The greatest depth asked for along what is wanted of a closed curve of this length, mm.
    pub(super) fn depth_along(&self, curve: usize, length: f64, wanted: &Wanted) -> f64 {
        let meets = |lower: f64, upper: f64| match wanted {
            Wanted::Whole => true,
            Wanted::Parts(parts) => parts.iter().any(|&(from, to)| lower < to && upper > from),
        };
        self.depths[curve]
            .iter()
            // Past the end of the curve lies its start.
            .filter(|&&(lower, upper, _)| {
                meets(lower, upper) || meets(lower + length, upper + length)
            })
            .fold(0.0, |most: f64, &(_, _, depth)| most.max(depth))
    }
}

impl Finished {
    /// What is open of the wall along closed finishing curves: not finished to the relief, or as deep as the cutter goes.
    pub(super) fn open(
        &self,
        curves: &[Curve],
        tool: &Tool<'_>,
        relief: &ReliefMap,
        ground: &Diagram,
    ) -> Open {
        let (stretches, depths) = curves
            .iter()
            .map(|curve| self.open_along(curve, tool, relief, ground))
            .unzip();
        Open { stretches, depths }
    }

    fn open_along(
        &self,
        curve: &Curve,
        tool: &Tool<'_>,
        relief: &ReliefMap,
        ground: &Diagram,
    ) -> (Vec<(f64, f64)>, Depths) {
        let mut depths = Depths::new();
        let mut open: Vec<(f64, f64)> = Vec::new();
        let mut add = |from: f64, to: f64| match open.last_mut() {
            Some(last) if from - last.1 < 1e-9 => last.1 = to,
            _ => open.push((from, to)),
        };
        for (piece, begins, ends) in curve.pieces_along() {
            if piece.site.wall == Wall::Room {
                continue;
            }
            // Deep ground beside one end of a piece is no reason to go deep at the other.
            let parts = ((ends - begins) / PART_MM).ceil().clamp(1.0, MOST_PARTS);
            let at = |part: u32| begins + (ends - begins) * f64::from(part) / parts;
            for part in 0..parts as u32 {
                let (from, to) = (at(part), at(part + 1));
                let wall = [from, (from + to) / 2.0, to]
                    .into_iter()
                    .filter_map(|along| touched(ground, piece, place(piece, along - begins)));
                let depth = wall
                    .map(|place| relief.depth_at(place))
                    .fold(0.0, f64::max)
                    .min(tool.depth);
                for (lower, upper) in self.left_of(piece, (begins, ends), depth, ground) {
                    let (lower, upper) = (lower.max(from), upper.min(to));
                    if upper - lower > SHORTEST_STRETCH_MM {
                        depths.push((lower, upper, depth));
                    }
                    if lower < upper || lower == upper && from == to {
                        add(lower, upper);
                    }
                }
            }
        }
        (open, depths)
    }

    /// Lengths along a curve between which one of its pieces touches wall that is not finished down to a depth.
    fn left_of(
        &self,
        piece: &OffsetPiece,
        (begins, ends): (f64, f64),
        depth: f64,
        ground: &Diagram,
    ) -> Vec<(f64, f64)> {
        let done = self.down_to(depth, piece.site);
        if done.is_empty() {
            return vec![(begins, ends)];
        }
        let Some((from, to)) = covered(ground, piece) else {
            return Vec::new();
        };
        let scale = if to == from {
            0.0
        } else {
            (ends - begins) / (to - from)
        };
        let mut left: Vec<(f64, f64)> = gaps(&done, from.min(to), from.max(to))
            .into_iter()
            .map(|(lower, upper)| {
                let (a, b) = ((lower - from) * scale, (upper - from) * scale);
                (begins + a.min(b), begins + a.max(b))
            })
            .collect();
        left.sort_by(|a, b| a.0.total_cmp(&b.0));
        left
    }

    /// The stretches of a site that are finished down to a depth or deeper.
    fn down_to(&self, depth: f64, site: Site) -> Vec<(f64, f64)> {
        let mut done = Vec::new();
        for (finished, sites) in &self.depths {
            if *finished < depth - SAME_DEPTH_MM {
                continue;
            }
            for &(from, to) in sites.get(&site).into_iter().flatten() {
                insert(&mut done, from, to);
            }
        }
        done
    }

    /// Counts as finished down to `depth` what a closed finishing curve at `distance` touches, and the wall between two touched
    /// places that is nowhere further than `slack` from being touched.
    pub(super) fn add(
        &mut self,
        curve: &Curve,
        depth: f64,
        (distance, slack): (f64, f64),
        ground: &Diagram,
    ) {
        let known = self.depths.iter().position(|(known, _)| *known == depth);
        let number = known.unwrap_or_else(|| {
            self.depths.push((depth, Sites::new()));
            self.depths.len() - 1
        });
        let sites = &mut self.depths[number].1;
        let mut marks = Marks { sites };
        let pieces = &curve.pieces;
        for (number, piece) in pieces.iter().enumerate() {
            if piece.site.wall == Wall::Room {
                continue;
            }
            if let Some((from, to)) = covered(ground, piece) {
                marks.mark(piece.site, from.min(to), from.max(to));
            }
            let next = &pieces[(number + 1) % pieces.len()];
            marks.bridge(piece, next, distance + slack, ground);
        }
    }

    /// Counts as not finished down to `depth` after all what a stretch of a finishing curve touches.
    pub(super) fn reopen(&mut self, stretch: &Curve, depth: f64, ground: &Diagram) {
        let Some((_, sites)) = self.depths.iter_mut().find(|known| known.0 == depth) else {
            return;
        };
        for piece in &stretch.pieces {
            let Some((from, to)) = covered(ground, piece) else {
                continue;
            };
            let Some(done) = sites.get_mut(&piece.site) else {
                continue;
            };
            let open = [(from.min(to), from.max(to))];
            *done = done
                .iter()
                .flat_map(|&(lower, upper)| gaps(&open, lower, upper))
                .collect();
        }
    }
}

/// Where finished stretches of one depth are noted.
struct Marks<'s> {
    sites: &'s mut Sites,
}

impl Marks<'_> {
    fn mark(&mut self, site: Site, from: f64, to: f64) {
        insert(self.sites.entry(site).or_default(), from, to);
    }

    /// Marks the wall passed over between two neighbouring pieces, if all of it is within `reach` of the place where they
    /// meet. A finishing curve has the letter on its right, so it goes down the numbers of the ring.
    fn bridge(&mut self, piece: &OffsetPiece, next: &OffsetPiece, reach: f64, ground: &Diagram) {
        let (a, b) = (piece.site, next.site);
        if b.wall == Wall::Room || a.ring != b.ring || a == b {
            return;
        }
        let Some(count) = ring_length(ground, a) else {
            return;
        };
        let before = |index: u32| if index == 0 { count - 1 } else { index - 1 };
        // The corners that lie between, from the one after `a` to the one before `b`.
        let mut corner = match a.kind {
            SiteKind::Segment => a.index,
            SiteKind::Corner => before(a.index),
        };
        let stop = match b.kind {
            SiteKind::Segment => b.index,
            SiteKind::Corner => before(b.index),
        };
        let mut passed = Vec::new();
        while corner != stop {
            if passed.len() as u32 > MOST_PASSED.min(count) {
                return;
            }
            // A corner that is the next site itself is no gap.
            if b.kind == SiteKind::Corner && corner == b.index {
                break;
            }
            passed.push(corner);
            corner = before(corner);
        }
        let site = |index: u32, kind: SiteKind| Site { index, kind, ..a };
        let near = |&index: &u32| {
            ground
                .segment(site(index, SiteKind::Corner))
                .is_some_and(|(at, _)| at.distance(piece.to) <= reach)
        };
        if passed.is_empty() || !passed.iter().all(near) {
            return;
        }
        for &index in &passed {
            self.mark(site(index, SiteKind::Corner), 0.0, TAU);
        }
        for pair in passed.windows(2) {
            self.mark(site(pair[1], SiteKind::Segment), 0.0, 1.0);
        }
        if let (SiteKind::Segment, Some(part)) = (a.kind, part_of(ground, a, piece.to)) {
            self.mark(a, 0.0, part);
        }
        if a.kind == SiteKind::Corner {
            self.mark(site(before(a.index), SiteKind::Segment), 0.0, 1.0);
        }
        match (b.kind, part_of(ground, b, next.from)) {
            (SiteKind::Segment, Some(part)) => self.mark(b, part, 1.0),
            (SiteKind::Corner, _) => self.mark(site(b.index, SiteKind::Segment), 0.0, 1.0),
            (SiteKind::Segment, None) => {}
        }
    }
}

/// The stretch of its site that a piece touches, from its start to its end.
fn covered(ground: &Diagram, piece: &OffsetPiece) -> Option<(f64, f64)> {
    match piece.site.kind {
        SiteKind::Segment => Some((
            part_of(ground, piece.site, piece.from)?,
            part_of(ground, piece.site, piece.to)?,
        )),
        SiteKind::Corner => {
            let (at, next) = ground.segment(piece.site)?;
            let angle = |place: Point| {
                let (reference, arm) = (next - at, place - at);
                let clockwise = arm.cross(reference).atan2(arm.dot(reference));
                if clockwise < 0.0 {
                    clockwise + TAU
                } else {
                    clockwise
                }
            };
            Some((angle(piece.from), angle(piece.to)))
        }
    }
}

/// The place of the wall that a piece touches from a place on it.
fn touched(ground: &Diagram, piece: &OffsetPiece, from: Point) -> Option<Point> {
    let (start, end) = ground.segment(piece.site)?;
    Some(match piece.site.kind {
        SiteKind::Segment => start.lerp(end, part_of(ground, piece.site, from)?),
        SiteKind::Corner => start,
    })
}

/// The part of a segment, 0 to 1, that lies straight beside a place.
fn part_of(ground: &Diagram, site: Site, place: Point) -> Option<f64> {
    let (from, to) = ground.segment(site)?;
    let line = to - from;
    Some(((place - from).dot(line) / line.hypot2()).clamp(0.0, 1.0))
}

fn ring_length(ground: &Diagram, site: Site) -> Option<u32> {
    let ring = ground.letter().rings().nth(site.ring as usize)?;
    u32::try_from(ring.len()).ok()
}
