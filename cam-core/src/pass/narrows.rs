//! Narrows: places where the cutter passes between letter and room, but not with the allowance kept.
//!
//! There the lane along the walls ends, and goes on a few millimetres further. To lift the cutter, to come down on the other side and to
//! come back for what lies between mostly takes longer than to go on, as near to the letter as a roughing cut may come.

use geometry::diagram::Wall;
use geometry::offset::OffsetPiece;
use kurbo::{Point, Vec2};

use crate::pass::bench::Bench;
use crate::pass::curve::{Curve, place};
use crate::pass::select::Stretch;
use crate::pass::tool::Tool;

/// The longest narrows, in radii: there the lane is a full slot, and a longer one takes more than a few liftings.
const LONGEST_RADII: f64 = 3.0;

/// How far the ends of a lane may lie from the curve through narrows, in what it is nearer to the walls.
const BESIDE: f64 = 2.0;

/// What the lane along the walls does at narrows.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Narrows {
    /// It ends there.
    Left,
    /// It goes on.
    Passed,
}

/// A way on from one stretch of the lane to another.
struct On {
    /// The number of the stretch that it leads to.
    to: usize,
    through: Curve,
}

/// Stretches of a lane along the walls, with those joined that only narrows part; `None` where there are no narrows.
pub(super) fn through_narrows(lane: &[Stretch], bench: &Bench<'_>) -> Option<Vec<Stretch>> {
    let on = Closer::new(bench).ways_on(lane);
    on.iter()
        .any(Option::is_some)
        .then(|| joined(lane, &on, bench.tool))
}

/// How near to the walls a lane goes through narrows, mm: its fit just keeps the letter whole.
fn close(tool: &Tool<'_>) -> f64 {
    tool.limit + tool.rough_fit
}

/// The curves through narrows.
struct Closer<'b> {
    bench: &'b Bench<'b>,
    curves: Vec<Curve>,
}

/// A place on one of them.
#[derive(Clone, Copy)]
struct Beside {
    curve: usize,
    along: f64,
}

impl<'b> Closer<'b> {
    fn new(bench: &'b Bench<'b>) -> Closer<'b> {
        let loops = bench.ground.offset(close(bench.tool));
        let curves = loops.iter().map(Curve::whole);
        let curves = curves.filter(|curve| bench.pocket.holds(curve)).collect();
        Closer { bench, curves }
    }

    /// For each stretch of the lane the nearest that follows it beyond narrows; each follows but one.
    fn ways_on(&self, lane: &[Stretch]) -> Vec<Option<On>> {
        let ends: Vec<Option<(Beside, Beside)>> =
            lane.iter().map(|stretch| self.ends(stretch)).collect();
        let mut is_led_to = vec![false; lane.len()];
        let mut way_on = |from: &Option<(Beside, Beside)>| {
            let (_, end) = (*from)?;
            let ways = ends.iter().enumerate().filter_map(|(to, other)| {
                let (start, _) = other.filter(|_| !is_led_to[to])?;
                let through = self.through(end, start)?;
                Some(On { to, through })
            });
            let on = ways.min_by(|a, b| a.through.length().total_cmp(&b.through.length()))?;
            is_led_to[on.to] = true;
            Some(on)
        };
        ends.iter().map(&mut way_on).collect()
    }

    /// The places beside the two ends of an open stretch.
    fn ends(&self, stretch: &Stretch) -> Option<(Beside, Beside)> {
        let curve = Some(&stretch.curve).filter(|curve| !curve.closed)?;
        let (first, last) = (curve.pieces.first()?, curve.pieces.last()?);
        Some((self.beside(first.from)?, self.beside(last.to)?))
    }

    /// The place along the letter beside the end of a lane.
    fn beside(&self, end: Point) -> Option<Beside> {
        let tool = self.bench.tool;
        let mut most = (tool.first - close(tool)) * BESIDE + tool.spacing;
        let mut nearest = None;
        for (curve, along_curve) in self.curves.iter().enumerate() {
            for (piece, begins, ends) in along_curve.pieces_along() {
                if piece.site.wall == Wall::Room {
                    continue;
                }
                for along in places_between(begins, ends, tool.spacing) {
                    let far = place(piece, along - begins).distance(end);
                    if far < most {
                        most = far;
                        nearest = Some(Beside { curve, along });
                    }
                }
            }
        }
        nearest
    }

    /// The curve along the letter from one place on to another, if it is short and half way there is no room for the allowance.
    fn through(&self, from: Beside, to: Beside) -> Option<Curve> {
        let Bench { tool, fence, .. } = *self.bench;
        let curve = self.curves.get(from.curve)?;
        let length = (to.along - from.along).rem_euclid(curve.length());
        if from.curve != to.curve || length > tool.radius * LONGEST_RADII {
            return None;
        }
        let through = curve.stretch(from.along, from.along + length);
        let is_beside_room = |piece: &OffsetPiece| piece.site.wall == Wall::Room;
        if through.pieces.is_empty() || through.pieces.iter().any(is_beside_room) {
            return None;
        }
        let path = through.fitted(tool.rough_fit);
        let (at, along) = path.at(path.length() / 2.0);
        let away = Vec2::new(-along.y, along.x) * (tool.first - close(tool));
        (fence.nearest_to(at + away) < tool.first - tool.rough_fit).then_some(through)
    }
}

/// Lengths no further apart than the spacing, both ends among them.
fn places_between(begins: f64, ends: f64, spacing: f64) -> impl Iterator<Item = f64> {
    let parts = ((ends - begins) / spacing).ceil().max(1.0);
    (0..=parts as usize).map(move |part| begins + (ends - begins) * part as f64 / parts)
}

/// The stretches chained as the ways on lead.
fn joined(lane: &[Stretch], on: &[Option<On>], tool: &Tool<'_>) -> Vec<Stretch> {
    let is_led_to = |number: &usize| on.iter().flatten().any(|on| on.to == *number);
    // Chains begin where nothing leads to; what is left then are rings.
    let begins = (0..lane.len()).filter(|number| !is_led_to(number));
    let mut is_taken = vec![false; lane.len()];
    let mut stretches = Vec::with_capacity(lane.len());
    for first in begins.chain(0..lane.len()) {
        if is_taken[first] {
            continue;
        }
        let mut parts = Vec::new();
        let mut number = first;
        // Bound: every round takes one stretch.
        while !is_taken[number] {
            is_taken[number] = true;
            parts.push(lane[number].curve.clone());
            if let Some(on) = &on[number] {
                parts.push(on.through.clone());
                number = on.to;
            }
        }
        if parts.len() == 1 {
            stretches.push(lane[first].clone());
            continue;
        }
        // A chain ends with a stretch, a ring with the way back to the first.
        let is_ring = parts.len() % 2 == 0;
        let curve = Curve::joined(&parts, is_ring);
        stretches.push(Stretch::roughing(curve, close(tool), tool));
    }
    stretches
}
