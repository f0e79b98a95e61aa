//! Outlines cut along an upright or level line, their curves kept.
//!
//! Where a closed curve's ways beyond a line are replaced by straight ways along it, it winds round every place on this side as often as
//! before: what is taken out and what is put in lie beyond together. So what is filled on this side stays the same. Ends on the line are joined
//! in pairs between which the outline winds once more, or once less, than outside them; so no straight way runs back over another.
//!
//! # Source
//! Textbook (winding numbers; roots by halving between the places where a curve turns back).

use std::collections::BTreeMap;

use kurbo::common::solve_quadratic;
use kurbo::{
    BezPath, CubicBez, Line, ParamCurve, ParamCurveDeriv, PathEl, PathSeg, Point, QuadBez, Vec2,
};

/// An upright or level line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Straight {
    /// Upright, at an x.
    Upright(f64),
    /// Level, at a y.
    Level(f64),
}

/// A side of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Where the coordinate across the line is less than the line's.
    Below,
    /// Where it is more.
    Above,
}

/// Where an outline crosses a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Where on the line: its other coordinate.
    pub along: f64,
    /// How far the outline is from square to the line there, in radians, 0 to a right angle.
    pub slope: f64,
}

/// What lies no further from the line than this lies on it, mm: rounding.
const ON_LINE_MM: f64 = 1e-9;

/// Halvings until a root is known to all figures of a double.
const HALVINGS: usize = 60;

/// What of an outline lies on one side of a line, closed along it, for the nonzero rule.
///
/// Curves keep their kind, and lie on those of the whole to within rounding. Open subpaths are closed. What runs on the line itself is put in
/// where it borders on this side alone.
pub fn one_side(outline: &BezPath, line: Straight, side: Side) -> BezPath {
    let parted = Parted::new(outline, line, side);
    let mut path = BezPath::new();
    for whole in &parted.wholes {
        add_loop(&mut path, &whole.iter().collect::<Vec<_>>());
    }
    let follows = parted.follows();
    let mut used = vec![false; parted.chains.len()];
    for first in 0..used.len() {
        let mut pieces: Vec<&PathSeg> = Vec::new();
        let mut at = first;
        // Every turn uses up a chain.
        while !used[at] {
            used[at] = true;
            pieces.extend(&parted.chains[at]);
            at = follows[at];
        }
        add_loop(&mut path, &pieces);
    }
    path
}

/// The stretches of a line within an outline that is filled by the nonzero rule, in order: where each begins and ends.
///
/// Where an outline touches the line without crossing it no stretch begins or ends. Where it runs along the line, what lies below counts.
pub fn stretches(outline: &BezPath, line: Straight) -> Vec<[Crossing; 2]> {
    let parted = Parted::new(outline, line, Side::Below);
    let mut found = Vec::new();
    let (mut level, mut begun) = (0, None);
    for end in parted.ends() {
        let crossing = parted.crossing(&end);
        if level == 0 {
            begun = Some(crossing);
        }
        level += end.step();
        if level == 0 {
            found.extend(begun.take().map(|from| [from, crossing]));
        }
    }
    found
}

impl Straight {
    /// A place as seen from the line: across it, and along it.
    fn seen(self, place: Point) -> [f64; 2] {
        match self {
            Straight::Upright(_) => [place.x, place.y],
            Straight::Level(_) => [place.y, place.x],
        }
    }

    fn at(self) -> f64 {
        match self {
            Straight::Upright(at) | Straight::Level(at) => at,
        }
    }

    /// The nearest place on the line.
    fn foot(self, place: Point) -> Point {
        match self {
            Straight::Upright(x) => Point::new(x, place.y),
            Straight::Level(y) => Point::new(place.x, y),
        }
    }

    /// How far a place lies above the line; below 0 on its other side, and 0 on it.
    fn height(self, place: Point) -> f64 {
        let height = self.seen(place)[0] - self.at();
        if height.abs() <= ON_LINE_MM {
            0.0
        } else {
            height
        }
    }

    /// The parameters at which a segment begins, turns back across the line, and ends, each with the height there.
    fn knots(self, segment: &PathSeg) -> Vec<(f64, f64)> {
        let across = |place: Point| self.seen(place)[0];
        let turns = match *segment {
            PathSeg::Line(_) => Vec::new(),
            PathSeg::Quad(QuadBez { p0, p1, p2 }) => {
                let [a, b, c] = [p0, p1, p2].map(across);
                vec![(a - b) / (a - 2.0 * b + c)]
            }
            PathSeg::Cubic(CubicBez { p0, p1, p2, p3 }) => {
                let [a, b, c, d] = [p0, p1, p2, p3].map(across);
                let quadratic = d - a + 3.0 * (b - c);
                solve_quadratic(b - a, 2.0 * (a - 2.0 * b + c), quadratic).to_vec()
            }
        };
        let mut at: Vec<f64> = turns
            .into_iter()
            .filter(|turn| *turn > 0.0 && *turn < 1.0)
            .chain([0.0, 1.0])
            .collect();
        at.sort_by(f64::total_cmp);
        let height = |at: f64| self.height(segment.eval(at));
        at.into_iter().map(|at| (at, height(at))).collect()
    }

    /// The parameters at which a segment crosses the line, in order, given its knots.
    fn crossings(self, segment: &PathSeg, knots: &[(f64, f64)]) -> Vec<f64> {
        let mut found = Vec::new();
        // The last knot beside the line, and one on the line after it.
        let (mut beside, mut on_line): (Option<(f64, f64)>, Option<f64>) = (None, None);
        for &(at, height) in knots {
            if height == 0.0 {
                on_line = Some(at);
                continue;
            }
            if let Some((from, before)) = beside
                && (before > 0.0) != (height > 0.0)
            {
                found.push(on_line.unwrap_or_else(|| self.root(segment, [from, at])));
            }
            (beside, on_line) = (Some((at, height)), None);
        }
        found
    }

    /// Where a segment crosses the line between two parameters at which it lies on either side.
    fn root(self, segment: &PathSeg, between: [f64; 2]) -> f64 {
        let is_above = |at: f64| self.seen(segment.eval(at))[0] > self.at();
        let [mut from, mut to] = between;
        let begins_above = is_above(from);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(from, to);
            if is_above(middle) == begins_above {
                from = middle;
            } else {
                to = middle;
            }
        }
        to
    }

    /// A chain with its ends brought onto the line, from which rounding alone keeps them.
    fn fitted(self, mut chain: Vec<PathSeg>) -> Vec<PathSeg> {
        if let Some(first) = chain.first_mut() {
            *first = between(*first, self.foot(first.start()), first.end());
        }
        if let Some(last) = chain.last_mut() {
            *last = between(*last, last.start(), self.foot(last.end()));
        }
        chain
    }

    /// A segment in pieces, none of which crosses the line, each with the side on which it lies; none of what runs on the line.
    fn pieces(self, segment: PathSeg) -> Vec<(PathSeg, Option<Side>)> {
        let knots = self.knots(&segment);
        let mut pieces = Vec::new();
        let mut from = 0.0;
        for to in self.crossings(&segment, &knots).into_iter().chain([1.0]) {
            let within = knots.iter().filter(|(at, _)| (from..=to).contains(at));
            let furthest = within
                .map(|(_, height)| *height)
                .max_by(|a, b| a.abs().total_cmp(&b.abs()));
            let side = match furthest {
                Some(height) if height > 0.0 => Some(Side::Above),
                Some(height) if height < 0.0 => Some(Side::Below),
                Some(_) | None => None,
            };
            let piece = if (from, to) == (0.0, 1.0) {
                segment
            } else {
                segment.subsegment(from..to)
            };
            pieces.push((piece, side));
            from = to;
        }
        pieces
    }
}

/// An outline parted at a line.
struct Parted {
    line: Straight,
    /// Closed curves that have no part beyond the line.
    wholes: Vec<Vec<PathSeg>>,
    /// Ways on the side that is kept, from the line to the line.
    chains: Vec<Vec<PathSeg>>,
}

/// An end of a chain.
#[derive(Clone, Copy, Debug)]
struct End {
    along: f64,
    chain: usize,
    begins: bool,
}

impl End {
    /// By how much the outline winds more or less behind the end than before it, along the line; which of the two is of no account.
    fn step(&self) -> i32 {
        if self.begins { 1 } else { -1 }
    }
}

impl Parted {
    fn new(outline: &BezPath, line: Straight, side: Side) -> Parted {
        let mut parted = Parted {
            line,
            wholes: Vec::new(),
            chains: Vec::new(),
        };
        for subpath in subpaths(outline) {
            let pieces = subpath.into_iter().flat_map(|segment| line.pieces(segment));
            let pieces = pieces.map(|(piece, of)| (piece, of == Some(side)));
            parted.add(pieces.collect());
        }
        parted
    }

    /// Adds the pieces of a closed curve that are to be kept.
    fn add(&mut self, pieces: Vec<(PathSeg, bool)>) {
        let count = pieces.len();
        let is_kept = |index: usize| pieces[index % count].1;
        let begins = |index: usize| is_kept(index) && !is_kept(index + count - 1);
        let Some(first) = (0..count).find(|&index| begins(index)) else {
            if pieces.iter().any(|(_, kept)| *kept) {
                self.wholes
                    .push(pieces.into_iter().map(|(piece, _)| piece).collect());
            }
            return;
        };
        let mut chain = Vec::new();
        for index in first..first + count {
            if is_kept(index) {
                chain.push(pieces[index % count].0);
            } else if !chain.is_empty() {
                self.chains
                    .push(self.line.fitted(std::mem::take(&mut chain)));
            }
        }
    }

    /// All ends of chains, in order along the line.
    fn ends(&self) -> Vec<End> {
        let along = |place: Point| self.line.seen(place)[1];
        let mut ends = Vec::new();
        for (chain, pieces) in self.chains.iter().enumerate() {
            if let (Some(first), Some(last)) = (pieces.first(), pieces.last()) {
                for (place, begins) in [(first.start(), true), (last.end(), false)] {
                    let along = along(place);
                    ends.push(End {
                        along,
                        chain,
                        begins,
                    });
                }
            }
        }
        ends.sort_by(|a, b| a.along.total_cmp(&b.along));
        ends
    }

    /// The chain that follows each chain along the line.
    fn follows(&self) -> Vec<usize> {
        let mut follows: Vec<usize> = (0..self.chains.len()).collect();
        let mut level = 0;
        // The end that waits for its partner, by the lower of the levels that it parts.
        let mut waiting: BTreeMap<i32, End> = BTreeMap::new();
        for end in self.ends() {
            let lower = level.min(level + end.step());
            level += end.step();
            match waiting.remove(&lower) {
                None => {
                    waiting.insert(lower, end);
                }
                Some(other) if other.begins => follows[end.chain] = other.chain,
                Some(other) => follows[other.chain] = end.chain,
            }
        }
        follows
    }

    /// Where and how steeply the outline crosses the line at an end.
    fn crossing(&self, end: &End) -> Crossing {
        let pieces = &self.chains[end.chain];
        let piece = if end.begins {
            pieces.first()
        } else {
            pieces.last()
        };
        let heading = piece.map_or(Vec2::ZERO, |piece| {
            let at = if end.begins { 0.0 } else { 1.0 };
            let velocity = velocity(piece, at);
            // A curve whose handle lies on its end leads to its other handle, near enough to its middle.
            if velocity.hypot() > 0.0 {
                velocity
            } else {
                piece.eval(0.5) - piece.eval(at)
            }
        });
        let [across, along] = self.line.seen(heading.to_point());
        Crossing {
            along: end.along,
            slope: along.abs().atan2(across.abs()),
        }
    }
}

/// The subpaths, each closed by a straight way if it is not closed by itself.
fn subpaths(outline: &BezPath) -> Vec<Vec<PathSeg>> {
    let mut subpaths: Vec<Vec<PathSeg>> = Vec::new();
    let (mut at, mut start) = (Point::ZERO, Point::ZERO);
    let close = |subpaths: &mut Vec<Vec<PathSeg>>, from: Point, to: Point| {
        if let Some(subpath) = subpaths.last_mut()
            && from != to
        {
            subpath.push(Line::new(from, to).into());
        }
    };
    for element in outline.elements() {
        let segment = match *element {
            PathEl::MoveTo(to) => {
                close(&mut subpaths, at, start);
                subpaths.push(Vec::new());
                (at, start) = (to, to);
                continue;
            }
            PathEl::ClosePath => {
                close(&mut subpaths, at, start);
                // What goes on from here without a move begins at the same place.
                subpaths.push(Vec::new());
                at = start;
                continue;
            }
            PathEl::LineTo(to) => Line::new(at, to).into(),
            PathEl::QuadTo(a, to) => QuadBez::new(at, a, to).into(),
            PathEl::CurveTo(a, b, to) => CubicBez::new(at, a, b, to).into(),
        };
        if let Some(subpath) = subpaths.last_mut() {
            subpath.push(segment);
        }
        at = segment.end();
    }
    close(&mut subpaths, at, start);
    subpaths.retain(|subpath| !subpath.is_empty());
    subpaths
}

/// Adds a closed curve; where a piece does not begin at the end of the one before, a straight way leads there.
fn add_loop(path: &mut BezPath, pieces: &[&PathSeg]) {
    let (Some(first), Some((last, others))) = (pieces.first(), pieces.split_last()) else {
        return;
    };
    // Closing draws a last straight way by itself.
    let is_drawn = matches!(last, PathSeg::Line(line) if line.p1 == first.start());
    let mut at = first.start();
    path.move_to(at);
    for piece in others.iter().chain((!is_drawn).then_some(last)) {
        if at != piece.start() {
            path.line_to(piece.start());
        }
        path.push(piece.as_path_el());
        at = piece.end();
    }
    if at != last.start() && is_drawn {
        path.line_to(last.start());
    }
    path.close_path();
}

/// A segment with other ends.
fn between(segment: PathSeg, start: Point, end: Point) -> PathSeg {
    match segment {
        PathSeg::Line(_) => Line::new(start, end).into(),
        PathSeg::Quad(quad) => QuadBez::new(start, quad.p1, end).into(),
        PathSeg::Cubic(cubic) => CubicBez::new(start, cubic.p1, cubic.p2, end).into(),
    }
}

/// How fast a segment runs at a parameter.
fn velocity(segment: &PathSeg, at: f64) -> Vec2 {
    match segment {
        PathSeg::Line(line) => line.p1 - line.p0,
        PathSeg::Quad(quad) => quad.deriv().eval(at).to_vec2(),
        PathSeg::Cubic(cubic) => cubic.deriv().eval(at).to_vec2(),
    }
}

#[cfg(test)]
mod tests;
